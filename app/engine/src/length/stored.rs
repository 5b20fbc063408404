//! Lengths in files: text people can read, as exact as the number of units.

use std::fmt;

use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::ser::{Serialize, Serializer};

use super::{DecimalMark, Length, Notation, Step, Unit, read};

/// The text that stands for exactly this length: 64ths of an inch, or whole
/// microns in millimetres; `None` where it is neither, or longer than can be
/// typed.
fn text(length: Length) -> Option<String> {
    let whole = |by: Length| length.units() % by.units() == 0;
    let step = if length.abs() > Length::LIMIT {
        return None;
    } else if whole(Step::SixtyFourth.length()) {
        Step::SixtyFourth
    } else if whole(Length::microns(1)) {
        Step::TenthMillimetre
    } else {
        return None;
    };
    let notation = Notation {
        step,
        decimal: DecimalMark::Point,
    };
    Some(notation.exact(length))
}

impl Serialize for Length {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match text(*self) {
            Some(text) => serializer.serialize_str(&text),
            None => serializer.serialize_i64(self.units()),
        }
    }
}

impl<'de> Deserialize<'de> for Length {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(TextOrUnits)
    }
}

struct TextOrUnits;

impl Visitor<'_> for TextOrUnits {
    type Value = Length;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a length")
    }

    fn visit_i64<E: de::Error>(self, units: i64) -> Result<Length, E> {
        Ok(Length::from_units(units))
    }

    fn visit_u64<E: de::Error>(self, units: u64) -> Result<Length, E> {
        i64::try_from(units)
            .map(Length::from_units)
            .map_err(|_| E::invalid_value(de::Unexpected::Unsigned(units), &self))
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<Length, E> {
        let length = read(text, Unit::Millimetre)
            .map_err(|_| E::invalid_value(de::Unexpected::Str(text), &self))?;
        // A bare number would mean another length to another reader.
        if read(text, Unit::Inch) == Ok(length) {
            Ok(length)
        } else {
            Err(E::invalid_value(de::Unexpected::Str(text), &self))
        }
    }
}
