//! An SVG made a PNG by the browser.

use crate::browser::files::{blob_of, hand_over, loose_element};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, CanvasRenderingContext2d, HtmlCanvasElement, HtmlImageElement, Url};

/// Points of the PNG for one CSS pixel.
const FINE: f64 = 2.0;

/// Hands a picture to the browser as a download in PNG, twice as fine as it is shown.
///
/// # Arguments
/// * `svg` - markup that needs nothing beside it
/// * `size` - its width and height, CSS pixels
///
/// # Errors
/// What the browser says.
pub async fn download_png(name: &str, svg: &str, size: (f64, f64)) -> Result<(), JsValue> {
    let address = Url::create_object_url_with_blob(&blob_of("image/svg+xml", svg)?)?;
    let blob = painted(&address, (FINE * size.0, FINE * size.1)).await;
    Url::revoke_object_url(&address)?;
    hand_over(name, &blob?)
}

async fn painted(address: &str, (width, height): (f64, f64)) -> Result<Blob, JsValue> {
    let image = HtmlImageElement::new()?;
    image.set_src(address);
    JsFuture::from(image.decode()).await?;
    let canvas: HtmlCanvasElement = loose_element("canvas")?;
    canvas.set_width(width as u32);
    canvas.set_height(height as u32);
    let context = canvas
        .get_context("2d")?
        .and_then(|context| context.dyn_into::<CanvasRenderingContext2d>().ok())
        .ok_or_else(|| JsValue::from_str("no canvas"))?;
    context.draw_image_with_html_image_element_and_dw_and_dh(&image, 0.0, 0.0, width, height)?;
    let promise = js_sys::Promise::new(&mut |done, _| {
        // A canvas that cannot be read calls nothing: then the promise is refused.
        if canvas.to_blob(&done).is_err() {
            let _ = done.call0(&JsValue::NULL);
        }
    });
    JsFuture::from(promise)
        .await?
        .dyn_into::<Blob>()
        .map_err(|_| JsValue::from_str("no picture"))
}
