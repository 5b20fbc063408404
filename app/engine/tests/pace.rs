//! How long a session takes, by the quartiles of Python's `statistics.quantiles`.

use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::pace::{Session, Spread, session};
use foldwright_engine::recipe::starters;
use foldwright_engine::steps::{Kind, Step, steps};

/// Seconds of six folds, in tenths.
const FOLDS: [u32; 6] = [410, 380, 455, 402, 390, 430];

/// `statistics.quantiles([380, 390, 402, 410, 430, 455], n=4, method="inclusive")` is
/// 393, 406 and 425 (Python 3); the same of
/// [95, 99, 101, 102, 105, 110, 120, 130] is 100.5, 103.5 and 112.5, a half up.
#[test]
fn quartiles_are_those_of_python() {
    let spread = |low, middle, high| Some(Spread { low, middle, high });
    assert_eq!(Spread::of(&FOLDS), spread(393, 406, 425));
    let others = [95, 110, 102, 120, 99, 105, 130, 101];
    assert_eq!(Spread::of(&others), spread(101, 104, 113));
    assert_eq!(Spread::of(&[7; 5]), spread(7, 7, 7));
    // Too few to tell anything.
    assert_eq!(Spread::of(&FOLDS[..4]), None);
    assert_eq!(Spread::of(&[]), None);
}

/// One long pause, half an hour or a night, changes nothing at all; neither does one
/// step that was only looked at.
#[test]
fn one_long_pause_changes_nothing() {
    for far in [18_000, 288_000, u32::MAX, 50] {
        for at in 0..=FOLDS.len() {
            let mut times = FOLDS.to_vec();
            times.insert(at, far);
            assert_eq!(Spread::of(&times), Spread::of(&FOLDS), "{far}");
        }
    }
    // With as few as there may be it stays within the quartiles of the others.
    let few = &FOLDS[..4];
    let within = 380..=455;
    for far in [18_000, u32::MAX] {
        let spread = Spread::of(&[few, &[far]].concat()).expect("they are enough");
        assert!(within.contains(&spread.low) && within.contains(&spread.high));
    }
}

/// By hand: twelve cards with two folds each, of which eight are done once, are
/// 12 + 12 - 8 = 16 folds of 39.3 to 42.5 s, 628.8 to 680 s: 10 to 12 minutes.
#[test]
fn a_session_takes_what_is_left_of_it() {
    let letter = starters().iter().find(|it| it.id == "letter");
    let mut recipe = letter.expect("there is a letter fold").recipe.clone();
    recipe.copies = 12;
    let card = work_out(&recipe, &Tools::default());
    let steps = steps(&recipe, &card);
    let folds: Vec<&Step> = steps.iter().filter(|it| it.kind == Kind::Fold).collect();
    let [one, other] = folds[..] else {
        unreachable!("a letter fold has two folds");
    };
    let known = |kind| match kind {
        Kind::Fold => Spread::of(&FOLDS),
        _ => None,
    };
    let told = |least, most| {
        Some(Session {
            least,
            most,
            dries: false,
        })
    };
    let left = [(one, 4), (other, 12)];
    assert_eq!(session(left.into_iter(), known), told(10, 12));
    // 48 of them are 1,886.4 to 2,040 s, 31.4 to 34 minutes: told by five minutes.
    let left = [(one, 24), (other, 24)];
    assert_eq!(session(left.into_iter(), known), told(30, 35));
    // Nothing is told where nothing is left, or of work that is not known.
    assert_eq!(session([(one, 0)].into_iter(), known), None);
    let all = steps.iter().map(|step| (step, step.times));
    assert_eq!(session(all, known), None);
}

/// What dries is told apart and takes no minutes.
#[test]
fn drying_is_told_apart() {
    let book = starters().iter().find(|it| it.id == "book");
    let recipe = &book.expect("there is a book").recipe;
    let card = work_out(recipe, &Tools::default());
    let steps = steps(recipe, &card);
    let all = || steps.iter().map(|step| (step, step.times));
    let known = |kind| {
        assert_ne!(kind, Kind::Dry);
        Spread::of(&[600; 5])
    };
    let told = session(all(), known).expect("all is known");
    assert!(told.dries);
    let work = steps.iter().filter(|step| step.kind != Kind::Dry).count();
    assert_eq!(usize::try_from(told.least).ok(), Some(work));
    assert_eq!(told.least, told.most);
    let dry = all().filter(|(step, _)| step.kind == Kind::Dry);
    assert_eq!(session(dry, known), None);
}
