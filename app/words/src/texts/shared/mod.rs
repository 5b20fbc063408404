//! A shared recipe, as it is read.

pub(super) mod de;
pub(super) mod en;

area! {
    /// A shared recipe, as it is read.
    Shared {
        your_unit_and_paper,
        on_your_paper,
        measured_in,
        as_shared,
        your_sheet,
        measured_upright,
        the_sheet,
        use_this_sheet,
        a_shared_recipe,
        fetching,
        by_a_newer,
        written_by_newer,
        not_here_yet,
        needs_connection,
        nothing_shared,
        not_opened,
        is_newer_card,
        has_changed,
        take_newer,
        has_ended,
        no_connection,
        newer_has_changed,
        keep_it,
        open_copy,
        print,
        step_by_step,
        closed_from_front,
        paper,
        sheet_size,
        weight,
        what_to_cut,
        piece,
        width_height,
        from_paper,
        all_measurements,
        scores,
        no_envelope,
        envelope,
        note,
        too_large_here,
        to_foldwright,
        not_now,
        cannot_read_now,
        with_javascript,
    }
    fills {
        scrap(size: &str),
        base_cut_from(sheet: &str),
        shared_by(who: &str),
        among_yours(recipe: &str),
        for_cards(copies: u32),
    }
    says {
        lengths_differ(count: usize),
    }
}
