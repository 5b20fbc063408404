//! What several screens are made of, in English.

use super::Parts;

pub(in crate::texts) const TEXTS: Parts = Parts {
    becomes: "becomes",
    before: "before",
    after: "after",
    fewer_may_clash: "Fewer of these may clash already; the search was cut short.",
    one_not_enough: "Letting go of it is not enough. Ask for another size or sheet, or unpin \
                     several measurements.",
    any_not_enough: "Letting go of one of these is not enough. Ask for another size or sheet, or \
                     unpin several measurements.",
    from_the_fence: "From the fence",
    fold_as_it_lies: "Fold, as it lies",
    such_as_wide_inches: "such as 8 1/2",
    such_as_high_inches: "such as 5 3/4",
    such_as_wide_mm: "such as 200",
    such_as_high_mm: "such as 145",
    width: "Width",
    height: "Height",
    above_zero: "Give a size above 0.",
    ticks: "⁺ is a little over the mark, ⁻ a little under.",
    closed: "Closed {size}",
    exactly: "exactly {size}",
};
