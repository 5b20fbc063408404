//! Texts packed for a place that counts UTF-16 units: deflated (RFC 1951) and
//! written with fifteen bits to a unit.
//!
//! A short text has little in it that repeats, but much that all texts of its
//! kind have. So each is packed as if what is [`Known`] had come before it, the
//! preset dictionary that RFC 1950 speaks of.
//!
//! What was packed after a dictionary can only be unpacked after it, so none ever
//! changes. Where texts have come to hold what the last one does not know, another
//! is made and takes its place for whatever is packed from then on
//! (`sync/tests/known.rs` makes one); those before it stay, to be read.

use std::borrow::Cow;
use std::sync::OnceLock;

use miniz_oxide::deflate::CompressionLevel;
use miniz_oxide::deflate::core::{
    CompressorOxide, TDEFLFlush, compress_to_output, create_comp_flags_from_zip_params,
};
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress};

use super::port::units;

/// What comes before a text as it is packed.
struct Known {
    /// What texts packed after it begin with where they are JSON. Releases that do
    /// not know it find a version of files here that is later than theirs, and
    /// leave alone what a later version has written.
    before: &'static str,
    text: &'static [u8],
}

/// Made when files were of version 3, from two former states of a card, two
/// documents and two recipes.
const FIRST: Known = Known {
    before: r#"{"foldwright":4,"packed":""#,
    text: include_bytes!("packing/first.txt"),
};

/// Made when files were of version 4, in which measures say what part they are of.
const SECOND: Known = Known {
    before: r#"{"foldwright":5,"packed":""#,
    text: include_bytes!("packing/second.txt"),
};

/// What a text in JSON ends with.
const AFTER: &str = r#""}"#;
/// The unit that stands for no bits: from here on 2¹⁵ units are letters in
/// Unicode's Basic Multilingual Plane, and none is half a surrogate pair.
const ZERO: u32 = 0x3400;
/// How many bits stand in a unit.
const BITS: u32 = 15;
/// How many units say how long the unpacked text is.
const LENGTH: u32 = 2;
/// By how much deflating shrinks anything at most (zlib's technical notes say
/// 1032 to 1). What claims more is no packed text.
const MOST: usize = 1032;

/// What whatever is packed now is packed after.
#[cfg(test)]
pub(crate) fn last_known() -> &'static str {
    str::from_utf8(SECOND.text).unwrap_or_default()
}

/// A text as it is to be kept where no release looks that does not know how it is
/// packed: packed where that is shorter.
pub(crate) fn pack(text: &str) -> String {
    shorter(packed(text), text)
}

/// The same where earlier releases look: JSON of a version that is later than
/// theirs.
pub(crate) fn pack_as_file(text: &str) -> String {
    let Known { before, .. } = SECOND;
    let packed = packed(text).map(|packed| format!("{before}{packed}{AFTER}"));
    shorter(packed, text)
}

/// The text that was packed, or that was kept as it is; `None` where a packed
/// one is damaged.
pub(crate) fn unpack(kept: &str) -> Option<Cow<'_, str>> {
    match packed_after(kept) {
        None => Some(Cow::Borrowed(kept)),
        Some((known, packed)) => inflated(packed?, known.text).map(Cow::Owned),
    }
}

/// After what a text was packed, and its units, unless its end is missing; `None`
/// for what is not packed.
fn packed_after(kept: &str) -> Option<(Known, Option<&str>)> {
    if kept.chars().next().and_then(bits).is_some() {
        return Some((SECOND, Some(kept)));
    }
    [SECOND, FIRST].into_iter().find_map(|known| {
        let packed = kept.strip_prefix(known.before)?;
        Some((known, packed.strip_suffix(AFTER)))
    })
}

/// What is packed, where that is shorter than the text, or where the text itself
/// would be taken for packed.
fn shorter(packed: Option<String>, text: &str) -> String {
    let packed =
        packed.filter(|packed| units(packed) < units(text) || packed_after(text).is_some());
    packed.unwrap_or_else(|| text.to_owned())
}

/// The units of a packed text; `None` for one that is too long.
fn packed(text: &str) -> Option<String> {
    let mut packed: String = units_of_length(text.len())?.into_iter().collect();
    push_bits(&mut packed, &deflated(text.as_bytes()));
    Some(packed)
}

fn units_of_length(length: usize) -> Option<[char; LENGTH as usize]> {
    let length = u32::try_from(length).ok()?;
    if length >> (BITS * LENGTH) != 0 {
        return None;
    }
    Some([unit(length & ((1 << BITS) - 1))?, unit(length >> BITS)?])
}

/// The unit for so many bits.
fn unit(bits: u32) -> Option<char> {
    char::from_u32(ZERO + bits)
}

/// The bits in a unit; `None` for a unit that is none of ours.
fn bits(unit: char) -> Option<u32> {
    let bits = u32::from(unit).checked_sub(ZERO)?;
    (bits >> BITS == 0).then_some(bits)
}

fn push_bits(packed: &mut String, bytes: &[u8]) {
    let (mut held, mut count) = (0_u32, 0);
    for byte in bytes {
        held |= u32::from(*byte) << count;
        count += 8;
        if count >= BITS {
            packed.extend(unit(held & ((1 << BITS) - 1)));
            held >>= BITS;
            count -= BITS;
        }
    }
    if count > 0 {
        packed.extend(unit(held));
    }
}

/// A compressor that has seen what is known last, to be copied for each text.
fn primed() -> &'static CompressorOxide {
    static PRIMED: OnceLock<CompressorOxide> = OnceLock::new();
    PRIMED.get_or_init(|| {
        let level = CompressionLevel::DefaultLevel as i32;
        // Fewer window bits than none: bare, as RFC 1951 has it.
        let flags = create_comp_flags_from_zip_params(level, -15, 0);
        let mut compressor = CompressorOxide::new(flags);
        // What it writes of that is known to whoever unpacks.
        compress_to_output(&mut compressor, SECOND.text, TDEFLFlush::Sync, |_| true);
        compressor
    })
}

fn deflated(bytes: &[u8]) -> Vec<u8> {
    let mut out = Vec::with_capacity(bytes.len() / 4);
    let mut compressor = primed().clone();
    compress_to_output(&mut compressor, bytes, TDEFLFlush::Finish, |part| {
        out.extend_from_slice(part);
        true
    });
    out
}

/// The text that was packed to these units after what is known.
fn inflated(packed: &str, known: &[u8]) -> Option<String> {
    let mut units = packed.chars().map(bits);
    let length = units.next()?? | (units.next()?? << BITS);
    let length = usize::try_from(length).ok()?;
    let mut bytes = Vec::with_capacity(packed.len());
    let (mut held, mut count) = (0_u32, 0);
    for unit in units {
        held |= unit? << count;
        count += BITS;
        while count >= 8 {
            // The lowest byte; the rest waits.
            bytes.push(held.to_le_bytes()[0]);
            held >>= 8;
            count -= 8;
        }
    }
    if length > bytes.len().saturating_mul(MOST) {
        return None;
    }
    let mut out = Vec::with_capacity(known.len() + length);
    out.extend_from_slice(known);
    out.resize(known.len() + length, 0);
    let flags = TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
    let mut decompressor = DecompressorOxide::new();
    let (status, _, written) = decompress(&mut decompressor, &bytes, &mut out, known.len(), flags);
    if status != TINFLStatus::Done || written != length {
        return None;
    }
    String::from_utf8(out.split_off(known.len())).ok()
}

#[cfg(test)]
mod tests;
