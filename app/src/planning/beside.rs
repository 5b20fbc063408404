//! Looking for plans beside the page, in a worker; in turns on the page where the
//! browser has none, or it does not start.

use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

use leptos::task::spawn_local;

use super::search::{Answer, Order, search};
use super::{Asked, Goal, Seen};
use crate::beside::{Work, Worker};
use crate::turns::{give_way, pause};

/// So long may a worker take to show that it works. Our own bound: the page has the same
/// code already when it asks.
const PATIENCE: Duration = Duration::from_secs(5);

thread_local! {
    static DESK: RefCell<Desk> = RefCell::default();
}

/// The worker of this page, and what is looked for.
#[derive(Default)]
struct Desk {
    worker: Option<Worker>,
    /// Whether it has said that it is there.
    is_here: bool,
    /// Whether it is not to be had.
    is_gone: bool,
    last: u32,
    open: Option<Open>,
}

/// What is looked for.
struct Open {
    order: Rc<Order>,
    told: Rc<dyn Fn(Seen)>,
    is_answered: bool,
}

/// A search for plans, until it has ended or is given up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Looking(u32);

impl Looking {
    /// Looks no longer.
    pub(crate) fn give_up(self) {
        let worker = DESK.with_borrow_mut(|desk| {
            desk.open.take_if(|open| open.order.number == self.0)?;
            desk.worker.clone().filter(|_| desk.is_here)
        });
        if let Some(worker) = worker {
            worker.post(&"".into());
        }
    }
}

/// Looks for plans and tells each that is better, instead of whatever was looked for
/// before.
pub(crate) fn look(asked: &Asked, goal: Goal, told: impl Fn(Seen) + 'static) -> Looking {
    let number = DESK.with_borrow_mut(|desk| {
        desk.last = desk.last.wrapping_add(1);
        desk.open = Some(Open {
            order: Rc::new(Order {
                number: desk.last,
                asked: asked.clone(),
                goal,
            }),
            told: Rc::new(told),
            is_answered: false,
        });
        desk.last
    });
    begin();
    spawn_local(async move {
        pause(PATIENCE).await;
        let waits = DESK.with_borrow(|desk| {
            let mut open = desk.open.iter();
            !desk.is_gone && open.any(|open| open.order.number == number && !open.is_answered)
        });
        if waits {
            do_without();
        }
    });
    Looking(number)
}

/// Gives what is looked for to whoever looks.
fn begin() {
    if DESK.with_borrow(|desk| desk.worker.is_none() && !desk.is_gone) {
        let worker = Worker::start(Work::Cuts, |text| hear(&text), do_without);
        DESK.with_borrow_mut(|desk| {
            desk.is_gone = worker.is_none();
            desk.worker = worker;
        });
    }
    let (order, worker, is_here) = DESK.with_borrow(|desk| {
        let order = desk.open.as_ref().map(|open| Rc::clone(&open.order));
        (order, desk.worker.clone(), desk.is_here)
    });
    let Some(order) = order else { return };
    match worker {
        Some(worker) if is_here => {
            if let Ok(text) = serde_json::to_string(&*order) {
                worker.post(&text.into());
            }
        }
        // It is given its work once it is there.
        Some(_) => {}
        None => spawn_local(async move {
            // What shows the change comes first.
            give_way().await;
            let wanted = || is_open(order.number);
            let told = |seen| tell(order.number, seen);
            search(&order.asked, &order.goal, wanted, told).await;
        }),
    }
}

fn is_open(number: u32) -> bool {
    DESK.with_borrow(|desk| {
        let mut open = desk.open.iter();
        open.any(|open| open.order.number == number)
    })
}

/// Tells what was found where it is still wanted.
fn tell(number: u32, seen: Seen) {
    let told = DESK.with_borrow_mut(|desk| {
        let open = desk.open.as_mut();
        let open = open.filter(|open| open.order.number == number)?;
        open.is_answered = true;
        let told = Rc::clone(&open.told);
        if seen.is_last {
            desk.open = None;
        }
        Some(told)
    });
    if let Some(told) = told {
        told(seen);
    }
}

fn hear(text: &str) {
    if text.is_empty() {
        DESK.with_borrow_mut(|desk| desk.is_here = true);
        begin();
    } else if let Ok(Answer { number, seen }) = serde_json::from_str(text) {
        tell(number, seen);
    }
}

/// Goes on without the worker, on the page.
fn do_without() {
    let worker = DESK.with_borrow_mut(|desk| {
        desk.is_gone = true;
        desk.is_here = false;
        desk.worker.take()
    });
    if let Some(worker) = worker {
        worker.end();
    }
    begin();
}
