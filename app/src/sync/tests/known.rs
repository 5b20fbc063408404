//! What texts are packed after: how that is made, and that it knows what is kept.

use foldwright_engine::recipe::{Recipe, starters};

use super::{DAY, Device};
use crate::spoken::starting;
use crate::store::{last_known, unpack};

/// How many letters in a row have to be known to be left out of a text that
/// becomes known: fewer are for what is long.
const WHOLE: usize = 24;
const SHORT: usize = 12;

/// How many letters after a `~` tell an item from all others.
const DRAWN: usize = 6;

/// The starting folds as they are kept.
struct Kept(Device);

impl Kept {
    fn new() -> Self {
        let mut device = Device::new(1);
        for starter in starters() {
            let recipe = starting(starter, starter.recipe.notation);
            let put = device.shelf.put(&id(&starter.id), &recipe, DAY);
            put.expect("there is room");
        }
        device.note_all();
        Self(device)
    }

    fn change(&mut self, fold: &str, change: impl FnOnce(&mut Recipe)) {
        self.0.change(&id(fold), change);
    }

    /// The text that is packed for a fold, without what is drawn anew for every
    /// document.
    fn text(&self, kind: &str, fold: &str) -> String {
        let key = format!("foldwright/{kind}/{}", id(fold));
        let kept = self.0.shelf.port().read(&key).expect("it is kept");
        let (_, packed) = kept.split_once('\n').expect("a first line");
        let text = unpack(packed).expect("it is packed");
        let mut parts = text.split('~');
        let mut undrawn = parts.next().unwrap_or_default().to_owned();
        for part in parts {
            let drawn = part.bytes().take(DRAWN).filter(u8::is_ascii_alphanumeric);
            let drawn = if drawn.count() == DRAWN { DRAWN } else { 0 };
            undrawn.push('~');
            undrawn.push_str(&part[drawn..]);
        }
        undrawn
    }
}

fn id(fold: &str) -> String {
    let place = starters().iter().position(|starter| starter.id == fold);
    format!("{:016x}", place.expect("a fold of that name"))
}

/// What of a text is not known, where at least `least` letters in a row have to be.
fn new_in(text: &str, known: &str, least: usize) -> String {
    let mut new = String::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let is_known = |end: &usize| known.contains(&rest[..*end]);
        let mut ends = rest
            .char_indices()
            .map(|(at, letter)| at + letter.len_utf8());
        let known_to = ends.nth(least - 1).filter(is_known);
        let known_to = known_to.map(|end| ends.take_while(is_known).last().unwrap_or(end));
        if known_to.is_none() {
            new.push(first);
        }
        rest = &rest[known_to.unwrap_or(first.len_utf8())..];
    }
    new
}

/// A dictionary of the starting folds as they are kept now. Each text adds, in
/// front, what of it is not known yet. Documents come last: they are long, and
/// what is known goes out of reach while they are packed, the first of it first.
fn made() -> String {
    let mut kept = Kept::new();
    let mut texts = vec![
        (kept.text("leaf/recipe", "pointed"), WHOLE),
        (kept.text("leaf/recipe", "v-fold"), WHOLE),
    ];
    kept.change("own", |recipe| recipe.copies = 24);
    kept.change("own", |recipe| recipe.name.push_str(", second day"));
    let note = ("gather".to_owned(), "the blue one".to_owned());
    kept.change("own", |recipe| recipe.notes.extend([note]));
    texts.push((kept.text("leaf/recipe", "own"), WHOLE));
    texts.push((kept.text("recipe", "v-fold"), WHOLE));
    for starter in starters() {
        texts.push((kept.text("recipe", &starter.id), SHORT));
    }
    texts.push((kept.text("leaf/past", "own"), WHOLE));
    texts.iter().fold(String::new(), |known, (text, least)| {
        new_in(text, &known, *least) + &known
    })
}

/// By hand: three letters in a row have to be known, "own" and "known" are.
#[test]
fn what_is_known_is_left_out() {
    assert_eq!(new_in("we own unknown ovens", "known", 3), "we  un ovens");
    assert_eq!(new_in("höhö", "öhö", 3), "h");
    assert_eq!(new_in("", "known", 3), "");
}

/// Where what is kept has come to hold more than this that is not known, make
/// another dictionary: with `KNOWN=src/store/packing/….txt` it is written there.
/// Maps come to documents in any order of their fields, so that no two are alike.
#[test]
fn what_is_kept_is_known() {
    if let Some(path) = std::env::var_os("KNOWN") {
        let made = made();
        // Deflating reaches back no further (RFC 1951).
        assert!(made.len() <= 32 * 1024, "{} bytes", made.len());
        std::fs::write(path, made).expect("it can be written");
    }
    let kept = Kept::new();
    for kind in ["recipe", "leaf/recipe"] {
        let (mut all, mut new) = (0, 0);
        // Some of them tell as much as all do.
        for starter in starters().iter().step_by(4) {
            let text = kept.text(kind, &starter.id);
            all += text.len();
            new += new_in(&text, last_known(), SHORT).len();
        }
        println!("{new} of {all} bytes of {kind} are not known");
        assert!(new * 10 < all, "{new} of {all} bytes of {kind}");
    }
}
