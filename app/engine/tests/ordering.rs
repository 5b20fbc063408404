//! Steps in any sound order, with those of the maker's own between them.

#![expect(
    clippy::expect_used,
    reason = "a test stops where what it needs is not there"
)]

#[path = "common/naming.rs"]
mod naming;

use foldwright_engine::card::{Card, Tools, add_piece, work_out};
use foldwright_engine::draw::Drawing;
use foldwright_engine::length::{DecimalMark, Notation, Step as Ruler};
use foldwright_engine::recipe::{
    Face, LayerId, LayerKind, OwnStepId, Recipe, Seat, Side, starters,
};
use foldwright_engine::steps::{
    Because, Before, Kind, Stays, Step, StepKey, Way, back_to_usual, moved, named, steps,
};

use naming::Plain;

fn worked(recipe: &Recipe) -> (Card, Vec<Step>) {
    let card = work_out(recipe, &Tools::default());
    let steps = steps(recipe, &card);
    (card, steps)
}

fn keys(steps: &[Step]) -> Vec<StepKey> {
    steps.iter().map(|step| step.key).collect()
}

/// Every starting fold in both worlds of units, as it is and with a mat, a focal piece,
/// a pop-up and a window where there is room for them.
fn recipes() -> Vec<Recipe> {
    let mut all = Vec::new();
    for starter in starters() {
        for step in [Ruler::Sixteenth, Ruler::Millimetre] {
            let notation = Notation {
                step,
                decimal: DecimalMark::Point,
            };
            let plain = starter.recipe_in(notation);
            let mut rich = plain.clone();
            let panel = rich.base.panels[0].id;
            let face = |side| Face { panel, side };
            let seat = Seat::Face(face(Side::B));
            let mat = rich.add_layer(seat, LayerKind::Mat, &Plain);
            if mat.is_ok() {
                let mat = rich.layers.last().expect("one was added").id;
                drop(rich.add_layer(Seat::Layer(mat), LayerKind::Focal, &Plain));
            }
            drop(add_piece(&mut rich, face(Side::A), &Plain));
            drop(rich.add_window(panel, &Plain));
            all.extend([plain, rich]);
        }
    }
    all
}

/// Nothing stands before what it has to follow, told of the usual order.
fn is_sound(recipe: &Recipe, card: &Card, taken: &[Step]) {
    let mut plain = recipe.clone();
    plain.order.clear();
    let before = Before::of(&plain, card, None, &steps(&plain, card));
    for (at, then) in taken.iter().enumerate() {
        for first in taken.iter().skip(at + 1) {
            let why = before.why(first.key, then.key);
            let (first, then) = (first.key, then.key);
            assert_eq!(why, None, "{}: {first} after {then}", recipe.name);
        }
    }
}

/// The usual order is one that is sound, and takes each kind of work in one go.
#[test]
fn the_usual_order_is_sound() {
    for recipe in recipes() {
        let (card, steps) = worked(&recipe);
        is_sound(&recipe, &card, &steps);
        let kinds: Vec<Kind> = steps.iter().map(|step| step.kind).collect();
        assert!(kinds.first() == Some(&Kind::Gather), "{}", recipe.name);
    }
}

/// Whatever order is kept, what is taken is sound and whole.
#[test]
fn any_order_that_is_kept_becomes_a_sound_one() {
    let mut dice = 7_u64;
    for mut recipe in recipes() {
        for _ in 0..2 {
            recipe.add_own_step("Stamp", true).expect("there is room");
        }
        let (card, usual) = worked(&recipe);
        for _ in 0..4 {
            let mut order = keys(&usual);
            // Fisher and Yates, by the numbers of Knuth's MMIX.
            for at in (1..order.len()).rev() {
                dice = dice
                    .wrapping_mul(6_364_136_223_846_793_005)
                    .wrapping_add(1_442_695_040_888_963_407);
                let other = usize::try_from(dice >> 33).expect("31 bits");
                order.swap(at, other % (at + 1));
            }
            recipe.order = named(&order);
            recipe.order.push("no-step".to_owned());
            let taken = steps(&recipe, &card);
            is_sound(&recipe, &card, &taken);
            let sorted = |steps: &[Step]| {
                let mut keys = keys(steps);
                keys.sort();
                keys
            };
            assert_eq!(sorted(&taken), sorted(&usual), "{}", recipe.name);
            // What is taken so is a sound order, and stays as it is.
            recipe.order = named(&keys(&taken));
            assert_eq!(keys(&steps(&recipe, &card)), keys(&taken));
        }
    }
}

/// A side fold with a mat on each of its two inside pages, and a focal piece on the
/// first.
fn book() -> (Recipe, [LayerId; 3]) {
    let starter = starters().iter().find(|it| it.id == "book");
    let mut recipe = starter.expect("there is a book").recipe.clone();
    recipe.layers.clear();
    let panels: Vec<_> = recipe.base.panels.iter().map(|panel| panel.id).collect();
    let add = |recipe: &mut Recipe, on, kind| {
        recipe.add_layer(on, kind, &Plain).expect("there is room");
        recipe.layers.last().expect("one was added").id
    };
    let on = |panel: usize| {
        Seat::Face(Face {
            panel: panels[panel],
            side: Side::A,
        })
    };
    let one = add(&mut recipe, on(0), LayerKind::Mat);
    let focal = add(&mut recipe, Seat::Layer(one), LayerKind::Focal);
    let other = add(&mut recipe, on(1), LayerKind::Mat);
    (recipe, [one, focal, other])
}

/// What may be moved and what may not: common practice at the table.
#[test]
fn a_step_moves_within_what_is_sound_and_is_told_why_not_otherwise() {
    let (recipe, [one, focal, other]) = book();
    let (card, steps) = worked(&recipe);
    let before = Before::of(&recipe, &card, None, &steps);
    let keys = keys(&steps);
    let fold = steps.iter().find(|step| step.kind == Kind::Fold);
    let fold = fold.expect("it folds").key;
    let score = steps.iter().find(|step| step.kind == Kind::Score);
    let score = score.expect("it is scored").key;
    let put_on = StepKey::PutOn;
    for (first, then, because) in [
        (StepKey::Gather, StepKey::Dry, Because::Ready),
        (score, fold, Because::WhileFlat),
        (score, put_on(one), Because::Unburdened),
        (fold, put_on(one), Because::Folded),
        (StepKey::Decorate(focal), put_on(focal), Because::Decorated),
        (put_on(one), put_on(focal), Because::LiesUnder),
        (put_on(other), StepKey::Dry, Because::Dries),
        (StepKey::Dry, StepKey::Envelope, Because::Finished),
    ] {
        assert_eq!(before.why(first, then), Some(because), "{first} {then}");
        assert_eq!(before.why(then, first), None, "{then} {first}");
    }
    // Two mats on two pages lie beside each other.
    for (one, other) in [(one, other), (focal, other)] {
        assert_eq!(before.why(put_on(one), put_on(other)), None);
        assert_eq!(before.why(put_on(other), put_on(one)), None);
    }
    let earlier = moved(&before, &keys, put_on(other), Way::Earlier).expect("it moves");
    let at = |keys: &[StepKey], key| keys.iter().position(|it| *it == key);
    assert!(at(&earlier, put_on(other)) < at(&earlier, put_on(focal)));
    assert_eq!(
        moved(&before, &keys, StepKey::Dry, Way::Later),
        Err(Some(Stays {
            first: StepKey::Dry,
            then: StepKey::Envelope,
            because: Because::Finished,
        }))
    );
    assert_eq!(
        moved(&before, &keys, StepKey::Gather, Way::Earlier),
        Err(None)
    );
    let own = StepKey::Own(OwnStepId(9));
    assert_eq!(moved(&before, &keys, own, Way::Later), Err(None));
}

/// Steps that come find their usual place, those that go leave the rest in the order
/// that was chosen.
#[test]
fn an_order_outlives_changes_of_its_recipe() {
    let (mut recipe, [one, focal, other]) = book();
    let (card, usual) = worked(&recipe);
    let before = Before::of(&recipe, &card, None, &usual);
    let put_on = StepKey::PutOn;
    let mut order = keys(&usual);
    for _ in 0..2 {
        order = moved(&before, &order, put_on(other), Way::Earlier).expect("it moves");
    }
    recipe.order = named(&order);
    let glued = |recipe: &Recipe| -> Vec<StepKey> {
        let (card, steps) = worked(recipe);
        is_sound(recipe, &card, &steps);
        let glued = steps.into_iter().filter(|step| step.kind == Kind::Glue);
        glued.map(|step| step.key).collect()
    };
    assert_eq!(glued(&recipe), [put_on(other), put_on(one), put_on(focal)]);
    recipe.remove_layer(focal).expect("it is there");
    assert_eq!(glued(&recipe), [put_on(other), put_on(one)]);
    recipe
        .add_layer(Seat::Layer(other), LayerKind::Mat, &Plain)
        .expect("there is room");
    let new = recipe.layers.last().expect("one was added").id;
    let glued = glued(&recipe);
    assert_eq!(glued.len(), 3);
    let at = |key| glued.iter().position(|it| *it == key);
    assert!(at(put_on(other)) < at(put_on(one)) && at(put_on(other)) < at(put_on(new)));
    recipe.order = back_to_usual(&order, &keys(&usual));
    assert_eq!(recipe.order, Vec::<String>::new());
}

/// A step of one's own stays where it was put, over changes of the rest.
#[test]
fn a_step_of_ones_own_stands_between_two() {
    let (mut recipe, _) = book();
    recipe.copies = 12;
    let (_, usual) = worked(&recipe);
    let id = recipe
        .add_own_step("  Stamp the\nharbour ", true)
        .expect("there is room");
    let own = StepKey::Own(id);
    assert_eq!(StepKey::of_text(&own.to_string()), Some(own));
    let mut order = keys(&usual);
    order.insert(2, own);
    recipe.order = named(&order);
    let (card, steps) = worked(&recipe);
    assert_eq!(keys(&steps), order);
    assert_eq!((steps[2].kind, steps[2].times), (Kind::Own, 12));
    let text = &recipe.own_step(id).expect("it is there").text;
    assert_eq!(text, "Stamp the harbour");
    let before = Before::of(&recipe, &card, None, &steps);
    // It goes anywhere but before paper and tools are taken out.
    let mut now = order.clone();
    now = moved(&before, &now, own, Way::Earlier).expect("it moves");
    let stays = moved(&before, &now, own, Way::Earlier).expect_err("it stays");
    assert_eq!(stays.map(|stays| stays.because), Some(Because::Ready));
    for _ in 1..usual.len() {
        now = moved(&before, &now, own, Way::Later).expect("it moves");
    }
    assert_eq!(now.last(), Some(&own));
    // Back in the usual order it stays behind what it follows.
    let mut other = order.clone();
    let last = other.len() - 3;
    other.swap(last, last - 1);
    assert_eq!(back_to_usual(&other, &keys(&usual)), named(&order));
    recipe.change_own_step(id, "Stamp it", false);
    assert_eq!(worked(&recipe).1[2].times, 1);
    recipe.remove_own_step(id);
    assert_eq!(keys(&worked(&recipe).1), keys(&usual));
    // One that the order does not know comes last.
    recipe.add_own_step("Sign", false).expect("there is room");
    recipe.order.clear();
    let (_, steps) = worked(&recipe);
    assert_eq!(steps.last().map(|step| step.kind), Some(Kind::Own));
}

/// A picture shows the layers that are on by then in the order that is taken.
#[test]
fn pictures_follow_the_order() {
    let (mut recipe, [one, focal, other]) = book();
    let (card, usual) = worked(&recipe);
    let placed = |steps: &[Step], recipe: &Recipe, id: LayerId| -> Drawing {
        let step = steps.iter().find(|step| step.key == StepKey::PutOn(id));
        let picture = step.expect("it is put on").pictures.last();
        picture.expect("it is shown").drawing(recipe, &card)
    };
    let last = placed(&usual, &recipe, other);
    let first = placed(&usual, &recipe, one);
    let mut order = keys(&usual);
    let of = |key, order: &[StepKey]| order.iter().position(|it| *it == key).expect("it is there");
    let from = of(StepKey::PutOn(other), &order);
    let moved = order.remove(from);
    order.insert(of(StepKey::PutOn(one), &order), moved);
    recipe.order = named(&order);
    let taken = steps(&recipe, &card);
    assert_ne!(placed(&taken, &recipe, other), last);
    assert_ne!(placed(&taken, &recipe, one), first);
    // With all layers on it is the same whichever came last.
    assert_eq!(placed(&taken, &recipe, focal), last);
}
