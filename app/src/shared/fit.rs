//! A shared card in the reader's unit, on the reader's paper.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::{Notation, Step};
use foldwright_engine::plane::Size;
use foldwright_engine::recipe::Recipe;
use foldwright_engine::refit::{Clash, Free, Outcome, Wish, losses, off_marks, refit, rounded};

use crate::calculator::asking::{Asking, Tapped};
use crate::part::Changed;
use crate::spoken::speaker;

/// What a reader asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Wanted {
    /// How the reader writes lengths.
    pub(crate) notation: Notation,
    /// Another sheet than the one it was shared for.
    pub(crate) sheet: Option<Size>,
}

/// A shared card, fitted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Fitted {
    /// The reader's version.
    pub(crate) recipe: Recipe,
    /// What the reader should know of it, in sentences.
    pub(crate) notes: Vec<String>,
}

/// Why a shared card could not be fitted.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Stuck {
    as_shared: Recipe,
    asking: Asking,
    /// The card with what was let go of.
    pub(crate) loosened: Recipe,
    /// What was asked for.
    pub(crate) wish: Wish,
    /// What stands in its way.
    pub(crate) clash: Clash,
}

impl Stuck {
    /// Fits it once more, the way out that is taken.
    pub(crate) fn without(mut self, frees: Vec<Free>) -> Result<Fitted, Box<Self>> {
        for free in frees {
            self.asking.let_go(free);
        }
        nearest(self.as_shared, self.asking)
    }
}

/// The nearest card to the shared one, or what stands in its way. Without
/// another unit or sheet it is the shared one.
pub(crate) fn fit(shared: &Recipe, wanted: Wanted) -> Result<Fitted, Box<Stuck>> {
    let mut as_shared = shared.clone();
    as_shared.notation.decimal = wanted.notation.decimal;
    let same_unit = wanted.notation.unit() == shared.notation.unit();
    let step = if same_unit {
        finer(shared.notation.step, wanted.notation.step)
    } else {
        wanted.notation.step
    };
    if same_unit && wanted.sheet.is_none() {
        as_shared.notation.step = step;
        return Ok(Fitted {
            recipe: as_shared,
            notes: Vec::new(),
        });
    }
    let asking = Asking {
        sheet: wanted.sheet.map(Tapped::Size),
        unit: Some(step.unit()),
        step: Some(step),
        ..Asking::default()
    };
    nearest(as_shared, asking)
}

fn nearest(as_shared: Recipe, asking: Asking) -> Result<Fitted, Box<Stuck>> {
    let (loosened, wish) = asking.of(&as_shared);
    let refit = match refit(&loosened, &wish) {
        Ok(refit) => refit,
        Err(clash) => {
            return Err(Box::new(Stuck {
                as_shared,
                asking,
                loosened,
                wish,
                clash,
            }));
        }
    };
    let [before, after] =
        [&as_shared, &refit.recipe].map(|recipe| work_out(recipe, &Tools::default()));
    // A relation that is given up is told with the others.
    let freed = asking.freed.iter();
    let freed = freed.filter(|free| !matches!(free, Free::Relation(_)));
    let freed = freed.filter_map(|free| free.release(&as_shared, &wish));
    let say = speaker(&refit.recipe);
    let mut notes: Vec<_> = freed.map(|it| say.released(&it)).collect();
    let no_longer = refit.no_longer(&loosened, &wish);
    notes.extend(no_longer.map(|it| say.no_longer(&it)));
    let lost = losses(&before, &after).into_iter().map(Outcome::Lost);
    let given = rounded(&loosened, &refit);
    let outcomes = off_marks(&refit).into_iter().chain(given).chain(lost);
    notes.extend(outcomes.map(|it| say.outcome(&it)));
    Ok(Fitted {
        recipe: asking.kept(&as_shared, &refit.recipe),
        notes,
    })
}

/// The shared card in the reader's unit, where it can be; otherwise as it was
/// shared, with the reader's decimal mark.
pub(crate) fn first(shared: &Recipe, notation: Notation) -> Recipe {
    let wanted = Wanted {
        notation,
        sheet: None,
    };
    fit(shared, wanted).map_or_else(
        |_| {
            let mut as_shared = shared.clone();
            as_shared.notation.decimal = notation.decimal;
            as_shared
        },
        |fitted| fitted.recipe,
    )
}

/// The same card with the notes and photographs the reader has put into a version of
/// it, those that the maker has not, and with the reader's log.
pub(crate) fn with_notes(mut recipe: Recipe, version: &Recipe, shared: &Recipe) -> Recipe {
    for (step, note) in &version.notes {
        if shared.notes.get(step) != Some(note) {
            recipe.notes.insert(step.clone(), note.clone());
        }
    }
    for (step, photo) in &version.photos {
        if shared.photos.get(step) != Some(photo) {
            recipe.photos.insert(step.clone(), *photo);
        }
    }
    recipe.runs.clone_from(&version.runs);
    recipe
}

/// The lengths in which a version differs from the card as it was shared.
pub(crate) fn differences(shared: &Recipe, version: &Recipe) -> Vec<Changed> {
    let [then, after] = [shared, version].map(|recipe| speaker(recipe).with_exact());
    let measures = shared.measures.iter();
    let changed = measures.filter_map(|measure| {
        let now = version.measure(measure.id)?;
        (now.value != measure.value).then(|| Changed {
            name: measure.name.clone(),
            from: then.short_length(measure.value),
            to: after.short_length(now.value),
            why: String::new(),
        })
    });
    changed.collect()
}

/// The sheet of the base.
pub(crate) fn sheet(recipe: &Recipe) -> Option<Size> {
    recipe.stock(recipe.base.stock).map(|stock| Size {
        width: stock.width,
        height: stock.height,
    })
}

fn finer(one: Step, other: Step) -> Step {
    if other.length() < one.length() {
        other
    } else {
        one
    }
}

#[cfg(test)]
mod tests {
    use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit};
    use foldwright_engine::plane::Size;
    use foldwright_engine::recipe::{Recipe, starters};
    use foldwright_engine::refit::{Free, Way};

    use super::{Wanted, differences, first, fit, sheet, with_notes};
    use crate::spoken::speaker;

    const METRIC: Notation = Notation {
        step: Step::Millimetre,
        decimal: DecimalMark::Comma,
    };

    fn letter() -> Recipe {
        let letter = starters().iter().find(|starter| starter.id == "letter");
        letter.expect("there is a letter fold").recipe.clone()
    }

    #[test]
    fn the_same_unit_changes_no_length() {
        let shared = letter();
        let wanted = Notation {
            step: Step::Eighth,
            decimal: DecimalMark::Comma,
        };
        let version = first(&shared, wanted);
        assert_eq!(version.measures, shared.measures);
        // Coarser marks than the card has would not tell its lengths.
        assert_eq!(version.notation.step, shared.notation.step);
        assert_eq!(version.notation.decimal, DecimalMark::Comma);
        assert!(differences(&shared, &version).is_empty());
    }

    /// A letter fold of A4 is 100, 100 and 97 mm (printers' folding guides).
    #[test]
    fn another_unit_and_sheet_give_the_nearest_card() {
        let shared = letter();
        let a4 = Size {
            width: Length::mm(210),
            height: Length::mm(297),
        };
        let wanted = Wanted {
            notation: METRIC,
            sheet: Some(a4),
        };
        let fitted = fit(&shared, wanted).expect("it fits").recipe;
        assert_eq!(fitted.notation, METRIC);
        assert_eq!(sheet(&fitted), Some(a4));
        let widths = fitted.base.panels.iter();
        let mut widths: Vec<_> = widths.map(|panel| fitted.value(panel.width)).collect();
        widths.sort_unstable();
        assert_eq!(widths, [97, 100, 100].map(Length::mm));
        assert!(!differences(&shared, &fitted).is_empty());
    }

    #[test]
    fn rules_that_become_round_in_the_readers_unit_are_told() {
        let book = starters().iter().find(|starter| starter.id == "book");
        let shared = book.expect("there is a book").recipe.clone();
        let wanted = Wanted {
            notation: METRIC,
            sheet: None,
        };
        let fitted = fit(&shared, wanted).expect("it fits");
        assert_eq!(fitted.recipe.glue_margin, Length::mm(3));
        let margin = fitted
            .notes
            .iter()
            .filter(|note| note.contains("3\u{a0}mm"));
        assert_eq!(margin.count(), 2, "{:?}", fitted.notes);
    }

    /// A card with both sides pinned does not come from a smaller sheet until
    /// both are let go.
    #[test]
    fn what_clashes_can_be_let_go_of() {
        let mut shared = letter();
        for side in [shared.base.length, shared.base.height] {
            shared.pin(side, true).expect("it is there");
        }
        let wanted = Wanted {
            notation: shared.notation,
            sheet: Some(Size {
                width: Length::inches(6),
                height: Length::inches(6),
            }),
        };
        let stuck = fit(&shared, wanted).expect_err("it is too large");
        let ways = stuck.clash.ways_out(&stuck.loosened, &stuck.wish);
        let sheet_kept = |way: &&Way| {
            let mut frees = way.frees.iter();
            frees.all(|free| matches!(free, Free::Unpin(_)))
        };
        let way = ways.iter().find(sheet_kept).expect("pins to let go of");
        let wish = stuck.wish.clone();
        let fitted = stuck.without(way.frees.clone());
        let fitted = fitted.expect("each way out leads to a card");
        assert_eq!(sheet(&fitted.recipe), wanted.sheet);
        let say = speaker(&fitted.recipe);
        for free in &way.frees {
            let release = free.release(&shared, &wish).expect("it is there");
            assert!(fitted.notes.contains(&say.released(&release)));
        }
        assert!(!differences(&shared, &fitted.recipe).is_empty());
    }

    #[test]
    fn every_starter_opens_in_either_unit() {
        for starter in starters() {
            for shared in [starter.recipe.clone(), starter.recipe_in(METRIC)] {
                let other = match shared.notation.unit() {
                    Unit::Inch => METRIC,
                    Unit::Millimetre => starter.recipe.notation,
                };
                let version = first(&shared, other);
                assert!(version.check().is_empty(), "{}", starter.id);
                assert_eq!(version.notation.unit(), other.unit(), "{}", starter.id);
            }
        }
    }

    #[test]
    fn what_the_reader_wrote_stays_and_what_the_maker_wrote_is_renewed() {
        let note = |recipe: &mut Recipe, step: &str, note: &str| {
            recipe.notes.insert(step.to_owned(), note.to_owned());
        };
        let mut shared = letter();
        note(&mut shared, "gather", "Grey card.");
        let mut version = shared.clone();
        note(&mut version, "fold", "Slowly.");
        let mut newer = shared.clone();
        note(&mut newer, "gather", "Green card.");
        let taken = with_notes(newer, &version, &shared);
        assert_eq!(taken.notes["gather"], "Green card.");
        assert_eq!(taken.notes["fold"], "Slowly.");
    }
}
