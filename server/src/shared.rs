//! The page of a shared recipe: readable without scripts, and the app at the
//! same address with them; the files that are made of it; and the photographs of
//! paper that it shows.

use std::sync::Arc;

use axum::Router;
use axum::extract::rejection::PathRejection;
use axum::extract::{Path, RawQuery, State};
use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE, HeaderName};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use foldwright_api::{PhotoKind, Refused, SHARED_PHOTO, Shared, Workshops};
use foldwright_app::{
    Download, Paper, downloaded, nothing_written, photos, trouble_written, written,
};
use foldwright_engine::paper::PhotoId;
use foldwright_words::Language;
use tokio::sync::Semaphore;

use crate::frame::Frame;
use crate::negotiate::{language, paper};
use crate::pages::{Page, Pages};
use crate::site::Site;

/// What the addresses of shared recipes begin with.
pub(crate) const ADDRESS: &str = "/shared/";

/// How many pages are made at a time. Our own bound: while large ones are made
/// there is a processor left for the others.
const AT_A_TIME: usize = 2;

/// What files are asked for by.
const ASKED: [&str; 5] = ["sheet", "cards", "template", "data", MIRRORED];
const MIRRORED: &str = "mirrored";

/// The photograph that is asked for behind the question mark of an address.
fn photo_of(query: Option<&str>) -> Option<&str> {
    let mut pairs = query?.split('&').filter_map(|pair| pair.split_once('='));
    let (_, photo) = pairs.find(|(name, _)| *name == SHARED_PHOTO)?;
    Some(photo)
}

/// What is made of a shared recipe.
#[derive(Debug, Clone, Copy)]
enum Wanted {
    /// Its page, for a reader who prints on that paper.
    Page(Paper),
    /// A file.
    File(Download),
}

impl Wanted {
    /// What is asked for behind the question mark of an address. What others add to
    /// it there asks for nothing.
    fn of(query: Option<&str>, headers: &HeaderMap) -> Result<Self, Refused> {
        let pairs = query.unwrap_or_default().split('&');
        let pairs = pairs.map(|pair| pair.strip_suffix('=').unwrap_or(pair));
        let mut known: Vec<_> = pairs
            .filter(|pair| {
                let name = pair.split_once('=').map_or(*pair, |(name, _)| name);
                ASKED.contains(&name)
            })
            .collect();
        if known.is_empty() {
            return Ok(Self::Page(paper(headers)));
        }
        known.sort_by_key(|pair| *pair == MIRRORED);
        let file = Download::of_query(&known.join("&"));
        file.map(Self::File).ok_or(Refused::Missing)
    }

    /// By what it is told from others of the same recipe, which was asked for by that
    /// token.
    fn name(self, token: &str) -> String {
        match self {
            Self::Page(paper) => format!("page {}", paper.name()),
            // No link is told to whoever has another.
            Self::File(file) if file.has_link() => format!("{} {token}", file.query()),
            Self::File(file) => file.query(),
        }
    }
}

/// What the pages are made with.
struct Making {
    turns: Semaphore,
    workshops: Option<Arc<dyn Workshops>>,
    /// Each language's.
    frames: [Frame; Language::ALL.len()],
    pages: Arc<Pages>,
    /// The address under which other devices find the server.
    own: String,
    /// The page of a link that opens nothing, in each language.
    nothing: [Page; Language::ALL.len()],
}

/// The address of shared recipes. `own` is the one under which other devices find the
/// server.
pub(crate) fn route(site: &Site, workshops: Option<Arc<dyn Workshops>>, own: String) -> Router {
    let frames = Language::ALL.map(|language| Frame::of(site, language));
    let nothing = frames.each_ref().map(|frame| {
        let written = nothing_written(frame.language());
        frame.page(StatusCode::NOT_FOUND, &written)
    });
    let making = Making {
        turns: Semaphore::new(AT_A_TIME),
        workshops,
        pages: Arc::default(),
        own,
        nothing,
        frames,
    };
    Router::new()
        .route(&format!("{ADDRESS}{{token}}"), get(send))
        .with_state(Arc::new(making))
}

async fn send(
    State(making): State<Arc<Making>>,
    token: Result<Path<String>, PathRejection>,
    RawQuery(query): RawQuery,
    headers: HeaderMap,
) -> Response {
    let language = language(&headers);
    // What is not UTF-8 opens nothing.
    let token = token.map(|Path(token)| token).unwrap_or_default();
    let private = [(HeaderName::from_static("x-robots-tag"), "noindex, nofollow")];
    if let Some(photo) = photo_of(query.as_deref()) {
        let photo = making.photo(token, photo.to_owned()).await;
        let refused = |why| making.refused(&why, language).sent(&headers, language);
        return (private, photo.unwrap_or_else(refused)).into_response();
    }
    let wanted = Wanted::of(query.as_deref(), &headers);
    let state = match (&making.workshops, wanted) {
        (Some(workshops), Ok(wanted)) => {
            let state = workshops.shared_state(&token).await;
            state.map(|state| (state, wanted))
        }
        (None, _) | (_, Err(_)) => Err(Refused::Missing),
    };
    let page = match state {
        Ok((state, wanted)) => {
            let state = format!("{} {} {state}", language.tag(), wanted.name(&token));
            let make = || Arc::clone(&making).make(token, language, wanted);
            let page = making.pages.get(state, make).await;
            page.unwrap_or_else(|| making.trouble(StatusCode::INTERNAL_SERVER_ERROR, language))
        }
        Err(why) => making.refused(&why, language),
    };
    (private, page.sent(&headers, language)).into_response()
}

impl Making {
    /// The page or a file of what a link opens, in a language; as an error one that is
    /// another soon: a page that says why there is none now, or a file without a
    /// photograph that has not come yet.
    async fn make(
        self: Arc<Self>,
        token: String,
        language: Language,
        wanted: Wanted,
    ) -> Result<Page, Page> {
        let shared = match &self.workshops {
            Some(workshops) => workshops.shared(&token).await,
            None => Err(Refused::Missing),
        };
        let shared = shared.map_err(|why| self.refused(&why, language))?;
        let (photos, are_all) = match wanted {
            Wanted::Page(_) => (Vec::new(), true),
            Wanted::File(_) => self.photos(&token, &shared).await,
        };
        let link = format!("{}{ADDRESS}{token}", self.own);
        // It is never closed.
        let turn = self.turns.acquire().await;
        let making = Arc::clone(&self);
        // A card takes a while to work out, and others are waiting.
        let made = tokio::task::spawn_blocking(move || {
            let made = match wanted {
                Wanted::Page(paper) => {
                    tracing::debug!("writing a shared recipe out");
                    let page = written(&shared, language, paper);
                    page.map(|page| making.frame(language).page(StatusCode::OK, &page))
                }
                Wanted::File(file) => {
                    tracing::debug!("making a file of a shared recipe");
                    let made = downloaded(&shared, &link, language, file, &photos);
                    made.map(|made| Page::file(made.name, file.media_type(), &made.bytes))
                }
            };
            made.unwrap_or_else(|| making.nothing(language))
        });
        let made = made.await;
        drop(turn);
        let made = made.map_err(|_| self.trouble(StatusCode::INTERNAL_SERVER_ERROR, language))?;
        if are_all { Ok(made) } else { Err(made) }
    }

    /// The photographs of what a link opens, and whether the server has all of them.
    async fn photos(&self, token: &str, shared: &Shared) -> (Vec<(PhotoId, Vec<u8>)>, bool) {
        let Some(workshops) = &self.workshops else {
            return (Vec::new(), true);
        };
        let of = shared.clone();
        let Ok(wanted) = tokio::task::spawn_blocking(move || photos(&of)).await else {
            return (Vec::new(), false);
        };
        let mut found = Vec::new();
        for photo in &wanted {
            let file = workshops.shared_photo(token, &photo.to_string()).await;
            found.extend(file.ok().map(|file| (*photo, file)));
        }
        let are_all = found.len() == wanted.len();
        (found, are_all)
    }

    /// A photograph that what a link opens shows; no other of its workshop.
    async fn photo(&self, token: String, photo: String) -> Result<Response, Refused> {
        let workshops = self.workshops.as_ref().ok_or(Refused::Missing)?;
        let file = workshops.shared_photo(&token, &photo).await?;
        let kind = PhotoKind::of(&file).ok_or(Refused::Missing)?;
        let shared = workshops.shared(&token).await?;
        // It is never closed.
        let turn = self.turns.acquire().await;
        let shows = photo
            .parse()
            .map(|photo| tokio::task::spawn_blocking(move || photos(&shared).contains(&photo)));
        let shows = match shows {
            Ok(shows) => shows.await,
            Err(_) => return Err(Refused::Missing),
        };
        drop(turn);
        if !shows.unwrap_or_default() {
            return Err(Refused::Missing);
        }
        // What has its name is always the same.
        let head = [
            (CACHE_CONTROL, "private, max-age=31536000, immutable"),
            (CONTENT_TYPE, kind.media_type()),
        ];
        Ok((head, file).into_response())
    }

    fn refused(&self, why: &Refused, language: Language) -> Page {
        match why {
            Refused::Trouble(_) => self.trouble(StatusCode::SERVICE_UNAVAILABLE, language),
            _ => self.nothing(language),
        }
    }

    fn frame(&self, language: Language) -> &Frame {
        let [english, german] = &self.frames;
        match language {
            Language::English => english,
            Language::German => german,
        }
    }

    fn nothing(&self, language: Language) -> Page {
        let [english, german] = &self.nothing;
        match language {
            Language::English => english.clone(),
            Language::German => german.clone(),
        }
    }

    fn trouble(&self, status: StatusCode, language: Language) -> Page {
        self.frame(language)
            .page(status, &trouble_written(language))
    }
}
