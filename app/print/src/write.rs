//! Pages as PDF: tagged, titled and with a list of their headings, by the rules of
//! PDF/UA-1 (ISO 14289-1), which the writer of PDF checks as it goes.

use foldwright_engine::paper::Colour;
use foldwright_words::Language;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{PathBuilder, Point, Rect};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::{Page, PageSettings};
use krilla::paint::{Fill, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, BBox, ContentTag, Identifier, SpanTag};
use krilla::{Document, SerializeSettings};

use crate::figure;
use crate::flow::{Item, OnPage, foot};
use crate::paper::{Paper, points};
use crate::photo::Photos;
use crate::tags::{PartId, Parts};
use crate::text::{Line, Piece, Style};
use crate::trouble::NotMade;
use crate::typeface::writable;

/// What is written on pages besides what was laid out.
pub(crate) struct About<'a> {
    pub(crate) language: Language,
    pub(crate) paper: Paper,
    pub(crate) photos: &'a Photos,
    /// What the sheet is called.
    pub(crate) title: &'a str,
    /// How the foot of each page looks; `None` where pages have none.
    pub(crate) foot: Option<Style>,
    /// The headings of its parts, which are listed.
    pub(crate) headings: Vec<(PartId, String)>,
}

/// Pages as a file.
pub(crate) fn pdf(pages: &[OnPage], parts: Parts, about: &About<'_>) -> Result<Vec<u8>, NotMade> {
    let configuration =
        ConfigurationBuilder::new().with_accessibility_validator(Accessibility::UA1);
    let configuration = configuration.finish();
    let configuration = configuration.map_err(|why| NotMade(format!("{why:?}")))?;
    let mut document = Document::new_with(SerializeSettings {
        configuration,
        ..SerializeSettings::default()
    });
    let metadata = Metadata::new()
        .title(about.title.to_owned())
        .language(about.language.tag().to_owned())
        .creator("Foldwright".to_owned());
    document.set_metadata(metadata);
    let all = pages.len();
    let mut writing = Writing {
        parts,
        outline: Outline::new(),
        about,
    };
    for (number, on_page) in pages.iter().enumerate() {
        let [width, height] = about.paper.size();
        let settings = PageSettings::from_wh(width, height);
        let settings = settings.ok_or_else(|| NotMade(String::from("no such page")))?;
        let mut page = document.start_page_with(settings);
        writing.page(&mut page, on_page, [number, all]);
        page.finish();
    }
    document.set_outline(writing.outline);
    document.set_tag_tree(writing.parts.tree(about.language.tag()));
    document.finish().map_err(|why| NotMade(format!("{why:?}")))
}

struct Writing<'a> {
    parts: Parts,
    outline: Outline,
    about: &'a About<'a>,
}

impl Writing<'_> {
    fn page(&mut self, page: &mut Page<'_>, items: &[Item], [number, all]: [usize; 2]) {
        let mut surface = page.surface();
        let photos = self.about.photos;
        for item in items {
            let (of, at, size) = match item {
                Item::Line { at, line, of } => {
                    self.line(&mut surface, number, (*at, line, *of));
                    continue;
                }
                Item::Figure { at, size, of, .. } => (*of, *at, *size),
                Item::Leaf { at, drawing, of } => (*of, *at, drawing.size().map(points)),
                Item::Code { at, wide, of, .. } => (*of, *at, [*wide; 2]),
                Item::Again(_) | Item::Fill { .. } => {
                    let kind = ArtifactType::Layout;
                    artifact(&mut surface, kind, |surface| paint(surface, item, photos));
                    continue;
                }
                Item::Cut { .. } => {
                    let kind = ArtifactType::Page;
                    artifact(&mut surface, kind, |surface| paint(surface, item, photos));
                    continue;
                }
            };
            let content = surface.start_tagged(ContentTag::Other);
            paint(&mut surface, item, photos);
            surface.end_tagged();
            self.drawn(of, content, (number, at, size));
        }
        if let Some(style) = self.about.foot {
            self.foot(&mut surface, style, [number, all]);
        }
        surface.finish();
    }

    /// Notes where a drawing stands.
    fn drawn(
        &mut self,
        of: PartId,
        content: Identifier,
        (page, [x, y], [width, height]): (usize, [f32; 2], [f32; 2]),
    ) {
        self.parts.drawn(of, content);
        let bounds = Rect::from_xywh(x, y, width, height);
        let bounds = bounds.map(|rect| BBox::new(page, rect));
        self.parts.stands(of, bounds);
    }

    fn line(&mut self, surface: &mut Surface<'_>, page: usize, at: ([f32; 2], &Line, PartId)) {
        let (at, line, of) = at;
        self.listed(page, at, of);
        for piece in &line.pieces {
            let span = SpanTag::empty()
                .with_alt_text(piece.aloud.as_deref())
                .with_actual_text(piece.actual.as_deref());
            let tag = if piece.aloud.is_some() || piece.actual.is_some() {
                ContentTag::Span(span)
            } else {
                ContentTag::Other
            };
            let content = surface.start_tagged(tag);
            letters(surface, piece, at);
            surface.end_tagged();
            self.parts.drawn(of, content);
        }
    }

    /// Puts a heading into the list of them where its first line stands.
    fn listed(&mut self, page: usize, [x, y]: [f32; 2], of: PartId) {
        let mut headings = self.about.headings.iter();
        let Some((_, name)) = headings.find(|(heading, _)| *heading == of) else {
            return;
        };
        if self.parts.is_begun(of) {
            return;
        }
        let there = XyzDestination::new(page, Point::from_xy(x, (y - HEADROOM).max(0.0)));
        self.outline
            .push_child(OutlineNode::new(name.clone(), there));
    }

    /// The name of the sheet, who made it, and which page of it this is.
    fn foot(&self, surface: &mut Surface<'_>, style: Style, [number, all]: [usize; 2]) {
        let texts = self.about.language.printed();
        let [left, right, base] = foot(self.about.paper);
        let page = texts.page_of(number + 1, all);
        let page_at = right - style.width(&page);
        let made = texts.made_with;
        let made_at = (left + right - style.width(made)) / 2.0;
        let title = shortened(self.about.title, style, made_at - left - 2.0 * style.size);
        for (at, words) in [(left, title.as_str()), (made_at, made), (page_at, &page)] {
            artifact(surface, ArtifactType::Footer, |surface| {
                let words = writable(words).text;
                let face = style.weight.face();
                let shaped = face.shape(&words);
                filled(surface, style.colour);
                let start = Point::from_xy(at, base);
                let font = face.embedded.clone();
                surface.draw_glyphs(start, &shaped.glyphs, font, &words, style.size, false);
            });
        }
    }
}

/// How far above the base line of a heading a page is opened, in points.
const HEADROOM: f32 = 24.0;

/// As much of a text as has room on a line.
fn shortened(text: &str, style: Style, width: f32) -> String {
    let text = text.replace('\n', " ");
    if style.width(&text) <= width {
        return text;
    }
    let mut letters: Vec<char> = text.chars().take(MOST_IN_FOOT).collect();
    loop {
        letters.pop();
        let short: String = letters.iter().chain(&['…']).collect();
        if letters.is_empty() || style.width(&short) <= width {
            return short;
        }
    }
}

/// More characters than the foot of a page has room for.
const MOST_IN_FOOT: usize = 120;

/// Draws something, whatever it belongs to.
fn paint(surface: &mut Surface<'_>, item: &Item, photos: &Photos) {
    match item {
        Item::Line { at, line, .. } => {
            for piece in &line.pieces {
                letters(surface, piece, *at);
            }
        }
        Item::Figure {
            at, size, drawing, ..
        } => figure::draw(surface, (drawing, photos), *at, *size),
        Item::Leaf { at, drawing, .. } => {
            figure::draw_true_to_scale(surface, (drawing, photos), *at);
        }
        Item::Code { at, wide, code, .. } => {
            if let Some(path) = code.path(*at, *wide) {
                filled(surface, Colour::rgb(0));
                surface.draw_path(&path);
            }
        }
        Item::Again(item) => paint(surface, item, photos),
        Item::Cut { from, to } => dashed(surface, *from, *to),
        Item::Fill { at, size, colour } => rectangle(surface, *at, *size, *colour),
    }
}

/// How a page is marked where it is cut apart: width, dash and gap, in points. (Own
/// choice.)
const CUT: [f32; 3] = [0.6, 6.0, 4.0];

fn dashed(surface: &mut Surface<'_>, from: [f32; 2], to: [f32; 2]) {
    let [width, dash, gap] = CUT;
    let mut path = PathBuilder::new();
    path.move_to(from[0], from[1]);
    path.line_to(to[0], to[1]);
    let Some(path) = path.finish() else { return };
    surface.set_fill(None);
    surface.set_stroke(Some(Stroke {
        paint: figure::ink(Colour::rgb(0x60_60_60)).into(),
        width,
        dash: Some(StrokeDash {
            array: vec![dash, gap],
            offset: 0.0,
        }),
        ..Stroke::default()
    }));
    surface.draw_path(&path);
}

fn letters(surface: &mut Surface<'_>, piece: &Piece, [x, y]: [f32; 2]) {
    filled(surface, piece.style.colour);
    let start = Point::from_xy(x + piece.x, y);
    let font = piece.style.weight.face().embedded.clone();
    let glyphs = &piece.shaped.glyphs;
    surface.draw_glyphs(start, glyphs, font, &piece.text, piece.style.size, false);
}

fn artifact(surface: &mut Surface<'_>, kind: ArtifactType, draw: impl FnOnce(&mut Surface<'_>)) {
    // It belongs to no part, and so nothing takes what names it.
    let _ = surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(kind)));
    draw(surface);
    surface.end_tagged();
}

fn rectangle(surface: &mut Surface<'_>, at: [f32; 2], size: [f32; 2], colour: Colour) {
    let mut path = PathBuilder::new();
    if let Some(rect) = Rect::from_xywh(at[0], at[1], size[0], size[1]) {
        path.push_rect(rect);
    }
    if let Some(path) = path.finish() {
        filled(surface, colour);
        surface.draw_path(&path);
    }
}

fn filled(surface: &mut Surface<'_>, colour: Colour) {
    surface.set_stroke(None);
    surface.set_fill(Some(Fill {
        paint: figure::ink(colour).into(),
        ..Fill::default()
    }));
}
