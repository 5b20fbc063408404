//! What a refit comes to besides its lengths, and why there is none, in German.

use foldwright_engine::length::Length;
use foldwright_engine::recipe::MeasureId;
use foldwright_engine::refit::{
    Clash, Condition, Limits, Loss, Outcome, Reason, Release, standard_sheet,
};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};
use crate::told::sentence;

#[gathered]
pub(crate) fn told(names: &Names<'_>, outcome: &Outcome) -> String {
    match outcome {
        Outcome::FromDesign(size) => format!(
            "Berechnet aus dem Entwurf, geschlossen {}, nicht aus der letzten Größe.",
            names.short_size(*size)
        ),
        Outcome::OffMarks(off) => {
            let off = off.iter();
            let off = off.map(|(id, length)| {
                format!("{} {}", nouns::measure(names, *id), names.short(*length))
            });
            let off: Vec<_> = off.collect();
            format!(
                "Zwischen den Teilstrichen deines Lineals, Abstand {}: {}.",
                names.length(names.step().length()),
                off.join(", ")
            )
        }
        Outcome::Goes {
            envelope,
            chosen: false,
        } => format!(
            "Die Karte passt in den Umschlag {}.",
            nouns::envelope(envelope)
        ),
        Outcome::Goes {
            envelope,
            chosen: true,
        } => format!(
            "Die Karte passt in den Umschlag {}, den du gewählt hast.",
            nouns::envelope(envelope)
        ),
        Outcome::GoesNot {
            envelope,
            chosen: true,
            closest: Some(closest),
        } => format!(
            "Die Karte passt nicht in den gewählten Umschlag {}. Am nächsten kommt {}.",
            nouns::envelope(envelope),
            nouns::envelope(closest)
        ),
        Outcome::GoesNot {
            envelope,
            chosen: true,
            closest: None,
        } => format!(
            "Die Karte passt nicht in den gewählten Umschlag {}. Kein gängiger Umschlag ist groß \
             genug.",
            nouns::envelope(envelope)
        ),
        Outcome::GoesNot {
            envelope,
            chosen: false,
            closest: Some(closest),
        } => format!(
            "Die Karte passte in den Umschlag {}. Jetzt passt sie am ehesten in {}.",
            nouns::envelope(envelope),
            nouns::envelope(closest)
        ),
        Outcome::GoesNot {
            envelope,
            chosen: false,
            closest: None,
        } => format!(
            "Die Karte passte in den Umschlag {}. Jetzt ist kein gängiger Umschlag groß genug.",
            nouns::envelope(envelope)
        ),
        Outcome::Room {
            from,
            to,
            to_mark: true,
        } => format!(
            "Der Platz an den Falzen war {}. Er wird {}, auf den nächsten Teilstrich.",
            names.length(*from),
            names.length(*to)
        ),
        Outcome::Room {
            from,
            to,
            to_mark: false,
        } => format!(
            "Der Platz an den Falzen war {}. Er wird {}.",
            names.length(*from),
            names.length(*to)
        ),
        Outcome::Rule(rule) => {
            let rule = nouns::relation(names, rule);
            format!("In der neuen Einheit bekommt diese Regel ein rundes Maß: {rule}.")
        }
        Outcome::Limits { of, limits } => {
            let all: Vec<_> = of.iter().map(|id| nouns::measure(names, *id)).collect();
            let are = if of.len() == 1 { "ist" } else { "sind" };
            let all = nouns::short_list(&all);
            match limits {
                Limits::AtLeast(least) => format!(
                    "In der neuen Einheit {are} {all} mindestens {}.",
                    names.length(*least)
                ),
                Limits::AtMost(most) => format!(
                    "In der neuen Einheit {are} {all} höchstens {}.",
                    names.length(*most)
                ),
                Limits::Between(least, most) => format!(
                    "In der neuen Einheit {are} {all} mindestens {} und höchstens {}.",
                    names.length(*least),
                    names.length(*most)
                ),
            }
        }
        Outcome::GlueMargin(margin) => format!(
            "In der neuen Einheit bleibt Kleber {} von Kanten und Falzen weg.",
            names.length(*margin)
        ),
        Outcome::Lost(loss) => lost(names, *loss),
        Outcome::ShortWay { short, turned } => format!(
            "Für aufrechten Druck läuft der Kartenrohling über die kurze Seite des Bogens, {}. \
             Mit Druck auf der Seite könnte die geschlossene Karte {} messen.",
            names.length(*short),
            names.short_size(*turned)
        ),
        Outcome::CutShort => {
            "Vielleicht gibt es eine Karte näher am Entwurf; die Suche wurde abgebrochen."
                .to_owned()
        }
    }
}

#[gathered]
fn lost(names: &Names<'_>, loss: Loss) -> String {
    match loss {
        Loss::Yield { from: 1, to: 0 } => {
            "Ein Bogen ergab 1 Karte und ergibt jetzt keine.".to_owned()
        }
        Loss::Yield { from, to: 0 } => {
            format!("Ein Bogen ergab {from} Karten und ergibt jetzt keine.")
        }
        Loss::Yield { from, to: 1 } => {
            format!("Ein Bogen ergibt 1 Karte; vorher waren es {from}.")
        }
        Loss::Yield { from, to } => {
            format!("Ein Bogen ergibt {to} Karten; vorher waren es {from}.")
        }
        Loss::Grain => {
            "Die Falze laufen jetzt quer zur Laufrichtung; rille sie sorgfältig.".to_owned()
        }
        Loss::Print(face) => format!(
            "Der Druck auf {} steht nicht mehr aufrecht.",
            nouns::face(names, face, Case::Dative)
        ),
        Loss::Side => "Das Papier ist gewendet: Jetzt ist die andere Seite außen.".to_owned(),
    }
}

#[gathered]
pub(crate) fn clash(names: &Names<'_>, clash: &Clash) -> String {
    let step = names.division(names.step());
    match clash {
        Clash::Between { causes, marks, .. } => match (causes.len(), marks) {
            (1, false) => "Das geht nicht.".to_owned(),
            (1, true) => format!("Das geht nicht auf Teilstrichen alle {step}."),
            (_, false) => "Das geht nicht zusammen.".to_owned(),
            (_, true) => {
                format!("Das geht nicht zusammen auf Teilstrichen alle {step}.")
            }
        },
        Clash::NeverCloses => {
            "So lässt sich die Karte nicht flach falten, hat also keine geschlossene Größe. Unter \
             Probleme steht, warum."
                .to_owned()
        }
        Clash::CutShort => {
            "Rechtzeitig fand sich keine Karte. Fixier ein Maß, lös eines, oder entferne eine \
             Regel."
                .to_owned()
        }
        Clash::TooTangled => {
            "Die Regeln dieses Rezepts sind zu verwickelt. Entferne eine.".to_owned()
        }
    }
}

/// What holds, as a sentence without its full stop.
#[gathered]
fn holds(names: &Names<'_>, condition: &Condition) -> String {
    let measure = |id: &MeasureId| nouns::measure(names, *id);
    let length = |of: &Length| names.short(*of);
    match condition {
        Condition::Goes(envelope) => {
            format!(
                "Die Karte passt in den Umschlag {}",
                nouns::envelope(envelope)
            )
        }
        Condition::Closed(size) => {
            format!("Die geschlossene Karte misst {}", names.short_size(*size))
        }
        Condition::Sheet(size) => match standard_sheet(*size) {
            Some(sheet) => format!("Der Bogen ist {}", nouns::sheet(sheet)),
            None => format!("Der Bogen misst {}", names.short_size(*size)),
        },
        Condition::Share => "Die Karte nimmt den gleichen Anteil des Bogens ein".to_owned(),
        Condition::Count => "Ein Bogen ergibt so viele Karten wie jetzt".to_owned(),
        Condition::Is(id, is) => format!("{} ist {}", measure(id), length(is)),
        Condition::Pinned(id, at) => {
            format!("{} ist auf {} fixiert", measure(id), length(at))
        }
        Condition::AtLeast(id, least) => {
            format!("{} ist mindestens {}", measure(id), length(least))
        }
        Condition::AtMost(id, most) => format!("{} ist höchstens {}", measure(id), length(most)),
        Condition::Rule(relation) => nouns::relation(names, relation),
        Condition::InPlace(of) => {
            format!("{} bleibt am gleichen Platz", nouns::shaped(names, *of))
        }
        Condition::Fits(stock) => format!(
            "Was aus {} geschnitten wird, passt darauf",
            nouns::stock(names, *stock)
        ),
        Condition::NotBelowZero(id) => format!("{} kann nicht unter 0 sein", measure(id)),
    }
}

#[gathered]
pub(crate) fn condition(names: &Names<'_>, condition: &Condition) -> String {
    sentence(format!("{}.", holds(names, condition)))
}

#[gathered]
pub(crate) fn no_longer(names: &Names<'_>, condition: &Condition) -> String {
    format!("Das gilt nicht mehr: {}.", holds(names, condition))
}

#[gathered]
pub(crate) fn reason(names: &Names<'_>, reason: &Reason) -> String {
    match reason {
        Reason::Designed => "So war es entworfen.".to_owned(),
        Reason::Holds(it) => condition(names, it),
    }
}

/// The words of a button.
#[gathered]
pub(crate) fn release(names: &Names<'_>, release: &Release) -> String {
    let measure = |id: &MeasureId| nouns::measure(names, *id);
    match release {
        Release::Envelope => "Wähl einen anderen Umschlag oder eine andere Zugabe".to_owned(),
        Release::Finished => "Wähl eine andere geschlossene Größe".to_owned(),
        Release::Sheet => "Wähl einen anderen Bogen".to_owned(),
        Release::Asked(id) => format!("Gib für {} eine andere Länge an", measure(id)),
        Release::Without(it) => format!("Verzichte darauf: {}", holds(names, it)),
        Release::Unpin(id) => format!("Lös die Fixierung von {}", measure(id)),
        Release::Less(id) => format!("Lass {} kleiner werden", measure(id)),
        Release::More(id) => format!("Lass {} größer werden", measure(id)),
        Release::Rule(relation) => {
            format!(
                "Verzichte auf diese Regel: {}",
                nouns::relation(names, relation)
            )
        }
        Release::Place(of) => format!("Platzier {} mit Abständen", nouns::shaped(names, *of)),
        Release::Paper {
            stock,
            least,
            sheet: Some(sheet),
        } if standard_sheet(*least) == Some(*sheet) => {
            format!(
                "Nimm {} für {}",
                nouns::sheet(sheet),
                nouns::stock(names, *stock)
            )
        }
        Release::Paper {
            stock,
            least,
            sheet: Some(sheet),
        } => format!(
            "Nimm für {} einen Bogen von mindestens {} ({} ist groß genug)",
            nouns::stock(names, *stock),
            names.short_size(*least),
            nouns::sheet(sheet)
        ),
        Release::Paper {
            stock,
            least,
            sheet: None,
        } => format!(
            "Nimm für {} einen Bogen von mindestens {}",
            nouns::stock(names, *stock),
            names.short_size(*least)
        ),
        Release::Size(size) => {
            format!(
                "Nimm {}, die nächste Größe, die geht",
                names.short_size(*size)
            )
        }
        Release::Marks(step) => {
            format!("Nimm Teilstriche alle {}", names.division(*step))
        }
    }
}

#[gathered]
pub(crate) fn released(names: &Names<'_>, release: &Release) -> String {
    let measure = |id: &MeasureId| nouns::measure(names, *id);
    sentence(match release {
        Release::Envelope => "Der Umschlag darf jetzt ein anderer sein.".to_owned(),
        Release::Finished => "Die geschlossene Größe darf jetzt eine andere sein.".to_owned(),
        Release::Sheet => "Der Bogen darf jetzt ein anderer sein.".to_owned(),
        Release::Asked(id) => format!("{} darf jetzt eine andere Länge haben.", measure(id)),
        Release::Without(it) => format!("Das muss nicht mehr gelten: {}.", holds(names, it)),
        Release::Unpin(id) => format!("{} ist nicht mehr fixiert.", measure(id)),
        Release::Less(id) => format!("{} darf kleiner sein als das Mindestmaß.", measure(id)),
        Release::More(id) => format!("{} darf größer sein als das Höchstmaß.", measure(id)),
        Release::Rule(relation) => format!(
            "Diese Regel darf nachgeben: {}.",
            nouns::relation(names, relation)
        ),
        Release::Place(of) => format!("{} ist mit Abständen platziert.", nouns::shaped(names, *of)),
        Release::Paper { stock, .. } => format!(
            "Für {} ist ein größerer Bogen gewählt.",
            nouns::stock(names, *stock)
        ),
        Release::Size(size) => {
            format!("Gewünscht ist jetzt die Größe {}.", names.short_size(*size))
        }
        Release::Marks(step) => {
            format!("Teilstriche sind jetzt alle {}.", names.division(*step))
        }
    })
}
