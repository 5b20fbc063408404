//! What the maker works with, and what this browser keeps.

use foldwright_engine::length::{DecimalMark, Length, Notation, Step, Unit, read};
use leptos::html;
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos_router::NavigateOptions;
use leptos_router::hooks::use_navigate;

use super::from_file::FromFile;
use super::page_title;
use super::set_aside::SetAside;
use crate::part::{Choice, download};
use crate::store::{Settings, Store, ask_to_keep, keeps, save_file};
use crate::sync::Syncing;
use crate::typing::unless_typing;

/// The settings.
#[component]
pub(crate) fn SettingsPage() -> impl IntoView {
    page_title(|| String::from("Settings"));
    view! {
        <section class="page settings">
            <h1>"Settings"</h1>
            <Measuring/>
            <Kept/>
            <OtherDevices/>
            <About/>
        </section>
    }
}

/// Unit, step, decimal mark, and the board.
#[component]
fn Measuring() -> impl IntoView {
    let store = expect_context::<Store>();
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
    view! {
        <section class="group">
            <h2>"Measuring"</h2>
            <p class="quiet">"New recipes start with these. Each recipe can be changed by itself."</p>
            <Choice
                label="Unit"
                options=|| {
                    vec![
                        (Unit::Inch, String::from("Inches")),
                        (Unit::Millimetre, String::from("Millimetres")),
                    ]
                }
                value=unit
                choose=move |unit| store.set_settings(|settings| change_unit(settings, unit))
            />
            <Choice
                label="Smallest division on your ruler"
                options=steps
                value=step
                choose=move |step| store.set_settings(|settings| settings.notation.step = step)
            />
            <Choice
                label="Decimal mark"
                options=|| {
                    vec![
                        (DecimalMark::Point, String::from("1.5")),
                        (DecimalMark::Comma, String::from("1,5")),
                    ]
                }
                value=decimal
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
    let wrong = RwSignal::new(None::<String>);
    let field = NodeRef::<html::Input>::new();
    let notation = move || store.settings().notation;
    let written = move || notation().exact(store.settings().board);
    let change = move |_| {
        let text = field.get().map(|field| field.value()).unwrap_or_default();
        match board(&text, untrack(notation)) {
            Ok(board) => {
                wrong.set(None);
                store.set_settings(|settings| settings.board = board);
            }
            Err(why) => wrong.set(Some(why)),
        }
    };
    let is_wrong = Signal::derive(move || wrong.with(Option::is_some));
    let (shown, left) = unless_typing(field, written, is_wrong);
    view! {
        <label class="field">
            <span>"Length of your scoring board, from the stop"</span>
            <input
                node_ref=field
                type="text"
                inputmode="text"
                autocomplete="off"
                data-unfinished="change"
                aria-invalid=move || is_wrong.get().to_string()
                aria-describedby="board-trouble"
                prop:value=shown
                on:change=change
                on:blur=move |_| left()
            />
        </label>
        <p id="board-trouble" class="wrong" role="alert">{move || wrong.get()}</p>
    }
}

fn board(text: &str, notation: Notation) -> Result<Length, String> {
    let length = read(text, notation.unit()).map_err(|why| why.to_string())?;
    if length > Length::ZERO {
        Ok(length)
    } else {
        Err(String::from("A board is longer than nothing."))
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
    let count = Memo::new(move |_| store.recipes().len());
    let kept = move || match count.get() {
        0 => String::from("This browser keeps no recipes yet."),
        1 => String::from("This browser keeps 1 recipe."),
        many => format!("This browser keeps {many} recipes."),
    };
    let promise = move || match promised.get() {
        Promised::Unknown => {
            "This browser does not say how long it keeps them. Download a copy \
                              from time to time."
        }
        Promised::Yes => "It has promised to keep them until you delete them.",
        Promised::No => {
            "It may clear them when the device runs short of room, or when you have \
                         not been here for long."
        }
        Promised::Refused => {
            "It did not promise to keep them. Install Foldwright or use it more \
                              often and ask again; until then, download a copy from time to time."
        }
    };
    let may_ask = move || matches!(promised.get(), Promised::No | Promised::Refused);
    let export = move |_| {
        let recipes = untrack(move || store.recipes());
        save_file(
            &recipes
                .into_iter()
                .map(|(_, record)| record.recipe)
                .collect::<Vec<_>>(),
        );
        store.backed_up();
    };
    let syncing = expect_context::<Syncing>();
    let everything = move |_| {
        download("everything.foldwright.json", &syncing.everything());
        store.backed_up();
    };
    view! {
        <section class="group">
            <h2>"Your recipes"</h2>
            <p>{kept}" "<span role="status">{promise}</span></p>
            <p>
                {move || store.room_taken().min(100).to_string()}
                " % of this browser's room for Foldwright is taken."
            </p>
            <div class="actions">
                <Show when=may_ask>
                    <button class="button" on:click=ask>"Ask it to keep them"</button>
                </Show>
                <Show when=move || { count.get() > 0 }>
                    <button class="button" on:click=export>"Download all"</button>
                    <button class="button" on:click=everything>
                        "Download with progress, paper and history"
                    </button>
                </Show>
                <FromFile/>
            </div>
            <AllAside/>
            <h3>"Use it like an app"</h3>
            <p>
                "Your browser's menu can install Foldwright or add it to the home screen. It then \
                 opens by itself, without a connection too, and your recipes are safer from being \
                 cleared."
            </p>
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
            <h3>"Set aside"</h3>
            <p>"These could not be read whole when they were opened. Nothing of them was deleted."</p>
            <ul class="asides">
                <For
                    each=move || asides.get()
                    key=|aside| aside.key.clone()
                    children=move |aside| {
                        let name = aside.title().map(|title| format!("“{title}”"));
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
    let words = move || match store.member() {
        Some(member) => format!(
            "This device is in the workshop “{}”. {}.",
            member.workshop_name,
            store.status()
        ),
        None => String::from(
            "Laptop and phone can have the same recipes, each usable alone. Deleted recipes can \
             be brought back there too.",
        ),
    };
    view! {
        <section class="group">
            <h2>"Other devices"</h2>
            <p>{words}</p>
            <div class="actions">
                <a class="button" href="/devices">"Devices"</a>
            </div>
        </section>
    }
}

#[component]
fn About() -> impl IntoView {
    view! {
        <section class="group">
            <h2>"About Foldwright"</h2>
            <p>
                "Foldwright works out folded cards from your own paper and leads you through \
                 making them. Everything is worked out on this device."
            </p>
            <p class="quiet">
                "Free software under the MIT licence or the Apache License 2.0, at your choice. \
                 Version " {env!("CARGO_PKG_VERSION")} "."
            </p>
        </section>
    }
}
