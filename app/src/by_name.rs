//! What a browser may have or lack, called by its name: bindings count some of it as
//! unstable, and each of them would lengthen the first load.

use web_sys::js_sys::{Array, Function, Reflect, global};
use web_sys::wasm_bindgen::{JsCast as _, JsValue};

/// What something has under a name; `None` where it has nothing there.
pub(crate) fn of(thing: &JsValue, name: &str) -> Option<JsValue> {
    let found = Reflect::get(thing, &name.into()).ok()?;
    (!found.is_undefined() && !found.is_null()).then_some(found)
}

/// What the browser itself has under a name.
pub(crate) fn of_browser(name: &str) -> Option<JsValue> {
    of(&global(), name)
}

/// Calls what something has under a name.
///
/// # Errors
///
/// What the browser threw, also where there is nothing to call.
pub(crate) fn call(thing: &JsValue, name: &str, with: &[JsValue]) -> Result<JsValue, JsValue> {
    let what: Function = Reflect::get(thing, &name.into())?.dyn_into()?;
    what.apply(thing, &with.iter().collect::<Array>())
}

/// Makes something new of the kind of a name.
///
/// # Errors
///
/// What the browser threw, also where it knows no such kind.
pub(crate) fn new(kind: &str, with: &[JsValue]) -> Result<JsValue, JsValue> {
    let kind: Function = Reflect::get(&global(), &kind.into())?.dyn_into()?;
    Reflect::construct(&kind, &with.iter().collect::<Array>())
}

/// Sets what something has under a name.
pub(crate) fn set(thing: &JsValue, name: &str, value: &JsValue) {
    // Fails only for what cannot be changed, which then stays as it is.
    let _ = Reflect::set(thing, &name.into(), value);
}
