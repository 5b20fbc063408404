//! Decodes changes and refuses values nested deeper than any document needs:
//! whoever takes such values in goes as deep itself, until its stack ends.

use std::sync::Arc;

use yrs::encoding::read::{Cursor, Error, Read};
use yrs::updates::decoder::{Decode as _, Decoder, DecoderV1};
use yrs::{Any, ID, Update, block::ClientID};

use crate::document::Malformed;

/// How deep values may be nested. Our own bound; a recipe needs six levels.
pub(crate) const DEEPEST: usize = 32;

/// The change in these bytes.
pub(crate) fn update(bytes: &[u8]) -> Result<Update, Malformed> {
    let mut decoder = Bounded(DecoderV1::new(Cursor::new(bytes)));
    Update::decode(&mut decoder).map_err(|_| Malformed)
}

/// The library's decoder, which looks at each value before it goes into it.
struct Bounded<'a>(DecoderV1<'a>);

impl Read for Bounded<'_> {
    fn read_exact(&mut self, len: usize) -> Result<&[u8], Error> {
        self.0.read_exact(len)
    }
}

impl Decoder for Bounded<'_> {
    fn read_any(&mut self) -> Result<Any, Error> {
        skim(self.0.read_to_end()?).ok_or(Error::UnexpectedValue)?;
        self.0.read_any()
    }

    fn reset_ds_cur_val(&mut self) {
        self.0.reset_ds_cur_val();
    }

    fn read_ds_clock(&mut self) -> Result<u32, Error> {
        self.0.read_ds_clock()
    }

    fn read_ds_len(&mut self) -> Result<u32, Error> {
        self.0.read_ds_len()
    }

    fn read_left_id(&mut self) -> Result<ID, Error> {
        self.0.read_left_id()
    }

    fn read_right_id(&mut self) -> Result<ID, Error> {
        self.0.read_right_id()
    }

    fn read_client(&mut self) -> Result<ClientID, Error> {
        self.0.read_client()
    }

    fn read_info(&mut self) -> Result<u8, Error> {
        self.0.read_info()
    }

    fn read_parent_info(&mut self) -> Result<bool, Error> {
        self.0.read_parent_info()
    }

    fn read_type_ref(&mut self) -> Result<u8, Error> {
        self.0.read_type_ref()
    }

    fn read_len(&mut self) -> Result<u32, Error> {
        self.0.read_len()
    }

    fn read_json(&mut self) -> Result<Any, Error> {
        // Its reader of JSON has a bound of its own.
        self.0.read_json()
    }

    fn read_key(&mut self) -> Result<Arc<str>, Error> {
        self.0.read_key()
    }

    fn read_to_end(&mut self) -> Result<&[u8], Error> {
        self.0.read_to_end()
    }
}

/// Goes through the value that bytes begin with, as lib0 writes it; `None`
/// where it is nested too deep or is none.
fn skim(mut bytes: &[u8]) -> Option<()> {
    // How many values of each list or map around are still to come, and
    // whether they have names.
    let mut around: Vec<(usize, bool)> = Vec::new();
    loop {
        let tag = take(&mut bytes, 1)?.first()?;
        match tag {
            120 | 121 | 126 | 127 => {}
            125 => drop(number(&mut bytes)?),
            124 => drop(take(&mut bytes, 4)?),
            122 | 123 => drop(take(&mut bytes, 8)?),
            116 | 119 => text(&mut bytes)?,
            117 | 118 => {
                let length = number(&mut bytes)?;
                if around.len() == DEEPEST {
                    return None;
                }
                around.push((length, *tag == 118));
            }
            _ => return None,
        }
        loop {
            match around.last_mut() {
                None => return Some(()),
                Some((0, _)) => drop(around.pop()),
                Some((left, named)) => {
                    *left -= 1;
                    if *named {
                        text(&mut bytes)?;
                    }
                    break;
                }
            }
        }
    }
}

fn take<'a>(bytes: &mut &'a [u8], length: usize) -> Option<&'a [u8]> {
    let (taken, rest) = bytes.split_at_checked(length)?;
    *bytes = rest;
    Some(taken)
}

fn text(bytes: &mut &[u8]) -> Option<()> {
    let length = number(bytes)?;
    take(bytes, length).map(drop)
}

/// A number of seven bits a byte. What does not fit is larger than any length
/// there can be.
fn number(bytes: &mut &[u8]) -> Option<usize> {
    let mut value = 0_usize;
    for place in 0..10_u32 {
        let byte = *take(bytes, 1)?.first()?;
        let bits = usize::from(byte & 0x7f).checked_shl(7 * place);
        value |= bits.unwrap_or(usize::MAX);
        if byte & 0x80 == 0 {
            return Some(value);
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use yrs::Any;
    use yrs::encoding::read::{Cursor, Read as _};
    use yrs::updates::decoder::{Decoder as _, DecoderV1};

    use super::{Bounded, DEEPEST, skim};

    fn nested(levels: usize) -> Vec<u8> {
        let mut bytes = [117, 1].repeat(levels);
        bytes.push(126);
        bytes
    }

    #[test]
    fn values_are_gone_through_as_they_are_read() {
        let values = [
            "null",
            "[true, false, 1, -70, 1.5, 123456789012]",
            "{\"name\": \"Gate\", \"folds\": [{\"at\": [1, [], {}]}], \"ü\": \"\"}",
        ];
        for json in values {
            let value = Any::from_json(json).expect("JSON");
            let mut bytes = Vec::new();
            value.encode(&mut bytes);
            assert_eq!(skim(&bytes), Some(()), "{json}");
            for cut in 0..bytes.len() {
                assert_eq!(skim(bytes.get(..cut).unwrap_or_default()), None, "{json}");
            }
            bytes.push(7);
            let mut decoder = Bounded(DecoderV1::new(Cursor::new(&bytes)));
            assert_eq!(decoder.read_any().ok(), Some(value));
            assert_eq!(decoder.read_u8().ok(), Some(7));
        }
    }

    #[test]
    fn what_is_too_deep_is_refused() {
        assert_eq!(skim(&nested(DEEPEST)), Some(()));
        assert_eq!(skim(&nested(DEEPEST + 1)), None);
        assert_eq!(skim(&nested(500_000)), None);
    }
}
