//! Pages and files that take long to make, each made once for what it shows and
//! kept.

use std::collections::HashMap;
use std::fmt::Write as _;
use std::io::{Read as _, Write as _};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use axum::body::Bytes;
use axum::http::header::{
    ACCEPT_ENCODING, CACHE_CONTROL, CONTENT_DISPOSITION, CONTENT_ENCODING, CONTENT_LANGUAGE,
    CONTENT_TYPE, VARY,
};
use axum::http::{HeaderMap, HeaderName, StatusCode};
use axum::response::{IntoResponse as _, Response};
use flate2::Compression;
use flate2::read::GzDecoder;
use flate2::write::GzEncoder;
use foldwright_words::Language;
use tokio::sync::watch;

use crate::negotiate::{Coding, best};

/// The most pages that are kept, and the most bytes of them. Our own bounds.
const MOST: usize = 256;
const MOST_BYTES: usize = 32 * 1024 * 1024;

/// A page. It says the same again and again, in drawings above all, so that it
/// takes a small part of its room in gzip, as browsers ask for it.
#[derive(Clone, Debug)]
pub(crate) struct Page {
    pub(crate) status: StatusCode,
    /// In gzip.
    pub(crate) packed: Bytes,
    pub(crate) kind: Kind,
}

/// What a page is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    Html,
    /// A file of a media type, to be kept under that name.
    File(String, &'static str),
}

impl Page {
    pub(crate) fn of(status: StatusCode, html: &str) -> Self {
        Self::packed(status, html.as_bytes(), Kind::Html)
    }

    /// A file of a media type that is kept under that name.
    pub(crate) fn file(name: String, media_type: &'static str, bytes: &[u8]) -> Self {
        Self::packed(StatusCode::OK, bytes, Kind::File(name, media_type))
    }

    fn packed(status: StatusCode, bytes: &[u8], kind: Kind) -> Self {
        let mut packing = GzEncoder::new(Vec::new(), Compression::fast());
        // Writing to memory cannot fail.
        let _ = packing.write_all(bytes);
        let packed = packing.finish().unwrap_or_default().into();
        Self {
            status,
            packed,
            kind,
        }
    }

    /// As it is sent to whoever asked with these headers; it is in this language.
    pub(crate) fn sent(self, headers: &HeaderMap, language: Language) -> Response {
        let head = [
            (CACHE_CONTROL, "no-store"),
            (CONTENT_LANGUAGE, language.tag()),
            (VARY, "Accept-Encoding, Accept-Language"),
        ];
        let kind = self.kind.headers();
        let accept = headers.get(ACCEPT_ENCODING);
        let accept = accept.and_then(|accept| accept.to_str().ok());
        match best(accept.unwrap_or_default(), &[Coding::Gzip]) {
            Coding::Gzip => {
                let packed = [(CONTENT_ENCODING, Coding::Gzip.name())];
                (self.status, head, packed, kind, self.packed).into_response()
            }
            Coding::Brotli | Coding::Plain => {
                (self.status, head, kind, self.plain()).into_response()
            }
        }
    }

    /// As it is.
    pub(crate) fn plain(&self) -> Bytes {
        let mut plain = Vec::new();
        // What was packed here can be unpacked.
        let _ = GzDecoder::new(&self.packed[..]).read_to_end(&mut plain);
        plain.into()
    }
}

impl Kind {
    /// What a browser is told it is, and where it goes.
    fn headers(&self) -> [(HeaderName, String); 2] {
        let (kind, goes) = match self {
            Self::Html => ("text/html; charset=utf-8", String::from("inline")),
            Self::File(name, media_type) => (*media_type, kept_as(name)),
        };
        [(CONTENT_TYPE, kind.to_owned()), (CONTENT_DISPOSITION, goes)]
    }
}

/// More characters of a name than these are of no use in a folder.
const MOST_OF_A_NAME: usize = 80;

/// That something is kept as a file of that name (RFC 6266, §4.3), with the name as
/// RFC 8187 has it for what is not ASCII.
fn kept_as(name: &str) -> String {
    let (stem, ending) = name.rsplit_once('.').unwrap_or((name, "pdf"));
    let stem: String = stem.chars().take(MOST_OF_A_NAME).collect();
    let mut coded = String::new();
    for byte in format!("{stem}.{ending}").bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' => {
                coded.push(char::from(byte));
            }
            // Writing to a string cannot fail.
            other => drop(write!(coded, "%{other:02X}")),
        }
    }
    format!("attachment; filename=\"recipe.{ending}\"; filename*=UTF-8''{coded}")
}

/// The pages that were asked for last.
#[derive(Default)]
pub(crate) struct Pages(Mutex<Kept>);

#[derive(Default)]
struct Kept {
    pages: HashMap<String, Entry>,
    bytes: usize,
    /// Counts how often a page was asked for.
    asked: u64,
}

/// A page that is made or being made.
struct Entry {
    page: watch::Receiver<Option<Page>>,
    /// When it was asked for last, by that count.
    last: u64,
    /// 0 until it is made.
    bytes: usize,
}

impl Pages {
    /// The page of this state. Where there is none `make` makes it, once for
    /// all who ask meanwhile and to the end whoever of them goes away; what it
    /// returns as an error is told to these and not kept. None where it broke
    /// off.
    pub(crate) async fn get<M>(
        self: &Arc<Self>,
        state: String,
        make: impl FnOnce() -> M,
    ) -> Option<Page>
    where
        M: Future<Output = Result<Page, Page>> + Send + 'static,
    {
        let mut page = self.find(state, make);
        let made = page.wait_for(Option::is_some).await;
        made.ok().and_then(|page| page.clone())
    }

    fn find<M>(
        self: &Arc<Self>,
        state: String,
        make: impl FnOnce() -> M,
    ) -> watch::Receiver<Option<Page>>
    where
        M: Future<Output = Result<Page, Page>> + Send + 'static,
    {
        let mut kept = self.kept();
        kept.asked += 1;
        let last = kept.asked;
        if let Some(entry) = kept.pages.get_mut(&state) {
            // Where nobody is left to make it, it is begun again.
            if entry.bytes > 0 || entry.page.has_changed().is_ok() {
                entry.last = last;
                return entry.page.clone();
            }
        }
        let (tell, page) = watch::channel(None);
        let entry = Entry {
            page: page.clone(),
            last,
            bytes: 0,
        };
        kept.pages.insert(state.clone(), entry);
        let (pages, making) = (Arc::clone(self), make());
        tokio::spawn(async move {
            let made = making.await;
            pages.kept().take(&state, made.as_ref().ok());
            tell.send_replace(Some(made.unwrap_or_else(|page| page)));
        });
        page
    }

    fn kept(&self) -> MutexGuard<'_, Kept> {
        // What is kept is whole after each call, whoever panicked.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Kept {
    /// Takes in a page that is made, if it is to be kept, and lets go of those
    /// that nobody has asked for longest.
    fn take(&mut self, state: &str, page: Option<&Page>) {
        let Some(page) = page else {
            self.pages.remove(state);
            return;
        };
        if let Some(entry) = self.pages.get_mut(state) {
            entry.bytes = page.packed.len();
            self.bytes += entry.bytes;
        }
        while self.bytes > MOST_BYTES || self.pages.len() > MOST {
            let made = self.pages.iter().filter(|(_, entry)| entry.bytes > 0);
            let oldest = made.min_by_key(|(_, entry)| entry.last);
            let Some(oldest) = oldest.map(|(state, _)| state.clone()) else {
                return;
            };
            let gone = self.pages.remove(&oldest);
            self.bytes -= gone.map_or(0, |entry| entry.bytes);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::future::pending;
    use std::sync::Arc;
    use std::sync::atomic::{AtomicUsize, Ordering};

    use axum::body::Bytes;
    use axum::http::StatusCode;
    use tokio::sync::Notify;

    use super::{Kind, MOST, MOST_BYTES, Page, Pages, kept_as};

    fn page(bytes: usize) -> Page {
        Page {
            status: StatusCode::OK,
            packed: Bytes::from(vec![b'x'; bytes]),
            kind: Kind::Html,
        }
    }

    /// The example of RFC 8187, §3.2.3, and the characters of §3.2.1.
    #[test]
    fn names_of_files_are_told_as_the_standard_has_it() {
        assert_eq!(
            kept_as("£ and € rates.pdf"),
            "attachment; filename=\"recipe.pdf\"; \
             filename*=UTF-8''%C2%A3%20and%20%E2%82%AC%20rates.pdf"
        );
        let long = kept_as(&format!("{}.pdf", "\"\r\n".repeat(2000)));
        assert!(long.len() < 400 && !long.contains(['\r', '\n']), "{long}");
    }

    #[tokio::test]
    async fn all_who_ask_wait_for_one_and_who_asks_another_does_not() {
        let pages = Arc::new(Pages::default());
        let (made, go) = (Arc::new(AtomicUsize::new(0)), Arc::new(Notify::new()));
        let ask = || {
            let (pages, made, go) = (Arc::clone(&pages), Arc::clone(&made), Arc::clone(&go));
            tokio::spawn(async move {
                let make = || async move {
                    made.fetch_add(1, Ordering::Relaxed);
                    go.notified().await;
                    Ok(page(7))
                };
                pages.get("one".to_owned(), make).await
            })
        };
        let asking: Vec<_> = (0..20).map(|_| ask()).collect();
        while made.load(Ordering::Relaxed) == 0 {
            tokio::task::yield_now().await;
        }
        // The first to ask goes away.
        asking[0].abort();
        let other = pages.get("other".to_owned(), || async { Ok(page(8)) });
        assert_eq!(other.await.map(|page| page.packed.len()), Some(8));
        go.notify_one();
        for asked in asking.into_iter().skip(1) {
            let page = asked.await.expect("it goes on");
            assert_eq!(page.map(|page| page.packed.len()), Some(7));
        }
        assert_eq!(
            ask().await.expect("it is there").map(|it| it.packed.len()),
            Some(7)
        );
        assert_eq!(made.load(Ordering::Relaxed), 1);
    }

    #[test]
    fn what_is_packed_is_the_same_and_smaller() {
        let html = "<p>Quay wall</p>".repeat(1000);
        let page = Page::of(StatusCode::OK, &html);
        assert!(page.packed.len() < html.len() / 20, "{}", page.packed.len());
        assert_eq!(page.plain(), html);
    }

    #[tokio::test]
    async fn what_fails_is_tried_again() {
        let pages = Arc::new(Pages::default());
        let failed = pages.get("one".to_owned(), || async { Err(page(3)) }).await;
        assert_eq!(failed.map(|page| page.packed.len()), Some(3));
        let broken = pages.get("one".to_owned(), || async { panic!("on purpose") });
        assert!(broken.await.is_none());
        let made = pages.get("one".to_owned(), || async { Ok(page(5)) }).await;
        assert_eq!(made.map(|page| page.packed.len()), Some(5));
    }

    #[tokio::test]
    async fn no_more_is_kept_than_there_is_room_for() {
        let pages = Arc::new(Pages::default());
        let never = Arc::clone(&pages);
        tokio::spawn(async move { never.get("never".to_owned(), pending).await });
        for number in 0..2 * MOST {
            pages
                .get(number.to_string(), || async { Ok(page(1)) })
                .await;
            // This one is asked for again and again.
            let again = pages.get("0".to_owned(), || async { Ok(page(2)) }).await;
            assert_eq!(again.map(|page| page.packed.len()), Some(1));
        }
        assert!(pages.kept().pages.len() <= MOST);
        for number in 0..20 {
            let large = page(MOST_BYTES / 8);
            pages
                .get(format!("large {number}"), || async { Ok(large) })
                .await;
            let kept = pages.kept();
            assert!(kept.bytes <= MOST_BYTES);
            let counted: usize = kept.pages.values().map(|entry| entry.bytes).sum();
            assert_eq!(counted, kept.bytes);
        }
    }
}
