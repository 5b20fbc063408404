//! A refit starts from the card as it was designed, not from the last fit.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{DecimalMark, Length, Notation, Step};
use foldwright_engine::paper::{ClearanceRule, Envelope, Print};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{LayerKind, Measure, Recipe, Seat, StripId, read, starters, write};
use foldwright_engine::refit::{
    Keep, Outcome, Reason, Refit, Sheet, Wish, follows, from_design, refit, turning,
};

use crate::held::{holds, starter};
use crate::plain::Plain;
use crate::starting::size;

const INCHES: Notation = Notation {
    step: Step::Sixteenth,
    decimal: DecimalMark::Point,
};
const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Point,
};

fn on(recipe: &Recipe, sheet: &str, keep: Keep) -> Wish {
    Wish {
        sheet: Some(Sheet {
            stock: recipe.base.stock,
            size: size(sheet),
            keep,
        }),
        ..Wish::default()
    }
}

fn values(recipe: &Recipe) -> Vec<Length> {
    recipe.measures.iter().map(|it| it.value).collect()
}

fn fitted(recipe: &Recipe, wish: &Wish) -> Refit {
    refit(recipe, wish).expect("there is a card")
}

fn measure<'a>(recipe: &'a Recipe, name: &str) -> &'a Measure {
    let mut measures = recipe.measures.iter();
    measures.find(|it| it.name == name).expect("it is there")
}

/// To a pad of 6 × 6 in and back to Letter gives the card one began with,
/// whatever part of the sheet is to be used.
#[test]
fn there_and_back_is_the_card_one_began_with() {
    for starter in starters() {
        for keep in [Keep::Card, Keep::Count, Keep::Share] {
            let card = starter.recipe_in(INCHES);
            let home = card.stock(card.base.stock).expect("its paper").clone();
            let Ok(there) = refit(&card, &on(&card, "trade-6x6-in", keep)) else {
                continue;
            };
            let back = Wish {
                sheet: Some(Sheet {
                    stock: card.base.stock,
                    size: foldwright_engine::plane::Size {
                        width: home.width,
                        height: home.height,
                    },
                    keep,
                }),
                ..Wish::default()
            };
            let again = fitted(&there.recipe, &back);
            assert_eq!(values(&again.recipe), values(&card), "{}", starter.id);
            assert_eq!(again.recipe, card, "{}", starter.id);
            assert!(!again.recipe.is_fitted(), "{}", starter.id);
            assert_eq!(again.changes.len(), there.changes.len(), "{}", starter.id);
        }
    }
}

#[test]
fn it_says_what_it_starts_from_and_what_goes_back() {
    let card = starter("z", INCHES);
    assert_eq!(from_design(&card), None);
    let there = fitted(&card, &on(&card, "trade-6x6-in", Keep::Card)).recipe;
    let size = Size {
        width: Length::sixty_fourths(7 * 32),
        height: Length::inches(5),
    };
    assert_eq!(from_design(&there), Some(Outcome::FromDesign(size)));
    let wish = on(&there, "na-letter", Keep::Card);
    let again = fitted(&there, &wish);
    let reasons: Vec<_> = again
        .changes
        .iter()
        .map(|moved| moved.reason(&there, &wish))
        .collect();
    assert!(!reasons.is_empty());
    assert!(
        reasons.iter().all(|it| *it == Some(Reason::Designed)),
        "{reasons:?}"
    );
    // What is cut from the smaller paper still fits it where nothing else is
    // asked for.
    let same = fitted(&there, &Wish::default());
    assert_eq!(values(&same.recipe), values(&there));
}

/// From inches to millimetres and back: the marks of the one are not those of the
/// other.
#[test]
fn units_there_and_back() {
    for starter in starters() {
        let card = starter.recipe_in(INCHES);
        let to = |notation| Wish {
            notation: Some(notation),
            ..Wish::default()
        };
        let there = fitted(&card, &to(METRIC)).recipe;
        let again = fitted(&there, &to(INCHES)).recipe;
        assert_eq!(again, card, "{}", starter.id);
    }
}

/// A change made by hand after a fit is a change of the design.
#[test]
fn what_is_changed_after_a_fit_is_designed_so() {
    let card = starter("book", INCHES);
    let mut there = fitted(&card, &on(&card, "trade-6x6-in", Keep::Card)).recipe;
    assert!(there.is_fitted());
    let border = measure(&there, "mat border").id;
    there
        .set(border, Length::sixty_fourths(16))
        .expect("a wider border");
    let design = there.as_designed();
    assert_eq!(
        measure(&design, "card width").value,
        measure(&card, "card width").value
    );
    assert_eq!(design.value(border), Length::sixty_fourths(16));
    // 4 1/4 in less twice 1/4 in.
    assert_eq!(
        measure(&design, "mat width").value,
        Length::sixty_fourths(240)
    );
    let mut relations = design.relations.iter();
    assert!(relations.all(|held| holds(&design, held)));
    // What is added lies on the design as it does on the fitted card.
    let face = there.upright.first().copied().expect("a face");
    there
        .add_layer(Seat::Face(face), LayerKind::Mat, &Plain)
        .expect("a mat");
    let design = there.as_designed();
    assert_eq!(
        measure(&design, "card width").value,
        measure(&card, "card width").value
    );
    assert_eq!(design.broken(), []);
    // A move that is told by the fitted card alone makes that the design.
    there
        .remove_panel(there.base.panels[0].id)
        .expect("one is left");
    assert!(!there.is_fitted());
}

/// A file keeps it, and a file from before has none.
#[test]
fn a_file_keeps_the_design() {
    let card = starter("gate", INCHES);
    assert!(!write(std::slice::from_ref(&card)).contains("designed"));
    let there = fitted(&card, &on(&card, "trade-6x6-in", Keep::Card)).recipe;
    let text = write(std::slice::from_ref(&there));
    assert_eq!(read(&text).expect("our file"), [there]);
}

/// Leaves that overlap still overlap, by as much.
#[test]
fn overlapping_leaves_stay_so() {
    for id in ["gate", "shaped-gate", "arched-gate"] {
        let mut card = starter(id, INCHES);
        let gap = measure(&card, "gap between the leaves").id;
        card.set(gap, Length::sixty_fourths(-16))
            .expect("they overlap");
        assert_eq!(card.broken(), [], "{id}");
        let finished = work_out(&card, &Tools::default()).finished;
        for by in [-32, -16, 16, 32] {
            let mut size = finished;
            size.width += Length::sixty_fourths(by);
            let wish = Wish {
                finished: Some(size),
                ..Wish::default()
            };
            let found = fitted(&card, &wish).recipe;
            assert_eq!(found.value(gap), Length::sixty_fourths(-16), "{id}, {by}");
        }
        // A gap that is one stays one.
        let plain = starter(id, INCHES);
        let found = fitted(&plain, &on(&plain, "trade-6x6-in", Keep::Card)).recipe;
        assert!(!found.value(gap).is_negative(), "{id}");
    }
}

/// Every number of a starting fold can be reached: as a part's own or as one that
/// parts share.
#[test]
fn gap_and_depth_have_a_field() {
    let named = |id: &str, of| {
        let card = starter(id, INCHES);
        let shared = card.shared_measures(of).into_iter();
        let names = shared
            .filter_map(|id| card.measure(id))
            .map(|it| it.name.clone());
        names.collect::<Vec<_>>()
    };
    assert_eq!(
        named("gate", StripId::Base),
        ["card width", "gap between the leaves"]
    );
    assert_eq!(named("box", StripId::Base), ["card width", "box depth"]);
    assert_eq!(
        named("step", StripId::Base),
        ["card width", "step depth", "step height"]
    );
    assert_eq!(named("steps", StripId::Base), ["card width", "step"]);
    let platform = starter("platform", INCHES);
    let piece = StripId::Piece(platform.pieces[0].id);
    assert_eq!(
        named("platform", piece),
        ["platform, out to the left", "platform, out to the right"]
    );
    assert_eq!(named("platform", StripId::Base), ["card width"]);
}

/// The envelope and the room at the folds are told beforehand.
#[test]
fn envelope_and_allowance_are_told() {
    let mut card = starter("book", METRIC);
    card.set(card.folding_in.allowance, Length::hundredths_mm(150))
        .expect("nothing holds it");
    card.posting.envelope = Some("iso-c6".to_owned());
    let was = work_out(&card, &Tools::default());
    let told = |wish: &Wish| {
        let found = fitted(&card, wish);
        let is = work_out(&found.recipe, &Tools::default());
        follows(&card, &was, &found, &is)
    };
    let allowance = Outcome::Room {
        from: Length::hundredths_mm(150),
        to: Length::mm(2),
        to_mark: true,
    };
    let outcomes = told(&Wish::default());
    assert!(outcomes.contains(&allowance), "{outcomes:?}");
    let mut size = was.finished;
    size.width += Length::mm(30);
    let larger = Wish {
        finished: Some(size),
        ..Wish::default()
    };
    let c6 = Envelope::by_id("iso-c6").expect("known");
    let refused = |it: &Outcome| matches!(it, Outcome::GoesNot { envelope, chosen: true, .. } if envelope.id == c6.id);
    let outcomes = told(&larger);
    assert!(outcomes.iter().any(refused), "{outcomes:?}");
    let rule = ClearanceRule::by_id(&card.posting.rule).expect("known");
    let same = Wish {
        envelope: Some((c6, rule)),
        ..Wish::default()
    };
    let outcomes = told(&same);
    assert!(
        outcomes.contains(&Outcome::Goes {
            envelope: c6,
            chosen: true
        }),
        "{outcomes:?}"
    );
}

/// A print with a top on Letter: the base of a book runs across it, 8 1/2 in, the
/// short way. Turned, its length has 11 in.
#[test]
fn the_short_way_of_a_sheet_is_told() {
    let mut card = starter("book", INCHES);
    let base = card.base.stock;
    for stock in card.stocks.iter_mut().filter(|stock| stock.id == base) {
        stock.face.print = Print::OneWay;
        stock.back.print = Print::Plain;
        (stock.width, stock.height) = (Length::sixty_fourths(544), Length::inches(11));
    }
    card.lay = None;
    let mut size = work_out(&card, &Tools::default()).finished;
    size.width = Length::inches(5);
    size.height = Length::inches(8);
    let wish = Wish {
        finished: Some(size),
        ..Wish::default()
    };
    let found = refit(&card, &wish);
    assert!(found.is_err(), "10 in do not go into 8 1/2 in");
    let turned = turning(&card, &wish, &found).expect("it fits turned");
    assert_eq!(turned.refit.finished, size);
    let short = Outcome::ShortWay {
        short: Length::sixty_fourths(544),
        turned: size,
    };
    assert_eq!(turned.outcome(), short);
}
