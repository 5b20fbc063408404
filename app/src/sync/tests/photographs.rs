//! Photographs beside steps, which two devices add, replace and take off apart.

use foldwright_engine::paper::PhotoId;

use super::super::gave_way;
use super::together::cross;
use super::{Change, Device, two};
use crate::album;
use crate::store::{Joined, Port as _, joined_key};

fn put(device: &mut Device, step: &str, photo: Option<PhotoId>) -> Vec<Change> {
    device.change("a1", |recipe| match photo {
        Some(photo) => drop(recipe.photos.insert(step.to_owned(), photo)),
        None => drop(recipe.photos.remove(step)),
    })
}

#[test]
fn photographs_of_steps_come_together() {
    let (mut laptop, mut phone) = two();
    let [gather, fold, other] = [b"gather", b"fold-0", b"fold-1"].map(|it| album::name(it));
    let one = put(&mut laptop, "gather", Some(gather));
    let two = put(&mut phone, "fold-0", Some(fold));
    cross(&mut laptop, &mut phone, &one, &two);
    let merged = phone.recipe("a1").expect("a recipe");
    let both = [("gather".to_owned(), gather), ("fold-0".to_owned(), fold)];
    assert_eq!(merged.photos, both.into());
    // One takes off its last but one while the other adds one.
    let one = put(&mut laptop, "gather", None);
    let two = put(&mut phone, "fold-1", Some(other));
    cross(&mut laptop, &mut phone, &one, &two);
    let merged = laptop.recipe("a1").expect("a recipe");
    let left = [("fold-0".to_owned(), fold), ("fold-1".to_owned(), other)];
    assert_eq!(merged.photos, left.into());
}

/// Of two for the same step one gives way, which is told in words, and can be used
/// after all.
#[test]
fn one_of_two_photographs_of_a_step_can_be_had_back() {
    let (mut laptop, mut phone) = two();
    let [near, far] = [b"near", b"far "].map(|it| album::name(it));
    let one = put(&mut laptop, "gather", Some(near));
    let other = put(&mut phone, "gather", Some(far));
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = laptop.recipe("a1").expect("a recipe");
    let lost = if merged.photos["gather"] == near {
        far
    } else {
        near
    };
    let joined = laptop.shelf.port().read(&joined_key("a1"));
    let joined = joined.and_then(|text| Joined::parse(&text));
    let became = joined.expect("something to look at").became;
    let words = became.join(" ");
    assert!(words.contains("the photograph of a step"), "{words}");
    let unsaid = [near, far].map(|photo| photo.to_string()[..8].to_owned());
    assert!(unsaid.iter().all(|name| !words.contains(name)), "{words}");
    // The one that gave way is in the history.
    let mut earlier = merged.clone();
    earlier.photos.insert("gather".to_owned(), lost);
    let differences = gave_way::differences(&earlier, &merged);
    assert_eq!(differences.len(), 1, "{differences:?}");
    let back = gave_way::restored(&merged, &differences[0]).expect("it can be used");
    assert_eq!(back.photos["gather"], lost);
}
