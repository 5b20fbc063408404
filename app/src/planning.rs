//! How the sheets for so many cards are cut: a first plan at once, a better one
//! soon after.
//!
//! Work that has begun by one of them goes on by it: the planner makes the same
//! plan of the same work on any device, and so nothing of it has to be kept.

use std::collections::BTreeMap;
use std::num::NonZeroU32;
use std::sync::Arc;

use foldwright_cutting::class::{Class, Sheets};
use foldwright_cutting::{Planner, Progress as Search, Trimmer};
use foldwright_engine::card::Card;
use foldwright_engine::cut_list::CutList;
use foldwright_engine::cut_plan::{CutPlan, Scraps};
use foldwright_engine::recipe::Recipe;

use crate::sync::Scrap;
use crate::turns::Turn;

/// How many sheets a trimmer cuts at once. Our own choice: cardstock slips when
/// more of it lies on each other.
const STACK: NonZeroU32 = NonZeroU32::MIN.saturating_add(2);

/// So often is a plan worked on, and with so much work each time: a few tens of
/// milliseconds of a desktop computer altogether. Our own bounds; with others, cards
/// that are being cut lose their plan.
const ROUNDS: u32 = 40;
const WORK: u64 = 100_000;

/// So many kinds of scraps of a recipe's papers are planned with at most, the
/// largest first. Our own bound: with more of them planning takes long.
pub(crate) const MOST_SCRAPS: usize = 12;

/// The scraps of a recipe's papers among all that is counted, the largest first.
pub(crate) fn scraps_of(recipe: &Recipe, counts: &BTreeMap<String, i64>) -> Vec<Scraps> {
    let scraps = counts.iter().filter_map(|(key, count)| {
        let count = u32::try_from(*count).ok().filter(|count| *count > 0)?;
        let scrap = Scrap::parse(key)?;
        let size = scrap.size();
        let mut stocks = recipe.stocks.iter();
        let stock = stocks.find(|stock| Scrap::of(stock, size) == scrap)?.id;
        Some(Scraps { stock, size, count })
    });
    let mut scraps: Vec<_> = scraps.collect();
    scraps.sort_by_key(|scraps| std::cmp::Reverse(scraps.size.area()));
    scraps
}

/// What is to be planned.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Asked {
    cuts: CutList,
    cards: NonZeroU32,
    sheets: Vec<Sheets>,
}

impl Asked {
    /// So many cards, from new sheets and from scraps, of which the first
    /// [`MOST_SCRAPS`] kinds count.
    pub(crate) fn of(recipe: &Recipe, card: &Card, cards: u32, scraps: &[Scraps]) -> Self {
        let scraps = scraps.iter().copied().map(Sheets::of_scraps);
        let scraps = scraps.take(MOST_SCRAPS);
        Self {
            cuts: card.cut_list.clone(),
            cards: NonZeroU32::new(cards).unwrap_or(NonZeroU32::MIN),
            sheets: recipe
                .stocks
                .iter()
                .map(Sheets::new)
                .chain(scraps)
                .collect(),
        }
    }

    /// `None` where there is too much to be planned.
    fn class(&self) -> Option<Class> {
        let trimmer = Trimmer {
            stack: STACK,
            ..Trimmer::PLAIN
        };
        Class::new(&self.cuts, self.cards, &self.sheets, trimmer).ok()
    }

    /// The first plan; `None` where each part is cut by itself.
    pub(crate) fn first(&self) -> Option<Arc<CutPlan>> {
        let class = self.class()?;
        class.told(Planner::new(&class.job).plan()).map(Arc::new)
    }
}

/// A plan that becomes better, round by round.
struct Work {
    class: Class,
    planner: Planner,
    rounds: u32,
}

impl Work {
    fn new(asked: &Asked) -> Option<Self> {
        let class = asked.class()?;
        Some(Self {
            planner: Planner::new(&class.job),
            class,
            rounds: ROUNDS,
        })
    }

    /// Works for one more round; whether there are others.
    fn goes_on(&mut self) -> bool {
        // Whole rounds, so that the same plan comes out on any device.
        let found = self.planner.improve(WORK, || false);
        self.rounds = self.rounds.saturating_sub(1);
        self.rounds > 0 && found != Search::Done
    }

    fn told(&self) -> Option<Arc<CutPlan>> {
        self.class.told(self.planner.plan()).map(Arc::new)
    }
}

/// The better plan, made in turns for as long as it is `wanted`; `None` once it is
/// not. The one it begins with is handed out before.
pub(crate) async fn better(
    asked: &Asked,
    wanted: impl Fn() -> bool,
    begins: impl FnOnce(Option<Arc<CutPlan>>),
) -> Option<Option<Arc<CutPlan>>> {
    let Some(mut work) = Work::new(asked) else {
        return Some(None);
    };
    begins(work.told());
    let mut turn = Turn::begin();
    while work.goes_on() {
        turn.or_next().await;
        if !wanted() {
            return None;
        }
    }
    Some(work.told())
}

/// The better plan, waited for.
pub(crate) fn better_now(asked: &Asked) -> Option<Arc<CutPlan>> {
    let mut work = Work::new(asked)?;
    while work.goes_on() {}
    work.told()
}
