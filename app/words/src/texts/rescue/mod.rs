//! What can be saved when something came out different.

pub(super) mod de;
pub(super) mod en;

area! {
    /// What can be saved when something came out different.
    Rescue {
        this_came_out,
        something_came_out,
        as_planned,
        set_to_measured,
        see_what,
        made_already,
        how_many_so,
        one_fewer,
        one_more,
        what_can_be_saved,
        what_measured,
        what_came_out,
        measure_again,
        go_on_so,
        not_as_it_is,
        to_its_bench,
        bench_goes_on,
        plan_was_changed,
        back_to_plan,
        choose_made,
    }
    fills {
        planned(length: &str),
        planned_from_fence(length: &str),
        less(what: &str, by: &str),
        more(what: &str, by: &str),
        is_made(what: &str),
        as_measured(what: &str),
        go_on(way: &str),
        saved_name(recipe: &str, cards: u32),
        recipe_of_its_own(name: &str),
    }
    says {
        ways(count: usize),
        lengths_change(count: usize),
    }
}
