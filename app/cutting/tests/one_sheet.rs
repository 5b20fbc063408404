//! The most that one sheet gives, against published and recomputed optima.
//!
//! Sources beside each value in `tests/data/cutting`.

mod common;

use common::instances::{Answer, Question, fits, worths};
use common::verifier::{Placed, faults};
use foldwright_cutting::{Lie, OneSheet};

/// Work for one question; in builds for debugging, answers may be still to come.
const WORK: u64 = if cfg!(debug_assertions) {
    LITTLE
} else {
    200_000_000
};

/// Work for a question that would take more than that.
const LITTLE: u64 = 20_000_000;

/// These take more than that, up to 4 000 million; the figure
/// `cut_one_sheet_unanswered` has them too.
const LONG: [&str; 8] = [
    "E03X18, all-fit-one-sheet, upright",
    "E04F17, all-fit-one-sheet, upright",
    "E04F20, all-fit-one-sheet, upright",
    "E05F20, all-fit-one-sheet, upright",
    "E05N17, all-fit-one-sheet, upright",
    "E08F15, all-fit-one-sheet, upright",
    "E10X15, all-fit-one-sheet, upright",
    "E20F15, all-fit-one-sheet, upright",
];

/// The search for an answer, with nothing wrong in its layout.
fn asked(question: &Question) -> OneSheet {
    let long = LONG.contains(&question.name.as_str());
    let search = question.asked(if long { LITTLE } else { WORK });
    let (mut worth, mut rects) = (0, Vec::<Placed>::new());
    for (piece, turned, place) in search.layout().pieces() {
        worth += question.worths[piece];
        let may = !turned || question.lie == Lie::Either;
        assert!(may, "{}: it may not turn", question.name);
        let size = place.size;
        let (w, h) = (size.width.get(), size.height.get());
        let is = if turned { (h, w) } else { (w, h) };
        let (width, height, _) = question.wanted[piece];
        assert_eq!(is, (width, height), "{}", question.name);
        rects.push([place.x, place.y, w, h].map(i64::from));
    }
    for (at, (_, _, count)) in question.wanted.iter().enumerate() {
        let given = search.layout().pieces().filter(|(piece, ..)| *piece == at);
        assert!(given.count() <= usize::try_from(*count).unwrap_or(0));
    }
    let (width, height) = question.sheet;
    let faults = faults((width.into(), height.into()), 0, &rects, 0);
    assert_eq!(faults, Vec::<String>::new(), "{}", question.name);
    assert_eq!(worth, search.worth(), "{}", question.name);
    search
}

/// Every value with edge-to-edge cuts that is proven.
#[test]
fn every_proven_worth_is_reached() {
    let questions = worths();
    assert_eq!(questions.len(), 75);
    for question in &questions {
        let search = asked(question);
        let (worth, bound) = (search.worth(), search.bound());
        let Answer::Worth(best) = question.answer else {
            panic!("{} asks for no worth", question.name);
        };
        assert!(
            worth <= best && best <= bound,
            "{}: {worth} to {bound}, proven {best}",
            question.name
        );
        if !cfg!(debug_assertions) {
            assert_eq!(worth, best, "{}", question.name);
        }
    }
}

#[test]
fn what_fits_one_sheet_is_told_apart_from_what_does_not() {
    let questions = fits();
    assert_eq!(questions.len(), 42);
    for question in &questions {
        let search = asked(question);
        let (worth, bound, all) = (search.worth(), search.bound(), question.all());
        // What the search says is never wrong, however little it was worked on.
        let can = question.answer == Answer::All(true);
        assert!(
            if can { bound >= all } else { worth < all },
            "{}: {worth} to {bound} of {all}",
            question.name
        );
        if !cfg!(debug_assertions) && !LONG.contains(&question.name.as_str()) {
            assert!(
                question.is_answered(&search),
                "{}: {worth} to {bound} of {all}",
                question.name
            );
        }
    }
}
