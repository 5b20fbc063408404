//! Beginning a recipe: with a fold, a list of measurements, or a scrap.

pub(super) mod de;
pub(super) mod en;

area! {
    /// Beginning a recipe: with a fold, a list of measurements, or a scrap.
    Begin {
        pick_one,
        or_type,
        from_a_list,
        list_cleared,
        from_measurements,
        type_or_paste,
        your_list,
        list_example,
        clear_list,
        make_recipe,
        card_comes_up,
        which_way,
        list_gives_scores,
        line_by_line,
        what_numbers_say,
        ticked_will_hold,
        no_envelope,
        as_it_is,
        same_size,
        your_recipe,
        a_fold,
        from_a_scrap_name,
        scrap_off_list,
        scraps_on_hand,
        put_on_list,
        from_scrap,
        what_from_this_scrap,
        measure_scrap,
        the_scrap,
    }
    fills {
        closed(size: &str),
        closed_is(size: &str),
        looking(done: usize, all: usize),
        goes_into(envelope: &str),
        instead_of(size: &str),
        take_off_list(size: &str),
    }
    says {
        can_be_cut(found: usize, all: usize),
    }
}
