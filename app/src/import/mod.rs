//! Taking in what comes as a file, however much it is: the file is cut into
//! its parts as it is read, each part is looked at by itself, and in the end
//! all of it is kept or nothing.
//!
//! [`split`] knows files but not what is in them, [`ready`] and [`taking`] know
//! recipes but no browser; [`source`] brings a file, by a worker where that is
//! worth it. What tells of it is with the pages.

pub(crate) mod print;
pub(crate) mod ready;
pub(crate) mod source;
pub(crate) mod split;
pub(crate) mod taking;

#[cfg(test)]
mod tests;
