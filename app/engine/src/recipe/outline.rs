//! The outlines of layers and windows within their width and height.

use serde::{Deserialize, Serialize};

use super::{MeasureId, Recipe, Traced};
use crate::length::Length;
use crate::plane::{Point, Polygon, Rect, Region, Size, arc};

/// The most corners of one outline: more than any die has. Our own bound.
pub const MOST_BENDS: usize = 60;

/// The outline of a flat piece, or of a window, within its width and height.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outline {
    /// A rectangle.
    #[default]
    Straight,
    /// A rectangle with its corners rounded by this radius.
    Rounded(MeasureId),
    /// Round; oval where it is not as wide as it is high.
    Round,
    /// A rectangle whose top is an arc that rises so far.
    Arched(MeasureId),
    /// Any outline, corner by corner, as a die cuts it.
    Cut(Vec<Bend>),
    /// Any outline, taken from a drawing.
    Traced(Traced),
    /// The shape of what carries it, an even border smaller.
    Follows,
}

/// A corner of an outline, and how the outline goes on to the next. Corners
/// follow each other anticlockwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub struct Bend {
    /// From the left, in thousandths of the width.
    pub x: u16,
    /// From below, in thousandths of the height.
    pub y: u16,
    /// How far the way to the next corner is bent outwards in its middle, in
    /// thousandths of its length; inwards for less than nothing. 500 is half a
    /// circle.
    #[serde(default, skip_serializing_if = "is_straight")]
    pub bow: i16,
}

#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the signature serde asks for"
)]
const fn is_straight(bow: &i16) -> bool {
    *bow == 0
}

impl Bend {
    /// Shares are told in thousandths.
    pub(crate) const WHOLE: i64 = 1000;

    /// The most a way may be bent: half a circle.
    pub const MOST_BOW: i16 = 500;

    /// Whether it lies within the width and the height, and is bent no more
    /// than half a circle.
    pub const fn is_sound(self) -> bool {
        self.x <= 1000 && self.y <= 1000 && self.bow.unsigned_abs() <= Self::MOST_BOW.unsigned_abs()
    }
}

/// So many of the equal parts of a length, to the nearest unit.
pub(crate) fn part(of: Length, times: i64, parts: i64) -> Length {
    let parts = i128::from(parts.max(1));
    let times = i128::from(of.units()) * i128::from(times);
    let nearest = (2 * times + parts).div_euclid(2 * parts);
    Length::from_units(i64::try_from(nearest).unwrap_or_default())
}

/// The points of a way from one point to another, bent outwards by so many
/// thousandths of its length, without its end.
pub(crate) fn bent<F>(from: Point<F>, to: Point<F>, bow: i16) -> Vec<Point<F>> {
    let long = crate::plane::Segment::new(from, to).length();
    let mut points = vec![from];
    points.extend(arc(from, to, part(long, bow.into(), Bend::WHOLE)));
    points
}

/// What came of an outline.
pub(crate) struct Drawn<F> {
    /// The outline; `None` where it is all of its rectangle.
    pub(crate) region: Option<Region<F>>,
    /// What could not be as it was asked for.
    pub(crate) flaw: Option<Flaw>,
}

/// Why an outline is not as it was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Flaw {
    /// The corners or the arch are rounder than there is room for.
    TooRound,
    /// It crosses itself, or encloses nothing.
    Crossed,
}

impl Outline {
    /// Whether it is a plain rectangle.
    pub fn is_straight(&self) -> bool {
        *self == Self::Straight
    }

    /// The measure it is drawn by.
    pub fn measure(&self) -> Option<MeasureId> {
        match self {
            Self::Rounded(measure) | Self::Arched(measure) => Some(*measure),
            Self::Straight | Self::Round | Self::Cut(_) | Self::Traced(_) | Self::Follows => None,
        }
    }

    /// The outline within a rectangle. One that follows what carries it is
    /// drawn where that is known, and all of the rectangle here.
    pub(crate) fn within<F>(&self, recipe: &Recipe, rect: &Rect<F>) -> Drawn<F> {
        let size = rect.size();
        let fits = |asked: Length, room: Length| (asked > room).then_some(Flaw::TooRound);
        let (polygon, flaw) = match self {
            _ if rect.is_empty() => return Drawn::whole(None),
            Self::Straight | Self::Follows => return Drawn::whole(None),
            Self::Rounded(radius) => {
                let radius = recipe.value(*radius);
                let room = size.width.min(size.height).half_down();
                let radii = Size {
                    width: radius.min(room),
                    height: radius.min(room),
                };
                (Polygon::rounded(rect, radii), fits(radius, room))
            }
            Self::Round => (Polygon::rounded(rect, size), None),
            Self::Arched(rise) => {
                let rise = recipe.value(*rise);
                let room = size.width.half_down().min(size.height);
                (arched(rect, rise.min(room)), fits(rise, room))
            }
            Self::Cut(bends) => return cut(bends, rect),
            Self::Traced(traced) => return traced.within(rect),
        };
        Drawn {
            region: Some(Region::from(&polygon)),
            flaw,
        }
    }
}

impl<F> Drawn<F> {
    const fn whole(flaw: Option<Flaw>) -> Self {
        Self { region: None, flaw }
    }
}

fn arched<F>(rect: &Rect<F>, rise: Length) -> Polygon<F> {
    let [left, right, _, _] = rect.corners();
    let at = rect.high.y - rise;
    let (from, to) = (Point::new(rect.high.x, at), Point::new(rect.low.x, at));
    let mut corners = vec![left, right, from];
    corners.extend(arc(from, to, rise));
    corners.push(to);
    corners.dedup();
    if corners.last() == Some(&left) {
        corners.pop();
    }
    Polygon { corners }
}

fn cut<F>(bends: &[Bend], rect: &Rect<F>) -> Drawn<F> {
    let size = rect.size();
    let at = |bend: &Bend| {
        Point::new(
            rect.low.x + part(size.width, bend.x.into(), Bend::WHOLE),
            rect.low.y + part(size.height, bend.y.into(), Bend::WHOLE),
        )
    };
    let next = bends.iter().cycle().skip(1);
    let mut corners: Vec<Point<F>> = bends
        .iter()
        .zip(next)
        .flat_map(|(bend, next)| bent(at(bend), at(next), bend.bow))
        .collect();
    corners.dedup();
    let polygon = Polygon { corners };
    let region = Region::from(&polygon);
    // What crosses itself encloses some part twice or the wrong way round.
    let once = region.contours().count() == 1 && region.area() == polygon.area().abs();
    if !once {
        return Drawn::whole(Some(Flaw::Crossed));
    }
    // An arc may reach past the width or the height; the paper ends there.
    Drawn {
        region: Some(region.common(&Region::from(*rect))),
        flaw: None,
    }
}
