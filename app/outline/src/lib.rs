//! The closed outlines in an SVG file, to be cut as layers: as large as the file says by
//! SVG 2 and by the units of CSS, or as wide as a maker wants one.
//!
//! What is read is the shape alone: strokes, fills and styles say nothing of where paper
//! is cut. [`read`] gives every closed outline with what lies directly in it, and counts
//! what it leaves out.

mod drawing;
mod frame;
mod path;
mod ring;
mod shape;
mod walk;

pub use drawing::{Drawing, Found, MOST_OUTLINES, Unfit};
pub use walk::LeftOut;

use roxmltree::{Document, ParsingOptions};

use crate::frame::Frame;
use crate::walk::Walk;

/// The largest file that is read, in bytes. Our own bound: a hundred times the outline
/// of a die.
pub const LARGEST: usize = 2_000_000;

/// The most elements, those drawn again by `use` among them. Our own bound.
const MOST_ELEMENTS: u32 = 50_000;

/// The namespace of SVG (SVG 2, §1.2).
const SVG: &str = "http://www.w3.org/2000/svg";

/// Why nothing is read of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// It has more than [`LARGEST`] bytes.
    TooLarge,
    /// It is no SVG.
    NoSvg,
    /// It has more elements or longer paths than are read.
    TooMuch,
    /// Its size is nothing, or its `viewBox` can't be read.
    NoFrame,
    /// There is no closed outline in it.
    NoOutline,
}

/// The outlines in the text of an SVG file, the largest first.
pub fn read(text: &str) -> Result<Drawing, (Refusal, Vec<(LeftOut, usize)>)> {
    let refuse = |why| (why, Vec::new());
    if text.len() > LARGEST {
        return Err(refuse(Refusal::TooLarge));
    }
    let options = ParsingOptions {
        // Entities are common in files of drawing programs; the parser bounds them.
        allow_dtd: true,
        nodes_limit: MOST_ELEMENTS * 4,
        entity_resolver: None,
    };
    let text = text.trim_start_matches('\u{FEFF}');
    let document = Document::parse_with_options(text, options).map_err(|why| match why {
        roxmltree::Error::NodesLimitReached => refuse(Refusal::TooMuch),
        _ => refuse(Refusal::NoSvg),
    })?;
    let root = document.root_element();
    let space = root.tag_name().namespace();
    if root.tag_name().name() != "svg" || space.is_some_and(|space| space != SVG) {
        return Err(refuse(Refusal::NoSvg));
    }
    let frame = Frame::of_root(root).ok_or_else(|| refuse(Refusal::NoFrame))?;
    let told = frame.told;
    let mut walk = Walk::new(&document, told);
    let is_all = walk.root(root, &frame);
    let (rings, mut left_out) = walk.end();
    if !is_all {
        return Err((Refusal::TooMuch, left_out.into_iter().collect()));
    }
    match Drawing::of(rings, &mut left_out, told) {
        Some(drawing) => Ok(drawing),
        None => Err((Refusal::NoOutline, left_out.into_iter().collect())),
    }
}
