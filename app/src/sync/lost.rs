//! Whether the server can give this device its place in a workshop back. The
//! browser keeps that apart from all that it clears when room runs out.

use foldwright_api::mark;
use leptos::prelude::{document, window};
use web_sys::js_sys::Reflect;

/// Whether it was paired, as far as the browser knows.
pub(crate) fn was_paired() -> bool {
    let cookies = Reflect::get(&document(), &"cookie".into()).ok();
    let cookies = cookies.and_then(|cookies| cookies.as_string());
    let marked = format!("{}=1", name());
    cookies.is_some_and(|cookies| cookies.split(';').any(|cookie| cookie.trim() == marked))
}

/// Forgets that it was.
pub(super) fn unmark() {
    let cookie = format!("{}=; Max-Age=0; Path=/; SameSite=Strict", name());
    // Every document takes cookies, and keeps those it may.
    let _ = Reflect::set(&document(), &"cookie".into(), &cookie.into());
}

fn name() -> String {
    mark(&window().location().port().unwrap_or_default())
}
