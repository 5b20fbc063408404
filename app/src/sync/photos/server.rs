//! Asking the server for photographs.

use std::collections::BTreeMap;

use foldwright_api::{NotTaken, PHOTOS, Photo, Refused, SHARED_PHOTO};
use foldwright_engine::paper::PhotoId;
use leptos::prelude::window;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Object, Promise, Uint8Array};
use web_sys::wasm_bindgen::{JsCast as _, JsValue};

use crate::by_name::{call, of, of_browser, set};

/// How long an answer is waited for, in milliseconds. Our own bound: the largest
/// photograph takes a minute at 200 kbit/s.
const PATIENCE: u32 = 120_000;

/// Why something did not come about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Not {
    /// The server was not reached.
    Reached,
    /// The server does not do it.
    Done(NotTaken),
}

/// A question to the server.
struct Question<'a> {
    method: &'a str,
    address: &'a str,
    /// Of the device that asks; nothing where none is asked for.
    key: Option<&'a str>,
    file: Option<&'a [u8]>,
}

/// The photographs of the workshop, and how large each is.
pub(super) async fn list(key: &str) -> Result<BTreeMap<PhotoId, u64>, Not> {
    let said = of_workshop("GET", PHOTOS, key, None).await?;
    let photos: Vec<Photo> = serde_json::from_slice(&said).map_err(|_| Not::Reached)?;
    let photos = photos.into_iter();
    Ok(photos
        .filter_map(|photo| Some((photo.name.parse().ok()?, photo.bytes)))
        .collect())
}

/// The file of a photograph of the workshop.
pub(super) async fn get(key: &str, photo: PhotoId) -> Result<Vec<u8>, Not> {
    of_workshop("GET", &address(photo), key, None).await
}

/// Sends a photograph.
pub(super) async fn put(key: &str, photo: PhotoId, file: &[u8]) -> Result<(), Not> {
    let sent = of_workshop("PUT", &address(photo), key, Some(file)).await;
    sent.map(drop)
}

/// Has a photograph forgotten.
pub(super) async fn delete(key: &str, photo: PhotoId) -> Result<(), Not> {
    let done = of_workshop("DELETE", &address(photo), key, None).await;
    done.map(drop)
}

/// The file of a photograph of what a link opens.
pub(super) async fn of_link(token: &str, photo: PhotoId) -> Result<Vec<u8>, Not> {
    ask(Question {
        method: "GET",
        address: &format!("/shared/{token}?{SHARED_PHOTO}={photo}"),
        key: None,
        file: None,
    })
    .await
}

fn address(photo: PhotoId) -> String {
    format!("{PHOTOS}/{photo}")
}

async fn of_workshop(
    method: &str,
    address: &str,
    key: &str,
    file: Option<&[u8]>,
) -> Result<Vec<u8>, Not> {
    ask(Question {
        method,
        address,
        key: Some(key),
        file,
    })
    .await
}

async fn ask(question: Question<'_>) -> Result<Vec<u8>, Not> {
    let (status, body) = answered(question).await.map_err(|_| Not::Reached)?;
    match status {
        200..=299 => Ok(body),
        // Whatever the rest of the answer is.
        404 => Err(Not::Done(NotTaken::Refused(Refused::Missing))),
        // What is none of these was said by something on the way.
        _ => Err(serde_json::from_slice(&body).map_or(Not::Reached, Not::Done)),
    }
}

/// The status of an answer and what it holds.
async fn answered(question: Question<'_>) -> Result<(u64, Vec<u8>), JsValue> {
    let options = Object::new();
    set(&options, "method", &question.method.into());
    // What is fetched is kept in a better place.
    set(&options, "cache", &"no-store".into());
    if let Some(key) = question.key {
        let headers = Object::new();
        set(&headers, "authorization", &format!("Bearer {key}").into());
        set(&options, "headers", &headers);
    }
    if let Some(file) = question.file {
        set(&options, "body", &Uint8Array::from(file));
    }
    if let Some(signals) = of_browser("AbortSignal")
        && let Ok(late) = call(&signals, "timeout", &[PATIENCE.into()])
    {
        set(&options, "signal", &late);
    }
    let address = question.address.into();
    let answer = promised(call(&window(), "fetch", &[address, options.into()])?).await?;
    let body = promised(call(&answer, "arrayBuffer", &[])?).await?;
    let status = of(&answer, "status").and_then(|status| status.as_f64());
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a status is a whole number of three digits"
    )]
    let status = status.unwrap_or_default() as u64;
    Ok((status, Uint8Array::new(&body).to_vec()))
}

async fn promised(promise: JsValue) -> Result<JsValue, JsValue> {
    JsFuture::from(promise.dyn_into::<Promise>()?).await
}
