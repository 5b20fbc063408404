//! Instructions in the maker's words, the same on every screen and on paper.

use crate::card::Card;
use crate::fold::{Opened, State};
use crate::glue::Gluing;
use crate::length::{Length, Notation, Step, nearest};
use crate::paper::{EnvelopeFit, Heads, Lies, Print, SideLook, Stock, StockSide};
use crate::pattern::{Facet, LineId, LineKind};
use crate::plane::{Bearing, Size, Turn, bounds};
use crate::print::LayReport;
use crate::problem::sentence;
use crate::reach::Reacher;
use crate::recipe::{Change, End, Face, Fold, PieceId, Place, Recipe, Shaped, Side};
use crate::score::{AtStop, Pass, ScoreMark};

/// What people call a face: "the outside of panel 1".
pub fn face_name(recipe: &Recipe, face: Face) -> String {
    let panel = recipe.panel_name(face.panel);
    let of = recipe.strip_with(face.panel).and_then(|(of, ..)| of);
    format!("the {} of {panel}", side_word(of, face.side))
}

/// What people call a side of the base, "inside" or "outside", or of a piece
/// glued in, "front" or "back".
pub const fn side_word(of: Option<PieceId>, side: Side) -> &'static str {
    match (of, side) {
        (None, side) => side.word(),
        (Some(_), Side::A) => "front",
        (Some(_), Side::B) => "back",
    }
}

/// What people call the base, "the strip", or a piece glued in.
pub fn piece_name(recipe: &Recipe, of: Option<PieceId>) -> &str {
    match of {
        None => "the strip",
        Some(id) => recipe.piece(id).map_or("a piece", |piece| &piece.name),
    }
}

/// What people call what reaches past something: a layer, or a panel of a piece.
pub fn reacher_name(recipe: &Recipe, of: Reacher) -> String {
    match of {
        Reacher::Layer(id) => recipe
            .layer(id)
            .map_or("a layer".to_owned(), |layer| layer.name.clone()),
        Reacher::Panel(id) => {
            let of = recipe.strip_with(id).and_then(|(of, ..)| of);
            format!("{} of {}", recipe.panel_name(id), piece_name(recipe, of))
        }
    }
}

/// A part that falls off, by its size and where on the flat piece it is, seen
/// from side A: "4 × 4 in at the top left". `None` where there is no such part.
pub fn fallen_words(
    recipe: &Recipe,
    card: &Card,
    of: Option<PieceId>,
    part: usize,
) -> Option<String> {
    let piece = card.laid.piece(of)?;
    let corners = piece.fallen.get(part)?.iter();
    let corners: Vec<_> = corners.flat_map(Facet::corners).collect();
    let within = bounds(&corners)?;
    let size = within.size();
    let size = recipe.notation.size(size.width, size.height);
    // Which third of the piece its middle is in.
    let third = |low: Length, high: Length, whole: Length| {
        let middle = (low + high) * 3;
        (middle >= whole * 2, middle > whole * 4)
    };
    let up = match third(within.low.y, within.high.y, piece.size.height) {
        (false, _) => "bottom",
        (true, false) => "",
        (true, true) => "top",
    };
    let across = match third(within.low.x, within.high.x, piece.size.width) {
        (false, _) => "left",
        (true, false) => "",
        (true, true) => "right",
    };
    let at = match (up, across) {
        ("", "") => "in the middle".to_owned(),
        ("", at) | (at, "") => format!("at the {at}"),
        (up, across) => format!("at the {up} {across}"),
    };
    Some(format!("{size} {at}"))
}

/// What people call a line: "score at 4 1/4 in", "crease across the corner".
pub fn line_name(recipe: &Recipe, id: LineId) -> String {
    if let Some(score) = id.score() {
        let widths = recipe.base.panels.iter().take(score + 1);
        let at = widths.map(|panel| recipe.value(panel.width)).sum();
        return format!("score at {}", recipe.notation.with_unit(at));
    }
    if let Some(after) = id.piece_score() {
        let Some((Some(of), strip, place)) = recipe.strip_with(after) else {
            return "missing score".to_owned();
        };
        let widths = strip.panels.iter().take(place + 1);
        let at = widths.map(|panel| recipe.value(panel.width)).sum();
        let name = recipe
            .piece(of)
            .map_or("a piece", |piece| piece.name.as_str());
        return format!("score of {name} at {}", recipe.notation.with_unit(at));
    }
    let line = id.line().and_then(|line| recipe.line(line));
    line.map_or("missing line".to_owned(), |line| match line.kind {
        LineKind::Crease(_) => format!("crease “{}”", line.name),
        LineKind::Cut => format!("cut “{}”", line.name),
    })
}

/// What a line does and where it runs, from the left and from below: "Valley
/// from 0 in, 2 1/8 in to 2 1/8 in, 0 in".
pub fn line_facts(recipe: &Recipe, id: LineId) -> String {
    let kind = match recipe.line(id).map(|line| line.kind) {
        Some(LineKind::Crease(Fold::Mountain)) => "Mountain",
        Some(LineKind::Crease(Fold::Valley)) => "Valley",
        Some(LineKind::Cut) => "Cut",
        None => return String::new(),
    };
    let at = |end| {
        let at = recipe.line_end(id, end)?;
        let written = |length| recipe.notation.with_unit(length);
        Some(format!("{}, {}", written(at.x), written(at.y)))
    };
    match (at(End::From), at(End::To)) {
        (Some(from), Some(to)) => format!("{kind} from {from} to {to}"),
        _ => kind.to_owned(),
    }
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

/// How a print runs that is turned so from upright: "runs 30° to the right of
/// upright".
pub fn turn_words(turned: Bearing) -> String {
    match turned.looks_like() {
        Some(Turn::None) => "is upright".to_owned(),
        Some(Turn::Left) => "lies on its side, its head to the left".to_owned(),
        Some(Turn::Half) => "is upside down".to_owned(),
        Some(Turn::Right) => "lies on its side, its head to the right".to_owned(),
        None => {
            let (cos, sin) = turned.cos_sin();
            let degrees = sin.atan2(cos).to_degrees();
            let side = if degrees > 0.0 { "left" } else { "right" };
            let off = degrees.abs();
            // To a tenth where it is no whole number.
            let off = (off * 10.0).round() / 10.0;
            format!("runs {off}° to the {side} of upright")
        }
    }
}

/// How to lay the sheet and which way to cut the base, or a piece glued in, from
/// it.
pub fn how_to_cut(recipe: &Recipe, card: &Card, of: Option<PieceId>) -> Vec<String> {
    let Some(piece) = card.laid.piece(of) else {
        return Vec::new();
    };
    let (Some(print), Some(stock)) = (card.print_of(of), recipe.stock(piece.stock)) else {
        return Vec::new();
    };
    let size = piece.size;
    let strip = recipe.notation.size(size.width, size.height);
    let way = match (print.lay.runs_across(), has_direction(stock)) {
        (true, true) => "its length running across the print (landscape)",
        (false, true) => "its length running up the print (portrait)",
        (true, false) => "its length across the sheet",
        (false, false) => "its length up the sheet",
    };
    let mut words = vec![
        format!(
            "Lay the sheet face up, {}its {} side towards you.",
            upright_words(stock),
            recipe.notation.with_unit(stock.width)
        ),
        format!("Cut {} {strip}, {way}.", piece_name(recipe, of)),
    ];
    if sides_matter(stock) {
        let on_sheet = print.lay.on_table();
        let outside = side_word(of, Side::B);
        words.push(format!(
            "As it lies there, its {} is up, with {} at the {}.",
            side_word(of, on_sheet.up),
            first_end(recipe, of),
            on_sheet.first.word()
        ));
        let behind = match print.lay.outside {
            StockSide::Face => "face",
            StockSide::Back => "back",
        };
        words.push(format!("The {behind} of the paper becomes its {outside}."));
    }
    words
}

/// Which way round a sheet lies whose width alone does not tell: "the print
/// upright, ".
fn upright_words(stock: &Stock) -> &'static str {
    let points = |look: SideLook| matches!(look.print, Print::OneWay | Print::TwoWay);
    match (points(stock.face), points(stock.back), stock.heads) {
        (true, ..) => "the print upright, ",
        (false, true, Heads::ToHead) => "the head of the print under it away from you, ",
        (false, true, Heads::ToFoot) => "the head of the print under it towards you, ",
        (false, false, _) => "",
    }
}

/// The end of the base, or of a piece glued in, at which its first panel is:
/// the panel's name, or the left edge of the only one.
fn first_end(recipe: &Recipe, of: Option<PieceId>) -> String {
    let panels = recipe.strip(of).map(|strip| &strip.panels[..]);
    match panels.unwrap_or_default() {
        [first, _, ..] => first.name.clone(),
        [_] | [] => "its left edge".to_owned(),
    }
}

/// Whether it shows which side of a paper is up, or which way round it lies.
fn sides_matter(stock: &Stock) -> bool {
    stock.face != stock.back || has_direction(stock)
}

fn has_direction(stock: &Stock) -> bool {
    let looks = [stock.face, stock.back];
    let points = |look: SideLook| matches!(look.print, Print::OneWay | Print::TwoWay);
    looks.into_iter().any(points)
}

/// How to lay the base, or a piece glued in, on the scoring board: "Lay the strip inside up, the
/// print's feet away from you, the short edge of panel 1 at the fence."
pub fn how_to_lay(recipe: &Recipe, card: &Card, of: Option<PieceId>, pass: &Pass) -> String {
    let panels = recipe.strip(of).map(|strip| &strip.panels[..]);
    let panels = panels.unwrap_or_default();
    let at_stop = match pass.at_stop {
        AtStop::First => panels.first(),
        AtStop::Last => panels.last(),
    };
    let name = piece_name(recipe, of);
    let panel = at_stop.map_or(name, |panel| panel.name.as_str());
    let size = card.laid.piece(of).map_or_else(Size::default, |it| it.size);
    let edge = if size.height > size.width {
        "long"
    } else {
        "short"
    };
    let head = pass
        .head
        .map(|head| format!(", {}", head_words(head)))
        .unwrap_or_default();
    format!(
        "Lay {name} {} up{head}, the {edge} edge of {panel} at the fence.",
        side_word(of, pass.up)
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
        (true, false) => "Flip it over, same edge at the fence.",
        (true, true) => "Flip it end for end, the other edge at the fence.",
        (false, true) => "Turn it half round on the table, the other edge at the fence.",
        (false, false) => "Leave it as it lies.",
    }
    .to_owned()
}

/// The card in a sentence, for those who cannot see the figure. Its size is
/// told by [`closed_facts`].
pub fn card_in_words(recipe: &Recipe, card: &Card) -> String {
    let panels = card.laid.panels_of(&card.laid.base).len();
    let noun = if panels == 1 { "panel" } else { "panels" };
    match &card.folded {
        None => format!("A strip of {panels} {noun} that does not fold flat."),
        Some(folded) => {
            let without = without(recipe, card);
            let front = folded
                .states
                .first()
                .and_then(|closed| closed.order.last())
                .and_then(|place| card.laid.panels.get(*place))
                .map_or("a panel".to_owned(), |panel| recipe.panel_name(panel.id));
            format!("A card of {panels} {noun}, with {front} in front{without}.")
        }
    }
}

/// What the folded card is shown without, where pieces keep it from closing:
/// ", shown without piece 1".
fn without(recipe: &Recipe, card: &Card) -> String {
    let names = card.left_out.iter();
    let names: Vec<_> = names.map(|id| piece_name(recipe, Some(*id))).collect();
    if names.is_empty() {
        return String::new();
    }
    format!(", shown without {}", names.join(" and "))
}

/// How a measure moved: "strip length 12 → 12 1/4 in".
pub fn moved(recipe: &Recipe, change: &Change) -> String {
    let name = recipe
        .measure(change.measure)
        .map_or("a missing measure", |measure| measure.name.as_str());
    let (from, to) = (change.from, change.to);
    format!(
        "{name} {} → {}",
        recipe.notation.plain(from),
        recipe.notation.with_unit(to)
    )
}

/// What lies somewhere in another way than before: "Mat is placed by its
/// distances now."
pub fn placed_anew(recipe: &Recipe, before: &[(Shaped, Place)]) -> Vec<String> {
    let name = |of: Shaped| match of {
        Shaped::Layer(id) => recipe.layer(id).map(|layer| &layer.name),
        Shaped::Window(id) => recipe.cutout(id).map(|cutout| &cutout.name),
    };
    let now = recipe.places().into_iter();
    let changed = now.filter(|(of, place)| {
        let was = before.iter().find(|(it, _)| it == of);
        was.is_some_and(|(_, was)| was != place)
    });
    changed
        .filter_map(|(of, place)| {
            let how = match place {
                Place::Distances => "by its distances",
                Place::Border(_) => "by an even border",
                Place::At(_) => "at a point",
            };
            Some(sentence(format!("{} is placed {how} now.", name(of)?)))
        })
        .collect()
}

/// The closed card in numbers: size, thickness, mass.
pub fn closed_facts(recipe: &Recipe, card: &Card) -> String {
    if card.folded.is_none() {
        let strip = card.laid.base.size;
        let strip = recipe.notation.size(strip.width, strip.height);
        return format!("Strip {strip}; it does not fold flat");
    }
    let size = recipe
        .notation
        .size(card.finished.width, card.finished.height);
    let thickness = card.thickest.map_or(Length::ZERO, |place| place.thickness);
    let tenths = card.mass.tenths_of_a_gram();
    let decimal = recipe.notation.decimal;
    let metric = Notation {
        step: Step::TenthMillimetre,
        decimal,
    };
    let mark = decimal.as_str();
    let about = nearest(thickness, Step::TenthMillimetre).at;
    let without = without(recipe, card);
    format!(
        "Closed {size}, {} thick, {}{mark}{} g{without}",
        metric.with_unit(about),
        tenths / 10,
        tenths % 10
    )
}

/// What a moment of the opening is called, counted in scores opened: "Closed",
/// "panel 1 opened", "Flat".
pub fn moment_name(recipe: &Recipe, card: &Card, opened: f64) -> String {
    let states = card.folded.as_ref().map(|folded| &folded.states[..]);
    let Some(states) = states else {
        return "Does not fold flat".to_owned();
    };
    let last = states.len().saturating_sub(1);
    let reached = |number: usize| f64::from(u32::try_from(number).unwrap_or(u32::MAX)) <= opened;
    let number = (1..=last).take_while(|number| reached(*number)).count();
    let between = !reached(number) || opened.fract() > 0.0;
    let stops = card.folded.as_ref().is_some_and(|folded| folded.stops);
    if number == last && !stops {
        if let Some(words) = stop_words(card) {
            return words;
        }
        let stands = states.last().is_some_and(State::stands);
        return match (last, stands) {
            (0, _) => "No fold",
            (_, true) => "Open",
            (_, false) => "Flat",
        }
        .to_owned();
    }
    let end = if number == last {
        ", and no further"
    } else {
        ""
    };
    let opening = number + usize::from(between && number < last);
    if opening == 0 {
        return match end {
            "" => "Closed".to_owned(),
            _ => "Closed: something holds it shut".to_owned(),
        };
    }
    let swung = states
        .get(opening)
        .and_then(|state| swung(recipe, card, state.opened.as_ref()?))
        .unwrap_or_else(|| "a panel".to_owned());
    if between && number < last {
        format!("{swung} opening")
    } else {
        format!("{swung} opened{end}")
    }
}

/// How far a card opens that does not open all the way: "Open to 84°, and no
/// further".
pub(crate) fn stop_words(card: &Card) -> Option<String> {
    let degrees = card.whole.as_ref()?.stops_at?.round();
    Some(if degrees < 180.0 {
        format!("Open to {degrees:.0}°, and no further")
    } else {
        "Open as far as it goes".to_owned()
    })
}

/// More panels than these are counted, not named.
const MOST_NAMED: usize = 2;

/// What swings when creases open: the panels beside them that turn, or the whole
/// card.
pub(crate) fn swung(recipe: &Recipe, card: &Card, opened: &Opened) -> Option<String> {
    if opened.together {
        return Some("the card".to_owned());
    }
    let hinges = opened.hinges.iter();
    let hinges = hinges.filter_map(|hinge| card.laid.hinges.get(*hinge));
    let mut beside: Vec<usize> = hinges
        .flat_map(|hinge| [hinge.left, hinge.right])
        .filter(|panel| opened.moved.contains(panel))
        .collect();
    beside.sort_unstable();
    beside.dedup();
    if beside.len() > MOST_NAMED {
        return Some(format!("{} panels", beside.len()));
    }
    let panels = beside
        .iter()
        .filter_map(|panel| card.laid.panels.get(*panel));
    let names: Vec<_> = panels.map(|panel| recipe.panel_name(panel.id)).collect();
    (!names.is_empty()).then(|| names.join(" and "))
}

/// A way to lay a piece on its sheet, which lies face up, and what comes of it:
/// "Length across the sheet, front at the right, face outside: 2 a sheet, 1 of 2
/// sides upright".
pub fn lay_words(
    recipe: &Recipe,
    of: Option<PieceId>,
    stock: &Stock,
    report: &LayReport,
) -> String {
    let way = if report.lay.runs_across() {
        "Length across the sheet"
    } else {
        "Length up the sheet"
    };
    let first = first_end(recipe, of);
    let edge = report.lay.on_table().first.word();
    let side = match report.lay.outside {
        _ if !sides_matter(stock) => "",
        StockSide::Face if of.is_some() => ", face on its back",
        StockSide::Back if of.is_some() => ", face on its front",
        StockSide::Face => ", face outside",
        StockSide::Back => ", back outside",
    };
    let count = match report.per_sheet {
        0 => "does not fit the sheet".to_owned(),
        count => format!("{count} a sheet"),
    };
    let on_it = |face: &&Face| {
        recipe
            .strip_with(face.panel)
            .is_some_and(|(it, ..)| it == of)
    };
    let marked = recipe.upright.iter().filter(on_it).count();
    let upright = match marked {
        0 => String::new(),
        marked => format!(", {} of {marked} sides upright", report.upright.len()),
    };
    format!("{way}, {first} at the {edge}{side}: {count}{upright}")
}

/// How an envelope takes the card, to the nearest mark: "about 1/4 in to spare in
/// length, 1/8 in in height".
pub fn spare_words(recipe: &Recipe, fit: &EnvelopeFit) -> String {
    let lies = match fit.lies {
        Lies::Upright => "",
        Lies::Turned => ", the card turned",
    };
    let [length, height] = [fit.spare_length, fit.spare_height].map(|spare| {
        let marked = nearest(spare, recipe.notation.step).at;
        recipe.notation.with_unit(marked)
    });
    format!("about {length} to spare in length, {height} in height{lies}")
}

/// Where glue goes on the back of a layer, as it is seen when gluing.
pub fn glue_words(recipe: &Recipe, gluing: &Gluing) -> String {
    let Some(region) = gluing.wanted.as_ref().or(gluing.safe.as_ref()) else {
        return "There is no safe place for glue on its back.".to_owned();
    };
    let edges = gluing.edges(region);
    let [left, right, top, bottom] = [edges.left, edges.right, edges.top, edges.bottom]
        .map(|edge| recipe.notation.with_unit(edge));
    let shape = if region.is_rectangle() {
        ""
    } else {
        " Within that, keep to the shape that is shown."
    };
    format!(
        "On the back, keep glue {left} from the left edge, {right} from the right, {top} from the \
         top and {bottom} from the bottom.{shape}"
    )
}
