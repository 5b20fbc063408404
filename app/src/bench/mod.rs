//! The bench: a recipe step by step at the table.

mod batch;
mod caution;
mod finish;
mod joined;
mod list;
mod note;
mod pictures;
mod place;
mod plan;
mod progress;
mod rescue;
mod stopped;
mod table;
mod task;
mod turn;
mod used;
mod wake;

use foldwright_engine::recipe::Recipe;
use leptos::prelude::*;

use finish::Finish;
use joined::Joined;
use progress::Head;
use rescue::{RescueSheet, Rescuing};
use stopped::Stopped;
use table::Table;
use task::Task;
use turn::{Turns, listen_for_keys};
use wake::{AwakeWarning, keep_awake};

/// Which screen is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Screen {
    Stopped,
    Joined,
    Task,
    Finish,
}

/// The steps of one recipe, one a screen.
#[component]
pub fn Bench(
    /// The recipe; every change is saved by whoever gave it.
    recipe: RwSignal<Recipe>,
    /// Its name in the store and in addresses.
    id: String,
) -> impl IntoView {
    let table = Table::new(recipe, id);
    provide_context(table);
    provide_context(Rescuing::new());
    let warned = RwSignal::new(false);
    let concerned = table.concerned();
    let screen = Memo::new(move |_| {
        if !warned.get() && table.blocking.with(|stops| !stops.is_empty()) {
            Screen::Stopped
        } else if table.is_to_be_looked_at(concerned) {
            Screen::Joined
        } else if table.step.with(Option::is_some) {
            Screen::Task
        } else {
            Screen::Finish
        }
    });
    let awake = keep_awake();
    listen_for_keys(table, move || screen.get_untracked() != Screen::Stopped);
    view! {
        <div class="bench">
            <Head/>
            <AwakeWarning awake/>
            {move || match screen.get() {
                Screen::Stopped => view! { <Stopped warned/> }.into_any(),
                Screen::Joined => view! { <Joined/> <Turns/> }.into_any(),
                Screen::Task => view! { <Task/> <Turns/> }.into_any(),
                Screen::Finish => view! { <Finish/> <Turns/> }.into_any(),
            }}
            <RescueSheet/>
        </div>
    }
}
