//! Taking in recipes from a file.

use std::pin::Pin;

use foldwright_engine::recipe::FileError;
use foldwright_words::file_error;
use leptos::task::spawn_local;
use web_sys::File;

use super::importing::{Importing, Stage};
use crate::fetched::{Fetching, NotFetched, taking_patterns};
use crate::import::print::Known;
use crate::import::ready::Ready;
use crate::import::source::{self, Source};
use crate::import::taking::{Broken, Stopped, Taking, recipes_in};
use crate::notice::Notice;
use crate::spoken::{first, language, texts};
use crate::store::{Store, now};
use crate::sync::{EVERYTHING, Merged, Sound};
use crate::turns::{Turn, give_way};

/// How the names of files of crease patterns end.
const PATTERN: &str = ".fold";

/// What came of a file; nothing to say where it was cancelled before anything
/// was done.
pub(crate) type TakenIn = Pin<Box<dyn Future<Output = Notice>>>;

/// The way to it.
pub(crate) type TakeIn = fn(Store, Fetching, Importing, File) -> TakenIn;

/// What is fetched to take in files.
#[derive(Debug, Clone, Copy)]
pub(crate) struct TakesIn {
    /// On the page.
    pub(crate) take_in: TakeIn,
    /// In a worker, for the page.
    pub(crate) serve: fn(),
}

/// Takes in what a file holds, in turns, and says what came of it. Recipes that
/// are here already, to the last detail, are not added again; a file of
/// everything is merged with what is here. A crease pattern, which its name tells,
/// becomes a recipe.
pub(crate) fn take_in(
    store: Store,
    fetching: Fetching,
    importing: Importing,
    file: File,
) -> TakenIn {
    if file.name().to_lowercase().ends_with(PATTERN) {
        return Box::pin(pattern(store, file));
    }
    let coming = Coming {
        store,
        fetching,
        importing,
        file,
    };
    Box::pin(coming.told(Broken::Refuse))
}

/// Fetches what reads crease patterns, and has it take in a file.
async fn pattern(store: Store, file: File) -> Notice {
    match taking_patterns().await {
        Ok(take) => take(store, file).await,
        Err(NotFetched) => Notice::warning("import", first().not_fetched),
    }
}

/// A file on its way in.
#[derive(Clone)]
struct Coming {
    store: Store,
    fetching: Fetching,
    importing: Importing,
    file: File,
}

/// Why nothing came of it.
enum Not {
    /// It does not come.
    Come(source::Not),
    /// It can't be read.
    File(FileError),
    /// What is said.
    Said(String),
    /// One of its recipes can't be read, but something in it can.
    InPart(String),
}

impl From<source::Not> for Not {
    fn from(not: source::Not) -> Self {
        Self::Come(not)
    }
}

impl Coming {
    /// Takes it in, and tells what came of it.
    async fn told(self, broken: Broken) -> Notice {
        self.importing.begin(&self.file.name());
        let told = match self.come(broken, false).await {
            Err(Not::Come(source::Not::Gone)) => self.come(broken, true).await,
            told => told,
        };
        self.importing.end();
        told.unwrap_or_else(|not| self.not_taken(not))
    }

    fn not_taken(&self, not: Not) -> Notice {
        let warn = |what: &str| Notice::warning("import", format!("{}: {what}", self.file.name()));
        let texts = &texts().import;
        match not {
            Not::Come(source::Not::Cancelled) => Notice::plain(texts.cancelled),
            Not::Come(source::Not::Unread | source::Not::Gone) => warn(texts.unread),
            Not::Come(source::Not::Uncut(why)) => {
                let words = why.words(|why| file_error(language(), why));
                warn(&words)
            }
            Not::File(why) => warn(&file_error(language(), &why)),
            Not::Said(why) => warn(&why),
            Not::InPart(why) => {
                let coming = self.clone();
                warn(&why).with(texts.add_what_can_be_read, move || coming.clone().salvage())
            }
        }
    }

    /// Takes in what it holds; all of it `here`, on the page, where a worker was gone.
    async fn come(&self, broken: Broken, here: bool) -> Result<Notice, Not> {
        let go_on = |read, all| self.importing.go_on(Stage::Reading, read, all);
        let source = Source::open(&self.file, here, go_on).await?;
        if source.head.kind == EVERYTHING {
            self.merge(source).await
        } else {
            self.take(source, broken).await
        }
    }

    /// Takes its recipes, all or none.
    async fn take(&self, mut source: Source, broken: Broken) -> Result<Notice, Not> {
        let version = recipes_in(source.head).map_err(Not::File)?;
        let all = source.all;
        if all == 0 {
            return Err(Not::Said(texts().import.no_recipe_in_it.to_owned()));
        }
        let _alone = self.store.import_alone().await;
        let known = self.known().await?;
        let import = self.store.begin_import().map_err(|_| {
            let full = Stopped::Full { room: 0 };
            Not::Said(full.words(all))
        })?;
        // The same for all, so that the list keeps them in the order of the file.
        let at = now();
        let mut taking = Taking::begin(version, all, broken, known, import);
        let stopped = loop {
            if !self.importing.go_on(Stage::Taking, taking.done(), all) {
                break Some(Not::Come(source::Not::Cancelled));
            }
            let turn = Turn::begin();
            let taken = self
                .store
                .with_shelf(|shelf| taking.turn(shelf, at, || turn.is_over()));
            match taken {
                Ok(true) => give_way().await,
                Ok(false) if taking.done() == all => break None,
                Ok(false) => match source.next().await {
                    Ok(ready) => taking.comes(ready),
                    Err(not) => break Some(not.into()),
                },
                Err(stopped) => {
                    let words = stopped.words(all);
                    break Some(match stopped {
                        Stopped::Unreadable { some: true, .. } => Not::InPart(words),
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
                    return Err(source::Not::Cancelled.into());
                }
                turn.or_next().await;
            }
        }
        Ok(known)
    }

    /// Merges its documents with what is here, once all of them are sound.
    async fn merge(&self, mut source: Source) -> Result<Notice, Not> {
        let not_fetched = |_| Not::Said(first().not_fetched.to_owned());
        let syncing = self.fetching.begin_syncing().await.map_err(not_fetched)?;
        let all = source.all;
        let mut turn = Turn::begin();
        let mut documents = Vec::with_capacity(all);
        while documents.len() < all {
            for ready in source.next().await? {
                let done = documents.len();
                let document = match ready {
                    Ready::Part(part) => Sound::read(&part.text),
                    Ready::Recipe { .. } => None,
                };
                let unread = || Not::Said(texts().import.document_unread(done + 1, all));
                documents.push(document.ok_or_else(unread)?);
                if turn.is_over() {
                    if !self.importing.go_on(Stage::Checking, done, all) {
                        return Err(source::Not::Cancelled.into());
                    }
                    turn.or_next().await;
                }
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
    fn salvage(self) {
        spawn_local(async move {
            let notices = self.store.notices();
            if self.importing.is_busy() {
                notices.show(Notice::warning("import", first().adding_another));
                return;
            }
            notices.show(self.told(Broken::Salvage).await);
        });
    }
}
