//! Writes a drawing as SVG, y down, one unit a millimetre.
//!
//! Colours of ink come from the page's style sheet by class; only paper brings
//! its own.

use std::fmt::Write as _;

use super::{Affine, Drawing, Fill, Ink, Mark, Role, Spot, text_size};
use crate::paper::{Colour, Print};

/// A drawing written out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// What each mark of the drawing has become, in their order.
    pub marks: Vec<String>,
    /// The `viewBox` of the `svg` element around them.
    pub view_box: String,
}

impl Written {
    /// The inside of the `svg` element.
    pub fn inside(&self) -> String {
        self.marks.concat()
    }
}

/// Writes a drawing out. `name` keeps its own definitions apart from those of
/// other drawings on the page.
pub fn svg(drawing: &Drawing, name: &str) -> Written {
    let mut writer = Writer {
        out: String::new(),
        name,
        patterns: 0,
    };
    let marks = drawing
        .marks
        .iter()
        .map(|mark| {
            writer.mark(mark, text_size(drawing.size()));
            std::mem::take(&mut writer.out)
        })
        .collect();
    let [width, height] = drawing.size();
    let view_box = format!(
        "{} {} {} {}",
        Number(drawing.low[0]),
        Number(-drawing.high[1]),
        Number(width),
        Number(height)
    );
    Written { marks, view_box }
}

/// A coordinate to a hundredth of a millimetre, as short as it goes.
struct Number(f64);

impl std::fmt::Display for Number {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let rounded = (self.0 * 100.0).round() / 100.0;
        // Minus zero would be written with its sign.
        write!(f, "{}", if rounded == 0.0 { 0.0 } else { rounded })
    }
}

struct Writer<'a> {
    out: String,
    name: &'a str,
    patterns: usize,
}

impl Writer<'_> {
    fn put(&mut self, text: std::fmt::Arguments<'_>) {
        // Writing to a string cannot fail.
        let _ = self.out.write_fmt(text);
    }

    fn mark(&mut self, mark: &Mark, text_size: f64) {
        match mark {
            Mark::Area {
                outlines,
                fill,
                edged,
            } => self.area(outlines, fill, *edged),
            Mark::Line {
                from,
                to,
                ink,
                score,
            } => self.line(*from, *to, *ink, *score),
            Mark::Text { at, words, role } => self.text(*at, words, *role, text_size),
        }
    }

    fn area(&mut self, outlines: &[Vec<Spot>], fill: &Fill, edged: bool) {
        let path = path(outlines);
        let edge = if edged { " edged" } else { "" };
        match fill {
            Fill::Paper {
                colour,
                print,
                place,
                shade,
            } => {
                let paint = self.paint(*colour, *print, place);
                self.put(format_args!(
                    r#"<path class="paper{edge}" fill="{paint}" d="{path}"/>"#
                ));
                if *shade > 0.0 {
                    self.put(format_args!(
                        r#"<path class="shade" fill-opacity="{}" d="{path}"/>"#,
                        Number(*shade)
                    ));
                }
            }
            Fill::Glue => self.put(format_args!(r#"<path class="glue" d="{path}"/>"#)),
            Fill::Refused => self.put(format_args!(r#"<path class="refused" d="{path}"/>"#)),
            Fill::Ground => self.put(format_args!(r#"<path class="ground{edge}" d="{path}"/>"#)),
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
        self.put(format_args!(
            r#"<pattern id="{id}" width="10" height="{pitch}" patternUnits="userSpaceOnUse" patternTransform="matrix({matrix})"><path fill="{colour}" d="M0 0h10v{pitch}h-10z"/><path class="{ink}" d="{motif}"/></pattern>"#
        ));
        format!("url(#{id})")
    }

    fn line(&mut self, from: Spot, to: Spot, ink: Ink, score: Option<usize>) {
        let class = match ink {
            Ink::Edge => "edge",
            Ink::Mountain => "mountain",
            Ink::Valley => "valley",
            Ink::Hidden => "hidden",
            Ink::Dimension => "dimension",
        };
        let handle = score.map_or_else(String::new, |score| format!(r#" data-score="{score}""#));
        let path = path(&[vec![from, to]]);
        let path = path.trim_end_matches('z');
        if matches!(ink, Ink::Mountain | Ink::Valley) {
            // A light rim keeps the creases in sight on dark paper.
            self.put(format_args!(r#"<path class="{class} rim" d="{path}"/>"#));
        }
        self.put(format_args!(
            r#"<path class="{class}"{handle} d="{path}"/>"#
        ));
    }

    fn text(&mut self, at: Spot, words: &str, role: Role, size: f64) {
        let (class, measure) = match role {
            Role::Number(id) => ("number", format!(r#" data-measure="{}""#, id.0)),
            Role::Length => ("length", String::new()),
            Role::Label => ("label", String::new()),
        };
        self.put(format_args!(
            r#"<text class="{class}"{measure} x="{}" y="{}" font-size="{}">{}</text>"#,
            Number(at[0]),
            Number(-at[1]),
            Number(size),
            Escaped(words)
        ));
    }
}

fn path(outlines: &[Vec<Spot>]) -> String {
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
