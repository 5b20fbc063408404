//! What came together of changes made in several places.

pub(super) mod de;
pub(super) mod en;

use crate::LeftOut;

area! {
    /// What came together of changes made in several places.
    Merging {
        a_measurement,
        a_rule,
        a_choice,
        other_stays,
        what_is_gone,
        measurement,
        panel,
        layer,
        line,
        cutout,
        piece,
        paper,
        fold,
        glue_place,
        choice,
        name,
        description,
        number_of_cards,
        pin,
        least_length,
        greatest_length,
        width,
        height,
        way_it_opens,
        panel_on_table,
        way_to_score,
        glue_margin,
        print_direction,
        clearance,
        envelope,
        caliper,
        weight,
        outline,
        place,
        panel_it_is_on,
        way_it_is_glued,
        smallest_division,
        decimal_mark,
        unsolved,
        look_folds_over,
        nameless_device,
        apart,
    }
    fills {
        the_rule(rule: &str),
        named(thing: &str, name: &str),
        take_out(what: &str),
        field_of(field: &str, thing: &str, name: &str),
        choice_of(thing: &str, name: &str),
        is_text(what: &str, text: &str),
        is_now(name: &str, value: &str),
        it_is_now(text: &str),
        decided(by: &str, what: &str, now: &str),
        is_so_now(name: &str, value: &str),
        moved(name: &str, from: &str, to: &str),
        rule_left_out(rule: &str),
        notes_too_long(most: usize),
    }
    says {
        the_field(field: &str),
        is_on(what: &str, on: bool),
        needs_what_is_gone(what: LeftOut),
    }
}
