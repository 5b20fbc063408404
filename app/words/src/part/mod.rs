//! What the parts of a card are called where they are no part of a sentence.

pub(crate) mod de;
pub(crate) mod en;

use foldwright_engine::card::LayFacts;
use foldwright_engine::part::Part;
use foldwright_engine::pattern::LineId;
use foldwright_engine::plane::Size;
use foldwright_engine::problem::Reach;
use foldwright_engine::recipe::{
    Change, Die, DrawnLineId, Face, LayerId, PanelId, Relation, Seat, Side, Stacked, StripId,
};

use crate::Speaker;

/// A part of a card, or something about it, in a few words.
#[derive(Debug, Clone, Copy)]
pub enum OfPart<'a> {
    /// A face: "the inside of panel 1".
    Face(Face),
    /// The base, or a piece glued in: "the card base".
    Strip(StripId),
    /// What is cut from a sheet.
    Cut(Part),
    /// A panel, or a part of one, by its name alone.
    Panel(PanelId),
    /// A panel or a layer that lies over or under others, by its name alone.
    Sheet(Stacked),
    /// A layer from behind.
    LayerBack(LayerId),
    /// A score, a crease or a cut.
    Line(LineId),
    /// What a line does and where it runs.
    Runs(DrawnLineId),
    /// The base, or a piece, flat with a side up.
    Flat(StripId, Side),
    /// What has a size and lies on something.
    On(Size, Seat),
    /// What a measure was, and what it is now.
    Moved(&'a Change),
    /// A rule between measures.
    Rule(&'a Relation),
    /// What a button does that makes something fit where it reaches too far.
    MakeFit(&'a Reach),
    /// A way to lay a piece on its sheet.
    Lay(&'a LayFacts),
    /// An outline to start from.
    Die(Die),
}

impl Speaker<'_> {
    /// A face: "the inside of panel 1".
    pub fn face(&self, face: Face) -> String {
        self.of_part(OfPart::Face(face))
    }

    /// The base, or a piece glued in: "the card base".
    pub fn strip(&self, of: StripId) -> String {
        self.of_part(OfPart::Strip(of))
    }

    /// What is cut from a sheet.
    pub fn part(&self, part: Part) -> String {
        self.of_part(OfPart::Cut(part))
    }

    /// A panel, or a part of one, by its name alone.
    pub fn panel(&self, panel: PanelId) -> String {
        self.of_part(OfPart::Panel(panel))
    }

    /// A panel or a layer that lies over or under others, by its name alone.
    pub fn stacked(&self, sheet: Stacked) -> String {
        self.of_part(OfPart::Sheet(sheet))
    }

    /// A layer from behind.
    pub fn layer_back(&self, layer: LayerId) -> String {
        self.of_part(OfPart::LayerBack(layer))
    }

    /// A score, a crease or a cut.
    pub fn line(&self, line: LineId) -> String {
        self.of_part(OfPart::Line(line))
    }

    /// What a line does and where it runs.
    pub fn runs(&self, line: DrawnLineId) -> String {
        self.of_part(OfPart::Runs(line))
    }

    /// The base, or a piece, flat with a side up.
    pub fn lies(&self, of: StripId, up: Side) -> String {
        self.of_part(OfPart::Flat(of, up))
    }

    /// What has a size and lies on something.
    pub fn on(&self, size: Size, seat: Seat) -> String {
        self.of_part(OfPart::On(size, seat))
    }

    /// What a measure was, and what it is now.
    pub fn moved(&self, change: &Change) -> String {
        self.of_part(OfPart::Moved(change))
    }

    /// A rule between measures.
    pub fn rule(&self, relation: &Relation) -> String {
        self.of_part(OfPart::Rule(relation))
    }

    /// What a button does that makes something fit where it reaches too far.
    pub fn make_fit(&self, reach: &Reach) -> String {
        self.of_part(OfPart::MakeFit(reach))
    }

    /// A way to lay a piece on its sheet, as a label.
    pub fn lay(&self, facts: &LayFacts) -> String {
        self.of_part(OfPart::Lay(facts))
    }

    /// An outline to start from, as a label.
    pub fn die(&self, die: Die) -> String {
        self.of_part(OfPart::Die(die))
    }

    /// Something of a part in a few words.
    pub fn of_part(&self, of: OfPart<'_>) -> String {
        self.tongue().of_part(self.names(), of)
    }
}
