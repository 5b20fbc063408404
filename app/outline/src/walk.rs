//! Goes through the elements that are drawn, and collects closed outlines.

use std::collections::{BTreeMap, HashMap};

use kurbo::PathEl;
use roxmltree::{Document, Node};

use crate::frame::{Along, Frame, length};
use crate::ring::Ring;
use crate::shape::shape;
use crate::{MOST_ELEMENTS, SVG};

/// How deep elements may lie in each other. Our own bound.
const DEEPEST: u32 = 100;

/// The most pieces of all paths together. Our own bound.
const MOST_PIECES: usize = 50_000;

const XLINK: &str = "http://www.w3.org/1999/xlink";

/// What is left out of a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LeftOut {
    /// Texts.
    Text,
    /// Images.
    Picture,
    /// Lines that enclose nothing.
    Open,
    /// What is hidden.
    Hidden,
    /// Shapes, or what is placed, whose numbers can't be read.
    Unread,
    /// What is drawn again from elsewhere, and is not there or leads in a circle.
    Missing,
    /// Other things that are drawn.
    Other,
    /// What a style sheet or a `style` may place, hide or shape: it is taken as if it did
    /// not.
    Styled,
    /// What is cut off by a clipping path or a mask: it is taken whole.
    Clipped,
    /// Outlines larger than anything that is cut from paper.
    Huge,
    /// Outlines besides those that are offered, which are larger.
    Smaller,
}

pub(crate) type Counts = BTreeMap<LeftOut, usize>;

/// What has been collected.
pub(crate) struct Walk<'a> {
    by_id: HashMap<&'a str, Node<'a, 'a>>,
    /// Whether millimetres are known.
    told: bool,
    rings: Vec<Ring>,
    left_out: Counts,
    elements: u32,
    pieces: usize,
}

/// What holds where an element is drawn.
#[derive(Clone, Copy)]
struct Here {
    frame: Frame,
    is_seen: bool,
    depth: u32,
}

/// There is more than is read.
struct TooMuch;

/// A property in `style`.
fn styled<'a>(node: Node<'a, '_>, name: &str) -> Option<&'a str> {
    let style = node.attribute("style").unwrap_or_default();
    let mut told = style.rsplit(';').filter_map(|one| one.split_once(':'));
    let told = told.find(|(property, _)| property.trim() == name);
    told.map(|(_, value)| value.trim())
}

/// A property, told by an attribute or in `style`.
fn property<'a>(node: Node<'a, '_>, name: &str) -> Option<&'a str> {
    styled(node, name).or_else(|| node.attribute(name).map(str::trim))
}

/// The properties by which CSS places and shapes what is drawn (CSS Transforms 1 and 2,
/// and SVG 2, §7.4).
const PLACING: [&str; 14] = [
    "transform",
    "translate",
    "rotate",
    "scale",
    "d",
    "x",
    "y",
    "width",
    "height",
    "r",
    "rx",
    "ry",
    "cx",
    "cy",
];

/// Whether a text of CSS says something of where things are and whether they are seen.
fn places(css: &str) -> bool {
    let names = [
        "transform",
        "translate",
        "rotate",
        "scale",
        "display",
        "visibility",
    ];
    names.into_iter().any(|name| css.contains(name))
}

impl<'a> Walk<'a> {
    pub(crate) fn new(document: &'a Document<'a>, told: bool) -> Self {
        let mut by_id = HashMap::new();
        for node in document.descendants() {
            if let Some(id) = node.attribute("id") {
                by_id.entry(id).or_insert(node);
            }
        }
        Self {
            by_id,
            told,
            rings: Vec::new(),
            left_out: Counts::new(),
            elements: 0,
            pieces: 0,
        }
    }

    /// Walks through all of it; `false` where there is more than is read.
    pub(crate) fn root(&mut self, root: Node<'a, 'a>, frame: &Frame) -> bool {
        let here = Here {
            frame: *frame,
            is_seen: true,
            depth: 0,
        };
        self.children(root, here).is_ok()
    }

    /// What was found, and what was left out.
    pub(crate) fn end(self) -> (Vec<Ring>, Counts) {
        (self.rings, self.left_out)
    }

    fn leave_out(&mut self, what: LeftOut) {
        *self.left_out.entry(what).or_default() += 1;
    }

    fn children(&mut self, node: Node<'a, 'a>, here: Here) -> Result<(), TooMuch> {
        for child in node.children().filter(Node::is_element) {
            let space = child.tag_name().namespace();
            if space.is_none_or(|space| space == SVG) {
                self.element(child, here)?;
            }
        }
        Ok(())
    }

    fn element(&mut self, node: Node<'a, 'a>, outer: Here) -> Result<(), TooMuch> {
        self.elements += 1;
        if self.elements > MOST_ELEMENTS || outer.depth > DEEPEST {
            return Err(TooMuch);
        }
        let name = node.tag_name().name();
        match name {
            "style" => {
                if node.text().is_some_and(places) {
                    self.leave_out(LeftOut::Styled);
                }
                return Ok(());
            }
            "defs" | "symbol" | "clipPath" | "mask" | "marker" | "pattern" | "filter"
            | "linearGradient" | "radialGradient" | "title" | "desc" | "metadata" | "script"
            | "view" | "cursor" | "font" | "animate" | "animateTransform" | "animateMotion"
            | "set" => return Ok(()),
            _ => {}
        }
        if property(node, "display") == Some("none") {
            self.leave_out(LeftOut::Hidden);
            return Ok(());
        }
        let Some(frame) = outer.frame.moved(node) else {
            self.leave_out(LeftOut::Unread);
            return Ok(());
        };
        let is_seen = match property(node, "visibility") {
            Some("hidden" | "collapse") => false,
            Some("visible") => true,
            _ => outer.is_seen,
        };
        let here = Here {
            frame,
            is_seen,
            depth: outer.depth + 1,
        };
        let is_placed = PLACING.iter().any(|name| styled(node, name).is_some());
        if is_placed || node.has_attribute("transform-origin") {
            self.leave_out(LeftOut::Styled);
        }
        let clips = |name| property(node, name).is_some_and(|value| value != "none");
        if clips("clip-path") || clips("mask") {
            self.leave_out(LeftOut::Clipped);
        }
        match name {
            "g" | "a" => self.children(node, here),
            "svg" => self.inner(node, None, here),
            "use" => self.again(node, here),
            "path" | "rect" | "circle" | "ellipse" | "polygon" | "polyline" => {
                self.shape(node, here)
            }
            "line" => {
                self.leave_out(LeftOut::Open);
                Ok(())
            }
            "text" => {
                self.leave_out(LeftOut::Text);
                Ok(())
            }
            "image" => {
                self.leave_out(LeftOut::Picture);
                Ok(())
            }
            _ => {
                self.leave_out(LeftOut::Other);
                Ok(())
            }
        }
    }

    /// A viewport of its own: an `svg` element, or a `symbol` that another draws.
    fn inner(
        &mut self,
        node: Node<'a, 'a>,
        by: Option<Node<'a, 'a>>,
        here: Here,
    ) -> Result<(), TooMuch> {
        let Some(frame) = here.frame.within(node, by) else {
            self.leave_out(LeftOut::Unread);
            return Ok(());
        };
        self.children(node, Here { frame, ..here })
    }

    /// Draws again what stands elsewhere (SVG 2, §5.5).
    fn again(&mut self, node: Node<'a, 'a>, here: Here) -> Result<(), TooMuch> {
        let href = node
            .attribute("href")
            .or_else(|| node.attribute((XLINK, "href")));
        let id = href.and_then(|href| href.trim().strip_prefix('#'));
        let Some(target) = id.and_then(|id| self.by_id.get(id)).copied() else {
            self.leave_out(LeftOut::Missing);
            return Ok(());
        };
        // It would draw itself.
        if node.ancestors().any(|outer| outer == target) {
            self.leave_out(LeftOut::Missing);
            return Ok(());
        }
        let number = |name: &str, along| match node.attribute(name) {
            Some(text) => length(text, here.frame.room, along),
            None => Some(0.0),
        };
        let at = number("x", Along::Width).zip(number("y", Along::Height));
        let Some(at) = at else {
            self.leave_out(LeftOut::Unread);
            return Ok(());
        };
        let mut frame = here.frame;
        frame.place *= kurbo::Affine::translate(at);
        let here = Here { frame, ..here };
        if target.tag_name().name() == "symbol" {
            let Some(frame) = here.frame.moved(target) else {
                self.leave_out(LeftOut::Unread);
                return Ok(());
            };
            self.inner(target, Some(node), Here { frame, ..here })
        } else {
            self.element(target, here)
        }
    }

    fn shape(&mut self, node: Node<'a, 'a>, here: Here) -> Result<(), TooMuch> {
        if !here.is_seen {
            self.leave_out(LeftOut::Hidden);
            return Ok(());
        }
        let Some(mut path) = shape(node, here.frame.room) else {
            self.leave_out(LeftOut::Unread);
            return Ok(());
        };
        self.pieces += path.elements().len();
        if self.pieces > MOST_PIECES {
            return Err(TooMuch);
        }
        path.apply_affine(here.frame.place);
        for part in path.subpaths() {
            // A point from where nothing is drawn.
            if matches!(part, [PathEl::MoveTo(_)] | []) {
                continue;
            }
            match Ring::of(part, self.told) {
                Ok(ring) => self.rings.push(ring),
                Err(why) => self.leave_out(why),
            }
        }
        Ok(())
    }
}
