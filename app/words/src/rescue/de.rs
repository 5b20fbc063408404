//! What can be saved of a card that came out different, in German.

use foldwright_engine::pattern::LineId;
use foldwright_engine::rescue::{
    About, Along, CannotBe, Does, Heading, Hurdle, Note, Paper, Part, Ready, Reason,
};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};
use crate::refit::de as refit;
use crate::told::sentence;

/// What is in hand: „den Kartenrohling“, „diese 2 Teile“.
#[gathered]
fn in_hand(names: &Names<'_>, part: Part, cards: u32) -> String {
    match cards {
        1 => nouns::part(names, part, Case::Accusative),
        cards => format!("diese {cards} Teile"),
    }
}

/// Nothing where there are none.
fn parts(names: &Names<'_>, parts: &[Part]) -> Option<String> {
    let called = parts.iter();
    let called = called.map(|it| nouns::part(names, *it, Case::Accusative));
    let called: Vec<_> = called.collect();
    (!called.is_empty()).then(|| nouns::list(&called))
}

/// A heading, without a full stop.
#[gathered]
pub(crate) fn heading(names: &Names<'_>, heading: &Heading) -> String {
    let cards = heading.cards;
    let these = in_hand(names, heading.part, cards);
    let (trimmed, recut) = (parts(names, &heading.trimmed), parts(names, &heading.recut));
    match (heading.does, trimmed, recut) {
        (Does::Nothing, ..) => format!("Behalte {these} unverändert"),
        (Does::Keep, None, None) => format!("Behalte {these}, ändere den Rest"),
        (Does::Keep, Some(trimmed), None) => format!("Behalte {these}, beschneide {trimmed}"),
        (Does::Keep, None, Some(recut)) => format!("Behalte {these}, schneide {recut} neu"),
        (Does::Keep, Some(trimmed), Some(recut)) => {
            format!("Behalte {these}, beschneide {trimmed}, schneide {recut} neu")
        }
        (Does::KeepAll, None, None) => format!("Mach alle {cards} Karten so"),
        (Does::KeepAll, Some(trimmed), None) => {
            format!("Mach alle {cards} Karten so, beschneide {trimmed}")
        }
        (Does::KeepAll, None, Some(recut)) => {
            format!("Mach alle {cards} Karten so, schneide {recut} neu")
        }
        (Does::KeepAll, Some(trimmed), Some(recut)) => {
            format!("Mach alle {cards} Karten so, beschneide {trimmed}, schneide {recut} neu")
        }
        (Does::Trim(to), None, None) => format!("Beschneide {these} auf {}", names.short_size(to)),
        (Does::Trim(to), Some(trimmed), None) => {
            format!(
                "Beschneide {these} auf {}, auch {trimmed}",
                names.short_size(to)
            )
        }
        (Does::Trim(to), None, Some(recut)) => format!(
            "Beschneide {these} auf {}, schneide {recut} neu",
            names.short_size(to)
        ),
        (Does::Trim(to), Some(trimmed), Some(recut)) => format!(
            "Beschneide {these} auf {}, auch {trimmed}, schneide {recut} neu",
            names.short_size(to)
        ),
        (Does::ScoreAgain, ..) => format!("Rille {these} noch einmal an der richtigen Stelle"),
        (Does::Recut, ..) => format!("Schneide {these} neu"),
    }
}

#[gathered]
pub(crate) fn note(names: &Names<'_>, note: &Note) -> String {
    let part = |of: &Part, case| nouns::part(names, *of, case);
    sentence(match note {
        Note::AsPlanned => "Die Karte bleibt wie geplant.".to_owned(),
        Note::NothingElse => "Sonst muss sich nichts ändern.".to_owned(),
        Note::CutDown {
            part: of,
            along,
            is,
        } => {
            let (part, is) = (part(of, Case::Nominative), names.short(*is));
            match along {
                Along::Length => format!("{part} kann nicht {is} lang bleiben."),
                Along::Width => format!("{part} kann nicht {is} breit bleiben."),
                Along::Height => format!("{part} kann nicht {is} hoch bleiben."),
            }
        }
        Note::GluedOn { part: of, to } => format!(
            "{} klebt auf {} und muss auch neu geschnitten werden.",
            part(of, Case::Nominative),
            part(to, Case::Dative)
        ),
        Note::TrimTo(of, to) => format!(
            "{} ist schon zugeschnitten. Beschneide {} auf {}; neues Papier brauchst du nicht.",
            part(of, Case::Nominative),
            part(of, Case::Accusative),
            names.short_size(*to)
        ),
        Note::CutAgain(of) => format!(
            "{} ist schon zugeschnitten und muss neu geschnitten werden.",
            part(of, Case::Nominative)
        ),
        Note::SecondLine => "Die falsche Rille bleibt sichtbar.".to_owned(),
        Note::Closed(size) => format!(
            "Die geschlossene Karte misst dann {}.",
            names.short_size(*size)
        ),
        Note::Goes(envelope, true) => format!(
            "Die Karte passt weiterhin in den Umschlag {}.",
            nouns::envelope(envelope)
        ),
        Note::Goes(envelope, false) => format!(
            "Die Karte passt nicht mehr in den Umschlag {}.",
            nouns::envelope(envelope)
        ),
        Note::NoLonger(condition) => refit::no_longer(names, condition),
        Note::Refit(outcome) => refit::told(names, outcome),
        Note::Apart {
            these: 1,
            others: 1,
        } => "Die andere Karte bleibt wie geplant; diese bekommt ein eigenes Rezept.".to_owned(),
        Note::Apart { others: 1, .. } => {
            "Die andere Karte bleibt wie geplant; diese bekommen ein eigenes Rezept.".to_owned()
        }
        Note::Apart { these: 1, others } => format!(
            "Die anderen {others} Karten bleiben wie geplant; diese bekommt ein eigenes Rezept."
        ),
        Note::Apart { others, .. } => format!(
            "Die anderen {others} Karten bleiben wie geplant; diese bekommen ein eigenes Rezept."
        ),
    })
}

#[gathered]
fn ready(names: &Names<'_>, ready: Ready) -> String {
    let part = nouns::part(names, ready.part, Case::Nominative);
    let size = names.short_size(ready.size);
    sentence(if ready.scored {
        format!("{part} ist schon zugeschnitten und gerillt, {size}.")
    } else {
        format!("{part} ist schon zugeschnitten, {size}.")
    })
}

#[gathered]
pub(crate) fn shape() -> String {
    "Was nach der Form eines anderen Teils geschnitten ist, muss passen.".to_owned()
}

#[gathered]
pub(crate) fn hurdles(names: &Names<'_>, hurdles: &[Hurdle]) -> String {
    if hurdles.is_empty() {
        return "Die gemessenen Längen passen nicht zusammen.".to_owned();
    }
    let hurdles = hurdles.iter();
    let hurdles = hurdles.map(|hurdle| match hurdle {
        Hurdle::Ready(of) => ready(names, *of),
        Hurdle::Border(id) => sentence(format!(
            "{} hat ringsum den gleichen Rand.",
            nouns::layer(names, *id)
        )),
        Hurdle::Holds(condition) => refit::condition(names, condition),
    });
    hurdles.collect::<Vec<_>>().join(" ")
}

#[gathered]
pub(crate) fn because(names: &Names<'_>, reason: &Reason) -> String {
    sentence(match reason {
        Reason::InHand(About::Cut(part)) => format!(
            "{} hat eine andere Größe als geplant.",
            nouns::part(names, *part, Case::Nominative)
        ),
        Reason::InHand(About::Scores(of, _)) => format!(
            "{} ist woanders gerillt als geplant.",
            nouns::strip(names, *of, Case::Nominative)
        ),
        Reason::InHand(About::Line(_, id)) => format!(
            "{} verläuft anders als geplant.",
            nouns::line(names, LineId::of_line(*id), Case::Nominative)
        ),
        Reason::InHand(About::Cutout(_, id)) => format!(
            "{} ist anders ausgeschnitten als geplant.",
            nouns::cutout(names, *id)
        ),
        Reason::Ready(of) => ready(names, *of),
        Reason::Holds(condition) => refit::condition(names, condition),
    })
}

#[gathered]
pub(crate) fn paper(names: &Names<'_>, paper: Option<&Paper>) -> String {
    let Some(paper) = paper else {
        return "Kein neues Papier.".to_owned();
    };
    let stock = nouns::stock(names, paper.stock);
    let part = nouns::part(names, paper.part, Case::Accusative);
    let pieces = match paper.pieces {
        1 => part,
        pieces => format!("{part}, {pieces} Stück"),
    };
    match (paper.more, paper.spare) {
        (None, _) => format!("Papier für {pieces}: Ein Bogen {stock} ist zu klein."),
        (Some(..=0), ..=0) => format!("Papier für {pieces}: Deine Bogen {stock} reichen."),
        (Some(..=0), 1) => {
            format!("Papier für {pieces}: Deine Bogen {stock} reichen, auch für 1 weiteres Teil.")
        }
        (Some(..=0), spare) => {
            format!(
                "Papier für {pieces}: Deine Bogen {stock} reichen, auch für {spare} weitere Teile."
            )
        }
        (Some(1), _) => format!("Papier für {pieces}: 1 Bogen {stock} mehr."),
        (Some(more), _) => format!("Papier für {pieces}: {more} Bogen {stock} mehr."),
    }
}

pub(crate) const fn cannot_be(cannot: CannotBe) -> &'static str {
    match cannot {
        CannotBe::NoStep => "Dieser Schritt ist nicht mehr im Rezept.",
        CannotBe::Nonsense => {
            "Diese Längen können nicht stimmen: Rillen liegen auf ihrem Teil, eine nach der anderen. \
             Miss noch einmal."
        }
    }
}
