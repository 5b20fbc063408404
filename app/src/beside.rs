//! Workers of the page, in which the same code runs once more for what takes long.
//! What they say is text; saying nothing says that they are there.

use leptos::prelude::document;
use web_sys::HtmlMetaElement;
use web_sys::js_sys::{Object, global};
use web_sys::wasm_bindgen::prelude::Closure;
use web_sys::wasm_bindgen::{JsCast as _, JsValue};

use crate::by_name::{call, new, of, set};

/// What a worker is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Work {
    /// Looking for plans of cuts.
    Cuts,
    /// Reading files of recipes.
    Files,
}

impl Work {
    const ALL: [Self; 2] = [Self::Cuts, Self::Files];

    /// Under which name its worker is started.
    const fn name(self) -> &'static str {
        match self {
            Self::Cuts => "cuts",
            Self::Files => "files",
        }
    }

    /// What the worker is for in which this runs.
    pub(crate) fn of_this_worker() -> Option<Self> {
        let name = of(&global(), "name")?.as_string()?;
        Self::ALL.into_iter().find(|work| work.name() == name)
    }
}

/// A worker of this page.
#[derive(Debug, Clone)]
pub(crate) struct Worker(JsValue);

impl Worker {
    /// Starts one; `None` where the browser makes none. `hear` is given all it says, and
    /// `fail` is called where it does not start or breaks.
    pub(crate) fn start(
        work: Work,
        mut hear: impl FnMut(String) + 'static,
        mut fail: impl FnMut() + 'static,
    ) -> Option<Self> {
        let script = document().query_selector("meta[name=beside]");
        let script: HtmlMetaElement = script.ok()??.dyn_into().ok()?;
        let how = Object::new();
        set(&how, "type", &"module".into());
        set(&how, "name", &work.name().into());
        let worker = new("Worker", &[script.content().into(), how.into()]).ok()?;
        let hear = Closure::<dyn FnMut(JsValue)>::new(move |message: JsValue| {
            let text = of(&message, "data").and_then(|data| data.as_string());
            hear(text.unwrap_or_default());
        });
        let fail = Closure::<dyn FnMut(JsValue)>::new(move |_: JsValue| fail());
        set(&worker, "onmessage", &hear.into_js_value());
        set(&worker, "onerror", &fail.into_js_value());
        Some(Self(worker))
    }

    /// Hands it something: a text, or a file.
    pub(crate) fn post(&self, what: &JsValue) {
        // Both can always be sent.
        let _ = call(&self.0, "postMessage", std::slice::from_ref(what));
    }

    /// Ends it, whatever it does.
    pub(crate) fn end(&self) {
        // One that is gone needs no end.
        let _ = call(&self.0, "terminate", &[]);
    }
}

/// Works for the page that started this worker: `hear` is given all it hands over.
pub(crate) fn serve(mut hear: impl FnMut(Option<JsValue>) + 'static) {
    let hear = Closure::<dyn FnMut(JsValue)>::new(move |message: JsValue| {
        hear(of(&message, "data"));
    });
    set(&global(), "onmessage", &hear.into_js_value());
    say("");
}

/// Tells the page that started this worker.
pub(crate) fn say(text: &str) {
    // A text can always be sent.
    let _ = call(&global(), "postMessage", &[text.into()]);
}
