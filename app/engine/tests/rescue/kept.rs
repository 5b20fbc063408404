//! What came out right stays: "keep it, trim the mat", worked out by hand.

use crate::plain::Plain;
use std::collections::BTreeMap;

use foldwright_engine::card::work_out;
use foldwright_engine::length::Length;
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{
    Bend, Face, LayerKind, MeasureId, Outline, OutlineKind, Recipe, Seat, Shaped, Side, StripId,
};
use foldwright_engine::refit::Condition;
use foldwright_engine::rescue::{
    Against, Along, Does, Fate, Forced, Hurdle, Note, Offer, Part, Ready, Reason, Remark, Rescue,
    Way,
};
use foldwright_engine::steps::{Instruction, Off, StepKey, Title, Value, steps_with};

use crate::shared::{
    CUT_BASE, INCHES, MILLIMETRES, SCORE_BASE, TOOLS, Table, parts, sizes, starter,
};

/// So many sixteenths of an inch.
fn inches(sixteenths: i64) -> Length {
    Length::sixty_fourths(4 * sixteenths)
}

fn measure(recipe: &Recipe, name: &str) -> MeasureId {
    let measure = recipe.measures.iter().find(|it| it.name == name);
    measure.expect("a measure of that name").id
}

fn set(recipe: &mut Recipe, name: &str, value: Length) {
    let id = measure(recipe, name);
    recipe.set(id, value).expect("it gives way");
}

/// The book card of 5 × 7 in: cut 10 × 7 in, its mat 4 3/4 × 6 3/4 in.
fn book() -> Recipe {
    let mut book = starter("book", INCHES);
    set(&mut book, "card width", inches(80));
    set(&mut book, "card height", inches(112));
    assert_eq!(sizes(&book, parts(&book)[0]), [inches(160), inches(112)]);
    assert_eq!(sizes(&book, parts(&book)[1]), [inches(76), inches(108)]);
    book
}

fn base_came_out(table: &Table, length: Length, height: Length) -> Rescue {
    table.rescue(&table.miscut(CUT_BASE, &[Some(length), Some(height)], 1))
}

fn ways(rescue: &Rescue) -> Vec<Way> {
    rescue.offers.iter().map(|offer| offer.way).collect()
}

fn trimmed(offer: &Offer) -> Vec<(Part, [Length; 2])> {
    let to = |fate: &Fate| match fate {
        Fate::Trimmed(to) => Some([to.width, to.height]),
        Fate::Recut => None,
    };
    let fates = offer.fates.iter();
    fates
        .map(|(part, fate)| (*part, to(fate).expect("nothing is cut again")))
        .collect()
}

/// The table once an offer is taken.
fn taken(offer: &Offer) -> Table {
    Table {
        card: work_out(&offer.recipe, &TOOLS),
        recipe: offer.recipe.clone(),
        done: offer.done.clone(),
        trims: offer.trims.clone(),
        at: offer.step,
    }
}

/// The height 1/8 in short with the mat cut. By hand: the length, and with it
/// the width of the mat, stays; an even border of 1/8 in leaves 6 5/8 in of its
/// height.
#[test]
fn a_book_too_low_keeps_its_length_and_trims_the_mat() {
    let recipe = book();
    let [base, mat] = [parts(&recipe)[0], parts(&recipe)[1]];
    let table = Table::at(recipe, SCORE_BASE);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(160)), Some(inches(110))], 1);
    let rescue = table.rescue(&miscut);
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    assert_eq!(rescue.not_kept, None);
    let keep = &rescue.offers[0];
    assert_eq!(sizes(&keep.recipe, base), [inches(160), inches(110)]);
    assert_eq!(trimmed(keep), [(mat, [inches(76), inches(106)])]);
    let heading = keep.heading(&miscut);
    assert_eq!((heading.does, &*heading.trimmed), (Does::Keep, &[mat][..]));
    let Part::Layer(id) = mat else {
        panic!("{mat:?}");
    };
    let off = Instruction::OffAny(id, Off::Height(inches(2)));
    let size = |width, height| Size {
        width: inches(width),
        height: inches(height),
    };
    let remarks = keep.remarks(&table.plan(), &miscut);
    for remark in [
        Remark::Note(Note::TrimTo(mat, size(76, 106))),
        Remark::Do(off),
        Remark::Note(Note::Closed(size(80, 110))),
    ] {
        assert!(remarks.contains(&remark), "{remarks:?}");
    }
    assert_eq!(keep.paper, []);
    let recipe = &table.recipe;
    let height = measure(recipe, "mat height");
    let moved = keep.changes.iter();
    let moved = moved.map(|it| (it.change.measure, it));
    let moved = moved.collect::<BTreeMap<_, _>>()[&height];
    let (from, to) = (moved.change.from, moved.change.to);
    assert_eq!((from, to), (inches(108), inches(106)));
    let lower = Condition::Is(measure(recipe, "card height"), inches(110));
    assert_eq!(moved.why, Some(Reason::Holds(lower)));
    // It stays cut, and trimming it comes next.
    assert_eq!(keep.done[&StepKey::Cut(mat)], 1);
    assert_eq!(keep.step, Some(StepKey::Trim(mat)));
    let then = work_out(&keep.recipe, &TOOLS);
    let steps = steps_with(&keep.recipe, &then, &keep.trims);
    let place = steps.iter().position(|step| Some(step.key) == keep.step);
    let place = place.expect("its step");
    assert_eq!(steps[place - 1].key, StepKey::Cut(mat));
    let (width, height) = (inches(76), inches(106));
    let to = Size { width, height };
    assert_eq!(steps[place].title, Title::Trim { part: mat, to });
    let figures: Vec<_> = steps[place].figures.iter().map(|it| it.value).collect();
    assert_eq!(figures, [width, height].map(Value::Length));
    let does = [
        Instruction::MeasureOff(mat),
        Instruction::CutAlready {
            part: mat,
            pieces: 1,
            size: Size {
                width,
                height: inches(108),
            },
        },
        off,
        Instruction::AnyEdge,
    ];
    assert_eq!(steps[place].does, does);
}

/// The length 1/8 in short instead. By hand: halves of 4 15/16 in, and the mat
/// 4 11/16 in wide under the same border; both heights stay.
#[test]
fn a_book_too_short_keeps_its_height_and_trims_the_mat() {
    let recipe = book();
    let [base, mat] = [parts(&recipe)[0], parts(&recipe)[1]];
    let rescue = base_came_out(&Table::at(recipe, SCORE_BASE), inches(158), inches(112));
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    let keep = &rescue.offers[0];
    assert_eq!(sizes(&keep.recipe, base), [inches(158), inches(112)]);
    assert_eq!(trimmed(keep), [(mat, [inches(75), inches(108)])]);
}

/// Both short, the length by 1/4 in and the height by 1/8 in: the mat fits as it
/// is under a border of 1/16 in, or trimmed to 4 5/8 × 6 5/8 in under one that is
/// not too narrow.
#[test]
fn a_border_that_gets_too_narrow_may_be_trimmed_free() {
    let recipe = book();
    let mat = parts(&recipe)[1];
    let rescue = base_came_out(&Table::at(recipe, SCORE_BASE), inches(156), inches(110));
    assert_eq!(ways(&rescue), [Way::Keep, Way::Keep, Way::Recut]);
    let [trim, keep] = [&rescue.offers[0], &rescue.offers[1]];
    assert_eq!(trimmed(trim), [(mat, [inches(74), inches(106)])]);
    assert!(trim.given_up.is_empty());
    assert!(keep.fates.is_empty());
    assert!(!keep.given_up.is_empty());
}

/// A stack of three mats of which two are cut, under borders of 1/8 in. By hand:
/// 6 5/8 and 6 3/8 in for the two that are, 4 1/4 × 6 1/8 in for the third.
#[test]
fn of_a_stack_what_is_cut_is_trimmed_and_the_rest_follows() {
    let mut recipe = book();
    for _ in 0..2 {
        let under = recipe.layers.last().expect("the mat under it").id;
        let added = recipe.add_layer(Seat::Layer(under), LayerKind::Mat, &Plain);
        added.expect("it fits");
        let border = format!("mat {} border", recipe.layers.len());
        set(&mut recipe, &border, inches(2));
    }
    let all = parts(&recipe);
    assert_eq!(sizes(&recipe, all[3]), [inches(68), inches(100)]);
    let table = Table::at(recipe, StepKey::Cut(all[3]));
    let rescue = base_came_out(&table, inches(160), inches(110));
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    let keep = &rescue.offers[0];
    let expected = [
        (all[1], [inches(76), inches(106)]),
        (all[2], [inches(72), inches(102)]),
    ];
    assert_eq!(trimmed(keep), expected);
    assert_eq!(sizes(&keep.recipe, all[3]), [inches(68), inches(98)]);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(160)), Some(inches(110))], 1);
    assert_eq!(keep.heading(&miscut).trimmed, [all[1], all[2]]);
}

/// A tent of 5 1/2 × 4 1/4 in with a mat of 5 1/4 × 4 in, its strip 1/8 in short
/// along the fold. By hand: the mat becomes 5 1/8 × 4 in.
#[test]
fn a_tent_too_narrow_keeps_its_length() {
    let mut recipe = starter("tent", INCHES);
    let front = Face {
        panel: recipe.base.panels[0].id,
        side: Side::B,
    };
    let added = recipe.add_layer(Seat::Face(front), LayerKind::Mat, &Plain);
    added.expect("it fits");
    set(&mut recipe, "mat border", inches(2));
    let mat = parts(&recipe)[1];
    assert_eq!(sizes(&recipe, mat), [inches(84), inches(64)]);
    let rescue = base_came_out(&Table::at(recipe, SCORE_BASE), inches(136), inches(86));
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    assert_eq!(
        trimmed(&rescue.offers[0]),
        [(mat, [inches(82), inches(64)])]
    );
}

/// A gate with leaves that meet 5 mm apart, its first score 1 mm too far in. By
/// hand: 1 mm comes off the edge of the left leaf, and the middle and the gap are
/// 1 mm narrower; the height stays. What forces the length is named.
#[test]
fn a_gate_scored_wrong_is_trimmed_at_the_leaf_that_is_too_wide() {
    let mut recipe = starter("gate", MILLIMETRES);
    let gap = measure(&recipe, "gap between the leaves");
    recipe.set(gap, Length::mm(5)).expect("it gives way");
    let mm = |of: i64| Length::mm(of);
    let base = parts(&recipe)[0];
    let [length, height] = sizes(&recipe, base);
    let width = |recipe: &Recipe, panel: usize| recipe.value(recipe.base.panels[panel].width);
    let [leaf, middle] = [width(&recipe, 0), width(&recipe, 1)];
    let table = Table::at(recipe, SCORE_BASE);
    let marks = &table.card.chart.passes[0].marks;
    let measured = [Some(marks[0].exact + mm(1)), Some(marks[1].exact)];
    let rescue = table.rescue(&table.miscut(SCORE_BASE, &measured, 1));
    let trim = rescue.offers.iter().find(|offer| offer.way == Way::Trim);
    let trim = trim.expect("it can be trimmed");
    assert_eq!(trimmed(trim), [(base, [length - mm(1), height])]);
    let widths = [0, 1, 2].map(|panel| width(&trim.recipe, panel));
    assert_eq!(widths, [leaf, middle - mm(1), leaf]);
    assert_eq!(trim.trims[&base].first, mm(1));
    let [
        Forced {
            part,
            along,
            is,
            against: Some(Against::Hurdles(hurdles)),
        },
    ] = &trim.forced[..]
    else {
        panic!("{:?}", trim.forced);
    };
    assert_eq!((*part, *along, *is), (base, Along::Length, length));
    let leaves = ["left leaf width", "right leaf width"].map(|it| measure(&trim.recipe, it));
    let mut rules = trim.recipe.relations.iter();
    let equal = rules.find(|it| leaves.iter().all(|leaf| it.mentions(*leaf)));
    let equal = Hurdle::Holds(Condition::Rule(equal.expect("it is a rule").clone()));
    assert!(hurdles.contains(&equal), "{hurdles:?}");
    let then = work_out(&trim.recipe, &TOOLS);
    let steps = steps_with(&trim.recipe, &then, &trim.trims);
    let step = steps
        .iter()
        .find(|step| step.key == StepKey::Trim(Part::Strip(StripId::Base)));
    let does = &step.expect("its step").does;
    let off = Instruction::OffEnd {
        panel: trim.recipe.base.panels[0].id,
        off: mm(1),
        stays: leaf,
    };
    assert_eq!(does[2..], [off]);
}

/// A pop-up cut 1/8 in too short while the base is cut: its wings become
/// 1 11/16 in each, the base stays, and nothing is trimmed or cut again.
#[test]
fn a_pop_up_cut_short_folds_narrower() {
    let recipe = starter("v-fold", INCHES);
    let [base, pop_up] = [parts(&recipe)[0], parts(&recipe)[1]];
    let before = sizes(&recipe, base);
    let [length, height] = sizes(&recipe, pop_up);
    assert_eq!([length, height], [inches(56), inches(36)]);
    let key = StepKey::Cut(pop_up);
    let table = Table::at(recipe, key);
    let measured = [Some(inches(54)), Some(height)];
    let rescue = table.rescue(&table.miscut(key, &measured, 1));
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    let keep = &rescue.offers[0];
    assert!(keep.fates.is_empty());
    assert_eq!(sizes(&keep.recipe, base), before);
    for wing in ["wing width", "second wing width"] {
        assert_eq!(keep.recipe.value(measure(&keep.recipe, wing)), inches(27));
    }
}

/// A mat 1 in too low: its border would be 1/8 in at the sides and 5/8 in above and
/// below, and trimmed all round it would be more than the 1/2 in allowed. The base
/// may be trimmed to it, but not once something is glued on; then it is cut
/// again, and why is said.
#[test]
fn a_mat_that_no_trimming_helps_is_cut_again() {
    let mut recipe = book();
    let back = Face {
        panel: recipe.base.panels[1].id,
        side: Side::A,
    };
    let insert = recipe.add_layer(Seat::Face(back), LayerKind::Focal, &Plain);
    let insert = insert.expect("it fits").id;
    let mat = parts(&recipe)[1];
    let key = StepKey::Cut(mat);
    let mut table = Table::at(recipe, SCORE_BASE);
    let measured = [Some(inches(76)), Some(inches(92))];
    // Trimmed, the base is a card of 5 × 6 in.
    let rescue = table.rescue(&table.miscut(key, &measured, 1));
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    let base = parts(&table.recipe)[0];
    assert!(trimmed(&rescue.offers[0]).contains(&(base, [inches(160), inches(96)])));
    assert_eq!(rescue.not_kept, None);
    table.done.insert(StepKey::PutOn(insert), 1);
    let rescue = table.rescue(&table.miscut(key, &measured, 1));
    assert_eq!(ways(&rescue), [Way::Recut]);
    let Some(Against::Hurdles(hurdles)) = rescue.not_kept else {
        panic!("{:?}", rescue.not_kept);
    };
    let ready = Ready {
        part: base,
        size: Size {
            width: inches(160),
            height: inches(112),
        },
        scored: false,
    };
    for hurdle in [
        Hurdle::Border(table.recipe.layers[0].id),
        Hurdle::Ready(ready),
    ] {
        assert!(hurdles.contains(&hurdle), "{hurdles:?}");
    }
    let fits = |it: &Hurdle| matches!(it, Hurdle::Holds(Condition::Fits(_)));
    assert!(!hurdles.iter().any(fits), "{hurdles:?}");
}

/// Two of 24 bases came out too low with 10 cut and all mats cut: the two go on
/// by themselves with two mats to trim, the others as planned with theirs.
#[test]
fn some_of_a_batch_have_their_mats_trimmed() {
    let mut recipe = book();
    recipe.copies = 24;
    let mat = parts(&recipe)[1];
    let mut table = Table::at(recipe, CUT_BASE);
    table.done.insert(CUT_BASE, 10);
    table.done.insert(StepKey::Cut(mat), 24);
    let measured = [Some(inches(160)), Some(inches(110))];
    let rescue = table.rescue(&table.miscut(CUT_BASE, &measured, 2));
    let keep = &rescue.offers[0];
    assert_eq!((keep.way, keep.recipe.copies), (Way::Keep, 2));
    assert_eq!(trimmed(keep), [(mat, [inches(76), inches(106)])]);
    assert_eq!(
        (keep.trims[&mat].pieces, keep.done[&StepKey::Cut(mat)]),
        (2, 2)
    );
    let rest = keep.rest.as_ref().expect("the others");
    assert!(rest.trims.is_empty());
    assert_eq!(
        (rest.recipe.copies, rest.done[&StepKey::Cut(mat)]),
        (22, 22)
    );
    let then = taken(keep);
    let steps = steps_with(&then.recipe, &then.card, &then.trims);
    let step = steps.iter().find(|step| step.key == StepKey::Trim(mat));
    let step = step.expect("its step");
    assert_eq!(step.times, 2);
    assert!(
        matches!(step.does[1], Instruction::CutAlready { pieces: 2, .. }),
        "{:?}",
        step.does
    );
    // The first of all leads the others, and the five mats that are cut are
    // trimmed.
    table.done.insert(CUT_BASE, 1);
    table.done.insert(StepKey::Cut(mat), 5);
    let rescue = table.rescue(&table.miscut(CUT_BASE, &measured, 1));
    let all = rescue.offers.iter().find(|offer| offer.way == Way::KeepAll);
    let all = all.expect("all may become like it");
    assert_eq!(all.trims[&mat].pieces, 5);
    assert_eq!(all.done[&StepKey::Cut(mat)], 5);
}

/// What is to be trimmed may be told again: before it is trimmed it is still as
/// large as it was cut, and trimmed too far it is a miscut like any other.
#[test]
fn what_is_to_be_trimmed_goes_on_being_told() {
    let recipe = book();
    let mat = parts(&recipe)[1];
    let table = Table::at(recipe, SCORE_BASE);
    let first = base_came_out(&table, inches(160), inches(110));
    let table = taken(&first.offers[0]);
    // The base turns out lower still before the mat is trimmed.
    let second = base_came_out(&table, inches(160), inches(108));
    let keep = &second.offers[0];
    assert_eq!(trimmed(keep), [(mat, [inches(76), inches(104)])]);
    let trim = keep.trims[&mat];
    assert_eq!([trim.width, trim.height], [inches(76), inches(108)]);
    // As it is planned it asks for nothing, by the step it is trimmed in too.
    let key = StepKey::Trim(mat);
    let planned = table.miscut(key, &[Some(inches(76)), Some(inches(106))], 1);
    assert_eq!(table.rescue(&planned).offers, []);
    // Trimmed 1/16 in too far: no even border is left, and a wider one on the
    // marks of 1/16 in helps. By hand: 3/16 in, and 4 5/8 × 6 1/2 in.
    let wrong = table.miscut(key, &[Some(inches(76)), Some(inches(105))], 1);
    let rescue = table.rescue(&wrong);
    let trim = rescue.offers.iter().find(|offer| offer.way == Way::Trim);
    let trim = trim.expect("it can be trimmed");
    assert!(
        trimmed(trim).contains(&(mat, [inches(74), inches(104)])),
        "{:?}",
        trim.fates
    );
    let Some(Forced {
        along: Along::Width,
        is,
        against: Some(Against::Hurdles(hurdles)),
        ..
    }) = trim.forced.first()
    else {
        panic!("{:?}", trim.forced);
    };
    assert_eq!(*is, inches(76));
    let border = Hurdle::Border(table.recipe.layers[0].id);
    assert!(hurdles.contains(&border), "{hurdles:?}");
}

/// Trimming leaves an outline what it is: rounded corners are rounded again, an
/// arc stays where only the straight edge is cut, and what a die cut is cut
/// again.
#[test]
fn an_outline_is_kept_when_a_layer_is_trimmed() {
    let recipe = book();
    let mat = recipe.layers[0].id;
    let outlined = |kind: OutlineKind| {
        let mut recipe = recipe.clone();
        recipe
            .shape(Shaped::Layer(mat), kind, &Plain)
            .expect("it takes it");
        Table::at(recipe, SCORE_BASE)
    };
    let fate = |table: &Table, length: i64, height: i64| {
        let rescue = base_came_out(table, inches(length), inches(height));
        let mut offers = rescue.offers.into_iter();
        let keep = offers
            .find(|offer| offer.way == Way::Keep)
            .expect("it is kept");
        (keep.fates[0].1, keep)
    };
    let (rounded, keep) = fate(&outlined(OutlineKind::Rounded), 160, 110);
    assert!(matches!(rounded, Fate::Trimmed(_)));
    let then = taken(&keep);
    let steps = steps_with(&then.recipe, &then.card, &then.trims);
    let step = steps.iter().find(|step| Some(step.key) == keep.step);
    let does = &step.expect("its step").does;
    let again = |it: &Instruction| matches!(it, Instruction::CornersAgain(..));
    assert!(does.iter().any(again), "{does:?}");
    let arched = outlined(OutlineKind::Arched);
    assert!(matches!(fate(&arched, 160, 110).0, Fate::Trimmed(_)));
    assert_eq!(fate(&arched, 158, 112).0, Fate::Recut);
    let mut recipe = recipe.clone();
    let corner = |x, y| Bend { x, y, bow: 0 };
    recipe.layers[0].outline = Outline::Cut(vec![
        corner(0, 0),
        corner(1000, 0),
        corner(1000, 500),
        corner(500, 1000),
        corner(0, 500),
    ]);
    let die = Table::at(recipe, SCORE_BASE);
    assert_eq!(fate(&die, 160, 110).0, Fate::Recut);
}
