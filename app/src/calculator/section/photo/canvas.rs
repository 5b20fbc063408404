//! Pictures of the browser as pixels, and back.

use foldwright_photo::Pixels;
use leptos::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{ArrayBuffer, Promise, Uint8Array};
use web_sys::wasm_bindgen::prelude::Closure;
use web_sys::wasm_bindgen::{Clamped, JsCast as _, JsValue};
use web_sys::{
    Blob, CanvasRenderingContext2d, HtmlCanvasElement, HtmlVideoElement, ImageBitmap, ImageData,
};

/// As many pixels as the longer side of a picture is worked with at most: somewhat
/// more than what is kept of the sheet on it.
const WORKED: f64 = 2560.0;

/// What a picture is kept as, and how well: the first that is small enough. The Exif
/// of a camera, and the place in it, stay behind, since a canvas knows none.
const KEPT_AS: &str = "image/jpeg";
const QUALITIES: [f64; 3] = [0.85, 0.7, 0.5];

/// What a photograph of a side takes at most, in bytes, but for what cannot be made
/// smaller. (Own choice: two hundred of them are a few minutes of video.)
const SMALL_ENOUGH: f64 = 1_000_000.0;

/// The pixels of a picture in a file; `None` where it is none.
pub(super) async fn read(picture: &Blob) -> Option<Pixels> {
    let bitmap = window().create_image_bitmap_with_blob(picture).ok()?;
    let bitmap: ImageBitmap = JsFuture::from(bitmap).await.ok()?.dyn_into().ok()?;
    let size = [bitmap.width(), bitmap.height()].map(f64::from);
    let drawn = drawn(size, |canvas, [width, height]| {
        canvas.draw_image_with_image_bitmap_and_dw_and_dh(&bitmap, 0.0, 0.0, width, height)
    });
    bitmap.close();
    drawn.map(|(pixels, _)| pixels)
}

/// What a camera shows now: its pixels, and the same as a picture.
pub(super) async fn shot(video: &HtmlVideoElement) -> Option<(Pixels, Blob)> {
    let size = [video.video_width(), video.video_height()].map(f64::from);
    let (pixels, canvas) = drawn(size, |canvas, [width, height]| {
        canvas.draw_image_with_html_video_element_and_dw_and_dh(video, 0.0, 0.0, width, height)
    })?;
    Some((pixels, blob(&canvas, QUALITIES[0]).await?))
}

/// Draws something of that size on a canvas, no larger than pictures are worked with.
fn drawn(
    [width, height]: [f64; 2],
    draw: impl FnOnce(&CanvasRenderingContext2d, [f64; 2]) -> Result<(), JsValue>,
) -> Option<(Pixels, HtmlCanvasElement)> {
    let smaller = (WORKED / width.max(height)).min(1.0);
    let size = [width, height].map(|side| (side * smaller).round().max(1.0));
    let (canvas, context) = canvas(size)?;
    draw(&context, size).ok()?;
    let data = context.get_image_data(0.0, 0.0, size[0], size[1]).ok()?;
    let pixels = Pixels::new(data.width(), data.height(), data.data().0)?;
    Some((pixels, canvas))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "whole numbers of a few thousand"
)]
fn canvas([width, height]: [f64; 2]) -> Option<(HtmlCanvasElement, CanvasRenderingContext2d)> {
    let canvas = document().create_element("canvas").ok()?;
    let canvas: HtmlCanvasElement = canvas.dyn_into().ok()?;
    canvas.set_width(width as u32);
    canvas.set_height(height as u32);
    let context = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    Some((canvas, context))
}

/// A picture as the file that is kept of it.
pub(super) async fn file(pixels: &Pixels) -> Option<Blob> {
    let (width, height) = (pixels.width(), pixels.height());
    let (canvas, context) = canvas([width, height].map(f64::from))?;
    let bytes = Clamped(pixels.bytes());
    let data = ImageData::new_with_u8_clamped_array_and_sh(bytes, width, height).ok()?;
    context.put_image_data(&data, 0.0, 0.0).ok()?;
    let mut smallest = None;
    for quality in QUALITIES {
        let made = blob(&canvas, quality).await?;
        let is_small = made.size() <= SMALL_ENOUGH;
        smallest = Some(made);
        if is_small {
            break;
        }
    }
    smallest
}

async fn blob(canvas: &HtmlCanvasElement, quality: f64) -> Option<Blob> {
    let made = Promise::new(&mut |done, refused| {
        let take = Closure::once_into_js(move |made: JsValue| {
            // A promise's own function, which takes anything.
            let _ = done.call1(&JsValue::NULL, &made);
        });
        let asked = canvas.to_blob_with_type_and_encoder_options(
            take.unchecked_ref(),
            KEPT_AS,
            &quality.into(),
        );
        if let Err(why) = asked {
            let _ = refused.call1(&JsValue::NULL, &why);
        }
    });
    JsFuture::from(made).await.ok()?.dyn_into().ok()
}

/// The bytes of a file.
pub(in crate::calculator::section) async fn bytes(of: &Blob) -> Option<Vec<u8>> {
    let read = JsFuture::from(of.array_buffer()).await.ok()?;
    let read: ArrayBuffer = read.dyn_into().ok()?;
    Some(Uint8Array::new(&read).to_vec())
}
