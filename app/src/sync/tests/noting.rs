//! Noting in two halves, with a page that is left in between.

use super::{Device, name, some_recipe};

const NOTE: &str = "the blue one";

/// A laptop and a phone that have the same recipe, to which the laptop has added a
/// note since, written down and not kept.
fn written_down() -> [Device; 2] {
    let [mut laptop, mut phone] = [1, 2].map(Device::new);
    let put = laptop.shelf.put("a1", &some_recipe(), laptop.clock);
    put.expect("there is room");
    phone.take(&laptop.note(&name::of_recipe("a1")));
    laptop.keep("a1", |recipe| {
        recipe.notes.insert("gather".to_owned(), NOTE.to_owned());
    });
    let document = name::of_recipe("a1");
    let written = laptop
        .ledger
        .write_down(&laptop.shelf, &document, laptop.clock, "here");
    assert_eq!(written, Ok(Vec::new()), "nothing is sent before it is kept");
    [laptop, phone]
}

fn note(device: &Device) -> Option<String> {
    device.recipe("a1")?.notes.get("gather").cloned()
}

#[test]
fn a_page_left_between_the_halves_notes_it_anew() {
    let [mut laptop, mut phone] = written_down();
    laptop.reopen();
    phone.take(&laptop.note(&name::of_recipe("a1")));
    assert_eq!(note(&phone).as_deref(), Some(NOTE));
}

#[test]
fn what_another_asks_for_between_the_halves_is_kept_first() {
    let [mut laptop, mut phone] = written_down();
    let document = name::of_recipe("a1");
    let seen = phone.ledger.state(&phone.shelf, &document);
    let since = laptop.ledger.since(&laptop.shelf, &document, &seen);
    let since = since.expect("a state").expect("something");
    laptop.reopen();
    phone.take(&[(document.clone(), since)]);
    phone.take(&laptop.note(&document));
    assert_eq!(note(&phone).as_deref(), Some(NOTE), "it is there once");
}

#[test]
fn a_second_change_finds_the_first_one_kept() {
    let [mut laptop, mut phone] = written_down();
    let changes = laptop.change("a1", |recipe| recipe.copies = 24);
    phone.take(&changes);
    assert_eq!(note(&phone).as_deref(), Some(NOTE));
    assert_eq!(phone.recipe("a1").map(|recipe| recipe.copies), Some(24));
}
