//! Pictures of the browser on a canvas, as pixels, and as files.

use foldwright_photo::Pixels;
use leptos::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{ArrayBuffer, Promise, Uint8Array};
use web_sys::wasm_bindgen::prelude::Closure;
use web_sys::wasm_bindgen::{Clamped, JsCast as _, JsValue};
use web_sys::{
    Blob, CanvasRenderingContext2d, HtmlCanvasElement, HtmlVideoElement, ImageBitmap, ImageData,
};

use super::Taken;

/// What a picture is kept as, and how well: the first that is small enough. The Exif
/// of a camera, and the place in it, stay behind, since a canvas knows none.
const KEPT_AS: &str = "image/jpeg";
const QUALITIES: [f64; 3] = [0.85, 0.7, 0.5];

/// What a photograph takes at most, in bytes, but for what cannot be made smaller.
/// (Own choice: two hundred of them are a few minutes of video.)
const SMALL_ENOUGH: f64 = 1_000_000.0;

/// The picture in a file, with so many pixels along the longer side at most; `None`
/// where it is none.
pub(super) async fn read(picture: &Blob, most: u32) -> Option<HtmlCanvasElement> {
    let bitmap = window().create_image_bitmap_with_blob(picture).ok()?;
    let bitmap: ImageBitmap = JsFuture::from(bitmap).await.ok()?.dyn_into().ok()?;
    let size = [bitmap.width(), bitmap.height()];
    let drawn = drawn(size, most, |canvas, [width, height]| {
        canvas.draw_image_with_image_bitmap_and_dw_and_dh(&bitmap, 0.0, 0.0, width, height)
    });
    bitmap.close();
    drawn
}

/// What a camera shows now, with so many pixels along the longer side at most.
pub(super) async fn shot(video: &HtmlVideoElement, most: u32) -> Option<Taken> {
    let size = [video.video_width(), video.video_height()];
    let canvas = drawn(size, most, |canvas, [width, height]| {
        canvas.draw_image_with_html_video_element_and_dw_and_dh(video, 0.0, 0.0, width, height)
    })?;
    let picture = blob(&canvas, QUALITIES[0]).await?;
    Some(Taken { canvas, picture })
}

/// Draws something of that size on a canvas that is no larger.
fn drawn(
    size: [u32; 2],
    most: u32,
    draw: impl FnOnce(&CanvasRenderingContext2d, [f64; 2]) -> Result<(), JsValue>,
) -> Option<HtmlCanvasElement> {
    let size = no_larger(size, most);
    let (canvas, context) = canvas(size)?;
    draw(&context, size.map(f64::from)).ok()?;
    Some(canvas)
}

/// A width and height of the same shape, the longer no more than `most`, both in whole
/// pixels.
fn no_larger(size: [u32; 2], most: u32) -> [u32; 2] {
    let longer = u64::from(size[0].max(size[1])).max(1);
    let most = u64::from(most).min(longer);
    size.map(|side| {
        let rounded = (u64::from(side) * most + longer / 2) / longer;
        u32::try_from(rounded).unwrap_or(u32::MAX).max(1)
    })
}

fn canvas([width, height]: [u32; 2]) -> Option<(HtmlCanvasElement, CanvasRenderingContext2d)> {
    let canvas = document().create_element("canvas").ok()?;
    let canvas: HtmlCanvasElement = canvas.dyn_into().ok()?;
    canvas.set_width(width);
    canvas.set_height(height);
    let context = context(&canvas)?;
    Some((canvas, context))
}

fn context(canvas: &HtmlCanvasElement) -> Option<CanvasRenderingContext2d> {
    canvas.get_context("2d").ok()??.dyn_into().ok()
}

/// The pixels of a picture.
pub(crate) fn pixels(canvas: &HtmlCanvasElement) -> Option<Pixels> {
    let size = [canvas.width(), canvas.height()].map(f64::from);
    let data = context(canvas)?.get_image_data(0.0, 0.0, size[0], size[1]);
    let data = data.ok()?;
    Pixels::new(data.width(), data.height(), data.data().0)
}

/// Paints these pixels on a canvas, which gets their size.
pub(crate) fn paint(pixels: &Pixels, canvas: &HtmlCanvasElement) -> Option<()> {
    let (width, height) = (pixels.width(), pixels.height());
    canvas.set_width(width);
    canvas.set_height(height);
    let bytes = Clamped(pixels.bytes());
    let data = ImageData::new_with_u8_clamped_array_and_sh(bytes, width, height).ok()?;
    context(canvas)?.put_image_data(&data, 0.0, 0.0).ok()
}

/// A picture as the file that is kept of it.
pub(crate) async fn file(canvas: &HtmlCanvasElement) -> Option<Blob> {
    let mut smallest = None;
    for quality in QUALITIES {
        let made = blob(canvas, quality).await?;
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
pub(crate) async fn bytes(of: &Blob) -> Option<Vec<u8>> {
    let read = JsFuture::from(of.array_buffer()).await.ok()?;
    let read: ArrayBuffer = read.dyn_into().ok()?;
    Some(Uint8Array::new(&read).to_vec())
}

#[cfg(test)]
mod tests {
    use super::no_larger;

    /// Worked by hand.
    #[test]
    fn pictures_become_smaller_in_their_shape_and_never_larger() {
        assert_eq!(no_larger([4096, 3072], 2048), [2048, 1536]);
        assert_eq!(no_larger([3000, 4000], 2048), [1536, 2048]);
        assert_eq!(no_larger([4000, 2251], 2048), [2048, 1153]);
        assert_eq!(no_larger([1200, 900], 2048), [1200, 900]);
        assert_eq!(no_larger([9000, 1], 2048), [2048, 1]);
        assert_eq!(no_larger([0, 0], 2048), [1, 1]);
    }
}
