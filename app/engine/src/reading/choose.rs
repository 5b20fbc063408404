//! What a flat piece is put on, and which way round it lies there.

use std::cmp::Reverse;

use super::outside::{At, Outside};
use super::piece::Cut;
use super::seat::On;
use super::sense::Kind;
use super::shape::Shape;
use crate::length::Length;
use crate::plane::Size;

/// The widest border that is one: 3/4 in. Our own bound.
const WIDEST: Length = Length::sixty_fourths(48);

/// An even border up to here is hardly chance: 1/4 in, twice the usual one. Our
/// own bound.
const SURE: Length = Length::sixty_fourths(16);

/// A carrier a layer may lie on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Carrier {
    pub(super) on: On,
    pub(super) size: Size,
    /// Whether a layer lies on it already.
    pub(super) taken: bool,
    /// The carrier beneath, where it is a layer.
    pub(super) under: Option<usize>,
    /// The face at the bottom of it all, and its size.
    pub(super) face: At,
    pub(super) within: Size,
    /// How far it lies from the left and the bottom of that face.
    pub(super) at: Size,
    /// Whether it is round or oval.
    pub(super) is_round: bool,
}

/// Why a piece goes where it goes, the firmest evidence first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Why {
    /// It leaves a narrow even border.
    Border,
    /// It is as large as its carrier.
    Whole,
    /// It reaches from side to side of the closed card.
    Width,
    /// It reaches from foot to head of the closed card.
    Height,
    /// What is seen first lies across a front narrower than the closed card,
    /// glued to the front only.
    Across,
    /// It leaves a wide even border.
    WideBorder,
    /// It fits.
    Fits,
}

impl Why {
    /// Whether it reaches across the closed card.
    const fn is_across(self) -> bool {
        matches!(self, Self::Width | Self::Height | Self::Across)
    }
}

/// What is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Wanted {
    /// So many pieces of the size are still to be placed; they keep one border
    /// where there are carriers enough.
    pub(super) alike: u32,
    /// Whether it is the first of them, which goes where such a piece is looked
    /// for; the others take what is free.
    pub(super) is_first: bool,
    /// Whether it must lie where the list says.
    pub(super) keeps_spot: bool,
}

/// A carrier for a piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Found {
    pub(super) carrier: usize,
    pub(super) size: Size,
    pub(super) border: Option<Length>,
    /// Whether another carrier of another size would leave an even border too.
    pub(super) doubtful: bool,
    pub(super) turned: bool,
    pub(super) why: Why,
}

/// The carriers of a card, and how it lies when closed.
pub(super) struct Choice<'a> {
    pub(super) carriers: &'a [Carrier],
    pub(super) outside: &'a Outside,
    pub(super) shape: &'a Shape,
}

impl Choice<'_> {
    /// The carrier a piece goes to.
    ///
    /// A narrow even border decides. Else a piece lies as it is written where
    /// it fits so, and is turned a quarter only where it does not. What is to
    /// be seen first, and what reaches across the closed card, goes in front.
    pub(super) fn choose(&self, cut: &Cut, wanted: Wanted) -> Option<Found> {
        let Wanted {
            alike, is_first, ..
        } = wanted;
        let ways = self.ways(cut, wanted.keeps_spot);
        let even = |found: &&Found| found.border.is_some();
        let enough = |border: Option<Length>| {
            let count = ways.iter().filter(even).filter(|it| it.border == border);
            border.is_none() || u32::try_from(count.count()).is_ok_and(|count| count >= alike)
        };
        let best = ways.iter().min_by_key(|found| {
            let carrier = self.carriers.get(found.carrier);
            let face = carrier.map(|carrier| carrier.face);
            let order = self.outside.faces().position(|at| Some(at) == face);
            (
                // What words say of how it lies is followed where it can be.
                cut.is_fixed && found.turned,
                found.why != Why::Border,
                is_first && self.is_apart(cut.kind, found.why, face),
                !found.why.is_across() && carrier.is_none_or(|carrier| carrier.taken),
                found.turned && found.why != Why::Border && found.why != Why::Whole,
                found.why,
                !enough(found.border),
                found.border,
                found.turned,
                order,
                Reverse(self.depth(found.carrier)),
            )
        })?;
        let beneath: Vec<Size> = self
            .beneath(best.carrier)
            .map(|carrier| carrier.size)
            .collect();
        // Places like those beneath it say the same.
        let doubtful = best.border.is_some()
            && ways.iter().filter(even).any(|it| {
                it.border != best.border
                    && self
                        .carriers
                        .get(it.carrier)
                        .is_some_and(|carrier| !beneath.contains(&carrier.size))
            });
        Some(Found { doubtful, ..*best })
    }

    /// Whether a face is not where such a piece is looked for first.
    fn is_apart(&self, kind: Option<Kind>, why: Why, face: Option<At>) -> bool {
        let among = |faces: &[At]| face.is_some_and(|face| faces.contains(&face));
        match (kind, why) {
            (Some(Kind::Insert), _) => !among(&self.outside.inside),
            (Some(Kind::Focal), _) => !among(&self.outside.front),
            (_, why) => why.is_across() && !among(&self.outside.front),
        }
    }

    /// Every way a piece can lie.
    fn ways(&self, cut: &Cut, keep_spot: bool) -> Vec<Found> {
        let spot = cut.spot.filter(|_| keep_spot);
        let open = self.carriers.iter().enumerate().filter(|(_, carrier)| {
            spot.is_none_or(|spot| self.outside.is_at(carrier.face, spot, self.shape))
        });
        let mut all = Vec::new();
        for (carrier, it) in open {
            for turned in [false, true] {
                let size = if turned { cut.size.turned() } else { cut.size };
                if turned && size == cut.size {
                    continue;
                }
                if let Some((why, border)) = self.why(cut, it, size, turned) {
                    all.push(Found {
                        carrier,
                        size,
                        border,
                        doubtful: false,
                        turned,
                        why,
                    });
                }
            }
        }
        all
    }

    /// What speaks for a size on a carrier; nothing where it does not fit.
    fn why(
        &self,
        cut: &Cut,
        carrier: &Carrier,
        size: Size,
        turned: bool,
    ) -> Option<(Why, Option<Length>)> {
        let on = carrier.size;
        if carrier.is_round && !is_within_round(size, on, cut.is_round()) {
            return None;
        }
        // A rectangle leaves no even border on what is round.
        if !carrier.taken
            && (cut.is_round() || !carrier.is_round)
            && let Some(border) = border(size, on)
        {
            let why = if border <= SURE {
                Why::Border
            } else {
                Why::WideBorder
            };
            return Some((why, Some(border)));
        }
        let is_face = matches!(carrier.on, On::Face(..));
        if size == on {
            return (is_face && !carrier.taken).then_some((Why::Whole, None));
        }
        let fits = |within: Size| size.width <= within.width && size.height <= within.height;
        let closed = self.outside.closed;
        let in_front = self.outside.front.contains(&carrier.face) && !carrier.is_round;
        // It may reach past the layer it lies on, but not past the panel.
        if fits(carrier.within)
            && in_front
            && size.width == closed.width
            && size.height <= on.height
        {
            return Some((Why::Width, None));
        }
        if fits(carrier.within)
            && in_front
            && size.height == closed.height
            && size.width <= on.width
        {
            return Some((Why::Height, None));
        }
        if fits(on) {
            return Some((Why::Fits, None));
        }
        let first = self.outside.front.first() == Some(&carrier.face);
        let across = cut.kind == Some(Kind::Focal)
            && first
            && !carrier.is_round
            && !turned
            && fits(closed)
            && (carrier.within.width < closed.width || carrier.within.height < closed.height)
            && !fits(carrier.within);
        across.then_some((Why::Across, None))
    }

    /// A carrier and those beneath it.
    fn beneath(&self, carrier: usize) -> impl Iterator<Item = &Carrier> {
        let below = |carrier: &&Carrier| self.carriers.get(carrier.under?);
        std::iter::successors(self.carriers.get(carrier), below).take(self.carriers.len())
    }

    fn depth(&self, index: usize) -> usize {
        self.beneath(index).count()
    }
}

/// Whether a piece lies within a round or oval one of a size, both in the middle:
/// a rectangle by its corners.
fn is_within_round(size: Size, on: Size, is_round: bool) -> bool {
    let square = |length: Length| i128::from(length.units()) * i128::from(length.units());
    let (wide, high) = (square(on.width), square(on.height));
    // With sides up to 10 m, 10⁹ units, the products stay below 10³⁷.
    let corners = square(size.width) * high + square(size.height) * wide <= wide * high;
    corners || is_round && size.width <= on.width && size.height <= on.height
}

/// The even border a size leaves on another.
fn border(size: Size, on: Size) -> Option<Length> {
    let (across, up) = (on.width - size.width, on.height - size.height);
    let (half, rest) = across.div_rem(2)?;
    (across == up && rest == Length::ZERO && half > Length::ZERO && half <= WIDEST).then_some(half)
}
