//! What is packed comes back, and nothing else is taken for packed.

use super::{AFTER, FIRST, SECOND, pack, pack_as_file, packed_after, units, unpack};
use crate::dice::Dice;

/// Texts as they were first kept after each dictionary, before anything of packing
/// was changed.
const FROZEN: [(&str, &str); 3] = [
    (
        r#"{"foldwright":3,"recipes":[{"name":"Quay","notation":{"decimal":"point","step":"sixteenth"},"measures":[{"id":1,"least":"1 1/2 in","name":"card height","pinned":false,"value":"5 1/2 in"}]}]}"#,
        r#"{"foldwright":4,"packed":"㒾㐀躍乣㐀䱀最月琐䔃永几远甬ꪎꨧ绶ꬍ稵竖樷捱굓꘬鱩鵘犥侔㕦"}"#,
    ),
    (
        r#"{"foldwright":4,"recipes":[{"name":"Quay","notation":{"step":"sixteenth","decimal":"point"},"measures":[{"id":1,"name":"front width","value":"4 1/4 in","of":{"part":{"panel":1},"is":"width"},"pinned":false}]}]}"#,
        r#"{"foldwright":5,"packed":"㓒㐀邵噣㐀䑀耀㓑䀜痂醃㡃ꐌ箾鉗椡郧䒟侑毆㐂"}"#,
    ),
    (
        r#"{"foldwright":4,"recipes":[{"name":"Quay","notation":{"step":"sixteenth","decimal":"point"},"measures":[{"id":1,"name":"front width","value":"4 1/4 in","of":{"part":{"panel":1},"is":"width"},"pinned":false}]}]}"#,
        "㓒㐀邵噣㐀䑀耀㓑䀜痂醃㡃ꐌ箾鉗椡郧䒟侑毆㐂",
    ),
];

fn text(dice: &mut Dice) -> String {
    const WORDS: [&str; 8] = ["mat", "\"id\":", "é", "𝄞", "\u{0}", "\\", "½ in", "紙"];
    let length = dice.below(300);
    let word = |dice: &mut Dice| {
        if dice.once_in(9) {
            let any = u32::try_from(dice.next() % 0x11_0000).expect("below");
            char::from_u32(any).unwrap_or('?').to_string()
        } else {
            WORDS[dice.below(WORDS.len())].to_owned()
        }
    };
    (0..length).map(|_| word(dice)).collect()
}

#[test]
fn every_text_comes_back() {
    let seed = 20;
    println!("seed {seed}");
    let mut dice = Dice(seed);
    let mut packed = 0;
    for _ in 0..2000 {
        let text = text(&mut dice);
        for kept in [pack(&text), pack_as_file(&text)] {
            assert_eq!(unpack(&kept).as_deref(), Some(&*text));
            let is_packed = packed_after(&kept).is_some();
            packed += usize::from(is_packed);
            let length = text.encode_utf16().count();
            let seems_packed = packed_after(&text).is_some();
            assert!(kept.encode_utf16().count() <= length || seems_packed);
        }
    }
    assert!(packed > 2000, "most are worth it: {packed}");
    let [first, second] = [FIRST, SECOND].map(|known| known.before);
    for text in ["", "{", first, second, "㒾㐀躍", &"x".repeat(100_000)] {
        for kept in [pack(text), pack_as_file(text)] {
            assert_eq!(unpack(&kept).as_deref(), Some(text));
        }
    }
}

/// Kept as it was first kept: whatever changes, this must be read.
#[test]
fn what_was_packed_is_read_for_good() {
    for (text, kept) in FROZEN {
        assert_eq!(unpack(kept).as_deref(), Some(text));
    }
}

/// Letters of Unicode's Basic Multilingual Plane, which every browser keeps
/// and JSON leaves as they are; so an earlier release, which knows files up to
/// version 4 and not how this is packed, reads JSON of a later version, and lets
/// it be. A file of recipes it is for nobody.
#[test]
fn packed_texts_are_json_of_a_later_version() {
    let kept = pack_as_file(&"mat 1 1/2 in ".repeat(40));
    let json: serde_json::Value = serde_json::from_str(&kept).expect("it is JSON");
    assert_eq!(json["foldwright"], 5);
    let letters = json["packed"].as_str().expect("letters");
    assert!(
        letters
            .chars()
            .all(|letter| ('\u{3400}'..='\u{B3FF}').contains(&letter))
    );
    assert_eq!(letters, pack(&"mat 1 1/2 in ".repeat(40)));
    let read = foldwright_engine::recipe::read(&kept);
    assert_eq!(
        read,
        Err(foldwright_engine::recipe::FileError::Newer { version: 5 })
    );
}

#[test]
fn what_is_damaged_is_not_read() {
    let seed = 21;
    println!("seed {seed}");
    let mut dice = Dice(seed);
    let text = "mat 1 1/2 in ".repeat(40);
    let before = SECOND.before.len();
    let kept: Vec<char> = pack_as_file(&text).chars().collect();
    for end in 0..kept.len() - 1 {
        let short: String = kept[..end].iter().collect();
        assert!(unpack(&short).is_none_or(|unpacked| unpacked == short));
    }
    for _ in 0..2000 {
        let mut damaged = kept.clone();
        let place = before + dice.below(kept.len() - before - AFTER.len());
        damaged[place] =
            char::from_u32(u32::try_from(dice.next() % 0xD800).expect("below")).unwrap_or('?');
        // It may come to another text, but never to a panic or a huge one.
        let unpacked = unpack(&damaged.iter().collect::<String>()).map(|text| text.len());
        assert!(unpacked.is_none_or(|length| length <= 1032 * 2 * kept.len()));
    }
}

#[test]
fn units_are_counted_as_utf_16_has_them() {
    for text in ["", "mat", "Größe 3½″", "\u{3400}\u{b3ff}", "🂡 and 🂢"] {
        assert_eq!(units(text), text.encode_utf16().count() as u64, "{text}");
    }
}
