//! Cards with something asked of them, made from a seed.

use crate::plain::Plain;
use foldwright_engine::length::{DecimalMark, Length, Notation, Step, nearest};
use foldwright_engine::paper::{CLEARANCE_RULES, ENVELOPES, Print, SHEETS};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Holds, Is, Recipe, StripId, starters};
use foldwright_engine::refit::{Keep, Sheet, Wish};

use crate::systems::{Dice, push, system};

/// A recipe and what is asked of it.
pub(crate) struct Case {
    pub(crate) name: String,
    pub(crate) recipe: Recipe,
    pub(crate) wish: Wish,
}

const STEPS: [Step; 4] = [
    Step::Eighth,
    Step::Sixteenth,
    Step::Millimetre,
    Step::HalfMillimetre,
];

fn on(step: Step) -> Notation {
    Notation {
        step,
        decimal: DecimalMark::Point,
    }
}

/// A starting fold, an accordion or a system of relations.
pub(crate) fn case(seed: u64) -> Option<Case> {
    let mut dice = Dice::of(seed);
    match dice.roll(10) {
        0..=4 => card(&mut dice),
        5..=7 => pleats(&mut dice),
        roll => {
            let measures = if roll == 8 { 40 } else { dice.roll(12) + 3 };
            Some(Case {
                name: format!("{measures} measures"),
                recipe: system(seed, measures)?,
                wish: Wish::default(),
            })
        }
    }
}

/// A starting fold with pins, limits and wishes of its own, on another sheet, in
/// an envelope, of another size or in another unit.
fn card(dice: &mut Dice) -> Option<Case> {
    let all = starters();
    let starter = dice.one_of(all)?;
    let mut recipe = starter.recipe_in(on(*dice.one_of(&STEPS)?));
    for stock in &mut recipe.stocks {
        (stock.face.print, stock.back.print) = (Print::Plain, Print::Plain);
    }
    (recipe.lay, recipe.upright) = (None, Vec::new());
    let mut wish = Wish::default();
    if dice.roll(3) == 0 {
        wish.notation = Some(on(*dice.one_of(&STEPS)?));
    }
    let step = wish.notation.unwrap_or(recipe.notation).step;
    let strip_only = recipe.base.lines.is_empty() && recipe.pieces.is_empty();
    match dice.roll(if strip_only { 5 } else { 2 }) {
        0 | 1 => wish.sheet = sheet(dice, &recipe),
        2 => wish.finished = Some(finished(dice, &recipe, step)),
        3 => wish.envelope = dice.one_of(ENVELOPES).zip(dice.one_of(CLEARANCE_RULES)),
        _ => {
            wish.finished = Some(finished(dice, &recipe, step));
            wish.sheet = sheet(dice, &recipe);
        }
    }
    if wish.envelope.is_none() && strip_only && dice.roll(4) == 0 {
        wish.envelope = dice.one_of(ENVELOPES).zip(dice.one_of(CLEARANCE_RULES));
    }
    burden(dice, &mut recipe, step)?;
    Some(Case {
        name: starter.id.clone(),
        recipe,
        wish,
    })
}

fn sheet(dice: &mut Dice, recipe: &Recipe) -> Option<Sheet> {
    let sheet = dice.one_of(SHEETS)?;
    let share = [1, 1, 2, 4][dice.roll(4)];
    Some(Sheet {
        stock: recipe.base.stock,
        size: Size {
            width: sheet.width,
            height: sheet.height.div_rem(share)?.0,
        },
        keep: Keep::Card,
    })
}

/// A size not far from that of the first panel.
fn finished(dice: &mut Dice, recipe: &Recipe, step: Step) -> Size {
    let width = recipe.base.panels.first().map(|panel| panel.width);
    let sides = [width, Some(recipe.base.height)];
    let [width, height] = sides.map(|side| {
        let side = side.map_or(Length::ZERO, |id| recipe.value(id));
        let share = side * dice.between(-30, 30);
        let share = share.div_rem(100).map_or(Length::ZERO, |(share, _)| share);
        nearest(side + share, step).at.max(step.length())
    });
    Size { width, height }
}

/// Pins, limits and relations that should hold, on marks.
fn burden(dice: &mut Dice, recipe: &mut Recipe, step: Step) -> Option<()> {
    for _ in 0..dice.roll(4) {
        let at = dice.roll(recipe.measures.len());
        let measure = recipe.measures.get_mut(at)?;
        let marked = nearest(measure.value, step).at;
        match dice.roll(3) {
            0 => (measure.value, measure.pinned) = (marked, true),
            1 if measure.most.is_none_or(|most| marked <= most) => measure.least = Some(marked),
            _ if measure.least.is_none_or(|least| marked >= least) => measure.most = Some(marked),
            _ => {}
        }
    }
    for _ in 0..dice.roll(4) {
        let terms = (0..=dice.roll(3)).filter_map(|_| {
            let of = dice.one_of(&recipe.measures)?.id;
            Some((*[-2, -1, 1, 1, 2].get(dice.roll(5))?, of))
        });
        let terms: Vec<_> = terms.collect();
        let is = [Is::Equal, Is::AtLeast, Is::AtMost][dice.roll(3)];
        let plus = step.length() * dice.between(-8, 8);
        let now = terms.iter().map(|(times, of)| recipe.value(*of) * *times);
        let now = nearest(now.sum(), step).at;
        push(recipe, &terms, is, now + plus, Holds::Should);
    }
    Some(())
}

/// An accordion of any widths, some of which should be the same, to be folded to
/// another size.
fn pleats(dice: &mut Dice) -> Option<Case> {
    let own = starters().iter().find(|starter| starter.id == "own")?;
    let step = *dice.one_of(&STEPS)?;
    let mut recipe = own.recipe_in(on(step));
    for measure in &mut recipe.measures {
        (measure.least, measure.most) = (None, None);
    }
    for _ in 0..dice.roll(5) {
        let last = recipe.base.panels.len() - 1;
        recipe.add_panel(StripId::Base, last, None, &Plain).ok()?;
    }
    let widths: Vec<_> = recipe.base.panels.iter().map(|it| it.width).collect();
    let wide = dice.between(12, 40);
    for width in &widths {
        let measure = recipe.measures.iter_mut().find(|it| it.id == *width)?;
        measure.value = step.length() * (wide + dice.between(-4, 4));
    }
    let all: Length = widths.iter().map(|id| recipe.value(*id)).sum();
    let length = recipe.base.length;
    recipe.measures.iter_mut().find(|it| it.id == length)?.value = all;
    for pair in widths.windows(2) {
        if let [one, other] = pair
            && dice.roll(2) == 0
        {
            push(
                &mut recipe,
                &[(1, *one), (-1, *other)],
                Is::Equal,
                Length::ZERO,
                Holds::Should,
            );
        }
    }
    burden(dice, &mut recipe, step)?;
    let mut wish = Wish {
        finished: Some(finished(dice, &recipe, step)),
        ..Wish::default()
    };
    if dice.roll(3) == 0 {
        wish.sheet = sheet(dice, &recipe);
    }
    Some(Case {
        name: format!("{} pleats", widths.len()),
        recipe,
        wish,
    })
}
