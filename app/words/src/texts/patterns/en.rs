//! What is said as a recipe is made of a crease pattern in a file, in English.

use super::PatternTexts;

pub(in crate::texts) const TEXTS: PatternTexts = PatternTexts {
    how_large: "How large is the sheet?",
    untold: "The file does not say how long its lengths are. Give the longer side of the flat sheet.",
    longer_side: "Longer side",
    no_size: "Give a length above 0 and up to 10 m.",
    add: "Add the recipe",
    open: "Open it",
    no_fold: "This is no crease pattern in the format FOLD, or the file is damaged.",
    version: "This file is of a later version of the format FOLD. Save it as version 1.2.",
    too_much: "This pattern has more vertices, edges or frames than can be read. Save a smaller part of it.",
    no_pattern: "There is no crease pattern in this file: it lacks the places of vertices, or edges. \
                 Save it with both.",
    folded: "This file shows something folded. Save the flat crease pattern.",
    in_space: "This pattern does not lie flat. Save the flat crease pattern.",
    too_long: "At the size in the file this sheet is longer than 10 m. Save it with another unit.",
    no_border: "No edge is marked as the border, and creases lie outermost. Mark the border (B).",
    sheets: "There are several sheets in this pattern. Save each as a file of its own.",
    crossed: "The border crosses or touches itself, or a hole does. Mend it, then choose the file again.",
    too_fine: "A part of the border is finer than can be cut. Make it simpler, then choose the file again.",
    order: "Which panel lies on which is not read; the card asks where it is open.",
    added: "Added “{name}”, {size}.",
    too_large: "This file is larger than {megabytes} MB. Save the crease pattern alone.",
    damaged: "Entry {number} of “{list}” in this file can’t be read. Save it again where it came from.",
    damaged_list: "The list “{list}” in this file can’t be read, or is too short or too long. \
                   Save it again where it came from.",
    border: "The border is open, branches or touches itself {left} from the left, {bottom} from the \
             bottom. Close it there.",
    lines: "This pattern has {number} lines; a recipe holds {most}. Leave some out.",
    panels: "This pattern has {number} panels in a row; a recipe holds {most}. Leave some out.",
    cutouts: "This pattern has {number} holes and cut-off parts; a recipe holds {most}. Leave some out.",
    unassigned: "Creases without a direction: {count}. They are valleys until you turn them over.",
    flat: "Creases that stay flat, left out: {count}.",
    partly: "Creases folded part of the way: {count}. Here they are folded flat.",
    unknown: "Edges of an unknown kind, left out: {count}.",
    twice: "Edges that lie on others, left out: {count}.",
    points: "Edges without length, left out: {count}.",
    beside: "Edges beside the paper, left out: {count}.",
    frames: "Further frames in the file, left out: {count}.",
    moved: "Points were moved by up to {length}, to where paper has them one or straight.",
};
