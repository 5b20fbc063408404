//! Files of recipes, as other programs write and read them, in English.

use super::Exchange;

pub(super) const TEXTS: Exchange = Exchange {
    schema: "How files of recipes are built (JSON Schema)",
};
