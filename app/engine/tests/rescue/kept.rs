//! What came out right stays: "keep it, trim the mat", worked out by hand.

use foldwright_engine::card::work_out;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    Bend, Face, LayerKind, MeasureId, Outline, OutlineKind, Recipe, Seat, Shaped, Side,
};
use foldwright_engine::rescue::{
    Fate, Offer, Part, Rescue, Way, offer_notes, offer_title, paper_words,
};
use foldwright_engine::steps::steps_with;

use crate::shared::{INCHES, MILLIMETRES, TOOLS, Table, parts, sizes, starter};

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
    table.rescue(&table.miscut("cut-strip", &[Some(length), Some(height)], 1))
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
        at: offer.step.clone(),
    }
}

/// The height 1/8 in short with the mat cut. By hand: the length, and with it
/// the width of the mat, stays; an even border of 1/8 in leaves 6 5/8 in of its
/// height.
#[test]
fn a_book_too_low_keeps_its_length_and_trims_the_mat() {
    let recipe = book();
    let [base, mat] = [parts(&recipe)[0], parts(&recipe)[1]];
    let table = Table::at(recipe, "score-0");
    let miscut = table.miscut("cut-strip", &[Some(inches(160)), Some(inches(110))], 1);
    let rescue = table.rescue(&miscut);
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    assert_eq!(rescue.not_kept, None);
    let keep = &rescue.offers[0];
    assert_eq!(sizes(&keep.recipe, base), [inches(160), inches(110)]);
    assert_eq!(trimmed(keep), [(mat, [inches(76), inches(106)])]);
    let title = offer_title(&table.plan(), &miscut, keep);
    assert!(title.ends_with(", trim the mat"), "{title}");
    let notes = offer_notes(&table.plan(), &miscut, keep);
    for note in [
        "The mat is cut already: trim it to 4 3/4 × 6 5/8 in. It is not cut anew.",
        "Cut 1/8 in off its height.",
        "The closed card becomes 5 × 6 7/8 in.",
    ] {
        assert!(notes.iter().any(|told| told == note), "{notes:?}");
    }
    assert_eq!(paper_words(&table.recipe, keep), ["No new paper."]);
    let told = keep.changes.iter().find(|told| told.name == "mat height");
    let told = told.expect("it is told");
    assert_eq!((&*told.from, &*told.to), ("6 3/4", "6 5/8 in"));
    assert_eq!(told.why, "with card height 6 7/8 in");
    // It stays cut, and trimming it comes next.
    assert_eq!(keep.done[&mat.cut_key()], 1);
    assert_eq!(keep.step, mat.trim_key());
    let then = work_out(&keep.recipe, &TOOLS);
    let steps = steps_with(&keep.recipe, &then, &keep.trims);
    let place = steps.iter().position(|step| step.key == keep.step);
    let place = place.expect("its step");
    assert_eq!(steps[place - 1].key, mat.cut_key());
    assert_eq!(steps[place].title, "Trim the mat to 4 3/4 × 6 5/8 in");
    let figures: Vec<_> = steps[place].figures.iter().map(|it| &*it.value).collect();
    assert_eq!(figures, ["4 3/4 in", "6 5/8 in"]);
    assert!(
        steps[place].does[0].contains("no new paper"),
        "{:?}",
        steps[place].does
    );
}

/// The length 1/8 in short instead. By hand: halves of 4 15/16 in, and the mat
/// 4 11/16 in wide under the same border; both heights stay.
#[test]
fn a_book_too_short_keeps_its_height_and_trims_the_mat() {
    let recipe = book();
    let [base, mat] = [parts(&recipe)[0], parts(&recipe)[1]];
    let rescue = base_came_out(&Table::at(recipe, "score-0"), inches(158), inches(112));
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
    let rescue = base_came_out(&Table::at(recipe, "score-0"), inches(156), inches(110));
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
        let added = recipe.add_layer(Seat::Layer(under), LayerKind::Mat);
        added.expect("it fits");
        let border = format!("mat {} border", recipe.layers.len());
        set(&mut recipe, &border, inches(2));
    }
    let all = parts(&recipe);
    assert_eq!(sizes(&recipe, all[3]), [inches(68), inches(100)]);
    let table = Table::at(recipe, &all[3].cut_key());
    let rescue = base_came_out(&table, inches(160), inches(110));
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    let keep = &rescue.offers[0];
    let expected = [
        (all[1], [inches(76), inches(106)]),
        (all[2], [inches(72), inches(102)]),
    ];
    assert_eq!(trimmed(keep), expected);
    assert_eq!(sizes(&keep.recipe, all[3]), [inches(68), inches(98)]);
    let title = offer_title(
        &table.plan(),
        &table.miscut("cut-strip", &[Some(inches(160)), Some(inches(110))], 1),
        keep,
    );
    assert!(title.ends_with(", trim the mat and the mat 2"), "{title}");
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
    let added = recipe.add_layer(Seat::Face(front), LayerKind::Mat);
    added.expect("it fits");
    set(&mut recipe, "mat border", inches(2));
    let mat = parts(&recipe)[1];
    assert_eq!(sizes(&recipe, mat), [inches(84), inches(64)]);
    let rescue = base_came_out(&Table::at(recipe, "score-0"), inches(136), inches(86));
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
    let table = Table::at(recipe, "score-0");
    let marks = &table.card.chart.passes[0].marks;
    let measured = [Some(marks[0].exact + mm(1)), Some(marks[1].exact)];
    let rescue = table.rescue(&table.miscut("score-0", &measured, 1));
    let trim = rescue.offers.iter().find(|offer| offer.way == Way::Trim);
    let trim = trim.expect("it can be trimmed");
    assert_eq!(trimmed(trim), [(base, [length - mm(1), height])]);
    let widths = [0, 1, 2].map(|panel| width(&trim.recipe, panel));
    assert_eq!(widths, [leaf, middle - mm(1), leaf]);
    assert_eq!(trim.trims[&base.cut_key()].first, mm(1));
    let [forced] = &trim.forced[..] else {
        panic!("{:?}", trim.forced);
    };
    assert!(forced.contains("length of "), "{forced}");
    assert!(
        forced.contains("left leaf width = right leaf width"),
        "{forced}"
    );
    let then = work_out(&trim.recipe, &TOOLS);
    let steps = steps_with(&trim.recipe, &then, &trim.trims);
    let step = steps.iter().find(|step| step.key == "trim-strip");
    let does = step.expect("its step").does.join(" ");
    assert!(
        does.contains("Cut 1 mm off the edge of left leaf: "),
        "{does}"
    );
    assert!(!does.contains("right leaf"), "{does}");
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
    let key = pop_up.cut_key();
    let table = Table::at(recipe, &key);
    let measured = [Some(inches(54)), Some(height)];
    let rescue = table.rescue(&table.miscut(&key, &measured, 1));
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
    let insert = recipe.add_layer(Seat::Face(back), LayerKind::Focal);
    let insert = insert.expect("it fits").id;
    let mat = parts(&recipe)[1];
    let key = mat.cut_key();
    let mut table = Table::at(recipe, "score-0");
    let measured = [Some(inches(76)), Some(inches(92))];
    // Trimmed, the base is a card of 5 × 6 in.
    let rescue = table.rescue(&table.miscut(&key, &measured, 1));
    assert_eq!(ways(&rescue), [Way::Keep, Way::Recut]);
    let base = parts(&table.recipe)[0];
    assert!(trimmed(&rescue.offers[0]).contains(&(base, [inches(160), inches(96)])));
    assert_eq!(rescue.not_kept, None);
    table.done.insert(format!("put-on-layer-{}", insert.0), 1);
    let rescue = table.rescue(&table.miscut(&key, &measured, 1));
    assert_eq!(ways(&rescue), [Way::Recut]);
    let why = rescue.not_kept.expect("it is said why");
    for cause in ["the mat has an even border", " is cut already, 10 × 7 in"] {
        assert!(why.contains(cause), "{why}");
    }
    assert!(!why.contains("fits it"), "{why}");
}

/// Two of 24 bases came out too low with 10 cut and all mats cut: the two go on
/// by themselves with two mats to trim, the others as planned with theirs.
#[test]
fn some_of_a_batch_have_their_mats_trimmed() {
    let mut recipe = book();
    recipe.copies = 24;
    let mat = parts(&recipe)[1];
    let mut table = Table::at(recipe, "cut-strip");
    table.done.insert("cut-strip".to_owned(), 10);
    table.done.insert(mat.cut_key(), 24);
    let measured = [Some(inches(160)), Some(inches(110))];
    let rescue = table.rescue(&table.miscut("cut-strip", &measured, 2));
    let keep = &rescue.offers[0];
    assert_eq!((keep.way, keep.recipe.copies), (Way::Keep, 2));
    assert_eq!(trimmed(keep), [(mat, [inches(76), inches(106)])]);
    assert_eq!(
        (keep.trims[&mat.cut_key()].pieces, keep.done[&mat.cut_key()]),
        (2, 2)
    );
    let rest = keep.rest.as_ref().expect("the others");
    assert!(rest.trims.is_empty());
    assert_eq!((rest.recipe.copies, rest.done[&mat.cut_key()]), (22, 22));
    let then = taken(keep);
    let steps = steps_with(&then.recipe, &then.card, &then.trims);
    let step = steps.iter().find(|step| step.key == mat.trim_key());
    let step = step.expect("its step");
    assert_eq!(step.times, 2);
    assert!(
        step.does[0].starts_with("2 pieces are cut already"),
        "{:?}",
        step.does
    );
    // The first of all leads the others, and the five mats that are cut are
    // trimmed.
    table.done.insert("cut-strip".to_owned(), 1);
    table.done.insert(mat.cut_key(), 5);
    let rescue = table.rescue(&table.miscut("cut-strip", &measured, 1));
    let all = rescue.offers.iter().find(|offer| offer.way == Way::KeepAll);
    let all = all.expect("all may become like it");
    assert_eq!(all.trims[&mat.cut_key()].pieces, 5);
    assert_eq!(all.done[&mat.cut_key()], 5);
}

/// What is to be trimmed may be told again: before it is trimmed it is still as
/// large as it was cut, and trimmed too far it is a miscut like any other.
#[test]
fn what_is_to_be_trimmed_goes_on_being_told() {
    let recipe = book();
    let mat = parts(&recipe)[1];
    let table = Table::at(recipe, "score-0");
    let first = base_came_out(&table, inches(160), inches(110));
    let table = taken(&first.offers[0]);
    // The base turns out lower still before the mat is trimmed.
    let second = base_came_out(&table, inches(160), inches(108));
    let keep = &second.offers[0];
    assert_eq!(trimmed(keep), [(mat, [inches(76), inches(104)])]);
    let trim = keep.trims[&mat.cut_key()];
    assert_eq!([trim.width, trim.height], [inches(76), inches(108)]);
    // As it is planned it asks for nothing, by the step it is trimmed in too.
    let key = mat.trim_key();
    let planned = table.miscut(&key, &[Some(inches(76)), Some(inches(106))], 1);
    assert_eq!(table.rescue(&planned).offers, []);
    // Trimmed 1/16 in too far: no even border is left, and a wider one on the
    // marks of 1/16 in helps. By hand: 3/16 in, and 4 5/8 × 6 1/2 in.
    let wrong = table.miscut(&key, &[Some(inches(76)), Some(inches(105))], 1);
    let rescue = table.rescue(&wrong);
    let trim = rescue.offers.iter().find(|offer| offer.way == Way::Trim);
    let trim = trim.expect("it can be trimmed");
    assert!(
        trimmed(trim).contains(&(mat, [inches(74), inches(104)])),
        "{:?}",
        trim.fates
    );
    assert!(trim.forced[0].starts_with("The width of the mat can't stay 4 3/4 in."));
    assert!(
        trim.forced[0].contains("the mat has an even border"),
        "{:?}",
        trim.forced
    );
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
        recipe.shape(Shaped::Layer(mat), kind).expect("it takes it");
        Table::at(recipe, "score-0")
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
    let step = steps.iter().find(|step| step.key == keep.step);
    let does = step.expect("its step").does.join(" ");
    assert!(does.contains("Round the corners"), "{does}");
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
    let die = Table::at(recipe, "score-0");
    assert_eq!(fate(&die, 160, 110).0, Fate::Recut);
}
