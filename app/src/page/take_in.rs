//! Taking in recipes from a file.

use std::pin::Pin;
use std::sync::Arc;

use foldwright_engine::recipe::FileError;
use foldwright_words::file_error;
use leptos::task::spawn_local;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{ArrayBuffer, Promise, Uint8Array};
use web_sys::wasm_bindgen::JsCast as _;
use web_sys::{Blob, File};

use super::importing::{Importing, Stage};
use crate::fetched::Fetching;
use crate::import::print::Known;
use crate::import::split::{Kind, Parted, Splitter, Uncut};
use crate::import::taking::{Broken, RECIPES, Stopped, Taking, recipes_in};
use crate::notice::Notice;
use crate::spoken::{first, language, texts};
use crate::store::{Store, now};
use crate::sync::{EVERYTHING, Merged, Sound};
use crate::turns::{Turn, give_way};

/// How much of a file is read at a time, in bytes. Our own bound: about what a
/// slow phone cuts in a turn.
const SLICE: usize = 512 * 1024;

/// The files that can be taken in.
const KINDS: &[Kind] = &[RECIPES, EVERYTHING];

/// What came of a file; nothing to say where it was cancelled before anything
/// was done.
pub(crate) type TakenIn = Pin<Box<dyn Future<Output = Notice>>>;

/// The way to it.
pub(crate) type TakeIn = fn(Store, Fetching, Importing, File) -> TakenIn;

/// Takes in what a file holds, in turns, and says what came of it. Recipes that
/// are here already, to the last detail, are not added again; a file of
/// everything is merged with what is here.
pub(crate) fn take_in(
    store: Store,
    fetching: Fetching,
    importing: Importing,
    file: File,
) -> TakenIn {
    Box::pin(async move {
        let name = file.name();
        let coming = Coming {
            store,
            importing,
            name: name.clone(),
        };
        importing.begin(&name);
        let told = match coming.read(&file).await {
            Ok(file) if file.head.kind == EVERYTHING => coming.merge(fetching, file).await,
            Ok(file) => coming.take(file, Broken::Refuse).await,
            Err(not) => Err(not),
        };
        importing.end();
        told.unwrap_or_else(|not| coming.not_taken(not))
    })
}

/// A file on its way in.
#[derive(Clone)]
struct Coming {
    store: Store,
    importing: Importing,
    name: String,
}

/// Why nothing came of it.
enum Not {
    /// Somebody cancelled it.
    Cancelled,
    /// The browser does not give it out.
    Unread,
    /// It can't be cut into its parts.
    Uncut(Uncut),
    /// It can't be read.
    File(FileError),
    /// What is said.
    Said(String),
    /// One of its recipes can't be read, but something in it can.
    InPart(String, Arc<Parted>),
}

impl Coming {
    fn not_taken(&self, not: Not) -> Notice {
        let warn = |what: &str| Notice::warning("import", format!("{}: {what}", self.name));
        match not {
            Not::Cancelled => Notice::plain(texts().import.cancelled),
            Not::Unread => warn(texts().import.unread),
            Not::Uncut(why) => {
                let words = why.words(|why| file_error(language(), why));
                warn(&words)
            }
            Not::File(why) => warn(&file_error(language(), &why)),
            Not::Said(why) => warn(&why),
            Not::InPart(why, file) => {
                let coming = self.clone();
                warn(&why).with(texts().import.add_what_can_be_read, move || {
                    coming.clone().salvage(Arc::clone(&file));
                })
            }
        }
    }

    /// Reads the file and cuts it into its parts.
    async fn read(&self, file: &File) -> Result<Parted, Not> {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "the size of a file that is not too large is a small whole number"
        )]
        let size = file.size() as usize;
        let mut splitter = Splitter::new(KINDS);
        let mut turn = Turn::begin();
        let mut from = 0;
        let mut coming = slice(file, from);
        while from < size {
            if !self.importing.go_on(Stage::Reading, from, size) {
                return Err(Not::Cancelled);
            }
            let slice = bytes(coming).await.ok_or(Not::Unread)?;
            from += SLICE;
            // The next one is read while this one is cut.
            coming = self::slice(file, from);
            splitter.feed(&slice).map_err(Not::Uncut)?;
            turn.or_next().await;
        }
        splitter.end().map_err(Not::Uncut)
    }

    /// Takes its recipes, all or none.
    async fn take(&self, file: Parted, broken: Broken) -> Result<Notice, Not> {
        let version = recipes_in(&file).map_err(Not::File)?;
        let all = file.parts.len();
        if all == 0 {
            return Err(Not::Said(texts().import.no_recipe_in_it.to_owned()));
        }
        let head = file.head;
        let parts = Arc::new(file.parts);
        let _alone = self.store.import_alone().await;
        let known = self.known().await?;
        let import = self.store.begin_import().map_err(|_| {
            let full = Stopped::Full { room: 0 };
            Not::Said(full.words(all))
        })?;
        // The same for all, so that the list keeps them in the order of the file.
        let at = now();
        let mut taking = Taking::begin(version, Arc::clone(&parts), broken, known, import);
        let stopped = loop {
            if !self.importing.go_on(Stage::Taking, taking.done(), all) {
                break Some(Not::Cancelled);
            }
            let turn = Turn::begin();
            let taken = self
                .store
                .with_shelf(|shelf| taking.turn(shelf, at, || turn.is_over()));
            match taken {
                Ok(true) => give_way().await,
                Ok(false) => break None,
                Err(stopped) => {
                    let words = stopped.words(all);
                    break Some(match stopped {
                        Stopped::Unreadable { some: true, .. } => {
                            let parts = parts.to_vec();
                            Not::InPart(words, Arc::new(Parted { head, parts }))
                        }
                        _ => Not::Said(words),
                    });
                }
            }
        };
        if let Some(not) = stopped {
            self.importing.go_on(Stage::Undoing, 0, 0);
            self.store.clear_import().await;
            return Err(not);
        }
        let taken = taking.end();
        let words = taken.words();
        let in_part = !taken.lost.is_empty() || taken.left_out > 0;
        if !self.store.finish_import(taken.import).await {
            return Err(Not::Said(Stopped::Ended.words(all)));
        }
        Ok(if in_part {
            Notice::warning("salvaged", words)
        } else {
            Notice::plain(words)
        })
    }

    /// The recipes that are here.
    async fn known(&self) -> Result<Known, Not> {
        let mut known = Known::default();
        let mut turn = Turn::begin();
        let ids = self.store.ids();
        for (done, id) in ids.iter().enumerate() {
            if let Some(recipe) = self.store.peek(id) {
                known.add(&recipe);
            }
            if turn.is_over() {
                if !self.importing.go_on(Stage::Comparing, done, ids.len()) {
                    return Err(Not::Cancelled);
                }
                turn.or_next().await;
            }
        }
        Ok(known)
    }

    /// Merges its documents with what is here, once all of them are sound.
    async fn merge(&self, fetching: Fetching, file: Parted) -> Result<Notice, Not> {
        let not_fetched = |_| Not::Said(first().not_fetched.to_owned());
        let syncing = fetching.begin_syncing().await.map_err(not_fetched)?;
        let all = file.parts.len();
        let mut turn = Turn::begin();
        let mut documents = Vec::with_capacity(all);
        for (done, part) in file.parts.iter().enumerate() {
            let document = Sound::read(&part.text)
                .ok_or_else(|| Not::Said(texts().import.document_unread(done + 1, all)))?;
            documents.push(document);
            if turn.is_over() {
                if !self.importing.go_on(Stage::Checking, done, all) {
                    return Err(Not::Cancelled);
                }
                turn.or_next().await;
            }
        }
        let go_on = |done| self.importing.go_on(Stage::Merging, done, all);
        let words = match syncing.take_everything(documents, go_on).await {
            Merged::All { recipes: 0 } => String::from(texts().import.all_here),
            Merged::All { recipes } => texts().import.came(recipes),
            Merged::Ended {
                recipes,
                full: false,
            } => texts().import.came_before_cancelling(recipes),
            Merged::Ended {
                recipes,
                full: true,
            } => {
                return Err(Not::Said(texts().import.came_before_full(recipes)));
            }
        };
        Ok(Notice::plain(words))
    }

    /// Takes what can be read of its recipes.
    fn salvage(self, file: Arc<Parted>) {
        spawn_local(async move {
            let notices = self.store.notices();
            if self.importing.is_busy() {
                notices.show(Notice::warning("import", first().adding_another));
                return;
            }
            self.importing.begin(&self.name);
            let told = self.take((*file).clone(), Broken::Salvage).await;
            self.importing.end();
            notices.show(told.unwrap_or_else(|not| self.not_taken(not)));
        });
    }
}

/// Some bytes of a file, as the browser begins to read them; none where the file
/// has ended.
fn slice(file: &Blob, from: usize) -> Option<Promise> {
    #[expect(
        clippy::cast_precision_loss,
        reason = "the size of a file that is not too large is a small whole number"
    )]
    let (from, to) = (from as f64, (from + SLICE) as f64);
    let slice = file.slice_with_f64_and_f64(from, to).ok()?;
    Some(slice.array_buffer())
}

/// The bytes, once they are read.
async fn bytes(coming: Option<Promise>) -> Option<Vec<u8>> {
    let bytes = JsFuture::from(coming?).await.ok()?;
    let bytes: ArrayBuffer = bytes.dyn_into().ok()?;
    Some(Uint8Array::new(&bytes).to_vec())
}
