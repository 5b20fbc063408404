//! The folds to choose from, in English.

use super::ChoosingTexts;

pub(in crate::texts) const TEXTS: ChoosingTexts = ChoosingTexts {
    find: "Find a fold",
    find_by: "A name, a size or an envelope",
    what_it_does: "What it does",
    strip: "Panels side by side",
    shaped: "Corners, edges and windows",
    crosswise: "Folded both ways",
    rising: "Something rises as it opens",
    glued: "Pieces glued in",
    one_sheet: "From one sheet",
    both_sides: "Shows both sides",
    rises: "Rises",
    one_found: "One fold",
    none_found: "No fold goes with all of that.",
    show_all: "Show all folds",
    found: "{count} folds",
};

pub(super) fn also_called(id: &str) -> &'static str {
    match id {
        "book" => "half fold, single fold, bifold, book fold, 4 panel",
        "tent" => "half fold, single fold, notecard",
        "letter" => "trifold, tri-fold, C-fold, C fold",
        "z" => "trifold, tri-fold, zigzag, zig-zag",
        "accordion" => "zigzag, zig-zag, concertina, fan fold, leporello",
        "steps" => "graduated fold, stair fold",
        "gate" => "gatefold, gate fold, window fold",
        "double-parallel" => "parallel fold, closed gate",
        "roll" => "barrel fold, rollfold",
        "pleats" => "tuck, knife pleat",
        "concertina" => "accordion spine, album, book",
        "corner" => "dog-ear",
        "pointed" => "envelope front, arrow",
        "slanted" => "diagonal, angled",
        "shaped-gate" | "arched-gate" => "gatefold, gate fold",
        "window" => "aperture, peekaboo",
        "step" => "pop-up, parallel fold, stage",
        "box" => "pop-up, cube",
        "stairs" => "pop-up, staircase",
        "beak" => "pop-up, mouth, bird",
        "pocket" => "gift card holder, money",
        "quarter" => "quarter fold, right-angle fold, quarto",
        "corners-in" => "envelope fold, four corners",
        "star" => "squash fold, explosion, lotus",
        "v-fold" => "pop-up, wings",
        "platform" => "pop-up, stage, bridge",
        "patch-pocket" => "gift card holder, money, tag",
        "stand" => "easel, strut",
        "nested" => "pull-out, accordion, waterfall",
        "own" => "blank, custom",
        _ => "",
    }
}
