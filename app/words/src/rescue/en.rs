//! What can be saved of a card that came out different, in English.

use foldwright_engine::pattern::LineId;
use foldwright_engine::rescue::{
    About, Along, CannotBe, Does, Heading, Hurdle, Note, Paper, Part, Ready, Reason,
};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::en as nouns;
use crate::refit::en as refit;
use crate::told::sentence;

/// What is in hand: "the mat", "these 2 pieces".
#[gathered]
fn in_hand(names: &Names<'_>, part: Part, cards: u32) -> String {
    match cards {
        1 => nouns::part(names, part),
        cards => format!("these {cards} pieces"),
    }
}

/// "The mat and the band"; nothing where there are none.
fn parts(names: &Names<'_>, parts: &[Part]) -> Option<String> {
    let called: Vec<_> = parts.iter().map(|it| nouns::part(names, *it)).collect();
    (!called.is_empty()).then(|| nouns::list(&called))
}

/// A heading, without a full stop.
#[gathered]
pub(crate) fn heading(names: &Names<'_>, heading: &Heading) -> String {
    let cards = heading.cards;
    let these = in_hand(names, heading.part, cards);
    let (trimmed, recut) = (parts(names, &heading.trimmed), parts(names, &heading.recut));
    match (heading.does, trimmed, recut) {
        (Does::Nothing, ..) if cards == 1 => format!("Keep {these} as it is"),
        (Does::Nothing, ..) => format!("Keep {these} as they are"),
        (Does::Keep, None, None) => format!("Keep {these}, change the rest"),
        (Does::Keep, Some(trimmed), None) => format!("Keep {these}, trim {trimmed}"),
        (Does::Keep, None, Some(recut)) => format!("Keep {these}, cut {recut} again"),
        (Does::Keep, Some(trimmed), Some(recut)) => {
            format!("Keep {these}, trim {trimmed}, cut {recut} again")
        }
        (Does::KeepAll, None, None) => format!("Make all {cards} cards like this"),
        (Does::KeepAll, Some(trimmed), None) => {
            format!("Make all {cards} cards like this, trim {trimmed}")
        }
        (Does::KeepAll, None, Some(recut)) => {
            format!("Make all {cards} cards like this, cut {recut} again")
        }
        (Does::KeepAll, Some(trimmed), Some(recut)) => {
            format!("Make all {cards} cards like this, trim {trimmed}, cut {recut} again")
        }
        (Does::Trim(to), None, None) => format!("Trim {these} to {}", names.short_size(to)),
        (Does::Trim(to), Some(trimmed), None) => {
            format!(
                "Trim {these} to {}, trim {trimmed} too",
                names.short_size(to)
            )
        }
        (Does::Trim(to), None, Some(recut)) => {
            format!(
                "Trim {these} to {}, cut {recut} again",
                names.short_size(to)
            )
        }
        (Does::Trim(to), Some(trimmed), Some(recut)) => format!(
            "Trim {these} to {}, trim {trimmed} too, cut {recut} again",
            names.short_size(to)
        ),
        (Does::ScoreAgain, ..) => format!("Score {these} again in the right place"),
        (Does::Recut, ..) => format!("Cut {these} again"),
    }
}

#[gathered]
pub(crate) fn note(names: &Names<'_>, note: &Note) -> String {
    sentence(match note {
        Note::AsPlanned => "The card stays as planned.".to_owned(),
        Note::NothingElse => "Nothing else has to change.".to_owned(),
        Note::CutDown { part, along, is } => {
            let (part, is) = (nouns::part(names, *part), names.short(*is));
            match along {
                Along::Length => format!("The length of {part} can't stay {is}."),
                Along::Width => format!("The width of {part} can't stay {is}."),
                Along::Height => format!("The height of {part} can't stay {is}."),
            }
        }
        Note::GluedOn { part, to } => format!(
            "{} is glued to {} and has to be cut again too.",
            nouns::part(names, *part),
            nouns::part(names, *to)
        ),
        Note::TrimTo(part, to) => format!(
            "{} is cut already: trim it to {}. It needs no new paper.",
            nouns::part(names, *part),
            names.short_size(*to)
        ),
        Note::CutAgain(part) => format!(
            "{} is cut already and has to be cut again.",
            nouns::part(names, *part)
        ),
        Note::SecondLine => "The wrong score stays visible on the paper.".to_owned(),
        Note::Closed(size) => format!("The closed card becomes {}.", names.short_size(*size)),
        Note::Goes(envelope, true) => {
            format!("The card still goes into {}.", nouns::envelope(envelope))
        }
        Note::Goes(envelope, false) => format!(
            "The card no longer goes into {}.",
            nouns::envelope(envelope)
        ),
        Note::NoLonger(condition) => refit::no_longer(names, condition),
        Note::Refit(outcome) => refit::told(names, outcome),
        Note::Apart {
            these: 1,
            others: 1,
        } => "The other card stays as planned; this one goes on as a recipe of its own.".to_owned(),
        Note::Apart { others: 1, .. } => {
            "The other card stays as planned; these go on as a recipe of their own.".to_owned()
        }
        Note::Apart { these: 1, others } => format!(
            "The other {others} cards stay as planned; this one goes on as a recipe of its own."
        ),
        Note::Apart { others, .. } => format!(
            "The other {others} cards stay as planned; these go on as a recipe of their own."
        ),
    })
}

#[gathered]
fn ready(names: &Names<'_>, ready: Ready) -> String {
    let (part, size) = (nouns::part(names, ready.part), names.short_size(ready.size));
    sentence(if ready.scored {
        format!("{part} is cut and scored already, {size}.")
    } else {
        format!("{part} is cut already, {size}.")
    })
}

#[gathered]
pub(crate) fn shape() -> String {
    "What is cut to the shape of another piece has to fit it.".to_owned()
}

#[gathered]
pub(crate) fn hurdles(names: &Names<'_>, hurdles: &[Hurdle]) -> String {
    if hurdles.is_empty() {
        return "The lengths you measured don't go together.".to_owned();
    }
    let hurdles = hurdles.iter();
    let hurdles = hurdles.map(|hurdle| match hurdle {
        Hurdle::Ready(of) => ready(names, *of),
        Hurdle::Border(id) => sentence(format!("{} has an even border.", nouns::layer(names, *id))),
        Hurdle::Holds(condition) => refit::condition(names, condition),
    });
    hurdles.collect::<Vec<_>>().join(" ")
}

#[gathered]
pub(crate) fn because(names: &Names<'_>, reason: &Reason) -> String {
    sentence(match reason {
        Reason::InHand(About::Cut(part)) => format!(
            "{} came out in another size than planned.",
            nouns::part(names, *part)
        ),
        Reason::InHand(About::Scores(of, _)) => format!(
            "{} is scored elsewhere than planned.",
            nouns::strip(names, *of)
        ),
        Reason::InHand(About::Line(_, id)) => {
            let line = nouns::line(names, LineId::of_line(*id));
            format!("{line} runs elsewhere than planned.")
        }
        Reason::InHand(About::Cutout(_, id)) => {
            format!("{} is not cut out as planned.", nouns::cutout(names, *id))
        }
        Reason::Ready(of) => ready(names, *of),
        Reason::Holds(condition) => refit::condition(names, condition),
    })
}

#[gathered]
pub(crate) fn paper(names: &Names<'_>, paper: Option<&Paper>) -> String {
    let Some(paper) = paper else {
        return "No new paper.".to_owned();
    };
    let stock = nouns::stock(names, paper.stock);
    let part = nouns::part(names, paper.part);
    let pieces = match paper.pieces {
        1 => part,
        pieces => format!("{part}, {pieces} pieces"),
    };
    match (paper.more, paper.spare) {
        (None, _) => format!("Paper for {pieces}: a sheet of {stock} is too small."),
        (Some(..=0), ..=0) => format!("Paper for {pieces}: your sheets of {stock} are enough."),
        (Some(..=0), spare) => {
            format!("Paper for {pieces}: your sheets of {stock} are enough, with {spare} to spare.")
        }
        (Some(1), _) => format!("Paper for {pieces}: 1 more sheet of {stock}."),
        (Some(more), _) => format!("Paper for {pieces}: {more} more sheets of {stock}."),
    }
}

pub(crate) const fn cannot_be(cannot: CannotBe) -> &'static str {
    match cannot {
        CannotBe::NoStep => "This step is no longer part of the recipe.",
        CannotBe::Nonsense => {
            "These lengths can't be right: scores lie on their piece, one after another. Measure \
             again."
        }
    }
}
