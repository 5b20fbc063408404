//! Divides, folds and stacks arbitrary pieces, most of them nonsense, and says
//! how many and how long the slowest took. Its arguments are how many and the
//! first seed; a panic names the seed it came from.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

use foldwright_engine::fold::{Facet, Hinge, Orders, Stack};
use foldwright_engine::length::Length;
use foldwright_engine::pattern::{
    Line, LineId, LineKind, Pattern, divide, fold_flat, misfits, problems,
};
use foldwright_engine::plane::{CardFrame, PieceFrame, Placement, Point, Polygon, Region};
use foldwright_engine::recipe::{Fold, starters};

fn main() {
    let mut asked = std::env::args().skip(1).map(|text| text.parse::<u64>());
    let mut next = |usual| asked.next().and_then(Result::ok).unwrap_or(usual);
    let (count, first) = (next(100_000), next(1));
    let mut slowest = (Duration::ZERO, 0);
    let mut folded = 0_u64;
    for seed in first..first.saturating_add(count) {
        let begin = Instant::now();
        let Ok(flat) = catch_unwind(AssertUnwindSafe(|| one(seed))) else {
            eprintln!("the piece of seed {seed} broke it");
            std::process::exit(1);
        };
        folded += u64::from(flat);
        slowest = slowest.max((begin.elapsed(), seed));
    }
    println!(
        "{count} pieces from seed {first}, {folded} of them fold flat; the slowest, of seed {}, \
         took {:.1} ms",
        slowest.1,
        slowest.0.as_secs_f64() * 1000.0
    );
}

/// Numbers that look random, the same for a seed everywhere (the finaliser of
/// `SplitMix64`).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut value = self.0;
        value = (value ^ (value >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        value = (value ^ (value >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (value ^ (value >> 31)) % sides.max(1)
    }

    /// A length: mostly on a coarse grid, so that lines meet, sometimes any.
    fn length(&mut self) -> Length {
        match self.roll(40) {
            0 => Length::from_units(self.roll(u64::MAX).cast_signed()),
            1 => Length::from_units(self.roll(20_000_000).cast_signed()),
            _ => Length::mm(self.roll(7).cast_signed() * 10),
        }
    }

    fn point(&mut self) -> Point<PieceFrame> {
        Point::new(self.length(), self.length())
    }

    fn polygon(&mut self) -> Polygon<PieceFrame> {
        let corners = 2 + self.roll(5);
        Polygon {
            corners: (0..corners).map(|_| self.point()).collect(),
        }
    }
}

/// Whether the piece of a seed folds flat in some order.
fn one(seed: u64) -> bool {
    let mut dice = Dice(seed);
    let outline = if dice.roll(3) == 0 {
        dice.polygon()
    } else {
        let far = Length::mm(60);
        let zero = Length::ZERO;
        Polygon {
            corners: vec![
                Point::new(zero, zero),
                Point::new(far, zero),
                Point::new(far, far),
                Point::new(zero, far),
            ],
        }
    };
    let holes = (0..dice.roll(8) / 6).map(|_| dice.polygon()).collect();
    let lines = (0..dice.roll(7)).map(|number| Line {
        id: LineId(u32::try_from(number).unwrap_or(0)),
        from: dice.point(),
        to: dice.point(),
        kind: match dice.roll(3) {
            0 => LineKind::Cut,
            1 => LineKind::Crease(Fold::Mountain),
            _ => LineKind::Crease(Fold::Valley),
        },
    });
    let pattern = Pattern {
        outline,
        holes,
        lines: lines.collect(),
    };
    let divided = divide(&pattern);
    let wrong = misfits(&divided);
    if let Some(starter) = starters().first() {
        let said = problems(&pattern, &divided.faults, &wrong, starter.recipe.notation);
        assert!(said.len() <= 2 * (divided.faults.len() + wrong.len()));
    }
    if !wrong.is_empty() || divided.facets.is_empty() {
        return false;
    }
    let flat = fold_flat(&divided, 0, Placement::<PieceFrame, CardFrame>::unmoved());
    let facets = divided.facets.iter().zip(&flat.places);
    let facets = facets.map(|(facet, place)| {
        let place = place.unwrap_or(Placement::unmoved());
        Facet {
            area: Region::from(&place.polygon(&facet.outline)),
            mirrored: place.mirrored,
        }
    });
    let hinges = divided.hinges.iter().filter_map(|hinge| {
        let place = (*flat.places.get(hinge.left)?)?;
        Some(Hinge {
            a: hinge.left,
            b: hinge.right,
            from: place.point(hinge.course.from),
            to: place.point(hinge.course.to),
            fold: Some(hinge.fold),
        })
    });
    let stack = Stack {
        facets: facets.collect(),
        hinges: hinges.collect(),
        bonds: Vec::new(),
    };
    matches!(Orders::stacked(&stack).first(&[]), Ok(Some(_)))
}
