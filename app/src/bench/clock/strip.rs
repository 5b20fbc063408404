//! The strip of clocks, which stays while other steps are worked.

use leptos::prelude::*;

use super::Clocks;
use crate::part::{Icon, Symbol, heard};
use crate::spoken::{aloud, language};
use crate::store::Clock;

/// All clocks, those that have run down until they are taken away.
#[component]
pub(in crate::bench) fn ClockStrip() -> impl IntoView {
    let clocks = Clocks::here();
    let ids = Memo::new(move |_| {
        clocks
            .all
            .with(|all| all.iter().map(|clock| clock.id).collect::<Vec<_>>())
    });
    view! {
        <Show when=move || ids.with(|ids| !ids.is_empty())>
            <section class="clocks" aria-label=language().beside().clocks>
                <ul>
                    <For
                        each=move || ids.get()
                        key=|id| *id
                        children=move |id| view! { <OneClock id/> }
                    />
                </ul>
            </section>
        </Show>
    }
}

#[component]
fn OneClock(id: u32) -> impl IntoView {
    let clocks = Clocks::here();
    let texts = language().beside();
    let of = move |what: fn(&Clock) -> bool| {
        clocks
            .all
            .with(|all| all.iter().any(|clock| clock.id == id && what(clock)))
    };
    let is_up = Memo::new(move |_| of(Clock::is_up));
    let is_uncertain = Memo::new(move |_| of(|clock| clock.is_uncertain));
    let left = Memo::new(move |_| {
        clocks.all.with(|all| {
            let clock = all.iter().find(|clock| clock.id == id);
            clock.map(|clock| left(clock.left)).unwrap_or_default()
        })
    });
    let name = clocks.all.with_untracked(|all| {
        let clock = all.iter().find(|clock| clock.id == id);
        clock.map(|clock| clock.of.clone()).unwrap_or_default()
    });
    let stop = aloud(&texts.stop_clock(&name));
    let words = move || {
        if is_up.get() {
            let words = heard(texts.time_is_up(&name));
            view! { <p class="clock-words" role="alert">{words}</p> }.into_any()
        } else {
            let name = heard(&name);
            view! {
                <p class="clock-words">
                    <span class="clock-left" role="timer">{left}</span>
                    " "
                    <span class="clock-of">{name}</span>
                </p>
            }
            .into_any()
        }
    };
    let end = move || {
        if is_up.get() {
            let dismiss = move |_| clocks.dismiss(id);
            view! {
                <button type="button" class="button primary" on:click=dismiss>{texts.dismiss}</button>
            }
            .into_any()
        } else {
            let stop = stop.clone();
            view! {
                <button type="button" class="button icon" aria-label=stop on:click=move |_| clocks.dismiss(id)>
                    <Icon symbol=Symbol::Close/>
                </button>
            }
            .into_any()
        }
    };
    view! {
        <li class="clock" class:up=is_up>
            {words}
            {end}
            <Show when=move || is_uncertain.get()>
                <p class="clock-unsure" role="status">{texts.clock_uncertain}</p>
            </Show>
        </li>
    }
}

/// How long a clock has still to run, in minutes and seconds, begun ones counted.
fn left(milliseconds: u64) -> String {
    let seconds = milliseconds.div_ceil(1000);
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    match hours {
        0 => format!("{minutes}:{seconds:02}"),
        hours => format!("{hours}:{minutes:02}:{seconds:02}"),
    }
}

#[cfg(test)]
mod tests {
    use super::left;

    #[test]
    fn time_is_written_as_clocks_have_it() {
        assert_eq!(left(0), "0:00");
        assert_eq!(left(1), "0:01");
        assert_eq!(left(59_001), "1:00");
        assert_eq!(left(15 * 60_000), "15:00");
        assert_eq!(left(86_400_000 - 1000), "23:59:59");
    }
}
