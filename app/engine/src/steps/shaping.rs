//! Cutting outlines, windows, corners and edges.

use super::{Kind, Seen, Step, side_up};
use crate::care::Hazard;
use crate::laid::LaidLayer;
use crate::length::Length;
use crate::recipe::{Cut, Cutout, EdgeForm, EdgeSide, Layer, Outline, Recipe, Side, Which, Window};

/// What is still to do to a rectangle that becomes a layer.
pub(super) fn outline(recipe: &Recipe, layer: &Layer, laid: &LaidLayer, step: &mut Step) {
    // Following what carries it, it may come out as a plain rectangle.
    if laid.shape.is_none() {
        return;
    }
    let size = laid.at.size();
    let Some(words) = outline_words(recipe, &layer.outline, size.width, size.height) else {
        return;
    };
    step.does
        .push("Cut it as a rectangle of that size first.".to_owned());
    step.does.push(words);
    if let Some(measure) = layer.outline.measure() {
        let word = match layer.outline {
            Outline::Rounded(_) => "radius",
            _ => "rise",
        };
        step.figure(word, recipe.notation.with_unit(recipe.value(measure)));
    }
    step.picture("Its outline", Seen::Outline(laid.id));
    tools_for(&layer.outline, step);
}

/// How an outline is cut within its rectangle; nothing for a plain one.
fn outline_words(
    recipe: &Recipe,
    outline: &Outline,
    width: Length,
    height: Length,
) -> Option<String> {
    let written = |length| recipe.notation.with_unit(length);
    Some(match outline {
        Outline::Straight => return None,
        Outline::Rounded(radius) => format!(
            "Then round its corners with a radius of {}.",
            written(recipe.value(*radius))
        ),
        Outline::Round if width == height => format!(
            "Then cut it round, {} across, along a drawn circle or with a die.",
            written(width)
        ),
        Outline::Round => format!(
            "Then cut it oval, {}, along a drawn oval or with a die.",
            recipe.notation.size(width, height)
        ),
        Outline::Arched(rise) => format!(
            "Then cut its top in one arc that rises {} from both sides to the middle.",
            written(recipe.value(*rise))
        ),
        Outline::Cut(_) => {
            "Then cut it along its outline with a die, or along a template.".to_owned()
        }
        Outline::Follows => {
            "Then cut it to the shape that is drawn, an even border inside what carries it."
                .to_owned()
        }
    })
}

fn tools_for(outline: &Outline, step: &mut Step) {
    if matches!(outline, Outline::Straight) {
        return;
    }
    step.tools.extend(match outline {
        Outline::Rounded(_) => ["corner punch, or a template and scissors"].as_slice(),
        _ => ["die, or a template and a craft knife", "cutting mat"].as_slice(),
    });
    step.care.extend(match outline {
        Outline::Rounded(_) => [].as_slice(),
        _ => [Hazard::Knife, Hazard::Die].as_slice(),
    });
}

/// Cutting what is cut out of the strip: a step each.
pub(super) fn cutouts(recipe: &Recipe) -> Vec<Step> {
    let cutouts = recipe
        .strips()
        .flat_map(|(of, strip)| strip.cutouts.iter().map(move |cutout| (of, cutout)));
    cutouts
        .map(|(of, cutout)| {
            let key = format!("cut-out-{}", cutout.id.0);
            let title = format!("Cut {}", cutout.name);
            let mut step = Step::new(key, Kind::Cut, title, recipe);
            match &cutout.cut {
                Cut::Window(window) => one_window(recipe, cutout, window, &mut step),
                Cut::Corners { radius, which } => {
                    let radius = recipe.notation.with_unit(recipe.value(*radius));
                    step.figure("radius", radius.clone());
                    step.does.push(format!(
                        "Round {} of {} at the end of the strip with a radius of {radius}.",
                        corners_words(*which),
                        recipe.panel_name(cutout.panel)
                    ));
                    step.tools = vec!["corner punch, or a template and scissors"];
                }
                Cut::Edge { side, form, depth } => {
                    let depth = recipe.notation.with_unit(recipe.value(*depth));
                    step.does.push(format!(
                        "Cut the {} edge of {}, seen from the inside, {}.",
                        side_word(*side),
                        recipe.panel_name(cutout.panel),
                        form_words(form, &depth)
                    ));
                    step.figure("depth", depth);
                    blade(&mut step);
                }
            }
            let (caption, view) = side_up(recipe, of, Side::A);
            step.picture(caption, view);
            step
        })
        .collect()
}

fn one_window(recipe: &Recipe, cutout: &Cutout, window: &Window, step: &mut Step) {
    let written = |length| recipe.notation.with_unit(length);
    let (width, height) = (recipe.value(window.width), recipe.value(window.height));
    let at = recipe.window_on_strip(cutout.id).unwrap_or_default().low;
    step.figure("from the left", written(at.x));
    step.figure("from below", written(at.y));
    if window.outline == Outline::Round && width == height {
        step.figure("across", written(width));
    } else {
        step.figure("width", written(width));
        step.figure("height", written(height));
    }
    step.does.push(format!(
        "Mark it on the inside of {}, from the left end and the lower edge of the strip.",
        recipe.panel_name(cutout.panel)
    ));
    let does = match &window.outline {
        Outline::Straight | Outline::Follows => {
            "Cut it out along a ruler on a cutting mat, from each corner towards the middle of \
             the side."
                .to_owned()
        }
        Outline::Rounded(radius) => {
            let radius = written(recipe.value(*radius));
            step.figure("radius", radius.clone());
            format!("Cut it out with its corners rounded by {radius}, with a die or a craft knife.")
        }
        Outline::Round if width == height => format!(
            "Cut a circle, {} across, with a die or a craft knife.",
            written(width)
        ),
        Outline::Round => format!(
            "Cut an oval, {}, with a die or a craft knife.",
            recipe.notation.size(width, height)
        ),
        Outline::Arched(rise) => {
            let rise = written(recipe.value(*rise));
            step.figure("rise", rise.clone());
            format!("Cut it out with a die or a craft knife; its top is an arc that rises {rise}.")
        }
        Outline::Cut(_) => {
            "Cut it out along its outline with a die, or with a craft knife along a template."
                .to_owned()
        }
    };
    step.does.push(does);
    blade(step);
}

fn blade(step: &mut Step) {
    step.tools = vec![
        "die, or a ruler, a template and a craft knife",
        "cutting mat",
    ];
    step.care = vec![Hazard::Knife, Hazard::Die];
}

const fn corners_words(which: Which) -> &'static str {
    match which {
        Which::Both => "both corners",
        Which::Upper => "the upper corner",
        Which::Lower => "the lower corner",
    }
}

const fn side_word(side: EdgeSide) -> &'static str {
    match side {
        EdgeSide::Left => "left",
        EdgeSide::Right => "right",
        EdgeSide::Top => "upper",
        EdgeSide::Bottom => "lower",
    }
}

fn form_words(form: &EdgeForm, depth: &str) -> String {
    match form {
        EdgeForm::Arch => format!("in one arc that stays {depth} inside at both ends"),
        EdgeForm::Hollow => format!("in one arc that goes {depth} in at its middle"),
        EdgeForm::Scallops(count) => format!("in {count} equal scallops, {depth} deep"),
        EdgeForm::Points(count) => format!("to {count} equal points, {depth} deep"),
        EdgeForm::Cut(_) => format!("along the line that is drawn, {depth} in at most"),
    }
}
