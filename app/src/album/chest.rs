//! The browser's database of photographs: the bytes of a file under a name (W3C,
//! Indexed Database API 3.0). It is called by name, as what browsers may lack is: the
//! bindings of a library would be loaded with the first page.
//!
//! Each question opens the database and closes it again, so that no tab ever stands in
//! the way of another that changes it.

use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Array, Promise, Uint8Array};
use web_sys::wasm_bindgen::JsValue;
use web_sys::wasm_bindgen::prelude::Closure;

use crate::by_name::{call, of, of_browser, set};

const DATABASE: &str = "foldwright-photographs";
const VERSION: u32 = 1;
/// What is kept in it, and what in that: an `Uint8Array` under each name.
const PHOTOGRAPHS: &str = "photographs";

/// Why something was not kept or read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Trouble {
    /// There is no room.
    Full,
    /// The browser keeps nothing for this site, or what it keeps cannot be read.
    Closed,
}

impl Trouble {
    /// What the error of a question or a transaction means.
    fn of(thing: &JsValue) -> Self {
        let name = of(thing, "error").and_then(|error| of(&error, "name"));
        match name.and_then(|name| name.as_string()).as_deref() {
            Some("QuotaExceededError") => Self::Full,
            _ => Self::Closed,
        }
    }
}

impl From<JsValue> for Trouble {
    /// What was thrown before anything was asked.
    fn from(_: JsValue) -> Self {
        Self::Closed
    }
}

/// Keeps the bytes of a file under a name. When this returns without trouble they
/// outlast the page.
pub(super) async fn put(name: &str, file: &[u8]) -> Result<(), Trouble> {
    let file = Uint8Array::from(file);
    write("put", &[file.into(), name.into()]).await
}

/// Removes what is kept under a name, if anything is.
pub(super) async fn remove(name: &str) -> Result<(), Trouble> {
    write("delete", &[name.into()]).await
}

/// The bytes kept under a name; `None` where nothing is.
pub(super) async fn get(name: &str) -> Result<Option<Vec<u8>>, Trouble> {
    let found = read("get", &[name.into()]).await?;
    Ok((!found.is_undefined()).then(|| Uint8Array::new(&found).to_vec()))
}

/// All names under which something is kept.
pub(super) async fn names() -> Result<Vec<String>, Trouble> {
    let names = read("getAllKeys", &[]).await?;
    Ok(Array::from(&names)
        .iter()
        .filter_map(|name| name.as_string())
        .collect())
}

async fn read(question: &str, with: &[JsValue]) -> Result<JsValue, Trouble> {
    let database = open().await?;
    let answer = async {
        let (_, store) = begin(&database, "readonly")?;
        answer(call(&store, question, with)?).await
    };
    let answer = answer.await;
    let _ = call(&database, "close", &[]);
    answer
}

async fn write(question: &str, with: &[JsValue]) -> Result<(), Trouble> {
    let database = open().await?;
    let written = async {
        let (transaction, store) = begin(&database, "readwrite")?;
        // What a single question is refused ends its transaction.
        call(&store, question, with)?;
        let done = happens(&transaction, "oncomplete", &["onabort"]).await;
        done.then_some(()).ok_or_else(|| Trouble::of(&transaction))
    };
    let written = written.await;
    let _ = call(&database, "close", &[]);
    written
}

/// A transaction over the photographs, and these within it.
fn begin(database: &JsValue, mode: &str) -> Result<(JsValue, JsValue), JsValue> {
    let transaction = call(database, "transaction", &[PHOTOGRAPHS.into(), mode.into()])?;
    let store = call(&transaction, "objectStore", &[PHOTOGRAPHS.into()])?;
    Ok((transaction, store))
}

/// Opens the database, and makes it where there is none.
async fn open() -> Result<JsValue, Trouble> {
    let factory = of_browser("indexedDB").ok_or(Trouble::Closed)?;
    let request = call(&factory, "open", &[DATABASE.into(), VERSION.into()])?;
    let asked = request.clone();
    let make = Closure::<dyn FnMut(JsValue)>::new(move |_| {
        if let Some(database) = of(&asked, "result") {
            // Where that fails, whoever opened it finds nothing in it.
            let _ = call(&database, "createObjectStore", &[PHOTOGRAPHS.into()]);
        }
    });
    set(&request, "onupgradeneeded", make.as_ref());
    answer(request).await
}

/// What the browser answers.
async fn answer(request: JsValue) -> Result<JsValue, Trouble> {
    if happens(&request, "onsuccess", &["onerror", "onblocked"]).await {
        Ok(of(&request, "result").unwrap_or(JsValue::UNDEFINED))
    } else {
        Err(Trouble::of(&request))
    }
}

/// Waits for what is well to happen to something; `false` where one of the others does.
async fn happens(thing: &JsValue, well: &str, others: &[&str]) -> bool {
    let first = Promise::new(&mut |done, failed| {
        set(thing, well, &done);
        for other in others {
            set(thing, other, &failed);
        }
    });
    JsFuture::from(first).await.is_ok()
}
