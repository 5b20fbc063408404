//! Writes a drawing as SVG, y down, one unit a millimetre.
//!
//! What is drawn with which pen stands there as a class, so that what moves on
//! the screen stays small; only paper brings its own colour. Of a file that
//! leaves the app, see [`document`](super::document()).

use std::fmt::Write as _;

use super::document::{CAPITALS, styled, type_size};
use super::painted::{Motif, arrow};
use super::pen::Pen;
use super::{Affine, Drawing, Fill, Ink, Mark, Photo, Role, Spot, graduation_size, text_size};
use crate::paper::{Colour, PhotoId, Print};
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
    /// An element with some attributes and nothing in it.
    pub fn new<const N: usize>(
        name: &'static str,
        attributes: [(&'static str, String); N],
    ) -> Self {
        Self {
            name,
            attributes: Vec::from(attributes),
            inside: Vec::new(),
            text: String::new(),
        }
    }

    /// The same with one attribute more.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: String) -> Self {
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

/// For what a drawing is written out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Medium {
    /// A page, whose style sheet knows every pen by its class.
    Page,
    /// A file that leaves the app.
    File,
}

/// Where photographs are found: the address of one as it is written into an image;
/// `None` for one that is not at hand, in whose place colour and print are shown.
pub type Addresses<'a> = &'a dyn Fn(PhotoId) -> Option<String>;

/// Writes a drawing out for a page. `name` keeps its own definitions apart from
/// those of other drawings there.
pub fn svg(drawing: &Drawing, name: &str, photos: Addresses<'_>) -> Written {
    written(drawing, name, Medium::Page, photos)
}

pub(super) fn written(
    drawing: &Drawing,
    name: &str,
    medium: Medium,
    photos: Addresses<'_>,
) -> Written {
    let [width, height] = drawing.size();
    let mut writer = Writer {
        out: Vec::new(),
        name,
        defined: 0,
        photos,
        medium,
        size: [width, height],
    };
    for mark in &drawing.marks {
        writer.mark(mark);
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
pub(super) struct Number(pub(super) f64);

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

/// A part of a map, so fine that the far corner of any sheet lies right.
struct Fine(f64);

impl std::fmt::Display for Fine {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        // A negated zero is written with its sign.
        write!(f, "{}", (self.0 * 1e5).round() / 1e5 + 0.0)
    }
}

struct Writer<'a> {
    out: Vec<Element>,
    name: &'a str,
    /// How many definitions of its own were named.
    defined: usize,
    photos: Addresses<'a>,
    medium: Medium,
    /// Of the drawing, in millimetres.
    size: Spot,
}

impl Writer<'_> {
    /// An element drawn with a pen.
    fn drawn(&self, name: &'static str, pen: Pen) -> Element {
        let element = Element::new(name, [("class", pen.class().to_owned())]);
        match self.medium {
            Medium::Page => element,
            Medium::File => styled(element, pen),
        }
    }

    fn path(&self, pen: Pen, d: &str) -> Element {
        self.drawn("path", pen).with("d", d.to_owned())
    }

    /// An element by which the page knows what it can take hold of.
    fn known(&self, element: Element, name: &'static str, id: u32) -> Element {
        match self.medium {
            Medium::Page => element.with(name, id.to_string()),
            Medium::File => element,
        }
    }

    fn mark(&mut self, mark: &Mark) {
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
            Mark::Lines { lines, ink } => {
                let all: String = lines.iter().map(|ends| open_path(ends)).collect();
                self.push(Pen::Line(*ink), &all);
            }
            Mark::Outline { corners, ink } => {
                let path = path(std::slice::from_ref(corners));
                self.push(Pen::Line(*ink), &path);
            }
            Mark::Arrow { from, to } => self.arrow(*from, *to),
            Mark::Fallen { outlines, .. } => self.area(outlines, &Fill::Waste, false),
            Mark::Grip { .. } => {}
            Mark::Text { at, words, role } => self.text(*at, words, *role),
        }
    }

    fn area(&mut self, outlines: &[Vec<Spot>], fill: &Fill, edged: bool) {
        let path = path(outlines);
        match fill {
            Fill::Paper {
                colour,
                print,
                printed,
                photo,
                place,
                shade,
            } => {
                let photo = photo.and_then(|photo| Some((photo, (self.photos)(photo.id)?)));
                if let Some((photo, address)) = photo {
                    self.photo(&path, (*colour, edged), (photo, address), (place, *shade));
                    return;
                }
                // Half as many elements move where paper is its own shade.
                let is_plain = *print == Print::Plain;
                let colour = if is_plain {
                    colour.shaded(*shade)
                } else {
                    *colour
                };
                let paint = self.paint(colour, Motif::of(*print, *printed), place);
                let pen = if edged { Pen::EdgedPaper } else { Pen::Paper };
                let element = self.path(pen, &path).with("fill", paint);
                self.out.push(element);
                if *shade > 0.0 && !is_plain {
                    let opacity = Number(*shade).to_string();
                    let element = self.path(Pen::Shade, &path);
                    self.out.push(element.with("fill-opacity", opacity));
                }
            }
            Fill::Glue => self.push(Pen::Glue, &path),
            Fill::Refused => self.push(Pen::Refused, &path),
            Fill::Waste => self.push(Pen::Waste, &path),
            Fill::Shadow => self.push(Pen::Shadow, &path),
            Fill::Ground if edged => self.push(Pen::EdgedGround, &path),
            Fill::Ground => self.push(Pen::Ground, &path),
        }
    }

    /// An area of paper that shows its part of a photograph.
    fn photo(
        &mut self,
        d: &str,
        (colour, edged): (Colour, bool),
        (photo, address): (Photo, String),
        (place, shade): (&Affine, f64),
    ) {
        let ground = self.path(Pen::Paper, d);
        self.out.push(ground.with("fill", colour.to_string()));
        let id = self.definition();
        let mut clip = Element::new("clipPath", [("id", id.clone())]);
        clip.inside = vec![Element::new("path", [("d", d.to_owned())])];
        self.out.push(clip);
        let [width, height] = photo.size.map(|side| Number(side).to_string());
        let lies = Affine {
            origin: place.apply([0.0, photo.size[1]]),
            ..*place
        };
        let image = Element::new(
            "image",
            [
                ("href", address),
                ("width", width),
                ("height", height),
                ("preserveAspectRatio", "none".to_owned()),
                ("transform", matrix(&lies)),
            ],
        );
        let mut shown = Element::new("g", [("clip-path", format!("url(#{id})"))]);
        shown.inside = vec![image];
        self.out.push(shown);
        if shade > 0.0 {
            let shadow = self.path(Pen::Shade, d);
            let opacity = Number(shade).to_string();
            self.out.push(shadow.with("fill-opacity", opacity));
        }
        if edged {
            self.push(Pen::Line(Ink::Edge), d);
        }
    }

    /// A name for a definition of its own.
    fn definition(&mut self) -> String {
        self.defined += 1;
        format!("{}-{}", self.name, self.defined)
    }

    fn push(&mut self, pen: Pen, d: &str) {
        let element = self.path(pen, d);
        self.out.push(element);
    }

    /// The paint of a paper: its colour, or a pattern that shows the print and
    /// which way it runs.
    fn paint(&mut self, colour: Colour, motif: Option<Motif>, place: &Affine) -> String {
        let Some(Motif { path, pitch }) = motif else {
            return colour.to_string();
        };
        let [across, down] = pitch.map(|side| Number(side).to_string());
        let id = self.definition();
        let mut pattern = Element::new(
            "pattern",
            [
                ("id", id.clone()),
                ("width", across.clone()),
                ("height", down.clone()),
                ("patternUnits", "userSpaceOnUse".to_owned()),
                ("patternTransform", matrix(place)),
            ],
        );
        let ground = format!("M0 0h{across}v{down}h-{across}z");
        let ground = Element::new("path", [("fill", colour.to_string()), ("d", ground)]);
        pattern.inside = vec![ground, self.path(Motif::pen_on(colour), path)];
        self.out.push(pattern);
        format!("url(#{id})")
    }

    fn line(&mut self, from: Spot, to: Spot, ink: Ink, id: Option<LineId>) {
        let path = open_path(&[from, to]);
        // A filter would make a rim as well, and take longer to paint than all
        // the rest.
        if let Some(rim) = Pen::rim_of(ink) {
            self.push(rim, &path);
        }
        let mut line = self.path(Pen::Line(ink), &path);
        if let Some(id) = id {
            line = self.known(line, "data-line", id.0);
        }
        self.out.push(line);
    }

    fn arrow(&mut self, from: Spot, to: Spot) {
        let path: String = arrow(from, to).iter().map(|it| open_path(it)).collect();
        for pen in [Pen::ArrowRim, Pen::Arrow] {
            self.push(pen, &path);
        }
    }

    fn text(&mut self, at: Spot, words: &str, role: Role) {
        let pen = Pen::from(role);
        let letters = pen.style().letters;
        let (size, lower) = match (self.medium, letters) {
            // Not every program knows how to centre letters on a line, so they
            // are put lower by half of their capitals.
            (Medium::File, Some(letters)) => {
                let size = type_size(letters, self.size);
                (size, size * CAPITALS / 2.0)
            }
            _ if role == Role::Graduation => (graduation_size(self.size), 0.0),
            _ => (text_size(self.size), 0.0),
        };
        let mut text = self
            .drawn("text", pen)
            .with("x", Number(at[0]).to_string())
            .with("y", Number(lower - at[1]).to_string())
            .with("font-size", Number(size).to_string());
        if let Role::Number(id) = role {
            text = self.known(text, "data-measure", id.0);
        }
        words.clone_into(&mut text.text);
        self.out.push(text);
    }
}

/// From what is drawn y down to the page, through a print that is y up.
fn matrix(place: &Affine) -> String {
    let values = [
        place.x[0],
        -place.x[1],
        -place.y[0],
        place.y[1],
        place.origin[0],
        -place.origin[1],
    ];
    let values = values.map(|value| Fine(value).to_string());
    format!("matrix({})", values.join(" "))
}

/// Closed outlines as the `d` of a path.
pub(super) fn path(outlines: &[Vec<Spot>]) -> String {
    let mut path = String::new();
    for outline in outlines {
        write_chain(&mut path, outline);
        path.push('z');
    }
    path
}

/// A chain of straight lines as the `d` of a path.
fn open_path(chain: &[Spot]) -> String {
    let mut path = String::new();
    write_chain(&mut path, chain);
    path
}

fn write_chain(path: &mut String, chain: &[Spot]) {
    for (number, at) in chain.iter().enumerate() {
        let step = if number == 0 { 'M' } else { 'L' };
        // Writing to a string cannot fail.
        let _ = write!(path, "{step}{} {}", Number(at[0]), Number(-at[1]));
    }
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
