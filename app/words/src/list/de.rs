//! What contradicts itself in a list of measurements, in German.

use foldwright_engine::length::{Odd, Written};
use foldwright_engine::problem::{Extent, Hand, Spot, Trouble, Where};
use foldwright_engine::reading::{
    Aside, Assumed, FoldForm, MOST_LINES, Meaning, Missed, OfLength, OfSize, Remark, SeatedFor,
    Suggests, UnitFor, Unlikely, Way, WayRound,
};
use foldwright_engine::recipe::{Fold, Seat};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};
use crate::typed::de as typed;

#[gathered]
pub(crate) fn told(names: &Names<'_>, found: Trouble) -> Told {
    let length = |of| names.short(of);
    let size = |of| names.short_size(of);
    match found {
        Trouble::Beyond { at, length: of } => Told::new(
            format!("Die Rille bei {} liegt nicht auf dem Teil.", length(at)),
            format!("Das Teil endet bei {}.", length(of)),
            "Prüf die Rille und die Größe des Teils.",
        ),
        Trouble::Twice(at) => Told::new(
            format!("Die Rille bei {} steht zweimal da.", length(at)),
            "Sie wird einmal gezogen.",
            "Entferne eine, wenn du eine andere gemeint hast.",
        ),
        Trouble::Sum { sum, length: of } => Told::new(
            format!("Die Felder ergeben zusammen {}.", length(sum)),
            format!("Das Teil ist {} lang.", length(of)),
            "Prüf die Breiten und die Größe des Teils.",
        ),
        Trouble::NoPiece => Told::new(
            "Zu dieser Rille fehlt das Teil.",
            "Weder in dieser Zeile noch davor steht eine Größe.",
            "Gib zuerst die Größe des Teils an.",
        ),
        Trouble::Finished { told, is } => Told::new(
            format!("Die geschlossene Karte misst {}.", size(is)),
            format!("In der Liste steht {}.", size(told)),
            "Prüf den Kartenrohling und seine Rillen.",
        ),
        Trouble::NoEnvelope(of) => Told::new(
            format!("Kein gängiger Umschlag misst {}.", size(of)),
            "Im Rezept haben Umschläge Namen.",
            "Wähl im Rezept einen aus.",
        ),
        Trouble::Tight(envelope) => Told::new(
            format!(
                "Die geschlossene Karte hat im Umschlag {} keinen Platz.",
                nouns::envelope(envelope)
            ),
            "Jede Regel für die Zugabe verlangt mehr.",
            "Nenn einen größeren Umschlag, oder prüf den Kartenrohling.",
        ),
        Trouble::TooLarge(of) => Told::new(
            format!("{} ist größer als jedes Feld.", size(of)),
            "Das Teil läge über einem Falz oder stünde über.",
            "Es bleibt weg. Prüf die Größe, oder füg es im Rezept hinzu.",
        ),
        Trouble::NotThere(of, spot) => Told::new(
            format!("{} passt nicht dorthin, wo es laut Liste liegt.", size(of)),
            format!("In der Liste steht: {}.", place(spot)),
            "Prüf die Größe, oder versetz das Teil im Rezept.",
        ),
        Trouble::NoBase => Told::new(
            "Zum runden Teil fehlt der Kartenrohling.",
            "Die Liste hat kein Teil, das sich falzen lässt.",
            "Gib die Größe des Kartenrohlings in einer eigenen Zeile an.",
        ),
        Trouble::Border { told, is } => Told::new(
            format!("Der Rand wird {} breit.", length(is)),
            format!("In der Liste steht {}.", length(told)),
            "Prüf die Auflage und das, worauf sie liegt.",
        ),
        Trouble::SecondFolded => Told::new(
            "Das ist ein zweites Teil mit Rillen.",
            "Eine Liste ergibt ein gefalztes Teil mit flachen darauf.",
            "Es bleibt weg. Füg es im Rezept hinzu.",
        ),
        Trouble::Sheet(of) => Told::new(
            format!(
                "Der Kartenrohling ist größer als ein Bogen von {}.",
                size(of)
            ),
            "Er lässt sich in keiner Richtung daraus schneiden.",
            "Prüf den Bogen und den Kartenrohling.",
        ),
        Trouble::TooMany => Told::new(
            "Das sind mehr Teile, als eine Karte hat.",
            "Der Rest bleibt weg.",
            "Schreib die Teile einer Karte in eine Liste.",
        ),
        Trouble::TooLong => Told::new(
            "Ab hier wird nichts gelesen.",
            format!("Eine Liste hat höchstens {MOST_LINES} Zeilen."),
            "Schreib die Teile einer Karte in eine Liste.",
        ),
    }
}

/// „innen, rechts, auf dem großen Feld“.
#[gathered]
fn place(spot: Spot) -> String {
    let side = match spot.side {
        Where::Front => "vorn",
        Where::Inside => "innen",
        Where::Back => "hinten",
    };
    let hand = spot.hand.map(|hand| match hand {
        Hand::Left => "links",
        Hand::Right => "rechts",
        Hand::Middle => "in der Mitte",
    });
    let extent = spot.extent.map(|extent| match extent {
        Extent::Large => "auf dem großen Feld",
        Extent::Small => "auf dem kleinen Feld",
    });
    let said: Vec<_> = [Some(side), hand, extent].into_iter().flatten().collect();
    said.join(", ")
}

/// Why a part of a line was not read.
#[gathered]
pub(crate) fn missed(why: &Missed) -> String {
    match why {
        Missed::Odd(Odd::NoLength(problem)) => return typed::told(problem),
        Missed::Aside(Aside::Price) => "Gelesen als Preis, nicht als Maß.",
        Missed::Aside(Aside::Numbering) => "Gelesen als laufende Nummer, nicht als Maß.",
        Missed::Aside(Aside::Count) => "Gelesen als Anzahl, nicht als Maß.",
        Missed::Aside(Aside::Weight) => "Gelesen als Gewicht, nicht als Maß.",
        Missed::Aside(Aside::Date) => "Gelesen als Datum, nicht als Maß.",
        Missed::Aside(Aside::Time) => "Gelesen als Uhrzeit, nicht als Maß.",
        Missed::Aside(Aside::Other) => "Das wird nicht in Zoll oder Millimetern gemessen.",
        Missed::Alone => "Nichts sagt, was diese Zahl misst.",
        Missed::Three => {
            "Eine Größe hat zwei Zahlen. Schreib die Anzahl davor, etwa 2 Stück 4 × 5."
        }
        Missed::Odd(Odd::Date) => "Das sieht nach einem Datum aus.",
        Missed::Odd(Odd::Improper) => "Schreib die Länge als ganze Zahl mit Bruch, etwa 2 1/4.",
        Missed::Odd(Odd::Area) => {
            "Das ist eine Fläche. Gib von einem Quadrat die Seite an: Quadrat 3 cm."
        }
        Missed::Words => "Diese Wörter nennen kein Maß.",
        Missed::Nothing => "Eine Größe muss über 0 liegen.",
        Missed::TooLong => "Das ist länger als 10 m. Prüf die Einheit.",
        Missed::Rest => "Die Zeile ist zu lang, um sie ganz zu lesen.",
    }
    .to_owned()
}

/// How the card base may fold.
#[gathered]
pub(crate) fn form(form: FoldForm) -> &'static str {
    match form {
        FoldForm::Flat => "Ein Feld, kein Falz.",
        FoldForm::Book => "Das erste Feld ist die Vorderseite.",
        FoldForm::Flap => "Das letzte Feld ist die Vorderseite.",
        FoldForm::Gate { .. } => "Zwei Flügel schließen über der Mitte.",
        FoldForm::Leaves => "Zwei Flügel überlappen über der Mitte.",
        FoldForm::LastIn => "Das letzte Feld klappt ein, das erste schließt darüber.",
        FoldForm::FirstIn => "Das erste Feld klappt ein, das letzte schließt darüber.",
        FoldForm::BackOver | FoldForm::BackOverFirst => {
            "Die Vorderseite klappt auf sich selbst zurück."
        }
        FoldForm::FrontIn | FoldForm::FrontInFirst => "Die Vorderseite klappt ein.",
        FoldForm::Zigzag => "Im Zickzack gefalzt, das erste Feld vorn.",
        FoldForm::ZigzagBack => "Im Zickzack gefalzt, das letzte Feld hinten.",
        FoldForm::Roll => "Als Wickelfalz, jedes Feld in das davor.",
        FoldForm::DoubleParallel => "Zweimal in der Mitte gefalzt.",
        FoldForm::Told => "Gefalzt, wie es in der Liste steht.",
    }
}

/// Why it may fold so.
#[gathered]
pub(crate) fn suggests(why: Suggests) -> &'static str {
    match why {
        Suggests::NoScore => "Es gibt keine Rille.",
        Suggests::Book => "Die Karte öffnet sich wie ein Buch, mit dem Falz links.",
        Suggests::WideBack => "Das breite Feld bleibt hinten, das schmale schließt darüber.",
        Suggests::LeavesMeet => "Beide Flügel zusammen sind so breit wie die Mitte.",
        Suggests::Allowance => "Ein Feld ist etwas kürzer, es liegt also innen.",
        Suggests::ToAndFro => "Felder jeder Breite lassen sich im Zickzack falzen.",
        Suggests::BackOver => {
            "Das größte Feld bleibt hinten; die Hälfte ist neben der Vorderseite zu sehen."
        }
        Suggests::FrontIn => "Das größte Feld bleibt hinten; das Endfeld liegt dazwischen.",
        Suggests::WideMiddle => "Das breiteste Feld ist in der Mitte.",
        Suggests::NarrowLast => "Das letzte Feld ist das schmalste und liegt innen.",
        Suggests::LastBehind => "Das letzte Feld kommt hinter die Mitte.",
        Suggests::NarrowFirst => "Das erste Feld ist das schmalste und liegt innen.",
        Suggests::NarrowFront => "Das schmale erste Feld liegt auf der Vorderseite.",
        Suggests::EqualThree => "Die Felder sind gleich, wie beim Z-Falz (üblich).",
        Suggests::Letter => "Gefaltet wie ein Brief. Das innere Feld muss dann etwas kürzer sein.",
        Suggests::TwoAllowances => "Zwei Felder sind etwas kürzer, sie liegen also innen.",
        Suggests::Shrinking => "Jedes Feld ist etwas kürzer als das davor.",
        Suggests::EqualFour => "Die Felder sind gleich, wie beim Leporello (üblich).",
        Suggests::EqualInner => {
            "Die Felder sind gleich. Die beiden inneren müssen dann etwas kürzer sein."
        }
        Suggests::OddLast => {
            "Eine ungerade Zahl von Feldern: Das letzte zeigt seine Innenseite hinten."
        }
        Suggests::OddFirst => {
            "Eine ungerade Zahl von Feldern: Das erste zeigt seine Innenseite vorn."
        }
        Suggests::Row => "Felder in einer Reihe lassen sich im Zickzack falzen.",
        Suggests::Told => "In der Liste steht, wie die Rillen gefalzt werden.",
    }
}

/// What a part of a line was read as, in a few words.
#[gathered]
pub(crate) fn meaning(names: &Names<'_>, is: Meaning) -> String {
    match is {
        Meaning::Name => "der Name des Rezepts".to_owned(),
        Meaning::Pieces(1) => "1 Stück".to_owned(),
        Meaning::Pieces(number) => format!("{number} Stück"),
        Meaning::Way(Way::Zigzag) => "ein Zickzackfalz".to_owned(),
        Meaning::Way(Way::Roll) => "ein Wickelfalz".to_owned(),
        Meaning::Way(Way::Gate) => "ein Altarfalz".to_owned(),
        Meaning::Way(Way::DoubleParallel) => "ein Doppelparallelfalz".to_owned(),
        Meaning::Half => "eine Rille in der Mitte".to_owned(),
        Meaning::Envelope(of) => format!("Umschlag {}", nouns::envelope(of)),
        Meaning::CutFrom(sheet) => format!("geschnitten aus {}", nouns::sheet(sheet)),
        Meaning::Length(of, length) => self::length(of, &names.short(length)),
        Meaning::Size(of, size) => self::size(of, &names.short_size(size)),
    }
}

#[gathered]
fn length(of: OfLength, length: &str) -> String {
    match of {
        OfLength::Diameter => format!("Kreis mit Durchmesser {length}"),
        OfLength::Border => format!("Rand {length}"),
        OfLength::Score(None) => format!("Rille bei {length}"),
        OfLength::Score(Some(Fold::Mountain)) => format!("Bergfalz bei {length}"),
        OfLength::Score(Some(Fold::Valley)) => format!("Talfalz bei {length}"),
        OfLength::Every => format!("alle {length} eine Rille"),
        OfLength::Panel => format!("Feld {length}"),
    }
}

#[gathered]
fn size(of: OfSize, size: &str) -> String {
    match of {
        OfSize::Piece => format!("Teil {size}"),
        OfSize::Round => format!("rundes Teil {size}"),
        OfSize::Oval => format!("Oval, {size}"),
        OfSize::Square => format!("Quadrat {size}"),
        OfSize::Closed => format!("geschlossene Karte {size}"),
        OfSize::Envelope => format!("Umschlag {size}"),
        OfSize::Sheet => format!("geschnitten aus einem Bogen von {size}"),
    }
}

#[gathered]
fn unit(unit: Written) -> &'static str {
    match unit {
        Written::Inch => "Zoll",
        Written::Millimetre => "Millimeter",
        Written::Centimetre => "Zentimeter",
        Written::Metre => "Meter",
        Written::Foot => "Fuß",
    }
}

/// How a line was read that leaves it open.
#[gathered]
pub(crate) fn remark(names: &Names<'_>, remark: Remark) -> String {
    match remark {
        Remark::Carried(of) => format!("Gelesen als {}, die Einheit davor.", unit(of)),
        Remark::Likelier {
            unit: of,
            than,
            why: Unlikely::Large,
        } => format!(
            "Gelesen als {}. Als {} wäre es zu groß.",
            unit(of),
            unit(than)
        ),
        Remark::Likelier {
            unit: of,
            than,
            why: Unlikely::Small,
        } => format!(
            "Gelesen als {}. Als {} wäre es zu klein.",
            unit(of),
            unit(than)
        ),
        Remark::Heading(spot) => format!("Was folgt, kommt hierher: {}.", place(spot)),
        Remark::Seated {
            layer,
            on,
            lies,
            why,
        } => {
            let layer = nouns::layer(names, layer);
            let on = match on {
                Seat::Face(face) => nouns::face(names, face, Case::Dative),
                Seat::Layer(id) => nouns::layer(names, id),
            };
            let lies = match lies {
                WayRound::AsWritten => format!("{layer} liegt auf {on}."),
                WayRound::AsSaid => format!("{layer} liegt so, wie die Liste sagt, auf {on}."),
                WayRound::Turned => format!("{layer} liegt auf {on}, um ein Viertel gedreht."),
            };
            match seated(names, why) {
                Some(why) => format!("{lies} {why}"),
                None => lies,
            }
        }
    }
}

#[gathered]
fn seated(names: &Names<'_>, why: SeatedFor) -> Option<String> {
    Some(match why {
        SeatedFor::Border(border) => {
            format!("Ringsum bleibt ein Rand von {}.", names.length(border))
        }
        SeatedFor::Whole => "Beide sind gleich groß.".to_owned(),
        SeatedFor::Width => "Die Breite ist die der geschlossenen Karte.".to_owned(),
        SeatedFor::Height => "Die Höhe ist die der geschlossenen Karte.".to_owned(),
        SeatedFor::Across(panel) => format!(
            "Das ist die Mitte der geschlossenen Karte, geklebt wird nur auf {}.",
            nouns::panel(names, panel)
        ),
        SeatedFor::OnlySo => "Anders herum passt es nicht.".to_owned(),
        SeatedFor::Fits => return None,
    })
}

/// What was taken for granted about numbers without a unit.
#[gathered]
pub(crate) fn assumed(assumed: Assumed) -> String {
    let Assumed::All { unit: of, why } = assumed else {
        return "Zahlen ohne Einheit sind gelesen wie die davor. Eine andere Einheit steht neben \
                ihrer Zeile."
            .to_owned();
    };
    let unit = unit(of);
    match why {
        UnitFor::Elsewhere => {
            format!("Zahlen ohne Einheit sind als {unit} gelesen, wie sonst in der Liste.")
        }
        UnitFor::Fractions => {
            format!("Zahlen ohne Einheit sind als {unit} gelesen, weil die Liste Brüche enthält.")
        }
        UnitFor::TooLarge => {
            format!("Zahlen ohne Einheit sind als {unit} gelesen. In Zoll wären sie zu groß.")
        }
        UnitFor::TooSmall => format!(
            "Zahlen ohne Einheit sind als {unit} gelesen. In Millimetern wären sie zu klein."
        ),
        UnitFor::Language => format!(
            "Zahlen ohne Einheit sind als {unit} gelesen, wie in der Sprache der Liste üblich."
        ),
        UnitFor::Settings => {
            format!("Zahlen ohne Einheit sind als {unit} gelesen, wie in den Einstellungen.")
        }
    }
}
