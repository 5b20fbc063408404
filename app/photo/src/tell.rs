//! What the face of a sheet tells of its colour and print.
//!
//! It is a suggestion, which the maker confirms: a print looks the same turned by a
//! quarter, by a half, or neither. The picture is made small and grey, and held
//! against itself turned, shifted by any way, since a print is repeated from
//! anywhere.

use foldwright_engine::paper::{Colour, Print};

use crate::pixels::Pixels;

/// What a photograph tells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Told {
    /// The colour most of it has.
    pub colour: Colour,
    /// How its print runs, as far as that can be told.
    pub print: Print,
}

/// The side of what is looked at: prints with up to a dozen motifs beside each other
/// are told apart.
const SIDE: usize = 48;

/// How many places that are.
const PLACES: f64 = 48.0 * 48.0;

/// How much a sheet varies at most that is called plain, as a deviation of its light
/// from 0 to 255: grain and shadow do, ink does more. (Own choice, from the drawn
/// papers of the tests.)
const PLAIN: f64 = 7.0;

/// How much like itself a print is at least that counts as the same, from -1 to 1.
/// (Own choice, as above.)
const ALIKE: f64 = 0.9;

/// What a flat picture of a sheet tells.
pub fn tell(sheet: &Pixels) -> Told {
    let light = small(sheet);
    let (_, power) = spread(&light);
    let print = if power < PLAIN * PLAIN * PLACES {
        Print::Plain
    } else {
        let half: Vec<f64> = light.iter().rev().copied().collect();
        let quarter: Vec<f64> = places(SIDE)
            .map(|(x, y)| light[(SIDE - 1 - x) * SIDE + y])
            .collect();
        let is_alike = |turned: &[f64]| most_alike(&light, turned) >= ALIKE;
        match (is_alike(&half), is_alike(&quarter)) {
            (true, true) => Print::AllOver,
            (true, false) => Print::TwoWay,
            (false, _) => Print::OneWay,
        }
    };
    Told {
        colour: colour(sheet),
        print,
    }
}

/// The places of a square, row by row.
fn places(side: usize) -> impl Iterator<Item = (usize, usize)> {
    (0..side).flat_map(move |y| (0..side).map(move |x| (x, y)))
}

/// How light the middle square of the sheet is, made small: each place the mean of
/// what it covers.
fn small(sheet: &Pixels) -> Vec<f64> {
    let side = sheet.width().min(sheet.height());
    let corner = [sheet.width() - side, sheet.height() - side].map(|rest| rest / 2);
    let cut = |step: usize| {
        // No farther than the side, which is a 32-bit number.
        u32::try_from(step as u64 * u64::from(side) / SIDE as u64).unwrap_or(side)
    };
    let mean = |(x, y): (usize, usize)| {
        let across = cut(x)..cut(x + 1).max(cut(x) + 1);
        let down = cut(y)..cut(y + 1).max(cut(y) + 1);
        let (mut sum, mut count) = (0.0, 0.0);
        for row in down {
            for column in across.clone() {
                let colour = sheet.at(corner[0] + column, corner[1] + row);
                sum += f64::from(colour.lightness());
                count += 1.0;
            }
        }
        sum / count
    };
    places(SIDE).map(mean).collect()
}

/// How much the middle of one picture and a place of another have in common at most,
/// from -1 to 1: their correlation, wherever the first is laid on the second.
fn most_alike(on: &[f64], middle_of: &[f64]) -> f64 {
    const LOOK: usize = SIDE / 2;
    let window = |from: &[f64], (x, y): (usize, usize)| -> Vec<f64> {
        let rows = from.chunks_exact(SIDE).skip(y).take(LOOK);
        let all: Vec<f64> = rows.flat_map(|row| &row[x..x + LOOK]).copied().collect();
        let (mean, power) = spread(&all);
        let scale = power.sqrt().max(f64::MIN_POSITIVE);
        all.into_iter().map(|it| (it - mean) / scale).collect()
    };
    let middle = window(middle_of, (LOOK / 2, LOOK / 2));
    let laid = places(SIDE - LOOK + 1).map(|at| window(on, at));
    let alike = laid.map(|there| {
        let pairs = there.iter().zip(&middle);
        pairs.map(|(a, b)| a * b).sum::<f64>()
    });
    alike.fold(-1.0, f64::max)
}

/// The mean of some numbers, and the sum of the squares of what each is off from it.
fn spread(numbers: &[f64]) -> (f64, f64) {
    let count: f64 = numbers.iter().map(|_| 1.0).sum();
    let mean = numbers.iter().sum::<f64>() / f64::max(count, 1.0);
    let power = numbers.iter().map(|it| (it - mean) * (it - mean)).sum();
    (mean, power)
}

/// The colour that most of a sheet has, near enough: the mean of the largest group of
/// pixels that share the upper three bits of each channel.
fn colour(sheet: &Pixels) -> Colour {
    let mut groups = vec![[0_u64; 4]; 512];
    let step = (sheet.width().max(sheet.height()) / 128).max(1);
    for y in (0..sheet.height()).step_by(step as usize) {
        for x in (0..sheet.width()).step_by(step as usize) {
            let channels = sheet.channels(x, y);
            let group = channels
                .iter()
                .fold(0, |group, channel| group * 8 + usize::from(channel >> 5));
            let group = &mut groups[group];
            for (sum, channel) in group.iter_mut().zip(channels) {
                *sum += u64::from(channel);
            }
            group[3] += 1;
        }
    }
    let [red, green, blue, count] = groups
        .into_iter()
        .max_by_key(|group| group[3])
        .unwrap_or_default();
    // A mean of bytes is a byte.
    let mean = |sum: u64| u8::try_from((sum + count / 2) / count.max(1)).unwrap_or(u8::MAX);
    Colour {
        red: mean(red),
        green: mean(green),
        blue: mean(blue),
    }
}
