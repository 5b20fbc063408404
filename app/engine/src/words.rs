//! Instructions in the maker's words, the same on every screen and on paper.

use crate::card::Card;
use crate::paper::{Print, Stock, StockSide};
use crate::plane::Turn;
use crate::print::Lay;
use crate::recipe::{Face, Fold, Recipe, Side};
use crate::score::{AtStop, Pass, ScoreMark};

/// What people call a face: "the outside of panel 1".
pub fn face_name(recipe: &Recipe, face: Face) -> String {
    let panel = recipe
        .panel(face.panel)
        .map_or("a missing panel", |(_, panel)| panel.name.as_str());
    format!("the {} of {panel}", face.side.word())
}

/// Which way a print's head points, for someone in front of the table.
fn head_words(head: Turn) -> &'static str {
    match head {
        Turn::None => "the print upright",
        Turn::Left => "the print's head to the left",
        Turn::Half => "the print's feet away from you",
        Turn::Right => "the print's head to the right",
    }
}

/// How to lay the sheet and which way to cut the strip from it.
pub fn how_to_cut(recipe: &Recipe, card: &Card) -> Vec<String> {
    let (Some(print), Some(stock)) = (&card.print, recipe.stock(card.laid.base.stock)) else {
        return Vec::new();
    };
    let size = card.laid.base.size;
    let strip = recipe.notation.size(size.width, size.height);
    let way = match (print.lay.runs_across(), has_direction(stock, print.lay)) {
        (true, true) => "its length running across the print (landscape)",
        (false, true) => "its length running up the print (portrait)",
        (true, false) => "its length across the width of the sheet",
        (false, false) => "its length up the height of the sheet",
    };
    let mut words = vec![
        "Lay the sheet face up, the way its width and height are given.".to_owned(),
        format!("Cut the strip {strip}, {way}."),
    ];
    if stock.face != stock.back {
        let outside = match print.lay.outside {
            StockSide::Face => "The face of the paper becomes the outside of the card.",
            StockSide::Back => "The back of the paper becomes the outside of the card.",
        };
        words.push(outside.to_owned());
    }
    words
}

fn has_direction(stock: &Stock, lay: Lay) -> bool {
    [Side::A, Side::B].into_iter().any(|side| {
        let print = stock.side(lay.stock_side(side)).print;
        matches!(print, Print::OneWay | Print::TwoWay)
    })
}

/// How to lay the strip on the scoring board: "Lay the strip inside up, the
/// print's feet away from you, the short edge of panel 1 at the stop."
pub fn how_to_lay(recipe: &Recipe, card: &Card, pass: &Pass) -> String {
    let base = &card.laid.base;
    let panels = &recipe.base.panels;
    let at_stop = match pass.at_stop {
        AtStop::First => panels.first(),
        AtStop::Last => panels.last(),
    };
    let panel = at_stop.map_or("the strip", |panel| panel.name.as_str());
    let edge = if base.size.height > base.size.width {
        "long"
    } else {
        "short"
    };
    let head = pass
        .head
        .map(|head| format!(", {}", head_words(head)))
        .unwrap_or_default();
    format!(
        "Lay the strip {} up{head}, the {edge} edge of {panel} at the stop.",
        pass.up.word()
    )
}

/// One line of the score chart: "Score at 1 3/4 in."
pub fn score_line(recipe: &Recipe, mark: &ScoreMark) -> String {
    format!("Score at {}.", recipe.notation.with_unit(mark.exact))
}

/// How a score folds, and where its bump goes.
pub fn fold_words(mark: &ScoreMark) -> &'static str {
    match (mark.fold, mark.bump_inside) {
        (Fold::Mountain, true) => "mountain, bump inside the fold",
        (Fold::Mountain, false) => "mountain, bump outside the fold",
        (Fold::Valley, true) => "valley, bump inside the fold",
        (Fold::Valley, false) => "valley, bump outside the fold",
    }
}

/// What to do between two passes.
pub fn between_passes(before: &Pass, after: &Pass) -> String {
    let over = before.up != after.up;
    let round = before.at_stop != after.at_stop;
    match (over, round) {
        (true, false) => {
            "Turn the strip over about its long axis, so that the same edge stays at the stop."
        }
        (true, true) => {
            "Turn the strip over about its short axis, so that the other edge comes to the stop."
        }
        (false, true) => {
            "Turn the strip round on the table, so that the other edge comes to the stop."
        }
        (false, false) => "Leave the strip as it lies.",
    }
    .to_owned()
}

/// The card in a sentence, for those who cannot see the figure.
pub fn card_in_words(recipe: &Recipe, card: &Card) -> String {
    let size = recipe
        .notation
        .size(card.finished.width, card.finished.height);
    let panels = recipe.base.panels.len();
    let noun = if panels == 1 { "panel" } else { "panels" };
    match &card.folded {
        None => format!("A strip of {panels} {noun} that does not fold flat."),
        Some(folded) => {
            let front = folded
                .states
                .first()
                .and_then(|closed| closed.order.last())
                .and_then(|place| recipe.base.panels.get(*place))
                .map_or("a panel", |panel| panel.name.as_str());
            format!("A card of {panels} {noun}, closed {size}, with {front} in front.")
        }
    }
}
