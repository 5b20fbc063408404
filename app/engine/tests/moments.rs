//! What a card is at a glance, at each stage of its opening, and how it can lie.

#![expect(
    clippy::expect_used,
    reason = "helpers of a test fail the test, and say what was missing"
)]

use foldwright_engine::card::{Card, LayFacts, Tools, lay_facts, work_out};
use foldwright_engine::glue::Gluing;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::part::Part;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Change, MeasureId, Recipe, StripId, starters};
use foldwright_engine::stage::{Stage, Swung, stage};
use foldwright_engine::steps::{Instruction, how_to_glue};

fn starter(id: &str) -> Recipe {
    let starter = starters().iter().find(|starter| starter.id == id);
    let inches = Notation {
        step: Step::Sixteenth,
        decimal: DecimalMark::Point,
    };
    starter.expect("there is such a starter").recipe_in(inches)
}

fn worked_out(recipe: &Recipe) -> Card {
    work_out(recipe, &Tools::default())
}

fn named(recipe: &Recipe, name: &str) -> MeasureId {
    let measure = recipe.measures.iter().find(|measure| measure.name == name);
    measure.expect("there is such a measure").id
}

#[test]
fn what_moved_is_told_with_both_values() {
    let mut recipe = starter("book");
    let width = named(&recipe, "card width");
    let changes = recipe
        .set(width, Length::inches(4))
        .expect("nothing is pinned");
    let moved = |name, from: i64, to: i64| Change {
        measure: named(&recipe, name),
        from: Length::sixty_fourths(16 * from),
        to: Length::sixty_fourths(16 * to),
    };
    for expected in [moved("front width", 17, 16), moved("strip length", 34, 32)] {
        assert!(changes.contains(&expected), "{expected:?} in {changes:?}");
    }
}

/// By hand: a base of 8 1/2 × 5 1/2 in, folded once in the middle of its length.
#[test]
fn a_card_at_a_glance() {
    let recipe = starter("book");
    let card = worked_out(&recipe);
    let facts = card.facts();
    let front = recipe.base.panels.iter().find(|it| it.name == "front");
    let closed = facts.closed.expect("it folds flat");
    assert_eq!(facts.panels, 2);
    assert_eq!(closed.front, front.map(|it| it.id));
    assert_eq!(closed.without, []);
    let size = |width: i64, height: i64| Size {
        width: Length::sixty_fourths(16 * width),
        height: Length::sixty_fourths(16 * height),
    };
    assert_eq!((facts.flat, closed.size), (size(34, 22), size(17, 22)));
    assert_eq!(closed.mass, card.mass);
}

#[test]
fn the_opening_has_stages() {
    let recipe = starter("letter");
    let card = worked_out(&recipe);
    let panels: Vec<_> = recipe.base.panels.iter().map(|panel| panel.id).collect();
    let opened = |stage: Stage| match stage {
        Stage::Opened {
            swung: Swung::Panels(swung),
            stops: false,
        } => swung,
        other => panic!("{other:?}"),
    };
    assert_eq!(stage(&card, 0.0), Stage::Closed);
    // The panel folded in last opens first, and one panel opens after another.
    let first = opened(stage(&card, 1.0));
    assert_eq!(first.len(), 1);
    assert!(panels.contains(&first[0]));
    assert_eq!(
        stage(&card, 0.5),
        Stage::Opening(Swung::Panels(first.clone()))
    );
    let Stage::Opening(Swung::Panels(second)) = stage(&card, 1.5) else {
        panic!("a panel is on its way");
    };
    assert_ne!(first, second);
    assert_eq!(stage(&card, 2.0), Stage::Flat);
    assert_eq!(stage(&card, 9.0), Stage::Flat);
}

#[test]
fn a_strip_that_does_not_fold_is_said_to_be_one() {
    let mut recipe = starter("letter");
    let card = Card {
        folded: None,
        ..worked_out(&recipe)
    };
    assert_eq!(stage(&card, 0.0), Stage::NotFlat);
    assert_eq!(card.facts().closed, None);
    recipe.base.panels.truncate(1);
    recipe.base.folds.clear();
    assert_eq!(stage(&worked_out(&recipe), 0.0), Stage::NoFold);
}

/// The mat lies whole on its panel, so by hand its glue stays away from each edge
/// by the margin of the recipe.
#[test]
fn glue_is_told_by_its_distances_on_the_back() {
    let recipe = starter("book");
    let card = worked_out(&recipe);
    let gluing: &Gluing = card.gluings.first().expect("the book has a mat");
    let margin = Length::sixty_fourths(8);
    assert_eq!(recipe.glue_margin, margin);
    let across = Instruction::GlueAcross {
        left: margin,
        right: margin,
    };
    let up = Instruction::GlueUp {
        top: margin,
        bottom: margin,
    };
    assert_eq!(how_to_glue(gluing), [across, up]);
    let nowhere = Gluing {
        safe: None,
        wanted: None,
        ..gluing.clone()
    };
    assert_eq!(
        how_to_glue(&nowhere),
        [Instruction::NowhereToGlue(gluing.layer)]
    );
}

#[test]
fn lays_are_told_apart() {
    let recipe = starter("book");
    let card = worked_out(&recipe);
    let stock = recipe
        .stock(recipe.base.stock)
        .expect("the book has its paper");
    let lies = card.lies(Part::Strip(StripId::Base));
    let lays = lies.map(|lies| &lies.lays[..]).unwrap_or_default();
    let mut told: Vec<LayFacts> = Vec::new();
    for report in lays {
        let facts = lay_facts(&recipe, StripId::Base, stock, report);
        if !told.contains(&facts) {
            told.push(facts);
        }
    }
    // Both sides of its card are alike, so the eight lays are told as four.
    assert_eq!((lays.len(), told.len()), (8, 4), "{told:?}");
}
