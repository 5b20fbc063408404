//! The bytes of a document as letters that JSON writes as they are. Unlike
//! base64 it leaves words readable, so that packing finds those that repeat.

/// What is added to a byte that is no letter JSON would leave alone.
const BESIDE: u32 = 0x100;

pub(super) fn write(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| letter(*byte)).collect()
}

/// The bytes written so; `None` for letters that are none of these.
pub(super) fn read(letters: &str) -> Option<Vec<u8>> {
    letters.chars().map(byte).collect()
}

fn letter(byte: u8) -> char {
    if (b' '..=b'~').contains(&byte) && !matches!(byte, b'"' | b'\\') {
        char::from(byte)
    } else {
        // From U+0100 to U+01FF all are letters.
        char::from_u32(BESIDE + u32::from(byte)).unwrap_or_default()
    }
}

fn byte(letter: char) -> Option<u8> {
    let letter = u32::from(letter);
    u8::try_from(letter.checked_sub(BESIDE).unwrap_or(letter)).ok()
}

#[cfg(test)]
mod tests {
    use super::{read, write};

    #[test]
    fn every_byte_comes_back_and_none_is_escaped() {
        let bytes: Vec<u8> = (0..=255).collect();
        let letters = write(&bytes);
        assert_eq!(read(&letters), Some(bytes));
        assert_eq!(
            serde_json::to_string(&letters).unwrap(),
            format!("\"{letters}\"")
        );
        assert!(letters.contains("ABC"));
        assert_eq!(read("€"), None);
    }
}
