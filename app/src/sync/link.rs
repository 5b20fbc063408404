//! The connection to the server, and who of several tabs has it.

use leptos::prelude::*;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{ArrayBuffer, Function, Object, Promise, Reflect, Uint8Array};
use web_sys::wasm_bindgen::prelude::Closure;
use web_sys::wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{BinaryType, CloseEvent, MessageEvent, WebSocket};

/// What the connection is for, as all tabs call it.
const LOCK: &str = "foldwright-sync";

/// What happens on a connection.
pub(super) enum Event {
    /// It is open.
    Open,
    /// The server said something in JSON.
    Text(String),
    /// The server sent a message about a document.
    Bytes(Vec<u8>),
    /// It is closed, with this code.
    Closed(u16),
}

/// A connection to the server. Closes when it is dropped.
pub(super) struct Link {
    socket: WebSocket,
    _heard: Closure<dyn FnMut(MessageEvent)>,
    _opened: Closure<dyn FnMut()>,
    _closed: Closure<dyn FnMut(CloseEvent)>,
}

impl Link {
    /// Begins to connect; `None` where the browser does not allow it.
    pub(super) fn open(happens: impl Fn(Event) + Clone + 'static) -> Option<Self> {
        let location = window().location();
        let (protocol, host) = (location.protocol().ok()?, location.host().ok()?);
        let scheme = if protocol == "https:" { "wss" } else { "ws" };
        let socket = WebSocket::new(&format!("{scheme}://{host}/api/sync")).ok()?;
        socket.set_binary_type(BinaryType::Arraybuffer);
        let opened = {
            let happens = happens.clone();
            Closure::new(move || happens(Event::Open))
        };
        let heard = {
            let happens = happens.clone();
            Closure::new(move |event: MessageEvent| {
                let data = event.data();
                if let Some(text) = data.as_string() {
                    happens(Event::Text(text));
                } else if let Ok(buffer) = data.dyn_into::<ArrayBuffer>() {
                    happens(Event::Bytes(Uint8Array::new(&buffer).to_vec()));
                }
            })
        };
        let closed = Closure::new(move |event: CloseEvent| happens(Event::Closed(event.code())));
        socket.set_onopen(Some(opened.as_ref().unchecked_ref()));
        socket.set_onmessage(Some(Closure::as_ref(&heard).unchecked_ref()));
        socket.set_onclose(Some(Closure::as_ref(&closed).unchecked_ref()));
        Some(Self {
            socket,
            _heard: heard,
            _opened: opened,
            _closed: closed,
        })
    }

    /// Sends JSON. What is not sent since the connection just broke is sent
    /// again over the next.
    pub(super) fn say(&self, text: &str) {
        let _ = self.socket.send_with_str(text);
    }

    /// Sends a message about a document, as [`Self::say`].
    pub(super) fn send(&self, frame: &[u8]) {
        let _ = self.socket.send_with_u8_array(frame);
    }
}

impl Drop for Link {
    fn drop(&mut self) {
        self.socket.set_onopen(None);
        self.socket.set_onmessage(None);
        self.socket.set_onclose(None);
        // Fails only for codes that may not be given.
        let _ = self.socket.close();
    }
}

/// Asks that of all tabs this one has the connection: when it is its turn, or
/// at once. Where a browser cannot tell its tabs apart each has one; documents
/// merge, so that only costs time.
pub(super) fn hold(at_once: bool, got: impl FnOnce() + 'static, lost: impl FnOnce() + 'static) {
    let locks = Reflect::get(&window().navigator(), &"locks".into());
    let locks = locks.unwrap_or(JsValue::UNDEFINED);
    let request = Reflect::get(&locks, &"request".into())
        .ok()
        .and_then(|request| request.dyn_into::<Function>().ok());
    let Some(request) = request else {
        got();
        return;
    };
    let options = Object::new();
    // A fresh object takes any property.
    let _ = Reflect::set(&options, &"steal".into(), &at_once.into());
    let turn = Closure::once_into_js(move |_: JsValue| -> JsValue {
        got();
        // Held until the page is left or another tab takes it.
        Promise::new(&mut |_, _| {}).into()
    });
    let asked = request.call3(&locks, &LOCK.into(), &options, &turn);
    let Ok(asked) = asked.and_then(JsValue::dyn_into::<Promise>) else {
        return;
    };
    spawn_local(async move {
        if JsFuture::from(asked).await.is_err() {
            lost();
        }
    });
}
