//! What two devices come to apart and can't be had together, or not be shown.

use foldwright_document::Document;
use foldwright_engine::recipe::Parts;
use serde_json::json;

use super::together::{cross, inches, measure, set};
use super::{Came, Device, MINUTE, some_recipe, two};
use crate::store::{Joined, joined_key};

/// The least here and the most there cross: the limit that was set last stays,
/// the other is told, and nobody is cut off from the recipe.
#[test]
fn limits_that_cross_give_way_and_are_told() {
    let (mut laptop, mut phone) = two();
    let border = measure(&some_recipe(), "mat border");
    let limit = |device: &mut Device, least: Option<&str>, most: Option<&str>| {
        device.change("a1", |recipe| {
            let limits = recipe.measures.iter_mut().find(|it| it.id == border);
            let limits = limits.expect("the border");
            if let Some(least) = least {
                limits.least = Some(inches(least));
            }
            limits.most = most.map(inches).or(limits.most);
        })
    };
    let one = limit(&mut laptop, Some("3/8"), None);
    phone.clock += 60 * MINUTE;
    let other = limit(&mut phone, None, Some("1/4"));
    let named = phone.change("a1", |recipe| recipe.name = "Harbour".to_owned());
    cross(&mut laptop, &mut phone, &one, &[other, named].concat());
    let limits = |device: &Device| {
        let merged = device.recipe("a1").expect("a recipe");
        let measure = merged.measure(border).expect("the border");
        (measure.least, measure.most)
    };
    assert_eq!(limits(&laptop), (None, Some(inches("1/4"))));
    assert_eq!(laptop.recipe("a1").expect("a recipe").name, "Harbour");
    for device in [&mut laptop, &mut phone] {
        let lost = device.ledger.lost(&device.shelf, "a1");
        let address = format!("measures/{}.least", border.0);
        assert!(lost.iter().any(|it| it.address == address), "{lost:?}");
        assert!(device.shelf.port().read(&joined_key("a1")).is_some());
    }
    // Who goes on from it writes what they saw: the other does not return.
    let next = limit(&mut laptop, None, Some("1/2"));
    phone.take(&next);
    for device in [&laptop, &phone] {
        assert_eq!(limits(device), (None, Some(inches("1/2"))));
    }
}

/// By hand: a border of 1/4 in here makes the mat 3 3/4 in wide, a strip of 9 in
/// there 4 1/4, and together they make it 4. Whoever then decides on the width
/// that the document has beneath what is shown has decided it.
#[test]
fn what_is_set_to_what_was_not_shown_is_decided() {
    for beneath in ["3 3/4", "4 1/4"] {
        let (mut laptop, mut phone) = two();
        (laptop.name, phone.name) = ("Laptop".to_owned(), "Phone".to_owned());
        let one = set(&mut laptop, "mat border", inches("1/4"));
        let other = set(&mut phone, "strip length", inches("9"));
        cross(&mut laptop, &mut phone, &one, &other);
        let width = measure(&some_recipe(), "mat width");
        let shown = |device: &Device| device.recipe("a1").map(|recipe| recipe.value(width));
        assert_eq!(shown(&phone), Some(inches("4")));
        let decided = [inches(beneath), inches("3")];
        let one = set(&mut phone, "mat width", decided[0]);
        let other = set(&mut laptop, "mat width", decided[1]);
        cross(&mut phone, &mut laptop, &one, &other);
        let address = format!("measures/{}.value", width.0);
        for device in [&mut laptop, &mut phone] {
            let lost = device.ledger.lost(&device.shelf, "a1");
            let lost = lost.iter().filter(|lost| lost.address == address);
            let lost: Vec<_> = lost.map(|lost| (&*lost.by, &lost.value)).collect();
            let [phones, laptops] = decided.map(|value| json!(value));
            let other = if shown(device) == Some(decided[0]) {
                ("Laptop", &laptops)
            } else {
                assert_eq!(shown(device), Some(decided[1]), "{beneath}");
                ("Phone", &phones)
            };
            assert!(lost.contains(&other), "{beneath}: {lost:?}");
        }
    }
}

/// A device that can't show what came goes on with its own: what it writes over
/// without having seen it is in the history, and the rest stays as it came.
#[test]
fn what_could_not_be_shown_is_not_written_over_untold() {
    let (mut laptop, mut phone) = two();
    laptop.name = "Laptop".to_owned();
    let mut came = laptop.change("a1", |recipe| recipe.about = "for the fair".to_owned());
    came.extend(set(&mut laptop, "mat border", inches("1/4")));
    came.extend(laptop.change("a1", |recipe| recipe.name = "Harbour".to_owned()));
    let name = "recipe/a1";
    let bytes = laptop.ledger.since(&laptop.shelf, name, &[0]);
    let bytes = bytes.expect("a state").expect("something");
    let mut broken = Document::open(99, &bytes).expect("a document");
    let old = broken.read().0.expect("a recipe");
    let mut new = old.clone();
    new["copies"] = json!(0);
    let none = broken.write(&old, &new).expect("a change");
    let none = [(name.to_owned(), none)];
    phone.take(&none);
    came.retain(|(of, _)| of == name);
    phone.take(&came);
    assert_eq!(phone.recipe("a1"), Some(some_recipe()), "it can't be shown");
    let mut own = phone.change("a1", |recipe| recipe.name = "Quay".to_owned());
    own.extend(phone.change("a1", |recipe| recipe.copies = 2));
    own.extend(phone.change("a1", |recipe| recipe.glue_margin = inches("1/4")));
    let lost = phone.ledger.lost(&phone.shelf, "a1");
    let lost: Vec<_> = lost.iter().map(|it| (&*it.by, &it.value)).collect();
    assert_eq!(lost, [("Laptop", &json!("Harbour"))]);
    laptop.take(&none);
    laptop.take(&own);
    phone.take(&none);
    for device in [&laptop, &phone] {
        let merged = device.recipe("a1").expect("a recipe");
        assert_eq!((&*merged.name, merged.copies), ("Quay", 2));
        assert_eq!(merged.about, "for the fair");
        let border = measure(&merged, "mat border");
        assert_eq!(merged.value(border), inches("1/4"));
    }
}

/// What comes makes no sense whatever is left out: this device goes on with
/// what it has, and that is said once.
#[test]
fn what_can_not_be_shown_is_told() {
    let (mut laptop, mut phone) = two();
    let name = "recipe/a1";
    let bytes = laptop.ledger.since(&laptop.shelf, name, &[0]);
    let bytes = bytes.expect("a state").expect("something");
    let mut document = Document::open(99, &bytes).expect("a document");
    let old = document.read().0.expect("a recipe");
    let mut new = old.clone();
    new["copies"] = json!(0);
    let update = document.write(&old, &new).expect("a change");
    let change = [(name.to_owned(), update)];
    assert_eq!(phone.take(&change), [Came::Joined("a1".to_owned())]);
    assert_eq!(phone.take(&change), []);
    assert_eq!(phone.recipe("a1"), Some(some_recipe()));
    let named = phone.change("a1", |recipe| recipe.name = "Harbour".to_owned());
    assert_eq!(named.len(), 2, "it goes on, with a past");
    let joined = phone.shelf.port().read(&joined_key("a1"));
    let joined = joined.and_then(|text| Joined::parse(&text));
    assert!(joined.is_some_and(|joined| joined.apart));
    // As soon as it can be shown there is nothing to look at.
    let mut sound = new.clone();
    sound["copies"] = json!(3);
    let update = document.write(&new, &sound).expect("a change");
    phone.take(&[(name.to_owned(), update)]);
    assert_eq!(phone.recipe("a1").map(|recipe| recipe.copies), Some(3));
    assert_eq!(phone.shelf.port().read(&joined_key("a1")), None);
}

/// Two add as much as each of them can.
#[test]
fn what_is_more_than_one_can_have_comes_together() {
    let (mut laptop, mut phone) = two();
    let most = Parts::Notes.most();
    let fill = |device: &mut Device, by: &str| {
        device.change("a1", |recipe| {
            for number in recipe.notes.len()..most {
                recipe.notes.insert(format!("{by}-{number}"), by.to_owned());
            }
        })
    };
    let one = fill(&mut laptop, "laptop");
    let other = fill(&mut phone, "phone");
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = laptop.recipe("a1").expect("a recipe");
    assert!(merged.notes.len() > 2 * most - 20, "{}", merged.notes.len());
    // It can be gone on from.
    let named = laptop.change("a1", |recipe| recipe.name = "Harbour".to_owned());
    phone.take(&named);
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
}
