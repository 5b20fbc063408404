//! What is being typed stays: a field with the focus is not overwritten, and
//! what it holds unfinished is there again after a reload.
//!
//! A field takes part by its attribute `data-unfinished`, which says what ends
//! the typing: leaving the field ("change") or sending its form ("submit").

use std::cell::{Cell, RefCell};
use std::time::Duration;

use gloo_storage::{SessionStorage, Storage as _};
use leptos::ev;
use leptos::html;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::{Element, Event, EventInit, EventTarget, HtmlInputElement};

const UNFINISHED: &str = "foldwright/unfinished";
const FIELDS: &str = "input[data-unfinished]";

/// How long a page may take after a reload until its fields are there, and how
/// often it is looked.
const PATIENCE: u32 = 50;
const PAUSE: Duration = Duration::from_millis(100);

/// Something typed that is not finished.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct Unfinished {
    /// The page it is on.
    address: String,
    /// The field's name and the heading it stands under.
    field: String,
    /// Which of the fields of that name.
    place: usize,
    text: String,
}

thread_local! {
    /// What was unfinished when the page was left and is not put back yet.
    static LEFT: RefCell<Vec<Unfinished>> = RefCell::default();
    /// The field with the focus and where it is: to tell that all fields are gone
    /// through, which is too much for every letter.
    static AT: RefCell<Option<(HtmlInputElement, Unfinished)>> = RefCell::default();
    /// Whether what is typed is kept.
    static KEEPS: Cell<bool> = const { Cell::new(false) };
}

/// What a field shows: what is kept or, while it has the focus, what is in it;
/// and what to do when it is left. What is `wrong` with it stays to be mended.
pub(crate) fn unless_typing(
    field: NodeRef<html::Input>,
    kept: impl Fn() -> String + Send + Sync + 'static,
    wrong: Signal<bool>,
) -> (Signal<String>, impl Fn() + Copy) {
    let left = RwSignal::new(());
    let shown = Signal::derive(move || {
        left.track();
        let kept = kept();
        let field = field.get();
        let typing = field.filter(|field| {
            let active = document().active_element();
            active.as_ref() == Some(field.unchecked_ref())
        });
        typing.map_or(kept, |field| field.value())
    });
    let leave = move || {
        if !wrong.get_untracked() {
            left.set(());
        }
    };
    (shown, leave)
}

/// Keeps what is typed on all pages of the app from now on, and puts back what
/// was being typed when the page was left. Once is enough.
pub(crate) fn keep_unfinished() {
    if KEEPS.replace(true) {
        return;
    }
    let _ = window_event_listener(ev::input, |event| {
        if let Some(field) = field(event.target()) {
            note(&field);
        }
    });
    let _ = window_event_listener(ev::change, |event| {
        let field = field(event.target());
        settle(field.filter(|field| ends_by(field, "change")).into_iter());
    });
    let _ = window_event_listener(ev::submit, |event| {
        let form = event.target().and_then(|it| it.dyn_into::<Element>().ok());
        settle(form.iter().flat_map(fields));
    });
    let _ = window_event_listener(ev::focusin, |event| {
        if let Some(field) = field(event.target()) {
            AT.set(Some((field.clone(), found(&field))));
            put_back(&field);
        }
    });
    LEFT.set(all());
    // As soon as the page that is being opened is there.
    set_timeout(|| look(PATIENCE), Duration::ZERO);
}

/// Forgets what is unfinished in the dialog, which is closed now. Its fields may
/// be gone, and there is only one dialog at a time.
pub(crate) fn forget_dialog() {
    forget_those(|one| !one.field.starts_with('/'));
}

/// Puts everything back whose field is there, and goes on looking.
fn look(times: u32) {
    let Some(page) = document().document_element() else {
        return;
    };
    for field in fields(&page) {
        put_back(&field);
    }
    if times > 0 && LEFT.with_borrow(|left| !left.is_empty()) {
        set_timeout(move || look(times - 1), PAUSE);
    }
}

fn field(target: Option<EventTarget>) -> Option<HtmlInputElement> {
    let field = target?.dyn_into::<HtmlInputElement>().ok()?;
    field.has_attribute("data-unfinished").then_some(field)
}

fn ends_by(field: &HtmlInputElement, how: &str) -> bool {
    field.get_attribute("data-unfinished").as_deref() == Some(how)
}

fn fields(within: &Element) -> Vec<HtmlInputElement> {
    let Ok(found) = within.query_selector_all(FIELDS) else {
        return Vec::new();
    };
    let fields = (0..found.length()).filter_map(|at| found.get(at)?.dyn_into().ok());
    fields.collect()
}

/// What a field is called, and under which heading.
fn name(field: &HtmlInputElement) -> String {
    let own = field.get_attribute("aria-label").or_else(|| {
        let label = field.closest("label").ok()??;
        label.query_selector("span").ok()??.text_content()
    });
    let dialog = field.closest("dialog").ok().flatten();
    let heading = dialog.and_then(|dialog| dialog.get_attribute("aria-label"));
    format!(
        "{}/{}",
        heading.unwrap_or_default(),
        own.unwrap_or_default()
    )
}

/// Where a field is, without what is in it.
fn of(field: &HtmlInputElement) -> Unfinished {
    let known = AT.with_borrow(|at| {
        let (of, known) = at.as_ref()?;
        (of == field).then(|| known.clone())
    });
    known.unwrap_or_else(|| found(field))
}

/// The same, looked for among all fields.
fn found(field: &HtmlInputElement) -> Unfinished {
    let called = name(field);
    let page = document().document_element();
    let alike = page.iter().flat_map(fields).filter(|it| name(it) == called);
    Unfinished {
        address: window().location().pathname().unwrap_or_default(),
        place: alike.take_while(|it| it != field).count(),
        field: called,
        text: String::new(),
    }
}

fn is_for(one: &Unfinished, of: &Unfinished) -> bool {
    (&one.address, &one.field, one.place) == (&of.address, &of.field, of.place)
}

fn all() -> Vec<Unfinished> {
    SessionStorage::get(UNFINISHED).unwrap_or_default()
}

fn set_all(all: &[Unfinished]) {
    if all.is_empty() {
        SessionStorage::delete(UNFINISHED);
    } else {
        // Where there is no room, nothing is lost but this.
        let _ = SessionStorage::set(UNFINISHED, all);
    }
}

fn note(field: &HtmlInputElement) {
    let mut typed = of(field);
    typed.text = field.value();
    LEFT.with_borrow_mut(|left| left.retain(|one| !is_for(one, &typed)));
    let mut all = all();
    all.retain(|one| !is_for(one, &typed));
    all.push(typed);
    set_all(&all);
}

fn forget_those(which: impl Fn(&Unfinished) -> bool) {
    LEFT.with_borrow_mut(|left| left.retain(|one| !which(one)));
    let mut all = all();
    let before = all.len();
    all.retain(|one| !which(one));
    if all.len() < before {
        set_all(&all);
    }
}

/// Forgets what was typed in fields once the app has taken it, which it says a
/// moment later; by then they may be gone.
fn settle(fields: impl Iterator<Item = HtmlInputElement>) {
    let fields: Vec<_> = fields.map(|field| (of(&field), field)).collect();
    let forget = move || {
        for (of, field) in &fields {
            if field.get_attribute("aria-invalid").as_deref() != Some("true") {
                forget_those(|one| is_for(one, of));
            }
        }
    };
    set_timeout(forget, Duration::ZERO);
}

fn put_back(field: &HtmlInputElement) {
    let of = of(field);
    let found = LEFT.with_borrow_mut(|left| {
        let place = left.iter().position(|one| is_for(one, &of))?;
        Some(left.remove(place))
    });
    let Some(typed) = found else {
        return;
    };
    if field.value() == typed.text {
        return;
    }
    field.set_value(&typed.text);
    let ends = ends_by(field, "change").then_some("change");
    for what in ["input"].into_iter().chain(ends) {
        let init = EventInit::new();
        init.set_bubbles(true);
        if let Ok(event) = Event::new_with_event_init_dict(what, &init) {
            // Fails only for an event that is under way already.
            let _ = field.dispatch_event(&event);
        }
    }
}
