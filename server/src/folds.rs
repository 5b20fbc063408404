//! The page of folds to choose from, written out so that it is there before the app.

use std::sync::Arc;

use axum::Router;
use axum::extract::State;
use axum::http::{HeaderMap, StatusCode};
use axum::response::Response;
use axum::routing::get;
use foldwright_app::folds_written;
use foldwright_words::Language;

use crate::frame::Frame;
use crate::negotiate::language;
use crate::pages::{Page, Pages};
use crate::site::Site;

/// What the pages are made with.
struct Making {
    /// Each language's.
    frames: [Frame; Language::ALL.len()],
    pages: Arc<Pages>,
}

/// The address of the folds.
pub(crate) fn route(site: &Site) -> Router {
    let making = Making {
        frames: Language::ALL.map(|language| Frame::of(site, language)),
        pages: Arc::default(),
    };
    Router::new()
        .route("/new", get(send))
        .with_state(Arc::new(making))
}

async fn send(State(making): State<Arc<Making>>, headers: HeaderMap) -> Response {
    let language = language(&headers);
    let make = || Arc::clone(&making).make(language);
    let page = making.pages.get(language.tag().to_owned(), make).await;
    // The app itself shows them too.
    let page = page.unwrap_or_else(|| making.empty(language));
    page.sent(&headers, language)
}

impl Making {
    async fn make(self: Arc<Self>, language: Language) -> Result<Page, Page> {
        let making = Arc::clone(&self);
        // All of them take a while to work out, and others are waiting.
        let made = tokio::task::spawn_blocking(move || {
            let frame = making.frame(language);
            frame.page(StatusCode::OK, &folds_written(language))
        });
        made.await.map_err(|_| self.empty(language))
    }

    fn frame(&self, language: Language) -> &Frame {
        let [english, german] = &self.frames;
        match language {
            Language::English => english,
            Language::German => german,
        }
    }

    fn empty(&self, language: Language) -> Page {
        self.frame(language).empty()
    }
}
