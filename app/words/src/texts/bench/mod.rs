//! The bench.

pub(super) mod de;
pub(super) mod en;

area! {
    /// The bench, step by step.
    Bench {
        how_many_cards,
        cards_to_make,
        one_card_fewer,
        cards_to_make_between,
        one_card_more,
        cards_counted,
        done_for,
        one_fewer_done,
        one_more_done,
        all_done,
        finished,
        start_again,
        closed_from_front,
        back_at_first,
        used,
        taken_off,
        take_off,
        look_first,
        joined,
        looked_go_on,
        open_recipe,
        here_now,
        not_yet,
        done,
        your_note,
        pictures,
        all_steps,
        do_not_cut,
        cannot_be_made,
        put_right,
        show_all_the_same,
        step_is_gone,
        have_ready,
        finish,
        next,
        steps,
        back,
        to_recipe,
        screen_not_now,
        screen_never,
        understood,
    }
    fills {
        cards(cards: u32),
        of(all: u32),
        some_done(done: u32, times: u32),
        room_for(left: usize, most: usize),
        show_all_steps(place: &str),
        leave_for(recipe: &str),
        step_of(step: usize, all: usize),
        at_the_bench(recipe: &str),
    }
    says {
        made(copies: u32),
        sheets_of(sheets: i64, paper: &str, on_hand: i64),
        steps_left(open: usize),
        all_of_steps(all: usize),
    }
}
