//! Making a card another size, and what is wrong with it.

pub(super) mod de;
pub(super) mod en;

area! {
    /// Making a card another size, and what is wrong with it.
    Resize {
        nothing_wrong,
        cannot_be_made,
        wont_turn_out,
        good_to_know,
        show_where,
        make_it_fit,
        tap_what_you_have,
        back_to_designed,
        design_as_now,
        sheet,
        paper_of_recipe,
        how_much_of_it,
        how_much_of_sheet,
        as_large_a_part,
        as_many_cards,
        same_card,
        another_size,
        width,
        height,
        as_it_is,
        in_millimetres,
        in_inches,
        envelope_unit_size,
        to_go_into,
        unit,
        another_closed_size,
        closed_width,
        closed_height,
        what_changes,
        no_length_changes,
        keep_as_many,
        keep_as_it_lies,
        take_this_card,
        leave_as_it_is,
        turn_on_sheet,
        hold_it_again,
    }
    fills {
        was_resized(size: &str),
        hold_again(rule: &str),
    }
}
