//! Templates and data that are taken from a shared recipe, in English.

use super::Taken;

pub(super) const TEXTS: Taken = Taken {
    templates_on_a4: "Templates, true to scale (A4)",
    templates_on_letter: "Templates, true to scale (Letter)",
    mirrored_on_a4: "Templates, mirrored (A4)",
    mirrored_on_letter: "Templates, mirrored (Letter)",
    outlines: "Outlines to cut (SVG)",
    mirrored_outlines: "Outlines, mirrored (SVG)",
    crease_pattern: "Crease pattern (FOLD)",
    tables: "Cut list and paper (CSV)",
    at_full_size: "Print at 100 % or “actual size”, never fitted to the page.",
    measure_first: "Then measure the ruler at the foot of a page. If it is not as long as it says, \
                    no part is.",
    seen_from_front: "The card base and what is folded are seen from the inside of the card, layers \
                      from their face.",
    seen_from_back: "All is mirrored, as it lies with its back up, for scoring from the back. \
                     Mountains and valleys are told as seen here.",
    cut: "Cut",
    mountain: "Mountain",
    valley: "Valley",
    glue: "Glue",
    how_lines_look: "Lines: cuts go through, mountains are dashes and dots, valleys dashes, glue \
                     is a tint with a dotted edge.",
    glue_here: "Glue goes on this side.",
    glue_behind: "Glue goes on the side behind.",
    print_head_up: "Print direction: head up.",
    print_head_left: "Print direction: head to the left.",
    print_head_down: "Print direction: head down.",
    print_head_right: "Print direction: head to the right.",
    print_upright_both_ways: "Print direction: up or down.",
    print_sideways_both_ways: "Print direction: left or right.",
    grain_up: "Grain: up and down.",
    grain_across: "Grain: from side to side.",
    print_arrow: "print",
    grain_arrow: "grain",
    turned_to_fit: "Turned by a quarter to fit.",
    bone_folder: "Bone folder",
    bone_folder_care: "Draw it along a ruler on a firm table, away from your other hand. Put one \
                       with a chipped edge or a broken tip aside. The tool maker's instructions \
                       come first.",
    joined: "This part is larger than a page and is joined from several.",
    how_to_join: "Cut one page along the join, lay it on the next, letter on letter and cross on \
                  cross, and tape them.",
    row: "Row",
    name: "Name",
    width: "Width",
    height: "Height",
    unit: "Unit",
    number: "Number",
    from_paper: "From",
    weight: "Weight, g/m²",
    part: "Part",
    paper: "Paper",
    envelope: "Envelope",
    supply: "Besides paper",
    templates_of: "{name}: templates",
    mirrored_templates_of: "{name}: mirrored templates",
    ruler: "Measure this to check the printer: it is {length} long.",
    pieces: "Pieces: {count}.",
    paper_of: "Paper: {name}.",
    true_to_scale: "{name}, {size}, true to scale",
    page_of_part: "Page {page} of {all} of this part.",
    where_it_lies: "Where page {page} of {all} lies in the part",
    too_many_pages: "It would take {pages} pages. Cut it by its measurements instead.",
};
