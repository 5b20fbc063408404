//! How far the taking in of files has come, and the way to end it. It goes on
//! whatever page is shown.

use leptos::ev;
use leptos::prelude::*;
use web_sys::js_sys::Date;

use crate::spoken::first;

/// How often it is shown how far a stage has come, in milliseconds. Our own
/// bound: each time the page is laid out and painted anew.
const OFTEN: f64 = 250.0;

/// What is being done with a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stage {
    /// It is read.
    Reading,
    /// What is here already is looked at.
    Comparing,
    /// Its recipes are taken.
    Taking,
    /// Its documents are looked at, and merged.
    Checking,
    Merging,
    /// What was taken of it is taken away again.
    Undoing,
}

/// How far it has come.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Shown {
    file: String,
    stage: Stage,
    done: usize,
    all: usize,
}

impl Shown {
    fn words(&self) -> String {
        let file = &self.file;
        let (first, done, all) = (first(), self.done, self.all);
        match self.stage {
            Stage::Reading => first.reading_file(file),
            Stage::Comparing => first.comparing_recipes.to_owned(),
            Stage::Taking => first.adding_recipes(done, all),
            Stage::Checking => first.looking_at_documents(done, all),
            Stage::Merging => first.merging_documents(done, all),
            Stage::Undoing => first.taking_away.to_owned(),
        }
    }

    /// Which quarter of a stage it is in: a screen reader is told no more often.
    fn quarter(&self) -> (Stage, usize) {
        (self.stage, self.done * 4 / self.all.max(1))
    }
}

/// The taking in of files; one for the whole app.
#[derive(Clone, Copy)]
pub(crate) struct Importing {
    shown: RwSignal<Option<Shown>>,
    /// When that was changed last.
    last: StoredValue<f64>,
    cancelled: StoredValue<bool>,
}

impl Importing {
    pub(crate) fn new() -> Self {
        let importing = Self {
            shown: RwSignal::new(None),
            last: StoredValue::new(0.0),
            cancelled: StoredValue::new(false),
        };
        // Leaving the page ends it.
        let _ = window_event_listener(ev::beforeunload, move |event| {
            if importing.is_busy() {
                event.prevent_default();
            }
        });
        importing
    }

    /// Whether a file is being taken in.
    pub(crate) fn is_busy(self) -> bool {
        self.shown.with_untracked(Option::is_some)
    }

    /// Begins with a file.
    pub(crate) fn begin(self, file: &str) {
        self.cancelled.set_value(false);
        self.shown.set(Some(Shown {
            file: file.to_owned(),
            stage: Stage::Reading,
            done: 0,
            all: 0,
        }));
    }

    /// Shows how far it has come, where that is due, and says whether to go on.
    pub(crate) fn go_on(self, stage: Stage, done: usize, all: usize) -> bool {
        let since = Date::now() - self.last.get_value();
        self.shown.maybe_update(|shown| {
            let due = |shown: &&mut Shown| shown.stage != stage || !(0.0..OFTEN).contains(&since);
            let Some(shown) = shown.as_mut().filter(due) else {
                return false;
            };
            (shown.stage, shown.done, shown.all) = (stage, done, all);
            self.last.set_value(Date::now());
            true
        });
        !self.cancelled.get_value()
    }

    /// It is over.
    pub(crate) fn end(self) {
        self.shown.set(None);
    }
}

/// Shows it at the edge of the screen.
#[component]
pub(crate) fn ImportProgress() -> impl IntoView {
    let importing = expect_context::<Importing>();
    let shown = importing.shown;
    let of = move |what: fn(&Shown) -> String| {
        move || shown.with(|shown| shown.as_ref().map(what).unwrap_or_default())
    };
    let quarter = Memo::new(move |_| shown.with(|shown| shown.as_ref().map(Shown::quarter)));
    let said = move || {
        quarter.track();
        untrack(of(Shown::words))
    };
    let may_cancel = Memo::new(move |_| {
        shown.with(|shown| {
            shown
                .as_ref()
                .is_some_and(|shown| shown.stage != Stage::Undoing)
        })
    });
    let value = move || shown.with(|shown| shown.as_ref().map_or(0, |shown| shown.done));
    let most = move || shown.with(|shown| shown.as_ref().map_or(1, |shown| shown.all.max(1)));
    view! {
        <Show when=move || shown.with(Option::is_some)>
            <div class="notice importing" role="group" aria-label=first().adding_from_file>
                <label>
                    <span>{of(Shown::words)}</span>
                    <progress max=most prop:value=value></progress>
                </label>
                <Show when=move || may_cancel.get()>
                    <button
                        type="button"
                        class="button quiet"
                        on:click=move |_| importing.cancelled.set_value(true)
                    >
                        {first().cancel}
                    </button>
                </Show>
            </div>
        </Show>
        <p class="visually-hidden" role="status">{said}</p>
    }
}
