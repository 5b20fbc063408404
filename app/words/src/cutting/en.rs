//! How sheets are laid and shapes are cut, in English.

use foldwright_engine::recipe::{EdgeSide, Which};
use foldwright_engine::steps::{AtFence, EdgeRuns, Falls, Form, Runs, SheetLies, Taken};
use foldwright_gathered::gathered;

use crate::names::Names;
use crate::nouns::en as nouns;

#[gathered]
pub(crate) fn lay_sheet(lies: SheetLies, side: &str) -> String {
    match lies {
        SheetLies::Either => format!("Lay the sheet face up, its {side} side towards you."),
        SheetLies::Upright => {
            format!("Lay the sheet face up, the print upright, its {side} side towards you.")
        }
        SheetLies::HeadAway => format!(
            "Lay the sheet face up, the head of the print under it away from you, its {side} side \
             towards you."
        ),
        SheetLies::HeadTowards => format!(
            "Lay the sheet face up, the head of the print under it towards you, its {side} side \
             towards you."
        ),
    }
}

#[gathered]
pub(crate) fn lay_piece(lies: SheetLies, part: &str) -> String {
    match lies {
        SheetLies::Either => format!("Lay {part} the way its sheet lay, face up."),
        SheetLies::Upright => format!("Lay {part} face up, the print upright."),
        SheetLies::HeadAway => {
            format!("Lay {part} face up, the head of the print under it away from you.")
        }
        SheetLies::HeadTowards => {
            format!("Lay {part} face up, the head of the print under it towards you.")
        }
    }
}

/// Sheets of a paper, or scraps or strips so large.
#[gathered]
pub(crate) fn taken(names: &Names<'_>, what: Taken, count: u32, stock: &str) -> String {
    let size = |size| names.short_size(size);
    match (what, count) {
        (Taken::Sheet, 1) => format!("Take one sheet of {stock}."),
        (Taken::Sheet, count) => format!("Take {count} sheets of {stock}."),
        (Taken::Strip(of), 1) => format!("Take one strip of {stock}, {}.", size(of)),
        (Taken::Strip(of), count) => format!("Take {count} strips of {stock}, {}.", size(of)),
        (Taken::Scrap(of), 1) => format!("Take one scrap of {stock}, {}.", size(of)),
        (Taken::Scrap(of), count) => format!("Take {count} scraps of {stock}, {}.", size(of)),
    }
}

#[gathered]
pub(crate) fn at_fence(names: &Names<'_>, edge: AtFence, turned: bool) -> String {
    match (edge, turned) {
        (AtFence::Long(long), false) => {
            format!("Lay the {} edge against the fence.", names.short(long))
        }
        (AtFence::Long(long), true) => format!(
            "Turn a quarter: the {} edge goes against the fence.",
            names.short(long)
        ),
        (AtFence::Side, _) => "Lay a side of the print against the fence.".to_owned(),
        (AtFence::HeadOrFoot, _) => {
            "Lay the head or the foot of the print against the fence.".to_owned()
        }
        (AtFence::AlongGrain, _) => "Lay an edge along the grain against the fence.".to_owned(),
        (AtFence::AcrossGrain, _) => "Lay an edge across the grain against the fence.".to_owned(),
        (AtFence::Any, _) => "Lay any edge against the fence.".to_owned(),
    }
}

#[gathered]
pub(crate) fn times(times: usize, stack: Option<u32>) -> String {
    match (times, stack) {
        (0 | 1, None) => "Cut once.".to_owned(),
        (0 | 1, Some(stack)) => format!("Cut once, no more than {stack} on each other."),
        (times, None) => format!("Cut {times} times, each time with the new edge at the fence."),
        (times, Some(stack)) => format!(
            "Cut {times} times, each time with the new edge at the fence, no more than {stack} on \
             each other."
        ),
    }
}

#[gathered]
pub(crate) fn falls(names: &Names<'_>, letter: &str, count: u32, what: Falls) -> String {
    match (what, count) {
        (Falls::Piece(part), 1) => format!("{letter} is {}, one piece.", nouns::part(names, part)),
        (Falls::Piece(part), count) => {
            format!("{letter} is {}, {count} pieces.", nouns::part(names, part))
        }
        (Falls::Strip(size), 1) => format!(
            "{letter} is a strip to be cut further, {}.",
            names.short_size(size)
        ),
        (Falls::Strip(size), count) => format!(
            "{letter} makes {count} strips to be cut further, {}.",
            names.short_size(size)
        ),
        (Falls::Offcut(size), 1) => format!("{letter} is left over, {}.", names.short_size(size)),
        (Falls::Offcut(size), count) => {
            format!(
                "{letter} is left over, {count} of {}.",
                names.short_size(size)
            )
        }
    }
}

#[gathered]
pub(crate) fn cut_strip(strip: &str, size: &str, runs: Runs) -> String {
    match runs {
        Runs::AcrossPrint => {
            format!("Cut {strip} {size}, its length running across the print (landscape).")
        }
        Runs::UpPrint => {
            format!("Cut {strip} {size}, its length running up the print (portrait).")
        }
        Runs::AcrossSheet => format!("Cut {strip} {size}, its length across the sheet."),
        Runs::UpSheet => format!("Cut {strip} {size}, its length up the sheet."),
    }
}

#[gathered]
pub(crate) fn shape(names: &Names<'_>, layer: &str, form: Form) -> String {
    match form {
        Form::Rounded(radius) => format!(
            "Then round the corners of {layer} with a radius of {}.",
            names.short(radius)
        ),
        Form::Circle(across) => format!(
            "Then cut {layer} round, {} across, along a drawn circle or with a die.",
            names.short(across)
        ),
        Form::Oval(size) => format!(
            "Then cut {layer} oval, {}, along a drawn oval or with a die.",
            names.short_size(size)
        ),
        Form::Arched(rise) => format!(
            "Then cut the top of {layer} in one arc that rises {} from both sides to the middle.",
            names.short(rise)
        ),
        Form::Drawn => {
            format!("Then cut {layer} along its outline with a die, or along a template.")
        }
        Form::Follows => format!(
            "Then cut {layer} to the drawn shape, an even border inside the piece under it."
        ),
    }
}

#[gathered]
pub(crate) fn window(names: &Names<'_>, window: &str, form: Option<Form>) -> String {
    match form {
        None => format!(
            "Cut {window} out along a ruler on a cutting mat, from each corner to the middle of \
             the side."
        ),
        Some(Form::Rounded(radius)) => format!(
            "Cut {window} out with its corners rounded by {}, with a die or a craft knife.",
            names.short(radius)
        ),
        Some(Form::Circle(across)) => format!(
            "Cut {window} out as a circle, {} across, with a die or a craft knife.",
            names.short(across)
        ),
        Some(Form::Oval(size)) => format!(
            "Cut {window} out as an oval, {}, with a die or a craft knife.",
            names.short_size(size)
        ),
        Some(Form::Arched(rise)) => format!(
            "Cut {window} out with a die or a craft knife; its top is an arc that rises {}.",
            names.short(rise)
        ),
        Some(Form::Drawn | Form::Follows) => format!(
            "Cut {window} out along its outline with a die, or with a craft knife and a template."
        ),
    }
}

#[gathered]
pub(crate) fn round_corners(panel: &str, which: Which, radius: &str) -> String {
    match which {
        Which::Both => format!("Round both outer corners of {panel} with a radius of {radius}."),
        Which::Upper => {
            format!("Round the top outer corner of {panel} with a radius of {radius}.")
        }
        Which::Lower => {
            format!("Round the bottom outer corner of {panel} with a radius of {radius}.")
        }
    }
}

#[gathered]
pub(crate) fn measure_depth(panel: &str, seen: &str, side: EdgeSide) -> String {
    match side {
        EdgeSide::Left => {
            format!("Measure the depth from the left edge of {panel}, seen from the {seen}.")
        }
        EdgeSide::Right => {
            format!("Measure the depth from the right edge of {panel}, seen from the {seen}.")
        }
        EdgeSide::Top => {
            format!("Measure the depth from the top edge of {panel}, seen from the {seen}.")
        }
        EdgeSide::Bottom => {
            format!("Measure the depth from the bottom edge of {panel}, seen from the {seen}.")
        }
    }
}

#[gathered]
pub(crate) fn cut_edge(panel: &str, runs: EdgeRuns, depth: &str) -> String {
    match runs {
        EdgeRuns::Arch => {
            format!("Cut that edge of {panel} in one arc that stays {depth} inside at both ends.")
        }
        EdgeRuns::Hollow => {
            format!("Cut that edge of {panel} in one arc that goes {depth} in at its middle.")
        }
        EdgeRuns::Scallops(1) => {
            format!("Cut that edge of {panel} in one scallop, {depth} deep.")
        }
        EdgeRuns::Scallops(count) => {
            format!("Cut that edge of {panel} in {count} equal scallops, {depth} deep.")
        }
        EdgeRuns::Points(1) => format!("Cut that edge of {panel} to one point, {depth} deep."),
        EdgeRuns::Points(count) => {
            format!("Cut that edge of {panel} to {count} equal points, {depth} deep.")
        }
        EdgeRuns::Drawn => {
            format!("Cut that edge of {panel} along the drawn line, {depth} in at most.")
        }
    }
}
