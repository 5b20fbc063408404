//! What to send of what there is: the `Accept-Encoding` and `Accept-Language` of
//! RFC 9110, §12.5.3 and §12.5.4.

use axum::http::HeaderMap;
use axum::http::header::{ACCEPT_LANGUAGE, IF_NONE_MATCH};
use foldwright_app::Paper;
use foldwright_words::Language;

/// The language that is asked for most, or else the one that is spoken where
/// none is asked for.
pub(crate) fn language(headers: &HeaderMap) -> Language {
    let accepted = headers.get(ACCEPT_LANGUAGE);
    let accepted = accepted.and_then(|accepted| accepted.to_str().ok());
    accepted.and_then(Language::accepted).unwrap_or_default()
}

/// On which paper somebody probably prints, by the first country that their
/// languages name: Letter in North America, as the app takes inches there, and A4
/// everywhere else.
pub(crate) fn paper(headers: &HeaderMap) -> Paper {
    let accepted = headers.get(ACCEPT_LANGUAGE);
    let accepted = accepted.and_then(|accepted| accepted.to_str().ok());
    let mut ranges = accepted.unwrap_or_default().split(',');
    let country = ranges.find_map(|range| {
        let range = range.split(';').next().unwrap_or(range);
        // A country has two letters (ISO 3166-1), a script four.
        let mut parts = range.trim().split('-').skip(1);
        parts.find(|part| part.len() == 2)
    });
    let country = country.unwrap_or_default();
    if ["US", "CA"]
        .iter()
        .any(|it| country.eq_ignore_ascii_case(it))
    {
        Paper::Letter
    } else {
        Paper::A4
    }
}

/// Whether whoever asks has what has this entity tag (RFC 9110, §13.1.2).
pub(crate) fn is_known(headers: &HeaderMap, tag: &str) -> bool {
    let known = headers.get(IF_NONE_MATCH);
    let known = known.and_then(|known| known.to_str().ok());
    let mut known = known.unwrap_or_default().split(',');
    known.any(|known| {
        let known = known.trim().trim_start_matches("W/");
        known == tag || known == "*"
    })
}

/// A form a file can be sent in, the better first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Coding {
    Brotli,
    Gzip,
    Plain,
}

impl Coding {
    /// The name in headers.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Brotli => "br",
            Self::Gzip => "gzip",
            Self::Plain => "identity",
        }
    }
}

/// The best form among those at `hand` for a browser that sent `accept`.
/// Plain bytes are always at hand, and are sent even to a browser that
/// refuses everything: that serves it better than nothing.
pub(crate) fn best(accept: &str, at_hand: &[Coding]) -> Coding {
    let mut best = (Coding::Plain, weight(accept, Coding::Plain));
    for coding in at_hand.iter().rev() {
        let weight = weight(accept, *coding);
        if weight > 0 && weight >= best.1 {
            best = (*coding, weight);
        }
    }
    best.0
}

/// How much the browser wants a form, from 0, not at all, to 1000.
fn weight(accept: &str, coding: Coding) -> u16 {
    let mut any = None;
    for part in accept.split(',') {
        let (name, parameters) = part.split_once(';').unwrap_or((part, ""));
        let name = name.trim();
        if name.eq_ignore_ascii_case(coding.name()) {
            return quality(parameters);
        }
        if name == "*" {
            any = Some(quality(parameters));
        }
    }
    match (any, coding) {
        (Some(quality), _) => quality,
        // Not named, plain bytes are welcome, but any named form is more so.
        (None, Coding::Plain) => 1,
        (None, _) => 0,
    }
}

/// The value of `q` in thousandths; nonsense counts as refusal.
fn quality(parameters: &str) -> u16 {
    let Some((name, value)) = parameters.split_once('=') else {
        return 1000;
    };
    if !name.trim().eq_ignore_ascii_case("q") {
        return 1000;
    }
    let value = value.trim();
    let (whole, digits) = value.split_once('.').unwrap_or((value, ""));
    match (whole, format!("{digits:0<3}").parse::<u16>()) {
        ("1", Ok(0)) => 1000,
        ("0", Ok(thousandths)) if thousandths < 1000 => thousandths,
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use axum::http::header::ACCEPT_LANGUAGE;
    use axum::http::{HeaderMap, HeaderValue};
    use foldwright_app::Paper;

    use super::{Coding, best, paper};

    const ALL: [Coding; 2] = [Coding::Brotli, Coding::Gzip];

    /// Letter is the paper of North America (ANSI/ASME Y14.1), A4 that of the rest of
    /// the world (ISO 216; common practice).
    #[test]
    fn paper_follows_the_country() {
        for (accepted, expected) in [
            ("en-US,en;q=0.9", Paper::Letter),
            ("fr-CA", Paper::Letter),
            ("en, en-us;q=0.5", Paper::Letter),
            ("en-GB,en-US;q=0.5", Paper::A4),
            ("zh-Hans-CN", Paper::A4),
            ("de", Paper::A4),
            ("", Paper::A4),
        ] {
            let mut headers = HeaderMap::new();
            headers.insert(ACCEPT_LANGUAGE, HeaderValue::from_static(accepted));
            assert_eq!(paper(&headers), expected, "{accepted}");
        }
    }

    #[test]
    fn browsers_get_brotli() {
        assert_eq!(best("gzip, deflate, br, zstd", &ALL), Coding::Brotli);
    }

    /// The examples of RFC 9110, §12.5.3.
    #[test]
    fn the_examples_of_the_standard() {
        assert_eq!(best("compress, gzip", &ALL), Coding::Gzip);
        assert_eq!(best("", &ALL), Coding::Plain);
        assert_eq!(best("*", &ALL), Coding::Brotli);
        assert_eq!(best("compress;q=0.5, gzip;q=1.0", &ALL), Coding::Gzip);
        assert_eq!(
            best("gzip;q=1.0, identity; q=0.5, *;q=0", &ALL),
            Coding::Gzip
        );
    }

    #[test]
    fn weights_decide_before_our_own_order() {
        assert_eq!(best("br;q=0.1, gzip;q=0.9", &ALL), Coding::Gzip);
        assert_eq!(best("br;q=0, gzip;q=0, identity", &ALL), Coding::Plain);
        assert_eq!(best("BR;Q=0.001", &ALL), Coding::Brotli);
        assert_eq!(best("br;q=2, gzip;q=abc", &ALL), Coding::Plain);
    }

    #[test]
    fn what_is_not_at_hand_is_not_chosen() {
        assert_eq!(best("br, gzip", &[]), Coding::Plain);
        assert_eq!(best("br, identity;q=0", &[Coding::Gzip]), Coding::Plain);
    }
}
