//! All parts of a card true to scale as SVG: a millimetre of it is a millimetre, and
//! cuts, scores and glue are groups of their own.

use std::fmt::Write as _;

use foldwright_engine::card::Card;
use foldwright_engine::draw::Element;
use foldwright_engine::length::Length;
use foldwright_engine::part::Part;
use foldwright_engine::plane::{PieceFrame, Point, Polygon, Segment};
use foldwright_engine::recipe::{Fold, Recipe, Side, Stacked, StripId};
use foldwright_engine::template::{Template, templates};
use foldwright_words::{Language, Speaker, Tongue, sentence};

/// Between parts and round all of them, in millimetres.
const GAP: f64 = 5.0;

/// Parts lie beside each other up to so many millimetres, then below. (Own choice.)
const WIDEST: f64 = 600.0;

/// The width of lines, in millimetres.
const LINE: f64 = 0.25;

/// A layer, in the order they are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Layer {
    Glue,
    Mountain,
    Valley,
    Cut,
}

impl Layer {
    const ALL: [Self; 4] = [Self::Glue, Self::Mountain, Self::Valley, Self::Cut];

    /// The `id` of its group, which never changes.
    const fn id(self) -> &'static str {
        match self {
            Self::Glue => "glue",
            Self::Mountain => "score-mountain",
            Self::Valley => "score-valley",
            Self::Cut => "cut",
        }
    }

    /// Colours that are told apart by whoever sees fewer of them (Okabe and Ito,
    /// “Color Universal Design”, 2008; from memory).
    const fn colour(self) -> &'static str {
        match self {
            Self::Glue => "#009e73",
            Self::Mountain => "#d55e00",
            Self::Valley => "#0072b2",
            Self::Cut => "#000000",
        }
    }

    fn title(self, language: Language) -> &'static str {
        let texts = language.taken();
        match self {
            Self::Glue => texts.glue,
            Self::Mountain => texts.mountain,
            Self::Valley => texts.valley,
            Self::Cut => texts.cut,
        }
    }

    /// What a part has of it, as the `d` of a path; empty where it has none.
    fn drawn(self, template: &Template, from: Corner) -> String {
        let mut path = String::new();
        match self {
            Self::Glue => {
                let outlines = template.glue.iter().flat_map(|glue| &glue.outlines);
                outlines.for_each(|outline| from.closed(outline, &mut path));
            }
            Self::Mountain | Self::Valley => {
                let is = if self == Self::Mountain {
                    Fold::Mountain
                } else {
                    Fold::Valley
                };
                let folds = template.folds.iter().filter(|(fold, _)| *fold == is);
                folds.for_each(|(_, course)| from.open(course, &mut path));
            }
            Self::Cut => {
                let cuts = template.cuts.iter();
                cuts.for_each(|course| from.open(course, &mut path));
                let edges = template.edges.iter();
                edges.for_each(|edge| from.closed(edge, &mut path));
            }
        }
        path
    }
}

/// Where the lower left corner of a part lies in the file, y down.
#[derive(Debug, Clone, Copy)]
struct Corner {
    x: f64,
    y: f64,
}

impl Corner {
    fn step(self, letter: char, at: Point<PieceFrame>, path: &mut String) {
        let x = Number(self.x + at.x.as_mm_f64());
        let y = Number(self.y - at.y.as_mm_f64());
        // Writing to a string cannot fail.
        let _ = write!(path, "{letter}{x} {y}");
    }

    fn closed(self, polygon: &Polygon<PieceFrame>, path: &mut String) {
        for (number, at) in polygon.corners.iter().enumerate() {
            self.step(if number == 0 { 'M' } else { 'L' }, *at, path);
        }
        path.push('Z');
    }

    fn open(self, course: &Segment<PieceFrame>, path: &mut String) {
        self.step('M', course.from, path);
        self.step('L', course.to, path);
    }
}

/// Millimetres to a tenth of a micron, as short as it goes.
struct Number(f64);

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let rounded = (self.0 * 1e4).round() / 1e4;
        // Zero has no sign.
        write!(f, "{}", rounded + 0.0)
    }
}

/// The parts of a card as a document of SVG (1.1 and 2), named in a language, seen from
/// their side A or mirrored, from behind.
pub fn svg(recipe: &Recipe, card: &Card, tongue: &'static dyn Tongue, seen: Side) -> String {
    let say = Speaker::of(tongue, recipe);
    let all = templates(recipe, card, seen);
    let (corners, [width, height]) = laid_out(&all);
    let texts = tongue.language().taken();
    let title = match seen {
        Side::A => texts.templates_of(&recipe.name),
        Side::B => texts.mirrored_templates_of(&recipe.name),
    };
    let mut root = Element::new(
        "svg",
        [
            ("xmlns", "http://www.w3.org/2000/svg".to_owned()),
            ("width", format!("{}mm", Number(width))),
            ("height", format!("{}mm", Number(height))),
            (
                "viewBox",
                format!("0 0 {} {}", Number(width), Number(height)),
            ),
        ],
    );
    root.inside.push(titled(&title));
    for layer in Layer::ALL {
        let mut group = Element::new("g", [("id", layer.id().to_owned())])
            .with("stroke", layer.colour().to_owned())
            .with("stroke-width", LINE.to_string());
        group = match layer {
            Layer::Glue => group
                .with("fill", layer.colour().to_owned())
                .with("fill-opacity", "0.2".to_owned())
                .with("fill-rule", "evenodd".to_owned()),
            _ => group.with("fill", "none".to_owned()),
        };
        group.inside.push(titled(layer.title(tongue.language())));
        for (template, corner) in all.iter().zip(&corners) {
            let path = layer.drawn(template, *corner);
            if path.is_empty() {
                continue;
            }
            let id = format!("{}-{}", layer.id(), id_of(template.part));
            let mut drawn = Element::new("path", [("id", id), ("d", path)]);
            drawn.inside.push(titled(&name_of(&say, template.part)));
            group.inside.push(drawn);
        }
        root.inside.push(group);
    }
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{root}\n")
}

fn titled(words: &str) -> Element {
    let mut title = Element::new("title", []);
    // XML has no place for other control characters (XML 1.0, 2.2).
    title.text = words
        .chars()
        .filter(|letter| !letter.is_control())
        .collect();
    title
}

/// What a part is called in an `id`.
fn id_of(part: Part) -> String {
    match part {
        Part::Strip(StripId::Base) => "base".to_owned(),
        Part::Strip(StripId::Piece(piece)) => format!("piece-{}", piece.0),
        Part::Layer(layer) => format!("layer-{}", layer.0),
    }
}

pub(crate) fn name_of(say: &Speaker<'_>, part: Part) -> String {
    sentence(match part {
        Part::Strip(of) => say.strip(of),
        Part::Layer(layer) => say.stacked(Stacked::Layer { layer }),
    })
}

/// Where each part lies, in rows, and how large all is.
fn laid_out(all: &[Template]) -> (Vec<Corner>, [f64; 2]) {
    let (mut x, mut top, mut bottom, mut wide) = (GAP, GAP, GAP, GAP);
    let mut corners = Vec::with_capacity(all.len());
    for template in all {
        let [width, height] = [template.size.width, template.size.height].map(Length::as_mm_f64);
        if x > GAP && x + width > WIDEST {
            (x, top) = (GAP, bottom + GAP);
        }
        corners.push(Corner { x, y: top + height });
        x += width + GAP;
        bottom = bottom.max(top + height);
        wide = wide.max(x);
    }
    (corners, [wide, bottom + GAP])
}
