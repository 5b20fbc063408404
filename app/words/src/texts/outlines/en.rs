//! What is said as a layer is made of an outline in an SVG file, in English.

use super::OutlineTexts;

pub(in crate::texts) const TEXTS: OutlineTexts = OutlineTexts {
    from_svg: "Outline from an SVG file",
    about: "Choose the outline to cut. It becomes a layer; fills, strokes and colours are not used.",
    which: "Outlines in the file",
    width: "Width of the layer",
    untold: "The file does not say how large the outline is. Measure your die or stamp block and give its width.",
    with_holes: "Cut out what lies in it",
    add: "Add as a layer",
    left_out: "Not taken from the file",
    no_svg: "This is no SVG file, or it is damaged.",
    too_much: "This drawing has more in it than can be read. Save the outline alone, then choose that.",
    no_frame: "The size or the view box of this drawing can’t be read.",
    no_outline: "There is no closed outline in this file. Join the ends of its lines, then choose it again.",
    no_size: "Give a width above 0, with no side longer than 10 m.",
    empty: "This outline encloses nothing.",
    crossed: "This outline crosses or touches itself, or what lies in it does. Choose another, or \
              mend the drawing.",
    from_a_file: "From a file",
    too_large: "This file is larger than {megabytes} MB. Save the outline alone, then choose that.",
    too_fine: "At this width the outline has more than {most} corners. Make it smaller or simpler.",
    one: "Outline {number}",
    one_of_size: "Outline {number}, {width} × {height}",
    holes: "Holes: {count}",
    texts_left: "Texts: {count}. Turn them into paths in the drawing program.",
    pictures: "Images: {count}",
    open: "Open lines: {count}",
    hidden: "Hidden: {count}",
    unread: "Shapes that can’t be read: {count}",
    missing: "Copies of what is not in the file: {count}",
    others: "Other things: {count}",
    styled: "Style sheets that may move or hide something, which is not followed: {count}",
    clipped: "Clipped or masked, but taken whole: {count}",
    huge: "Outlines larger than 10 m: {count}",
    smaller: "Smaller outlines: {count}",
};
