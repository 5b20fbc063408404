//! Why a change to a recipe was not made, in English.

use foldwright_engine::length::Length;
use foldwright_engine::recipe::{Clash, EditError, MeasureId, Relation};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::en as nouns;
use crate::recipe::en::plural;
use crate::told::sentence;

#[gathered]
pub(crate) fn told(names: &Names<'_>, why: &EditError) -> String {
    match why {
        EditError::Clash(clash) => return self::clash(names, clash),
        EditError::TooMany(parts) => {
            let (most, many) = (parts.most(), plural(*parts));
            return format!(
                "A recipe has {most} {many} at most. Remove some, or make two recipes of it."
            );
        }
        EditError::NoMeasure => "That measurement is not in the recipe any more.",
        EditError::NoScore => "That score is not in the recipe any more.",
        EditError::NoPanel => "That panel is not in the recipe any more.",
        EditError::NoLine => "That crease or cut is not in the recipe any more.",
        EditError::OffPaper => "This end would lie beside the paper. Keep both ends on the paper.",
        EditError::NoLength => "This line would end where it begins. Move one of its ends away.",
        EditError::NoCutout => "That window or edge is not in the recipe any more.",
        EditError::NoLayer => "That layer is not in the recipe any more.",
        EditError::NoPiece => {
            "That pop-up or pocket, or the place it is glued to, is not in the recipe any more."
        }
        EditError::Upward => {
            "Glue a pop-up or pocket to the card base, or to one that comes before it in the list."
        }
        EditError::NoRelation => "That rule is not in the recipe any more.",
        EditError::Limits => "The least is more than the most. Change one of them.",
        EditError::LastPanel => "Every piece keeps at least one panel. Add another panel first.",
        EditError::NoRoom => {
            "No panel can be made shorter. Unpin a width, or choose a rule that asks for less."
        }
        EditError::NoFit => {
            "It can't be made to fit while the card keeps its measurements. Unpin its size or its \
             place, or change the rule that holds it."
        }
        EditError::Full => "There is no name left for another part. Remove one first.",
    }
    .to_owned()
}

#[gathered]
fn clash(names: &Names<'_>, clash: &Clash) -> String {
    let measure = |id: &MeasureId| sentence(nouns::measure(names, *id));
    match clash {
        Clash::Relations { relations, pinned } => {
            let rules = against(names, relations);
            if pinned.is_empty() {
                return format!("{rules} Set another length, or remove a rule.");
            }
            let pinned: Vec<_> = pinned.iter().map(|id| nouns::measure(names, *id)).collect();
            let pinned = nouns::list(&pinned);
            format!("{rules} Pinned: {pinned}. Unpin one, or set another length.")
        }
        Clash::NotPositive { measure: id, value } => format!(
            "{} would become {}. That leaves no paper. Set another length.",
            measure(id),
            names.length(*value)
        ),
        Clash::TooLong(id) => format!(
            "{} would become longer than {}. Set a shorter length.",
            measure(id),
            names.length(Length::LIMIT)
        ),
        Clash::TooTangled => {
            "The rules of this recipe are too tangled to work out. Remove one.".to_owned()
        }
    }
}

/// Each rule is a sentence of its own, since there may be many.
#[gathered]
fn against(names: &Names<'_>, relations: &[Relation]) -> String {
    let rule = |held: &Relation| nouns::relation(names, held);
    match relations {
        [] => "The measurements can't follow.".to_owned(),
        [only] => format!("This rule doesn't allow it: {}.", rule(only)),
        all => {
            let rules: Vec<_> = all
                .iter()
                .map(|held| format!("“{}”.", rule(held)))
                .collect();
            format!(
                "{} rules together don't allow it. {}",
                all.len(),
                rules.join(" ")
            )
        }
    }
}
