//! How sheets are laid and shapes are cut, in German.

use foldwright_engine::recipe::{EdgeSide, Which};
use foldwright_engine::steps::{AtFence, EdgeRuns, Falls, Form, Runs, SheetLies, Taken};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::de::{self as nouns, Case};

#[gathered]
pub(crate) fn lay_sheet(lies: SheetLies, side: &str) -> String {
    match lies {
        SheetLies::Either => {
            format!("Leg den Bogen hin, Schauseite oben, die Seite von {side} zu dir.")
        }
        SheetLies::Upright => format!(
            "Leg den Bogen hin, Schauseite oben, Druck aufrecht, die Seite von {side} zu dir."
        ),
        SheetLies::HeadAway => format!(
            "Leg den Bogen hin, Schauseite oben, die Seite von {side} zu dir. Der Kopf des Drucks \
             darunter zeigt von dir weg."
        ),
        SheetLies::HeadTowards => format!(
            "Leg den Bogen hin, Schauseite oben, die Seite von {side} zu dir. Der Kopf des Drucks \
             darunter zeigt zu dir."
        ),
    }
}

#[gathered]
pub(crate) fn lay_piece(lies: SheetLies, part: &str) -> String {
    match lies {
        SheetLies::Either => {
            format!("Leg {part} hin, wie der Bogen lag, Schauseite oben.")
        }
        SheetLies::Upright => {
            format!("Leg {part} hin, Schauseite oben, Druck aufrecht.")
        }
        SheetLies::HeadAway => format!(
            "Leg {part} hin, Schauseite oben. Der Kopf des Drucks darunter zeigt von dir weg."
        ),
        SheetLies::HeadTowards => {
            format!("Leg {part} hin, Schauseite oben. Der Kopf des Drucks darunter zeigt zu dir.")
        }
    }
}

/// Sheets of a paper, or scraps or strips so large.
#[gathered]
pub(crate) fn taken(names: &Names<'_>, what: Taken, count: u32, stock: &str) -> String {
    let size = |size| names.short_size(size);
    match (what, count) {
        (Taken::Sheet, 1) => format!("Nimm einen Bogen {stock}."),
        (Taken::Sheet, count) => format!("Nimm {count} Bogen {stock}."),
        (Taken::Strip(of), 1) => format!("Nimm einen Streifen {stock}, {}.", size(of)),
        (Taken::Strip(of), count) => format!("Nimm {count} Streifen {stock}, {}.", size(of)),
        (Taken::Scrap(of), 1) => format!("Nimm ein Reststück {stock}, {}.", size(of)),
        (Taken::Scrap(of), count) => format!("Nimm {count} Reststücke {stock}, {}.", size(of)),
    }
}

#[gathered]
pub(crate) fn at_fence(names: &Names<'_>, edge: AtFence, turned: bool) -> String {
    match (edge, turned) {
        (AtFence::Long(long), false) => {
            format!("Leg die Kante von {} an den Anschlag.", names.short(long))
        }
        (AtFence::Long(long), true) => format!(
            "Dreh um ein Viertel: Die Kante von {} kommt an den Anschlag.",
            names.short(long)
        ),
        (AtFence::Side, _) => "Leg eine Seitenkante des Drucks an den Anschlag.".to_owned(),
        (AtFence::HeadOrFoot, _) => "Leg Kopf oder Fuß des Drucks an den Anschlag.".to_owned(),
        (AtFence::AlongGrain, _) => "Leg eine Kante in Laufrichtung an den Anschlag.".to_owned(),
        (AtFence::AcrossGrain, _) => {
            "Leg eine Kante quer zur Laufrichtung an den Anschlag.".to_owned()
        }
        (AtFence::Any, _) => "Leg irgendeine Kante an den Anschlag.".to_owned(),
    }
}

#[gathered]
pub(crate) fn times(times: usize, stack: Option<u32>) -> String {
    match (times, stack) {
        (0 | 1, None) => "Schneide einmal.".to_owned(),
        (0 | 1, Some(stack)) => format!("Schneide einmal, höchstens {stack} aufeinander."),
        (times, None) => {
            format!("Schneide {times}-mal, jedes Mal die neue Kante am Anschlag.")
        }
        (times, Some(stack)) => format!(
            "Schneide {times}-mal, jedes Mal die neue Kante am Anschlag, höchstens {stack} \
             aufeinander."
        ),
    }
}

#[gathered]
pub(crate) fn falls(names: &Names<'_>, letter: &str, count: u32, what: Falls) -> String {
    let part = |part| nouns::part(names, part, Case::Nominative);
    match (what, count) {
        (Falls::Piece(of), 1) => format!("{letter} ist {}, ein Stück.", part(of)),
        (Falls::Piece(of), count) => format!("{letter} ist {}, {count} Stück.", part(of)),
        (Falls::Strip(size), 1) => format!(
            "{letter} ist ein Streifen zum Weiterschneiden, {}.",
            names.short_size(size)
        ),
        (Falls::Strip(size), count) => format!(
            "{letter} gibt {count} Streifen zum Weiterschneiden, {}.",
            names.short_size(size)
        ),
        (Falls::Offcut(size), 1) => {
            format!("{letter} bleibt übrig, {}.", names.short_size(size))
        }
        (Falls::Offcut(size), count) => {
            format!(
                "{letter} bleibt übrig, {count}-mal {}.",
                names.short_size(size)
            )
        }
    }
}

#[gathered]
pub(crate) fn cut_strip(strip: &str, size: &str, runs: Runs) -> String {
    match runs {
        Runs::AcrossPrint => {
            format!("Schneide {strip} {size}, die Länge quer zum Druck (Querformat).")
        }
        Runs::UpPrint => {
            format!("Schneide {strip} {size}, die Länge mit dem Druck (Hochformat).")
        }
        Runs::AcrossSheet => {
            format!("Schneide {strip} {size}, die Länge von links nach rechts im Bogen.")
        }
        Runs::UpSheet => {
            format!("Schneide {strip} {size}, die Länge von unten nach oben im Bogen.")
        }
    }
}

#[gathered]
pub(crate) fn shape(names: &Names<'_>, layer: &str, form: Form) -> String {
    match form {
        Form::Rounded(radius) => format!(
            "Runde dann die Ecken von {layer} mit Radius {} ab.",
            names.short(radius)
        ),
        Form::Circle(across) => format!(
            "Schneide {layer} dann rund, {} im Durchmesser, am Kreis oder mit Stanzform.",
            names.short(across)
        ),
        Form::Oval(size) => format!(
            "Schneide {layer} dann oval, {}, am gezeichneten Oval oder mit Stanzform.",
            names.short_size(size)
        ),
        Form::Arched(rise) => format!(
            "Schneide {layer} dann oben in einem Bogen, der von beiden Seiten zur Mitte um {} ansteigt.",
            names.short(rise)
        ),
        Form::Drawn => {
            format!("Schneide {layer} dann mit Stanzform oder Schablone nach dem Umriss.")
        }
        Form::Follows => {
            format!("Schneide {layer} dann in der gezeigten Form, mit gleichem Rand zur Unterlage.")
        }
    }
}

#[gathered]
pub(crate) fn window(names: &Names<'_>, window: &str, form: Option<Form>) -> String {
    match form {
        None => format!(
            "Schneide {window} am Lineal auf einer Schneidematte aus, von jeder Ecke zur Mitte der \
             Seite."
        ),
        Some(Form::Rounded(radius)) => format!(
            "Schneide {window} mit Stanzform oder Cutter aus, die Ecken mit Radius {} gerundet.",
            names.short(radius)
        ),
        Some(Form::Circle(across)) => format!(
            "Schneide {window} mit Stanzform oder Cutter als Kreis aus, {} im Durchmesser.",
            names.short(across)
        ),
        Some(Form::Oval(size)) => format!(
            "Schneide {window} mit Stanzform oder Cutter als Oval aus, {}.",
            names.short_size(size)
        ),
        Some(Form::Arched(rise)) => format!(
            "Schneide {window} mit Stanzform oder Cutter aus; oben ist ein Bogen, der um {} ansteigt.",
            names.short(rise)
        ),
        Some(Form::Drawn | Form::Follows) => format!(
            "Schneide {window} nach dem Umriss aus, mit Stanzform oder mit Cutter und Schablone."
        ),
    }
}

#[gathered]
pub(crate) fn round_corners(panel: &str, which: Which, radius: &str) -> String {
    match which {
        Which::Both => format!("Runde beide äußeren Ecken von {panel} mit Radius {radius} ab."),
        Which::Upper => {
            format!("Runde die obere äußere Ecke von {panel} mit Radius {radius} ab.")
        }
        Which::Lower => {
            format!("Runde die untere äußere Ecke von {panel} mit Radius {radius} ab.")
        }
    }
}

#[gathered]
pub(crate) fn measure_depth(panel: &str, seen: &str, side: EdgeSide) -> String {
    match side {
        EdgeSide::Left => {
            format!("Miss die Tiefe von der linken Kante von {panel} aus, die {seen} oben.")
        }
        EdgeSide::Right => {
            format!("Miss die Tiefe von der rechten Kante von {panel} aus, die {seen} oben.")
        }
        EdgeSide::Top => {
            format!("Miss die Tiefe von der oberen Kante von {panel} aus, die {seen} oben.")
        }
        EdgeSide::Bottom => {
            format!("Miss die Tiefe von der unteren Kante von {panel} aus, die {seen} oben.")
        }
    }
}

#[gathered]
pub(crate) fn cut_edge(panel: &str, runs: EdgeRuns, depth: &str) -> String {
    match runs {
        EdgeRuns::Arch => format!(
            "Schneide diese Kante von {panel} in einem Bogen, an beiden Enden {depth} weiter innen."
        ),
        EdgeRuns::Hollow => format!(
            "Schneide diese Kante von {panel} in einem Bogen, in der Mitte {depth} nach innen."
        ),
        EdgeRuns::Scallops(1) => {
            format!("Schneide diese Kante von {panel} in einem Wellenbogen, {depth} tief.")
        }
        EdgeRuns::Scallops(count) => {
            format!("Schneide diese Kante von {panel} in {count} gleichen Wellen, {depth} tief.")
        }
        EdgeRuns::Points(1) => {
            format!("Schneide diese Kante von {panel} zu einer Spitze, {depth} tief.")
        }
        EdgeRuns::Points(count) => {
            format!("Schneide diese Kante von {panel} zu {count} gleichen Spitzen, {depth} tief.")
        }
        EdgeRuns::Drawn => format!(
            "Schneide diese Kante von {panel} an der gezeichneten Linie, höchstens {depth} tief."
        ),
    }
}
