//! How a device finds back into its workshop when its browser has cleared what
//! the app kept: for want of room, or after weeks without a visit.
//!
//! Browsers leave cookies alone then. One of them holds the device's key; no
//! script can read it, and no address is shown it but the one that gives the
//! place back. Another can be read, and says that there is the first: a device
//! that was never paired asks nothing.

use leptos::prelude::*;
use leptos::server_fn::codec::Json;

use crate::{Joined, Refused};

/// The name of the cookie that says that a server on this port can give a
/// place back.
pub fn mark(port: &str) -> String {
    format!("foldwright-paired-{port}")
}

/// The place of the device whose key comes along in the cookie; none where no
/// key comes, or one that no longer opens anything.
#[server(name = Recover, prefix = "/api", endpoint = "workshop/recover", input = Json, output = Json)]
pub async fn recover() -> Result<Option<Joined>, Refused> {
    crate::answering::answer(async |asked: crate::Asked| {
        let Some(key) = cookies::key() else {
            return Ok(None);
        };
        match asked.workshops.place(&key).await {
            Ok(joined) => {
                cookies::keep(&asked, &joined.key);
                Ok(Some(joined))
            }
            Err(Refused::NoKey) => {
                cookies::forget(&asked);
                Ok(None)
            }
            Err(why) => Err(why),
        }
    })
    .await
}

#[cfg(feature = "ssr")]
pub(crate) mod cookies {
    use axum::http::header::{COOKIE, HOST, SET_COOKIE};
    use axum::http::request::Parts;
    use axum::http::{HeaderMap, HeaderValue};
    use leptos::prelude::use_context;
    use leptos_axum::ResponseOptions;

    use super::mark;
    use crate::Asked;

    /// How long they are kept: 400 days, the longest browsers grant. They are
    /// written anew whenever the devices are looked at.
    const KEPT: u32 = 400 * 24 * 60 * 60;
    /// The only address that is shown the key.
    const ADDRESS: &str = "/api/workshop/recover";

    /// Lets the browser keep the key of the device that asks.
    pub(crate) fn keep(asked: &Asked, key: &str) {
        write(asked, key, "1", KEPT);
    }

    /// Lets the browser forget it.
    pub(crate) fn forget(asked: &Asked) {
        write(asked, "", "", 0);
    }

    /// The key that came along.
    pub(crate) fn key() -> Option<String> {
        let parts = use_context::<Parts>()?;
        let name = named(&port(&parts.headers));
        let texts = parts.headers.get_all(COOKIE).iter();
        let mut all = texts.filter_map(|text| text.to_str().ok());
        all.find_map(|text| {
            let mut pairs = text.split(';').filter_map(|pair| pair.split_once('='));
            let (_, key) = pairs.find(|(other, _)| other.trim() == name)?;
            Some(key.trim().to_owned())
        })
    }

    fn named(port: &str) -> String {
        format!("foldwright-key-{port}")
    }

    /// The port that was asked; nothing for the usual one. Cookies do not tell
    /// ports apart by themselves.
    fn port(headers: &HeaderMap) -> String {
        let host = headers.get(HOST).and_then(|host| host.to_str().ok());
        let port = host.and_then(|host| host.rsplit_once(':'));
        let port = port.map(|(_, port)| port).unwrap_or_default();
        port.chars().filter(char::is_ascii_digit).collect()
    }

    fn write(asked: &Asked, key: &str, said: &str, age: u32) {
        let (Some(parts), Some(answer)) =
            (use_context::<Parts>(), use_context::<ResponseOptions>())
        else {
            return;
        };
        let port = port(&parts.headers);
        let secure = if asked.address.starts_with("https://") {
            "; Secure"
        } else {
            ""
        };
        let rest = format!("Max-Age={age}; SameSite=Strict{secure}");
        for cookie in [
            format!("{}={key}; Path={ADDRESS}; HttpOnly; {rest}", named(&port)),
            format!("{}={said}; Path=/; {rest}", mark(&port)),
        ] {
            // A key is of letters and digits that a header may hold.
            if let Ok(cookie) = HeaderValue::from_str(&cookie) {
                answer.append_header(SET_COOKIE, cookie);
            }
        }
    }
}
