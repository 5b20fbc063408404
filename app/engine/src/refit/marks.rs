//! What lies between the marks of the maker's ruler, and the nearest card of
//! which nothing does.

use super::units::{as_round, take_to};
use super::{Clash, Keep, Refit, Sheet, Wish, refit};
use crate::length::{Length, Notation, Unit, ceil, nearest};
use crate::plane::Size;
use crate::recipe::{Is, MeasureId, Recipe, Starter, usual_margin};

/// The measures of a recipe that its own marks do not reach, in its order.
pub fn between_marks(recipe: &Recipe) -> Vec<MeasureId> {
    let step = recipe.notation.step;
    let measures = recipe.measures.iter();
    measures
        .filter(|measure| !nearest(measure.value, step).is_exact())
        .map(|measure| measure.id)
        .collect()
}

/// The nearest card on the recipe's own marks. The allowance of panels folded
/// in, the least that its rule asks for, goes up to its mark; a sheet gives as
/// many strips as before where that is possible. What the program gave in another
/// unit is round in this one. It is near to the recipe as it is, and designed so from
/// then on.
pub fn onto_marks(recipe: &Recipe) -> Result<Refit, Clash> {
    let allowance = recipe.folding_in.allowance;
    let base = &recipe.base;
    let strip = Size {
        width: recipe.value(base.length),
        height: recipe.value(base.height),
    };
    let sheet = recipe
        .stock(base.stock)
        .filter(|stock| stock.per_sheet(strip) > 0 || stock.per_sheet(strip.turned()) > 0);
    let mut now = recipe.clone();
    now.take_for_design();
    take_to(now.notation.unit(), &mut now);
    let mut found = refit(
        &now,
        &Wish {
            sheet: sheet.map(|stock| Sheet {
                stock: stock.id,
                size: stock.size(),
                keep: Keep::Count,
            }),
            pinned: vec![(
                allowance,
                ceil(recipe.value(allowance), recipe.notation.step).at,
            )],
            ..Wish::default()
        },
    )?;
    found.recipe.take_for_design();
    Ok(found)
}

impl Starter {
    /// The recipe in a notation: in round inches or round millimetres, and
    /// nothing of it between the marks.
    pub fn recipe_in(&self, notation: Notation) -> Recipe {
        let mut recipe = self.recipe.clone();
        recipe.notation = notation;
        // Values that clash leave the recipe in inches, which is right too.
        if notation.unit() == Unit::Millimetre
            && recipe.settle(&self.metric.measures, &[], &[]).is_ok()
        {
            self.metric_papers(&mut recipe);
            recipe.folding_in.rule.clone_from(&self.metric.folding_in);
            recipe.posting.rule.clone_from(&self.metric.posting);
            recipe.glue_margin = usual_margin(Unit::Millimetre);
            let rules = recipe.relations.iter_mut();
            let rules = rules.filter(|it| it.is != Is::Equal);
            let rules = rules.map(|it| &mut it.plus);
            let measures = recipe.measures.iter_mut();
            let limits = measures.flat_map(|it| [&mut it.least, &mut it.most]);
            for length in rules.chain(limits.flatten()) {
                *length = as_round(*length, Unit::Millimetre);
            }
        }
        if between_marks(&recipe).is_empty() {
            return recipe;
        }
        // The allowance is often all that lies between coarse marks, and then
        // nothing needs to be searched for.
        let allowance = recipe.folding_in.allowance;
        let marked = ceil(recipe.value(allowance), notation.step).at;
        let mut moved = recipe.clone();
        if moved.settle(&[(allowance, marked)], &[], &[]).is_ok()
            && between_marks(&moved).is_empty()
        {
            return moved;
        }
        onto_marks(&recipe).map_or(recipe, |refit| refit.recipe)
    }

    /// Cuts everything from paper that is sold in millimetres: the base's own in
    /// its metric size, and pads of 300 mm for those of 12 in.
    fn metric_papers(&self, recipe: &mut Recipe) {
        let inches = recipe.base.stock;
        recipe.base.stock = self.metric.stock;
        let layers = recipe.layers.iter_mut().map(|layer| &mut layer.stock);
        let pieces = recipe.pieces.iter_mut().map(|piece| &mut piece.strip.stock);
        for stock in layers.chain(pieces).filter(|stock| **stock == inches) {
            *stock = self.metric.stock;
        }
        let base = recipe.base.stock;
        recipe
            .stocks
            .retain(|stock| stock.id != inches || stock.id == base);
        let foot = Length::inches(12);
        for stock in &mut recipe.stocks {
            if (stock.width, stock.height) == (foot, foot) {
                (stock.width, stock.height) = (Length::mm(300), Length::mm(300));
                stock.name.push_str("-metric");
            }
        }
    }
}
