//! How the sheets for so many cards are cut: a first plan at once, and better ones for
//! as long as they are looked for, beside the page where the browser can.
//!
//! The planner makes the same plan in the same rounds of work on any device. So nothing
//! of a plan is kept but the rounds it took, where its maker chose them, or its number
//! in the names of the steps by which cards are cut.

mod beside;
mod search;

use std::collections::BTreeMap;
use std::num::NonZeroU32;
use std::sync::Arc;

use foldwright_cutting::Trimmer;
use foldwright_cutting::class::{Class, Sheets};
use foldwright_engine::card::Card;
use foldwright_engine::cut_plan::{CutPlan, Scraps};
use foldwright_engine::recipe::Recipe;
use serde::{Deserialize, Serialize};

pub(crate) use beside::{Looking, look};
pub(crate) use search::serve;

use crate::sync::Scrap;

/// How many sheets a trimmer cuts at once. Our own choice: cardstock slips when
/// more of it lies on each other.
const STACK: NonZeroU32 = NonZeroU32::MIN.saturating_add(2);

/// So many rounds are planned where nobody says otherwise: a few tens of milliseconds
/// of a desktop computer altogether. Our own bound; with another, cards that are being
/// cut lose their plan.
pub(crate) const ROUNDS: u32 = 40;

/// The most rounds: a few seconds of a desktop computer, which every other device takes
/// again for the same plan. Our own bound.
pub(crate) const MOST_ROUNDS: u32 = 4000;

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

/// What is to be planned; nothing where there is too much to be planned.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct Asked(Option<Class>);

impl Asked {
    /// So many cards, from new sheets and from scraps, of which the first
    /// [`MOST_SCRAPS`] kinds count.
    pub(crate) fn of(recipe: &Recipe, card: &Card, cards: u32, scraps: &[Scraps]) -> Self {
        let scraps = scraps.iter().copied().map(Sheets::of_scraps);
        let scraps = scraps.take(MOST_SCRAPS);
        let sheets: Vec<_> = recipe
            .stocks
            .iter()
            .map(Sheets::new)
            .chain(scraps)
            .collect();
        let cards = NonZeroU32::new(cards).unwrap_or(NonZeroU32::MIN);
        let trimmer = Trimmer {
            stack: STACK,
            ..Trimmer::PLAIN
        };
        Self(Class::new(&card.cut_list, cards, &sheets, trimmer).ok())
    }

    /// The first plan; `None` where each part is cut by itself.
    pub(crate) fn first(&self) -> Option<Arc<CutPlan>> {
        search::first(self).map(Arc::new)
    }
}

/// How long a plan is looked for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Goal {
    /// For so many rounds at most.
    pub(crate) rounds: u32,
    /// And no longer than until a plan has one of these numbers.
    pub(crate) numbers: Vec<u32>,
}

impl Goal {
    /// So many rounds.
    pub(crate) const fn rounds(rounds: u32) -> Self {
        Self {
            rounds,
            numbers: Vec::new(),
        }
    }
}

/// What a plan takes, and what is known of better ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Takes {
    /// New sheets.
    pub(crate) sheets: u64,
    /// How often the blade comes down.
    pub(crate) cuts: u64,
    /// How often the fence is set.
    pub(crate) settings: usize,
    /// No plan takes fewer new sheets than so many; that is proven.
    pub(crate) at_least: u64,
}

/// The best plan so far.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Seen {
    /// `None` where each part is cut by itself.
    pub(crate) plan: Option<CutPlan>,
    /// What it takes; `None` where there is nothing to be planned.
    pub(crate) takes: Option<Takes>,
    /// After how many rounds it was there.
    pub(crate) rounds: u32,
    /// For how many rounds better ones were looked for by now.
    pub(crate) looked: u32,
    /// Whether going on finds none.
    pub(crate) is_done: bool,
    /// Whether nobody is looking for better ones any more.
    pub(crate) is_last: bool,
}

impl Seen {
    /// Whether it is what comes of so many rounds.
    pub(crate) fn is_of(&self, rounds: u32) -> bool {
        self.rounds <= rounds && (self.is_done || rounds <= self.looked)
    }
}
