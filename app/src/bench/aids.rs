//! What the bench has beside its steps, and the sheet in which it is set up.

use leptos::prelude::*;

use super::aloud::Reading;
use super::clock::SetClock;
use super::listening::ListenForWords;
use super::ruler::Ruler;
use crate::part::{Choice, Icon, Sheet, Symbol};
use crate::spoken::language;
use crate::store::{Aids, Store};

/// How the bench of this device is set up, and the sheet for it.
#[derive(Clone, Copy)]
pub(super) struct AtHand {
    store: Store,
    aids: RwSignal<Aids>,
    open: RwSignal<bool>,
}

impl AtHand {
    pub(super) fn here() -> Self {
        expect_context()
    }

    pub(super) fn new() -> Self {
        let store = expect_context::<Store>();
        Self {
            store,
            aids: RwSignal::new(store.aids()),
            open: RwSignal::new(false),
        }
    }

    /// How it is set up. Tracks nothing.
    pub(super) fn aids(self) -> Aids {
        self.aids.get_untracked()
    }

    /// One thing of how it is set up. Tracks.
    pub(super) fn of<T: PartialEq + Send + Sync + 'static>(self, what: fn(&Aids) -> T) -> Memo<T> {
        Memo::new(move |_| self.aids.with(what))
    }

    /// Sets it up otherwise.
    pub(super) fn change(self, change: impl FnOnce(&mut Aids)) {
        self.aids.update(change);
        self.store.set_aids(&self.aids());
    }

    /// Opens the sheet.
    pub(super) fn open(self) {
        self.open.set(true);
    }

    /// Closes the sheet.
    pub(super) fn close(self) {
        self.open.set(false);
    }
}

/// The button that opens the sheet.
#[component]
pub(super) fn AidsButton() -> impl IntoView {
    let hand = AtHand::here();
    view! {
        <button
            type="button"
            class="bench-aid"
            aria-haspopup="dialog"
            aria-label=language().beside().aids
            on:click=move |_| hand.open()
        >
            <Icon symbol=Symbol::Aids/>
        </button>
    }
}

/// The sheet. It stands beside the step, so that a finger on it turns no steps.
#[component]
pub(super) fn AidsSheet() -> impl IntoView {
    let hand = AtHand::here();
    let texts = language().beside();
    view! {
        <Sheet open=hand.open title=texts.aids>
            <div class="aids">
                <section>
                    <h3>{texts.set_a_clock}</h3>
                    <SetClock/>
                </section>
                <ReadingAloud/>
                <ListenForWords/>
                <Hands/>
                <section>
                    <h3>{texts.ruler}</h3>
                    <Ruler/>
                </section>
            </div>
        </Sheet>
    }
}

/// Whether each step is read aloud.
#[component]
fn ReadingAloud() -> impl IntoView {
    let hand = AtHand::here();
    let reading = Reading::here();
    let texts = language().beside();
    let choose = move |reads: bool| {
        hand.change(|aids| aids.reads_aloud = reads);
        if reads {
            reading.read();
        } else {
            reading.stop();
        }
    };
    view! {
        <section>
            <h3>{texts.reading}</h3>
            <Choice
                titled=true
                label=texts.read_each_step
                options=move || vec![(false, texts.off), (true, texts.on)]
                chosen=hand.of(|aids| aids.reads_aloud)
                choose
            />
            <p class="quiet">{texts.about_reading} " " {reading.about_voice()}</p>
        </section>
    }
}

/// At which hand the large buttons lie.
#[component]
fn Hands() -> impl IntoView {
    let hand = AtHand::here();
    let texts = language().beside();
    view! {
        <section>
            <Choice
                titled=true
                label=texts.large_buttons
                options=move || vec![(true, texts.left_hand), (false, texts.right_hand)]
                chosen=hand.of(|aids| aids.left_handed)
                choose=move |left| hand.change(|aids| aids.left_handed = left)
            />
        </section>
    }
}
