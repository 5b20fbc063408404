//! How sheets that several parts share are cut: what a plan says, setting after
//! setting of the fence.
//!
//! Who makes the plan is not known here. Sizes are width and height with the
//! print of the sheet upright, as of [`Stock`](crate::paper::Stock).

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::cut_list::CutList;
use crate::length::Length;
use crate::paper::StockId;
use crate::part::Part;
use crate::plane::{Edge, Size};

/// Scraps of a paper, all of one size, with their print upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Scraps {
    /// Their paper.
    pub stock: StockId,
    /// How large each is.
    pub size: Size,
    /// How many there are.
    pub count: u32,
}

/// What something is that is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Lot {
    /// A whole sheet.
    Sheet,
    /// A scrap from the shelf.
    Scrap,
    /// A strip that was cut before.
    Strip,
}

/// What comes off a sheet or a strip.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub enum Yield {
    /// A piece for any of these parts, which are cut alike.
    Piece(Vec<Part>),
    /// A strip that is cut further.
    Strip(Size),
    /// What is left over.
    Offcut(Size),
}

/// Equal sheets, scraps or strips that are cut alike at one setting.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Load {
    /// Their paper.
    pub stock: StockId,
    /// How large each is.
    pub size: Size,
    /// What they are.
    pub is: Lot,
    /// How many there are.
    pub count: u32,
    /// Which edge lies against the fence. The one opposite does as well.
    pub edge: Edge,
    /// Whether they are turned a quarter from how they lay when they were cut
    /// before.
    pub turned: bool,
    /// How many are cut at once at most.
    pub stack: u32,
    /// What comes off, one after the other, each as wide as the fence is set.
    pub off: Vec<Yield>,
    /// What stays behind the last cut; nothing where the blade takes it.
    pub rest: Option<Yield>,
}

/// What is cut at one setting of the fence.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Setting {
    /// From the fence to the blade.
    pub fence: Length,
    /// What is cut, in an order in which everything is there when it is cut.
    pub loads: Vec<Load>,
}

/// How the sheets for so many cards are cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CutPlan {
    /// How many sheets of each paper.
    pub sheets: BTreeMap<StockId, u32>,
    /// The scraps that are used.
    pub scraps: Vec<Scraps>,
    /// One setting after the other.
    pub settings: Vec<Setting>,
    /// The parts that are whole sheets, off which nothing is cut.
    pub whole: Vec<Part>,
}

impl Load {
    /// What becomes of each of them, from the fence on.
    pub fn yields(&self) -> impl Iterator<Item = &Yield> {
        self.off.iter().chain(&self.rest)
    }

    /// The length of the edge against the fence.
    pub const fn along(&self) -> Length {
        match self.edge {
            Edge::Left | Edge::Right => self.size.height,
            Edge::Top | Edge::Bottom => self.size.width,
        }
    }

    /// How far it reaches from the fence.
    pub const fn reach(&self) -> Length {
        match self.edge {
            Edge::Left | Edge::Right => self.size.width,
            Edge::Top | Edge::Bottom => self.size.height,
        }
    }
}

impl Setting {
    /// Everything that comes off here, with its paper, each once: what pictures and
    /// sentences call by its number in this list.
    pub fn kinds(&self) -> Vec<(StockId, &Yield)> {
        let mut kinds = Vec::new();
        for load in &self.loads {
            for one in load.yields() {
                if !kinds.contains(&(load.stock, one)) {
                    kinds.push((load.stock, one));
                }
            }
        }
        kinds
    }

    /// Whether pieces for a part come off here.
    pub fn gives(&self, part: Part) -> bool {
        let mut yields = self.loads.iter().flat_map(Load::yields);
        yields.any(|it| matches!(it, Yield::Piece(parts) if parts.contains(&part)))
    }
}

impl CutPlan {
    /// After how many settings all pieces for a part are there; `None` where they
    /// are not planned.
    pub fn ready_after(&self, part: Part) -> Option<usize> {
        let last = self.settings.iter().rposition(|it| it.gives(part));
        let whole = self.whole.contains(&part).then_some(0);
        last.map(|last| last + 1).or(whole)
    }

    /// How many sheets of each paper so many cards take. Parts that are not planned
    /// take sheets of their own; `None` where one does not fit its sheet.
    pub fn sheets_of(&self, cuts: &CutList, cards: u32) -> BTreeMap<StockId, Option<i64>> {
        let unplanned = |part| self.ready_after(part).is_none();
        let others = cuts.blanks.iter().filter(|blank| unplanned(blank.part));
        let others = CutList {
            blanks: others.cloned().collect(),
        };
        let mut needed = others.sheets(cards);
        for (stock, sheets) in &self.sheets {
            let sum = needed.entry(*stock).or_insert(Some(0));
            *sum = sum.map(|sum| sum + i64::from(*sheets));
        }
        needed
    }

    /// What is left over and at least so large both ways, with its print upright.
    pub fn offcuts(&self, least: Length) -> Vec<Scraps> {
        let mut offcuts = Vec::<Scraps>::new();
        let loads = self.settings.iter().flat_map(|setting| &setting.loads);
        for load in loads {
            for one in load.yields() {
                let Yield::Offcut(size) = *one else { continue };
                if size.width < least || size.height < least {
                    continue;
                }
                let is_alike = |it: &&mut Scraps| (it.stock, it.size) == (load.stock, size);
                match offcuts.iter_mut().find(is_alike) {
                    Some(alike) => alike.count = alike.count.saturating_add(load.count),
                    None => offcuts.push(Scraps {
                        stock: load.stock,
                        size,
                        count: load.count,
                    }),
                }
            }
        }
        offcuts
    }

    /// A number that plans have in common only where they are the same, but for
    /// rare chance. It can never be made another way, as the names of steps have
    /// it.
    pub fn number(&self) -> u32 {
        let mut number = Number::default();
        for (stock, sheets) in &self.sheets {
            number.add(i64::from(stock.0));
            number.add(i64::from(*sheets));
        }
        for scraps in &self.scraps {
            number.add(i64::from(scraps.stock.0));
            number.add(scraps.size.width.units());
            number.add(scraps.size.height.units());
            number.add(i64::from(scraps.count));
        }
        for setting in &self.settings {
            number.add(setting.fence.units());
            for load in &setting.loads {
                number.add(i64::from(load.stock.0));
                number.add(i64::from(load.count));
                number.add(load.along().units());
                for one in load.yields() {
                    let size = match one {
                        Yield::Piece(_) => Size::default(),
                        Yield::Strip(size) | Yield::Offcut(size) => *size,
                    };
                    number.add(size.width.units());
                    number.add(size.height.units());
                }
            }
        }
        number.0
    }
}

/// FNV-1a of 32 bits (draft-eastlake-fnv, from memory), over numbers by their
/// bytes, the lowest first.
struct Number(u32);

impl Default for Number {
    fn default() -> Self {
        Self(0x811c_9dc5)
    }
}

impl Number {
    fn add(&mut self, number: i64) {
        for byte in number.to_le_bytes() {
            self.0 = (self.0 ^ u32::from(byte)).wrapping_mul(0x0100_0193);
        }
    }
}
