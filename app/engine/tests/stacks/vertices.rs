//! Creases round one point, against the theorems of flat folding.

use std::collections::BTreeSet;

use foldwright_engine::fold::{Orders, Stack};

use crate::sheet::{Sheet, every_labelling, labelled};

/// Whether some order keeps these labels.
fn folds(vertex: &Stack, labels: &str) -> bool {
    let order = Orders::stacked(&labelled(vertex, labels)).first(&[]);
    assert!(order.is_ok(), "a vertex is decided quickly: {labels}");
    order != Ok(None)
}

fn mountains(labels: &str) -> usize {
    labels.chars().filter(|label| *label == 'M').count()
}

/// The labels with which a vertex folds. Maekawa and Justin: mountains and
/// valleys differ by two; the others are left out where that is not the
/// question.
fn valid(sectors: &[f64], turned: f64) -> Vec<String> {
    let vertex = Sheet::vertex(sectors, turned).folded();
    every_labelling(sectors.len())
        .filter(|labels| (2 * mountains(labels)).abs_diff(labels.len()) == 2)
        .filter(|labels| folds(&vertex, labels))
        .collect()
}

/// Vertices of degree 4 with their valid labels, by exhaustive search in the
/// setting of Hull, "The Combinatorics of Flat Folds" (2002).
#[test]
fn four_creases() {
    let cases = [
        ([60.0, 90.0, 120.0, 90.0], "MMMV MVVV VMMM VVVM"),
        ([45.0, 90.0, 135.0, 90.0], "MMMV MVVV VMMM VVVM"),
        ([30.0, 60.0, 150.0, 120.0], "MMMV MVVV VMMM VVVM"),
        ([60.0, 60.0, 120.0, 120.0], "MMMV MVMM MVVV VMMM VMVV VVVM"),
        ([100.0, 80.0, 80.0, 100.0], "MMVM MVMM MVVV VMMM VMVV VVMV"),
        ([45.0, 135.0, 135.0, 45.0], "MMMV MMVM MVVV VMMM VVMV VVVM"),
    ];
    for (sectors, expected) in cases {
        let vertex = Sheet::vertex(&sectors, 0.0).folded();
        let found: BTreeSet<String> = every_labelling(4)
            .filter(|labels| folds(&vertex, labels))
            .collect();
        let expected: BTreeSet<String> = expected.split(' ').map(str::to_owned).collect();
        assert_eq!(found, expected, "{sectors:?}");
    }
    let square = Sheet::vertex(&[90.0; 4], 0.0).folded();
    for labels in every_labelling(4) {
        let three_and_one = matches!(mountains(&labels), 1 | 3);
        assert_eq!(folds(&square, &labels), three_and_one, "{labels}");
    }
}

/// All sectors equal: 2·C(2n, n-1) labels, the upper bound of Hull, "Counting
/// mountain-valley assignments for flat folds" (2003).
#[test]
fn equal_sectors() {
    assert_eq!(valid(&[60.0; 6], 7.0).len(), 30);
    assert_eq!(valid(&[45.0; 8], 0.0).len(), 112);
}

fn choose(n: usize, k: usize) -> usize {
    (0..k).fold(1, |product, i| product * (n - i) / (i + 1))
}

/// The first run of the smallest sectors: where it begins, and how many they
/// are.
fn smallest_run(sectors: &[usize]) -> Option<(usize, usize)> {
    let count = sectors.len();
    let smallest = *sectors.iter().min()?;
    let begin = (0..count)
        .find(|at| sectors[*at] == smallest && sectors[(at + count - 1) % count] > smallest)?;
    let run = (begin..begin + count).take_while(|at| sectors[at % count] == smallest);
    Some((begin, run.count()))
}

/// The number of valid labels by the recursion of Hull (2002, 2003): a run of k
/// smallest sectors is folded away, with C(k + 1, ⌊(k + 1) / 2⌋) labels.
fn by_recursion(sectors: &[usize]) -> usize {
    let count = sectors.len();
    let Some((begin, run)) = smallest_run(sectors) else {
        return 2 * choose(count, count / 2 - 1);
    };
    let mut rest: Vec<usize> = (begin + run..begin + count)
        .map(|at| sectors[at % count])
        .collect();
    if run % 2 == 1 {
        let before = rest.pop().unwrap_or_default();
        rest[0] = rest[0] + before - sectors[begin];
    }
    choose(run + 1, run.div_ceil(2)) * by_recursion(&rest)
}

/// Ways to part `whole` into some parts of at least one.
fn parted(whole: usize, parts: usize) -> Vec<Vec<usize>> {
    if parts == 1 {
        return vec![vec![whole]];
    }
    (1..=whole + 1 - parts)
        .flat_map(|first| {
            parted(whole - first, parts - 1)
                .into_iter()
                .map(move |mut rest| {
                    rest.push(first);
                    rest
                })
        })
        .collect()
}

/// Sectors in steps of 180° / `steps` that fold flat, by Kawasaki and Justin:
/// every second one adds up to 180°. Those that only turn or mirror another are
/// left out.
fn vertices(creases: usize, steps: usize) -> BTreeSet<Vec<usize>> {
    let halves = parted(steps, creases / 2);
    let mut found = BTreeSet::new();
    for even in &halves {
        for odd in &halves {
            let sectors: Vec<usize> = even.iter().zip(odd).flat_map(|(a, b)| [*a, *b]).collect();
            let turns = (0..creases).flat_map(|turn| {
                let mut turned = sectors.clone();
                turned.rotate_left(turn);
                let mirrored = turned.iter().rev().copied().collect();
                [turned, mirrored]
            });
            found.extend(turns.min());
        }
    }
    found
}

/// A sector with strictly larger neighbours has a mountain and a valley (the
/// big-little-big lemma), and among the k + 1 creases of k equal sectors between
/// strictly larger ones mountains and valleys differ by 0 if k is odd, by 1 if
/// it is even (Hull 2002).
fn lemmas_hold(sectors: &[usize], labels: &str) -> bool {
    let count = sectors.len();
    let label: Vec<char> = labels.chars().collect();
    (0..count).all(|begin| {
        let sector = |at: usize| sectors[at % count];
        let size = sector(begin);
        let run = (begin..begin + count)
            .take_while(|at| sector(*at) == size)
            .count();
        let between_larger = sector(begin + count - 1) > size && sector(begin + run) > size;
        // The crease before a sector bears the number of the sector before.
        let creases = (begin + count - 1..begin + count + run).map(|at| label[at % count]);
        let mountains = creases.filter(|label| *label == 'M').count();
        run == count || !between_larger || (2 * mountains).abs_diff(run + 1) == (run + 1) % 2
    })
}

/// Every vertex of four and of six creases with sectors in coarse steps, slightly
/// turned: the number of valid labels is within 2ⁿ and 2·C(2n, n-1), is the
/// recursion's, and takes the published values (Hull 2002; On-Line Encyclopedia
/// of Integer Sequences, A156209); the lemmas hold for each label.
#[test]
fn counts_and_lemmas() {
    let cases: [(usize, usize, &[usize]); 2] =
        [(4, 12, &[4, 6, 8]), (6, 9, &[8, 12, 16, 18, 20, 24, 30])];
    for (creases, steps, values) in cases {
        let mut found = BTreeSet::new();
        for sectors in vertices(creases, steps) {
            #[expect(clippy::cast_precision_loss, reason = "a few whole numbers")]
            let degrees: Vec<f64> = sectors
                .iter()
                .map(|sector| *sector as f64 * 180.0 / steps as f64)
                .collect();
            let valid = valid(&degrees, 11.0);
            assert_eq!(valid.len(), by_recursion(&sectors), "{sectors:?}");
            let half = creases / 2;
            let bounds = 1 << half..=2 * choose(creases, half - 1);
            assert!(bounds.contains(&valid.len()), "{sectors:?}");
            for labels in &valid {
                assert!(lemmas_hold(&sectors, labels), "{sectors:?} {labels}");
            }
            found.insert(valid.len());
        }
        assert_eq!(found, values.iter().copied().collect(), "{creases} creases");
    }
}

/// Four equal labels can't close round a point: all four sectors are to blame.
#[test]
fn a_vertex_in_conflict() {
    let vertex = Sheet::vertex(&[60.0, 90.0, 120.0, 90.0], 0.0).folded();
    let core = Orders::stacked(&labelled(&vertex, "MMMM")).core();
    let Ok(Some(core)) = core else {
        panic!("four mountains do not fold: {core:?}");
    };
    assert!(core.facets.contains(&0), "the smallest sector: {core:?}");
    assert!(core.hinges.len() >= 2, "{core:?}");
    assert!(core.bonds.is_empty());
}
