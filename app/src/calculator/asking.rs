//! What the maker wants the card refitted to, as it is tapped together.

use foldwright_engine::length::{Notation, Step, Unit};
use foldwright_engine::paper::{ClearanceRule, Envelope, SHEETS, SheetSize, StockId};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{Lay, Recipe};
use foldwright_engine::refit::{Cause, Free, Keep, Sheet, Wish};

use crate::spoken::speaker;

/// The sheets makers most often stand before, besides their own papers.
const OFFERED: [&str; 6] = [
    "na-letter",
    "iso-a4",
    "trade-12x12-in",
    "trade-8x8-in",
    "trade-6x6-in",
    "trade-300-mm",
];

/// The sheets to tap, with what they are called.
pub(crate) fn offered() -> impl Iterator<Item = (Size, &'static SheetSize)> {
    let known = SHEETS.iter().filter(|sheet| OFFERED.contains(&sheet.id));
    known.map(|sheet: &SheetSize| {
        let size = Size {
            width: sheet.width,
            height: sheet.height,
        };
        (size, sheet)
    })
}

/// The sheet that was tapped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Tapped {
    /// Another paper of the recipe.
    Own(StockId),
    /// The base's paper in another size.
    Size(Size),
}

/// What is asked for so far.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Asking {
    pub(crate) sheet: Option<Tapped>,
    /// How much of the sheet to use; as large a share as now, where nothing is
    /// said.
    pub(crate) keep: Option<Keep>,
    pub(crate) envelope: Option<&'static str>,
    pub(crate) finished: Option<Size>,
    pub(crate) unit: Option<Unit>,
    /// A finer step than usual for the unit.
    pub(crate) step: Option<Step>,
    /// How the strip is to lie on its sheet, whatever gives most.
    pub(crate) lay: Option<Lay>,
    /// What was let go of, in that order.
    pub(crate) freed: Vec<Free>,
}

impl Asking {
    /// Whether nothing is asked for.
    pub(crate) fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The wish, and the recipe with what was let go of.
    pub(crate) fn of(&self, recipe: &Recipe) -> (Recipe, Wish) {
        let mut wish = Wish {
            sheet: self.sheet(recipe),
            envelope: self.envelope.and_then(|id| {
                let rule = ClearanceRule::by_id(&recipe.posting.rule)?;
                Some((Envelope::by_id(id)?, rule))
            }),
            finished: self.finished,
            notation: self.notation(recipe),
            ..Wish::default()
        };
        let mut loosened = recipe.clone();
        loosened.lay = self.lay.or(recipe.lay);
        for freed in &self.freed {
            freed.apply(&mut loosened, &mut wish);
        }
        (loosened, wish)
    }

    /// Lets go of something. A part of the wish is taken back or changed where it
    /// was tapped; a paper is the base's.
    pub(crate) fn let_go(&mut self, free: Free) {
        match free {
            Free::Wish(Cause::Envelope) => self.envelope = None,
            Free::Wish(Cause::Finished) => self.finished = None,
            Free::Wish(Cause::Sheet) => self.sheet = None,
            Free::Wish(Cause::Kept) => self.keep = Some(Keep::Card),
            Free::Wish(_) => {}
            Free::Stock(_, size) => self.sheet = Some(Tapped::Size(size)),
            Free::Size(size) => self.finished = Some(size),
            Free::Marks(step) => self.step = Some(step),
            other => self.freed.push(other),
        }
    }

    fn sheet(&self, recipe: &Recipe) -> Option<Sheet> {
        let base = recipe.stock(recipe.base.stock)?;
        let now = Size {
            width: base.width,
            height: base.height,
        };
        let size = match self.sheet {
            Some(Tapped::Size(size)) => size,
            Some(Tapped::Own(id)) => {
                let own = recipe.stock(id)?;
                Size {
                    width: own.width,
                    height: own.height,
                }
            }
            None if self.keep.is_some() => now,
            None => return None,
        };
        Some(Sheet {
            stock: base.id,
            size,
            keep: self.keep.unwrap_or(Keep::Share),
        })
    }

    fn notation(&self, recipe: &Recipe) -> Option<Notation> {
        let step = self.step.or(self.unit.map(|unit| match unit {
            Unit::Inch => Step::Sixteenth,
            Unit::Millimetre => Step::Millimetre,
        }))?;
        Some(Notation {
            step,
            ..recipe.notation
        })
    }

    /// The refitted recipe as it is kept: its papers named after what they are
    /// now.
    pub(crate) fn kept(&self, before: &Recipe, refitted: &Recipe) -> Recipe {
        let mut kept = refitted.clone();
        match self.sheet {
            // The base is cut from the other paper, and no paper changed.
            Some(Tapped::Own(id)) => {
                kept.stocks.clone_from(&before.stocks);
                kept.base.stock = id;
            }
            Some(Tapped::Size(size)) => {
                let base = kept.base.stock;
                let old = before.stock(base).map(|stock| Size {
                    width: stock.width,
                    height: stock.height,
                });
                let say = speaker(before);
                let name = |size| say.sheet_in_names(size);
                if let Some(stock) = kept.stocks.iter_mut().find(|stock| stock.id == base) {
                    let new = name(size);
                    stock.name = match old.map(name).filter(|old| stock.name.contains(old)) {
                        Some(old) => stock.name.replace(&old, &new),
                        None => format!("{}, {new}", stock.name),
                    };
                }
            }
            None => {}
        }
        kept
    }
}
