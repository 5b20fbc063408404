//! The app's page around what the server writes into it, which stands where the
//! app will.

use axum::http::StatusCode;
use foldwright_app::Written;
use foldwright_words::Language;

use crate::pages::Page;
use crate::site::Site;

/// Where the page holds what the app replaces, and what comes after it.
const PLACE: (&str, &str) = ("<div id=\"app\">", "</div>\n</body>");
const TITLE: &str = "<title>Foldwright</title>";

/// The app's page around what is written into it.
pub(crate) struct Frame {
    language: Language,
    before_title: String,
    before_body: String,
    after: String,
    /// With nothing written into it.
    app: String,
}

impl Frame {
    /// That of the app in a language.
    pub(crate) fn of(site: &Site, language: Language) -> Self {
        let page = site
            .asset("/", language)
            .map(|page| String::from_utf8_lossy(page.plain()));
        let page = page.unwrap_or_default();
        let (before_title, rest) = page.split_once(TITLE).unwrap_or(("", &page));
        let (before, rest) = rest.split_once(PLACE.0).unwrap_or((rest, ""));
        let after = rest.rfind(PLACE.1).and_then(|at| rest.get(at..));
        Self {
            language,
            before_title: before_title.to_owned(),
            before_body: format!("{before}{}", PLACE.0),
            after: after.unwrap_or(PLACE.1).to_owned(),
            app: page.into_owned(),
        }
    }

    pub(crate) fn language(&self) -> Language {
        self.language
    }

    /// What is written, in it.
    pub(crate) fn page(&self, status: StatusCode, written: &Written) -> Page {
        Page::of(status, &self.around(written))
    }

    /// The page in which the app alone will be.
    pub(crate) fn empty(&self) -> Page {
        Page::of(StatusCode::OK, &self.app)
    }

    fn around(&self, page: &Written) -> String {
        let Written { title, body } = page;
        let Self {
            before_title,
            before_body,
            after,
            ..
        } = self;
        format!("{before_title}{title}{before_body}\n{body}\n{after}")
    }
}

#[cfg(test)]
mod tests {
    use foldwright_app::Written;
    use foldwright_words::Language;

    use super::Frame;
    use crate::site::Site;

    #[test]
    fn what_is_written_stands_where_the_app_will() {
        let site = Site::embedded();
        let written = Written {
            title: "<title>Quay</title>".to_owned(),
            body: "<p>Quay wall</p>".to_owned(),
        };
        for language in Language::ALL {
            let around = Frame::of(&site, language).around(&written);
            assert_eq!(around.matches("<html lang=").count(), 1);
            let html = format!("<html lang=\"{}\">", language.tag());
            assert!(around.contains(&html), "{html}");
            assert!(around.contains(language.no_app().purpose), "{around}");
        }
        let page = site.asset("/", Language::English);
        let page = String::from_utf8_lossy(page.expect("the site has a page").plain());
        let around = Frame::of(&site, Language::English).around(&written);
        assert_eq!(around.matches("<title>").count(), 1);
        assert!(around.contains("<div id=\"app\">\n<p>Quay wall</p>\n</div>"));
        assert!(!around.contains("class=\"starting\""));
        assert!(around.starts_with("<!doctype html>") && around.trim_end().ends_with("</html>"));
        let head = |page: &str| page.matches("rel=\"stylesheet\"").count();
        assert_eq!(head(&around), head(&page));
    }
}
