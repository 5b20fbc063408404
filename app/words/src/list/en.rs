//! What contradicts itself in a list of measurements, in English.

use foldwright_engine::length::{Odd, Written};
use foldwright_engine::problem::{Extent, Hand, Spot, Trouble, Where};
use foldwright_engine::reading::{
    Aside, Assumed, FoldForm, MOST_LINES, Meaning, Missed, OfLength, OfSize, Remark, SeatedFor,
    Suggests, UnitFor, Unlikely, Way, WayRound,
};
use foldwright_engine::recipe::{Fold, Seat};
use foldwright_gathered::gathered;

use crate::Told;
use crate::names::Names;
use crate::nouns::en as nouns;
use crate::told::sentence;
use crate::typed::en as typed;

#[gathered]
pub(crate) fn told(names: &Names<'_>, found: Trouble) -> Told {
    let length = |of| names.short(of);
    let size = |of| names.short_size(of);
    match found {
        Trouble::Beyond { at, length: of } => Told::new(
            format!("The score at {} is not on the piece.", length(at)),
            format!("The piece ends at {}.", length(of)),
            "Check the score and the size of the piece.",
        ),
        Trouble::Twice(at) => Told::new(
            format!("The score at {} is given twice.", length(at)),
            "It is made once.",
            "Remove one if you meant another.",
        ),
        Trouble::Sum { sum, length: of } => Told::new(
            format!("The panels add up to {}.", length(sum)),
            format!("The piece is {} long.", length(of)),
            "Check the widths and the size of the piece.",
        ),
        Trouble::NoPiece => Told::new(
            "This score has no piece.",
            "No size stands in this line or before it.",
            "Give the size of the piece first.",
        ),
        Trouble::Finished { told, is } => Told::new(
            format!("The closed card comes to {}.", size(is)),
            format!("The list says {}.", size(told)),
            "Check the card base and its scores.",
        ),
        Trouble::NoEnvelope(of) => Told::new(
            format!("No usual envelope measures {}.", size(of)),
            "The recipe keeps envelopes by name.",
            "Choose one in the recipe.",
        ),
        Trouble::Tight(envelope) => Told::new(
            format!(
                "The closed card has no room in envelope {}.",
                nouns::envelope(envelope)
            ),
            "Every rule for clearance asks for more.",
            "Name a larger envelope, or check the card base.",
        ),
        Trouble::TooLarge(of) => Told::new(
            format!("{} is larger than every panel.", size(of)),
            "It would lie across a fold or hang over.",
            "It is left out. Check its size, or add it in the recipe.",
        ),
        Trouble::NotThere(of, spot) => Told::new(
            format!("{} does not fit where the list says.", size(of)),
            format!("The list says: {}.", place(spot)),
            "Check its size, or move it in the recipe.",
        ),
        Trouble::NoBase => Told::new(
            "This round piece has no card base to lie on.",
            "The list has no piece that can be folded.",
            "Give the size of the card base in a line of its own.",
        ),
        Trouble::Border { told, is } => Told::new(
            format!("The border comes to {}.", length(is)),
            format!("The list says {}.", length(told)),
            "Check the mat and what it lies on.",
        ),
        Trouble::SecondFolded => Told::new(
            "This is a second piece with scores.",
            "A list makes one folded piece with flat ones on it.",
            "It is left out. Add it in the recipe.",
        ),
        Trouble::Sheet(of) => Told::new(
            format!("The card base is larger than a sheet of {}.", size(of)),
            "It can't be cut from the sheet either way round.",
            "Check the sheet and the card base.",
        ),
        Trouble::TooMany => Told::new(
            "There are more pieces than one card has.",
            "The rest is left out.",
            "Put the pieces of one card in one list.",
        ),
        Trouble::TooLong => Told::new(
            "From here on nothing is read.",
            format!("A list has at most {MOST_LINES} lines."),
            "Put the pieces of one card in one list.",
        ),
    }
}

/// "inside, on the right, on the large panel".
#[gathered]
fn place(spot: Spot) -> String {
    let side = match spot.side {
        Where::Front => "on the front",
        Where::Inside => "inside",
        Where::Back => "on the back",
    };
    let hand = spot.hand.map(|hand| match hand {
        Hand::Left => "on the left",
        Hand::Right => "on the right",
        Hand::Middle => "in the middle",
    });
    let extent = spot.extent.map(|extent| match extent {
        Extent::Large => "on the large panel",
        Extent::Small => "on the small panel",
    });
    let said: Vec<_> = [Some(side), hand, extent].into_iter().flatten().collect();
    said.join(", ")
}

/// Why a part of a line was not read.
#[gathered]
pub(crate) fn missed(why: &Missed) -> String {
    match why {
        Missed::Odd(Odd::NoLength(problem)) => return typed::told(problem),
        Missed::Aside(Aside::Price) => "Taken for a price, not for a measurement.",
        Missed::Aside(Aside::Numbering) => {
            "Taken for a number in a sequence, not for a measurement."
        }
        Missed::Aside(Aside::Count) => "Taken for how many, not for a measurement.",
        Missed::Aside(Aside::Weight) => "Taken for a weight, not for a measurement.",
        Missed::Aside(Aside::Date) => "Taken for a date, not for a measurement.",
        Missed::Aside(Aside::Time) => "Taken for a time, not for a measurement.",
        Missed::Aside(Aside::Other) => "This is not measured in inches or millimetres.",
        Missed::Alone => "Nothing says what this number measures.",
        Missed::Three => "A size has two numbers. Write how many in front, such as 2 pcs 4 × 5.",
        Missed::Odd(Odd::Date) => "This looks like a date.",
        Missed::Odd(Odd::Improper) => {
            "Write the length as a whole number and a fraction, such as 2 1/4."
        }
        Missed::Odd(Odd::Area) => "This is an area. Write a square by its side: 3 in square.",
        Missed::Words => "These words give no measurement.",
        Missed::Nothing => "A size has to be above 0.",
        Missed::TooLong => "This is longer than 10 m. Check the unit.",
        Missed::Rest => "The line is too long to be read whole.",
    }
    .to_owned()
}

/// How the card base may fold.
#[gathered]
pub(crate) fn form(form: FoldForm) -> &'static str {
    match form {
        FoldForm::Flat => "One panel, no fold.",
        FoldForm::Book => "The first panel is the front.",
        FoldForm::Flap => "The last panel is the front.",
        FoldForm::Gate { .. } => "Two leaves close over the middle.",
        FoldForm::Leaves => "Two leaves overlap over the middle.",
        FoldForm::LastIn => "The last panel folds in, the first closes over it.",
        FoldForm::FirstIn => "The first panel folds in, the last closes over it.",
        FoldForm::BackOver | FoldForm::BackOverFirst => "The front folds back over itself.",
        FoldForm::FrontIn | FoldForm::FrontInFirst => "The front folds in.",
        FoldForm::Zigzag => "Folded to and fro, the first panel in front.",
        FoldForm::ZigzagBack => "Folded to and fro, the last panel at the back.",
        FoldForm::Roll => "Rolled up, each panel into the one before.",
        FoldForm::DoubleParallel => "Folded in half, and in half again.",
        FoldForm::Told => "Folded as the list says.",
    }
}

/// Why it may fold so.
#[gathered]
pub(crate) fn suggests(why: Suggests) -> &'static str {
    match why {
        Suggests::NoScore => "There is no score.",
        Suggests::Book => "The card opens like a book, its fold on the left.",
        Suggests::WideBack => {
            "The wide panel stays as the back, and the narrow one closes over it."
        }
        Suggests::LeavesMeet => "Both leaves together are as wide as the middle.",
        Suggests::Allowance => "One panel is shorter by an allowance, so it lies inside.",
        Suggests::ToAndFro => "Panels of any width can be folded to and fro.",
        Suggests::BackOver => {
            "The largest panel stays as the back, and half of it shows beside the front."
        }
        Suggests::FrontIn => "The largest panel stays as the back, and the end panel lies between.",
        Suggests::WideMiddle => "The widest panel is in the middle.",
        Suggests::NarrowLast => "The last panel is the narrowest and lies inside.",
        Suggests::LastBehind => "The last panel goes behind the middle.",
        Suggests::NarrowFirst => "The first panel is the narrowest and lies inside.",
        Suggests::NarrowFront => "The narrow first panel lies on the front.",
        Suggests::EqualThree => "The panels are equal, as in a Z-fold (common practice).",
        Suggests::Letter => {
            "As a letter is folded. The panel inside then has to be a little shorter."
        }
        Suggests::TwoAllowances => "Two panels are shorter by an allowance, so they lie inside.",
        Suggests::Shrinking => "Each panel is a little shorter than the one before.",
        Suggests::EqualFour => "The panels are equal, as in an accordion (common practice).",
        Suggests::EqualInner => {
            "The panels are equal. The two inside then have to be a little shorter."
        }
        Suggests::OddLast => "An odd number of panels: the last one turns its inside to the back.",
        Suggests::OddFirst => {
            "An odd number of panels: the first one turns its inside to the front."
        }
        Suggests::Row => "Panels in a row can be folded to and fro.",
        Suggests::Told => "The list says how its scores fold.",
    }
}

/// What a part of a line was read as, in a few words.
#[gathered]
pub(crate) fn meaning(names: &Names<'_>, is: Meaning) -> String {
    match is {
        Meaning::Name => "the name of the recipe".to_owned(),
        Meaning::Pieces(1) => "1 piece".to_owned(),
        Meaning::Pieces(number) => format!("{number} pieces"),
        Meaning::Way(Way::Zigzag) => "folded to and fro".to_owned(),
        Meaning::Way(Way::Roll) => "one panel folded into the others".to_owned(),
        Meaning::Way(Way::Gate) => "a gate".to_owned(),
        Meaning::Way(Way::DoubleParallel) => "a double parallel fold".to_owned(),
        Meaning::Half => "a score in the middle".to_owned(),
        Meaning::Envelope(of) => format!("envelope {}", nouns::envelope(of)),
        Meaning::CutFrom(sheet) => format!("cut from {}", nouns::sheet(sheet)),
        Meaning::Length(of, length) => self::length(of, &names.short(length)),
        Meaning::Size(of, size) => self::size(of, &names.short_size(size)),
    }
}

#[gathered]
fn length(of: OfLength, length: &str) -> String {
    match of {
        OfLength::Diameter => format!("circle of diameter {length}"),
        OfLength::Border => format!("border {length}"),
        OfLength::Score(None) => format!("score at {length}"),
        OfLength::Score(Some(Fold::Mountain)) => format!("mountain score at {length}"),
        OfLength::Score(Some(Fold::Valley)) => format!("valley score at {length}"),
        OfLength::Every => format!("a score every {length}"),
        OfLength::Panel => format!("panel {length}"),
    }
}

#[gathered]
fn size(of: OfSize, size: &str) -> String {
    match of {
        OfSize::Piece => format!("piece {size}"),
        OfSize::Round => format!("round piece {size}"),
        OfSize::Oval => format!("oval {size}"),
        OfSize::Square => format!("square {size}"),
        OfSize::Closed => format!("closed card {size}"),
        OfSize::Envelope => format!("envelope {size}"),
        OfSize::Sheet => format!("cut from a sheet of {size}"),
    }
}

#[gathered]
fn unit(unit: Written) -> &'static str {
    match unit {
        Written::Inch => "inches",
        Written::Millimetre => "millimetres",
        Written::Centimetre => "centimetres",
        Written::Metre => "metres",
        Written::Foot => "feet",
    }
}

/// How a line was read that leaves it open.
#[gathered]
pub(crate) fn remark(names: &Names<'_>, remark: Remark) -> String {
    match remark {
        Remark::Carried(of) => format!("Read as {}, the unit stated before it.", unit(of)),
        Remark::Likelier {
            unit: of,
            than,
            why: Unlikely::Large,
        } => format!(
            "Read as {}. In {} it would be too large.",
            unit(of),
            unit(than)
        ),
        Remark::Likelier {
            unit: of,
            than,
            why: Unlikely::Small,
        } => format!(
            "Read as {}. In {} it would be too small.",
            unit(of),
            unit(than)
        ),
        Remark::Heading(spot) => format!("What follows goes here: {}.", place(spot)),
        Remark::Seated {
            layer,
            on,
            lies,
            why,
        } => {
            let layer = sentence(nouns::layer(names, layer));
            let on = match on {
                Seat::Face(face) => nouns::face(names, face),
                Seat::Layer(id) => nouns::layer(names, id),
            };
            let lies = match lies {
                WayRound::AsWritten => format!("{layer} lies on {on}."),
                WayRound::AsSaid => format!("{layer} lies on {on}, as the list says."),
                WayRound::Turned => format!("{layer} lies on {on}, turned a quarter."),
            };
            match seated(names, why) {
                Some(why) => format!("{lies} {why}"),
                None => lies,
            }
        }
    }
}

#[gathered]
fn seated(names: &Names<'_>, why: SeatedFor) -> Option<String> {
    Some(match why {
        SeatedFor::Border(border) => {
            format!("It leaves an even border of {}.", names.length(border))
        }
        SeatedFor::Whole => "Both are equally large.".to_owned(),
        SeatedFor::Width => "It is as wide as the closed card.".to_owned(),
        SeatedFor::Height => "It is as high as the closed card.".to_owned(),
        SeatedFor::Across(panel) => format!(
            "It is in the middle of the closed card, glued to {} only.",
            nouns::panel(names, panel)
        ),
        SeatedFor::OnlySo => "It fits no other way round.".to_owned(),
        SeatedFor::Fits => return None,
    })
}

/// What was taken for granted about numbers without a unit.
#[gathered]
pub(crate) fn assumed(assumed: Assumed) -> String {
    let Assumed::All { unit: of, why } = assumed else {
        return "Numbers without a unit are read in the unit of the lines before them. Another \
                unit stands beside its line."
            .to_owned();
    };
    let unit = unit(of);
    match why {
        UnitFor::Elsewhere => {
            format!("Numbers without a unit are read as {unit}, as elsewhere in the list.")
        }
        UnitFor::Fractions => {
            format!("Numbers without a unit are read as {unit}, since the list has fractions.")
        }
        UnitFor::TooLarge => {
            format!("Numbers without a unit are read as {unit}. In inches they would be too large.")
        }
        UnitFor::TooSmall => format!(
            "Numbers without a unit are read as {unit}. In millimetres they would be too small."
        ),
        UnitFor::Language => {
            format!("Numbers without a unit are read as {unit}, usual in the list’s language.")
        }
        UnitFor::Settings => {
            format!("Numbers without a unit are read as {unit}, the unit in the settings.")
        }
    }
}
