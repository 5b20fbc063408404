//! Going through many documents, with time for the page in between.

use leptos::prelude::*;
use leptos::task::spawn_local;

use super::Syncing;
use crate::sync::ledger::names;
use crate::sync::talk::Talk;
use crate::turns::Turn;

impl Syncing {
    /// Notes everything there is, and then connects.
    pub(super) fn catch_up(self) {
        let names = self.store.with_shelf(names);
        spawn_local(async move {
            let leads = move || self.leads.get_value();
            let mut turn = Turn::begin();
            for name in &names {
                self.with(|ledger, shelf| ledger.look_at(shelf, name));
                self.close();
                turn.or_next().await;
            }
            if !self.note_these(names, leads).await {
                return self.show_status();
            }
            if self.store.member_now().is_none() {
                self.erase();
            }
            self.connect();
            self.exchange_photos();
        });
    }

    /// Compares all documents with the server's, which may lack anything of
    /// them where that is `doubtful`.
    pub(super) fn compare_all(self, doubtful: bool) {
        let names = self.store.with_shelf(names);
        let link = self.links.get_value();
        spawn_local(async move {
            let mut turn = Turn::begin();
            for name in names {
                // Another connection compares them again.
                if !self.open.get_value() || self.links.get_value() != link {
                    return;
                }
                let doubted =
                    !doubtful || self.with(|ledger, shelf| ledger.doubt(shelf, &name).is_ok());
                if doubted {
                    self.compare(&name);
                } else {
                    self.store.say_full();
                }
                self.close();
                turn.or_next().await;
            }
            self.talk.update_value(Talk::compared);
            self.exchange_photos();
            self.show_status();
        });
    }

    /// Closes documents that need not be open.
    pub(super) fn close(self) {
        let open = self.open.get_value();
        self.ledger.update_value(|ledger| {
            self.talk
                .with_value(|talk| ledger.close(|name| open && talk.is_under_way(name)));
        });
    }
}
