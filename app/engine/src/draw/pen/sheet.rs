//! The table of pens as a style sheet for the page.

use std::fmt::Write as _;

use super::{Filling, Pen, Stroke, Theme, Tone};

/// The style sheet of drawings on the screen: light or dark as the reader has
/// it, light on paper, and in the reader's own few colours where they force
/// them. Lines stay as wide however a drawing is scaled.
pub fn style_sheet() -> String {
    let mut out = String::from(
        "/* Drawings: paper, creases, glue and numbers. Written from the table in\n   \
         app/engine/src/draw/pen by its test, and never by hand. */\n",
    );
    let tones = |theme: Theme| {
        let tones = Tone::ALL.into_iter();
        tones.map(move |tone| (tone, tone.colour(theme).to_string()))
    };
    let light: Vec<_> = tones(Theme::Light).collect();
    let dark = tones(Theme::Dark).zip(&light);
    let dark = dark.filter(|((_, dark), (_, light))| dark != light);
    colours(&mut out, "", &light);
    colours(
        &mut out,
        "screen and (prefers-color-scheme: dark)",
        &dark.map(|(dark, _)| dark).collect::<Vec<_>>(),
    );
    let forced = Tone::ALL.into_iter();
    let forced = forced.filter_map(|tone| Some((tone, forced_colour(tone)?.to_owned())));
    colours(
        &mut out,
        "screen and (forced-colors: active)",
        &forced.collect::<Vec<_>>(),
    );
    out.push_str(
        "svg text { text-anchor: middle; dominant-baseline: central; \
         font-variant-numeric: tabular-nums; }\n",
    );
    for pen in Pen::ALL {
        let declared = declared(pen);
        if !declared.is_empty() {
            let class = pen.class().replace(' ', ".");
            // Writing to a string cannot fail.
            let _ = writeln!(out, "svg .{class} {{ {declared}}}");
        }
    }
    out
}

fn colours(out: &mut String, medium: &str, tones: &[(Tone, String)]) {
    let mut rule = String::from(":root {");
    for (tone, colour) in tones {
        let _ = write!(rule, " --drawn-{}: {colour};", name(*tone));
    }
    rule.push_str(" }\n");
    let _ = if medium.is_empty() {
        write!(out, "{rule}")
    } else {
        write!(out, "@media {medium} {{\n  {rule}}}\n")
    };
}

fn declared(pen: Pen) -> String {
    let mut out = String::new();
    let style = pen.style();
    let _ = match style.filling {
        Filling::Own => Ok(()),
        Filling::None => write!(out, "fill: none; "),
        Filling::Of(tone) => write!(out, "fill: var(--drawn-{}); ", name(tone)),
        Filling::Thin(tone, opacity) => {
            let name = name(tone);
            write!(out, "fill: var(--drawn-{name}); fill-opacity: {opacity}; ")
        }
    };
    if let Some(stroke) = style.stroke {
        out.push_str(&stroked(&stroke));
    }
    if style.letters.is_some_and(|letters| letters.bold) {
        out.push_str("font-weight: 650; ");
    }
    out
}

fn stroked(stroke: &Stroke) -> String {
    let (tone, width) = (name(stroke.tone), stroke.width);
    let mut out = format!(
        "stroke: var(--drawn-{tone}); stroke-width: {width}mm; vector-effect: non-scaling-stroke; "
    );
    if !stroke.dashes.is_empty() {
        let dashes = stroke.dashes.iter().map(|dash| format!("{dash}mm"));
        let dashes = dashes.collect::<Vec<_>>().join(" ");
        let _ = write!(out, "stroke-dasharray: {dashes}; ");
    }
    if stroke.round {
        out.push_str("stroke-linecap: round; stroke-linejoin: round; ");
    }
    out
}

const fn name(tone: Tone) -> &'static str {
    match tone {
        Tone::Edge => "edge",
        Tone::Fold => "fold",
        Tone::Cut => "cut",
        Tone::Rim => "rim",
        Tone::Laid => "laid",
        Tone::Glue => "glue",
        Tone::Refused => "refused",
        Tone::Waste => "waste",
        Tone::Ground => "ground",
        Tone::Length => "length",
        Tone::Number => "number",
        Tone::Quiet => "quiet",
        Tone::DarkPrint => "dark-print",
        Tone::LightPrint => "light-print",
        Tone::Shade => "shade",
    }
}

/// What is drawn beside paper takes the reader's colours (CSS Color Adjustment
/// 1); paper keeps its own, and so does what lies on it.
const fn forced_colour(tone: Tone) -> Option<&'static str> {
    match tone {
        Tone::Edge | Tone::Length | Tone::Number | Tone::Quiet => Some("CanvasText"),
        Tone::Waste | Tone::Ground => Some("Canvas"),
        Tone::Fold
        | Tone::Cut
        | Tone::Rim
        | Tone::Laid
        | Tone::Glue
        | Tone::Refused
        | Tone::DarkPrint
        | Tone::LightPrint
        | Tone::Shade => None,
    }
}
