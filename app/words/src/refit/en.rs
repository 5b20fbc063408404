//! What a refit comes to besides its lengths, and why there is none, in English.

use foldwright_engine::length::Length;
use foldwright_engine::recipe::MeasureId;
use foldwright_engine::refit::{
    Clash, Condition, Limits, Loss, Outcome, Reason, Release, standard_sheet,
};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::en as nouns;
use crate::told::sentence;

#[gathered]
pub(crate) fn told(names: &Names<'_>, outcome: &Outcome) -> String {
    match outcome {
        Outcome::FromDesign(size) => format!(
            "Worked out from the card as designed, {} closed, not from its last size.",
            names.short_size(*size)
        ),
        Outcome::OffMarks(off) => {
            let off = off.iter();
            let off = off.map(|(id, length)| {
                format!("{} {}", nouns::measure(names, *id), names.short(*length))
            });
            let off: Vec<_> = off.collect();
            format!(
                "Between the marks of your ruler, {} apart: {}.",
                names.length(names.step().length()),
                off.join(", ")
            )
        }
        Outcome::Goes {
            envelope,
            chosen: false,
        } => format!("The card goes into {}.", nouns::envelope(envelope)),
        Outcome::Goes {
            envelope,
            chosen: true,
        } => {
            format!(
                "The card goes into {}, the envelope you chose.",
                nouns::envelope(envelope)
            )
        }
        Outcome::GoesNot {
            envelope,
            chosen: true,
            closest: Some(closest),
        } => format!(
            "The card does not go into {}, the envelope you chose. The closest that takes it is {}.",
            nouns::envelope(envelope),
            nouns::envelope(closest)
        ),
        Outcome::GoesNot {
            envelope,
            chosen: true,
            closest: None,
        } => format!(
            "The card does not go into {}, the envelope you chose. No standard envelope takes it.",
            nouns::envelope(envelope)
        ),
        Outcome::GoesNot {
            envelope,
            chosen: false,
            closest: Some(closest),
        } => format!(
            "The card went into {}. Now the closest envelope that takes it is {}.",
            nouns::envelope(envelope),
            nouns::envelope(closest)
        ),
        Outcome::GoesNot {
            envelope,
            chosen: false,
            closest: None,
        } => format!(
            "The card went into {}. Now no standard envelope takes it.",
            nouns::envelope(envelope)
        ),
        Outcome::Room {
            from,
            to,
            to_mark: true,
        } => format!(
            "The room at the folds was {}. It becomes {}, the nearest mark.",
            names.length(*from),
            names.length(*to)
        ),
        Outcome::Room {
            from,
            to,
            to_mark: false,
        } => format!(
            "The room at the folds was {}. It becomes {}.",
            names.length(*from),
            names.length(*to)
        ),
        Outcome::Rule(rule) => {
            let rule = nouns::relation(names, rule);
            format!("In the new unit this rule takes a round length: {rule}.")
        }
        Outcome::Limits { of, limits } => {
            let all: Vec<_> = of.iter().map(|id| nouns::measure(names, *id)).collect();
            let are = if of.len() == 1 { "is" } else { "are" };
            let all = nouns::short_list(&all);
            match limits {
                Limits::AtLeast(least) => format!(
                    "In the new unit {all} {are} at least {}.",
                    names.length(*least)
                ),
                Limits::AtMost(most) => {
                    format!(
                        "In the new unit {all} {are} at most {}.",
                        names.length(*most)
                    )
                }
                Limits::Between(least, most) => format!(
                    "In the new unit {all} {are} at least {} and at most {}.",
                    names.length(*least),
                    names.length(*most)
                ),
            }
        }
        Outcome::GlueMargin(margin) => format!(
            "In the new unit glue stays {} from edges and creases.",
            names.length(*margin)
        ),
        Outcome::Lost(loss) => lost(names, *loss),
        Outcome::ShortWay { short, turned } => format!(
            "For upright print the card base runs the short way of the sheet, {}. With the print on \
             its side the closed card could measure {}.",
            names.length(*short),
            names.short_size(*turned)
        ),
        Outcome::CutShort => "There may be a nearer card; the search was cut short.".to_owned(),
    }
}

#[gathered]
fn lost(names: &Names<'_>, loss: Loss) -> String {
    match loss {
        Loss::Yield { from: 1, to: 0 } => "A sheet gave 1 card, and now gives none.".to_owned(),
        Loss::Yield { from, to: 0 } => format!("A sheet gave {from} cards, and now gives none."),
        Loss::Yield { from, to: 1 } => format!("A sheet gives 1 card; it gave {from}."),
        Loss::Yield { from, to } => format!("A sheet gives {to} cards; it gave {from}."),
        Loss::Grain => "The folds now run across the grain; score them well.".to_owned(),
        Loss::Print(face) => format!(
            "The print on {} is no longer upright.",
            nouns::face(names, face)
        ),
        Loss::Side => "The paper is turned over: its other side is now outside.".to_owned(),
    }
}

#[gathered]
pub(crate) fn clash(names: &Names<'_>, clash: &Clash) -> String {
    let step = names.division(names.step());
    match clash {
        Clash::Between { causes, marks, .. } => match (causes.len(), marks) {
            (1, false) => "This can't be.".to_owned(),
            (1, true) => format!("This can't be on marks {step} apart."),
            (_, false) => "These don't go together.".to_owned(),
            (_, true) => format!("These don't go together on marks {step} apart."),
        },
        Clash::NeverCloses => {
            "The card does not fold flat as it is, so it has no closed size. See under Problems \
             what keeps it from folding."
                .to_owned()
        }
        Clash::CutShort => "No card was found in good time. Pin or free a measurement, or remove \
                            a rule."
            .to_owned(),
        Clash::TooTangled => {
            "The rules of this recipe are too tangled to work out. Remove one.".to_owned()
        }
    }
}

/// What holds, within a sentence or a list: "the card goes into C6".
#[gathered]
fn holds(names: &Names<'_>, condition: &Condition) -> String {
    let measure = |id: &MeasureId| nouns::measure(names, *id);
    let length = |of: &Length| names.short(*of);
    match condition {
        Condition::Goes(envelope) => format!("the card goes into {}", nouns::envelope(envelope)),
        Condition::Closed(size) => format!("the closed card is {}", names.short_size(*size)),
        Condition::Sheet(size) => match standard_sheet(*size) {
            Some(sheet) => format!("the sheet is {}", nouns::sheet(sheet)),
            None => format!("the sheet is {}", names.short_size(*size)),
        },
        Condition::Share => "the card is the same share of the sheet".to_owned(),
        Condition::Count => "a sheet makes as many cards as now".to_owned(),
        Condition::Is(id, is) => format!("{} is {}", measure(id), length(is)),
        Condition::Pinned(id, at) => format!("{} is pinned at {}", measure(id), length(at)),
        Condition::AtLeast(id, least) => format!("{} is at least {}", measure(id), length(least)),
        Condition::AtMost(id, most) => format!("{} is at most {}", measure(id), length(most)),
        Condition::Rule(relation) => nouns::relation(names, relation),
        Condition::InPlace(of) => format!("{} keeps its place", nouns::shaped(names, *of)),
        Condition::Fits(stock) => {
            format!("what is cut from {} fits it", nouns::stock(names, *stock))
        }
        Condition::NotBelowZero(id) => format!("{} can't be below 0", measure(id)),
    }
}

#[gathered]
pub(crate) fn condition(names: &Names<'_>, condition: &Condition) -> String {
    sentence(format!("{}.", holds(names, condition)))
}

#[gathered]
pub(crate) fn no_longer(names: &Names<'_>, condition: &Condition) -> String {
    format!("This no longer holds: {}.", holds(names, condition))
}

#[gathered]
pub(crate) fn reason(names: &Names<'_>, reason: &Reason) -> String {
    match reason {
        Reason::Designed => "That is how it was designed.".to_owned(),
        Reason::Holds(it) => condition(names, it),
    }
}

/// The words of a button.
#[gathered]
pub(crate) fn release(names: &Names<'_>, release: &Release) -> String {
    let measure = |id: &MeasureId| nouns::measure(names, *id);
    match release {
        Release::Envelope => "Choose another envelope or clearance".to_owned(),
        Release::Finished => "Choose another finished size".to_owned(),
        Release::Sheet => "Choose another sheet".to_owned(),
        Release::Asked(id) => format!("Ask for another {}", measure(id)),
        Release::Without(it) => format!("Do without this: {}", holds(names, it)),
        Release::Unpin(id) => format!("Unpin {}", measure(id)),
        Release::Less(id) => format!("Let {} be less", measure(id)),
        Release::More(id) => format!("Let {} be more", measure(id)),
        Release::Rule(relation) => {
            format!("Let go of this rule: {}", nouns::relation(names, relation))
        }
        Release::Place(of) => format!("Place {} by its distances", nouns::shaped(names, *of)),
        Release::Paper {
            stock,
            least,
            sheet: Some(sheet),
        } if standard_sheet(*least) == Some(*sheet) => {
            format!(
                "Take {} for {}",
                nouns::sheet(sheet),
                nouns::stock(names, *stock)
            )
        }
        Release::Paper {
            stock,
            least,
            sheet: Some(sheet),
        } => format!(
            "Take a sheet of at least {} for {} ({} is large enough)",
            names.short_size(*least),
            nouns::stock(names, *stock),
            nouns::sheet(sheet)
        ),
        Release::Paper {
            stock,
            least,
            sheet: None,
        } => format!(
            "Take a sheet of at least {} for {}",
            names.short_size(*least),
            nouns::stock(names, *stock)
        ),
        Release::Size(size) => {
            format!(
                "Ask for {}, the nearest size that works",
                names.short_size(*size)
            )
        }
        Release::Marks(step) => format!("Use marks {} apart", names.division(*step)),
    }
}

#[gathered]
pub(crate) fn released(names: &Names<'_>, release: &Release) -> String {
    let measure = |id: &MeasureId| nouns::measure(names, *id);
    sentence(match release {
        Release::Envelope => "The envelope may be another one now.".to_owned(),
        Release::Finished => "The finished size may be another one now.".to_owned(),
        Release::Sheet => "The sheet may be another one now.".to_owned(),
        Release::Asked(id) => format!("{} may be another length now.", measure(id)),
        Release::Without(it) => format!("This need not hold any more: {}.", holds(names, it)),
        Release::Unpin(id) => format!("{} is no longer pinned.", measure(id)),
        Release::Less(id) => format!("{} may be less than its limit.", measure(id)),
        Release::More(id) => format!("{} may be more than its limit.", measure(id)),
        Release::Rule(relation) => format!(
            "This rule may give way: {}.",
            nouns::relation(names, relation)
        ),
        Release::Place(of) => format!("{} is placed by its distances.", nouns::shaped(names, *of)),
        Release::Paper { stock, .. } => {
            format!(
                "A larger sheet is taken for {}.",
                nouns::stock(names, *stock)
            )
        }
        Release::Size(size) => format!("The size asked for is {} now.", names.short_size(*size)),
        Release::Marks(step) => format!("The marks are {} apart now.", names.division(*step)),
    })
}
