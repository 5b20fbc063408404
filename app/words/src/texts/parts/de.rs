//! What several screens are made of, in German.

use super::Parts;

pub(in crate::texts) const TEXTS: Parts = Parts {
    becomes: "wird",
    before: "vorher",
    after: "nachher",
    fewer_may_clash: "Vielleicht widersprechen sich schon weniger; die Suche endete vorher.",
    one_not_enough: "Sie aufzugeben reicht nicht. Nimm eine andere Größe oder einen anderen \
                     Bogen, oder lös mehrere Maße.",
    any_not_enough: "Eine davon aufzugeben reicht nicht. Nimm eine andere Größe oder einen \
                     anderen Bogen, oder lös mehrere Maße.",
    from_the_fence: "Vom Anschlag",
    fold_as_it_lies: "Falz, wie es liegt",
    such_as_wide_inches: "etwa 8 1/2",
    such_as_high_inches: "etwa 5 3/4",
    such_as_wide_mm: "etwa 200",
    such_as_high_mm: "etwa 145",
    width: "Breite",
    height: "Höhe",
    above_zero: "Gib eine Größe über 0 an.",
    ticks: "⁺ ist etwas mehr als der Strich, ⁻ etwas weniger.",
    closed: "Geschlossen {size}",
    exactly: "genau {size}",
};
