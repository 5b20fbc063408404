//! Writes a drawing as SVG, y down, one unit a millimetre.
//!
//! Colours of ink come from the page's style sheet by class; only paper brings
//! its own.

use std::fmt::Write as _;

use super::{Affine, Drawing, Fill, Ink, Mark, Role, Spot, text_size};
use crate::paper::{Colour, Print};
use crate::pattern::LineId;

/// An element of SVG.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Element {
    /// What it is, such as `path`.
    pub name: &'static str,
    /// Its attributes, values not yet escaped.
    pub attributes: Vec<(&'static str, String)>,
    /// The elements in it.
    pub inside: Vec<Element>,
    /// The words in it, not yet escaped.
    pub text: String,
}

impl Element {
    fn new<const N: usize>(name: &'static str, attributes: [(&'static str, String); N]) -> Self {
        Self {
            name,
            attributes: Vec::from(attributes),
            inside: Vec::new(),
            text: String::new(),
        }
    }

    fn path(class: impl Into<String>, d: &str) -> Self {
        Self::new("path", [("class", class.into()), ("d", d.to_owned())])
    }

    fn with(mut self, name: &'static str, value: String) -> Self {
        self.attributes.push((name, value));
        self
    }

    /// Appends it as text.
    fn write(&self, out: &mut String) {
        // Writing to a string cannot fail.
        let _ = write!(out, "<{}", self.name);
        for (name, value) in &self.attributes {
            let _ = write!(out, r#" {name}="{}""#, Escaped(value));
        }
        let _ = write!(out, ">{}", Escaped(&self.text));
        for element in &self.inside {
            element.write(out);
        }
        let _ = write!(out, "</{}>", self.name);
    }
}

impl std::fmt::Display for Element {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let mut out = String::new();
        self.write(&mut out);
        f.write_str(&out)
    }
}

/// A drawing written out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// The inside of an `svg` element.
    pub elements: Vec<Element>,
    /// The `viewBox` of the `svg` element around them.
    pub view_box: String,
}

impl Written {
    /// The inside of the `svg` element as text.
    pub fn inside(&self) -> String {
        let mut out = String::new();
        for element in &self.elements {
            element.write(&mut out);
        }
        out
    }
}

/// Writes a drawing out. `name` keeps its own definitions apart from those of
/// other drawings on the page.
pub fn svg(drawing: &Drawing, name: &str) -> Written {
    let mut writer = Writer {
        out: Vec::new(),
        name,
        patterns: 0,
    };
    let [width, height] = drawing.size();
    for mark in &drawing.marks {
        writer.mark(mark, text_size([width, height]));
    }
    let view_box = format!(
        "{} {} {} {}",
        Number(drawing.low[0]),
        Number(-drawing.high[1]),
        Number(width),
        Number(height)
    );
    Written {
        elements: writer.out,
        view_box,
    }
}

/// A coordinate to a hundredth of a millimetre, as short as it goes.
struct Number(f64);

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        // Whole numbers are written several times as fast, thousands a frame.
        #[expect(
            clippy::cast_possible_truncation,
            reason = "a cast to an integer stops at its ends, far beyond any paper"
        )]
        let hundredths = (self.0 * 100.0).round() as i64;
        let sign = if hundredths < 0 { "-" } else { "" };
        let (whole, rest) = (
            hundredths.unsigned_abs() / 100,
            hundredths.unsigned_abs() % 100,
        );
        match (rest, rest % 10) {
            (0, _) => write!(f, "{sign}{whole}"),
            (_, 0) => write!(f, "{sign}{whole}.{}", rest / 10),
            _ => write!(f, "{sign}{whole}.{rest:02}"),
        }
    }
}

struct Writer<'a> {
    out: Vec<Element>,
    name: &'a str,
    patterns: usize,
}

impl Writer<'_> {
    fn mark(&mut self, mark: &Mark, text_size: f64) {
        match mark {
            Mark::Area {
                outlines,
                fill,
                edged,
                ..
            } => self.area(outlines, fill, *edged),
            Mark::Line {
                from,
                to,
                ink,
                line,
            } => self.line(*from, *to, *ink, *line),
            Mark::Outline { corners, ink } => {
                let path = path(std::slice::from_ref(corners));
                self.out.push(Element::path(class(*ink), &path));
            }
            Mark::Arrow { from, to } => self.arrow(*from, *to),
            Mark::Fallen { outlines, .. } => self.area(outlines, &Fill::Waste, false),
            Mark::Grip { .. } => {}
            Mark::Text { at, words, role } => self.text(*at, words, *role, text_size),
        }
    }

    fn area(&mut self, outlines: &[Vec<Spot>], fill: &Fill, edged: bool) {
        let path = path(outlines);
        let class = |class: &str| format!("{class}{}", if edged { " edged" } else { "" });
        match fill {
            Fill::Paper {
                colour,
                print,
                place,
                shade,
            } => {
                // Half as many elements move where paper is its own shade.
                let is_plain = *print == Print::Plain;
                let colour = if is_plain {
                    colour.shaded(*shade)
                } else {
                    *colour
                };
                let paint = self.paint(colour, *print, place);
                self.out
                    .push(Element::path(class("paper"), &path).with("fill", paint));
                if *shade > 0.0 && !is_plain {
                    let opacity = Number(*shade).to_string();
                    self.out
                        .push(Element::path("shade", &path).with("fill-opacity", opacity));
                }
            }
            Fill::Glue => self.out.push(Element::path("glue", &path)),
            Fill::Refused => self.out.push(Element::path("refused", &path)),
            Fill::Waste => self.out.push(Element::path("waste", &path)),
            Fill::Ground => self.out.push(Element::path(class("ground"), &path)),
        }
    }

    /// The paint of a paper: its colour, or a pattern that shows the print and
    /// which way it runs.
    fn paint(&mut self, colour: Colour, print: Print, place: &Affine) -> String {
        // Boats stand upright or upside down, oars read both ways, and rings
        // whichever way they are turned.
        let (motif, pitch) = match print {
            Print::Plain => return colour.to_string(),
            Print::OneWay => ("M2 9h6l-1.5 2.4h-3zM5 2v6h-3zM5.6 3.4v4.6h2.2z", 13),
            Print::TwoWay => ("M5 1.5v9M3.6 1.5h2.8v2.2h-2.8zM3.6 8.3h2.8v2.2h-2.8z", 12),
            Print::AllOver => ("M5 3.4a2.6 2.6 0 1 0 .01 0z", 12),
        };
        self.patterns += 1;
        let id = format!("{}-{}", self.name, self.patterns);
        let ink = if colour.lightness() > 140 {
            "motif dark"
        } else {
            "motif light"
        };
        // The motif is drawn y down, as is the page; the print is y up.
        let matrix = [
            place.x[0],
            -place.x[1],
            -place.y[0],
            place.y[1],
            place.origin[0],
            -place.origin[1],
        ]
        .map(|value| Number(value).to_string())
        .join(" ");
        let mut pattern = Element::new(
            "pattern",
            [
                ("id", id.clone()),
                ("width", "10".to_owned()),
                ("height", pitch.to_string()),
                ("patternUnits", "userSpaceOnUse".to_owned()),
                ("patternTransform", format!("matrix({matrix})")),
            ],
        );
        let ground = format!("M0 0h10v{pitch}h-10z");
        let ground = Element::new("path", [("fill", colour.to_string()), ("d", ground)]);
        pattern.inside = vec![ground, Element::path(ink, motif)];
        self.out.push(pattern);
        format!("url(#{id})")
    }

    fn line(&mut self, from: Spot, to: Spot, ink: Ink, id: Option<LineId>) {
        let class = class(ink);
        let path = path(&[vec![from, to]]);
        let path = path.trim_end_matches('z');
        if matches!(ink, Ink::Mountain | Ink::Valley | Ink::Cut) {
            // A light rim keeps lines in sight on dark paper.
            self.out.push(Element::path(format!("{class} rim"), path));
        }
        let mut line = Element::path(class, path);
        if let Some(id) = id {
            line = line.with("data-line", id.0.to_string());
        }
        self.out.push(line);
    }

    /// A shaft with an open head of a third of its length.
    fn arrow(&mut self, from: Spot, to: Spot) {
        let way = [0, 1].map(|i| (to[i] - from[i]) / 3.0);
        let barb = |side: f64| {
            let back = [way[0] - side * way[1], way[1] + side * way[0]];
            [0, 1].map(|i| to[i] - back[i])
        };
        let mut path = path(&[vec![from, to]]);
        path.truncate(path.len() - 1);
        let head = self::path(&[vec![barb(0.7), to, barb(-0.7)]]);
        path.push_str(head.trim_end_matches('z'));
        for class in ["arrow rim", "arrow"] {
            self.out.push(Element::path(class, &path));
        }
    }

    fn text(&mut self, at: Spot, words: &str, role: Role, size: f64) {
        let class = match role {
            Role::Number(_) => "number",
            Role::Length => "length",
            Role::Label => "label",
        };
        let mut text = Element::new(
            "text",
            [
                ("class", class.to_owned()),
                ("x", Number(at[0]).to_string()),
                ("y", Number(-at[1]).to_string()),
                ("font-size", Number(size).to_string()),
            ],
        );
        if let Role::Number(id) = role {
            text = text.with("data-measure", id.0.to_string());
        }
        words.clone_into(&mut text.text);
        self.out.push(text);
    }
}

/// The class an ink has its colour and its dashes from.
const fn class(ink: Ink) -> &'static str {
    match ink {
        Ink::Edge => "edge",
        Ink::Mountain => "mountain",
        Ink::Valley => "valley",
        Ink::Cut => "cut",
        Ink::Hidden => "hidden",
        Ink::Laid => "laid",
        Ink::Dimension => "dimension",
    }
}

/// Closed outlines as the `d` of a path.
pub(super) fn path(outlines: &[Vec<Spot>]) -> String {
    let mut path = String::new();
    for outline in outlines {
        for (number, at) in outline.iter().enumerate() {
            let step = if number == 0 { 'M' } else { 'L' };
            let _ = write!(path, "{step}{} {}", Number(at[0]), Number(-at[1]));
        }
        path.push('z');
    }
    path
}

/// Words that may hold what markup gives a meaning.
struct Escaped<'a>(&'a str);

impl std::fmt::Display for Escaped<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        for letter in self.0.chars() {
            match letter {
                '&' => f.write_str("&amp;")?,
                '<' => f.write_str("&lt;")?,
                '>' => f.write_str("&gt;")?,
                '"' => f.write_str("&quot;")?,
                other => f.write_char(other)?,
            }
        }
        Ok(())
    }
}
