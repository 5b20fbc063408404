//! Numbers nobody else has: the names of things and of those who write.

use web_sys::js_sys::Math;

/// A number of 53 bits, as many as the browser draws at once.
pub(crate) fn number() -> u64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "the product lies in the range by what random() promises"
    )]
    let number = (Math::random() * 9_007_199_254_740_992.0) as u64;
    number
}

/// A number of 32 bits.
pub(crate) fn short() -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "of 53 bits without the last 21 there are 32"
    )]
    let number = (number() >> 21) as u32;
    number
}
