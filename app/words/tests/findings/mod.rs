//! A card with everything that has a name, and every finding there can be of it.

use foldwright_engine::card::add_piece;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::pattern::{Angle, LineId, LineKind};
use foldwright_engine::plane::{PieceFrame, Point, Size};
use foldwright_engine::problem::{Finding, PatternFinding};
use foldwright_engine::recipe::{
    CutoutId, Face, Fold, Is, LayerId, LayerKind, OwnStepId, PanelId, Parts, PieceId, Recipe,
    Relation, Seat, Side, StripId, starters,
};
use foldwright_words::{English, Language, starter};

/// Samples of an enum, each beside its pattern. Together the patterns are a match
/// that does not compile where a variant has no sample.
macro_rules! every {
    ($type:ty: $($pattern:pat => [$($value:expr),* $(,)?]),+ $(,)?) => {{
        let covers = |it: &$type| match it {
            $($pattern => {})+
        };
        let mut all: Vec<$type> = Vec::new();
        $($({
            let value: $type = $value;
            covers(&value);
            assert!(matches!(&value, $pattern), "{value:?}");
            all.push(value);
        })*)+
        all
    }};
}

pub(crate) mod card;
pub(crate) mod class;
mod fitting;
mod folding;
mod kept;
mod listed;
pub(crate) mod look;
pub(crate) mod paper;
pub(crate) mod part;
pub(crate) mod steps;
pub(crate) mod suggested;
pub(crate) mod table;
mod typed;

pub(crate) use kept::{faults, file_errors};
pub(crate) use listed::{assumed, forms, meanings, missed, remarks, suggests};
pub(crate) use typed::{misread, refusals};

fn mm(count: i64) -> Length {
    Length::mm(count)
}

fn size(width: i64, height: i64) -> Size {
    Size {
        width: mm(width),
        height: mm(height),
    }
}

fn at(x: i64, y: i64) -> Point<PieceFrame> {
    Point::new(mm(x), mm(y))
}

fn degrees(whole: i32) -> Angle {
    Angle::thousandths(whole * 1000)
}

/// A starting fold with a layer, a piece, a window, a crease and a cut, its parts
/// called what is longest in the starting folds.
pub(crate) fn with_long_names() -> Recipe {
    let notation = Notation {
        step: Step::HalfMillimetre,
        decimal: DecimalMark::Comma,
    };
    let all = starters();
    let mut starters = all.iter();
    let starting = starters.find(|it| it.recipe.base.panels.len() >= 4);
    let starting = starting.expect("one has four panels");
    let mut recipe = starter(Language::English.tongue(), starting, notation);
    let names = ["second pleat", "fold behind", "first inner", "first pleat"];
    let panels: Vec<_> = recipe.base.panels.iter().map(|panel| panel.id).collect();
    for (panel, name) in panels.iter().zip(names) {
        recipe
            .rename_panel(*panel, name, &English)
            .expect("it is there");
    }
    let on = Face {
        panel: panels[0],
        side: Side::B,
    };
    let layer = recipe.add_layer(Seat::Face(on), LayerKind::Focal, &English);
    layer.expect("there is room");
    let piece = add_piece(&mut recipe, on, &English)
        .expect("there is room")
        .id;
    recipe
        .rename_piece(piece, "inner strip", &English)
        .expect("it is there");
    recipe
        .add_window(panels[1], &English)
        .expect("there is room");
    recipe
        .add_own_step("Stamp the harbour on each front", true)
        .expect("there is room");
    let crease = LineKind::Crease(Fold::Valley);
    for (kind, up, name) in [
        (crease, 10, "upper step upper slit"),
        (LineKind::Cut, 20, "lower step upper slit"),
    ] {
        let line = recipe.add_line(StripId::Base, kind, at(5, up), at(15, up), &English);
        let line = line.expect("it is on the paper").id;
        recipe
            .rename_line(line, name, &English)
            .expect("it is there");
    }
    recipe
}

/// What there is in the recipe, by its lasting names.
struct There<'a> {
    recipe: &'a Recipe,
    panels: Vec<PanelId>,
    /// The inside of the first panel, and the outside of the second.
    faces: [Face; 2],
    layer: LayerId,
    piece: PieceId,
    /// The panel of the piece that is glued.
    tab: PanelId,
    cutout: CutoutId,
    own: OwnStepId,
    score: LineId,
    tab_score: LineId,
    crease: LineId,
    cut: LineId,
}

impl<'a> There<'a> {
    fn of(recipe: &'a Recipe) -> Self {
        let panels: Vec<_> = recipe.base.panels.iter().map(|panel| panel.id).collect();
        let face = |panel: usize, side| Face {
            panel: panels[panel],
            side,
        };
        let faces = [face(0, Side::A), face(1, Side::B)];
        let piece = recipe.pieces.last().expect("one was added");
        let tab = piece.strip.panels[0].id;
        let lines: Vec<_> = recipe.base.lines.iter().map(|line| line.id).collect();
        let [.., crease, cut] = lines[..] else {
            unreachable!("two were drawn");
        };
        Self {
            recipe,
            faces,
            layer: recipe.layers.last().expect("one was added").id,
            piece: piece.id,
            tab,
            cutout: recipe.base.cutouts.last().expect("one was added").id,
            own: recipe.own_steps.last().expect("one was added").id,
            score: LineId::of_score(0),
            tab_score: LineId::of_piece_score(tab),
            crease: LineId::of_line(crease),
            cut: LineId::of_line(cut),
            panels,
        }
    }
}

/// Relations of every kind between measures of the recipe.
fn broken(recipe: &Recipe) -> impl Iterator<Item = Relation> {
    let of = |number: usize| recipe.measures[number].id;
    let held = Relation::less(of(0), 2, of(1), of(2));
    [Is::Equal, Is::AtLeast, Is::AtMost]
        .into_iter()
        .map(move |is| Relation {
            is,
            plus: mm(2),
            ..held.clone()
        })
}

/// Every finding there can be.
pub(crate) fn findings(recipe: &Recipe) -> Vec<Finding> {
    let there = There::of(recipe);
    let (piece, part, on) = (there.piece, there.tab, there.faces[0]);
    let (cutout, layer) = (there.cutout, there.layer);
    let mut all: Vec<Finding> = Vec::new();
    all.extend(broken(recipe).map(Finding::Broken));
    let number = 1501;
    let many = Parts::ALL.into_iter();
    all.extend(many.map(|parts| Finding::TooMany { parts, number }));
    all.extend(there.laid().into_iter().map(Finding::Laid));
    all.extend(there.outline().into_iter().map(Finding::Outline));
    let cutouts = There::cutout().into_iter();
    all.extend(cutouts.map(|is| Finding::Cutout { cutout, is }));
    let faults = there.faults().into_iter().map(PatternFinding::Fault);
    let misfits = there.misfits().into_iter().map(PatternFinding::Misfit);
    let patterns: Vec<_> = faults.chain(misfits).collect();
    for of in [StripId::Base, StripId::Piece(piece)] {
        let patterns = patterns.iter().cloned();
        all.extend(patterns.map(|is| Finding::Pattern { of, is }));
    }
    all.extend(there.folding().into_iter().map(Finding::Folding));
    all.extend(there.opening().into_iter().map(Finding::Opening));
    all.extend(there.fit().into_iter().map(Finding::Fit));
    all.extend(There::join().into_iter().map(|is| Finding::Join {
        piece,
        part,
        on,
        is,
    }));
    let reaches = there.reach().into_iter().map(Box::new);
    all.extend(reaches.map(Finding::Reach));
    let glued = there.glue().into_iter();
    all.extend(glued.map(|is| Finding::Glue { layer, is }));
    all.extend(there.cramped().map(Finding::Room));
    all.extend(listed::troubles().into_iter().map(Finding::List));
    covers(&all);
    all
}

/// Does not compile where a kind of finding is not listed here, and fails where
/// it is not among them.
fn covers(all: &[Finding]) {
    let kind = |finding: &Finding| match finding {
        Finding::Broken(_) => 0,
        Finding::TooMany { .. } => 1,
        Finding::Laid(_) => 2,
        Finding::Outline(_) => 3,
        Finding::Cutout { .. } => 4,
        Finding::Pattern { .. } => 5,
        Finding::Folding(_) => 6,
        Finding::Opening(_) => 7,
        Finding::Fit(_) => 8,
        Finding::Join { .. } => 9,
        Finding::Reach(_) => 10,
        Finding::Glue { .. } => 11,
        Finding::Room(_) => 12,
        Finding::List(_) => 13,
    };
    for number in 0..14 {
        assert!(all.iter().any(|it| kind(it) == number), "{number}");
    }
}
