//! Places in a list, as texts that sort: between any two there is another, so
//! that putting an item somewhere moves no other.

/// Digits in the order texts sort in.
const DIGITS: &[u8; 62] = b"0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";

/// Numbers nobody else draws, from a start that no other writer has
/// (Marsaglia, "Xorshift RNGs", 2003).
#[derive(Debug, Clone)]
pub(crate) struct Draw(u64);

impl Draw {
    pub(crate) fn new(start: u64) -> Self {
        let mut draw = Self(start.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1);
        draw.next();
        draw.next();
        draw
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    /// One digit above the lowest.
    fn digit(&mut self) -> char {
        let place = 1 + self.next() % 61;
        digit(usize::try_from(place).unwrap_or(1))
    }

    /// Some digits that make a key unique among those drawn for one id.
    pub(crate) fn unique(&mut self) -> String {
        (0..6).map(|_| self.digit()).collect()
    }
}

fn digit(place: usize) -> char {
    DIGITS.get(place).map_or('V', |digit| char::from(*digit))
}

fn value(text: &str, place: usize) -> usize {
    let byte = text.as_bytes().get(place);
    byte.and_then(|byte| DIGITS.iter().position(|digit| digit == byte))
        .unwrap_or(0)
}

/// A place after `low` and before `high`; where these are not in order, one
/// after `low`. Drawn digits at the end keep two writers from the same place.
pub(crate) fn between(low: &str, high: Option<&str>, draw: &mut Draw) -> String {
    let high = high.filter(|high| low < *high);
    let mut text = String::new();
    let mut bounded = high;
    for place in 0.. {
        let least = value(low, place);
        bounded = bounded.filter(|high| place < high.len());
        let most = bounded.map_or(62, |high| value(high, place));
        if most > least + 1 {
            // At the open end, leave room: lists mostly grow there.
            let step = if bounded.is_none() {
                1
            } else {
                (most - least) / 2
            };
            text.push(digit(least + step));
            break;
        }
        text.push(digit(least));
        if most != least {
            bounded = None;
        }
    }
    text.push(draw.digit());
    text.push(draw.digit());
    text
}

#[cfg(test)]
mod tests {
    use super::{Draw, between};

    #[test]
    fn there_is_always_a_place_between() {
        let mut draw = Draw::new(5);
        let mut places = vec![between("", None, &mut draw)];
        for round in 0..4000_usize {
            let at = match round % 4 {
                0 => 0,
                1 => places.len(),
                _ => round * 7919 % (places.len() + 1),
            };
            let low = at.checked_sub(1).map_or("", |before| &places[before]);
            let new = between(low, places.get(at).map(String::as_str), &mut draw);
            places.insert(at, new);
        }
        assert!(places.is_sorted_by(|one, next| one < next), "{places:?}");
        let longest = places.iter().map(String::len).max();
        assert!(longest < Some(1200), "{longest:?}");
    }

    #[test]
    fn places_out_of_order_still_give_one() {
        let mut draw = Draw::new(9);
        for (low, high) in [("b", "a"), ("a", "a"), ("", ""), ("é", "0"), ("zz", "zzz")] {
            assert!(between(low, Some(high), &mut draw).as_str() > low || low > "z");
        }
    }
}
