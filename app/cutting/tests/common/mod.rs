//! What the checks share: the published instances, and a verifier of its own.

#![allow(dead_code, reason = "each check is built by itself and uses its share")]

pub(crate) mod dice;
pub(crate) mod instances;
pub(crate) mod verifier;
