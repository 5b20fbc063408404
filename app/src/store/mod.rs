//! What the app keeps in the browser: recipes, settings, progress at the
//! bench. Every change is kept at once, and no tab overwrites another.

mod aids;
mod browser;
mod clocks;
mod elsewhere;
mod guest;
mod import;
mod importing;
mod joined;
mod lasting;
mod links;
mod list;
mod listing;
mod open;
mod pace;
mod packing;
mod port;
mod progress;
mod record;
mod rescued;
mod room;
mod salvage;
mod scraps;
mod settings;
mod shelf;
pub(crate) mod versioned;
mod watched;

#[cfg(test)]
mod tests;

use std::iter;

use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{self, Recipe};
use foldwright_words::{Language, fault};
use leptos::ev;
use leptos::prelude::*;
use leptos::task::spawn_local;
use web_sys::StorageEvent;
use web_sys::js_sys::{Date, Number};

pub use aids::{Aids, Screen};
pub(crate) use clocks::{Clock, Look};
pub(crate) use guest::{Guest, is_version, recipe_address, token_of, version_id};
#[cfg(test)]
pub(crate) use import::{BESIDE, JOURNAL, Leftover};
pub(crate) use import::{Import, Whole};
pub use joined::Joined;
pub(crate) use joined::joined_key;
pub(crate) use lasting::{ask_to_keep, keeps};
pub(crate) use listing::Listed;
pub use open::Open;
pub(crate) use pace::Pace;
#[cfg(test)]
pub(crate) use packing::last_known;
pub(crate) use packing::{pack, unpack};
pub use port::{Memory, Port, Refused};
pub use progress::Progress;
pub(crate) use progress::{FINISH, progress_key, step_text};
pub use record::{Record, Stamp, Unreadable};
pub(crate) use record::{file_in, mentions, packed};
pub use rescued::Rescued;
pub(crate) use rescued::rescued_key;
pub(crate) use salvage::salvaged;
pub use salvage::{Salvaged, salvage};
pub use scraps::MOST_SCRAPS;
pub use settings::Settings;
pub use shelf::{Apart, Arrived, Aside, Held, NotLoaded, Saved, Shelf};
pub(crate) use shelf::{deleted_id, recipe_id, recipe_key};

use crate::notice::{Notice, Notices};
use crate::part::download;
use crate::random;
use crate::spoken::{asked_for, first, language, speak};
use crate::sync::{CutOff, Member, cut_off, member};
use elsewhere::Elsewhere;
use watched::{Touched, Watched};

/// The one warning about storage that takes nothing more.
const FULL: &str = "full";
/// The one warning about what came together and is to be looked at.
const JOINED: &str = "joined";
/// The one warning about kept texts that can't be understood.
const BROKEN: &str = "broken";

/// What the browser keeps; found by [`use_context`] everywhere in the app.
#[derive(Clone, Copy)]
pub struct Store {
    shelf: StoredValue<Shelf>,
    settings: RwSignal<Settings>,
    /// Counts changes of the kept recipes, in this tab or another.
    recipes: RwSignal<u32>,
    unsaved: RwSignal<bool>,
    notices: Notices,
    lasts: bool,
    elsewhere: Elsewhere,
    touched: StoredValue<Touched>,
}

impl Store {
    /// Opens what this browser keeps and starts to listen to other tabs.
    pub(crate) fn new(notices: Notices) -> Self {
        let (port, lasts) = browser::port();
        let touched = Touched::default();
        let port = Box::new(Watched {
            port: Box::new(Whole { port }),
            touched: touched.clone(),
        });
        let settings = port
            .read(settings::KEY)
            .and_then(|text| Settings::parse(&text));
        let language = settings.and_then(|settings| settings.language);
        let language = language.unwrap_or_else(asked_for);
        speak(language);
        let member = port.read(member::KEY);
        let member = member.as_deref().and_then(Member::parse);
        let cut_off = port.read(cut_off::KEY);
        let store = Self {
            elsewhere: Elsewhere::new(member, cut_off.as_deref().and_then(CutOff::parse)),
            touched: StoredValue::new(touched),
            shelf: StoredValue::new(Shelf::new(port, random::short())),
            settings: RwSignal::new(settings.unwrap_or_else(|| usual(language))),
            recipes: RwSignal::new(0),
            unsaved: RwSignal::new(false),
            notices,
            lasts,
        };
        if settings.is_none() {
            store.set_aside(settings::KEY);
        }
        store.begin_to_remind();
        store.clear_leftover();
        let _ = window_event_listener(ev::storage, move |event: StorageEvent| {
            store.heard(event.key().as_deref());
            store.heard_of_import(&event);
        });
        let _ = window_event_listener(ev::beforeunload, move |event| {
            if store.unsaved.get_untracked() {
                event.prevent_default();
            }
        });
        store
    }

    /// Whether what is kept outlasts the page: a browser may forbid storage.
    pub fn lasts(self) -> bool {
        self.lasts
    }

    /// The maker's settings. Tracks.
    pub fn settings(self) -> Settings {
        self.settings.get()
    }

    /// Changes the settings and keeps them.
    pub fn set_settings(self, change: impl FnOnce(&mut Settings)) {
        self.settings.update(change);
        let settings = self.settings.get_untracked();
        self.keep(settings::KEY, &settings.text());
    }

    /// How far the making of a recipe has come.
    pub fn progress(self, id: &str) -> Progress {
        self.small(&progress_key(id), Progress::parse)
    }

    /// Changes the progress of a recipe, on top of what another tab may have
    /// kept by now.
    pub fn set_progress(self, id: &str, change: impl FnOnce(&mut Progress)) {
        let mut progress = self.progress(id);
        change(&mut progress);
        self.keep(&progress_key(id), &progress.text());
    }

    /// The rescues of a recipe that can be taken back, the last one last.
    pub fn rescues(self, id: &str) -> Vec<Rescued> {
        let key = rescued_key(id);
        let text = self.shelf.with_value(|shelf| shelf.port().read(&key));
        text.as_deref().map(rescued::parse).unwrap_or_default()
    }

    /// Keeps the rescues of a recipe that can be taken back.
    pub fn set_rescues(self, id: &str, rescues: &[Rescued]) {
        let key = rescued_key(id);
        if rescues.is_empty() {
            self.shelf.with_value(|shelf| shelf.port().remove(&key));
        } else {
            self.keep(&key, &rescued::text(rescues));
        }
    }

    /// What came together of changes that did not go together and nobody has
    /// looked at yet.
    pub(crate) fn joined(self, id: &str) -> Option<Joined> {
        let key = joined_key(id);
        let text = self.shelf.with_value(|shelf| shelf.port().read(&key));
        let joined = text.as_deref().and_then(Joined::parse);
        joined.filter(|joined| !joined.looked)
    }

    /// Somebody has looked at it.
    pub(crate) fn look_at_joined(self, id: &str) {
        if let Some(joined) = self.joined(id) {
            self.keep(&joined_key(id), &joined.looked_at().text());
            self.notices.settle(JOINED);
            self.bench_came();
        }
    }

    /// Takes away the notice of what came together, where the page itself tells it.
    pub(crate) fn leave_joined_to_page(self) {
        self.notices.settle(JOINED);
    }

    /// Says what came together and nobody has looked at yet.
    pub(crate) fn say_joined(self, id: &str) {
        let (Some(joined), Some(recipe)) = (self.joined(id), self.read(id)) else {
            return;
        };
        let first = first();
        let decided = joined.decided.join("; ");
        let decided = (!decided.is_empty()).then(|| format!("{decided}."));
        let text: Vec<_> = iter::once(first.changed_in_places(&recipe.name))
            .chain(decided)
            .chain(joined.outcome())
            .chain(iter::once(first.look_it_over.to_owned()))
            .collect();
        let text = text.join(" ");
        let id = id.to_owned();
        let seen = move || self.look_at_joined(&id);
        let notice = Notice::warning(JOINED, text)
            .with_followed(joined.followed.into_values().collect())
            .with(first.i_have_looked, seen);
        self.notices.show(notice);
    }

    /// The scraps that are kept, the last one first.
    pub fn scraps(self) -> Vec<Size> {
        self.small(scraps::KEY, scraps::parse)
    }

    /// Keeps these scraps.
    pub fn set_scraps(self, scraps: &[Size]) {
        self.keep(scraps::KEY, &scraps::text(scraps));
    }

    /// How the bench of this device is set up.
    pub fn aids(self) -> Aids {
        self.small(aids::KEY, aids::parse)
    }

    /// Keeps how the bench of this device is set up.
    pub fn set_aids(self, aids: &Aids) {
        self.keep(aids::KEY, &aids::text(aids));
    }

    /// How long the maker took at the bench of this device.
    pub(crate) fn pace(self) -> Pace {
        self.small(pace::KEY, pace::parse)
    }

    /// Keeps how long the maker took.
    pub(crate) fn set_pace(self, pace: &Pace) {
        self.keep(pace::KEY, &pace::text(pace));
    }

    /// The clocks that run at the bench of this device.
    pub(crate) fn clocks(self) -> Vec<Clock> {
        self.small(clocks::KEY, clocks::parse)
    }

    /// Keeps these clocks.
    pub(crate) fn set_clocks(self, clocks: &[Clock]) {
        self.keep(clocks::KEY, &clocks::text(clocks));
    }

    /// Whether a change that another tab has kept is of clocks.
    pub(crate) fn is_of_clocks(event: &StorageEvent) -> bool {
        event.key().is_none_or(|key| key == clocks::KEY)
    }

    /// A small thing that is kept; what can't be read is set aside.
    fn small<T: Default>(self, key: &str, parse: fn(&str) -> Option<T>) -> T {
        let text = self.shelf.with_value(|shelf| shelf.port().read(key));
        let kept = text.as_deref().and_then(parse);
        if text.is_some() && kept.is_none() {
            self.set_aside(key);
        }
        kept.unwrap_or_default()
    }

    /// The list of measures typed last.
    pub fn list(self) -> String {
        self.small(list::KEY, list::parse)
    }

    /// Keeps the list of measures being typed.
    pub fn set_list(self, typed: &str) {
        self.keep(list::KEY, &list::text(typed));
    }

    /// The names of all kept recipes.
    pub fn ids(self) -> Vec<String> {
        self.shelf.with_value(Shelf::ids)
    }

    /// A kept recipe; `None` where it can't be read, which has then been said.
    pub fn read(self, id: &str) -> Option<Recipe> {
        Some(self.load(id).ok()?.recipe)
    }

    /// Tracks the kept recipes.
    pub fn track_recipes(self) {
        self.recipes.track();
    }

    /// Whether any recipe is kept, be it one that can't be read. Tracks.
    pub fn has_recipes(self) -> bool {
        self.recipes.track();
        self.shelf.with_value(Shelf::has_recipes)
    }

    /// Keeps a new recipe and returns its name in the store. `None` when there
    /// was no room, which has then been said.
    pub fn put(self, recipe: &Recipe) -> Option<String> {
        let id = fresh_id();
        let added = self.shelf.with_value(|shelf| shelf.put(&id, recipe, now()));
        self.told(added, || vec![recipe.clone()])?;
        self.changed();
        Some(id)
    }

    /// Changes a recipe that need not be open in this tab.
    pub fn change(self, id: &str, change: impl FnOnce(&mut Recipe)) {
        let Ok(mut held) = self.shelf.with_value(|shelf| shelf.open(id)) else {
            return;
        };
        let mut recipe = held.saved().clone();
        change(&mut recipe);
        let saved = self
            .shelf
            .with_value(|shelf| shelf.save(&mut held, &recipe, fresh_id, now()));
        if self.told(saved, || vec![recipe]).is_some() {
            self.changed();
        }
    }

    /// Deletes a recipe; the notice offers to take that back.
    pub fn delete(self, id: &str) {
        let name = self.load(id).map(|record| record.recipe.name);
        let Some(text) = self.shelf.with_value(|shelf| shelf.delete(id)) else {
            return;
        };
        self.changed();
        let id = id.to_owned();
        let name = name.unwrap_or_default();
        let undo = move || {
            let back = self.shelf.with_value(|shelf| shelf.put_back(&id, &text));
            let recipes = || {
                let record = Record::parse(&text);
                record.map(|record| vec![record.recipe]).unwrap_or_default()
            };
            if self.told(back, recipes).is_some() {
                self.changed();
            }
        };
        self.notices
            .show(Notice::plain(first().deleted(&name)).with(first().undo, undo));
    }

    /// Everything that was moved aside because it can't be understood. Tracks.
    pub fn asides(self) -> Vec<Aside> {
        self.recipes.track();
        self.shelf.with_value(Shelf::asides)
    }

    /// Puts what can be read of a recipe that was moved aside back where it
    /// was, and says what could not. What was moved aside stays there.
    pub async fn recover(self, aside: &Aside) -> Option<String> {
        let key = aside.name();
        let [salvaged] = <[Salvaged; 1]>::try_from(salvaged(&aside.text).await).ok()?;
        let put = self.shelf.with_value(|shelf| {
            let free = shelf.port().read(key).is_none();
            let id = recipe_id(key).filter(|_| free);
            let id = id.map_or_else(fresh_id, str::to_owned);
            shelf.put(&id, &salvaged.recipe, now()).map(|()| id)
        });
        let id = self.told(put, || vec![salvaged.recipe.clone()])?;
        self.notices.settle(BROKEN);
        self.changed();
        self.notices
            .show(Notice::warning("salvaged", opened(&salvaged)));
        Some(id)
    }

    /// Deletes what was moved aside; the notice offers to take that back.
    pub fn forget_aside(self, aside: Aside) {
        let port = |run: &dyn Fn(&dyn Port)| self.shelf.with_value(|shelf| run(shelf.port()));
        port(&|port| port.remove(&aside.key));
        self.changed();
        let undo = move || {
            let back = self
                .shelf
                .with_value(|shelf| shelf.port().write(&aside.key, &aside.text));
            self.told(back, Vec::new);
            self.changed();
        };
        self.notices
            .show(Notice::plain(first().aside_deleted).with(first().undo, undo));
    }

    fn load(self, id: &str) -> Result<Record, NotLoaded> {
        let key = recipe_key(id);
        let has = || self.shelf.with_value(|shelf| shelf.port().has(&key));
        let had = has();
        let loaded = self.shelf.with_value(|shelf| shelf.load(id));
        if let Err(why) = &loaded {
            self.report(why);
            if had && !has() {
                // It was set aside, which the lists are to show.
                self.changed();
            }
        }
        loaded
    }

    /// Moves what is under a key aside, if anything is, and says so. For what is
    /// no recipe: nothing of it can be opened, and the app's first part, which
    /// reads the settings, is to do without what opens recipes.
    fn set_aside(self, key: &str) {
        let aside = self.shelf.with_value(|shelf| {
            let text = shelf.port().read(key)?;
            Some(shelf.move_aside(key, text).ok())
        });
        if let Some(aside) = aside {
            self.notices.show(match aside {
                Some(aside) => is_aside().with(first().download_it, move || aside.download()),
                None => is_in_the_way(),
            });
        }
    }

    fn report(self, why: &NotLoaded) {
        let notice = match why {
            NotLoaded::Missing => return,
            NotLoaded::Newer => Notice::warning(BROKEN, first().newer_recipe),
            NotLoaded::Broken(None) => is_in_the_way(),
            NotLoaded::Broken(Some(aside)) => {
                let aside = aside.clone();
                spawn_local(async move { self.report_aside(aside).await });
                return;
            }
        };
        self.notices.show(notice);
    }

    /// Says that something was moved aside, and offers what can be had of it.
    async fn report_aside(self, aside: Aside) {
        let can_be_read = !salvaged(&aside.text).await.is_empty();
        self.notices.show(if can_be_read {
            is_aside().with(first().open_what_can_be_read, move || {
                let aside = aside.clone();
                spawn_local(async move {
                    self.recover(&aside).await;
                });
            })
        } else {
            is_aside().with(first().download_it, move || aside.download())
        });
    }

    fn keep(self, key: &str, text: &str) {
        let kept = self.shelf.with_value(|shelf| shelf.port().write(key, text));
        match kept {
            Ok(()) => self.notices.settle(FULL),
            // A text that is no recipe's is refused only where there is no room.
            Err(_) => self.say_full(),
        }
        self.elsewhere.stir();
    }

    /// Says that there is no room for what is no recipe of this tab. The app's
    /// first part says so too, and does without what checks recipes.
    pub(crate) fn say_full(self) {
        self.notices
            .show(Notice::warning(FULL, first().storage_full));
    }

    /// The language everything in this browser is said in. Tracks.
    pub(crate) fn language(self) -> Language {
        let chosen = self.settings.with(|settings| settings.language);
        chosen.unwrap_or_else(asked_for)
    }

    /// Chooses a language, or leaves that to the browser.
    pub(crate) fn set_language(self, chosen: Option<Language>) {
        let before = untrack(|| self.language());
        let now = chosen.unwrap_or_else(asked_for);
        self.set_settings(|settings| settings.choose_language(chosen, usual(before), usual(now)));
    }

    /// Says when something was not kept, and offers what would be lost as a
    /// file.
    fn told<T>(self, kept: Result<T, Refused>, at_risk: impl FnOnce() -> Vec<Recipe>) -> Option<T> {
        match kept {
            Ok(kept) => {
                self.notices.settle(FULL);
                Some(kept)
            }
            Err(why) => {
                let recipes = at_risk();
                let notice = match why {
                    Refused::Full => Notice::warning(FULL, first().storage_full),
                    Refused::Unreadable => Notice::warning(FULL, unreadable(&recipes)),
                };
                self.notices.show(if recipes.is_empty() {
                    notice
                } else {
                    notice.with(first().download, move || save_file(&recipes))
                });
                None
            }
        }
    }

    fn changed(self) {
        self.recipes.update(|count| *count = count.wrapping_add(1));
        self.elsewhere.stir();
    }
}

/// What is said of recipes that would not open again.
fn unreadable(recipes: &[Recipe]) -> String {
    let faults = recipes.iter().flat_map(|recipe| {
        let faults = recipe.check_kept().into_iter();
        faults.map(|it| fault(language(), recipe, &it))
    });
    let faults: Vec<_> = faults.collect();
    first().not_opening_again(&faults.join(" "))
}

/// What is said of something kept that can't be read and was set aside.
fn is_aside() -> Notice {
    Notice::warning(BROKEN, first().broken_and_aside)
}

/// What is said where there was no room to set it aside.
fn is_in_the_way() -> Notice {
    Notice::warning(BROKEN, first().broken_and_no_room)
}

/// What is said of a recipe that was opened as far as it could be read.
pub(crate) fn opened(salvaged: &Salvaged) -> String {
    let name = &salvaged.recipe.name;
    match &salvaged.lost[..] {
        [] => first().back_whole(name),
        lost => first().back_but_for(name, &lost.join(" ")),
    }
}

/// What a file of several recipes is called.
pub(crate) const ALL_RECIPES: &str = "recipes.foldwright.json";

/// Offers recipes as a file.
pub(crate) fn save_file(recipes: &[Recipe]) {
    let name = match recipes {
        [only] => file_name(&only.name, "foldwright.json"),
        _ => String::from(ALL_RECIPES),
    };
    download(&name, &recipe::write(recipes));
}

/// A file name with an ending that every system takes.
pub(crate) fn file_name(recipe: &str, ending: &str) -> String {
    let plain: String = recipe
        .to_lowercase()
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { ' ' })
        .collect();
    let words: Vec<_> = plain.split_whitespace().take(8).collect();
    let name = if words.is_empty() {
        String::from(first().recipe_file)
    } else {
        words.join("-")
    };
    format!("{name}.{ending}")
}

/// What somebody who is spoken to in a language probably uses.
fn usual(language: Language) -> Settings {
    let asked = window().navigator().language().unwrap_or_default();
    // Of a browser in another language the country says little.
    let another = Language::of_tag(&asked).is_some_and(|it| it != language);
    let locale = if another {
        language.tag().to_owned()
    } else {
        asked
    };
    let written = Number::from(1.5).to_locale_string(&locale);
    Settings::for_locale(&locale, &String::from(written))
}

/// Milliseconds since 1970 by the clock of this device.
pub(crate) fn now() -> u64 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a date of today is a whole number far inside the range"
    )]
    let now = Date::now() as u64;
    now
}

/// An unused name for a recipe: letters and digits, since it stands in
/// addresses.
fn fresh_id() -> String {
    format!("{:08x}{:08x}", random::short(), random::short())
}
