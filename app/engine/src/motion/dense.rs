//! Small dense systems of equations.

/// Solves `matrix · x = right` in place for a symmetric positive definite
/// matrix (Cholesky). `false` when it is not positive definite.
pub(super) fn solve(matrix: &mut [f64], right: &mut [f64]) -> bool {
    let size = right.len();
    for i in 0..size {
        for j in 0..=i {
            let (above, row) = matrix.split_at(i * size);
            let done = if i == j { row } else { &above[j * size..] };
            let sum = row[j] - (0..j).map(|k| row[k] * done[k]).sum::<f64>();
            matrix[i * size + j] = if i == j {
                if !(sum > 0.0 && sum.is_finite()) {
                    return false;
                }
                sum.sqrt()
            } else {
                sum / matrix[j * size + j]
            };
        }
    }
    for i in 0..size {
        let known: f64 = (0..i).map(|k| matrix[i * size + k] * right[k]).sum();
        right[i] = (right[i] - known) / matrix[i * size + i];
    }
    for i in (0..size).rev() {
        let known: f64 = (i + 1..size).map(|k| matrix[k * size + i] * right[k]).sum();
        right[i] = (right[i] - known) / matrix[i * size + i];
    }
    true
}

/// Which unknowns a symmetric positive semidefinite system leaves free: those
/// that take part in a vector which the matrix sends to nothing.
pub(super) fn undetermined(mut matrix: Vec<f64>, size: usize) -> Vec<bool> {
    /// Squared ratio of singular values that counts as nothing: the geometry
    /// is given to 1/72 µm on cards of some 100 mm.
    const NOTHING: f64 = 1e-10;
    /// A share of movement too small to see.
    const STILL: f64 = 1e-4;
    let mut order: Vec<usize> = (0..size).collect();
    let largest = (0..size).fold(0.0, |most: f64, i| most.max(matrix[i * size + i]));
    let mut rank = 0;
    // Gauss–Jordan with the largest diagonal first, which is complete pivoting
    // for such a matrix.
    while rank < size {
        let at = |index: usize| matrix[order[index] * size + order[index]];
        let best = (rank..size).fold(rank, |best, i| if at(i) > at(best) { i } else { best });
        if at(best) <= NOTHING * largest {
            break;
        }
        order.swap(rank, best);
        let pivot = order[rank];
        let by = matrix[pivot * size + pivot];
        for column in 0..size {
            matrix[pivot * size + column] /= by;
        }
        for row in (0..size).filter(|row| *row != pivot) {
            let factor = matrix[row * size + pivot];
            for column in 0..size {
                matrix[row * size + column] -= factor * matrix[pivot * size + column];
            }
        }
        rank += 1;
    }
    let (bound, loose) = order.split_at(rank);
    let mut free = vec![false; size];
    for column in loose {
        free[*column] = true;
        for row in bound {
            free[*row] |= matrix[row * size + column].abs() > STILL;
        }
    }
    free
}
