//! The rules by which tabs share recipes, without a browser.

mod limits;
mod salvaging;

use std::collections::BTreeMap;

use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit};
use foldwright_engine::part::Part;
use foldwright_engine::recipe::{LayerId, Recipe, StripId, starters};
use foldwright_engine::steps::{StepKey, Trim};
use foldwright_words::Language;

use super::port::{Memory, Refused, units};
use super::record::{Record, Stamp, stamp_of};
use super::settings::Settings;
use super::shelf::{Arrived, NotLoaded, Saved, Shelf, recipe_key};
use super::{Progress, file_name};

const METRIC: Notation = Notation {
    step: Step::Millimetre,
    decimal: DecimalMark::Comma,
};

fn some_recipe() -> Recipe {
    starters()
        .first()
        .expect("there are starters")
        .recipe_in(METRIC)
}

fn named(name: &str) -> Recipe {
    let mut recipe = some_recipe();
    name.clone_into(&mut recipe.name);
    recipe
}

fn never() -> String {
    panic!("no second name was needed")
}

/// Two tabs over one storage.
mod tabs {
    use std::sync::Arc;

    use crate::store::port::{Memory, Port, Refused};
    use crate::store::shelf::Shelf;

    #[derive(Clone)]
    pub(super) struct Shared(Arc<Memory>);

    impl Port for Shared {
        fn read(&self, key: &str) -> Option<String> {
            self.0.read(key)
        }
        fn write(&self, key: &str, text: &str) -> Result<(), Refused> {
            self.0.write(key, text)
        }
        fn remove(&self, key: &str) {
            self.0.remove(key);
        }
        fn keys(&self) -> Vec<String> {
            self.0.keys()
        }
    }

    pub(super) fn two() -> (Shelf, Shelf) {
        let shared = Shared(Arc::new(Memory::default()));
        (
            Shelf::new(Box::new(shared.clone()), 1),
            Shelf::new(Box::new(shared), 2),
        )
    }
}

#[test]
fn a_record_reads_back() {
    let stamp = Stamp {
        revision: 3,
        tab: 4_000_000_000,
        at: 1_764_000_000_000,
    };
    let record = Record {
        stamp,
        recipe: some_recipe(),
    };
    let text = record.stamp.text_of(&record.recipe);
    assert_eq!(stamp_of(&text), Some(stamp));
    assert_eq!(Record::parse(&text), Ok(record));
}

#[test]
fn what_was_saved_is_loaded_and_nothing_is_written_twice() {
    let (shelf, _) = tabs::two();
    shelf.put("a1", &named("Quay"), 1).expect("there is room");
    let mut held = shelf.open("a1").expect("it is there");
    assert_eq!(
        shelf.save(&mut held, &named("Quay"), never, 2),
        Ok(Saved::Unchanged)
    );
    assert_eq!(shelf.load("a1").expect("it is there").stamp.revision, 1);
    assert_eq!(
        shelf.save(&mut held, &named("Harbour"), never, 3),
        Ok(Saved::Kept)
    );
    let record = shelf.load("a1").expect("it is there");
    assert_eq!(record.recipe, named("Harbour"));
    assert_eq!(record.stamp.revision, 2);
}

#[test]
fn a_tab_without_changes_takes_what_another_saved() {
    let (one, other) = tabs::two();
    one.put("a1", &named("Quay"), 1).expect("there is room");
    let mut ours = one.open("a1").expect("it is there");
    let mut theirs = other.open("a1").expect("it is there");
    assert_eq!(
        other.save(&mut theirs, &named("Mole"), never, 2),
        Ok(Saved::Kept)
    );
    let text = one.port().read(&recipe_key("a1"));
    assert_eq!(
        one.arrived(&mut ours, &named("Quay"), text.as_deref(), never, 3),
        Ok(Arrived::Taken(Box::new(named("Mole"))))
    );
    // And then writes on top of it.
    assert_eq!(
        one.save(&mut ours, &named("Lock"), never, 4),
        Ok(Saved::Kept)
    );
}

#[test]
fn where_both_tabs_changed_both_are_kept() {
    let (one, other) = tabs::two();
    one.put("a1", &named("Quay"), 1).expect("there is room");
    let mut ours = one.open("a1").expect("it is there");
    let mut theirs = other.open("a1").expect("it is there");
    assert_eq!(
        other.save(&mut theirs, &named("Mole"), never, 2),
        Ok(Saved::Kept)
    );
    let saved = one.save(&mut ours, &named("Lock"), || String::from("b2"), 3);
    let Ok(Saved::Apart(apart)) = saved else {
        panic!("it was overwritten: {saved:?}")
    };
    assert_eq!((apart.copy.as_str(), apart.theirs), ("b2", named("Mole")));
    let name = |id| one.load(id).map(|record| record.recipe.name);
    assert_eq!(name("a1"), Ok(String::from("Mole")));
    assert_eq!(name("b2"), Ok(String::from("Lock (from another tab)")));
    // This tab now goes on with the other tab's.
    assert_eq!(
        one.save(&mut ours, &named("Weir"), never, 4),
        Ok(Saved::Kept)
    );
}

#[test]
fn news_in_the_middle_of_a_change_keep_both() {
    let (one, other) = tabs::two();
    one.put("a1", &named("Quay"), 1).expect("there is room");
    let mut ours = one.open("a1").expect("it is there");
    let mut theirs = other.open("a1").expect("it is there");
    assert_eq!(
        other.save(&mut theirs, &named("Mole"), never, 2),
        Ok(Saved::Kept)
    );
    let text = one.port().read(&recipe_key("a1"));
    let arrived = one.arrived(
        &mut ours,
        &named("Lock"),
        text.as_deref(),
        || String::from("b2"),
        3,
    );
    assert!(matches!(arrived, Ok(Arrived::Apart(_))), "{arrived:?}");
    assert_eq!(
        one.load("b2").map(|record| record.recipe.name),
        Ok(String::from("Lock (from another tab)"))
    );
}

#[test]
fn a_change_that_another_tab_wrote_over_unseen_is_kept_too() {
    let (one, other) = tabs::two();
    one.put("a1", &named("Quay"), 1).expect("there is room");
    let mut ours = one.open("a1").expect("it is there");
    let mut theirs = other.open("a1").expect("it is there");
    // Both write revision 2, the other tab on a stale view of the storage.
    assert_eq!(
        one.save(&mut ours, &named("Lock"), never, 2),
        Ok(Saved::Kept)
    );
    one.delete("a1");
    assert_eq!(
        other.save(&mut theirs, &named("Mole"), never, 2),
        Ok(Saved::Revived)
    );
    let text = one.port().read(&recipe_key("a1"));
    let arrived = one.arrived(
        &mut ours,
        &named("Lock"),
        text.as_deref(),
        || String::from("b2"),
        3,
    );
    let Ok(Arrived::Apart(apart)) = arrived else {
        panic!("a change was lost: {arrived:?}")
    };
    assert_eq!(apart.theirs, named("Mole"));
    assert!(one.load("b2").is_ok());
}

#[test]
fn late_news_do_not_bring_back_what_is_over() {
    let (one, other) = tabs::two();
    one.put("a1", &named("Quay"), 1).expect("there is room");
    let mut ours = one.open("a1").expect("it is there");
    let mut theirs = other.open("a1").expect("it is there");
    other
        .save(&mut theirs, &named("Mole"), never, 2)
        .expect("there is room");
    let first = one.port().read(&recipe_key("a1"));
    other
        .save(&mut theirs, &named("Weir"), never, 3)
        .expect("there is room");
    let second = one.port().read(&recipe_key("a1"));
    assert_eq!(
        one.arrived(&mut ours, &named("Quay"), first.as_deref(), never, 4),
        Ok(Arrived::Taken(Box::new(named("Weir"))))
    );
    assert_eq!(
        one.save(&mut ours, &named("Lock"), never, 5),
        Ok(Saved::Kept)
    );
    assert_eq!(
        one.arrived(&mut ours, &named("Lock"), second.as_deref(), never, 6),
        Ok(Arrived::Nothing)
    );
}

#[test]
fn both_tabs_making_the_same_change_is_no_quarrel() {
    let (one, other) = tabs::two();
    one.put("a1", &named("Quay"), 1).expect("there is room");
    let mut ours = one.open("a1").expect("it is there");
    let mut theirs = other.open("a1").expect("it is there");
    other
        .save(&mut theirs, &named("Mole"), never, 2)
        .expect("there is room");
    assert_eq!(
        one.save(&mut ours, &named("Mole"), never, 3),
        Ok(Saved::Kept)
    );
    assert_eq!(one.ids(), ["a1"]);
}

#[test]
fn a_deleted_recipe_comes_back_with_the_next_change() {
    let (one, other) = tabs::two();
    one.put("a1", &named("Quay"), 1).expect("there is room");
    let mut ours = one.open("a1").expect("it is there");
    let text = other.delete("a1").expect("it was there");
    assert_eq!(
        one.arrived(&mut ours, &named("Quay"), None, never, 2),
        Ok(Arrived::Deleted)
    );
    assert_eq!(one.load("a1"), Err(NotLoaded::Missing));
    assert_eq!(
        one.save(&mut ours, &named("Lock"), never, 3),
        Ok(Saved::Kept)
    );
    assert_eq!(
        one.load("a1").map(|record| record.recipe),
        Ok(named("Lock"))
    );
    one.put_back("c3", &text).expect("there is room");
    assert_eq!(
        one.load("c3").map(|record| record.recipe),
        Ok(named("Quay"))
    );
}

#[test]
fn what_cannot_be_read_is_set_aside_whole() {
    for text in ["", "{", "1 2 3\n{\"foldwright\":1,\"recipes\":[]}", "x\ny"] {
        let (shelf, _) = tabs::two();
        let key = recipe_key("a1");
        shelf.port().write(&key, text).expect("there is room");
        let Err(NotLoaded::Broken(Some(aside))) = shelf.load("a1") else {
            panic!("{text:?} was not set aside")
        };
        assert_eq!((aside.name(), aside.text.as_str()), (key.as_str(), text));
        assert_eq!(shelf.port().read(&key), None);
        assert_eq!(shelf.asides(), [aside]);
        // A second one does not replace the first.
        shelf.port().write(&key, "other").expect("there is room");
        assert!(matches!(shelf.load("a1"), Err(NotLoaded::Broken(Some(_)))));
        assert_eq!(shelf.asides().len(), 2);
    }
}

#[test]
fn what_a_later_release_saved_stays_where_it_is() {
    let (shelf, _) = tabs::two();
    let key = recipe_key("a1");
    let text = "1 2 3\n{\"foldwright\":99,\"recipes\":[]}";
    shelf.port().write(&key, text).expect("there is room");
    assert_eq!(shelf.load("a1"), Err(NotLoaded::Newer));
    assert_eq!(shelf.port().read(&key).as_deref(), Some(text));
    assert_eq!(shelf.asides(), []);
}

#[test]
fn full_storage_loses_nothing() {
    let room = {
        let (shelf, _) = tabs::two();
        shelf.put("a1", &named("Quay"), 1).expect("there is room");
        let key = recipe_key("a1");
        units(&key) + units(&shelf.port().read(&key).expect("it is there"))
    };
    let shelf = Shelf::new(Box::new(Memory::with_room(room)), 1);
    shelf.put("a1", &named("Quay"), 1).expect("there is room");
    let mut held = shelf.open("a1").expect("it is there");
    let longer = named("Quay with a longer name");
    assert_eq!(shelf.save(&mut held, &longer, never, 2), Err(Refused::Full));
    assert_eq!(
        shelf.load("a1").map(|record| record.recipe),
        Ok(named("Quay"))
    );
    // Once there is room the same change is kept.
    assert_eq!(
        shelf.save(&mut held, &named("Mole"), never, 3),
        Ok(Saved::Kept)
    );
    // Nor is what can't be read dropped for want of room.
    let shelf = Shelf::new(Box::new(Memory::with_room(40)), 1);
    let key = recipe_key("a1");
    shelf
        .port()
        .write(&key, "no recipe at all")
        .expect("there is room");
    assert_eq!(shelf.load("a1"), Err(NotLoaded::Broken(None)));
    assert_eq!(shelf.port().read(&key).as_deref(), Some("no recipe at all"));
}

#[test]
fn settings_and_progress_read_back() {
    let settings = Settings {
        notation: METRIC,
        board: Length::mm(300),
        language: None,
        samples_away: true,
    };
    assert_eq!(Settings::parse(&settings.text()), Some(settings));
    let german = Settings {
        language: Some(Language::German),
        ..settings
    };
    assert_eq!(Settings::parse(&german.text()), Some(german));
    // A later Foldwright may speak more languages.
    let later = german.text().replace("\"de\"", "\"eo\"");
    assert_ne!(later, german.text());
    assert_eq!(Settings::parse(&later), Some(settings));
    assert_eq!(Settings::parse("{}"), None);
    let mut progress = Progress {
        step: String::from("fold"),
        ..Progress::default()
    };
    progress.done.insert(String::from("cut"), 24);
    assert_eq!(Progress::parse(&progress.text()), Some(progress.clone()));
    let trim = Trim {
        width: Length::mm(120),
        height: Length::mm(170),
        first: Length::ZERO,
        pieces: 2,
    };
    progress.trims.insert(String::from("cut-layer-1"), trim);
    assert_eq!(Progress::parse(&progress.text()), Some(progress));
    assert_eq!(Progress::parse(r#"{"foldwright":2,"kept":{}}"#), None);
}

/// As browsers have it: none of this may ever change.
#[test]
fn progress_is_kept_by_the_names_of_steps() {
    let (strip, layer) = (Part::Strip(StripId::Base), Part::Layer(LayerId(1)));
    let done = [(StepKey::Gather, 24), (StepKey::Cut(strip), 3)].into();
    let trim = Trim {
        width: Length::mm(120),
        height: Length::mm(170),
        first: Length::mm(5),
        pieces: 2,
    };
    let trims = [(layer, trim)].into();
    let progress = Progress::of(Some(StepKey::Trim(layer)), &done, &trims);
    let text = concat!(
        r#"{"foldwright":1,"kept":{"done":{"cut-strip":3,"gather":24},"step":"trim-layer-1","#,
        r#""trims":{"cut-layer-1":{"first":"5 mm","height":"170 mm","pieces":2,"#,
        r#""width":"120 mm"}}}}"#,
    );
    assert_eq!(progress.text(), text);
    let mut kept = Progress::parse(text).expect("it is ours");
    assert_eq!(kept, progress);
    // What another release calls its steps stays as it is, and is passed over.
    kept.done.insert(String::from("varnish-strip"), 1);
    kept.trims.insert(String::from("varnish-strip"), trim);
    assert_eq!((kept.known_done(), kept.known_trims()), (done, trims));
    assert_eq!(kept.done_at(StepKey::Cut(strip)), Some(3));
    assert_eq!(kept.done_at(StepKey::Dry), None);
    let finished = Progress::of(None, &BTreeMap::new(), &BTreeMap::new());
    assert_eq!(finished.step, "finish");
}

#[test]
fn a_country_measures_as_it_does() {
    let unit = |language| Settings::for_locale(language, "1.5").unit();
    assert_eq!(unit("en-US"), Unit::Inch);
    assert_eq!(unit("fr-CA"), Unit::Inch);
    assert_eq!(unit("en-GB"), Unit::Millimetre);
    assert_eq!(unit("en"), Unit::Millimetre);
    let decimal = |written| Settings::for_locale("de", written).notation.decimal;
    assert_eq!(decimal("1,5"), DecimalMark::Comma);
    assert_eq!(decimal("1.5"), DecimalMark::Point);
}

/// CLDR 45, `measurementSystem` and `decimal`: Germany measures in millimetres
/// and writes 1,5; the United States in inches, and 1.5.
#[test]
fn what_nobody_chose_follows_the_language() {
    let english = Settings::for_locale("en-US", "1.5");
    let german = Settings::for_locale("de", "1,5");
    let mut settings = english;
    settings.choose_language(Some(Language::German), english, german);
    assert_eq!(settings.notation, german.notation);
    assert_eq!(settings.board, german.board);
    settings.choose_language(None, german, english);
    assert_eq!(settings, english);

    let mut chosen = english;
    chosen.notation.step = Step::Eighth;
    chosen.board = Length::inches(10);
    let mut settings = chosen;
    settings.choose_language(Some(Language::German), english, german);
    assert_eq!(settings.language, Some(Language::German));
    assert_eq!(
        (settings.notation, settings.board),
        (chosen.notation, chosen.board)
    );
}

#[test]
fn file_names_are_plain() {
    assert_eq!(
        file_name("Quay: 24 kits / Saturday", "foldwright.json"),
        "quay-24-kits-saturday.foldwright.json"
    );
    assert_eq!(file_name("…", "svg"), "recipe.svg");
}
