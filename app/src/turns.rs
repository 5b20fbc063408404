//! Long work in short turns, so that the page stays alive meanwhile; and work
//! that only one tab does at a time.

use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

use leptos::prelude::{set_timeout, window};
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::MessageChannel;
use web_sys::js_sys::{Date, Function, Promise, Reflect};
use web_sys::wasm_bindgen::prelude::Closure;
use web_sys::wasm_bindgen::{JsCast as _, JsValue};

/// How long a turn lasts, in milliseconds: a frame of sixty in a second. Our own
/// bound; with shorter ones a slow phone is kept busy with giving way.
const TURN: f64 = 16.0;

/// A turn of some work.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Turn(f64);

impl Turn {
    /// Begins one.
    pub(crate) fn begin() -> Self {
        Self(Date::now())
    }

    /// Whether it has lasted long enough.
    pub(crate) fn is_over(self) -> bool {
        // A clock that was put back ends it too.
        !(0.0..TURN).contains(&(Date::now() - self.0))
    }

    /// Gives way to the browser where the turn is over, and begins the next.
    pub(crate) async fn or_next(&mut self) {
        if self.is_over() {
            give_way().await;
            *self = Self::begin();
        }
    }
}

/// Lets the browser do what it has to do.
pub(crate) async fn give_way() {
    // A message comes without the pause that browsers add to timers that follow
    // each other.
    let Ok(channel) = MessageChannel::new() else {
        return;
    };
    let port = channel.port1();
    let said = Promise::new(&mut |done, _| port.set_onmessage(Some(&done)));
    if channel.port2().post_message(&JsValue::NULL).is_ok() {
        // It is never rejected.
        let _ = JsFuture::from(said).await;
    }
    port.set_onmessage(None);
    port.close();
}

/// Waits until the browser has nothing else to do; where it does not tell, until it
/// has done what there is.
pub(crate) async fn idle() {
    let idle = Promise::new(&mut |done, _| {
        if window().request_idle_callback(&done).is_err() {
            let done = move || drop(done.call0(&JsValue::NULL));
            set_timeout(done, Duration::ZERO);
        }
    });
    // It is never rejected.
    let _ = JsFuture::from(idle).await;
}

/// Waits.
pub(crate) async fn pause(time: Duration) {
    let over = Promise::new(&mut |done, _| {
        let over = move || {
            // A promise's own function, which takes anything.
            let _ = done.call0(&JsValue::NULL);
        };
        set_timeout(over, time);
    });
    // It is never rejected.
    let _ = JsFuture::from(over).await;
}

/// Held as long as this tab alone may do something.
#[derive(Debug)]
pub(crate) struct Held(Rc<RefCell<Option<Function>>>);

impl Drop for Held {
    fn drop(&mut self) {
        if let Some(release) = self.0.borrow_mut().take() {
            // A promise's own function, which takes anything.
            let _ = release.call0(&JsValue::NULL);
        }
    }
}

/// Waits until this tab alone may do what the name says. `None` at once where
/// the browser cannot tell its tabs apart.
pub(crate) async fn alone(name: &str) -> Option<Held> {
    let release = Rc::new(RefCell::new(None));
    let held = Held(Rc::clone(&release));
    let locks = Reflect::get(&window().navigator(), &"locks".into());
    let locks = locks.unwrap_or(JsValue::UNDEFINED);
    let request = Reflect::get(&locks, &"request".into())
        .ok()
        .and_then(|request| request.dyn_into::<Function>().ok())?;
    let got = Promise::new(&mut |got, refused| {
        let release = Rc::clone(&release);
        let turn = Closure::once_into_js(move |_: JsValue| -> JsValue {
            let until = Promise::new(&mut |done, _| {
                release.borrow_mut().replace(done);
            });
            // A promise's own function, which takes anything.
            let _ = got.call0(&JsValue::NULL);
            until.into()
        });
        let asked = request.call2(&locks, &name.into(), &turn);
        let asked = asked.and_then(JsValue::dyn_into::<Promise>);
        spawn_local(async move {
            let refusal = match asked {
                Ok(asked) => JsFuture::from(asked).await.err(),
                Err(why) => Some(why),
            };
            if let Some(why) = refusal {
                let _ = refused.call1(&JsValue::NULL, &why);
            }
        });
    });
    JsFuture::from(got).await.ok()?;
    Some(held)
}
