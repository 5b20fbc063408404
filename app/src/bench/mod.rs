//! The bench: a recipe step by step at the table.

mod aids;
mod aloud;
mod batch;
mod caution;
mod clock;
mod finish;
mod joined;
mod list;
mod listening;
mod log;
mod note;
mod numbers;
mod order;
mod own;
mod pace;
mod pictures;
mod place;
mod plan;
mod progress;
mod rescue;
mod ruler;
mod said;
mod short;
mod stopped;
mod table;
mod task;
mod turn;
mod used;
mod wake;

use foldwright_engine::recipe::Recipe;
use leptos::either::Either;
use leptos::prelude::*;

use aids::{AidsSheet, AtHand};
use aloud::{Reading, ReadingTrouble};
use clock::{ClockStrip, Clocks};
use finish::Finish;
use joined::Joined;
use listening::{Listening, ListeningTrouble};
use pace::Paced;
use progress::Head;
use rescue::{RescueSheet, Rescuing};
use said::Said;
use stopped::Stopped;
use table::{Laid, Table};
use task::Task;
use turn::{Turns, listen_for_keys};
use wake::{AwakeWarning, keep_awake};

use crate::spoken::language;

/// Which screen is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Screen {
    Stopped,
    Joined,
    Task,
    Finish,
}

/// The steps of one recipe, once it is known by which plan its cards are cut.
#[component]
pub fn Bench(
    /// The recipe; every change is saved by whoever gave it.
    recipe: RwSignal<Recipe>,
    /// Its name in the store and in addresses.
    id: String,
) -> impl IntoView {
    let laid = Laid::new(recipe, &id);
    let is_known = Memo::new(move |known| known == Some(&true) || laid.is_known());
    move || {
        if is_known.get() {
            let id = id.clone();
            Either::Left(view! { <AtTable recipe id laid/> })
        } else {
            Either::Right(
                view! { <p class="quiet" role="status">{language().beside().plan_again}</p> },
            )
        }
    }
}

/// The steps of one recipe, one a screen.
#[component]
fn AtTable(recipe: RwSignal<Recipe>, id: String, laid: Laid) -> impl IntoView {
    let table = Table::new(recipe, id, laid);
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
    let said = Said::new(table);
    provide_context(said);
    let hand = AtHand::new();
    provide_context(hand);
    provide_context(Clocks::begin());
    let is_task = Memo::new(move |_| screen.get() == Screen::Task);
    provide_context(Paced::begin(table, is_task));
    let reading = Reading::begin(table, said, hand, is_task);
    provide_context(reading);
    let is_ready = Memo::new(move |_| screen.get() != Screen::Stopped);
    provide_context(Listening::begin(table, hand, reading, is_ready));
    let awake = keep_awake();
    listen_for_keys(table, move || screen.get_untracked() != Screen::Stopped);
    view! {
        <div class="bench" class:left-handed=hand.of(|aids| aids.left_handed)>
            <Head/>
            <ClockStrip/>
            <AwakeWarning awake/>
            <ReadingTrouble/>
            <ListeningTrouble/>
            {move || match screen.get() {
                Screen::Stopped => view! { <Stopped warned/> }.into_any(),
                Screen::Joined => view! { <Joined/> <Turns/> }.into_any(),
                Screen::Task => view! { <Task/> <Turns/> }.into_any(),
                Screen::Finish => view! { <Finish/> <Turns/> }.into_any(),
            }}
            <RescueSheet/>
            <AidsSheet/>
        </div>
    }
}
