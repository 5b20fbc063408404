//! How much room what is kept takes.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::Store;
use crate::turns::Turn;

/// How much a browser keeps for one site, in UTF-16 units: five megabytes, as
/// the WHATWG's Web Storage standard suggests and browsers do.
const ROOM: u64 = 5 * 1024 * 1024;

impl Store {
    /// How much of this browser's room is taken, in hundredths, once that is measured:
    /// whenever recipes change, in turns, since there may be thousands.
    pub(crate) fn room_taken(self) -> RwSignal<Option<u64>> {
        let taken = RwSignal::new(None);
        let calm = self.calm();
        let present = StoredValue::new(0);
        Effect::new(move || {
            let number = calm.get();
            present.set_value(number);
            spawn_local(async move {
                let keys = self.with_shelf(|shelf| shelf.port().keys());
                let mut turn = Turn::begin();
                let mut units = 0;
                for key in keys {
                    units += self.with_shelf(|shelf| shelf.port().taken_by(&key));
                    turn.or_next().await;
                    // Something has changed, or the page is gone.
                    if present.try_get_value() != Some(number) {
                        return;
                    }
                }
                taken.try_set(Some((units * 100 / ROOM).min(100)));
            });
        });
        taken
    }
}
