//! Whatever a file holds, reading it ends, and what comes of it can be kept in a recipe.
//! `SEED=… ROUNDS=… cargo test -p foldwright-outline --test reading random` goes on with others.

use crate::common::svg;
use foldwright_engine::length::Length;
use foldwright_outline::read;

/// Numbers from a seed (Steele, Lea, Flood: "Fast splittable pseudorandom number
/// generators", 2014).
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn one<'a>(&mut self, of: &[&'a str]) -> &'a str {
        let count = u64::try_from(of.len()).unwrap_or(1);
        of[usize::try_from(self.next() % count).unwrap_or(0)]
    }
}

const NUMBERS: [&str; 22] = [
    "0", "1", "-1", "10", "50", "-30", "99.5", ".5", "1e-7", "-1e-9", "1e-320", "1e9", "1e10",
    "-1e300", "1e999", "nan", "5mm", "2in", "50%", "1em", "", "7pt",
];

const NAMES: [&str; 16] = [
    "x",
    "y",
    "width",
    "height",
    "rx",
    "ry",
    "r",
    "cx",
    "cy",
    "points",
    "d",
    "transform",
    "viewBox",
    "preserveAspectRatio",
    "id",
    "href",
];

const ELEMENTS: [&str; 14] = [
    "g", "rect", "circle", "ellipse", "path", "polygon", "polyline", "use", "svg", "symbol",
    "defs", "line", "text", "style",
];

fn value(dice: &mut Dice, name: &str) -> String {
    let numbers = |dice: &mut Dice, most: u64| -> String {
        let count = dice.next() % most;
        (0..count)
            .map(|_| format!("{} ", dice.one(&NUMBERS)))
            .collect()
    };
    match name {
        "d" => {
            let parts = dice.next() % 9;
            let parts = (0..parts).map(|_| {
                let command =
                    dice.one(&["M", "m", "L", "h", "V", "C", "s", "q", "T", "A", "a", "z"]);
                format!("{command}{}", numbers(dice, 9))
            });
            let parts: String = parts.collect();
            format!("M10 10{parts}")
        }
        "transform" => {
            let what = dice.one(&["scale", "rotate", "matrix", "skewX", "translate", "oops"]);
            format!("{what}({})", numbers(dice, 7))
        }
        "points" | "viewBox" => numbers(dice, 9),
        "preserveAspectRatio" => dice
            .one(&["none", "xMidYMin slice", "defer", "oops"])
            .to_owned(),
        "id" => dice.one(&["a", "b", "c"]).to_owned(),
        "href" => dice.one(&["#a", "#b", "#c", "#z", "a"]).to_owned(),
        _ => dice.one(&NUMBERS).to_owned(),
    }
}

fn elements(dice: &mut Dice, depth: u64) -> String {
    let mut text = String::new();
    for _ in 0..dice.next() % 5 {
        let element = dice.one(&ELEMENTS);
        let mut attributes = String::new();
        for name in NAMES {
            if dice.next().is_multiple_of(3) {
                attributes += &format!(" {name}='{}'", value(dice, name));
            }
        }
        let inside = if depth < 4 {
            elements(dice, depth + 1)
        } else {
            String::new()
        };
        text += &format!("<{element}{attributes}>{inside}</{element}>");
    }
    text
}

/// Reads a file and takes all that it offers.
fn take(text: &str) -> usize {
    let Ok(found) = read(text) else { return 0 };
    let mut taken = 0;
    for outline in &found.outlines {
        let told = outline.size().map(|size| size.width);
        for width in [told.unwrap_or(Length::mm(80)), Length::mm(35)] {
            for with_holes in [true, false] {
                if let Ok((traced, size)) = outline.traced(width, with_holes) {
                    assert!(traced.is_sound() && size.area() > 0);
                    taken += 1;
                }
            }
        }
        assert!(!outline.picture(100.0).contains("NaN"));
    }
    taken
}

fn asked(name: &str, usual: u64) -> u64 {
    let told = std::env::var(name).ok();
    told.and_then(|text| text.parse().ok()).unwrap_or(usual)
}

#[test]
fn any_file_is_read_or_refused() {
    let (seed, rounds) = (asked("SEED", 1), asked("ROUNDS", 4000));
    let mut taken = 0;
    for round in 0..rounds {
        let of = seed.wrapping_add(round);
        println!("SEED={of} ROUNDS=1");
        let mut dice = Dice(of);
        let head = format!(
            "width='{}' height='{}' viewBox='{}'",
            dice.one(&NUMBERS),
            dice.one(&NUMBERS),
            dice.one(&[
                "0 0 100 100",
                "-5 -5 20 90",
                "0 0 1e-9 1",
                "0 0 1e9 1e9",
                "oops"
            ])
        );
        let text = svg(&head, &elements(&mut dice, 0));
        taken += take(&text);
        // And with bytes of it changed.
        let mut bytes = text.into_bytes();
        for _ in 0..3 {
            let count = u64::try_from(bytes.len()).unwrap_or(1);
            let at = usize::try_from(dice.next() % count).unwrap_or(0);
            bytes[at] = u8::try_from(dice.next() % 127).unwrap_or(0);
        }
        take(&String::from_utf8_lossy(&bytes));
    }
    assert!(taken > 100 || rounds < 4000, "only {taken} were taken");
}
