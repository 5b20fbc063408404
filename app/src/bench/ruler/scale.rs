//! How large a screen shows a millimetre, measured with a card.

use foldwright_engine::length::{Length, Step, Unit};

use crate::store::Screen;

/// The sides of a bank card and of all others of the size ID-1 (ISO/IEC 7810); real ones
/// differ from that by less than a fifth of a millimetre (from memory).
pub(super) const CARD_WIDTH: Length = Length::hundredths_mm(5398);
pub(super) const CARD_HEIGHT: Length = Length::hundredths_mm(8560);

/// What an outline can be as wide as, in CSS pixels, and by how much it is changed.
/// Our own bounds: from a screen on which a centimetre is as long as on paper seen from
/// afar to the finest phones.
pub(super) const NARROWEST: f64 = 120.0;
pub(super) const WIDEST: f64 = 480.0;
pub(super) const BY: f64 = 0.5;

/// Marks that are nearer to each other than this cannot be told apart, in CSS pixels.
/// Our own bound.
const NEAREST: f64 = 3.5;

/// What can be said of a screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Standing {
    /// Nobody has measured it.
    NotSet,
    /// It has been measured at another zoom, or it was another one.
    SetAgain,
    /// The page is enlarged by two fingers.
    Enlarged,
    /// So many CSS pixels are as wide as a card.
    Set(f64),
}

/// How a screen is shown just now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shown {
    /// How many of its pixels one of CSS has.
    pub(super) ratio: f64,
    /// By how much two fingers have enlarged the page.
    pub(super) enlarged: f64,
}

impl Shown {
    /// Whether two fingers have enlarged the page.
    pub(super) fn is_enlarged(self) -> bool {
        !is_same(self.enlarged, 1.0)
    }
}

/// Browsers tell both as they were set, but for the rounding of floats.
fn is_same(one: f64, other: f64) -> bool {
    (one - other).abs() < 1e-3
}

impl Standing {
    pub(super) fn of(screen: Option<Screen>, shown: Shown) -> Self {
        match screen {
            None => Self::NotSet,
            Some(screen) if !is_same(screen.ratio, shown.ratio) => Self::SetAgain,
            Some(_) if shown.is_enlarged() => Self::Enlarged,
            Some(screen) => Self::Set(screen.card),
        }
    }
}

/// How long something is on a screen, in CSS pixels, on which a card is so wide.
pub(super) fn pixels(length: Length, card: f64) -> f64 {
    length.as_mm_f64() * card / CARD_WIDTH.as_mm_f64()
}

/// A mark of a ruler.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Mark {
    /// Where it is, in CSS pixels.
    pub(super) at: f64,
    /// How many of its unit it is, where a number stands at it.
    pub(super) number: Option<i64>,
    /// How long it is, of 1 for the longest.
    pub(super) height: f64,
}

/// The marks of a ruler with the maker's divisions, as far as it fits into so many
/// CSS pixels; coarser divisions where the maker's would lie too near to each other.
pub(super) fn marks(step: Step, card: f64, room: f64) -> (Length, Vec<Mark>) {
    let steps = Step::all_for(step.unit()).iter().copied();
    let length = |step: Step| step.length();
    let wide = |step: &Step| pixels(step.length(), card) >= NEAREST;
    let finest = steps
        .filter(|it| length(*it) >= length(step))
        .filter(wide)
        .min_by_key(|it| length(*it));
    let step = finest.unwrap_or(match step.unit() {
        Unit::Inch => Step::Eighth,
        Unit::Millimetre => Step::Millimetre,
    });
    let (whole, numbered) = match step.unit() {
        Unit::Inch => (Length::inches(1), 1),
        Unit::Millimetre => (Length::mm(10), 10),
    };
    let mut wholes = 0;
    while pixels(times(whole, wholes + 1), card) <= room {
        wholes += 1;
    }
    let end = times(whole, wholes);
    let parts = whole.units() / step.length().units();
    let marks = (0..=parts * wholes).map(|number| {
        let part = number % parts;
        Mark {
            at: pixels(times(step.length(), number), card),
            number: (part == 0).then_some(number / parts * numbered),
            height: height(part, parts, step.unit()),
        }
    });
    (end, marks.collect())
}

fn times(length: Length, count: i64) -> Length {
    Length::from_units(length.units() * count)
}

/// How long a mark is: as rulers have it, the half longer than the quarter, and five
/// millimetres longer than one (common practice).
fn height(part: i64, parts: i64, unit: Unit) -> f64 {
    let divides = |by: i64| (part * by) % parts == 0;
    let ways: &[(i64, f64)] = match unit {
        Unit::Inch => &[
            (1, 1.0),
            (2, 0.8),
            (4, 0.65),
            (8, 0.5),
            (16, 0.38),
            (32, 0.28),
        ],
        Unit::Millimetre => &[(1, 1.0), (2, 0.75), (10, 0.5), (20, 0.35)],
    };
    let found = ways.iter().find(|(by, _)| divides(*by));
    found.map_or(0.22, |(_, height)| *height)
}

#[cfg(test)]
mod tests {
    use foldwright_engine::length::{Length, Step};

    use super::{CARD_HEIGHT, CARD_WIDTH, Mark, Shown, Standing, marks, pixels};
    use crate::store::Screen;

    const SHOWN: Shown = Shown {
        ratio: 2.0,
        enlarged: 1.0,
    };

    fn near(one: f64, other: f64) -> bool {
        (one - other).abs() < 1e-9
    }

    // ISO/IEC 7810: ID-1 is 85.60 mm wide and 53.98 mm high, which is 3.370 in and
    // 2.125 in. CSS Values 4: 96 pixels are an inch where the screen is true.
    #[test]
    fn a_card_gives_the_size_of_an_inch() {
        let card = 53.98 / 25.4 * 96.0;
        assert!(near(pixels(CARD_WIDTH, card), card));
        assert!(near(pixels(Length::inches(1), card), 96.0));
        assert!(near(pixels(CARD_HEIGHT, card), 85.6 / 25.4 * 96.0));
        // On a phone with 6 pixels of CSS for a millimetre.
        assert!(near(pixels(Length::mm(10), 53.98 * 6.0), 60.0));
    }

    #[test]
    fn a_ruler_has_the_makers_marks() {
        let card = 53.98 * 6.0;
        let (end, all) = marks(Step::Millimetre, card, 350.0);
        assert_eq!(end, Length::mm(50));
        assert_eq!(all.len(), 51);
        let numbers: Vec<_> = all.iter().filter_map(|mark| mark.number).collect();
        assert_eq!(numbers, [0, 10, 20, 30, 40, 50]);
        assert!(near(all[37].at, 37.0 * 6.0));
        let heights = [0, 5, 7, 10].map(|at: usize| all[at].height);
        let told = [1.0, 0.75, 0.5, 1.0];
        let mut both = heights.into_iter().zip(told);
        assert!(both.all(|(one, other)| near(one, other)), "{heights:?}");

        let (end, all) = marks(Step::Sixteenth, card, 350.0);
        assert_eq!(end, Length::inches(2));
        assert_eq!(all.len(), 33);
        assert!(near(all[5].at, 5.0 * 25.4 / 16.0 * 6.0));
        let last = Mark {
            at: 2.0 * 25.4 * 6.0,
            number: Some(2),
            height: 1.0,
        };
        assert!(near(all[32].at, last.at) && all[32].number == last.number);
    }

    #[test]
    fn marks_too_near_to_each_other_are_left_out() {
        // 96 pixels to the inch: 1/64 in is a pixel and a half, 1/32 in three, 1/16 in six.
        let card = 53.98 / 25.4 * 96.0;
        let (_, all) = marks(Step::SixtyFourth, card, 100.0);
        assert_eq!(all.len(), 17);
        // 0.1 mm is less than half a pixel, 1 mm nearly four.
        let (_, all) = marks(Step::TenthMillimetre, card, 40.0);
        assert_eq!(all.len(), 11);
    }

    #[test]
    fn nothing_is_claimed_that_was_not_measured_so() {
        let screen = Screen {
            card: 324.0,
            ratio: 2.0,
        };
        assert_eq!(Standing::of(None, SHOWN), Standing::NotSet);
        assert_eq!(Standing::of(Some(screen), SHOWN), Standing::Set(324.0));
        let zoomed = Shown {
            ratio: 2.2,
            ..SHOWN
        };
        assert_eq!(Standing::of(Some(screen), zoomed), Standing::SetAgain);
        let enlarged = Shown {
            enlarged: 1.4,
            ..SHOWN
        };
        assert_eq!(Standing::of(Some(screen), enlarged), Standing::Enlarged);
    }
}
