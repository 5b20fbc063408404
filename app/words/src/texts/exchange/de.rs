//! Files of recipes, as other programs write and read them, in German.

use super::Exchange;

pub(super) const TEXTS: Exchange = Exchange {
    schema: "Wie Rezeptdateien aufgebaut sind (JSON Schema)",
};
