//! What `#[gathered]` makes of a sentence: the number of its text among those of a
//! function, and what fills its holes.

use crate::Told;
use crate::told::sentence;

/// What can stand in a hole.
pub(crate) trait Filling {
    /// The words that stand there.
    fn words(self) -> String;
}

impl Filling for String {
    fn words(self) -> String {
        self
    }
}

impl Filling for &str {
    fn words(self) -> String {
        self.to_owned()
    }
}

impl<T: Filling + Clone> Filling for &T {
    fn words(self) -> String {
        self.clone().words()
    }
}

macro_rules! filling {
    ($($number:ty),+) => {
        $(impl Filling for $number {
            fn words(self) -> String {
                self.to_string()
            }
        })+
    };
}

filling!(u8, u16, u32, u64, usize, i64, char);

/// A text among others, each of which ends with a null character.
#[inline(never)]
pub(crate) fn text(texts: &&'static str, number: usize) -> &'static str {
    texts.split('\0').nth(number).unwrap_or_default()
}

/// A text among others, with its holes filled. A hole is the control character
/// after the number of what fills it.
#[inline(never)]
#[expect(
    clippy::needless_pass_by_value,
    reason = "what is said goes in here and is freed here, not in each language"
)]
pub(crate) fn said<const HOLES: usize>(
    texts: &&'static str,
    number: usize,
    fillings: [String; HOLES],
) -> String {
    filled(texts, number, &fillings)
}

/// A problem whose three texts follow each other, each with its holes filled.
#[inline(never)]
#[expect(
    clippy::needless_pass_by_value,
    reason = "what is said goes in here and is freed here, not in each language"
)]
pub(crate) fn told<const HOLES: usize>(
    texts: &&'static str,
    number: usize,
    fillings: [String; HOLES],
) -> Told {
    let [what, why, remedy] = [0, 1, 2].map(|after| filled(texts, number + after, &fillings));
    Told {
        what: sentence(what),
        why: sentence(why),
        remedy: sentence(remedy),
    }
}

fn filled(texts: &&'static str, number: usize, fillings: &[String]) -> String {
    let text = text(texts, number);
    let mut said = String::with_capacity(text.len());
    for letter in text.chars() {
        match (letter as usize)
            .checked_sub(1)
            .and_then(|hole| fillings.get(hole))
        {
            Some(filling) => said.push_str(filling),
            None => said.push(letter),
        }
    }
    said
}

/// A text with each hole filled by what has its name.
pub(crate) fn filled_by_name(text: &str, fillings: &[(&str, String)]) -> String {
    let mut said = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, (name, after))) = rest
        .split_once('{')
        .and_then(|(before, hole)| Some((before, hole.split_once('}')?)))
    {
        said.push_str(before);
        let filling = fillings.iter().find(|(hole, _)| *hole == name);
        said.push_str(filling.map_or("", |(_, words)| words));
        rest = after;
    }
    said.push_str(rest);
    said
}
