//! Cutting outlines, windows, corners and edges.

use super::Caption;
use super::{EdgeRuns, Form, Instruction, Kind, Label, Seen, Step, StepKey, Title, Tool};
use crate::care::Hazard;
use crate::laid::LaidLayer;
use crate::plane::Size;
use crate::recipe::{Cut, Cutout, EdgeForm, Layer, Outline, Recipe, Window};

/// What is still to do to a rectangle that becomes a layer, and the rectangle first
/// where it is not cut yet.
pub(super) fn outline(
    recipe: &Recipe,
    layer: &Layer,
    laid: &LaidLayer,
    is_cut: bool,
    step: &mut Step,
) {
    // Following what carries it, it may come out as a plain rectangle.
    if laid.shape.is_none() {
        return;
    }
    let Some(form) = form(recipe, &layer.outline, laid.at.size()) else {
        return;
    };
    if !is_cut {
        step.does.push(Instruction::RectangleFirst(laid.id));
    }
    step.does.push(Instruction::Shape(laid.id, form));
    own_figure(form, step);
    step.picture(Caption::Outline, Seen::Outline(laid.id));
    if matches!(form, Form::Rounded(_)) {
        step.tools.push(Tool::CornerPunch);
        step.care.extend([Hazard::CornerPunch, Hazard::Scissors]);
    } else {
        step.tools.extend([Tool::Die, Tool::CuttingMat]);
        step.care.extend([Hazard::Knife, Hazard::Die]);
    }
}

/// The form of an outline of that size; nothing for a rectangle.
fn form(recipe: &Recipe, outline: &Outline, size: Size) -> Option<Form> {
    Some(match outline {
        Outline::Straight => return None,
        Outline::Rounded(radius) => Form::Rounded(recipe.value(*radius)),
        Outline::Round if size.width == size.height => Form::Circle(size.width),
        Outline::Round => Form::Oval(size),
        Outline::Arched(rise) => Form::Arched(recipe.value(*rise)),
        Outline::Cut(_) | Outline::Traced(_) => Form::Drawn,
        Outline::Follows => Form::Follows,
    })
}

/// What a form is drawn by besides its size.
fn own_figure(form: Form, step: &mut Step) {
    match form {
        Form::Rounded(radius) => step.length(Label::Radius, radius),
        Form::Arched(rise) => step.length(Label::Rise, rise),
        Form::Circle(_) | Form::Oval(_) | Form::Drawn | Form::Follows => {}
    }
}

/// Cutting what is cut out of the strip: a step each.
pub(super) fn cutouts(recipe: &Recipe) -> Vec<Step> {
    let cutouts = recipe
        .strips()
        .flat_map(|(of, strip)| strip.cutouts.iter().map(move |cutout| (of, cutout)));
    cutouts
        .map(|(of, cutout)| {
            let (id, panel) = (cutout.id, cutout.panel);
            let mut step = Step::new(StepKey::CutOut(id), Kind::Cut, Title::CutOut(id), recipe);
            match &cutout.cut {
                Cut::Window(window) => {
                    step.does.push(Instruction::MeasureFlat(of));
                    one_window(recipe, cutout, window, &mut step);
                }
                Cut::Corners { radius, which } => {
                    let (radius, which) = (recipe.value(*radius), *which);
                    step.length(Label::Radius, radius);
                    step.does = vec![
                        Instruction::MeasureRadius(panel),
                        Instruction::RoundCorners {
                            panel,
                            which,
                            radius,
                        },
                    ];
                    step.tools = vec![Tool::CornerPunch];
                    step.care = vec![Hazard::CornerPunch, Hazard::Scissors];
                }
                Cut::Edge { side, form, depth } => {
                    let depth = recipe.value(*depth);
                    let runs = runs(form);
                    step.does = vec![
                        Instruction::MeasureDepth(panel, *side),
                        Instruction::CutEdge { panel, runs, depth },
                    ];
                    step.length(Label::Depth, depth);
                    blade(&mut step);
                }
            }
            step.bare(of);
            step
        })
        .collect()
}

fn one_window(recipe: &Recipe, cutout: &Cutout, window: &Window, step: &mut Step) {
    let size = Size {
        width: recipe.value(window.width),
        height: recipe.value(window.height),
    };
    let at = recipe.window_on_strip(cutout.id).unwrap_or_default().low;
    step.length(Label::FromLeft, at.x);
    step.length(Label::FromBottom, at.y);
    let form = form(recipe, &window.outline, size);
    // What a window would follow carries it not: it is a rectangle.
    let form = form.filter(|form| *form != Form::Follows);
    if let Some(Form::Circle(across)) = form {
        step.length(Label::Across, across);
    } else {
        step.length(Label::Width, size.width);
        step.length(Label::Height, size.height);
    }
    if let Some(form) = form {
        own_figure(form, step);
    }
    let id = cutout.id;
    step.does.push(Instruction::DrawWindow(id, cutout.panel));
    step.does.push(Instruction::CutWindow(id, form));
    blade(step);
}

fn blade(step: &mut Step) {
    step.tools = vec![Tool::DieOrRuler, Tool::CuttingMat];
    step.care = vec![Hazard::Knife, Hazard::Die];
}

const fn runs(form: &EdgeForm) -> EdgeRuns {
    match form {
        EdgeForm::Arch => EdgeRuns::Arch,
        EdgeForm::Hollow => EdgeRuns::Hollow,
        EdgeForm::Scallops(count) => EdgeRuns::Scallops(*count),
        EdgeForm::Points(count) => EdgeRuns::Points(*count),
        EdgeForm::Cut(_) => EdgeRuns::Drawn,
    }
}
