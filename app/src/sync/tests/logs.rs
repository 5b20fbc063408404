//! The log of a recipe, to which two devices add apart.

use foldwright_engine::recipe::{RunId, Spent};

use super::together::cross;
use super::{Change, Device, two};
use crate::album;

fn finish(device: &mut Device, at: u64, cards: u32) -> Vec<Change> {
    let spent = vec![Spent {
        paper: "linen card".to_owned(),
        size: None,
        count: cards,
        left: false,
    }];
    device.change("a1", |recipe| {
        recipe.finish_run(at, cards, spent).expect("there is room");
    })
}

#[test]
fn runs_finished_apart_are_all_in_the_log() {
    let (mut laptop, mut phone) = two();
    let one = finish(&mut laptop, 5_000, 24);
    let other = finish(&mut phone, 4_000, 2);
    cross(&mut laptop, &mut phone, &one, &other);
    let logged = |device: &Device| {
        let recipe = device.recipe("a1").expect("a recipe");
        let mut runs: Vec<_> = recipe.runs.iter().map(|it| (it.id.0, it.cards)).collect();
        runs.sort_unstable();
        assert!(recipe.runs.iter().all(|it| it.spent[0].count == it.cards));
        runs
    };
    assert_eq!(logged(&phone), [(4_000, 2), (5_000, 24)]);
    // Of one run, the line of the one and the photograph of the other.
    let (run, photo) = (RunId(5_000), album::name(b"cards"));
    let one = laptop.change("a1", |recipe| recipe.write_run(run, "For the quay."));
    let other = phone.change("a1", |recipe| recipe.picture_run(run, Some(photo)));
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    let both = merged.run(run).expect("it is there");
    assert_eq!((&*both.text, both.photo), ("For the quay.", Some(photo)));
    assert_eq!(merged.last_picture(), Some(photo));
    // What one takes out is gone, and can be put back.
    let gone = both.clone();
    let one = laptop.change("a1", |recipe| recipe.remove_run(run));
    let other = finish(&mut phone, 6_000, 1);
    cross(&mut laptop, &mut phone, &one, &other);
    assert_eq!(logged(&laptop), [(4_000, 2), (6_000, 1)]);
    let back = laptop.change("a1", |recipe| recipe.put_back_run(gone.clone()));
    cross(&mut laptop, &mut phone, &back, &[]);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(merged.run(run), Some(&gone));
}

/// Two that were finished in the same moment, by two clocks, are two.
#[test]
fn runs_of_the_same_moment_are_both_kept() {
    let (mut laptop, mut phone) = two();
    let one = finish(&mut laptop, 5_000, 24);
    let other = finish(&mut phone, 5_000, 2);
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    let mut cards: Vec<_> = merged.runs.iter().map(|it| it.cards).collect();
    cards.sort_unstable();
    assert_eq!(cards, [2, 24]);
}
