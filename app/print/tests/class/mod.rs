//! Cutting plans for kits.

use std::num::NonZeroU32;

use foldwright_cutting::class::{Class, Sheets};
use foldwright_cutting::{Planner, Trimmer};
use foldwright_engine::card::Card;
use foldwright_engine::cut_plan::{CutPlan, Scraps};
use foldwright_engine::recipe::Recipe;

/// A plan for so many cards from new sheets and scraps, three sheets cut at once; `None`
/// where a piece fits none of them.
pub(crate) fn planned(
    recipe: &Recipe,
    card: &Card,
    cards: u32,
    scraps: &[Scraps],
) -> Option<CutPlan> {
    let scraps = scraps.iter().copied().map(Sheets::of_scraps);
    let sheets = recipe.stocks.iter().map(Sheets::new).chain(scraps);
    let sheets: Vec<_> = sheets.collect();
    let cards = NonZeroU32::new(cards)?;
    let trimmer = Trimmer {
        stack: NonZeroU32::MIN.saturating_add(2),
        ..Trimmer::PLAIN
    };
    let class = Class::new(&card.cut_list, cards, &sheets, trimmer).ok()?;
    let planner = Planner::new(&class.job);
    class.told(planner.plan())
}
