//! The work step by step, in English.

use foldwright_engine::draw::letter;
use foldwright_engine::paper::StockSide;
use foldwright_engine::plane::Turn;
use foldwright_engine::recipe::{Face, Fold, Side};
use foldwright_engine::steps::{Instruction, Kind, Move, Off, Title};
use foldwright_gathered::gathered;

use crate::cutting::en as cutting;
use crate::names::{Called, Names};
use crate::nouns::en as nouns;
use crate::told::sentence;

#[gathered]
pub(crate) fn kind(kind: Kind) -> &'static str {
    match kind {
        Kind::Gather => "Gather",
        Kind::Cut => "Cut",
        Kind::Score => "Score",
        Kind::Fold => "Fold",
        Kind::Decorate => "Decorate",
        Kind::Glue => "Glue",
        Kind::Insert => "Insert",
        Kind::Dry => "Dry",
        Kind::Envelope => "Envelope",
        Kind::Own => "Your own step",
    }
}

#[gathered]
pub(crate) fn title(names: &Names<'_>, title: &Title) -> String {
    match *title {
        Title::Gather => "Take out your paper".to_owned(),
        Title::CutAt(fence) => format!("Cut at {}", names.short(fence)),
        Title::Check(part) => format!("Check {}", nouns::part(names, part)),
        Title::Cut(part) => format!("Cut {}", nouns::part(names, part)),
        Title::Trim { part, to } => {
            format!(
                "Trim {} to {}",
                nouns::part(names, part),
                names.short_size(to)
            )
        }
        Title::CutOut(id) => format!("Cut {}", nouns::cutout(names, id)),
        Title::CutLine(id) => format!("Make {}", nouns::line(names, id)),
        Title::Score { of, up: None } => format!("Score {}", nouns::strip(names, of)),
        Title::Score { of, up: Some(up) } => {
            let strip = nouns::strip(names, of);
            format!("Score {strip}, {} up", nouns::side(of, up))
        }
        Title::ScoreLine(id) => format!("Score {}", nouns::line(names, id)),
        Title::Fold { line, more } => match (names.line(line), more) {
            (Some(Called::Score(at)), 0) => format!("Fold at {}", names.short(at)),
            (Some(Called::Score(at)), 1) => {
                format!("Fold at {} and one more crease at once", names.short(at))
            }
            (Some(Called::Score(at)), more) => {
                let at = names.short(at);
                format!("Fold at {at} and {more} more creases at once")
            }
            (_, 0) => format!("Fold {}", nouns::line(names, line)),
            (_, 1) => {
                let line = nouns::line(names, line);
                format!("Fold {line} and one more crease at once")
            }
            (_, more) => {
                let line = nouns::line(names, line);
                format!("Fold {line} and {more} more creases at once")
            }
        },
        Title::Close => "Close the card".to_owned(),
        Title::FoldPiece(id) => format!("Fold {}", nouns::piece(names, id)),
        Title::Decorate(id) => format!("Decorate {}", nouns::layer(names, id)),
        Title::Glue(id, on) => {
            let layer = nouns::layer(names, id);
            format!("Glue {layer} to {}", nouns::seat(names, on))
        }
        Title::LayOn(id, on) => {
            let layer = nouns::layer(names, id);
            format!("Lay {layer} on {} without glue", nouns::seat(names, on))
        }
        Title::GlueIn { part, of, on } => {
            let (part, of) = (nouns::panel(names, part), nouns::piece(names, of));
            format!("Glue {part} of {of} to {}", nouns::face(names, on))
        }
        Title::Dry => "Let it dry".to_owned(),
        Title::Envelope => "Find its envelope".to_owned(),
        Title::Own(id) => names.own_step(id).to_owned(),
    }
}

#[gathered]
pub(crate) fn does(names: &Names<'_>, does: &Instruction) -> String {
    let length = |of| names.short(of);
    let size = |of| names.short_size(of);
    let layer = |id| nouns::layer(names, id);
    let panel = |id| nouns::panel(names, id);
    let strip = |of| nouns::strip(names, of);
    let seen = |id| nouns::side(names.strip_with(id), Side::A);
    sentence(match *does {
        Instruction::Batch(copies) => {
            format!("This is for {copies} cards. Do each step for all of them before the next.")
        }
        Instruction::OwnSheets => {
            "It takes no more sheets than these: each kind of piece is counted on its own."
                .to_owned()
        }
        Instruction::SharedSheets => {
            "Sheets are shared where that saves paper. Cut in the order of the steps, and put strips \
             by for later."
                .to_owned()
        }
        Instruction::SetFence(fence) => format!(
            "Set the fence {} from the blade. Measure from the edge against the fence.",
            length(fence)
        ),
        Instruction::Take {
            stock,
            what,
            count,
            edge,
            turned,
        } => {
            let stock = nouns::stock(names, stock);
            let what = cutting::taken(names, what, count, &stock);
            format!("{what} {}", cutting::at_fence(names, edge, turned))
        }
        Instruction::CutTimes { times, stack } => cutting::times(times, stack),
        Instruction::Falls {
            number,
            count,
            what,
        } => cutting::falls(names, &letter(number), count, what),
        Instruction::AlsoFor { number, part } => format!(
            "{} is for {} as well.",
            letter(number),
            nouns::part(names, part)
        ),
        Instruction::MeasureAcross(part) => format!(
            "Measure {} from edge to edge before you cut on.",
            nouns::part(names, part)
        ),
        Instruction::WholeSheet(part, stock) => format!(
            "{} is a whole sheet of {}: nothing is cut off.",
            nouns::part(names, part),
            nouns::stock(names, stock)
        ),
        Instruction::LayPiece(part, lies) => cutting::lay_piece(lies, &nouns::part(names, part)),
        Instruction::LaySheet { lies, side } => cutting::lay_sheet(lies, &length(side)),
        Instruction::MeasureFromCorner(part) => format!(
            "Measure {} from a square corner of its sheet.",
            nouns::part(names, part)
        ),
        Instruction::CutAt { part, left, top } => format!(
            "Cut {} {} from the left and {} from the upper edge of the sheet. It then shows the \
             part of the print you chose.",
            nouns::part(names, part),
            length(left),
            length(top)
        ),
        Instruction::CutStrip { of, size: is, runs } => {
            cutting::cut_strip(&strip(of), &size(is), runs)
        }
        Instruction::LiesThere {
            of,
            up,
            first: Some(first),
            at,
        } => format!(
            "As {} lies there, its {} is up, with {} {}.",
            strip(of),
            nouns::side(of, up),
            panel(first),
            nouns::edge(at)
        ),
        Instruction::LiesThere {
            of,
            up,
            first: None,
            at,
        } => format!(
            "As {} lies there, its {} is up, with its left edge {}.",
            strip(of),
            nouns::side(of, up),
            nouns::edge(at)
        ),
        Instruction::Outside(of, StockSide::Face) => format!(
            "The face of the paper becomes the {} of {}.",
            nouns::side(of, Side::B),
            strip(of)
        ),
        Instruction::Outside(of, StockSide::Back) => format!(
            "The back of the paper becomes the {} of {}.",
            nouns::side(of, Side::B),
            strip(of)
        ),
        Instruction::CutLayer(id, stock) => {
            format!("Cut {} from {}.", layer(id), nouns::stock(names, stock))
        }
        Instruction::UpPrint(id) => format!("The height of {} runs up the print.", layer(id)),
        Instruction::TopLies(id, at) => format!(
            "As {} lies there, its top edge is {}.",
            layer(id),
            nouns::edge(at)
        ),
        Instruction::RectangleFirst(id) => {
            format!("Cut {} as a rectangle of that size first.", layer(id))
        }
        Instruction::Shape(id, form) => cutting::shape(names, &layer(id), form),
        Instruction::MeasureFlat(of) => format!(
            "Lay {} {} up. Measure from its left edge and its bottom edge.",
            strip(of),
            nouns::side(of, Side::A)
        ),
        Instruction::DrawWindow(id, on) => {
            let window = nouns::cutout(names, id);
            format!("Draw {window} on {}, where the numbers say.", panel(on))
        }
        Instruction::CutWindow(id, form) => cutting::window(names, &nouns::cutout(names, id), form),
        Instruction::MeasureRadius(id) => {
            format!(
                "Measure the radius from the corner of {} along both edges.",
                panel(id)
            )
        }
        Instruction::RoundCorners {
            panel: id,
            which,
            radius,
        } => cutting::round_corners(&panel(id), which, &length(radius)),
        Instruction::MeasureDepth(id, side) => cutting::measure_depth(&panel(id), seen(id), side),
        Instruction::CutEdge {
            panel: id,
            runs,
            depth,
        } => cutting::cut_edge(&panel(id), runs, &length(depth)),
        Instruction::ScoreBetween(id) => format!(
            "Mark both ends of {}, lay a ruler along them and score between the marks.",
            nouns::line(names, id)
        ),
        Instruction::Becomes(id, of, Fold::Mountain) => format!(
            "{} becomes a mountain, seen from the {}.",
            nouns::line(names, id),
            nouns::side(of, Side::A)
        ),
        Instruction::Becomes(id, of, Fold::Valley) => format!(
            "{} becomes a valley, seen from the {}.",
            nouns::line(names, id),
            nouns::side(of, Side::A)
        ),
        Instruction::CutBetween(id) => format!(
            "Mark both ends of {} and cut from one to the other along a ruler, on a cutting mat.",
            nouns::line(names, id)
        ),
        Instruction::MeasureFromFence(of) => {
            format!("Measure every score of {} from the fence.", strip(of))
        }
        Instruction::Between(of, Move::Over) => {
            format!("Flip {} over, same edge at the fence.", strip(of))
        }
        Instruction::Between(of, Move::EndForEnd) => {
            format!(
                "Flip {} end for end, the other edge at the fence.",
                strip(of)
            )
        }
        Instruction::Between(of, Move::HalfRound) => format!(
            "Turn {} half round on the table, the other edge at the fence.",
            strip(of)
        ),
        Instruction::Between(of, Move::Stay) => format!("Leave {} as it lies.", strip(of)),
        Instruction::AtFence {
            of,
            up,
            panel: id,
            long: false,
        } => format!(
            "Lay {} {} up, the short edge of {} at the fence.",
            strip(of),
            nouns::side(of, up),
            panel(id)
        ),
        Instruction::AtFence {
            of,
            up,
            panel: id,
            long: true,
        } => format!(
            "Lay {} {} up, the long edge of {} at the fence.",
            strip(of),
            nouns::side(of, up),
            panel(id)
        ),
        Instruction::Head(Turn::None) => "The print lies upright.".to_owned(),
        Instruction::Head(Turn::Left) => "The print's head points to the left.".to_owned(),
        Instruction::Head(Turn::Half) => "The print's feet point away from you.".to_owned(),
        Instruction::Head(Turn::Right) => "The print's head points to the right.".to_owned(),
        Instruction::ScoreAt(at) => format!("Score at {}.", length(at)),
        Instruction::Find(id) => match names.line(id) {
            Some(Called::Score(at)) => format!(
                "Find the score {} from the left edge of the card base, inside up.",
                length(at)
            ),
            _ => format!("Find {}, the card base inside up.", nouns::line(names, id)),
        },
        Instruction::FoldOver(rests) => format!(
            "Fold the card over along that line, with {} flat on the table.",
            panel(rests)
        ),
        Instruction::FoldUnder => {
            "Turn the card over, fold it over along that line, and turn the card back.".to_owned()
        }
        Instruction::OneLine => {
            "The creases listed here lie on one line now, layer on layer.".to_owned()
        }
        Instruction::FoldAllOver(rests) => format!(
            "Fold all layers over along that line, with {} flat on the table.",
            panel(rests)
        ),
        Instruction::FoldAllUnder => {
            "Turn the card over, fold all layers over along that line, and turn the card back."
                .to_owned()
        }
        Instruction::PressFold => {
            "Press the fold with the bone folder from its middle outwards.".to_owned()
        }
        Instruction::HeavyPaper => "Heavy paper folds cleanly only along its score.".to_owned(),
        Instruction::StartEach => "Start each fold as listed, seen from the inside.".to_owned(),
        Instruction::CloseSlowly => {
            "Then close the card slowly and help the folds along; they close all at once."
                .to_owned()
        }
        Instruction::PressShut => {
            "Press the folds with the bone folder once the card is shut.".to_owned()
        }
        Instruction::FoldEach(id) => format!(
            "Fold each crease of {} as listed, seen from its front.",
            nouns::piece(names, id)
        ),
        Instruction::PressFolds(id) => format!(
            "Press the folds of {} with the bone folder.",
            nouns::piece(names, id)
        ),
        Instruction::DecorateNow(id) => format!(
            "Stamp, colour or emboss {} now, while it lies flat, and let it dry.",
            layer(id)
        ),
        Instruction::MeasureSeat(on) => format!(
            "Measure from the left edge and the bottom edge of {}.",
            nouns::seat(names, on)
        ),
        Instruction::TurnLikePage(id) => format!(
            "Turn {} over like a page, and put glue only where shown.",
            layer(id)
        ),
        Instruction::GlueAcross { left, right } => format!(
            "Keep the glue {} from the left edge and {} from the right edge.",
            length(left),
            length(right)
        ),
        Instruction::GlueUp { top, bottom } => format!(
            "Keep the glue {} from the top edge and {} from the bottom edge.",
            length(top),
            length(bottom)
        ),
        Instruction::KeepToShape => "Within that, keep to the shape that is shown.".to_owned(),
        Instruction::NowhereToGlue(id) => {
            format!(
                "There is no safe place for glue on the back of {}.",
                layer(id)
            )
        }
        Instruction::GlueSpoils(id) => format!(
            "Glue there would spoil the card: see what the recipe says about {} first.",
            layer(id)
        ),
        Instruction::SetDown(id) => format!(
            "Set {} in its place and press it down from the middle.",
            layer(id)
        ),
        Instruction::SetLoose(id) => format!("Lay {} in its place without glue.", layer(id)),
        Instruction::MeasureCarrier(of) => format!(
            "Measure both points from the left and the bottom edge of {}, seen from its {}.",
            strip(of),
            nouns::side(of, Side::A)
        ),
        Instruction::DrawLine(on) => format!(
            "On {}, pencil a faint line from the first point to the second.",
            nouns::face(names, on)
        ),
        Instruction::Spread { panel, side } => {
            format!("Put glue on {}.", nouns::face(names, Face { panel, side }))
        }
        Instruction::LayCrease(id) => format!(
            "Lay the crease of {} along the line, from the first point on, and press it down.",
            panel(id)
        ),
        Instruction::CloseOn(id) => format!(
            "Fold {} flat, close the card on it and press.",
            nouns::piece(names, id)
        ),
        Instruction::PressDry => {
            "Close the card and press it under a weight for as long as the glue's maker says."
                .to_owned()
        }
        Instruction::OpenOnce => {
            "Open the card once before the glue sets and check that nothing has stuck.".to_owned()
        }
        Instruction::GoesInto(envelope) => format!(
            "The card goes into {}, {}.",
            nouns::envelope(envelope),
            names.envelope(envelope)
        ),
        Instruction::NoEnvelope => {
            "No standard envelope takes the card with this clearance: make one, or change the \
             clearance."
                .to_owned()
        }
        Instruction::TryFirst => {
            "Try the first card in a real envelope before you make the rest.".to_owned()
        }
        Instruction::MeasureOff(part) => format!(
            "Measure what you cut off {} from the edge you cut.",
            nouns::part(names, part)
        ),
        Instruction::CutAlready {
            part,
            pieces: 1,
            size: is,
        } => format!(
            "{} is cut already, {}. It needs no new paper.",
            nouns::part(names, part),
            size(is)
        ),
        Instruction::CutAlready {
            part,
            pieces,
            size: is,
        } => format!(
            "{pieces} pieces for {} are cut already, {}. They need no new paper.",
            nouns::part(names, part),
            size(is)
        ),
        Instruction::OffEnd {
            panel: id,
            off,
            stays,
        } => format!(
            "Cut {} off the edge of {}: the panel stays {} wide.",
            length(off),
            panel(id),
            length(stays)
        ),
        Instruction::OffTop(of, off) => format!(
            "Cut {} off the top edge of {}, seen from its {}.",
            length(off),
            strip(of),
            nouns::side(of, Side::A)
        ),
        Instruction::CutAgain(id, to) if to.width == to.height => format!(
            "Cut {} round once more, {} across, from the same middle.",
            layer(id),
            length(to.width)
        ),
        Instruction::CutAgain(id, to) => format!(
            "Cut {} oval once more, {}, from the same middle.",
            layer(id),
            size(to)
        ),
        Instruction::OffStraight(id, off) => match off {
            Off::Width(width) => format!(
                "Cut {} off the width of {}, from its straight edge: the arc stays.",
                length(width),
                layer(id)
            ),
            Off::Height(height) => format!(
                "Cut {} off the height of {}, from its straight edge: the arc stays.",
                length(height),
                layer(id)
            ),
            Off::Both(both) => format!(
                "Cut {} off the width and {} off the height of {}, from straight edges: the arc \
                 stays.",
                length(both.width),
                length(both.height),
                layer(id)
            ),
        },
        Instruction::OffAny(id, off) => match off {
            Off::Width(width) => format!("Cut {} off the width of {}.", length(width), layer(id)),
            Off::Height(height) => {
                format!("Cut {} off the height of {}.", length(height), layer(id))
            }
            Off::Both(both) => format!(
                "Cut {} off the width and {} off the height of {}.",
                length(both.width),
                length(both.height),
                layer(id)
            ),
        },
        Instruction::CornersAgain(id, radius) => format!(
            "Round the corners of {} that are cut away again with a radius of {}.",
            layer(id),
            length(radius)
        ),
        Instruction::AnyEdge => {
            "Any edge will do. To keep a picture in its middle, cut half off each side.".to_owned()
        }
    })
}
