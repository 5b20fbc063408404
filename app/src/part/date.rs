//! Moments and days, as the reader's language writes them.

use web_sys::js_sys::{Date, Object, Reflect};
use web_sys::wasm_bindgen::JsValue;

use crate::spoken::locale;

/// A moment in milliseconds since 1970: its day, and its time to the minute.
pub(crate) fn moment(at: u64) -> String {
    let (date, language) = here(at);
    let style = Object::new();
    for (of, how) in [("dateStyle", "medium"), ("timeStyle", "short")] {
        // A fresh object takes any property.
        let _ = Reflect::set(&style, &of.into(), &how.into());
    }
    String::from(date.to_locale_string(&language, &style))
}

/// The day of a moment in milliseconds since 1970.
pub(crate) fn day(at: u64) -> String {
    let (date, language) = here(at);
    String::from(date.to_locale_date_string(&language, &JsValue::UNDEFINED))
}

fn here(at: u64) -> (Date, String) {
    #[expect(
        clippy::cast_precision_loss,
        reason = "a date of today is a whole number far inside the range"
    )]
    let date = Date::new(&JsValue::from_f64(at as f64));
    (date, locale())
}
