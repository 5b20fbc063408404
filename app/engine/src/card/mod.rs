//! The card worked out: one value that screen, bench and paper read from.

mod add;
mod facts;
mod fit;
mod fitting;
mod folding;
mod lay;
mod opening;
mod pages;
mod pieces;
mod reaching;
mod room;
mod supplied;

pub use add::add_piece;
pub use facts::{Closed, Facts};
pub use fitting::make_fit;
pub use lay::{LayFacts, lay_facts};
use opening::Opens;
pub(crate) use opening::lay as lay_in_plane;
pub use opening::{WholeOpening, all_together};
pub use room::{choose_rule, make_room};
pub use supplied::Supplied;

use crate::allowance::{Wrap, wraps};
use crate::cut_list::{CutList, cut_list};
use crate::faces::{Lying, Reading, View, overhanging, pile, readings};
use crate::fold::{Folded, fold};
use crate::glue::{Gluing, glue};
use crate::laid::{LaidOut, lay_out};
use crate::lay::LayAdvice;
use crate::length::Length;
use crate::outlines;
use crate::paper::{Envelope, EnvelopeFit, Mass};
use crate::part::Part;
use crate::plane::{Area, BackFrame, Region, Size};
use crate::problem::{Problem, Reach};
use crate::reach::reaches;
use crate::recipe::{LayerId, PieceId, Recipe, StripId};
use crate::score::Chart;
use crate::sorted::InOrder as _;
use crate::thickness::{Thickest, thickest, uneven};

/// What the maker works with, whatever the recipe.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tools {
    /// How far the scoring board reaches from its stop.
    pub board: Length,
}

impl Default for Tools {
    /// A board of 12 in, a usual size (common practice).
    fn default() -> Self {
        Self {
            board: Length::inches(12),
        }
    }
}

/// Everything computed from a recipe.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// The flat pieces.
    pub laid: LaidOut,
    /// The folded card; `None` when the base does not fold flat.
    pub folded: Option<Folded>,
    /// The pieces that keep the card from closing, without which it is folded.
    pub left_out: Vec<PieceId>,
    /// How it opens as a whole, where creases only move together.
    pub whole: Option<WholeOpening>,
    /// How each face is read.
    pub readings: Vec<Reading>,
    /// Where each layer is glued.
    pub gluings: Vec<Gluing>,
    /// Width and height of the closed card with all that overhangs.
    pub finished: Size,
    /// What reaches past what should hold it.
    pub reaches: Vec<Reach>,
    /// What each fold wraps in the closed card, and the room it asks for.
    pub wraps: Vec<Wrap>,
    /// The thickest place of the closed card.
    pub thickest: Option<Thickest>,
    /// What all paper of one card weighs, and what is not paper as far as its maker said
    /// what that weighs.
    pub mass: Mass,
    /// What it is cut from.
    pub cut_list: CutList,
    /// The score chart.
    pub chart: Chart,
    /// The same of each piece glued in, in the recipe's order.
    pub pieces: Vec<PieceWork>,
    /// The envelopes that take the card by the maker's rule, tightest first.
    pub envelopes: Vec<EnvelopeFit>,
    /// Everything that is wrong, the gravest first.
    pub problems: Vec<Problem>,
}

/// How a piece glued in is scored.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PieceWork {
    /// The piece.
    pub of: PieceId,
    /// Its score chart.
    pub chart: Chart,
}

impl Card {
    /// The score chart of every strip.
    pub fn charts(&self) -> impl Iterator<Item = (StripId, &Chart)> {
        let pieces = self.pieces.iter();
        let pieces = pieces.map(|work| (StripId::Piece(work.of), &work.chart));
        std::iter::once((StripId::Base, &self.chart)).chain(pieces)
    }

    /// The score chart of a strip.
    pub fn chart_of(&self, of: StripId) -> Option<&Chart> {
        self.charts()
            .find(|(it, _)| *it == of)
            .map(|(_, chart)| chart)
    }

    /// How much adhesive covers behind the layers, in square units of [`Length`]: all of
    /// where it is wanted, or where that would spoil the card, of where it is safe.
    pub fn adhesive(&self) -> Area {
        self.glued().map(Region::area).sum()
    }

    fn glued(&self) -> impl Iterator<Item = &Region<BackFrame>> {
        let gluings = self.gluings.iter();
        gluings.filter_map(|gluing| {
            if gluing.refused {
                gluing.safe.as_ref()
            } else {
                gluing.wanted.as_ref()
            }
        })
    }

    /// The envelope its maker chose, or else the tightest that takes the card. `None`
    /// where there is none, or the card does not close.
    pub fn envelope(&self, recipe: &Recipe) -> Option<&'static Envelope> {
        self.folded.as_ref()?;
        let chosen = recipe.posting.envelope.as_deref();
        let chosen = chosen.and_then(Envelope::by_id);
        chosen.or_else(|| Some(self.envelopes.first()?.envelope))
    }

    /// By how much the closed card varies in thickness away from its edges; nothing
    /// where it does not close. By paper alone, as [`Card::thickest`].
    pub fn uneven(&self, recipe: &Recipe) -> Length {
        let pile = closed_pile(&self.laid, self.folded.as_ref(), &self.readings);
        uneven(recipe, &self.laid, &pile)
    }

    /// How a part lies on its paper; `None` where it has none.
    pub fn lies(&self, part: Part) -> Option<&LayAdvice> {
        self.cut_list.of(part)?.lies.as_ref()
    }
}

/// The card folded shut, as far as it can be.
pub(crate) struct Shut {
    /// The flat pieces.
    pub(crate) laid: LaidOut,
    /// The folded card; `None` when it does not fold flat.
    pub(crate) folded: Option<Folded>,
    left_out: Vec<PieceId>,
    /// How each face is read.
    pub(crate) readings: Vec<Reading>,
    /// A layer that keeps it from closing.
    trapped: Option<LayerId>,
    problems: Vec<Problem>,
}

impl Shut {
    pub(crate) fn of(recipe: &Recipe) -> Self {
        let mut laid = lay_out(recipe);
        let mut problems = laid.problems.clone();
        let mut left_out = Vec::new();
        let mut folded = match fold(recipe, &laid) {
            Ok(folded) => Some(folded),
            Err(why) => {
                if let Some(without) = folding::without_pieces(recipe, &laid) {
                    problems.extend(without.problem(&why));
                    laid = without.laid;
                    left_out = without.left_out;
                    Some(without.folded)
                } else {
                    problems.extend(folding::unfoldable(recipe, &why));
                    None
                }
            }
        };
        let mut read = folded
            .as_ref()
            .map(|folded| readings(&laid, folded))
            .unwrap_or_default();
        problems.extend(outlines::follow(recipe, &mut laid, &read));
        // Layers are placed on the faces as these are read, which takes a folded
        // card; what reaches past its panel may then ask for another order.
        let mut trapped = None;
        if let Some(bare) = &folded {
            let overhangs = overhanging(&laid, bare, &read);
            if !overhangs.is_empty() {
                match folding::closing(recipe, &laid, bare, overhangs) {
                    Ok(with_layers) => {
                        read = readings(&laid, &with_layers);
                        folded = Some(with_layers);
                    }
                    Err(layer) => trapped = layer,
                }
            }
        }
        Self {
            laid,
            folded,
            left_out,
            readings: read,
            trapped,
            problems,
        }
    }

    /// What reaches past what should hold it; nothing where it does not fold.
    fn reaches(&self, recipe: &Recipe) -> Vec<Reach> {
        let folded = self.folded.as_ref();
        folded
            .map(|folded| reaches(recipe, &self.laid, folded, &self.readings, self.trapped))
            .unwrap_or_default()
    }

    /// What its folds wrap; nothing where it does not fold.
    fn wraps(&self, recipe: &Recipe) -> Vec<Wrap> {
        let folded = self.folded.as_ref();
        folded
            .map(|folded| wraps(recipe, &self.laid, folded, &self.readings))
            .unwrap_or_default()
    }
}

/// Everything in the closed card from the front to the back; nothing where it does
/// not fold.
fn closed_pile(laid: &LaidOut, folded: Option<&Folded>, readings: &[Reading]) -> Vec<Lying> {
    let closed = folded.and_then(|folded| folded.states.first());
    closed
        .map(|state| pile(state, View::Front, &laid.layers, readings))
        .unwrap_or_default()
}

/// By how much a corner that lies beyond others is still taken to lie with them:
/// what folding over creases at a slant rounds to units adds up to no more.
pub(crate) const ROUNDED: Length = Length::from_units(8);

/// The first and the last of some places.
pub(crate) fn ends(places: impl Iterator<Item = Length> + Clone) -> Option<(Length, Length)> {
    let (first, last) = (places.clone().min()?, places.clone().max()?);
    let with_first = places.clone().filter(|at| *at - first <= ROUNDED);
    let with_last = places.filter(|at| last - *at <= ROUNDED);
    Some((with_first.max()?, with_last.min()?))
}

/// Width and height of everything that lies there together.
fn size_of(closed: &[Lying]) -> Size {
    let corners = closed.iter().flat_map(|lying| {
        let within = lying.cover.within;
        [within.low, within.high]
    });
    let across = ends(corners.clone().map(|at| at.x));
    let up = ends(corners.map(|at| at.y));
    let long = |ends: Option<(Length, Length)>| {
        ends.map_or(Length::ZERO, |(first, last)| {
            (last - first).max(Length::ZERO)
        })
    };
    Size {
        width: long(across),
        height: long(up),
    }
}

/// Width and height of the closed card with all that overhangs, as in
/// [`Card::finished`]; nothing where it does not fold flat.
pub fn closed_size(recipe: &Recipe) -> Size {
    let shut = Shut::of(recipe);
    size_of(&closed_pile(
        &shut.laid,
        shut.folded.as_ref(),
        &shut.readings,
    ))
}

/// Works out a recipe.
pub fn work_out(recipe: &Recipe, tools: &Tools) -> Card {
    let shut = Shut::of(recipe);
    let wraps = shut.wraps(recipe);
    let reaches = shut.reaches(recipe);
    let Shut {
        laid,
        mut folded,
        left_out,
        mut readings,
        mut problems,
        ..
    } = shut;
    problems.extend(folded.as_ref().and_then(folding::problems));
    problems.extend(wraps.iter().flat_map(Wrap::problems));
    let Opens {
        whole,
        is_stuck,
        problems: in_the_way,
    } = folded
        .as_ref()
        .map(|folded| opening::open(recipe, &laid, folded))
        .unwrap_or_default();
    problems.extend(in_the_way);
    let (gluings, refused) = folded
        .as_ref()
        .map(|folded| glue(recipe, &laid, folded, &readings))
        .unwrap_or_default();

    let closed = closed_pile(&laid, folded.as_ref(), &readings);
    let finished = size_of(&closed);
    let past_the_pages = folded
        .as_ref()
        .map(|folded| pages::past_the_pages(recipe, &laid, folded, finished));
    problems.extend(past_the_pages.into_iter().flatten());
    problems.extend(reaching::problems(recipe, &reaches, finished, &refused));
    problems.extend(refused);
    let thickest = thickest(recipe, &laid, &closed);

    let cut_list = cut_list(recipe, &laid, &readings);
    let chart = pieces::chart(recipe, *tools, &cut_list, &laid.base);
    let pieces = laid.pieces.iter().filter_map(|piece| {
        let chart = pieces::chart(recipe, *tools, &cut_list, piece);
        let of = piece.of.piece()?;
        Some(PieceWork { of, chart })
    });
    let pieces: Vec<_> = pieces.collect();
    problems.extend(fit::paper(recipe, &cut_list, &readings));
    let joined = pieces::problems(recipe, &laid, folded.as_ref(), &readings);
    problems.extend(joined);
    problems.extend(fit::between_marks(&chart));
    problems.extend(fit::too_many(recipe));
    let (envelopes, ill_posted) = if folded.is_some() {
        fit::envelopes(recipe, finished)
    } else {
        Default::default()
    };
    problems.extend(ill_posted);
    problems.extend(thickest.and_then(|place| fit::thick(place.thickness)));
    // Faces are read as they would lie in the open card; it is shown no further
    // open than it goes.
    if let Some(folded) = folded.as_mut().filter(|_| is_stuck) {
        folded.hold(recipe, &laid);
        let last = folded.states.len().saturating_sub(1);
        for reading in &mut readings {
            reading.state = reading.state.min(last);
        }
    }
    problems.put_in_order_by_key(|problem| std::cmp::Reverse(problem.weight));
    let mut card = Card {
        mass: mass(recipe, &laid),
        laid,
        folded,
        left_out,
        whole,
        readings,
        gluings,
        wraps,
        finished,
        reaches,
        thickest,
        cut_list,
        chart,
        pieces,
        envelopes,
        problems,
    };
    card.mass = card.mass + card.supplies_mass(recipe);
    card
}

/// What all paper of a card weighs.
fn mass(recipe: &Recipe, laid: &LaidOut) -> Mass {
    let pieces = laid.all_pieces().map(|piece| {
        let panels = laid.panels_of(piece).iter();
        let twice: i128 = panels.map(|panel| panel.facet.twice_area()).sum();
        (piece.stock, twice / 2)
    });
    let layers = laid.layers.iter().map(|layer| {
        let area = match &layer.shape {
            None => layer.at.size().area(),
            Some(shape) => shape.area(),
        };
        (layer.stock, area)
    });
    pieces
        .chain(layers)
        .filter_map(|(stock, area)| Some(recipe.stock(stock)?.weight.mass_of_area(area)))
        .sum()
}
