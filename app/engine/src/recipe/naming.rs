//! What the program calls what it adds. A name is made once, in the maker's
//! language, and is the maker's own from then on: it is never translated.

use serde::{Deserialize, Serialize};

use super::edit::Edited;
use super::{
    CutoutId, DrawnLineId, EditError, End, LayerId, LayerKind, MeasureId, PanelId, PieceId, Recipe,
    Shaped, StripId, shortened,
};
use crate::length::Length;
use crate::paper::{ReadyPaper, SheetSize};
use crate::pattern::LineKind;

/// Names what is new, in the maker's language.
pub trait Naming {
    /// What something new is called.
    fn name(&self, new: New<'_>) -> String;
}

/// Something new that needs a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum New<'a> {
    /// A panel, counted along its strip.
    Panel(usize),
    /// A layer.
    Layer(LayerKind),
    /// A piece glued in, counted.
    Piece(usize),
    /// The panel of a piece that is glued down.
    Tab,
    /// What hangs on it.
    Flap,
    /// A window.
    Window,
    /// Rounded corners.
    Corners,
    /// A shaped edge.
    Edge,
    /// A crease or a cut, counted.
    Line(LineKind, usize),
    /// What would be called like another, counted from the second.
    Again(&'a str, usize),
    /// A measure of a part of that name.
    Measure(&'a str, Role),
    /// The width of a panel of that name, the second, of a piece of that name.
    WidthOn(&'a str, &'a str),
    /// A paper to start from.
    Paper(ReadyPaper),
    /// A paper of that kind in a size sheets are sold in.
    PaperIn(ReadyPaper, &'static SheetSize),
    /// The same in a size of its own, as it is written.
    PaperOf(ReadyPaper, &'a str),
    /// Something of a card that is made from a list.
    Listed(Listed),
}

/// Something of a card that is made from a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Listed {
    /// The recipe.
    Recipe,
    /// A panel, by what it does in the fold.
    Panel(ListedPanel),
    /// How wide the card is across its strip.
    CardWidth,
    /// How high the card is across its strip.
    CardHeight,
    /// By what a panel folded in is shorter.
    Allowance,
    /// How long the strip is.
    StripLength,
    /// The gap between the leaves of a gate.
    Gap,
    /// A round piece.
    Circle,
    /// An oval piece.
    Oval,
}

/// A panel of a card that is made from a list, by what it does in the fold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[expect(missing_docs, reason = "the names are those of the panels")]
pub enum ListedPanel {
    Card,
    Front,
    Back,
    LeftLeaf,
    Middle,
    RightLeaf,
    FoldedIn,
    BehindTheFront,
    InnerRight,
    InnerLeft,
}

/// The part that a measure is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Owner {
    /// A panel.
    Panel(PanelId),
    /// A layer.
    Layer(LayerId),
    /// A window, rounded corners or a shaped edge.
    Cutout(CutoutId),
    /// A crease or a cut.
    Line(DrawnLineId),
    /// A piece glued in.
    Piece(PieceId),
}

/// What a measure is of its part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Its width.
    Width,
    /// Its height.
    Height,
    /// Its length along its strip.
    Length,
    /// How far it is from the left of what carries it.
    Left,
    /// How far it is from the bottom of what carries it.
    Bottom,
    /// The even border round it.
    Border,
    /// The radius of its corners.
    Radius,
    /// How high its arch rises.
    Rise,
    /// How deep its edge is cut.
    Depth,
    /// Where an end of it is.
    End(End, Direction),
    /// Where an end of the line is that it is laid along, at the first place it
    /// is glued.
    Mark(End, Direction),
    /// The same at another place, counted from the second.
    MarkAt(usize, End, Direction),
}

/// A direction on a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Direction {
    /// Along it, from the left.
    Along,
    /// Across it, from the bottom.
    Across,
}

/// What a measure is, for a measure that is named after a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct MeasureOf {
    /// The part.
    pub part: Owner,
    /// What it is of the part.
    pub is: Role,
}

impl From<Shaped> for Owner {
    fn from(of: Shaped) -> Self {
        match of {
            Shaped::Layer(id) => Self::Layer(id),
            Shaped::Window(id) => Self::Cutout(id),
        }
    }
}

/// The first of some names that is not taken.
pub(super) fn first_free(
    names: impl IntoIterator<Item = String>,
    taken: impl Fn(&str) -> bool,
) -> Edited<String> {
    let mut free = names.into_iter().filter(|name| !taken(name));
    free.next().ok_or(EditError::Full)
}

/// A name, and the same counted from the second.
pub(super) fn counted(naming: &dyn Naming, new: New<'_>) -> impl Iterator<Item = String> {
    let first = naming.name(new);
    let again = first.clone();
    let others = (2..).map(move |number| naming.name(New::Again(&again, number)));
    std::iter::once(first).chain(others)
}

/// What measures of a part are named by while it is made.
#[derive(Clone, Copy)]
pub(super) struct Called<'a> {
    pub(super) naming: &'a dyn Naming,
    pub(super) part: Owner,
    pub(super) name: &'a str,
}

impl Recipe {
    /// A measure named after a part, at an index among the others.
    pub(super) fn add_part_measure(
        &mut self,
        index: usize,
        of: Called<'_>,
        is: Role,
        value: Length,
    ) -> Edited<MeasureId> {
        let name = of.naming.name(New::Measure(of.name, is));
        let of = MeasureOf { part: of.part, is };
        self.add_measure(index, &name, Some(of), value)
    }

    /// Names the measures of a part after what that is called now, and of a
    /// piece those of its panels.
    pub(super) fn rename_measures(&mut self, part: Owner, naming: &dyn Naming) {
        let on_it = |of: Owner| match (part, of) {
            (Owner::Piece(piece), Owner::Panel(panel)) => {
                let strip = self.strip_with(panel);
                strip.is_some_and(|(of, ..)| of == StripId::Piece(piece))
            }
            _ => of == part,
        };
        let measures = self.measures.iter().enumerate();
        let renamed = measures.filter_map(|(index, measure)| {
            let of = measure.of.filter(|of| on_it(of.part))?;
            Some((index, self.name_after(of, naming)?))
        });
        let renamed: Vec<_> = renamed.collect();
        for (index, name) in renamed {
            if let Some(measure) = self.measures.get_mut(index) {
                shortened(&name).clone_into(&mut measure.name);
            }
        }
    }

    /// Calls everything that has a name as it is called in a language, by the
    /// key that is its name so far. What has no name there keeps its key.
    pub fn call<'a>(&mut self, naming: &dyn Naming, called: impl Fn(&str) -> Option<&'a str>) {
        let call = |name: &mut String| {
            if let Some(called) = called(name) {
                called.clone_into(name);
            }
        };
        self.stocks.iter_mut().for_each(|it| call(&mut it.name));
        self.layers.iter_mut().for_each(|it| call(&mut it.name));
        self.pieces.iter_mut().for_each(|it| call(&mut it.name));
        for strip in self.strips_mut() {
            strip.panels.iter_mut().for_each(|it| call(&mut it.name));
            strip.lines.iter_mut().for_each(|it| call(&mut it.name));
            strip.cutouts.iter_mut().for_each(|it| call(&mut it.name));
        }
        let measures = self.measures.iter();
        let after = measures.map(|it| self.name_after(it.of?, naming));
        let after: Vec<_> = after.collect();
        for (measure, after) in self.measures.iter_mut().zip(after) {
            match after {
                Some(name) => measure.name = name,
                None => call(&mut measure.name),
            }
        }
    }

    /// What a measure is called after its part; `None` where that is gone.
    pub(super) fn name_after(&self, of: MeasureOf, naming: &dyn Naming) -> Option<String> {
        let named = |name: &str| naming.name(New::Measure(name, of.is));
        Some(match of.part {
            Owner::Layer(id) => named(&self.layer(id)?.name),
            Owner::Cutout(id) => named(&self.cutout(id)?.name),
            Owner::Line(id) => named(&self.line(id)?.name),
            Owner::Piece(id) => named(&self.piece(id)?.name),
            Owner::Panel(id) => {
                let (of, ..) = self.strip_with(id)?;
                let (_, panel) = self.panel(id)?;
                match of.piece().and_then(|id| self.piece(id)) {
                    Some(piece) => naming.name(New::WidthOn(&piece.name, &panel.name)),
                    None => named(&panel.name),
                }
            }
        })
    }
}
