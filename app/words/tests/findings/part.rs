//! What the parts of a card are called by themselves.

use foldwright_engine::card::LayFacts;
use foldwright_engine::paper::StockSide;
use foldwright_engine::part::Part;
use foldwright_engine::plane::Edge;
use foldwright_engine::problem::{Past, Reach, Reacher};
use foldwright_engine::recipe::{
    Change, Die, DrawnLineId, Recipe, Relation, Seat, Side, Stacked, StripId,
};
use foldwright_words::OfPart;

use super::{There, broken, mm, size};

/// What is said with values that it only points to.
pub(crate) struct Values {
    change: Change,
    rules: Vec<Relation>,
    reaches: Vec<Reach>,
    lays: Vec<LayFacts>,
    line: DrawnLineId,
}

impl Values {
    pub(crate) fn of(recipe: &Recipe) -> Self {
        let there = There::of(recipe);
        let reach = |fits| Reach {
            of: Reacher::Layer(there.layer),
            past: Past::Panel,
            edges: Vec::new(),
            most: mm(1),
            across: Vec::new(),
            fits,
            in_rectangle: true,
            at: None,
        };
        let lay = |of, first, at, outside, per_sheet, upright| LayFacts {
            of,
            across: per_sheet == 0,
            first,
            at,
            outside,
            per_sheet,
            upright,
        };
        let (face, back) = (Some(StockSide::Face), Some(StockSide::Back));
        let (base, piece) = (StripId::Base, StripId::Piece(there.piece));
        let first = Some(there.panels[0]);
        Self {
            change: Change {
                measure: recipe.measures[0].id,
                from: mm(100),
                to: mm(105),
            },
            rules: broken(recipe).collect(),
            reaches: vec![reach(Some(size(40, 60))), reach(None)],
            lays: vec![
                lay(base, first, Edge::Left, face, 2, (2, 1)),
                lay(base, first, Edge::Right, back, 1, (1, 1)),
                lay(piece, None, Edge::Top, face, 0, (1, 0)),
                lay(piece, first, Edge::Bottom, back, 4, (0, 0)),
                lay(base, None, Edge::Top, None, 1, (0, 0)),
            ],
            line: recipe.base.lines[0].id,
        }
    }

    pub(crate) fn all(&self, recipe: &Recipe) -> Vec<OfPart<'_>> {
        let there = There::of(recipe);
        let dies = every!(Die:
            Die::Tag => [Die::Tag],
            Die::Ticket => [Die::Ticket],
            Die::Hexagon => [Die::Hexagon],
            Die::Heart => [Die::Heart],
            Die::Star => [Die::Star],
            Die::Scallops => [Die::Scallops],
        );
        let piece = StripId::Piece(there.piece);
        let mut all = every!(OfPart<'_>:
            OfPart::Face(_) => [OfPart::Face(there.faces[0]), OfPart::Face(there.faces[1])],
            OfPart::Strip(_) => [OfPart::Strip(StripId::Base)],
            OfPart::Cut(_) => [OfPart::Cut(Part::Strip(StripId::Base))],
            OfPart::Panel(_) => [OfPart::Panel(there.panels[0].part(1))],
            OfPart::Sheet(_) => [OfPart::Sheet(Stacked::Panel(there.panels[0].part(2)))],
            OfPart::LayerBack(_) => [OfPart::LayerBack(there.layer)],
            OfPart::Line(_) => [
                OfPart::Line(there.score),
                OfPart::Line(there.tab_score),
                OfPart::Line(there.crease),
                OfPart::Line(there.cut),
            ],
            OfPart::Runs(_) => [OfPart::Runs(self.line)],
            OfPart::Flat(..) => [
                OfPart::Flat(StripId::Base, Side::A),
                OfPart::Flat(StripId::Base, Side::B),
                OfPart::Flat(piece, Side::A),
                OfPart::Flat(piece, Side::B),
            ],
            OfPart::On(..) => [
                OfPart::On(size(40, 60), Seat::Face(there.faces[1])),
                OfPart::On(size(40, 60), Seat::Layer(there.layer)),
            ],
            OfPart::Moved(_) => [OfPart::Moved(&self.change)],
            OfPart::Rule(_) => [OfPart::Rule(&self.rules[0])],
            OfPart::MakeFit(_) => [OfPart::MakeFit(&self.reaches[0])],
            OfPart::Lay(_) => [OfPart::Lay(&self.lays[0])],
            OfPart::Die(_) => [OfPart::Die(dies[0])],
        );
        all.extend(self.reaches[1..].iter().map(OfPart::MakeFit));
        all.extend(self.lays[1..].iter().map(OfPart::Lay));
        all.extend(dies[1..].iter().map(|die| OfPart::Die(*die)));
        all
    }
}
