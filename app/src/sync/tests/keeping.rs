//! How documents are kept, and what was kept by releases before.

use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use foldwright_document::Seen;
use foldwright_engine::recipe::{self, Recipe, Starter, starters};
use serde_json::{Value, json};

use super::{DAY, Device, Document, merged, names, some_recipe};
use crate::spoken::starting;
use crate::store::{BESIDE, recipe_key, versioned};

fn units(text: &str) -> usize {
    text.encode_utf16().count()
}

/// What a release before packing keeps of a document.
fn former(document: &Document, recipe: &Recipe) -> String {
    versioned::text(&json!({
        "bytes": BASE64_STANDARD.encode(document.bytes()),
        "agreed": merged::object(recipe),
        "unsent": true,
    }))
}

/// The WHATWG's Web Storage standard suggests five megabytes a site; browsers
/// count UTF-16 units.
const ROOM: u64 = 5 * 1024 * 1024;

/// Five thousand are promised; the rest is for what recipes come to hold.
#[test]
fn five_thousand_recipes_fit_what_a_browser_gives_with_room_to_spare() {
    const MANY: u64 = 5500;
    const CHANGED: u64 = 4000;
    let many = starters().len() as u64;
    let id = |place: usize| format!("{place:016x}");
    let as_they_are: fn(&Starter) -> Recipe = |starter| starter.recipe.clone();
    let in_english: fn(&Starter) -> Recipe = |starter| starting(starter, starter.recipe.notation);
    for named in [as_they_are, in_english] {
        // Tabs have long numbers.
        let mut device = Device::new(u32::MAX);
        for (place, starter) in starters().iter().enumerate() {
            let mut recipe = named(starter);
            recipe.name = format!("{} {}", recipe.name, place + 4000);
            let put = device.shelf.put(&id(place), &recipe, device.clock);
            put.expect("there is room");
        }
        let recipes = device.shelf.taken() / many;
        let imported = recipes * (100 + BESIDE) / 100;
        device.note_all();
        let each = device.shelf.taken() / many;
        for place in 0..starters().len() {
            device.change(&id(place), |recipe| recipe.copies = 24);
            device.change(&id(place), |recipe| recipe.name.push_str(", second day"));
            let note = |recipe: &mut Recipe| {
                recipe
                    .notes
                    .insert("gather".to_owned(), "the blue one".to_owned());
            };
            device.change(&id(place), note);
        }
        let changed = device.shelf.taken() / many;
        println!(
            "units a recipe: {recipes} alone, {imported} while imported, {each} with its document, \
             {changed} changed three times"
        );
        assert!(imported * MANY <= ROOM, "an import of so many is taken");
        assert!(
            each <= imported,
            "its documents have the room held for them"
        );
        assert!(changed * CHANGED <= ROOM, "{changed} units a recipe");
    }
}

/// A recipe and its document as they were kept after the first dictionary; they
/// never change.
const FORMER_RECIPE: &str = include_str!("kept/recipe.txt");
const FORMER_DOCUMENT: &str = include_str!("kept/document.txt");

/// What earlier releases have packed is read, and packed anew when it is kept the
/// next time.
#[test]
fn what_was_packed_before_goes_on() {
    let mut device = Device::new(1);
    let port = device.shelf.port();
    port.write(&recipe_key("a1"), FORMER_RECIPE).expect("room");
    port.write("foldwright/page/recipe/a1", FORMER_DOCUMENT)
        .expect("room");
    assert_eq!(device.note_all(), [], "it is noted already");
    assert_eq!(device.ledger.recipes_unsent(&device.shelf), 1);
    let before = device.recipe("a1").expect("it is read");
    let state = device.ledger.state(&device.shelf, "recipe/a1");
    device.change("a1", |recipe| recipe.copies = 7);
    let port = device.shelf.port();
    assert_eq!(port.read("foldwright/page/recipe/a1"), None);
    assert!(port.has("foldwright/leaf/recipe/a1"));
    let kept = port.read(&recipe_key("a1")).expect("it is kept");
    assert!(kept.contains(r#"{"foldwright":5,"packed":""#), "{kept}");
    let seen = |state: &[u8]| Seen::of(state).expect("a state");
    let now = device.ledger.state(&device.shelf, "recipe/a1");
    assert!(seen(&now).covers(&seen(&state)), "it is the same document");
    let copies = Recipe {
        copies: 7,
        ..before
    };
    assert_eq!(device.recipe("a1"), Some(copies));
}

#[test]
fn what_is_asked_of_all_documents_is_told_without_opening_them() {
    let mut device = Device::new(1);
    let some = some_recipe();
    for id in ["a1", "b2"] {
        device.shelf.put(id, &some, DAY).expect("there is room");
    }
    device.note_all();
    assert_eq!(device.ledger.recipes_unsent(&device.shelf), 2);
    let turn = device.ledger.turn("recipe/a1");
    let sent = device.ledger.sent(&device.shelf, "recipe/a1", turn);
    sent.expect("there is room");
    device.reopen();
    for name in names(&device.shelf) {
        device.ledger.look_at(&device.shelf, &name);
    }
    assert!(!device.ledger.unsent().is_empty());
    assert_eq!(device.ledger.recipes_unsent(&device.shelf), 1);
    assert_eq!(device.note_all(), [], "nothing has changed");

    let head = |device: &Device| device.shelf.port().head("foldwright/leaf/recipe/b2");
    let before = head(&device).expect("it has a first line");
    device.change("b2", |recipe| recipe.copies = 7);
    assert_ne!(head(&device), Some(before));
    device.shelf.delete("b2");
    device.note_all();
    assert_eq!(head(&device).as_deref().map(|head| &head[..3]), Some("agu"));
}

#[test]
fn documents_of_earlier_releases_go_on() {
    let some = some_recipe();
    let mut document = Document::new(77);
    document.write(&Value::Null, &merged::object(&some));
    let kept = former(&document, &some);

    let mut device = Device::new(1);
    let key = "foldwright/document/recipe/a1";
    let port = device.shelf.port();
    port.write(key, &kept).expect("there is room");
    let file = recipe::write(std::slice::from_ref(&some));
    let record = format!("3 9 1000\n{file}");
    port.write(&recipe_key("a1"), &record).expect("room");
    assert_eq!(device.note_all(), [], "it is noted already");
    device.change("a1", |recipe| recipe.copies = 7);
    assert_eq!(device.shelf.port().read(key), None, "it is packed now");
    let state = device.ledger.state(&device.shelf, "recipe/a1");
    let own = Seen::of(&document.state()).expect("a state");
    let now = Seen::of(&state).expect("a state");
    assert!(now.covers(&own), "it goes on from what there was");
    assert!(
        units(
            &device
                .shelf
                .port()
                .read("foldwright/leaf/recipe/a1")
                .expect("packed")
        ) < units(&kept)
    );
}

/// A page of an earlier release that is still open finds no document, and
/// begins another. It must not come in the place of what is packed, nor double
/// what the two have in common.
#[test]
fn a_document_an_earlier_release_begins_anew_is_passed_over() {
    let mut device = Device::new(1);
    let some = some_recipe();
    device.shelf.put("a1", &some, DAY).expect("there is room");
    device.note_all();
    let mut newly = Document::new(78);
    newly.write(&Value::Null, &merged::object(&some));
    let key = "foldwright/document/recipe/a1";
    let kept = former(&newly, &some);
    device.shelf.port().write(key, &kept).expect("room");
    device.reopen();
    let mut changed = some.clone();
    changed.copies = 9;
    let file = recipe::write(std::slice::from_ref(&changed));
    let record = format!("8 9 1000\n{file}");
    device
        .shelf
        .port()
        .write(&recipe_key("a1"), &record)
        .expect("room");
    let changes = device.note_all();
    let mut phone = Device::new(2);
    phone.take(&changes);
    assert_eq!(device.recipe("a1"), Some(changed));
    assert_eq!(device.shelf.port().read(key), None);
    assert_eq!(names(&device.shelf), ["past/a1", "recipe/a1"]);
}
