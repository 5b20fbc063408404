//! What two devices decide apart comes together.

use foldwright_document::{Document, Said};
use foldwright_engine::card::{Tools, work_out};
use foldwright_engine::length::Length;
use foldwright_engine::recipe::{
    Holds, Ids, Is, MOST_TEXT, Measure, MeasureId, Recipe, Relation, Takes, Term, Wraps,
};
use foldwright_engine::steps::{Kind, steps};
use serde::Deserialize as _;
use serde_json::{Value, json};

use super::super::{gave_way, merged};
use super::{Came, Change, Device, documents_in, some_recipe, two};
use crate::spoken::naming;
use crate::store::{Joined, Progress, joined_key, progress_key};

/// Takes in on each of two devices what the other has done meanwhile.
pub(super) fn cross(laptop: &mut Device, phone: &mut Device, one: &[Change], other: &[Change]) {
    phone.take(one);
    laptop.take(other);
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
    assert_eq!(laptop.note_all(), [], "merging is nobody's own change");
    assert_eq!(phone.note_all(), []);
}

pub(super) fn measure(recipe: &Recipe, name: &str) -> MeasureId {
    let found = recipe.measures.iter().find(|it| it.name == name);
    found.expect("a measure of that name").id
}

pub(super) fn set(device: &mut Device, name: &str, value: Length) -> Vec<Change> {
    device.change("a1", |recipe| {
        let id = measure(recipe, name);
        recipe.set(id, value).expect("the change can be made");
    })
}

pub(super) fn inches(text: &str) -> Length {
    let value = Value::from(format!("{text} in"));
    Length::deserialize(value).expect("a length")
}

/// By hand: of the card with one fold, the mat is as wide as the front, which
/// is half the strip, less two borders: 4 1/2 − 2 × 1/4 = 4.
#[test]
fn numbers_changed_apart_are_solved_together() {
    let (mut laptop, mut phone) = two();
    let one = set(&mut laptop, "mat border", inches("1/4"));
    let other = set(&mut phone, "strip length", inches("9"));
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(merged.broken(), []);
    for (name, value) in [
        ("mat border", "1/4"),
        ("strip length", "9"),
        ("mat width", "4"),
    ] {
        assert_eq!(
            merged.value(measure(&merged, name)),
            inches(value),
            "{name}"
        );
    }
    // What each had before, where that was something else.
    let was = [
        (&laptop, ["4¼", "4¼", "3¾", "", "", "", "8½"]),
        (&phone, ["", "", "4¼", "5¼", "⅛", "⅛", ""]),
    ];
    for (device, was) in was {
        let joined = device.shelf.port().read(&joined_key("a1"));
        let joined = joined
            .and_then(|text| Joined::parse(&text))
            .expect("something to look at");
        // What was decided is told by itself, and nothing gave way.
        let mut decided = joined.decided.clone();
        decided.sort_unstable();
        let told = ["card width 4½", "mat border ¼"];
        let told = told.map(|said| format!("here: {said}\u{a0}in"));
        assert_eq!(decided, told, "{joined:?}");
        assert_eq!(joined.became, [""; 0]);
        // The rest is behind one line.
        let followed: Vec<_> = joined.followed.values().map(String::as_str).collect();
        let now = [
            "front width is 4½",
            "back width is 4½",
            "mat width is 4",
            "mat height is 5",
            "mat from the left is ¼",
            "mat from the bottom is ¼",
            "strip length is 9",
        ];
        let told = now.iter().zip(was).map(|(now, was)| match was {
            "" => format!("{now}\u{a0}in now."),
            _ => format!("{now}\u{a0}in now, and was {was}\u{a0}in."),
        });
        assert_eq!(followed, told.collect::<Vec<_>>());
        assert!(joined.before().is_some() && !joined.looked);
    }

    // Who goes on from it writes what they saw, and that stays.
    let next = set(&mut laptop, "card height", inches("6"));
    phone.take(&next);
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
    let now = phone.recipe("a1").expect("a recipe");
    assert_eq!(now.value(measure(&now, "mat width")), inches("4"));
    let mut fresh = Device::new(9);
    let documents = documents_in(&laptop.everything());
    let came = fresh.take(&documents.expect("a file"));
    assert_eq!(came, [Came::Recipe("a1".to_owned())]);
    assert_eq!(fresh.recipe("a1"), Some(now));
}

/// Supplies are known by their numbers, which two devices draw apart: both are there,
/// and of one that both change, each change.
#[test]
fn supplies_added_apart_are_all_there() {
    let (mut laptop, mut phone) = two();
    let add = |device: &mut Device, start, name: &'static str, takes| {
        device.change("a1", |recipe| {
            recipe.ids = Ids::from_start(start);
            recipe.add_supply(name, takes).expect("there is room");
        })
    };
    let ribbon = Takes::Ribbon {
        wraps: Wraps::BothWays,
        knot: inches("10"),
    };
    let one = add(&mut laptop, 11, "pearl gems", Takes::Count(3));
    let other = add(&mut phone, 12, "satin ribbon", ribbon);
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    let supplies = merged.supplies.iter();
    let mut supplies: Vec<_> = supplies.map(|it| (&*it.name, it.takes)).collect();
    supplies.sort_by_key(|(name, _)| *name);
    let both = [("pearl gems", Takes::Count(3)), ("satin ribbon", ribbon)];
    assert_eq!(supplies, both);
    let of = |recipe: &Recipe, name: &str| {
        let found = recipe.supplies.iter().find(|it| it.name == name);
        found.expect("it is there").id
    };
    let gems = of(&merged, "pearl gems");
    let one = laptop.change("a1", |recipe| recipe.rename_supply(gems, "glass gems"));
    let other = phone.change("a1", |recipe| recipe.take_of_supply(gems, Takes::Count(5)));
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = laptop.recipe("a1").expect("a recipe");
    let supply = merged.supply(gems).expect("it is there");
    assert_eq!(
        (&*supply.name, supply.takes),
        ("glass gems", Takes::Count(5))
    );
    // What one takes away is gone, and the other stays.
    let one = laptop.change("a1", |recipe| recipe.remove_supply(gems));
    cross(&mut laptop, &mut phone, &one, &[]);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(merged.supplies.len(), 1);
}

/// Steps of their makers' own that are added apart are all there. Of two orders chosen
/// apart one stays, whole, and the step that it does not know is not lost.
#[test]
fn own_steps_added_apart_are_all_there() {
    let (mut laptop, mut phone) = two();
    let add = |device: &mut Device, start, text: &'static str| {
        device.change("a1", |recipe| {
            recipe.ids = Ids::from_start(start);
            let id = recipe.add_own_step(text, false).expect("there is room");
            recipe.order = ["gather", &format!("own-{}", id.0), "cut-strip"]
                .map(str::to_owned)
                .to_vec();
        })
    };
    let one = add(&mut laptop, 11, "Stamp the harbour");
    let other = add(&mut phone, 12, "Ink the edges");
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(laptop.recipe("a1").as_ref(), Some(&merged));
    let mut texts: Vec<_> = merged.own_steps.iter().map(|it| &*it.text).collect();
    texts.sort_unstable();
    assert_eq!(texts, ["Ink the edges", "Stamp the harbour"]);
    assert_eq!(merged.order.len(), 3, "{:?}", merged.order);
    let card = work_out(&merged, &Tools::default());
    let own = steps(&merged, &card);
    let own = own.iter().filter(|step| step.kind == Kind::Own);
    assert_eq!(own.count(), 2);
    // One changes its words, the other how often it is done.
    let id = merged.own_steps[0].id;
    let one = laptop.change("a1", |recipe| {
        recipe.change_own_step(id, "Stamp it", false);
    });
    let other = phone.change("a1", |recipe| {
        let text = recipe.own_step(id).expect("it is there").text.clone();
        recipe.change_own_step(id, &text, true);
    });
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = laptop.recipe("a1").expect("a recipe");
    let step = merged.own_step(id).expect("it is there");
    assert_eq!((&*step.text, step.each), ("Stamp it", true));
}

/// A border that two devices set: one of them gives way, and the sizes that are
/// tied to it only follow. By hand: on a front of 4 1/4 × 5 1/2 a border of 3/16
/// leaves a mat of 3 7/8 × 5 1/8, one of 1/4 leaves 3 3/4 × 5.
#[test]
fn what_gave_way_is_told_before_what_followed() {
    let (mut laptop, mut phone) = (Device::called(1, "Laptop"), Device::called(2, "Phone"));
    laptop.shelf.put("a1", &some_recipe(), 5).expect("room");
    let changes = laptop.note_all();
    phone.take(&changes);
    let one = set(&mut laptop, "mat border", inches("1/4"));
    let other = set(&mut phone, "mat border", inches("3/16"));
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    let wide = ("Laptop", ["¼", "3¾", "5"]);
    let narrow = ("Phone", ["³⁄₁₆", "3⅞", "5⅛"]);
    let (lost, now) = if merged.value(measure(&merged, "mat border")) == inches("1/4") {
        (narrow, wide)
    } else {
        (wide, narrow)
    };
    let ((by, [border, width, height]), (_, [now, width_now, height_now])) = (lost, now);
    for device in [&laptop, &phone] {
        let joined = device.shelf.port().read(&joined_key("a1"));
        let joined = joined
            .and_then(|text| Joined::parse(&text))
            .expect("something to look at");
        let line =
            format!("{by} decided mat border {border}\u{a0}in; mat border is {now}\u{a0}in now.");
        assert_eq!(joined.became, [line]);
        let followed: Vec<_> = joined.followed.into_values().collect();
        // Where it gave way the numbers were others.
        let line = |name: &str, was: &str, is: &str| {
            let was = format!(", and was {was}\u{a0}in");
            let was = if device.name == by { &*was } else { "" };
            format!("{name} is {is}\u{a0}in now{was}.")
        };
        let told = [
            line("mat width", width, width_now),
            line("mat height", height, height_now),
            line("mat from the left", border, now),
            line("mat from the bottom", border, now),
        ];
        assert_eq!(followed, told);
    }
}

/// Every two numbers of a card that two devices change at once.
#[test]
fn any_two_numbers_go_together_or_it_is_said() {
    let start = some_recipe();
    let mut told = 0;
    for one in &start.measures {
        for other in &start.measures {
            let (mut laptop, mut phone) = two();
            let longer = |of: &Measure| of.value + inches("1/8");
            let change = |device: &mut Device, of: &Measure| {
                device.change("a1", |recipe| {
                    // Some numbers can't be moved by themselves.
                    let _ = recipe.set(of.id, longer(of));
                })
            };
            let here = change(&mut laptop, one);
            let there = change(&mut phone, other);
            let before = [laptop.recipe("a1"), phone.recipe("a1")];
            cross(&mut laptop, &mut phone, &here, &there);
            let merged = phone.recipe("a1").expect("a recipe");
            assert_eq!(merged.broken(), [], "{} and {}", one.name, other.name);
            let joined = phone.shelf.port().read(&joined_key("a1")).is_some();
            told += usize::from(joined);
            let lost = |of: &Measure, at: usize| {
                let before = before[at].as_ref().map(|it| it.value(of.id));
                before == Some(longer(of)) && merged.value(of.id) != longer(of)
            };
            if one.id != other.id && (lost(one, 0) || lost(other, 1)) {
                assert!(joined, "{} and {}", one.name, other.name);
            }
        }
    }
    assert!(told > 0, "some pairs have to be solved again");
}

/// What one maker left as it is stays so, even if it could be solved.
#[test]
fn nobody_solves_what_one_maker_made() {
    let (mut laptop, mut phone) = two();
    let odd = laptop.change("a1", |recipe| {
        let id = measure(recipe, "mat width");
        let mut measures = recipe.measures.iter_mut();
        let mat = measures.find(|it| it.id == id).expect("the mat");
        mat.value = inches("3");
    });
    let named = phone.change("a1", |recipe| recipe.name = "Harbour".to_owned());
    cross(&mut laptop, &mut phone, &odd, &named);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(merged.value(measure(&merged, "mat width")), inches("3"));
}

/// Two rules that contradict each other: one of them goes, and that is said.
#[test]
fn rules_that_contradict_each_other_are_told() {
    let (mut laptop, mut phone) = two();
    let fix = |device: &mut Device, value: &str| {
        device.change("a1", |recipe| {
            let id = measure(recipe, "card height");
            recipe.set(id, inches(value)).expect("a height");
            recipe.relations.push(Relation {
                left: vec![Term { times: 1, of: id }],
                is: Is::Equal,
                right: Vec::new(),
                plus: inches(value),
                holds: Holds::Must,
            });
        })
    };
    let one = fix(&mut laptop, "6");
    let other = fix(&mut phone, "7");
    cross(&mut laptop, &mut phone, &one, &other);
    let merged = phone.recipe("a1").expect("a recipe");
    assert_eq!(merged.broken(), []);
    let joined = laptop.shelf.port().read(&joined_key("a1"));
    let joined = joined
        .and_then(|text| Joined::parse(&text))
        .expect("something to look at");
    assert!(
        joined
            .became
            .iter()
            .any(|line| line.contains("contradicts")),
        "{joined:?}"
    );
}

/// Five presses here, five there, whatever was counted before.
#[test]
fn what_is_done_for_some_cards_adds_up() {
    let (mut laptop, mut phone) = two();
    let change = |device: &mut Device, change: &dyn Fn(&mut Progress)| {
        let key = progress_key("a1");
        let kept = device.shelf.port().read(&key);
        let mut progress = kept
            .and_then(|text| Progress::parse(&text))
            .unwrap_or_default();
        change(&mut progress);
        device
            .shelf
            .port()
            .write(&key, &progress.text())
            .expect("room");
        device.note("bench/a1")
    };
    let press = |step: &'static str, by: i64| {
        move |progress: &mut Progress| {
            let count = progress.done.entry(step.to_owned()).or_insert(0);
            *count = u32::try_from(i64::from(*count) + by).expect("not below nothing");
        }
    };
    let done = |device: &Device| {
        let text = device.shelf.port().read(&progress_key("a1"));
        Progress::parse(&text.expect("progress"))
            .expect("progress")
            .done
    };
    // Written by a device that knew of no counts.
    let mut old = Document::new(77);
    let update = old.write(
        &Value::Null,
        &json!({ "step": "cut", "done": { "cut": 3 } }),
    );
    let update = [("bench/a1".to_owned(), update.expect("a change"))];
    laptop.take(&update);
    phone.take(&update);
    assert_eq!(done(&phone)["cut"], 3);

    let mut one = Vec::new();
    let mut other = Vec::new();
    for _ in 0..5 {
        one.extend(change(&mut laptop, &press("cut", 1)));
        other.extend(change(&mut phone, &press("cut", 1)));
        other.extend(change(&mut phone, &press("score", 1)));
    }
    one.extend(change(&mut laptop, &press("score", 2)));
    phone.reopen();
    one.extend(change(&mut laptop, &press("score", -1)));
    phone.take(&one);
    laptop.take(&other);
    for device in [&laptop, &phone] {
        assert_eq!(done(device)["cut"], 13);
        assert_eq!(done(device)["score"], 6);
    }
    assert_eq!(laptop.note_all(), []);

    // Both begin anew at once, and then one press is one.
    let anew = |progress: &mut Progress| *progress = Progress::default();
    let one = change(&mut laptop, &anew);
    let other = change(&mut phone, &anew);
    phone.take(&one);
    laptop.take(&other);
    let one = change(&mut laptop, &press("cut", 1));
    let other = change(&mut phone, &press("cut", 1));
    phone.take(&one);
    laptop.take(&other);
    for device in [&laptop, &phone] {
        assert_eq!(done(device), [("cut".to_owned(), 2)].into());
    }

    // More taken back than there are shows nothing, and the next press counts.
    let one = change(&mut laptop, &press("cut", -2));
    let other = change(&mut phone, &press("cut", -2));
    phone.take(&one);
    laptop.take(&other);
    assert_eq!(done(&phone)["cut"], 0);
    let one = change(&mut laptop, &press("cut", 1));
    phone.take(&one);
    for device in [&laptop, &phone] {
        assert_eq!(done(device)["cut"], 1);
    }
}

/// Two notes that are as long as a note can be come together: nothing is lost,
/// and the recipe can be read.
#[test]
fn notes_that_come_together_too_long_keep_the_recipe_readable() {
    let (mut laptop, mut phone) = two();
    let write = |device: &mut Device, letter: &str| {
        device.change("a1", |recipe| {
            let note = letter.repeat(MOST_TEXT);
            recipe.notes.insert("gather".to_owned(), note);
        })
    };
    let one = write(&mut laptop, "ä");
    let other = write(&mut phone, "o");
    cross(&mut laptop, &mut phone, &one, &other);
    let shown = laptop.recipe("a1").expect("a recipe").notes["gather"].clone();
    assert_eq!(shown.chars().count(), MOST_TEXT);
    let joined = laptop.shelf.port().read(&joined_key("a1"));
    assert!(joined.is_some_and(|joined| joined.contains("4000 characters")));
    // As it is made shorter, the rest shows.
    let less = laptop.change("a1", |recipe| {
        let note = recipe.notes.get_mut("gather").expect("a note");
        *note = note.chars().skip(MOST_TEXT - 10).collect();
    });
    phone.take(&less);
    let rest = phone.recipe("a1").expect("a recipe").notes["gather"].clone();
    assert_eq!(rest.chars().count(), MOST_TEXT);
    assert_eq!(rest.chars().filter(|it| shown.starts_with(*it)).count(), 10);
}

/// What gave way is in the history of both, by whom and when, and can be used
/// after all.
#[test]
fn what_gives_way_is_kept_and_told() {
    let (mut laptop, mut phone) = (Device::called(1, "Laptop"), Device::called(2, "Phone"));
    laptop.shelf.put("a1", &some_recipe(), 5).expect("room");
    let changes = laptop.note_all();
    phone.take(&changes);
    let named = |device: &mut Device, name: &str| {
        device.change("a1", |recipe| recipe.name = name.to_owned())
    };
    let one = named(&mut laptop, "Harbour");
    let other = named(&mut phone, "Quay");
    cross(&mut laptop, &mut phone, &one, &other);
    let now = laptop.recipe("a1").expect("a recipe");
    let (lost, by) = match &*now.name {
        "Quay" => ("Harbour", "Laptop"),
        _ => ("Quay", "Phone"),
    };
    for device in [&mut laptop, &mut phone] {
        let kept = device.ledger.lost(&device.shelf, "a1");
        assert_eq!(kept.len(), 1, "{kept:?}");
        assert_eq!((&kept[0].value, &*kept[0].by), (&json!(lost), by));
        assert!(kept[0].at > 0);
        let line = format!("{by} decided the name: “{lost}”; it is “{}” now.", now.name);
        let joined = device.shelf.port().read(&joined_key("a1"));
        let joined = joined
            .and_then(|text| Joined::parse(&text))
            .expect("something to look at");
        assert_eq!(joined.became, [line]);
        let back = gave_way::restored(&now, &kept[0]).expect("a name can be given");
        assert_eq!(back.name, lost);
    }
    // It is told once.
    let more = laptop.change("a1", |recipe| recipe.copies = 5);
    let came = phone.take(&more);
    assert_eq!(came, [Came::Recipe("a1".to_owned())]);
    // Who changes it knowing of both leaves nothing behind but the history.
    let last = named(&mut laptop, "Pier");
    phone.take(&last);
    let past = laptop.ledger.take_own();
    phone.take(&past);
    assert_eq!(phone.ledger.lost(&phone.shelf, "a1").len(), 1);
}

/// Who pins a measurement counts on its number.
#[test]
fn what_is_pinned_here_does_not_move_there_unsaid() {
    let (mut laptop, mut phone) = two();
    let before = some_recipe();
    let border = measure(&before, "mat border");
    let pinned = laptop.change("a1", |recipe| {
        recipe.pin(border, true).expect("a measurement");
    });
    let set = set(&mut phone, "mat border", inches("1/4"));
    cross(&mut laptop, &mut phone, &pinned, &set);
    let merged = laptop.recipe("a1").expect("a recipe");
    let lost = if merged.value(border) == inches("1/4") {
        before.value(border)
    } else {
        inches("1/4")
    };
    for device in [&mut laptop, &mut phone] {
        let kept = device.ledger.lost(&device.shelf, "a1");
        let numbers: Vec<_> = kept.iter().filter_map(merged::number).collect();
        assert_eq!(numbers, [(border, lost)]);
        let joined = device.shelf.port().read(&joined_key("a1"));
        assert!(joined.is_some(), "it is told");
    }
}

#[test]
fn a_panel_renamed_here_and_removed_there_comes_back() {
    let (mut laptop, mut phone) = two();
    let panel = some_recipe().base.panels[0].id;
    let gone = laptop.change("a1", |recipe| {
        recipe.remove_panel(panel).expect("a panel less");
    });
    let named = phone.change("a1", |recipe| {
        recipe
            .rename_panel(panel, "cover", naming())
            .expect("another name");
    });
    cross(&mut laptop, &mut phone, &gone, &named);
    let merged = laptop.recipe("a1").expect("a recipe");
    let back = merged.base.panels.iter().find(|it| it.id == panel);
    assert_eq!(back.map(|it| &*it.name), Some("cover"));
    assert_eq!(merged.broken(), []);
    for device in [&mut laptop, &mut phone] {
        let kept = device.ledger.lost(&device.shelf, "a1");
        let removal = kept
            .iter()
            .find(|it| !it.there && it.address.starts_with("base.panels/"));
        let removal = removal.expect("the removal gave way");
        assert_eq!(
            gave_way::words(&merged, removal),
            "to take out panel “front”"
        );
        let without = gave_way::restored(&merged, removal).expect("a panel can be taken out");
        assert!(without.base.panels.iter().all(|it| it.id != panel));
        assert!(without.check_kept().is_empty());
    }
    // Taken out once more by one who has seen it, it stays out.
    let gone = laptop.change("a1", |recipe| {
        recipe.remove_panel(panel).expect("a panel less");
    });
    phone.take(&gone);
    let merged = phone.recipe("a1").expect("a recipe");
    assert!(merged.base.panels.iter().all(|it| it.id != panel));
    assert_eq!(laptop.recipe("a1"), Some(merged));
}

/// What lies on a panel goes with it.
#[test]
fn what_goes_with_a_part_is_told() {
    let recipe = some_recipe();
    let said = Said {
        key: String::new(),
        address: format!("base.panels/{}", recipe.base.panels[0].id.0),
        at: 0,
        by: String::new(),
        there: false,
        value: Value::Null,
    };
    let without = gave_way::restored(&recipe, &said).expect("a panel can be taken out");
    assert_eq!(gave_way::gone(&recipe, &without), ["the mat"]);
    assert_eq!(gave_way::gone(&recipe, &recipe), [""; 0]);
}

#[test]
fn a_deleted_recipe_that_returns_says_why() {
    let (mut laptop, mut phone) = two();
    phone.name = "Phone".to_owned();
    laptop.shelf.delete("a1");
    let gone = laptop.note_all();
    let changed = phone.change("a1", |recipe| recipe.copies = 7);
    let outlived = Came::Outlived("a1".to_owned());
    assert!(phone.take(&gone).contains(&outlived));
    assert!(laptop.take(&changed).contains(&outlived));
    for device in [&mut laptop, &mut phone] {
        let by = device.ledger.last_by(&device.shelf, "a1");
        assert_eq!(by.as_deref(), Some("Phone"));
    }
    // Brought back by somebody, it needs no words.
    laptop.shelf.delete("a1");
    let gone = laptop.note_all();
    assert!(!phone.take(&gone).contains(&outlived));
    let back = phone
        .ledger
        .bring_back(&phone.shelf, "a1", phone.clock)
        .expect("room");
    assert!(!laptop.take(&back).contains(&outlived));
    assert!(laptop.recipe("a1").is_some());
}

/// One's own change is undone on top of what others have done since.
#[test]
fn undoing_leaves_what_came_from_elsewhere() {
    let before = some_recipe();
    let mut mine = before.clone();
    mine.set(measure(&mine, "mat border"), inches("1/4"))
        .expect("a border");
    let mut theirs = mine.clone();
    theirs.name = "Harbour".to_owned();
    theirs
        .set(measure(&theirs, "card height"), inches("6"))
        .expect("a height");
    let undone = gave_way::carried(&mine, &theirs, &before).expect("a recipe");
    assert_eq!(undone.broken(), []);
    assert_eq!(undone.name, "Harbour");
    for (name, value) in [
        ("mat border", "1/8"),
        ("card height", "6"),
        ("mat height", "5 3/4"),
    ] {
        assert_eq!(
            undone.value(measure(&undone, name)),
            inches(value),
            "{name}"
        );
    }
    // What they have made of the very same stays as they made it.
    theirs
        .set(measure(&theirs, "mat border"), inches("3/8"))
        .expect("a border");
    let undone = gave_way::carried(&mine, &theirs, &before).expect("a recipe");
    assert_eq!(undone.value(measure(&undone, "mat border")), inches("3/8"));
}
