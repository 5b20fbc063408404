//! Paper, print, marks, envelope and glued panels, in German.

use foldwright_engine::length::Length;
use foldwright_engine::paper::{Misfit, StockId};
use foldwright_engine::part::Part;
use foldwright_engine::plane::{Bearing, Size, Turn};
use foldwright_engine::problem::{FitFinding, JoinFinding};
use foldwright_engine::recipe::{Face, PanelId, PieceId, StripId};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};

#[gathered]
pub(crate) fn told(names: &Names<'_>, found: FitFinding) -> Told {
    match found {
        FitFinding::NoPaper(of) => Told::new(
            format!(
                "Für {} fehlt das Papier.",
                nouns::part(names, of, Case::Accusative)
            ),
            "Das gewählte Papier ist nicht mehr im Rezept.",
            format!(
                "Wähl ein Papier für {}.",
                nouns::part(names, of, Case::Accusative)
            ),
        ),
        FitFinding::TooLarge {
            of,
            size,
            stock,
            turned_fits,
        } => too_large(names, of, (size, stock), turned_fits),
        FitFinding::Moved(of) => Told::new(
            format!(
                "{} wird nicht dort geschnitten, wo du es wolltest.",
                nouns::part(names, of, Case::Nominative)
            ),
            "Diese Stelle liegt nicht mehr auf dem Bogen; genommen ist die nächste.",
            "Sieh dir an, was nun zu sehen ist, oder wähl eine andere Stelle.",
        ),
        FitFinding::AcrossGrain(of) => Told::new(
            match of {
                StripId::Base => "Die Falze laufen quer zur Laufrichtung des Papiers.".to_owned(),
                StripId::Piece(id) => format!(
                    "Die Falze von {} laufen quer zur Laufrichtung des Papiers.",
                    nouns::piece(names, id)
                ),
            },
            "Quer zur Laufrichtung gefalzter Karton kann brechen (Hinweise von Druckereien).",
            format!(
                "Leg {} andersherum, wenn Druck und Größe es erlauben; sonst rille sorgfältig.",
                nouns::strip(names, of, Case::Accusative)
            ),
        ),
        FitFinding::Slanted {
            face,
            turned,
            is_nearest,
        } => slanted(names, face, turned, is_nearest),
        FitFinding::NotBothUpright([a, b]) => Told::new(
            format!(
                "Nicht beide können aufrecht sein: {} und {}.",
                nouns::face(names, a, Case::Nominative),
                nouns::face(names, b, Case::Nominative)
            ),
            if a.side == b.side {
                "Beide liegen auf derselben Papierseite; das Falzen stellt eine auf den Kopf."
            } else {
                "Es sind beide Papierseiten; ein Druck stünde auf dem Kopf."
            },
            "Markiere nur, was wichtiger ist, oder deck das andere mit einer Auflage ab.",
        ),
        FitFinding::Thick(thickness) => Told::new(
            format!(
                "Die Karte ist an der dicksten Stelle {} dick.",
                names.tenths(thickness)
            ),
            "Für dicke Karten nehmen Druckereien größere Umschläge, ohne Maße zu nennen (ab 3 mm \
             üblich). Viele Postdienste nehmen Briefe bis 5 mm Dicke, die USA bis ¼\u{a0}in (laut \
             ihren Angaben).",
            "Probier erst eine Karte im Umschlag, und frag bei deiner Post nach.",
        ),
        FitFinding::UnknownRule => Told::new(
            "Die Umschlagzugabe des Rezepts ist unbekannt.",
            "Sie stammt vielleicht aus einem neueren Foldwright.",
            "Wähl eine Zugabe für den Umschlag.",
        ),
        FitFinding::UnknownEnvelope => Told::new(
            "Der gewählte Umschlag ist unbekannt.",
            "Er stammt vielleicht aus einem neueren Foldwright.",
            "Wähl einen Umschlag.",
        ),
        FitFinding::Tight(misfit) => Told::new(
            format!(
                "Mit deiner Zugabe passt die Karte nicht in den Umschlag {}.",
                nouns::envelope(misfit.envelope)
            ),
            lacking(names, misfit),
            "Wähl einen anderen Umschlag oder eine andere Zugabe, oder mach die Karte kleiner.",
        ),
        FitFinding::NoEnvelope(size) => Told::new(
            "Mit deiner Zugabe passt die Karte in keinen gängigen Umschlag.",
            format!("Die geschlossene Karte misst {}.", names.short_size(size)),
            "Wähl eine andere Zugabe, mach die Karte kleiner, oder mach selbst einen Umschlag.",
        ),
        FitFinding::BetweenMarks { at, .. } => Told::new(
            format!(
                "Die Rille bei {} liegt zwischen zwei Teilstrichen.",
                names.short(at)
            ),
            format!(
                "Dein Lineal hat Teilstriche alle {}.",
                names.length(names.step().length())
            ),
            "Setz die Rille nach Augenmaß neben den nächsten Strich, oder rück sie darauf.",
        ),
    }
}

/// What is too large for its paper.
#[gathered]
fn too_large(
    names: &Names<'_>,
    of: Part,
    (size, stock): (Size, StockId),
    turned_fits: bool,
) -> Told {
    let part = |case| nouns::part(names, of, case);
    let sheet = names
        .stock(stock)
        .map_or_else(Default::default, |(_, size)| size);
    Told::new(
        match of {
            Part::Layer(_) if !turned_fits => {
                format!("{} ist größer als das Papier.", part(Case::Nominative))
            }
            Part::Strip(_) | Part::Layer(_) => format!(
                "{} passt in der nötigen Lage nicht auf das Papier.",
                part(Case::Nominative)
            ),
        },
        format!(
            "{} misst {}. Ein Bogen {} misst {}.",
            part(Case::Nominative),
            names.short_size(size),
            nouns::stock(names, stock),
            names.short_size(sheet)
        ),
        if turned_fits {
            format!(
                "Dreh {}, wenn der Druck auf der Seite liegen darf, oder nimm größeres \
                         Papier.",
                part(Case::Accusative)
            )
        } else {
            format!(
                "Nimm größeres Papier, oder mach {} kleiner.",
                part(Case::Accusative)
            )
        },
    )
}

/// A print that does not stand upright.
#[gathered]
fn slanted(names: &Names<'_>, face: Face, turned: Bearing, is_nearest: bool) -> Told {
    let face = nouns::face(names, face, Case::Dative);
    Told::new(
        match turned.looks_like() {
            Some(Turn::None) => format!("Der Druck auf {face} steht fast aufrecht."),
            Some(Turn::Left) => {
                format!("Der Druck auf {face} liegt auf der Seite, oben ist links.")
            }
            Some(Turn::Half) => format!("Der Druck auf {face} steht auf dem Kopf."),
            Some(Turn::Right) => {
                format!("Der Druck auf {face} liegt auf der Seite, oben ist rechts.")
            }
            None => match names.slant(turned) {
                (off, true) => {
                    format!("Der Druck auf {face} ist um {off} nach links gedreht.")
                }
                (off, false) => {
                    format!("Der Druck auf {face} ist um {off} nach rechts gedreht.")
                }
            },
        },
        "Das Feld liegt schräg in der Karte, geschnitten wird aber gerade am Druck entlang.",
        if is_nearest {
            "Anders gelegt wird es nicht besser. Nimm einen Druck ohne Richtung oder deck ihn ab."
        } else {
            "Anders gelegt wäre es besser. Dagegen steht, was sonst aufrecht sein soll, oder \
             deine Wahl."
        },
    )
}

/// What an envelope lacks.
#[gathered]
pub(crate) fn lacking(names: &Names<'_>, misfit: Misfit) -> String {
    let name = nouns::envelope(misfit.envelope);
    let by = |length| names.length(length);
    match (misfit.lacking_length, misfit.lacking_height) {
        (length, Length::ZERO) => format!("{name} ist {} zu kurz für die Karte.", by(length)),
        (Length::ZERO, height) => format!("{name} ist {} zu niedrig für die Karte.", by(height)),
        (length, height) => format!(
            "{name} ist {} zu kurz und {} zu niedrig für die Karte.",
            by(length),
            by(height)
        ),
    }
}

#[gathered]
pub(crate) fn join(
    names: &Names<'_>,
    (piece, part): (PieceId, PanelId),
    on: Face,
    found: &JoinFinding,
) -> Told {
    let piece = nouns::piece(names, piece);
    let (part, panel) = (nouns::panel(names, part), nouns::panel(names, on.panel));
    match found {
        JoinFinding::TurnedOver => Told::new(
            format!("{part} von {piece} landet mit der falschen Seite auf {panel}."),
            "In der geschlossenen Karte zeigt die andere Seite zum Kleber.",
            "Kehr einen Falz um, oder stell die andere Seite als sichtbar ein.",
        ),
        JoinFinding::Misses(off) => Told::new(
            format!(
                "{part} von {piece} verfehlt die Stelle auf {panel} um {}.",
                names.length(*off)
            ),
            "An der anderen Stelle geklebt, landet es beim Schließen daneben.",
            "Versetz eine Stelle, mach es passend, oder kleb es, wo es landet.",
        ),
        JoinFinding::NoRoom { margin } => Told::new(
            format!("{part} von {piece} hat auf {panel} keine Klebefläche."),
            format!(
                "Kleber bleibt {} von jeder Kante weg; so bleibt nichts übrig.",
                names.length(*margin)
            ),
            format!("Versetz {piece}, oder mach {piece} größer."),
        ),
        JoinFinding::Past { edges, most } => Told::new(
            format!(
                "{part} von {piece} ragt über {panel} hinaus: {}.",
                nouns::far(names, edges, *most)
            ),
            format!(
                "Mit Blick auf {}. Kleber hielte dort fest, was daneben liegt.",
                nouns::face(names, on, Case::Accusative)
            ),
            format!("Gib Kleber nur dorthin, wo es auf {panel} liegt."),
        ),
    }
}
