//! Classes and post, in German.

use foldwright_engine::envelope::EnvelopeName;
use foldwright_engine::paper::{Country, Doubt, LetterClass, Mail, Past};
use foldwright_gathered::gathered;

use super::{OfClass, area, limit};
use crate::names::Names;

#[gathered]
pub(crate) fn told(names: &Names<'_>, of: OfClass<'_>) -> String {
    match of {
        OfClass::OnHand { sheets, short: 0 } => format!("{sheets} vorhanden"),
        OfClass::OnHand { sheets, short } => format!("{sheets} vorhanden, {short} zu wenig"),
        OfClass::InStock {
            on_hand,
            short: None,
        } => format!("{on_hand} vorhanden"),
        OfClass::InStock {
            on_hand,
            short: Some(short),
        } => format!("{on_hand} vorhanden, {short} zu wenig"),
        OfClass::Used { name, all, on_hand } => format!("{all} {name}: {on_hand} vorhanden"),
        OfClass::Scraps {
            count,
            paper,
            size,
            are_used,
        } => match (count, are_used) {
            (1, true) => format!("1 Reststück {paper}, {size}, verbraucht"),
            (count, true) => format!("{count} Reststücke {paper}, {size}, verbraucht"),
            (1, false) => format!("1 Reststück {paper}, {size}, zum Aufheben"),
            (count, false) => format!("{count} Reststücke {paper}, {size}, zum Aufheben"),
        },
        OfClass::Besides(1) => "und 1 Reststück".to_owned(),
        OfClass::Besides(count) => format!("und {count} Reststücke"),
        OfClass::Fewer(size) => format!("Ein Reststück von {size} weniger"),
        OfClass::More(size) => format!("Ein Reststück von {size} mehr"),
        OfClass::OneTo(most) => format!("Gib eine ganze Zahl von 1 bis {most} ein."),
        OfClass::UpTo(most) => format!("Gib eine Zahl über 0 und bis {most} ein."),
        OfClass::LargestOnly(most) => {
            format!("Geplant wird mit den {most} größten Reststücken; kleinere bleiben liegen.")
        }
        OfClass::Planned {
            sheets,
            cuts,
            settings,
        } => format!(
            "Neue Bogen: {sheets}. Schnitte: {cuts}. Einstellungen des Anschlags: {settings}."
        ),
        OfClass::AtLeast(sheets) => {
            format!("Bewiesen ist, dass mindestens {sheets} neue Bogen nötig sind.")
        }
        OfClass::Adhesive { each, cards } => {
            let one = area(names, each);
            match cards {
                1 => format!("Kleber bedeckt hinter den Auflagen etwa {one}."),
                cards => {
                    let all = area(names, each * i128::from(cards));
                    format!(
                        "Kleber bedeckt hinter den Auflagen einer Karte etwa {one}, zusammen {all}."
                    )
                }
            }
        }
        OfClass::GlueRun { each, cards: 1 } => format!(
            "Einmal an dessen Rand entlang ist ein Klebeband oder eine Kleberspur etwa {} lang.",
            names.short(each)
        ),
        OfClass::GlueRun { each, cards } => format!(
            "Einmal an dessen Rand entlang ist ein Klebeband oder eine Kleberspur etwa {} lang, \
             zusammen {}.",
            names.short(each),
            names.short(each * i64::from(cards))
        ),
        OfClass::EachAndAll { each, all } => format!("{each} je Karte, zusammen {all}"),
        OfClass::Costs(amount) => format!("kostet {amount}"),
        OfClass::AllCosts {
            all,
            each,
            with_supplies: false,
        } => format!("Das Papier kostet zusammen {all}, je Karte {each}."),
        OfClass::AllCosts { all, each, .. } => {
            format!("Papier und alles andere kosten zusammen {all}, je Karte {each}.")
        }
        OfClass::ToBuy {
            packs,
            are_rolls,
            costs,
        } => match (are_rolls, costs) {
            (false, None) => format!("Packungen zu kaufen: {packs}"),
            (false, Some(costs)) => format!("Packungen zu kaufen: {packs} für {costs}"),
            (true, None) => format!("Rollen zu kaufen: {packs}"),
            (true, Some(costs)) => format!("Rollen zu kaufen: {packs} für {costs}"),
        },
        OfClass::BuyAll(costs) => {
            format!("Was zu kaufen ist, kostet {costs}, soweit sein Preis bekannt ist.")
        }
        OfClass::Weighs {
            envelope,
            is_made,
            mail,
            cards,
        } => weighs(names, (envelope, is_made), mail, cards),
        OfClass::Country(country) => match country {
            Country::UnitedStates => "Vereinigte Staaten",
            Country::Canada => "Kanada",
            Country::UnitedKingdom => "Vereinigtes Königreich",
            Country::Germany => "Deutschland",
            Country::Australia => "Australien",
        }
        .to_owned(),
        OfClass::Letter(class) => letter(class).to_owned(),
        OfClass::Past(country, past) => self::past(names, country, past),
        OfClass::Doubt(country, doubt) => self::doubt(country, doubt).to_owned(),
        OfClass::Varies(by) => format!(
            "Abseits der Kanten schwankt die Dicke des Papiers der geschlossenen Karte um etwa {}.",
            names.tenths(by)
        ),
        OfClass::MadeOf(paper) => format!("Gemacht aus {paper}"),
        OfClass::Source(country) => source(country).to_owned(),
        OfClass::Envelope(EnvelopeName::Recipe(card)) => format!("Umschlag für „{card}“"),
        OfClass::Envelope(of) => envelope(of).to_owned(),
    }
}

/// What of an envelope is called so whatever its card is called.
#[gathered]
fn envelope(of: EnvelopeName<'_>) -> &'static str {
    match of {
        EnvelopeName::Recipe(_) => "Umschlag",
        EnvelopeName::About => {
            "Falz die Seitenklappen nach innen, darüber die untere Klappe, und kleb sie an \
             ihnen fest. Die obere schließt ihn."
        }
        EnvelopeName::Glue => {
            "Streich Kleber an beide Enden der unteren Klappe, nicht breiter als die Naht. \
             Falz sie hoch und drück sie auf die Seitenklappen. Innen darf nichts kleben."
        }
        EnvelopeName::LeftFlap => "linke Klappe",
        EnvelopeName::AddressSide => "Anschriftseite",
        EnvelopeName::RightFlap => "rechte Klappe",
        EnvelopeName::LowerFold => "Falz der unteren Klappe",
        EnvelopeName::UpperFold => "Falz der oberen Klappe",
        EnvelopeName::CardLength => "lange Seite Karte",
        EnvelopeName::CardHeight => "kurze Seite Karte",
        EnvelopeName::RoomLong => "Zugabe lange Seite",
        EnvelopeName::RoomHigh => "Zugabe kurze Seite",
        EnvelopeName::Seam => "Breite Naht",
        EnvelopeName::Slant => "Schräge der Klappen",
        EnvelopeName::Height => "Höhe Umschlag",
        EnvelopeName::LowerFlap => "Höhe untere Klappe",
        EnvelopeName::UpperFlap => "Höhe obere Klappe",
        EnvelopeName::FlatWidth => "Breite Zuschnitt",
        EnvelopeName::FlatHeight => "Höhe Zuschnitt",
        EnvelopeName::Edge => "linke und untere Kante",
        EnvelopeName::RightFold => "rechter Falz von links",
        EnvelopeName::UpperFoldAt => "oberer Falz von unten",
    }
}

#[gathered]
fn weighs(names: &Names<'_>, (envelope, is_made): (&str, bool), mail: Mail, cards: u32) -> String {
    let (one, thick) = (names.grams(mail.mass), names.tenths(mail.thickness));
    match (cards, is_made) {
        (1, false) => {
            format!("In {envelope} wiegt die Karte etwa {one} und ist etwa {thick} dick.")
        }
        (cards, false) => format!(
            "In {envelope} wiegt eine Karte etwa {one} und ist etwa {thick} dick. Alle {cards} \
             wiegen etwa {}.",
            names.grams(mail.mass.times(cards))
        ),
        (1, true) => format!(
            "In einem Umschlag, der dafür aus {envelope} gemacht ist, wiegt die Karte etwa {one} \
             und ist etwa {thick} dick."
        ),
        (cards, true) => format!(
            "In einem Umschlag, der dafür aus {envelope} gemacht ist, wiegt eine Karte etwa {one} \
             und ist etwa {thick} dick. Alle {cards} wiegen etwa {}.",
            names.grams(mail.mass.times(cards))
        ),
    }
}

#[gathered]
fn doubt(country: Country, doubt: Doubt) -> &'static str {
    match (country, doubt) {
        (Country::Australia, Doubt::Stiff) => "Briefe biegen sich: Ein steifer geht als Paket.",
        (_, Doubt::Stiff) => {
            "Was sich nicht leicht um eine Trommel von 11 in biegt, wird von Hand sortiert und kostet mehr."
        }
        (_, Doubt::Lumps) => {
            "Inhalt, der ihn uneben macht, etwa Münzen oder Schlüssel, oder lose darin liegt, kostet mehr."
        }
        (_, Doubt::Closures) => "Klammern, Schnüre und Knöpfe, die ihn schließen, kosten mehr.",
    }
}

#[gathered]
fn letter(class: Option<LetterClass>) -> &'static str {
    match class {
        Some(LetterClass::UsLetter) => "Brief (letter)",
        Some(LetterClass::UsByHand) => "von Hand sortierter Brief (nonmachinable), teurer",
        Some(LetterClass::UsLarge) => "großer Umschlag (large envelope), wenn er sich biegt",
        Some(LetterClass::CaStandard) => "Standardbrief (standard lettermail)",
        Some(LetterClass::CaOther) => "anderer Brief (other lettermail)",
        Some(LetterClass::UkLetter) => "Brief (letter)",
        Some(LetterClass::UkLarge | LetterClass::AuLarge) => "großer Brief (large letter)",
        Some(LetterClass::DeStandard) => "Standardbrief",
        Some(LetterClass::DeCompact) => "Kompaktbrief",
        Some(LetterClass::DeLarge) => "Großbrief",
        Some(LetterClass::AuSmall) => "kleiner Brief (small letter)",
        None => "kein Brief; frag nach einem Paket",
    }
}

#[gathered]
fn past(names: &Names<'_>, country: Country, past: Past) -> String {
    let limit = limit(country, past, names.decimal());
    match past {
        Past::Long(_) => format!("Der Umschlag ist länger als {limit}."),
        Past::High(_) => format!("Der Umschlag ist höher als {limit}."),
        Past::Short(_) => format!("Der Umschlag ist kürzer als {limit}."),
        Past::Low(_) => format!("Der Umschlag ist niedriger als {limit}."),
        Past::Thick(_) => format!("Der gefüllte Umschlag ist dicker als {limit}."),
        Past::Uneven(_) => {
            format!("Die Dicke des gefüllten Umschlags schwankt um mehr als {limit}.")
        }
        Past::Heavy(_) => format!("Der gefüllte Umschlag ist schwerer als {limit}."),
        Past::Square(_) => {
            format!("Der Umschlag ist zu quadratisch: keine {limit}-mal so lang wie hoch.")
        }
        Past::Slim(_) => {
            format!("Der Umschlag ist schmal: mehr als {limit}-mal so lang wie hoch.")
        }
    }
}

#[gathered]
fn source(country: Country) -> &'static str {
    match country {
        Country::UnitedStates => {
            "Quelle: Domestic Mail Manual 101 und 201, Seite vom 9. Juli 2023."
        }
        Country::Canada => {
            "Quelle: Lettermail guide vom 11. Januar 2021. Nach einer Notiz von 2008 kosten \
             Quadrate mehr."
        }
        Country::UnitedKingdom => "Quelle: Seite der Aufsicht; gilt seit dem 21. August 2006.",
        Country::Germany => "Quelle: eine Tabelle in einer Zeitung vom 12. Februar 2025.",
        Country::Australia => {
            "Quelle: Seite der Post über Briefe, mit Änderungen vom 1. Juli 2025."
        }
    }
}
