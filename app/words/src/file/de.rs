//! Faulty recipes and files, in German.

use foldwright_engine::recipe::{
    Detail, Fault, FileError, MOST_BENDS, MOST_COPIES, MOST_OF_A_KIND, MOST_TEXT, MOST_TIMES,
    MOST_TRACED, MOST_WAVES, Measured, Misread, Needed, Parts, Spot, VERSION, Written,
};
use foldwright_gathered::gathered;

use crate::Language;
use crate::names::Names;
use crate::nouns::de as nouns;
use crate::recipe::de::plural;
use crate::told::sentence;

#[gathered]
pub(super) fn fault(names: &Names<'_>, found: &Fault) -> String {
    let said = match found {
        Fault::NoPanel => {
            "Ein Kartenrohling, ein Pop-up oder eine Tasche hat kein Feld.".to_owned()
        }
        Fault::Folds { panels, folds } => {
            format!("Felder: {panels}, Falze: {folds}. Es muss ein Falz weniger sein als Felder.")
        }
        Fault::TooMany { parts, number } => format!(
            "Es hat {number} {}; höchstens {} sind möglich.",
            plural(*parts),
            parts.most()
        ),
        Fault::Twice(parts) => format!("Zwei {} haben dieselbe Nummer.", plural(*parts)),
        Fault::Name(parts) => format!("Die {} haben zu große Nummern.", plural(*parts)),
        Fault::Missing(needed) => missing(*needed).to_owned(),
        Fault::TooLong(what) => format!("Mehr als 10 m: {}.", measured(names, *what)),
        Fault::NotPositive(what) => {
            format!("Eine Größe über 0 fehlt: {}.", measured(names, *what))
        }
        Fault::Copies(copies) => {
            format!("Es ist für {copies} Karten; 1 bis {MOST_COPIES} sind möglich.")
        }
        Fault::Text(text) => match text {
            Written::Name => format!("Ein Name hat mehr als {MOST_TEXT} Zeichen."),
            Written::About => format!("Die Beschreibung hat mehr als {MOST_TEXT} Zeichen."),
            Written::Note => format!("Eine Notiz hat mehr als {MOST_TEXT} Zeichen."),
        },
        Fault::Limits(id) => format!(
            "Die untere Grenze von {} liegt über der oberen.",
            nouns::measure(names, *id)
        ),
        Fault::Times(times) => {
            format!("Eine Regel nimmt ein Maß {times} Mal; 1 bis {MOST_TIMES} Mal sind möglich.")
        }
        Fault::Outline => format!(
            "Ein Umriss hat eine Ecke jenseits der Kanten, über {MOST_BENDS} Ecken ({MOST_TRACED} \
             aus einer Zeichnung) oder über {MOST_WAVES} Wellen."
        ),
        Fault::Circle(id) => format!(
            "{} liegt auf einer Auflage, die wieder darauf liegt.",
            nouns::layer(names, *id)
        ),
        Fault::Supply => format!(
            "Von etwas außer Papier braucht es 1 bis {MOST_OF_A_KIND}, und 0 bis 10 m für einen Knoten."
        ),
    };
    sentence(said)
}

#[gathered]
fn missing(needed: Needed) -> &'static str {
    match needed {
        Needed::Measure => "Es braucht ein Maß, das darin fehlt.",
        Needed::Paper => "Es braucht ein Papier, das darin fehlt.",
        Needed::Panel => "Es braucht ein Feld, das darin fehlt.",
        Needed::Layer => "Es braucht eine Auflage, die darin fehlt.",
        Needed::PanelToGlue => "Ein Pop-up oder eine Tasche klebt auf einem Feld, das fehlt.",
        Needed::PanelToCut => "Ein Fenster oder eine Formkante gehört zu einem Feld, das fehlt.",
        Needed::FoldInRule => "Die Regel für eingeklappte Felder ist unbekannt.",
        Needed::ClearanceRule => "Die Zugabe für Umschläge ist unbekannt.",
        Needed::Envelope => "Der Umschlag ist unbekannt.",
    }
}

#[gathered]
fn measured(names: &Names<'_>, what: Measured) -> String {
    match what {
        Measured::Measure(id) => nouns::measure(names, id),
        Measured::Limit(id) => format!("die Grenze von {}", nouns::measure(names, id)),
        Measured::Designed(id) => format!("{} im Entwurf", nouns::measure(names, id)),
        Measured::GlueMargin => "der Kleberabstand des Rezepts".to_owned(),
        Measured::Plus => "die feste Länge einer Regel".to_owned(),
        Measured::GlueOf(id) => {
            format!("ein eigener Kleberabstand von {}", nouns::layer(names, id))
        }
        Measured::SheetWidth(id) => format!("die Breite von {}", nouns::stock(names, id)),
        Measured::SheetHeight(id) => format!("die Höhe von {}", nouns::stock(names, id)),
        Measured::Caliper(id) => format!("die Dicke von {}", nouns::stock(names, id)),
    }
}

#[gathered]
pub(super) fn file_error(error: &FileError) -> String {
    match error {
        FileError::NotJson { line } => format!(
            "Diese Datei ist nicht lesbar: ab Zeile {line} ergibt sie keinen Sinn. Vielleicht ist \
             sie unvollständig; lade oder speichere sie noch einmal."
        ),
        FileError::NotOurs => {
            "Das ist keine Datei mit Rezepten. Wähle eine, die aus Foldwright gespeichert wurde."
                .to_owned()
        }
        FileError::Newer { version } => format!(
            "Diese Datei hat Version {version}; dieses Foldwright liest bis {VERSION}. Bring \
             Foldwright auf den neuesten Stand, und öffne sie noch einmal."
        ),
        FileError::Misshapen {
            recipe,
            name,
            at,
            detail,
        } => {
            let what = match detail {
                Some(what) => format!("{}: {}", spot(*at), said(*what)),
                None => spot(*at),
            };
            format!(
                "{} ist nicht lesbar. Etwas fehlt oder ist Foldwright unbekannt ({what}). Speichere \
                 es dort noch einmal, wo es herkommt.",
                called(*recipe, name)
            )
        }
        FileError::Faulty { recipe, of } => format!(
            "{} geht in sich nicht auf. {} Speichere es dort noch einmal, wo es herkommt.",
            called(*recipe, &of.recipe.name),
            faults(of)
        ),
        FileError::TooLarge { recipe, of } => format!(
            "{} ist zu groß. {} Verkleinere es dort, wo es herkommt, oder mach zwei Rezepte daraus.",
            called(*recipe, &of.recipe.name),
            faults(of)
        ),
    }
}

#[gathered]
fn called(number: usize, name: &str) -> String {
    match name.trim() {
        "" => format!("Rezept {number} dieser Datei"),
        name => format!("Rezept {number} dieser Datei, „{name}“,"),
    }
}

fn faults(of: &Misread) -> String {
    let names = Names::of(Language::German, &of.recipe);
    let told: Vec<_> = of.faults.iter().map(|it| fault(&names, it)).collect();
    told.join(" ")
}

#[gathered]
fn spot(at: Spot) -> String {
    match at {
        Spot::Of(Parts::Measures, Some(number)) => format!("Maß {number}"),
        Spot::Of(Parts::Relations, Some(number)) => format!("Regel {number}"),
        Spot::Of(Parts::Papers, Some(number)) => format!("Papier {number}"),
        Spot::Of(Parts::Layers, Some(number)) => format!("Auflage {number}"),
        Spot::Of(Parts::Supplies, Some(number)) => format!("Zutat {number}"),
        Spot::Of(Parts::Pieces, Some(number)) => format!("Pop-up oder Tasche {number}"),
        Spot::Of(Parts::Panels, Some(number)) => format!("Feld {number}"),
        Spot::Of(Parts::Lines, Some(number)) => format!("Falz oder Schnitt {number}"),
        Spot::Of(Parts::Cutouts, Some(number)) => format!("Fenster oder Kante {number}"),
        Spot::Of(Parts::Answers, Some(number)) => {
            format!("Antwort {number} dazu, was obenauf liegt")
        }
        Spot::Of(parts, _) => plural(parts).to_owned(),
        Spot::Base => "Kartenrohling".to_owned(),
        Spot::Posting => "Umschlag".to_owned(),
        Spot::FoldingIn => "Falze".to_owned(),
        Spot::Copies => "Zahl der Karten".to_owned(),
        Spot::Whole => "das Rezept als Ganzes".to_owned(),
    }
}

/// What of a part.
#[gathered]
fn said(detail: Detail) -> &'static str {
    match detail {
        Detail::Number => "Nummer",
        Detail::Name => "Name",
        Detail::Description => "Beschreibung",
        Detail::Length => "Länge",
        Detail::Limits => "kleinste oder größte Länge",
        Detail::Pin => "Festhalten",
        Detail::Designed => "entworfene Länge",
        Detail::Terms => "Liste der Maße",
        Detail::Comparison => "Vergleich",
        Detail::Fixed => "feste Länge",
        Detail::Holds => "ob sie gelten muss",
        Detail::Width => "Breite",
        Detail::Height => "Höhe",
        Detail::Weight => "Gewicht",
        Detail::Thickness => "Dicke",
        Detail::Look => "Aussehen einer Seite",
        Detail::Grain => "Laufrichtung",
        Detail::Paper => "Papier",
        Detail::Side => "sichtbare Seite",
        Detail::Seat => "was darunter liegt",
        Detail::Place => "Lage",
        Detail::Outline => "Umriss",
        Detail::Glue => "Kleben",
        Detail::Kind => "Art",
        Detail::Ends => "Lage eines Endes",
        Detail::Panels => "Liste der Felder",
        Detail::Lines => "Liste der Falze und Schnitte",
        Detail::Cutouts => "Liste der Fenster und Kanten",
        Detail::Folds => "Liste der Falze",
        Detail::Rests => "Feld, das auf dem Tisch liegt",
        Detail::Opens => "wie die Karte aufgeht",
        Detail::Rule => "Regel",
        Detail::Envelope => "Name des Umschlags",
        Detail::Allowance => "Zugabe für eingeschlagene Felder",
        Detail::Units => "Längeneinheit",
        Detail::Scoring => "Art zu rillen",
        Detail::Lay => "wie das Papier liegt",
    }
}
