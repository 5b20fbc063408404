//! What the maker works with, and what this browser keeps.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit, read};
use foldwright_words::Language;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::download_all::DownloadAll;
use super::from_file::FromFile;
use super::page_title;
use super::set_aside::SetAside;
use crate::fetched::Fetching;
use crate::notice::{Notice, Notices};
use crate::part::{Choice, Typed, download_parts};
use crate::spoken::{asked_for, first, language, misread, texts};
use crate::store::{Settings, Store, ask_to_keep, keeps};
use crate::sync::Syncing;

/// The settings.
#[component]
pub(crate) fn SettingsPage() -> impl IntoView {
    page_title(|| first().settings.to_owned());
    view! {
        <section class="page settings">
            <h1>{first().settings}</h1>
            <Languages/>
            <Measuring/>
            <Kept/>
            <OtherDevices/>
            <About/>
        </section>
    }
}

/// The language: as the browser says, or another one.
#[component]
fn Languages() -> impl IntoView {
    let store = expect_context::<Store>();
    let fetching = expect_context::<Fetching>();
    let notices = expect_context::<Notices>();
    let kept = move || store.settings().language;
    let chosen = RwSignal::new(untrack(kept));
    Effect::new(move || chosen.set(kept()));
    let options = || {
        let all = Language::ALL.into_iter();
        let all = all.map(|language| (Some(language), language.own_name().to_owned()));
        let browser = (None, texts().settings.as_the_browser_says.to_owned());
        std::iter::once(browser).chain(all).collect()
    };
    let choose = move |wanted: Option<Language>| {
        chosen.set(wanted);
        spawn_local(async move {
            let language = wanted.unwrap_or_else(asked_for);
            // What follows is said in the language that was chosen.
            if fetching.speak(language).await.is_ok() {
                let was = untrack(|| store.settings());
                store.set_language(wanted);
                tell_what_changed(store, &was, notices);
            } else {
                notices.show(Notice::warning("language", first().not_fetched));
                // The page may have been left meanwhile.
                let _ = chosen.try_set(untrack(kept));
            }
        });
    };
    view! {
        <section class="group">
            <Choice titled=true label=texts().settings.language options chosen choose/>
        </section>
    }
}

/// Tells how new recipes are measured, where a choice of something else has changed
/// that as well.
fn tell_what_changed(store: Store, was: &Settings, notices: Notices) {
    let is = untrack(|| store.settings());
    if (is.notation, is.board) != (was.notation, was.board) {
        let Notation { step, decimal } = is.notation;
        let told = texts().settings.measured_now(
            &step.words(decimal),
            one_and_a_half(decimal),
            &is.notation.exact(is.board),
        );
        notices.show(Notice::plain(told));
    }
}

/// A number with a decimal mark.
const fn one_and_a_half(mark: DecimalMark) -> &'static str {
    match mark {
        DecimalMark::Point => "1.5",
        DecimalMark::Comma => "1,5",
    }
}

/// Unit, step, decimal mark, and the board.
#[component]
fn Measuring() -> impl IntoView {
    let store = expect_context::<Store>();
    let notices = expect_context::<Notices>();
    let unit = Memo::new(move |_| store.settings().unit());
    let step = Memo::new(move |_| store.settings().notation.step);
    let decimal = Memo::new(move |_| store.settings().notation.decimal);
    let steps = move || {
        let decimal = decimal.get();
        Step::all_for(unit.get())
            .iter()
            .map(|step| (*step, step.words(decimal)))
            .collect::<Vec<_>>()
    };
    let texts = &texts().settings;
    view! {
        <section class="group">
            <h2>{texts.measuring}</h2>
            <p class="quiet">{texts.new_recipes_start_so}</p>
            <Choice
                titled=true
                label=texts.unit
                options=|| {
                    vec![
                        (Unit::Inch, texts.inches.to_owned()),
                        (Unit::Millimetre, texts.millimetres.to_owned()),
                    ]
                }
                chosen=unit
                choose=move |unit| {
                    let was = untrack(|| store.settings());
                    store.set_settings(|settings| change_unit(settings, unit));
                    tell_what_changed(store, &was, notices);
                }
            />
            <Choice
                titled=true
                label=texts.smallest_division
                options=steps
                chosen=step
                choose=move |step| store.set_settings(|settings| settings.notation.step = step)
            />
            <Choice
                titled=true
                label=texts.decimal_mark
                options=|| {
                    let both = [DecimalMark::Point, DecimalMark::Comma];
                    both.map(|mark| (mark, one_and_a_half(mark).to_owned())).to_vec()
                }
                chosen=decimal
                choose=move |mark| store.set_settings(|settings| settings.notation.decimal = mark)
            />
            <Board/>
        </section>
    }
}

/// Changes the unit, and with it the marks; a board of the usual length
/// becomes one of the usual length there.
fn change_unit(settings: &mut Settings, unit: Unit) {
    if settings.unit() == unit {
        return;
    }
    let (step, from, to) = match unit {
        Unit::Inch => (Step::Sixteenth, Length::mm(300), Length::inches(12)),
        Unit::Millimetre => (Step::Millimetre, Length::inches(12), Length::mm(300)),
    };
    settings.notation.step = step;
    if settings.board == from {
        settings.board = to;
    }
}

/// How long the scoring board is.
#[component]
fn Board() -> impl IntoView {
    let store = expect_context::<Store>();
    let notation = move || store.settings().notation;
    let written = Signal::derive(move || notation().exact(store.settings().board));
    let take = move |text: &str| {
        let board = board(text, untrack(notation))?;
        store.set_settings(|settings| settings.board = board);
        Ok(())
    };
    view! { <Typed label=texts().settings.board_length kept=written take/> }
}

fn board(text: &str, notation: Notation) -> Result<Length, String> {
    let length = read(text, notation.unit()).map_err(|why| misread(&why))?;
    if length > Length::ZERO {
        Ok(length)
    } else {
        Err(texts().settings.board_above_zero.to_owned())
    }
}

/// Whether the browser has promised to keep what is stored.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Promised {
    Unknown,
    Yes,
    No,
    /// Asked, and refused.
    Refused,
}

/// What this browser keeps, and for how long.
#[component]
fn Kept() -> impl IntoView {
    let store = expect_context::<Store>();
    let promised = RwSignal::new(Promised::Unknown);
    spawn_local(async move {
        if let Some(yes) = keeps().await {
            promised.try_set(if yes { Promised::Yes } else { Promised::No });
        }
    });
    let ask = move |_| {
        spawn_local(async move {
            let yes = ask_to_keep().await;
            promised.try_set(if yes {
                Promised::Yes
            } else {
                Promised::Refused
            });
        });
    };
    let count = Memo::new(move |_| store.count());
    let taken = store.room_taken();
    let texts = &texts().settings;
    let kept = move || texts.keeps(count.get());
    let promise = move || match promised.get() {
        Promised::Unknown => texts.how_long_not_said,
        Promised::Yes => texts.kept_for_good,
        Promised::No => texts.may_be_cleared,
        Promised::Refused => texts.not_promised,
    };
    let may_ask = move || matches!(promised.get(), Promised::No | Promised::Refused);
    let syncing = expect_context::<Syncing>();
    let everything = move |_| {
        spawn_local(async move {
            download_parts("everything.foldwright.json", &syncing.everything().await);
            store.backed_up();
        });
    };
    view! {
        <section class="group">
            <h2>{texts.your_recipes}</h2>
            <p>{kept}" "<span role="status">{promise}</span></p>
            <p>{move || taken.get().map(|taken| texts.room_taken(taken))}</p>
            <div class="actions">
                <Show when=may_ask>
                    <button class="button" on:click=ask>{texts.ask_to_keep}</button>
                </Show>
                <Show when=move || { count.get() > 0 }>
                    <DownloadAll class="button"/>
                    <button class="button" on:click=everything>
                        {texts.download_everything}
                    </button>
                </Show>
                <FromFile/>
                <a
                    class="button quiet"
                    href="/recipe.schema.json"
                    rel="external"
                    type="application/schema+json"
                >
                    {language().exchange().schema}
                </a>
            </div>
            <AllAside/>
            <h3>{texts.like_an_app}</h3>
            <p>{texts.can_be_installed}</p>
        </section>
    }
}

/// What was kept and can't be understood.
#[component]
fn AllAside() -> impl IntoView {
    let store = expect_context::<Store>();
    let asides = Memo::new(move |_| store.asides());
    let navigate = use_navigate();
    let recovered = Callback::new(move |id: String| {
        navigate(&format!("/recipe/{id}"), NavigateOptions::default());
    });
    view! {
        <Show when=move || asides.with(|asides| !asides.is_empty())>
            <h3>{texts().settings.set_aside}</h3>
            <p>{texts().settings.not_read_whole}</p>
            <ul class="asides">
                <For
                    each=move || asides.get()
                    key=|aside| aside.key.clone()
                    children=move |aside| {
                        let name = aside.title().map(|title| texts().list.quoted(&title));
                        let name = name.unwrap_or_else(|| aside.name().to_owned());
                        view! {
                            <li>
                                <p>{name}</p>
                                <SetAside aside recovered/>
                            </li>
                        }
                    }
                />
            </ul>
        </Show>
    }
}

/// The way to other devices.
#[component]
fn OtherDevices() -> impl IntoView {
    let store = expect_context::<Store>();
    let texts = &texts().settings;
    let words = move || match store.member() {
        Some(member) => texts.in_workshop(&member.workshop_name, store.status().told()),
        None => texts.devices_can_share.to_owned(),
    };
    view! {
        <section class="group">
            <h2>{texts.other_devices}</h2>
            <p>{words}</p>
            <div class="actions">
                <a class="button" href="/devices">{texts.devices}</a>
            </div>
        </section>
    }
}

#[component]
fn About() -> impl IntoView {
    let texts = &texts().settings;
    view! {
        <section class="group">
            <h2>{texts.about}</h2>
            <p>{texts.about_foldwright}</p>
            <div class="actions">
                <a class="button" href="/words">{first().words_of_trade}</a>
            </div>
            <p class="quiet">{texts.licence} " " {texts.version(env!("CARGO_PKG_VERSION"))}</p>
        </section>
    }
}
