//! Every starting fold, with every length of a step a little off: nothing that
//! came out right is cut down without need.

use crate::plain::Plain;
use foldwright_engine::card::{Card, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::problem::Weight;
use foldwright_engine::recipe::{
    Face, Holds, Is, Layer, LayerKind, MeasureId, Recipe, Relation, Seat, Side, StripId, Term,
    starters,
};
use foldwright_engine::refit::{Wish, refit};
use foldwright_engine::rescue::{About, Against, Along, Fate, Miscut, Offer, Part, Way, work};
use foldwright_engine::steps::{Kind, StepKey, steps};

use crate::shared::{INCHES, MILLIMETRES, Numbers, TOOLS, Table, parts, sizes_in};

fn stops(card: &Card) -> usize {
    let problems = card.problems.iter();
    problems.filter(|it| it.weight == Weight::Stop).count()
}

/// With two mats in a stack on the outside of the first panel, where they fit.
fn matted(mut recipe: Recipe) -> Recipe {
    let front = Face {
        panel: recipe.base.panels[0].id,
        side: Side::B,
    };
    if let Ok(mat) = recipe.add_layer(Seat::Face(front), LayerKind::Mat, &Plain) {
        let _ = recipe.add_layer(Seat::Layer(mat.id), LayerKind::Mat, &Plain);
    }
    recipe
}

/// The measures of the size of a part.
fn measures(recipe: &Recipe, part: Part) -> [MeasureId; 2] {
    match part {
        Part::Strip(of) => {
            let strip = recipe.strip(of).expect("it is there");
            [strip.length, strip.height]
        }
        Part::Layer(id) => {
            let layer = recipe.layer(id).expect("it is there");
            [layer.width, layer.height]
        }
    }
}

/// How large a part is on the table.
fn actual(table: &Table, miscut: &Miscut, part: Part) -> [Length; 2] {
    match miscut.about {
        About::Cut(hand) if hand == part => {
            [0, 1].map(|number| miscut.measured[number].expect("it is measured"))
        }
        _ => sizes_in(&table.card, part),
    }
}

/// Whether one dimension could have stayed with all the others as offered or
/// larger, and no loss: asked of the refit itself, without the search of the
/// rescue. Nothing is scored yet.
fn could_stay(
    table: &Table,
    miscut: &Miscut,
    offer: &Offer,
    offered: &Card,
    of: (Part, usize),
) -> bool {
    let recipe = &table.recipe;
    let mut wish = Wish {
        between: true,
        cut: parts(recipe),
        ..Wish::default()
    };
    for part in parts(recipe) {
        let fate = offer.fates.iter().find(|(other, _)| *other == part);
        let follows =
            matches!(part, Part::Layer(id) if recipe.layer(id).is_some_and(Layer::follows));
        if follows || fate.is_some_and(|(_, fate)| *fate == Fate::Recut) {
            continue;
        }
        let is = actual(table, miscut, part);
        let then = sizes_in(offered, part);
        for (number, id) in measures(recipe, part).into_iter().enumerate() {
            if then[number] < is[number] && (part, number) != of {
                wish.made.push(Relation {
                    left: vec![Term { times: 1, of: id }],
                    is: Is::AtMost,
                    right: Vec::new(),
                    plus: is[number],
                    holds: Holds::Must,
                });
            } else {
                wish.pinned.push((id, is[number]));
            }
        }
    }
    let Ok(found) = refit(recipe, &wish) else {
        return false;
    };
    let mut then = found.recipe.clone();
    then.posting = recipe.posting.clone();
    let after = work_out(&then, &TOOLS);
    let had = table.card.envelopes.iter().map(|fit| fit.envelope.id);
    let chosen = recipe.posting.envelope.as_deref();
    let envelope = match chosen {
        Some(id) => had.clone().find(|had| *had == id),
        None => had.clone().next(),
    };
    let takes = |card: &Card| {
        envelope.is_none_or(|id| card.envelopes.iter().any(|fit| fit.envelope.id == id))
    };
    let step = recipe.notation.step.length().units();
    let pinned = |id: MeasureId| wish.pinned.iter().any(|(pinned, _)| *pinned == id);
    let on_marks = then.measures.iter().all(|measure| {
        let stays = measure.value == recipe.value(measure.id);
        stays || pinned(measure.id) || measure.value.units() % step == 0
    });
    found.given_up.len() <= offer.given_up.len()
        && on_marks
        && stops(&after) <= stops(&table.card)
        && takes(&after)
}

/// What is checked of one miscut; whether something was trimmed for it.
fn check(table: &Table, miscut: &Miscut, scored: bool) -> (usize, usize) {
    let hand = miscut.about.part();
    let planned = sizes_in(&table.card, hand);
    let is = actual(table, miscut, hand);
    let (mut trims, mut asked) = (0, 0);
    let rescue = table.rescue(miscut);
    let solved = |offer: &&Offer| matches!(offer.way, Way::Keep | Way::KeepAll | Way::Trim);
    let solved = rescue.offers.iter().filter(solved);
    let solved: Vec<_> = solved
        .map(|offer| (offer, work_out(&offer.recipe, &TOOLS)))
        .collect();
    let is_right = |number: usize| planned[number] == is[number];
    for (offer, after) in &solved {
        let then = sizes_in(after, hand);
        assert!(stops(after) <= stops(&table.card), "{:?}", after.problems);
        for number in [0, 1] {
            let shrinks = then[number] < is[number];
            assert!(then[number] <= is[number]);
            if !shrinks || !is_right(number) {
                continue;
            }
            // It is said what forces it, and nothing without new paper, other
            // than cutting down the card for a part of it, keeps it.
            let along = match (number, hand) {
                (1, _) => Along::Height,
                (_, Part::Strip(_)) => Along::Length,
                (_, Part::Layer(_)) => Along::Width,
            };
            let forced = offer.forced.iter().find(|told| told.along == along);
            let forced = forced.expect("it is said what forces it");
            assert_eq!((forced.part, forced.is), (hand, is[number]));
            let held =
                |against: &Against| matches!(against, Against::Hurdles(it) if !it.is_empty());
            assert!(forced.against.as_ref().is_some_and(held), "{forced:?}");
            let keeps = solved.iter().find(|(other, card)| {
                let other_size = sizes_in(card, hand);
                let recut = other.fates.iter().any(|(_, fate)| *fate == Fate::Recut);
                let cuts = |part: &Part| *part != hand && matches!(part, Part::Strip(_));
                let strip = other.fates.iter().any(|(part, _)| cuts(part));
                let counts = !strip || hand == Part::Strip(StripId::Base);
                !recut && counts && other_size[number] == is[number]
            });
            assert!(
                keeps.is_none(),
                "{:?} {:?}",
                offer.fates,
                keeps.map(|(it, _)| &it.fates)
            );
        }
        for (part, fate) in &offer.fates {
            let Fate::Trimmed(to) = fate else { continue };
            trims += 1;
            let was = actual(table, miscut, *part);
            for (number, to) in [to.width, to.height].into_iter().enumerate() {
                assert!(to <= was[number]);
                let right = *part != hand || is_right(number);
                if to < was[number] && right && !scored {
                    asked += 1;
                    assert!(
                        !could_stay(table, miscut, offer, after, (*part, number)),
                        "{part:?} {number}: {:?}",
                        offer.fates
                    );
                }
            }
        }
    }
    (trims, asked)
}

#[test]
fn what_came_out_right_is_cut_down_only_where_it_must() {
    let (mut miscuts, mut trims, mut asked) = (0, 0, 0);
    for (seed, starter) in (1..).zip(starters()) {
        println!("seed {seed}: {}", starter.id);
        let mut numbers = Numbers::of(seed);
        let notation = [INCHES, MILLIMETRES][usize::from(numbers.chance(2))];
        let recipe = matted(starter.recipe_in(notation));
        let card = work_out(&recipe, &TOOLS);
        let all = steps(&recipe, &card);
        // All cut and nothing else, and all scored.
        let sized = |key| matches!(key, StepKey::Cut(_));
        let cut = all
            .iter()
            .rposition(|step| sized(step.key))
            .expect("the strip");
        let scored = all
            .iter()
            .rposition(|step| matches!(step.kind, Kind::Cut | Kind::Score));
        for (at, scored) in [(cut + 1, false), (scored.unwrap_or(cut) + 1, true)] {
            let table = Table::at(recipe.clone(), all[at].key);
            for step in all.iter().take(at) {
                let Some(work) = work(&table.recipe, &table.card, step.key) else {
                    continue;
                };
                // A part is told at each stage, a score where it is made.
                if matches!(work.about, About::Cut(_)) && scored && numbers.chance(2) {
                    continue;
                }
                for number in 0..work.planned.len() {
                    // Of lines, which have many, a few.
                    let drawn = matches!(work.about, About::Line(..) | About::Cutout(..));
                    if drawn && !numbers.chance(4) {
                        continue;
                    }
                    let marks = [-2, -1, 1, 2][usize::try_from(numbers.below(4)).expect("few")];
                    let mut measured: Vec<_> =
                        work.planned.iter().map(|it| Some(it.length)).collect();
                    measured[number] = measured[number]
                        .map(|length| length + table.recipe.notation.step.length() * marks);
                    let miscut = table.miscut(step.key, &measured, 1);
                    // A score may come to lie where none can.
                    let sized = matches!(work.about, About::Cut(_));
                    let refused = || foldwright_engine::rescue::rescue(&table.plan(), &miscut);
                    if !sized && refused().is_err() {
                        continue;
                    }
                    println!("{} {number} {marks}", step.key);
                    let (more, tried) = check(&table, &miscut, scored);
                    miscuts += 1;
                    trims += more;
                    asked += tried;
                }
            }
        }
    }
    println!("{miscuts} miscuts, {trims} trimmings, {asked} dimensions asked for");
    assert!(miscuts > 200, "{miscuts}");
    assert!(trims > 40, "{trims}");
    assert!(asked > 20, "{asked}");
}
