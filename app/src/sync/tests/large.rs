//! What is large goes to the server in pieces, with other things in between,
//! and what is too large is told.

use foldwright_document::frame::{self, Message};
use foldwright_document::pieces::{Gathering, LARGEST, WHOLE, cut, is_piece};
use foldwright_engine::recipe::{MOST_TEXT, Measure, MeasureId, Parts, Recipe, write};
use serde_json::json;

use super::super::talk::{Heard, Talk};
use super::{Device, Document, merged, name, some_recipe};
use crate::import::taking::RECIPES;

/// A server that keeps one document, as the real one hears and answers.
struct Server {
    document: Document,
    gathering: Gathering,
    pieces: u64,
    saved: u64,
    /// The names of what came, in order.
    heard: Vec<String>,
}

impl Server {
    fn new() -> Self {
        Self {
            document: Document::new(0),
            gathering: Gathering::new(LARGEST),
            pieces: 0,
            saved: 0,
            heard: Vec::new(),
        }
    }

    /// What it says to that.
    fn hears(&mut self, bytes: &[u8], about: &str) -> Vec<Said> {
        assert!(bytes.len() <= WHOLE, "the server reads no more at once");
        let mut said = Vec::new();
        let frame = self.gathering.take(bytes).expect("the next piece");
        if is_piece(bytes) {
            self.pieces += 1;
            said.push(Said::Text(json!({ "pieces": self.pieces }).to_string()));
        }
        let Some(frame) = frame else { return said };
        let (name, message) = frame::read(&frame).expect("a message");
        self.heard.push(name.to_owned());
        match message {
            Message::State(_) => {
                assert_eq!(name, about);
                let state = self.document.state();
                said.push(Said::Bytes(frame::write(name, Message::State(&state))));
            }
            Message::Rest(update) | Message::Update(update) => {
                if name == about {
                    self.document.apply(update).expect("a change");
                }
                self.saved += 1;
                said.push(Said::Text(json!({ "saved": self.saved }).to_string()));
            }
        }
        said
    }
}

enum Said {
    Text(String),
    Bytes(Vec<u8>),
}

impl Device {
    fn hears(&mut self, talk: &mut Talk, said: &Said) -> Heard {
        let Self {
            shelf,
            ledger,
            clock,
            ..
        } = self;
        match said {
            Said::Text(text) => talk.said(ledger, shelf, text),
            Said::Bytes(bytes) => talk.hear(ledger, shelf, bytes, *clock),
        }
    }

    fn tells(&mut self, talk: &mut Talk, changes: Vec<super::Change>) -> Heard {
        talk.tell(&mut self.ledger, &self.shelf, changes)
    }

    /// Talks with the server until nobody has anything to say; what was too
    /// large meanwhile.
    fn talks(
        &mut self,
        talk: &mut Talk,
        server: &mut Server,
        about: &str,
        mut to_send: Vec<Vec<u8>>,
    ) -> Vec<String> {
        let mut too_large = Vec::new();
        while !to_send.is_empty() {
            let on_its_way = to_send.iter().filter(|bytes| is_piece(bytes)).count();
            assert!(on_its_way <= 8, "{on_its_way} pieces at once");
            let bytes = to_send.remove(0);
            for said in server.hears(&bytes, about) {
                let heard = self.hears(talk, &said);
                to_send.extend(heard.answers);
                too_large.extend(heard.too_large);
            }
        }
        too_large
    }
}

/// A recipe with so many measures that have the longest of names, besides its
/// own.
fn with_names(count: usize) -> Recipe {
    let mut recipe = some_recipe();
    for number in 0..count {
        let id = MeasureId(10_000 + u32::try_from(number).expect("a small number"));
        recipe.measures.push(Measure {
            id,
            name: "折".repeat(MOST_TEXT),
            ..recipe.measures[0].clone()
        });
    }
    assert_eq!(recipe.check(), [], "it can be made");
    recipe
}

/// The largest that is taken from a file.
fn as_large_as_from_a_file() -> Recipe {
    // Each letter takes three bytes.
    let recipe = with_names(RECIPES.most / (3 * MOST_TEXT) - 6);
    let length = write(std::slice::from_ref(&recipe)).len();
    assert!(RECIPES.most * 95 / 100 < length && length <= RECIPES.most);
    recipe
}

/// A device with that recipe, and one that has just been kept beside it.
fn with(recipe: &Recipe) -> (Device, Vec<super::Change>) {
    let mut laptop = Device::new(1);
    laptop.shelf.put("a1", recipe, 5).expect("there is room");
    laptop.note_all();
    laptop
        .shelf
        .put("b2", &some_recipe(), 5)
        .expect("there is room");
    let other = laptop.note(&name::of_recipe("b2"));
    (laptop, other)
}

fn begun(device: &mut Device) -> Talk {
    let (mut talk, _) = Talk::begin("key", 0);
    let last = Said::Text(json!({ "last": 0 }).to_string());
    assert!(device.hears(&mut talk, &last).caught_up);
    talk.compared();
    talk
}

#[test]
fn the_largest_recipe_from_a_file_is_sent_and_holds_up_no_other() {
    let recipe = as_large_as_from_a_file();
    let (mut laptop, other) = with(&recipe);
    let about = name::of_recipe("a1");
    let (mut talk, mut server) = (begun(&mut laptop), Server::new());
    let asked = talk.compare(&mut laptop.ledger, &laptop.shelf, &about);
    let said = server.hears(&asked[0], &about);
    let heard = laptop.hears(&mut talk, &said[0]);
    assert_eq!(heard.too_large, None);
    assert!(!talk.is_done() && talk.is_under_way(&about));
    // The first pieces are on their way; what is small goes at once.
    let mut to_send = heard.answers;
    let small = laptop.tells(&mut talk, other).answers;
    assert!(small.len() == 1 && !is_piece(&small[0]));
    to_send.extend(small);
    // What is changed of the large one meanwhile comes after it.
    let changes = laptop.change("a1", |recipe| recipe.copies = 24);
    let (own, past): (Vec<_>, Vec<_>) = changes.into_iter().partition(|(of, _)| *of == about);
    assert!(laptop.tells(&mut talk, own).answers.is_empty());
    assert_eq!(
        laptop.talks(&mut talk, &mut server, &about, to_send),
        [""; 0]
    );
    let small = name::of_recipe("b2");
    assert_eq!(server.heard, [&*about, &*small, &*about, &*about]);
    let merged = merged::recipe(&server.document).expect("a recipe");
    assert_eq!(Some(&merged.recipe), laptop.recipe("a1").as_ref());
    assert_eq!(
        (merged.recipe.copies, merged.recipe.measures.len()),
        (24, recipe.measures.len())
    );
    assert!(!laptop.ledger.unsent().contains(&about));
    // So is what it was before.
    let sent = laptop.tells(&mut talk, past).answers;
    assert_eq!(laptop.talks(&mut talk, &mut server, &about, sent), [""; 0]);
    assert!(talk.is_done() && talk.too_large().is_empty());

    // And on the way to another device.
    let mut phone = Device::new(2);
    let mut talk = begun(&mut phone);
    let whole = server.document.bytes();
    let frame = frame::write(&about, Message::Update(&whole));
    let pieces = cut(&frame);
    let gathered: Vec<_> = pieces
        .iter()
        .filter_map(|bytes| talk.gather(bytes).expect("the next piece"))
        .collect();
    assert_eq!(gathered.len(), 1);
    phone.hears(&mut talk, &Said::Bytes(gathered[0].to_vec()));
    assert_eq!(phone.recipe("a1"), laptop.recipe("a1"));
}

#[test]
fn what_is_too_large_is_told_and_goes_once_it_is_smaller() {
    let recipe = with_names(LARGEST / (3 * MOST_TEXT) + 1);
    assert!(recipe.measures.len() <= Parts::Measures.most());
    let (mut laptop, other) = with(&recipe);
    let about = name::of_recipe("a1");
    let (mut talk, mut server) = (begun(&mut laptop), Server::new());
    let asked = talk.compare(&mut laptop.ledger, &laptop.shelf, &about);
    let too_large = laptop.talks(&mut talk, &mut server, &about, asked);
    assert_eq!(too_large, [&*about]);
    assert_eq!(server.document.read().0, None);
    // It holds up no other.
    let small = laptop.tells(&mut talk, other).answers;
    assert_eq!(laptop.talks(&mut talk, &mut server, &about, small), [""; 0]);
    assert_eq!(server.saved, 1);
    assert!(talk.is_done());
    assert!(!laptop.ledger.unsent().contains(&name::of_recipe("b2")));
    // A small change of it is not taken for all of it.
    for copies in [24, 25] {
        let changes = laptop.change("a1", |recipe| recipe.copies = copies);
        let own = changes.into_iter().filter(|(of, _)| *of == about);
        let sent = laptop.tells(&mut talk, own.collect()).answers;
        // By its size it does not fit yet, so nobody looks what is lacking.
        assert!(sent.is_empty(), "{copies}");
        assert!(laptop.ledger.unsent().contains(&about));
        assert_eq!((server.saved, talk.too_large().len()), (1, 1));
    }
    // What comes of it makes all of it larger and is not lacking: how much is
    // shows once more.
    let bytes = laptop
        .ledger
        .since(&laptop.shelf, &about, &Document::new(0).state());
    let bytes = bytes.expect("a state").expect("all of it");
    let mut other = Document::open(7, &bytes).expect("a document");
    let (now, _) = other.read();
    let now = now.expect("a recipe");
    let mut next = now.clone();
    next["copies"] = json!(60);
    let update = other.write(&now, &next).expect("a change");
    let came = Said::Bytes(frame::write(&about, Message::Update(&update)));
    let answers = laptop.hears(&mut talk, &came).answers;
    let more = laptop.talks(&mut talk, &mut server, &about, answers);
    assert_eq!(more, [""; 0]);
    let changes = laptop.change("a1", |recipe| recipe.copies = 61);
    let own = changes.into_iter().filter(|(of, _)| *of == about);
    let sent = laptop.tells(&mut talk, own.collect()).answers;
    assert!(!sent.is_empty());
    // It was told, and is not told again.
    assert_eq!(laptop.talks(&mut talk, &mut server, &about, sent), [""; 0]);
    assert!(laptop.ledger.unsent().contains(&about));
    let changes = laptop.change("a1", |recipe| {
        for measure in recipe.measures.iter_mut().skip(40) {
            measure.name.truncate(3);
        }
    });
    let own = changes.into_iter().filter(|(of, _)| *of == about);
    let sent = laptop.tells(&mut talk, own.collect()).answers;
    assert_eq!(laptop.talks(&mut talk, &mut server, &about, sent), [""; 0]);
    let merged = merged::recipe(&server.document).expect("a recipe");
    assert_eq!(Some(merged.recipe), laptop.recipe("a1"));
    assert!(talk.is_done() && talk.too_large().is_empty());
    assert!(!laptop.ledger.unsent().contains(&about));
}

/// What is no message, or not the next piece of one, ends the connection; what
/// follows it on the way is not taken for everything there is.
#[test]
fn what_is_no_message_is_refused_and_nothing_after_it_counts() {
    let mut phone = Device::new(2);
    let whole = frame::write("recipe/a1", Message::Update(&vec![7; 3 * WHOLE]));
    let pieces = cut(&whole);
    let short = pieces[0][..1].to_vec();
    for odd in [pieces[2].clone(), short, b"\xff".to_vec(), Vec::new()] {
        let (mut talk, _) = Talk::begin("key", 0);
        assert_eq!(
            talk.gather(&pieces[0]).map(|whole| whole.is_some()),
            Ok(false)
        );
        assert!(talk.gather(&odd).is_err(), "{odd:?}");
        let last = Said::Text(json!({ "last": 7 }).to_string());
        let heard = phone.hears(&mut talk, &last);
        assert_eq!((heard.last, heard.caught_up), (None, false));
    }
    // All pieces came, and together they are no message.
    let mut talk = begun(&mut phone);
    let odd = vec![0xff; 2 * WHOLE];
    let taken: Vec<_> = cut(&odd)
        .iter()
        .map(|piece| talk.gather(piece).is_ok())
        .collect();
    assert_eq!(taken, [true, true, false]);
}
