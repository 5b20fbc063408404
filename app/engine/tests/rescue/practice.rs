//! Cards as people make them, worked out by hand.

use crate::plain::Plain;
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    Face, LayerKind, OutlineKind, Placing, Recipe, Seat, Shaped, Side, StripId,
};
use foldwright_engine::rescue::{
    Does, Fate, Note, Offer, Part, Remark, Way, measures, spoiled, work,
};
use foldwright_engine::steps::{Along, StepKey, steps};

use crate::shared::{CUT_BASE, INCHES, MILLIMETRES, SCORE_BASE, Table, parts, sizes, starter};

fn inches(sixteenths: i64) -> Length {
    Length::sixty_fourths(4 * sixteenths)
}

fn way(offers: &[Offer], way: Way) -> &Offer {
    offers
        .iter()
        .find(|offer| offer.way == way)
        .expect("this way out")
}

fn has(offers: &[Offer], way: Way) -> bool {
    offers.iter().any(|offer| offer.way == way)
}

/// The book card of 4 1/4 × 5 1/2 in with its mat of 4 × 5 1/4 in.
fn book() -> Recipe {
    let book = starter("book", INCHES);
    assert_eq!(sizes(&book, parts(&book)[0]), [inches(136), inches(88)]);
    assert_eq!(sizes(&book, parts(&book)[1]), [inches(64), inches(84)]);
    book
}

#[test]
fn as_planned_asks_for_nothing() {
    let table = Table::at(book(), CUT_BASE);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(136)), Some(inches(88))], 1);
    assert_eq!(table.rescue(&miscut).offers, []);
}

/// Of ten bases of a batch that are cut one gets a stain: nine are cut, the plan stays,
/// and it takes the paper for one.
#[test]
fn a_spoiled_piece_goes_back_on_the_list() {
    let mut recipe = book();
    recipe.copies = 24;
    let mut table = Table::at(recipe, SCORE_BASE);
    table.done.insert(CUT_BASE, 10);
    table.done.insert(SCORE_BASE, 4);
    let (miscut, offer) = spoiled(&table.plan(), CUT_BASE, 1).expect("a base is cut there");
    assert_eq!(offer.way, Way::Recut);
    assert_eq!(offer.recipe, table.recipe);
    assert_eq!(offer.done[&CUT_BASE], 9);
    assert_eq!(offer.done[&SCORE_BASE], 3);
    assert_eq!(offer.step, Some(CUT_BASE));
    let pieces: Vec<_> = offer.paper.iter().map(|paper| paper.pieces).collect();
    assert_eq!(pieces, [1]);
    assert_eq!(offer.heading(&miscut).part, parts(&table.recipe)[0]);

    let single = Table::at(book(), SCORE_BASE);
    let (_, offer) = spoiled(&single.plan(), CUT_BASE, 3).expect("a base is cut there");
    assert_eq!(offer.done[&CUT_BASE], 0);
    assert_eq!(offer.cards, 1);
    assert!(spoiled(&single.plan(), StepKey::Dry, 1).is_none());
}

/// What stands behind the steps of the book card: the size of its strip and of its mat,
/// and the two panels that its only score and fold lie between.
#[test]
fn the_numbers_of_a_step_are_measures() {
    let table = Table::at(book(), SCORE_BASE);
    let named = |key| {
        let all = measures(&table.recipe, &table.card, key).into_iter();
        all.map(|id| table.recipe.value(id)).collect::<Vec<_>>()
    };
    assert_eq!(named(CUT_BASE), [inches(136), inches(88)]);
    assert_eq!(
        named(StepKey::Cut(parts(&table.recipe)[1])),
        [inches(64), inches(84)]
    );
    assert_eq!(named(SCORE_BASE), [inches(68), inches(68)]);
    assert_eq!(
        named(StepKey::Fold(Along::Score(0), 1)),
        [inches(68), inches(68)]
    );
    assert_eq!(named(StepKey::Gather), []);
}

/// A strip that came out 1/8 in too low: the card becomes lower, and the mat
/// with it, which is not cut yet. By hand: 5 3/8 in, mat 5 1/8 in.
#[test]
fn a_strip_too_low_makes_a_lower_card() {
    let table = Table::at(book(), CUT_BASE);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(136)), Some(inches(86))], 1);
    let rescue = table.rescue(&miscut);
    let keep = &rescue.offers[0];
    assert_eq!(keep.way, Way::Keep);
    assert_eq!(
        sizes(&keep.recipe, parts(&keep.recipe)[1]),
        [inches(64), inches(82)]
    );
    assert!(keep.paper.is_empty());
    assert!(
        keep.changes.iter().any(|told| told.change.to == inches(82)),
        "{:?}",
        keep.changes
    );
    // The strip is cut; what comes next is the mat.
    assert_eq!(keep.done[&CUT_BASE], 1);
    assert!(
        matches!(keep.step, Some(StepKey::Cut(Part::Layer(_)))),
        "{:?}",
        keep.step
    );
    let recut = &rescue.offers[1];
    assert_eq!(recut.way, Way::Recut);
    assert_eq!(recut.step, Some(CUT_BASE));
}

/// The same once the mat is cut: it no longer leaves an even border, so it is
/// cut down by 1/8 in and nothing is cut again.
#[test]
fn a_mat_that_is_cut_already_is_cut_down() {
    let recipe = book();
    let mat = parts(&recipe)[1];
    let table = Table::at(recipe, SCORE_BASE);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(136)), Some(inches(86))], 1);
    let rescue = table.rescue(&miscut);
    let keep = way(&rescue.offers, Way::Keep);
    let [(part, Fate::Trimmed(to))] = keep.fates[..] else {
        panic!("{:?}", keep.fates);
    };
    assert_eq!(part, mat);
    assert_eq!([to.width, to.height], [inches(64), inches(82)]);
    assert!(keep.paper.is_empty());
    // It is trimmed before the work goes on.
    assert_eq!(keep.step, Some(StepKey::Trim(mat)));
}

/// A mat that came out too narrow, with the strip cut: there is no border that is
/// even on both sides unless it is cut down, or the strip is, or it is cut again.
#[test]
fn a_mat_too_narrow_is_trimmed_or_the_strip_is() {
    let recipe = book();
    let table = Table::at(recipe, SCORE_BASE);
    let is_mat = |key: &&StepKey| matches!(key, StepKey::Cut(Part::Layer(_)));
    let key = *table.done.keys().find(is_mat).expect("a mat");
    let miscut = table.miscut(key, &[Some(inches(63)), Some(inches(84))], 1);
    let rescue = table.rescue(&miscut);
    // Under the border of 1/8 in, 4 3/16 in for each half: 8 3/8 × 5 1/2 in. The
    // card changes, so it comes after what leaves it as it was to be.
    let keep = way(&rescue.offers, Way::Keep);
    let strip = parts(&keep.recipe)[0];
    assert_eq!(sizes(&keep.recipe, strip), [inches(134), inches(88)]);
    assert_eq!(keep.fates.len(), 1);
    let ways: Vec<_> = rescue.offers.iter().map(|offer| offer.way).collect();
    assert_eq!(ways, [Way::Trim, Way::Keep, Way::Recut]);
    // Cut down to the even border of 3/16 in: 3 7/8 × 5 1/8 in.
    let trim = way(&rescue.offers, Way::Trim);
    assert_eq!(
        sizes(&trim.recipe, parts(&trim.recipe)[1]),
        [inches(62), inches(82)]
    );
    let recut = way(&rescue.offers, Way::Recut);
    assert_eq!(recut.step, Some(key));
    // It takes one more piece, and says of which paper.
    let [paper] = recut.paper[..] else {
        panic!("{:?}", recut.paper);
    };
    assert_eq!(paper.pieces, 1);
    assert_eq!(paper.stock, table.recipe.layers[0].stock);
}

/// What came out too large is cut down to what was planned.
#[test]
fn what_is_too_large_is_cut_down() {
    let table = Table::at(starter("gate", MILLIMETRES), CUT_BASE);
    let [length, height] = sizes(&table.recipe, parts(&table.recipe)[0]);
    let measured = [Some(length + Length::mm(2)), Some(height + Length::mm(3))];
    let miscut = table.miscut(CUT_BASE, &measured, 1);
    let rescue = table.rescue(&miscut);
    let trim = &rescue.offers[0];
    assert_eq!(trim.way, Way::Trim);
    assert_eq!(trim.recipe, table.recipe);
    assert_eq!(trim.changes, []);
    // It stays cut, and is trimmed to what was planned.
    assert_eq!(
        (trim.done[&CUT_BASE], trim.step),
        (1, Some(StepKey::Trim(Part::Strip(StripId::Base))))
    );
    let remarks = trim.remarks(&table.plan(), &miscut);
    assert!(
        remarks.contains(&Remark::Note(Note::AsPlanned)),
        "{remarks:?}"
    );
}

/// Two of twenty-four strips came out too low, of which ten are cut: these two
/// go on by themselves, or are cut again.
#[test]
fn some_of_a_batch_part_from_it() {
    let mut recipe = book();
    recipe.copies = 24;
    let mut table = Table::at(recipe, CUT_BASE);
    table.done.insert(CUT_BASE, 10);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(136)), Some(inches(86))], 2);
    let rescue = table.rescue(&miscut);
    let keep = way(&rescue.offers, Way::Keep);
    assert_eq!((keep.recipe.copies, keep.done[&CUT_BASE]), (2, 2));
    let rest = keep.rest.as_ref().expect("the others");
    assert_eq!((rest.recipe.copies, rest.done[&CUT_BASE]), (22, 10));
    assert_eq!(rest.step, Some(CUT_BASE));
    // Ten are cut as planned; not all can become like the two.
    assert!(!has(&rescue.offers, Way::KeepAll));
    let recut = way(&rescue.offers, Way::Recut);
    assert_eq!(recut.done[&CUT_BASE], 10);
    assert_eq!(recut.paper[0].pieces, 2);
    let heading = recut.heading(&miscut);
    assert_eq!((heading.does, heading.cards), (Does::Recut, 2));
}

/// The first of a batch came out too low: all may become like it.
#[test]
fn the_first_of_a_batch_may_lead_the_others() {
    let mut recipe = book();
    recipe.copies = 12;
    let table = Table::at(recipe, CUT_BASE);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(136)), Some(inches(86))], 1);
    let rescue = table.rescue(&miscut);
    let all = way(&rescue.offers, Way::KeepAll);
    assert_eq!((all.recipe.copies, all.done[&CUT_BASE]), (12, 1));
    assert!(all.rest.is_none());
    assert_eq!(all.step, Some(CUT_BASE));
}

/// Sheets are counted by hand: strips of 8 1/2 × 5 1/2 in, two from a sheet of
/// letter paper.
#[test]
fn paper_is_counted_in_whole_sheets() {
    for (copies, cards, more) in [(1, 1, 0), (2, 1, 1), (3, 1, 0), (3, 2, 1), (4, 4, 2)] {
        let mut recipe = book();
        recipe.copies = copies;
        let stock = recipe.base.stock;
        let paper = recipe
            .stocks
            .iter_mut()
            .find(|it| it.id == stock)
            .expect("its paper");
        (paper.width, paper.height) = (inches(136), inches(176));
        let table = Table::at(recipe, CUT_BASE);
        let miscut = table.miscut(CUT_BASE, &[Some(inches(130)), Some(inches(88))], cards);
        let rescue = table.rescue(&miscut);
        let recut = way(&rescue.offers, Way::Recut);
        assert_eq!(recut.paper[0].more, Some(more), "{cards} of {copies}");
    }
}

/// A strip cut again takes with it what is glued to it.
#[test]
fn what_is_glued_to_a_strip_goes_with_it() {
    let recipe = book();
    let mat = parts(&recipe)[1];
    let card =
        foldwright_engine::card::work_out(&recipe, &foldwright_engine::card::Tools::default());
    let all = steps(&recipe, &card);
    let table = Table::at(recipe, all[all.len() - 1].key);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(130)), Some(inches(88))], 1);
    let rescue = table.rescue(&miscut);
    let recut = way(&rescue.offers, Way::Recut);
    assert_eq!(
        recut
            .fates
            .iter()
            .map(|(part, _)| *part)
            .collect::<Vec<_>>()[1..],
        [mat]
    );
    assert_eq!(recut.step, Some(CUT_BASE));
    for (key, done) in &recut.done {
        assert_eq!(*done == 0, *key != StepKey::Gather, "{key}");
    }
    // Nothing glued is cut down.
    assert!(!has(&rescue.offers, Way::Trim));
}

/// A strip cut again is folded again, also along what is no score, and as often
/// as it was folded there.
#[test]
fn folds_along_lines_are_done_again_with_the_strip() {
    for id in ["corner", "pointed", "step", "quarter", "star"] {
        let recipe = starter(id, MILLIMETRES);
        let card =
            foldwright_engine::card::work_out(&recipe, &foldwright_engine::card::Tools::default());
        let all = steps(&recipe, &card);
        let table = Table::at(recipe, all[all.len() - 1].key);
        let work = work(&table.recipe, &table.card, CUT_BASE).expect("it is cut");
        let [length, height] = &work.planned[..] else {
            panic!("{id}: {:?}", work.planned);
        };
        let measured = [Some(length.length - Length::mm(2)), Some(height.length)];
        let rescue = table.rescue(&table.miscut(CUT_BASE, &measured, 1));
        let recut = way(&rescue.offers, Way::Recut);
        for (key, done) in &recut.done {
            assert_eq!(*done == 0, *key != StepKey::Gather, "{id}: {key}");
        }
    }
}

/// A card lowered past its envelope says so.
#[test]
fn an_envelope_that_is_lost_is_named() {
    let mut recipe = book();
    recipe.posting.envelope = Some("na-a2".to_owned());
    let table = Table::at(recipe, CUT_BASE);
    assert!(
        table
            .card
            .envelopes
            .iter()
            .any(|fit| fit.envelope.id == "na-a2"),
        "{:?}",
        table.card.envelopes
    );
    let miscut = table.miscut(CUT_BASE, &[Some(inches(136)), Some(inches(92))], 1);
    let rescue = table.rescue(&miscut);
    let keep = way(&rescue.offers, Way::Keep);
    let (lost, takes) = keep.envelope.expect("it had one");
    assert_eq!((lost.id, takes), ("na-a2", false));
    assert_eq!(rescue.offers[0].way, Way::Trim);
}

/// Sizes that can't be are refused.
#[test]
fn nonsense_is_refused() {
    let table = Table::at(book(), CUT_BASE);
    let miscut = table.miscut(CUT_BASE, &[Some(Length::ZERO), Some(inches(88))], 1);
    let refused = foldwright_engine::rescue::rescue(&table.plan(), &miscut);
    assert!(refused.is_err());
}

/// A layer on a layer follows too.
#[test]
fn a_stack_follows_the_strip() {
    let mut recipe = book();
    let under = recipe.layers[0].id;
    recipe
        .add_layer(Seat::Layer(under), LayerKind::Mat, &Plain)
        .expect("it fits");
    let back = Face {
        panel: recipe.base.panels[0].id,
        side: Side::A,
    };
    recipe
        .add_layer(Seat::Face(back), LayerKind::Focal, &Plain)
        .expect("it fits");
    let table = Table::at(recipe, CUT_BASE);
    let miscut = table.miscut(CUT_BASE, &[Some(inches(134)), Some(inches(85))], 1);
    let rescue = table.rescue(&miscut);
    assert!(has(&rescue.offers, Way::Keep), "{:?}", rescue.not_kept);
}

/// A window cut 1/8 in too far to the left, in a strip that is cut: by hand, it
/// begins that much nearer to its panel's edge.
#[test]
fn a_window_in_the_wrong_place_is_told_too() {
    let mut recipe = book();
    let panel = recipe.base.panels[0].id;
    let window = recipe.add_window(panel, &Plain).expect("it fits").id;
    recipe
        .place_window(window, Placing::Distances)
        .expect("it stays");
    let key = StepKey::CutOut(window);
    let table = Table::at(recipe, key);
    let work = work(&table.recipe, &table.card, key).expect("a step");
    let mut measured: Vec<_> = work.planned.iter().map(|it| Some(it.length)).collect();
    measured[0] = measured[0].map(|left| left - inches(2));
    let rescue = table.rescue(&table.miscut(key, &measured, 1));
    let keep = way(&rescue.offers, Way::Keep);
    let left = |recipe: &Recipe| recipe.window_on_strip(window).expect("it is there").low.x;
    assert_eq!(left(&keep.recipe), left(&table.recipe) - inches(2));
    assert!(has(&rescue.offers, Way::Recut));
}

/// A mat that takes the shape of its panel can't come out another size and
/// stay.
#[test]
fn a_mat_cut_to_a_shape_is_cut_again() {
    let mut recipe = book();
    let mat = recipe.layers[0].id;
    recipe
        .shape(Shaped::Layer(mat), OutlineKind::Follows, &Plain)
        .expect("it follows");
    let key = StepKey::Cut(Part::Layer(mat));
    let table = Table::at(recipe, SCORE_BASE);
    let measured = [Some(inches(62)), Some(inches(84))];
    let rescue = table.rescue(&table.miscut(key, &measured, 1));
    assert!(rescue.not_kept.is_some());
    let ways: Vec<_> = rescue.offers.iter().map(|offer| offer.way).collect();
    assert_eq!(ways, [Way::Recut]);
    // And a strip that changes takes it along.
    let measured = [Some(inches(136)), Some(inches(86))];
    let rescue = table.rescue(&table.miscut(CUT_BASE, &measured, 1));
    let keep = way(&rescue.offers, Way::Keep);
    assert_eq!(keep.fates.len(), 1);
}
