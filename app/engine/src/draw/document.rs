//! A drawing as a file of its own: as large as the card, with all of its
//! styles in it.

use super::pen::{Filling, Letters, Pen, Stroke, Theme, Tone};
use super::svg::{Addresses, Element, Medium, Number, written};
use super::{Drawing, text_size};

/// Capitals are about this share of the size of type (common practice).
pub(super) const CAPITALS: f64 = 0.7;

/// A drawing as an SVG document with a title, in the colours of a light ground.
/// A millimetre of it is a millimetre on paper. Every element carries its own
/// width, dashes and colours, since many programs that read SVG know no style
/// sheets.
///
/// Letters are as high as the table of pens has them, but on what is smaller
/// than a hand only as high as there is room for.
pub fn document(drawing: &Drawing, title: &str, photos: Addresses<'_>) -> String {
    let drawn = written(drawing, "drawn", Medium::File, photos);
    let [width, height] = drawing.size().map(|side| Number(side).to_string());
    let mut name = Element::new("title", []);
    title.clone_into(&mut name.text);
    let mut root = Element::new(
        "svg",
        [
            ("xmlns", "http://www.w3.org/2000/svg".to_owned()),
            ("width", format!("{width}mm")),
            ("height", format!("{height}mm")),
            ("viewBox", drawn.view_box),
        ],
    );
    root.inside = std::iter::once(name).chain(drawn.elements).collect();
    root.to_string()
}

/// The size of type on a drawing of this size. On the screen texts stand so far
/// apart that twice their size there has room.
pub(super) fn type_size(letters: Letters, drawing: [f64; 2]) -> f64 {
    (letters.height / CAPITALS).min(2.0 * text_size(drawing))
}

/// An element with what its pen does.
pub(super) fn styled(element: Element, pen: Pen) -> Element {
    let style = pen.style();
    let colour = |tone: Tone| tone.colour(Theme::Light).to_string();
    let mut element = match style.filling {
        Filling::Own => element,
        Filling::None => element.with("fill", "none".to_owned()),
        Filling::Of(tone) => element.with("fill", colour(tone)),
        Filling::Thin(tone, opacity) => element
            .with("fill", colour(tone))
            .with("fill-opacity", opacity.to_string()),
    };
    if let Some(stroke) = style.stroke {
        element = stroked(element, &stroke);
    }
    if let Some(letters) = style.letters {
        let weight = if letters.bold { "bold" } else { "normal" };
        element = element
            .with("text-anchor", "middle".to_owned())
            .with("font-family", "sans-serif".to_owned())
            .with("font-weight", weight.to_owned());
    }
    element
}

fn stroked(element: Element, stroke: &Stroke) -> Element {
    let mut element = element
        .with("stroke", stroke.tone.colour(Theme::Light).to_string())
        .with("stroke-width", stroke.width.to_string());
    if !stroke.dashes.is_empty() {
        let dashes = stroke.dashes.iter().map(f64::to_string);
        let dashes = dashes.collect::<Vec<_>>().join(" ");
        element = element.with("stroke-dasharray", dashes);
    }
    if stroke.round {
        for end in ["stroke-linecap", "stroke-linejoin"] {
            element = element.with(end, "round".to_owned());
        }
    }
    element
}
