//! The page of a shared recipe: readable without scripts, and the app at the
//! same address with them.

use std::sync::Arc;

use axum::Router;
use axum::extract::{Path, State};
use axum::http::header::{ACCEPT_ENCODING, CACHE_CONTROL, CONTENT_ENCODING, HeaderName, VARY};
use axum::http::{HeaderMap, StatusCode};
use axum::response::{Html, IntoResponse, Response};
use axum::routing::get;
use foldwright_api::{Refused, Workshops};
use foldwright_app::{Written, nothing_written, trouble_written, written};
use tokio::sync::Semaphore;

use crate::negotiate::{Coding, best};
use crate::pages::{Page, Pages};
use crate::site::Site;

/// What the addresses of shared recipes begin with.
pub(crate) const ADDRESS: &str = "/shared/";

/// Where the page holds what the app replaces, and what comes after it.
const PLACE: (&str, &str) = ("<div id=\"app\">", "</div>\n</body>");
const TITLE: &str = "<title>Foldwright</title>";

/// How many pages are made at a time. Our own bound: while large ones are made
/// there is a processor left for the others.
const AT_A_TIME: usize = 2;

/// What the pages are made with.
struct Making {
    turns: Semaphore,
    workshops: Option<Arc<dyn Workshops>>,
    frame: Frame,
    pages: Arc<Pages>,
    /// The page of a link that opens nothing.
    nothing: Page,
}

/// The app's page around what is written into it.
struct Frame {
    before_title: String,
    before_body: String,
    after: String,
}

/// The address of shared recipes.
pub(crate) fn route(site: &Site, workshops: Option<Arc<dyn Workshops>>) -> Router {
    let page = site
        .asset("/")
        .map(|page| String::from_utf8_lossy(page.plain()));
    let frame = Frame::of(&page.unwrap_or_default());
    let making = Making {
        turns: Semaphore::new(AT_A_TIME),
        workshops,
        pages: Arc::default(),
        nothing: frame.page(StatusCode::NOT_FOUND, &nothing_written()),
        frame,
    };
    Router::new()
        .route(&format!("{ADDRESS}{{token}}"), get(send))
        .with_state(Arc::new(making))
}

async fn send(
    State(making): State<Arc<Making>>,
    Path(token): Path<String>,
    headers: HeaderMap,
) -> Response {
    let state = match &making.workshops {
        Some(workshops) => workshops.shared_state(&token).await,
        None => Err(Refused::Missing),
    };
    let page = match state {
        Ok(state) => {
            let make = || Arc::clone(&making).make(token);
            let page = making.pages.get(state, make).await;
            page.unwrap_or_else(|| making.trouble(StatusCode::INTERNAL_SERVER_ERROR))
        }
        Err(why) => making.refused(&why),
    };
    let head = [
        (CACHE_CONTROL, "no-store"),
        (VARY, "Accept-Encoding"),
        (HeaderName::from_static("x-robots-tag"), "noindex, nofollow"),
    ];
    let accept = headers.get(ACCEPT_ENCODING);
    let accept = accept.and_then(|accept| accept.to_str().ok());
    match best(accept.unwrap_or_default(), &[Coding::Gzip]) {
        Coding::Gzip => {
            let packed = [(CONTENT_ENCODING, Coding::Gzip.name())];
            (page.status, head, packed, Html(page.packed)).into_response()
        }
        Coding::Brotli | Coding::Plain => (page.status, head, Html(page.plain())).into_response(),
    }
}

impl Making {
    /// The page of what a link opens; as an error one that says why there is
    /// none now.
    async fn make(self: Arc<Self>, token: String) -> Result<Page, Page> {
        let shared = match &self.workshops {
            Some(workshops) => workshops.shared(&token).await,
            None => Err(Refused::Missing),
        };
        let shared = shared.map_err(|why| self.refused(&why))?;
        // It is never closed.
        let turn = self.turns.acquire().await;
        let making = Arc::clone(&self);
        // A card takes a while to work out, and others are waiting.
        let made = tokio::task::spawn_blocking(move || {
            tracing::debug!("writing a shared recipe out");
            written(&shared).map_or_else(
                || making.nothing.clone(),
                |page| making.frame.page(StatusCode::OK, &page),
            )
        });
        let made = made.await;
        drop(turn);
        made.map_err(|_| self.trouble(StatusCode::INTERNAL_SERVER_ERROR))
    }

    fn refused(&self, why: &Refused) -> Page {
        match why {
            Refused::Trouble(_) => self.trouble(StatusCode::SERVICE_UNAVAILABLE),
            _ => self.nothing.clone(),
        }
    }

    fn trouble(&self, status: StatusCode) -> Page {
        self.frame.page(status, &trouble_written())
    }
}

impl Frame {
    fn of(page: &str) -> Self {
        let (before_title, rest) = page.split_once(TITLE).unwrap_or(("", page));
        let (before, rest) = rest.split_once(PLACE.0).unwrap_or((rest, ""));
        let after = rest.rfind(PLACE.1).and_then(|at| rest.get(at..));
        Self {
            before_title: before_title.to_owned(),
            before_body: format!("{before}{}", PLACE.0),
            after: after.unwrap_or(PLACE.1).to_owned(),
        }
    }

    fn page(&self, status: StatusCode, written: &Written) -> Page {
        Page::of(status, &self.around(written))
    }

    fn around(&self, page: &Written) -> String {
        let Written { title, body } = page;
        let Self {
            before_title,
            before_body,
            after,
        } = self;
        format!("{before_title}{title}{before_body}\n{body}\n{after}")
    }
}

#[cfg(test)]
mod tests {
    use foldwright_app::Written;

    use super::Frame;
    use crate::site::Site;

    #[test]
    fn what_is_written_stands_where_the_app_will() {
        let site = Site::embedded();
        let page = site.asset("/").expect("the site has a page");
        let page = String::from_utf8_lossy(page.plain());
        let around = Frame::of(&page).around(&Written {
            title: "<title>Quay</title>".to_owned(),
            body: "<p>Quay wall</p>".to_owned(),
        });
        assert_eq!(around.matches("<title>").count(), 1);
        assert!(around.contains("<div id=\"app\">\n<p>Quay wall</p>\n</div>"));
        assert!(!around.contains("class=\"starting\""));
        assert!(around.starts_with("<!doctype html>") && around.trim_end().ends_with("</html>"));
        let head = |page: &str| page.matches("rel=\"stylesheet\"").count();
        assert_eq!(head(&around), head(&page));
    }
}
