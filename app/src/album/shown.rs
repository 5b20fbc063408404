//! The addresses at which a page shows photographs.

#[cfg(feature = "csr")]
pub use here::address;
#[cfg(feature = "csr")]
pub(super) use here::came;

/// The address of a photograph on the server's page of a shared recipe, from that page:
/// no link is in it, so that the page is the same for all of them.
#[cfg(not(feature = "csr"))]
pub fn address(photo: foldwright_engine::paper::PhotoId) -> Option<String> {
    Some(format!("?{}={photo}", foldwright_api::SHARED_PHOTO))
}

/// The server shows no photograph of its own.
#[cfg(not(feature = "csr"))]
pub(super) fn came(_: foldwright_engine::paper::PhotoId) {}

#[cfg(feature = "csr")]
mod here {
    use std::cell::RefCell;
    use std::collections::BTreeMap;

    use foldwright_api::PhotoKind;
    use foldwright_engine::paper::PhotoId;
    use leptos::prelude::*;
    use leptos::task::spawn_local;
    use web_sys::MessageEvent;
    use web_sys::js_sys::{Array, Object, Uint8Array};
    use web_sys::wasm_bindgen::JsValue;
    use web_sys::wasm_bindgen::prelude::Closure;

    use crate::album::bytes;
    use crate::by_name::{call, new, of, of_browser, set};

    /// Over what tabs tell each other which photograph has come.
    const CHANNEL: &str = "foldwright-photographs";

    thread_local! {
        /// The address of each photograph that was asked for, once it is here. These are
        /// no signals of a page, which would go with it.
        static ASKED: RefCell<BTreeMap<PhotoId, ArcRwSignal<Option<String>>>> =
            const { RefCell::new(BTreeMap::new()) };
        /// What the tab listens to for what comes in others.
        static LISTENS: RefCell<Option<JsValue>> = const { RefCell::new(None) };
    }

    /// An address at which the page can show a photograph; `None` while it is looked
    /// up, and where it is not here. Tracks: what is drawn with it is drawn again as
    /// soon as it is here. It is made once, and good until the page is left.
    pub fn address(photo: PhotoId) -> Option<String> {
        let known = ASKED.with_borrow(|asked| asked.get(&photo).cloned());
        let address = known.unwrap_or_else(|| {
            let address = ArcRwSignal::new(None);
            ASKED.with_borrow_mut(|asked| asked.insert(photo, address.clone()));
            listen();
            look_up(photo);
            address
        });
        address.get()
    }

    /// A photograph is here now: it is shown in this tab and in the others.
    pub(in crate::album) fn came(photo: PhotoId) {
        look_up(photo);
        // Where tabs cannot tell each other, the others see it when they are loaded again.
        if let Ok(channel) = new("BroadcastChannel", &[CHANNEL.into()]) {
            let _ = call(&channel, "postMessage", &[photo.to_string().into()]);
            let _ = call(&channel, "close", &[]);
        }
    }

    /// Looks a photograph up that was asked for and is not known to be here.
    fn look_up(photo: PhotoId) {
        let asked = ASKED.with_borrow(|asked| asked.get(&photo).cloned());
        let Some(address) = asked.filter(|it| it.with_untracked(Option::is_none)) else {
            return;
        };
        spawn_local(async move {
            let Some(file) = bytes(photo).await else {
                return;
            };
            // It may have been found meanwhile.
            if address.with_untracked(Option::is_none) {
                address.set(of_file(&file));
            }
        });
    }

    /// An address of a file in this page.
    fn of_file(file: &[u8]) -> Option<String> {
        let kind = PhotoKind::of(file)?.media_type();
        let options = Object::new();
        set(&options, "type", &kind.into());
        let parts = Array::of1(&Uint8Array::from(file));
        let blob = new("Blob", &[parts.into(), options.into()]).ok()?;
        let address = call(&of_browser("URL")?, "createObjectURL", &[blob]);
        address.ok()?.as_string()
    }

    /// Listens for what comes in other tabs, as long as the page is there.
    fn listen() {
        if LISTENS.with_borrow(Option::is_some) {
            return;
        }
        let Ok(channel) = new("BroadcastChannel", &[CHANNEL.into()]) else {
            return;
        };
        let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            let said = of(&event, "data").and_then(|data| data.as_string());
            if let Some(Ok(photo)) = said.map(|said| said.parse()) {
                look_up(photo);
            }
        });
        set(&channel, "onmessage", &heard.into_js_value());
        LISTENS.set(Some(channel));
    }
}
