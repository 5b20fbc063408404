//! Miscuts on every starting fold, from numbered seeds.

use crate::plain::Plain;
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Face, LayerKind, Recipe, Seat, Side, starters};
use foldwright_engine::rescue::{About, Way, work};
use foldwright_engine::steps::{Kind, steps};

use crate::shared::{INCHES, MILLIMETRES, Numbers, Table};

/// A starting fold with some layers, for some cards.
fn recipe(numbers: &mut Numbers) -> Recipe {
    let notation = if numbers.chance(2) {
        INCHES
    } else {
        MILLIMETRES
    };
    let all = starters();
    let most = u64::try_from(all.len()).expect("few");
    let place = usize::try_from(numbers.below(most)).expect("few");
    let mut recipe = all[place].recipe_in(notation);
    for _ in 0..numbers.below(3) {
        let panels = recipe.base.panels.len();
        let most = u64::try_from(panels).expect("few");
        let panel = usize::try_from(numbers.below(most)).expect("few");
        let on = Seat::Face(Face {
            panel: recipe.base.panels[panel].id,
            side: if numbers.chance(2) { Side::A } else { Side::B },
        });
        let kind = if numbers.chance(2) {
            LayerKind::Mat
        } else {
            LayerKind::Focal
        };
        // What does not fit there is left out.
        let _ = recipe.add_layer(on, kind, &Plain);
    }
    recipe.copies = u32::try_from(1 + numbers.below(4)).expect("few");
    recipe
}

#[test]
fn whatever_comes_out_different_the_rest_stays_and_goes_together() {
    let (mut kept, mut trimmed, mut refused, mut again) = (0, 0, 0, 0);
    for seed in 1..=60_u64 {
        println!("seed {seed}");
        let mut numbers = Numbers::of(seed);
        let recipe = recipe(&mut numbers);
        let copies = recipe.copies;
        let card = work_out(&recipe, &Tools::default());
        let all = steps(&recipe, &card);
        let works: Vec<_> = all
            .iter()
            .enumerate()
            .filter(|(_, step)| matches!(step.kind, Kind::Cut | Kind::Score))
            .collect();
        let most = u64::try_from(works.len()).expect("few");
        let (place, step) = works[usize::try_from(numbers.below(most)).expect("few")];
        // At the step itself, or some steps later.
        let later = if numbers.chance(2) {
            0
        } else {
            usize::try_from(numbers.below(5)).expect("few")
        };
        let at = (place + later).min(all.len() - 1);
        let mut table = Table::at(recipe, all[at].key);
        if later == 0 {
            let done = u32::try_from(numbers.below(u64::from(copies))).expect("few");
            table.done.insert(step.key, done);
        }
        let work =
            work(&table.recipe, &table.card, step.key).expect("a step of cutting or scoring");
        assert_eq!(work.planned.len(), step.figures.len(), "{}", step.key);
        let mark = table.recipe.notation.step.length().units();
        let wrong = usize::try_from(numbers.below(u64::try_from(work.planned.len()).expect("few")))
            .expect("few");
        let measured: Vec<_> = work
            .planned
            .iter()
            .enumerate()
            .map(|(number, planned)| {
                let off = i64::try_from(numbers.below(9)).expect("few") - 4;
                // Mostly on marks, sometimes between them.
                let part = if numbers.chance(4) { mark / 4 } else { mark };
                let off = if number == wrong { off * part } else { 0 };
                Some(planned.length + Length::from_units(off))
            })
            .collect();
        let measured = match work.about {
            // The scores behind the wrong one may be yet to come.
            About::Scores(..) if numbers.chance(2) && later == 0 => {
                let made = measured.iter().take(wrong + 1).copied();
                made.chain(measured.iter().skip(wrong + 1).map(|_| None))
                    .collect()
            }
            _ => measured,
        };
        let cards = u32::try_from(1 + numbers.below(u64::from(copies))).expect("few");
        let miscut = table.miscut(step.key, &measured, cards);
        if foldwright_engine::rescue::rescue(&table.plan(), &miscut).is_err() {
            refused += 1;
            continue;
        }
        let rescue = table.rescue(&miscut);
        for offer in &rescue.offers {
            match offer.way {
                Way::Keep | Way::KeepAll => kept += 1,
                Way::Trim => trimmed += 1,
                Way::ScoreAgain | Way::Recut => again += 1,
            }
        }
    }
    println!("{kept} kept, {trimmed} cut down, {again} made again, {refused} refused");
    assert!(kept > 12, "{kept}");
    assert!(trimmed > 4, "{trimmed}");
}
