//! What was deleted long ago goes for good, with clocks of the tests' own.

use std::collections::BTreeMap;

use foldwright_document::frame::{self, Message};

use super::super::talk::Talk;
use super::{
    Came, Change, DAY, Device, Document, Ledger, Progress, name, names, progress_key, some_recipe,
    writer,
};
use crate::store::rescued_key;

/// A server: it merges what it is sent, and tells what somebody lacks.
#[derive(Default)]
struct Server(BTreeMap<String, Document>);

impl Server {
    fn take(&mut self, changes: &[Change]) {
        for (name, update) in changes {
            let held = self.0.entry(name.clone());
            let document = held.or_insert_with(|| Document::new(0));
            document.apply(update).expect("a change");
        }
    }

    /// Everything, in the order of names or against it.
    fn everything(&self, backwards: bool) -> Vec<Change> {
        let whole = |(name, document): (&String, &Document)| (name.clone(), document.bytes());
        let mut all: Vec<_> = self.0.iter().map(whole).collect();
        if backwards {
            all.reverse();
        }
        all
    }

    fn holds(&self, text: &str) -> bool {
        let mut all = self.0.values().map(Document::bytes);
        all.any(|bytes| {
            bytes
                .windows(text.len())
                .any(|part| part == text.as_bytes())
        })
    }
}

impl Device {
    /// Sends changes and hears that they are kept.
    fn sends(&mut self, server: &mut Server, changes: &[Change]) {
        server.take(changes);
        for (name, _) in changes {
            let turn = self.ledger.turn(name);
            let told = self.ledger.sent(&self.shelf, name, turn);
            told.expect("room");
        }
    }

    /// Comes to the server after some time away.
    fn visits(&mut self, server: &mut Server, backwards: bool) {
        let clock = self.clock;
        let noted = self.note_all();
        self.clock = clock;
        self.sends(server, &noted);
        self.take(&server.everything(backwards));
        let revived = self.ledger.revive(&self.shelf, self.clock, "here");
        self.sends(server, &revived.expect("room"));
        let erased = self.ledger.erase(&self.shelf, self.clock, false);
        let erased = erased.expect("room");
        // Nothing is noted anew before it is sent.
        assert_eq!(self.note_all(), []);
        self.clock = clock;
        self.sends(server, &erased);
    }

    /// Comes to the server once a day, so many days long.
    fn stays(&mut self, server: &mut Server, days: u64) {
        for _ in 0..days {
            self.clock += DAY;
            self.reopen();
            self.visits(server, false);
        }
    }

    /// The keys of everything about the recipe "a1".
    fn traces(&self) -> Vec<String> {
        let mut keys = self.shelf.port().keys();
        keys.retain(|key| key.ends_with("/a1"));
        keys
    }

    fn is_listed(&mut self) -> bool {
        let deleted = self.ledger.deleted(&self.shelf, self.clock);
        !deleted.is_empty()
    }
}

/// Three devices that have the recipe "a1", with a past and some progress, and
/// their server.
fn three() -> (Device, Device, Device, Server) {
    let mut server = Server::default();
    let mut laptop = Device::new(1);
    laptop.shelf.put("a1", &some_recipe(), 5).expect("room");
    let port = laptop.shelf.port();
    let written = port.write(&progress_key("a1"), &Progress::default().text());
    written.expect("room");
    let noted = laptop.note_all();
    laptop.sends(&mut server, &noted);
    let renamed = laptop.change("a1", |recipe| recipe.name = "Lighthouse".to_owned());
    laptop.sends(&mut server, &renamed);
    laptop.visits(&mut server, false);
    let (mut phone, mut tablet) = (Device::new(2), Device::new(3));
    phone.visits(&mut server, false);
    tablet.visits(&mut server, true);
    assert!(server.holds("Lighthouse"));
    for device in [&laptop, &phone, &tablet] {
        assert_eq!(device.traces().len(), 5, "{:?}", device.traces());
    }
    (laptop, phone, tablet, server)
}

#[test]
fn it_goes_for_good_after_thirty_days() {
    let (mut laptop, mut phone, mut tablet, mut server) = three();
    let port = phone.shelf.port();
    let rescued = port.write(&rescued_key("a1"), "as it was");
    rescued.expect("room");
    laptop.shelf.delete("a1");
    laptop.stays(&mut server, 1);
    phone.stays(&mut server, 1);
    phone.stays(&mut server, 30);
    assert!(server.holds("Lighthouse"));
    assert!(!phone.traces().is_empty());
    phone.stays(&mut server, 1);
    assert!(!server.holds("Lighthouse") && !server.holds(&some_recipe().name));
    assert_eq!(phone.traces(), [""; 0]);

    // One that was away while it happened, and had not heard of anything:
    // whatever comes first.
    for backwards in [false, true] {
        tablet.visits(&mut server, backwards);
        assert_eq!(tablet.recipe("a1"), None);
        assert_eq!(tablet.traces(), [""; 0]);
        assert!(!tablet.is_listed());
    }
    // One that had heard, one that is new; and nothing comes of it later.
    laptop.visits(&mut server, true);
    let mut fresh = Device::new(4);
    fresh.visits(&mut server, false);
    for device in [&mut laptop, &mut phone, &mut tablet, &mut fresh] {
        device.stays(&mut server, 40);
        assert_eq!(device.traces(), [""; 0]);
        assert!(!device.is_listed());
    }
    assert!(!server.holds("Lighthouse"));
}

#[test]
fn a_clock_that_jumps_erases_nothing() {
    let (mut laptop, mut phone, _, mut server) = three();
    laptop.shelf.delete("a1");
    laptop.visits(&mut server, false);
    phone.visits(&mut server, false);
    phone.clock += 400 * DAY;
    phone.visits(&mut server, false);
    assert!(server.holds("Lighthouse"));
    assert!(laptop.is_listed());
    let back = laptop
        .ledger
        .bring_back(&laptop.shelf, "a1", laptop.clock)
        .expect("room");
    server.take(&back);
    phone.stays(&mut server, 40);
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
    assert!(phone.recipe("a1").is_some());
}

/// A device comes back after forty days with changes of what the others have
/// erased: nothing of its work is lost, and all have it whole.
#[test]
fn what_was_changed_far_away_comes_back_whole() {
    for backwards in [false, true] {
        let (mut laptop, mut phone, mut tablet, mut server) = three();
        let mut away = tablet.change("a1", |recipe| recipe.copies = 30);
        let note = |recipe: &mut super::Recipe| {
            recipe
                .notes
                .insert("gather".to_owned(), "the blue one".to_owned());
        };
        away.extend(tablet.change("a1", note));
        laptop.shelf.delete("a1");
        laptop.stays(&mut server, 32);
        assert!(!server.holds("Lighthouse"));
        phone.visits(&mut server, false);
        assert_eq!(phone.traces(), [""; 0]);

        tablet.clock += 40 * DAY;
        tablet.reopen();
        // It was not sent before.
        server.take(&away);
        tablet.visits(&mut server, backwards);
        let kept = tablet.recipe("a1").expect("it is kept");
        assert_eq!((&*kept.name, kept.copies), ("Lighthouse", 30));
        for device in [&mut laptop, &mut phone] {
            device.visits(&mut server, backwards);
            assert_eq!(device.recipe("a1").as_ref(), Some(&kept));
            assert_eq!(device.note_all(), []);
        }
        // It lives on, and is deleted as anything is.
        laptop.shelf.delete("a1");
        laptop.stays(&mut server, 1);
        phone.visits(&mut server, false);
        assert_eq!(phone.recipe("a1"), None);
        assert!(phone.is_listed());
    }
}

#[test]
fn what_was_brought_back_far_away_comes_back_whole() {
    for backwards in [false, true] {
        let (mut laptop, mut phone, mut tablet, mut server) = three();
        laptop.shelf.delete("a1");
        laptop.stays(&mut server, 1);
        tablet.visits(&mut server, false);
        let back = tablet
            .ledger
            .bring_back(&tablet.shelf, "a1", tablet.clock)
            .expect("room");
        laptop.stays(&mut server, 32);
        phone.visits(&mut server, false);
        assert!(!server.holds("Lighthouse"));

        tablet.clock += 40 * DAY;
        server.take(&back);
        tablet.visits(&mut server, backwards);
        let kept = tablet.recipe("a1").expect("it is kept");
        assert_eq!(kept.name, "Lighthouse");
        for device in [&mut laptop, &mut phone] {
            device.visits(&mut server, backwards);
            assert_eq!(device.recipe("a1").as_ref(), Some(&kept));
        }
    }
}

/// A change that goes on from what was cleared away here shows once the rest
/// of it has come.
#[test]
fn what_was_cleared_away_is_asked_for_again() {
    let (mut laptop, _, mut tablet, mut server) = three();
    let away = tablet.change("a1", |recipe| recipe.copies = 30);
    laptop.shelf.delete("a1");
    laptop.stays(&mut server, 32);
    assert_eq!(laptop.traces(), [""; 0]);
    server.take(&away);
    let recipe = name::of_recipe("a1");
    let (mut talk, _) = Talk::begin("key", 0);
    let mut hear = |message: Message<'_>| {
        let frame = frame::write(&recipe, message);
        let heard = talk.hear(&mut laptop.ledger, &laptop.shelf, &frame, laptop.clock);
        assert!(heard.came.is_empty());
        heard.answers
    };
    let (_, change) = &away[0];
    let asked = hear(Message::Update(change));
    let (_, state) = frame::read(&asked[0]).expect("a message");
    let Message::State(state) = state else {
        panic!("something else is asked");
    };
    // Where the rest does not come it is not asked for again and again.
    assert!(hear(Message::Rest(change)).is_empty());
    let rest = server.0[&recipe].since(state).expect("a state");
    assert!(hear(Message::Rest(&rest)).is_empty());
    assert!(!laptop.ledger.waits(&laptop.shelf, &recipe));
    tablet.visits(&mut server, false);
    let came = laptop.take(&server.everything(false));
    assert!(came.contains(&Came::Recipe("a1".to_owned())));
    assert_eq!(laptop.recipe("a1"), tablet.recipe("a1"));
}

/// What was asked before it was cleared away is answered after that: which of
/// the two comes first is the server's affair.
#[test]
fn an_answer_that_comes_late_leaves_nothing_behind() {
    let (mut laptop, _, _, mut server) = three();
    laptop.shelf.delete("a1");
    laptop.stays(&mut server, 31);
    laptop.clock += DAY;
    laptop.reopen();
    let erased = laptop.ledger.erase(&laptop.shelf, laptop.clock, false);
    let asked = name::of_all("a1").map(|name| {
        let state = laptop.ledger.state(&laptop.shelf, &name);
        (name, state)
    });
    laptop.sends(&mut server, &erased.expect("room"));
    assert_eq!(laptop.traces(), [""; 0]);
    let (mut talk, _) = Talk::begin("key", 0);
    for (name, state) in asked {
        let rest = server.0[&name].since(&state).expect("a state");
        let frame = frame::write(&name, Message::Rest(&rest));
        let heard = talk.hear(&mut laptop.ledger, &laptop.shelf, &frame, laptop.clock);
        assert!(heard.came.is_empty());
    }
    assert_eq!(laptop.traces(), [""; 0]);
    assert_eq!(laptop.note_all(), []);
}

#[test]
fn it_goes_without_a_workshop_too() {
    let mut laptop = Device::new(1);
    laptop.shelf.put("a1", &some_recipe(), 5).expect("room");
    laptop.note_all();
    laptop.shelf.delete("a1");
    laptop.note_all();
    for day in 0..=31 {
        assert!(!laptop.traces().is_empty(), "{day}");
        let erased = laptop.ledger.erase(&laptop.shelf, laptop.clock, true);
        erased.expect("room");
        laptop.clock += DAY;
        laptop.reopen();
    }
    assert_eq!(laptop.traces(), [""; 0]);
}

#[test]
fn a_connection_that_breaks_loses_nothing_of_it() {
    let (mut laptop, _, _, mut server) = three();
    laptop.shelf.delete("a1");
    laptop.stays(&mut server, 30);
    for _ in 0..2 {
        laptop.clock += DAY;
        let erased = laptop.ledger.erase(&laptop.shelf, laptop.clock, false);
        erased.expect("room");
    }
    let port = laptop.shelf.port();
    let texts = port.keys().into_iter().filter_map(|key| port.read(&key));
    assert_eq!(texts.filter(|text| text.contains("Lighthouse")).count(), 0);
    // It is told the next time, as anything is.
    laptop.reopen();
    assert_eq!(laptop.note_all(), []);
    for name in names(&laptop.shelf) {
        let state = server.0[&name].state();
        let rest = laptop.ledger.since(&laptop.shelf, &name, &state);
        if let Some(rest) = rest.expect("a state") {
            laptop.sends(&mut server, &[(name, rest)]);
        }
    }
    assert!(!server.holds("Lighthouse"));
    assert_eq!(laptop.traces(), [""; 0]);
}

/// A new device hears of a deletion, of what was deleted, and that it was
/// brought back, in this order.
#[test]
fn what_was_brought_back_before_one_came_is_there() {
    let (mut laptop, _, _, mut server) = three();
    laptop.shelf.delete("a1");
    laptop.visits(&mut server, false);
    let everything = server.everything(true);
    let back = laptop
        .ledger
        .bring_back(&laptop.shelf, "a1", laptop.clock)
        .expect("room");
    let mut fresh = Device::new(4);
    fresh.take(&everything);
    assert_eq!(fresh.recipe("a1"), None);
    fresh.take(&back);
    assert_eq!(fresh.recipe("a1"), laptop.recipe("a1"));
    assert!(fresh.recipe("a1").is_some());
}

/// The recipe was open on a page all the while, and is changed there after it
/// was cleared away.
#[test]
fn what_is_written_anew_after_it_was_erased_is_whole_everywhere() {
    // Of two who write at once the one with the higher number comes last.
    for next in [writer, || 1] {
        let (mut laptop, mut phone, _, mut server) = three();
        let text = laptop.shelf.delete("a1").expect("it was there");
        laptop.stays(&mut server, 32);
        assert!(!server.holds("Lighthouse"));
        laptop.ledger = Ledger::new(next);
        laptop.shelf.put_back("a1", &text).expect("room");
        for _ in 0..2 {
            laptop.visits(&mut server, false);
        }
        phone.visits(&mut server, false);
        let kept = laptop.recipe("a1").expect("it is kept");
        assert_eq!(kept.name, "Lighthouse");
        assert_eq!(phone.recipe("a1"), Some(kept));
    }
}
