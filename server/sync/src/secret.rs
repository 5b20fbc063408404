//! Keys, tokens and codes. What opens something is kept only as a hash.

use std::fmt::Write as _;

use sha2::{Digest as _, Sha256};

use crate::store::Hash;

/// The system has no random numbers to give.
#[derive(Debug, Clone, Copy)]
pub(crate) struct NoRandomness;

/// Letters and digits nobody mixes up when reading them out.
const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
/// Letters of a code. 40 bits: at the rate guesses are let through, a code
/// is found once in many thousand years.
const CODE: usize = 8;

fn bytes<const N: usize>() -> Result<[u8; N], NoRandomness> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).map_err(|_| NoRandomness)?;
    Ok(bytes)
}

fn hex(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(2 * bytes.len());
    for byte in bytes {
        // Writing to a string cannot fail.
        let _ = write!(text, "{byte:02x}");
    }
    text
}

/// A key or token of 256 bits.
pub(crate) fn key() -> Result<String, NoRandomness> {
    Ok(hex(&bytes::<32>()?))
}

/// A name for something in the store; it opens nothing.
pub(crate) fn name() -> Result<String, NoRandomness> {
    Ok(hex(&bytes::<12>()?))
}

/// A number no other server has.
pub(crate) fn instance() -> Result<u64, NoRandomness> {
    Ok(u64::from_le_bytes(bytes()?))
}

/// A code to be typed, as people read it: two groups of four.
pub(crate) fn code() -> Result<String, NoRandomness> {
    let letters = bytes::<CODE>()?.map(|byte| {
        let letter = LETTERS.get(usize::from(byte) % LETTERS.len());
        letter.map_or('0', |letter| char::from(*letter))
    });
    let mut code: String = letters.iter().collect();
    code.insert(CODE / 2, '-');
    Ok(code)
}

/// The hash of a key or token.
pub(crate) fn hash(secret: &str) -> Hash {
    Sha256::digest(secret.as_bytes()).into()
}

/// The name of a photograph: the first half of the SHA-256 of its file.
pub(crate) fn photo_name(file: &[u8]) -> String {
    let digest: Hash = Sha256::digest(file).into();
    hex(&digest[..16])
}

/// The hash of a code, however it was typed.
pub(crate) fn code_hash(typed: &str) -> Hash {
    let plain: String = typed
        .chars()
        .take(64)
        .filter(char::is_ascii_alphanumeric)
        .map(|c| match c.to_ascii_uppercase() {
            'O' => '0',
            'I' | 'L' => '1',
            c => c,
        })
        .collect();
    hash(&plain)
}

#[cfg(test)]
mod tests {
    use super::{code, code_hash, hash, key, photo_name};

    #[test]
    fn codes_forgive_how_they_are_typed() {
        assert_eq!(code_hash("0a1b-c2d3"), code_hash("oAlB C2D3"));
        assert_ne!(code_hash("0A1B-C2D3"), code_hash("0A1B-C2D4"));
        let one = code().ok();
        assert_ne!(one, code().ok());
        assert_eq!(one.map(|code| code.len()), Some(9));
    }

    /// The hash of "abc" in FIPS 180-4, appendix of examples.
    #[test]
    fn the_hash_is_sha_256() {
        let start = [0xba, 0x78, 0x16, 0xbf, 0x8f, 0x01, 0xcf, 0xea];
        assert_eq!(hash("abc")[..8], start);
        assert_eq!(photo_name(b"abc"), "ba7816bf8f01cfea414140de5dae2223");
        assert_eq!(key().map(|key| key.len()).ok(), Some(64));
    }
}
