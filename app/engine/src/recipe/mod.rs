//! The recipe: what the maker decided, as plain data.
//!
//! A recipe holds named measures and the relations between them, the papers,
//! the strip with its panels and folds, what is glued on, and the maker's
//! choices. Everything else is computed from it.

mod check;
mod class;
mod cutout;
mod cutting;
mod design;
mod draft;
mod edit;
mod file;
mod follow;
mod former;
mod hold;
mod ids;
mod kept;
mod lay;
mod layer;
mod line;
mod measure;
mod misshapen;
mod moving;
mod naming;
mod ordering;
mod outline;
mod own;
mod panels;
mod parts;
mod piece;
mod pieces;
mod plain;
mod rejoin;
mod relation;
mod run;
mod scoring;
mod shaping;
mod snap;
mod solve;
mod starter;
mod strip;
mod supply;
mod text;
mod tie;
mod traced;
mod usual;

use std::collections::BTreeMap;
use std::ops::{Deref, DerefMut};

use serde::{Deserialize, Serialize};

pub use check::{Fault, MOST_COPIES, MOST_TIMES, Measured, Needed, Written};
pub use class::ForClass;
pub use cutout::{Cut, Cutout, CutoutId, EdgeForm, EdgeSide, MOST_WAVES, Which, Window};
pub use cutting::EdgeKind;
pub use design::DesignedOn;
pub use draft::End;
pub(crate) use edit::usual_margin;
pub use edit::{Added, EditError, LayerKind};
pub use file::{
    FileError, Misread, VERSION, check_version, read, read_kept, read_part, write, write_dense,
    write_part, write_parts,
};
pub use ids::Ids;
pub use kept::Kept;
pub use lay::{BoardFrame, Lay, OnSheet};
pub use layer::{Anchor, Bond, Layer, LayerId, Placing, Seat};
pub use line::{Corner, DrawnLineId, Line};
pub use measure::{Measure, MeasureId};
pub use misshapen::{Detail, Spot};
pub use naming::{Direction, Listed, ListedPanel, MeasureOf, Naming, New, Owner, Role};
pub use ordering::{MOST_OWN_STEP, OwnStep, OwnStepId};
pub use outline::{Bend, MOST_BENDS, Outline};
pub(crate) use outline::{Flaw, bent, part};
pub use parts::Parts;
pub use piece::{Join, Mark, Piece, PieceId};
pub use plain::{from_value, to_value, write_to};
pub use rejoin::Rejoined;
pub use relation::{Holds, Is, Relation, Term};
pub use run::{Run, RunId, Spent};
pub use scoring::Scoring;
pub use shaping::{Die, OutlineKind, Shaped};
pub use snap::{Catch, snap};
pub use solve::{Change, Clash};
pub use starter::{Does, FoldGroup, Metric, Starter, starters};
pub use strip::{Panel, PanelId, Strip, StripId};
pub use supply::{
    Bought, HEAVIEST_PACK, InPack, LONGEST_ROLL, MOST_IN_A_PACK, MOST_OF_A_KIND, Supply, SupplyId,
    Takes, Wraps,
};
pub use text::{MOST_TEXT, shortened};
pub use traced::{Dot, MOST_TRACED, Traced, Untraced};
pub(crate) use usual::{fits, usual_allowance, usual_rules, usual_stocks};

pub use crate::pattern::{Fold, Side};

use crate::length::{Length, Notation};
use crate::paper::{PhotoId, Stock, StockId};
use crate::plane::Turn;

/// One face of a panel.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub struct Face {
    /// The panel.
    pub panel: PanelId,
    /// Which side of it.
    pub side: Side,
}

/// Which way the strip runs in the finished card.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Runs {
    /// From left to right: the card opens like a book.
    #[default]
    Across,
    /// From top to bottom: the card opens upward like a tent.
    Down,
}

impl Runs {
    /// The turn from the piece to the card.
    pub const fn turn(self) -> Turn {
        match self {
            Self::Across => Turn::None,
            Self::Down => Turn::Right,
        }
    }
}

/// What may lie on something else in the closed card.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(untagged)]
pub enum Stacked {
    /// A panel, or a part of one.
    Panel(PanelId),
    /// A layer that reaches past its panel.
    Layer {
        /// The layer.
        layer: LayerId,
    },
}

/// The maker's answer where two sheets may lie either way round.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct OnTop {
    /// The sheet nearer the front of the closed card.
    pub upper: Stacked,
    /// The sheet beneath it.
    pub lower: Stacked,
}

impl OnTop {
    /// Both sheets.
    pub const fn sheets(self) -> [Stacked; 2] {
        [self.upper, self.lower]
    }
}

/// The folded piece that makes the card: a strip that rests on the table and
/// runs some way.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Base {
    /// The strip.
    #[serde(flatten)]
    pub strip: Strip,
    /// The panel that rests on the table, its inside up, while the others fold.
    pub rests: PanelId,
    /// Which way the strip runs in the finished card.
    #[serde(default)]
    pub runs: Runs,
    /// The maker's answers where the paper leaves the order open.
    #[serde(default)]
    pub on_top: Vec<OnTop>,
}

impl Deref for Base {
    type Target = Strip;

    fn deref(&self) -> &Strip {
        &self.strip
    }
}

impl DerefMut for Base {
    fn deref_mut(&mut self) -> &mut Strip {
        &mut self.strip
    }
}

/// Which envelope rule the maker trusts, which envelope they chose, and whether the
/// recipe is one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Posting {
    /// The clearance rule's name in the table of rules.
    pub rule: String,
    /// The envelope's name in the table of envelopes, once chosen.
    #[serde(default)]
    pub envelope: Option<String>,
    /// Whether it is an envelope itself, made for a card, and so goes into none.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub is_envelope: bool,
    /// The paper of an envelope made for it, where it is posted in one; one that the
    /// recipe has no more says nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub made_of: Option<StockId>,
}

/// How much shorter a panel folded inside others must be, and by whose rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FoldingIn {
    /// The rule's name in the table of finishing rules.
    pub rule: String,
    /// The measure that carries the allowance, so that panels can follow it.
    pub allowance: MeasureId,
}

/// A saved project.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Recipe {
    /// What the maker calls it.
    pub name: String,
    /// A line or two about it.
    #[serde(default)]
    pub about: String,
    /// Unit, step and decimal mark everything is written in.
    pub notation: Notation,
    /// The measures, firmest first: when something must move, the later ones
    /// move before the earlier ones.
    pub measures: Vec<Measure>,
    /// What holds between the measures.
    pub relations: Vec<Relation>,
    /// The papers the pieces are cut from.
    pub stocks: Vec<Stock>,
    /// The sheet it was designed for, where it was fitted to another.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub designed_on: Option<DesignedOn>,
    /// The folded strip.
    pub base: Base,
    /// Pieces folded from other sheets and glued in, in the order they are.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pieces: Vec<Piece>,
    /// What is glued on or slipped in, in the order it is put on.
    #[serde(default)]
    pub layers: Vec<Layer>,
    /// What it takes besides that is not paper.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub supplies: Vec<Supply>,
    /// The faces whose print must be upright.
    #[serde(default)]
    pub upright: Vec<Face>,
    /// How the maker chose to lay the paper; otherwise the best lay is used.
    #[serde(default)]
    pub lay: Option<Lay>,
    /// How the strip is scored.
    #[serde(default)]
    pub scoring: Scoring,
    /// How far glue stays from edges and creases.
    pub glue_margin: Length,
    /// How much shorter than its cover a folded-in panel must be.
    pub folding_in: FoldingIn,
    /// The envelope.
    pub posting: Posting,
    /// How many cards are made.
    #[serde(default = "one")]
    pub copies: u32,
    /// What is planned for a class, once its maker said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub class: Option<ForClass>,
    /// The maker's notes beside the steps, by the step's lasting name.
    #[serde(default)]
    pub notes: BTreeMap<String, String>,
    /// The maker's photographs beside the steps, by the step's lasting name.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub photos: BTreeMap<String, PhotoId>,
    /// The log of the cards that were made, in the order they came here.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub runs: Vec<Run>,
    /// The maker's own steps.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub own_steps: Vec<OwnStep>,
    /// The order in which the maker takes the steps, by their lasting names; empty
    /// while it is the usual one. Steps it does not name keep their usual place.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub order: Vec<String>,
    /// Where names for what is added are drawn from; no part of the recipe.
    #[serde(skip)]
    pub ids: Ids,
}

fn one() -> u32 {
    1
}

impl Recipe {
    /// Everything that holds: panels make up their strips, each layer keeps its
    /// place, and the relations the recipe adds to these.
    pub fn held(&self) -> Vec<Relation> {
        self.strips()
            .map(|(_, strip)| strip.sum())
            .chain(self.layers.iter().flat_map(|layer| layer.keeps(self)))
            .chain(self.cutouts().flat_map(|(strip, it)| it.keeps(strip)))
            .chain(self.relations.iter().cloned())
            .collect()
    }

    /// Every strip: that of the base, then those of the pieces glued in.
    pub fn strips(&self) -> impl Iterator<Item = (StripId, &Strip)> {
        let pieces = self.pieces.iter();
        let pieces = pieces.map(|piece| (StripId::Piece(piece.id), &piece.strip));
        std::iter::once((StripId::Base, &self.base.strip)).chain(pieces)
    }

    /// The measures the parts are made of: the strips, their panels, the
    /// layers, the allowance of panels folded in. One measure may serve
    /// several.
    pub(crate) fn part_measures(&self) -> impl Iterator<Item = MeasureId> + '_ {
        let strips = self.strips().flat_map(|(_, strip)| strip.measures());
        let marks = self.pieces.iter().flat_map(Piece::marks);
        let marks = marks.flat_map(|mark| mark.measures());
        let layers = self.layers.iter().flat_map(Layer::measures);
        strips
            .chain(std::iter::once(self.folding_in.allowance))
            .chain(marks)
            .chain(layers)
    }

    /// The measures that are the size of some piece of paper, and so can't be
    /// nothing or less.
    pub(crate) fn sizes(&self) -> impl Iterator<Item = MeasureId> + '_ {
        let layers = self
            .layers
            .iter()
            .flat_map(|layer| {
                [
                    Some(layer.width),
                    Some(layer.height),
                    layer.outline.measure(),
                ]
            })
            .flatten();
        let strips = self.strips().flat_map(|(_, strip)| strip.sizes());
        strips.chain(layers)
    }

    /// The measures of what a layer can lie on: its width and its height as
    /// its reader sees it.
    pub(crate) fn seat_size(&self, seat: Seat) -> Option<(MeasureId, MeasureId)> {
        match seat {
            Seat::Layer(id) => self.layer(id).map(|layer| (layer.width, layer.height)),
            Seat::Face(face) => {
                // What lines leave of a panel has no measures of its own.
                let (of, strip, index) = self
                    .strip_with(face.panel)
                    .filter(|_| face.panel.part_number() == 0)?;
                let width = strip.panels.get(index)?.width;
                // A piece glued in is read as it is drawn.
                Some(match self.base.runs {
                    Runs::Down if of.is_base() => (strip.height, width),
                    Runs::Across | Runs::Down => (width, strip.height),
                })
            }
        }
    }

    /// The measure of that name; `None` when the recipe has none.
    pub fn measure(&self, id: MeasureId) -> Option<&Measure> {
        self.measures.iter().find(|measure| measure.id == id)
    }

    /// The value of a measure; zero for a measure the recipe lacks, which the
    /// layout reports as a problem.
    pub fn value(&self, id: MeasureId) -> Length {
        self.measure(id)
            .map_or(Length::ZERO, |measure| measure.value)
    }

    /// The panel of that name, or that a part of that name belongs to, with its
    /// index along its strip.
    pub fn panel(&self, id: PanelId) -> Option<(usize, &Panel)> {
        let (_, strip, index) = self.strip_with(id)?;
        Some((index, strip.panels.get(index)?))
    }

    /// The strip a panel belongs to, whose it is, and the panel's index along
    /// it.
    pub fn strip_with(&self, id: PanelId) -> Option<(StripId, &Strip, usize)> {
        self.strips()
            .find_map(|(of, strip)| Some((of, strip, strip.index_of(id)?)))
    }

    /// The strip of the base, or of a piece.
    pub fn strip(&self, of: StripId) -> Option<&Strip> {
        match of {
            StripId::Base => Some(&self.base.strip),
            StripId::Piece(id) => self.piece(id).map(|piece| &piece.strip),
        }
    }

    /// The same, to be changed.
    pub(crate) fn strip_mut(&mut self, of: StripId) -> Option<&mut Strip> {
        match of {
            StripId::Base => Some(&mut self.base.strip),
            StripId::Piece(id) => {
                let mut pieces = self.pieces.iter_mut();
                let piece = pieces.find(|piece| piece.id == id)?;
                Some(&mut piece.strip)
            }
        }
    }

    /// The piece glued in of that name.
    pub fn piece(&self, id: PieceId) -> Option<&Piece> {
        self.pieces.iter().find(|piece| piece.id == id)
    }

    /// The layer of that name.
    pub fn layer(&self, id: LayerId) -> Option<&Layer> {
        self.layers.iter().find(|layer| layer.id == id)
    }

    /// The stock of that name.
    pub fn stock(&self, id: StockId) -> Option<&Stock> {
        self.stocks.iter().find(|stock| stock.id == id)
    }
}
