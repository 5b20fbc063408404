//! What the app keeps in the browser: recipes, settings, progress at the
//! bench. Every change is kept at once, and no tab overwrites another.

mod browser;
mod elsewhere;
mod guest;
mod joined;
mod lasting;
mod links;
mod list;
mod open;
mod port;
mod progress;
mod record;
mod rescued;
mod salvage;
mod scraps;
mod settings;
mod shelf;
pub(crate) mod versioned;
mod watched;

#[cfg(test)]
mod tests;

use foldwright_engine::plane::Size;
use foldwright_engine::recipe::{self, Recipe};
use leptos::ev;
use leptos::prelude::*;
use web_sys::StorageEvent;
use web_sys::js_sys::{Date, Number};

pub(crate) use guest::{Guest, recipe_address, version_id};
pub use joined::Joined;
pub(crate) use joined::joined_key;
pub(crate) use lasting::{ask_to_keep, keeps};
pub use open::Open;
pub use port::{Memory, Port, Refused};
pub use progress::Progress;
pub(crate) use progress::progress_key;
pub(crate) use record::file_in;
pub use record::{Record, Stamp, Unreadable};
pub use rescued::Rescued;
pub(crate) use rescued::rescued_key;
pub use salvage::{Salvaged, salvage};
pub use scraps::MOST_SCRAPS;
pub use settings::Settings;
pub use shelf::{Apart, Arrived, Aside, Held, NotLoaded, Saved, Shelf};
pub(crate) use shelf::{recipe_id, recipe_key};

use crate::notice::{Notice, Notices};
use crate::part::download;
use crate::random;
use crate::sync::{CutOff, Member, cut_off, member};
use elsewhere::Elsewhere;
use watched::{Touched, Watched};

/// How much a browser keeps for one site, in UTF-16 units: five megabytes, as
/// the WHATWG's Web Storage standard suggests and browsers do.
const ROOM: u64 = 5 * 1024 * 1024;

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
            port,
            touched: touched.clone(),
        });
        let settings = port
            .read(settings::KEY)
            .and_then(|text| Settings::parse(&text));
        let member = port.read(member::KEY);
        let member = member.as_deref().and_then(Member::parse);
        let cut_off = port.read(cut_off::KEY);
        let store = Self {
            elsewhere: Elsewhere::new(member, cut_off.as_deref().and_then(CutOff::parse)),
            touched: StoredValue::new(touched),
            shelf: StoredValue::new(Shelf::new(port, random::short())),
            settings: RwSignal::new(settings.unwrap_or_else(usual)),
            recipes: RwSignal::new(0),
            unsaved: RwSignal::new(false),
            notices,
            lasts,
        };
        if settings.is_none() {
            store.set_aside(settings::KEY);
        }
        store.begin_to_remind();
        let _ = window_event_listener(ev::storage, move |event: StorageEvent| {
            store.heard(event.key().as_deref());
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
        let key = progress_key(id);
        let text = self.shelf.with_value(|shelf| shelf.port().read(&key));
        let progress = text.as_deref().and_then(Progress::parse);
        if text.is_some() && progress.is_none() {
            self.set_aside(&key);
        }
        progress.unwrap_or_default()
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

    /// Says what came together and nobody has looked at yet.
    pub(crate) fn say_joined(self, id: &str) {
        let (Some(joined), Some(recipe)) = (self.joined(id), self.read(id)) else {
            return;
        };
        let decided = match &joined.decided[..] {
            [] => String::new(),
            decided => format!(" {}.", decided.join("; ")),
        };
        let became = joined.became.join(" ");
        let text = format!(
            "“{}” was changed in several places at once.{decided} {became} Look it over before \
             you cut; “Earlier versions” keeps what it was.",
            recipe.name
        );
        let id = id.to_owned();
        let seen = move || self.look_at_joined(&id);
        self.notices
            .show(Notice::warning(JOINED, text).with("I have looked", seen));
    }

    /// The scraps that are kept, the last one first.
    pub fn scraps(self) -> Vec<Size> {
        let text = self
            .shelf
            .with_value(|shelf| shelf.port().read(scraps::KEY));
        let scraps = text.as_deref().and_then(scraps::parse);
        if text.is_some() && scraps.is_none() {
            self.set_aside(scraps::KEY);
        }
        scraps.unwrap_or_default()
    }

    /// Keeps these scraps.
    pub fn set_scraps(self, scraps: &[Size]) {
        self.keep(scraps::KEY, &scraps::text(scraps));
    }

    /// The list of measures typed last.
    pub fn list(self) -> String {
        let text = self.shelf.with_value(|shelf| shelf.port().read(list::KEY));
        let typed = text.as_deref().and_then(list::parse);
        if text.is_some() && typed.is_none() {
            self.set_aside(list::KEY);
        }
        typed.unwrap_or_default()
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

    /// All kept recipes, the one changed last first. Tracks.
    pub fn recipes(self) -> Vec<(String, Record)> {
        self.recipes.track();
        let mut recipes: Vec<_> = self
            .shelf
            .with_value(Shelf::ids)
            .into_iter()
            .filter_map(|id| {
                let record = self.load(&id).ok()?;
                Some((id, record))
            })
            .collect();
        recipes.sort_by(|(_, one), (_, other)| {
            let last = other.stamp.at.cmp(&one.stamp.at);
            last.then_with(|| one.recipe.name.cmp(&other.recipe.name))
        });
        recipes
    }

    /// Tracks the kept recipes.
    pub fn track_recipes(self) {
        self.recipes.track();
    }

    /// Whether any recipe is kept. Tracks.
    pub fn has_recipes(self) -> bool {
        self.recipes.track();
        self.shelf.with_value(|shelf| !shelf.ids().is_empty())
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

    /// Keeps new recipes, all or none of them. Refused with how many there is
    /// room for.
    pub fn put_all(self, recipes: &[Recipe]) -> Result<(), usize> {
        let put = self
            .shelf
            .with_value(|shelf| shelf.put_all(recipes, fresh_id, now()));
        if put.is_ok() {
            self.changed();
        }
        put
    }

    /// How much of this browser's room is taken, in hundredths. Tracks the
    /// recipes.
    pub fn room_taken(self) -> u64 {
        self.recipes.track();
        self.shelf.with_value(Shelf::taken) * 100 / ROOM
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
            .show(Notice::plain(format!("“{name}” is deleted.")).with("Undo", undo));
    }

    /// Everything that was moved aside because it can't be understood. Tracks.
    pub fn asides(self) -> Vec<Aside> {
        self.recipes.track();
        self.shelf.with_value(Shelf::asides)
    }

    /// Puts what can be read of a recipe that was moved aside back where it
    /// was, and says what could not. What was moved aside stays there.
    pub fn recover(self, aside: &Aside) -> Option<String> {
        let key = aside.name();
        let [salvaged] = <[Salvaged; 1]>::try_from(salvage(&aside.text)).ok()?;
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
            .show(Notice::plain("What was set aside is deleted.").with("Undo", undo));
    }

    fn load(self, id: &str) -> Result<Record, NotLoaded> {
        let loaded = self.shelf.with_value(|shelf| shelf.load(id));
        if let Err(why) = &loaded {
            self.report(why);
        }
        loaded
    }

    /// Moves what is under a key aside, if anything is, and says so.
    fn set_aside(self, key: &str) {
        let aside = self.shelf.with_value(|shelf| {
            let text = shelf.port().read(key)?;
            Some(shelf.move_aside(key, text).ok())
        });
        if let Some(aside) = aside {
            self.report(&NotLoaded::Broken(aside));
        }
    }

    fn report(self, why: &NotLoaded) {
        let notice = match why {
            NotLoaded::Missing => return,
            NotLoaded::Newer => Notice::warning(
                BROKEN,
                "A recipe was saved by a newer Foldwright and stays untouched. Close all \
                 Foldwright tabs and open it again to get the newer one.",
            ),
            NotLoaded::Broken(None) => Notice::warning(
                BROKEN,
                "Something kept in this browser can't be read. It stays where it is, since \
                 there is no room to move it aside.",
            ),
            NotLoaded::Broken(Some(aside)) => {
                let notice = Notice::warning(
                    BROKEN,
                    "Something kept in this browser can't be read whole. It is set aside, not \
                     deleted; the settings list it.",
                );
                let aside = aside.clone();
                if salvage(&aside.text).is_empty() {
                    notice.with("Download it", move || aside.download())
                } else {
                    notice.with("Open what can be read", move || {
                        self.recover(&aside);
                    })
                }
            }
        };
        self.notices.show(notice);
    }

    fn keep(self, key: &str, text: &str) {
        let kept = self.shelf.with_value(|shelf| shelf.port().write(key, text));
        self.told(kept, Vec::new);
        self.elsewhere.stir();
    }

    /// Says that there was no room for what came from elsewhere.
    pub(crate) fn say_full(self) {
        self.told::<()>(Err(Refused::Full), Vec::new);
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
                    Refused::Full => Notice::warning(
                        FULL,
                        "This browser's storage is full, so the last change is only on this \
                         page. Download it, then delete recipes you no longer need.",
                    ),
                    Refused::Unreadable => Notice::warning(FULL, unreadable(&recipes)),
                };
                self.notices.show(if recipes.is_empty() {
                    notice
                } else {
                    notice.with("Download", move || save_file(&recipes))
                });
                None
            }
        }
    }

    fn changed(self) {
        self.recipes.update(|count| *count = count.wrapping_add(1));
        self.elsewhere.stir();
    }

    /// Another tab has kept something; without a key it has cleared all.
    fn heard(self, key: Option<&str>) {
        let read = |key| self.shelf.with_value(|shelf| shelf.port().read(key));
        if key.is_none_or(|key| key == settings::KEY)
            && let Some(settings) = read(settings::KEY).and_then(|text| Settings::parse(&text))
        {
            self.settings.set(settings);
        }
        if key.is_none_or(|key| shelf::recipe_id(key).is_some()) {
            self.changed();
        }
        if key.is_some_and(|key| key.starts_with(&progress_key(""))) {
            self.bench_came();
        }
    }
}

/// What is said of a recipe that was opened as far as it could be read.
pub(crate) fn opened(salvaged: &Salvaged) -> String {
    let name = &salvaged.recipe.name;
    match &salvaged.lost[..] {
        [] => format!("“{name}” is back, whole."),
        lost => format!("“{name}” is back but for this: {}", lost.join(" ")),
    }
}

/// What is said of recipes that would not open again.
fn unreadable(recipes: &[Recipe]) -> String {
    let faults = recipes.iter().flat_map(Recipe::check_kept);
    let faults: Vec<_> = faults.map(|fault| fault.to_string()).collect();
    format!(
        "The last change is only on this page, since the recipe would not open again with it. {}",
        faults.join(" ")
    )
}

/// Offers recipes as a file.
pub(crate) fn save_file(recipes: &[Recipe]) {
    let name = match recipes {
        [only] => file_name(&only.name),
        _ => String::from("recipes.foldwright.json"),
    };
    download(&name, &recipe::write(recipes));
}

/// A file name that every system takes.
fn file_name(recipe: &str) -> String {
    let plain: String = recipe
        .to_lowercase()
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { ' ' })
        .collect();
    let words: Vec<_> = plain.split_whitespace().take(8).collect();
    let name = if words.is_empty() {
        String::from("recipe")
    } else {
        words.join("-")
    };
    format!("{name}.foldwright.json")
}

fn usual() -> Settings {
    let language = window().navigator().language().unwrap_or_default();
    let written = Number::from(1.5).to_locale_string(&language);
    Settings::for_locale(&language, &String::from(written))
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
