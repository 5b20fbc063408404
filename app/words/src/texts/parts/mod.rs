//! What several screens are made of.

pub(super) mod de;
pub(super) mod en;

area! {
    /// What several screens are made of.
    Parts {
        becomes,
        before,
        after,
        fewer_may_clash,
        one_not_enough,
        any_not_enough,
        from_the_fence,
        fold_as_it_lies,
        such_as_wide_inches,
        such_as_high_inches,
        such_as_wide_mm,
        such_as_high_mm,
        width,
        height,
        above_zero,
        ticks,
    }
    fills {
        closed(size: &str),
        exactly(size: &str),
    }
}
