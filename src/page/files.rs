//! Files of the device: those that a person chooses to be read, and those that are handed out.

use super::{local_storage, photos};
use leptos::prelude::*;
use leptos::task::spawn_local;
use leptos::wasm_bindgen::JsCast;
use leptos::web_sys;
use record::photo::{LONGEST, scaled};
use table::{LONGEST_PICTURE, is_picture, is_picture_up_to};
use wasm_bindgen_futures::JsFuture;

/// The text of a file; else why not, as the end of a sentence. The size is asked first, so that a huge file is not even read.
pub async fn text_of(file: &web_sys::File, largest: usize) -> Result<String, String> {
    if file.size() > largest as f64 {
        return Err(format!("is larger than {} MB: split it.", largest / (1024 * 1024)));
    }
    let text = JsFuture::from(file.text()).await.ok().and_then(|text| text.as_string());
    text.ok_or_else(|| "cannot be read: choose it again.".to_owned())
}

/// Gives the person a text as a file.
pub fn download(name: &str, text: &str) {
    if let Ok(blob) = web_sys::Blob::new_with_str_sequence(&js_sys::Array::of1(&text.into())) {
        hand_out(name, &blob);
    }
}

/// Gives the person bytes as a file.
pub fn download_bytes(name: &str, bytes: &js_sys::Uint8Array) {
    if let Ok(blob) = web_sys::Blob::new_with_u8_array_sequence(&js_sys::Array::of1(bytes)) {
        hand_out(name, &blob);
    }
}

fn hand_out(name: &str, blob: &web_sys::Blob) {
    let Ok(address) = web_sys::Url::create_object_url_with_blob(blob) else { return };
    if let Ok(link) = document().create_element("a")
        && let Ok(link) = link.dyn_into::<web_sys::HtmlAnchorElement>()
    {
        link.set_href(&address);
        link.set_download(name);
        link.click();
    }
    let _ = web_sys::Url::revoke_object_url(&address);
}

/// Gives the person everything that is kept here as one file.
pub fn export() {
    spawn_local(async {
        let (name, text) = local_storage::exported(photos::all().await);
        download(&name, &text);
    });
}

/// A file as a picture within a text; none where it is no picture that a page may show, or too large.
pub async fn picture_of(file: &web_sys::File) -> Option<String> {
    // In base64 three bytes become four characters.
    if file.size() > LONGEST_PICTURE as f64 * 0.75 {
        return None;
    }
    let bytes = js_sys::Uint8Array::new(&JsFuture::from(file.array_buffer()).await.ok()?);
    let letters: String = bytes.to_vec().into_iter().map(char::from).collect();
    let address = format!("data:{};base64,{}", file.type_(), window().btoa(&letters).ok()?);
    is_picture(&address).then_some(address)
}

/// A photo as a picture within a text, scaled down to what is kept of a plate; none where the browser cannot read it.
pub async fn scaled_picture_of(file: &web_sys::File) -> Option<String> {
    let bitmap = JsFuture::from(window().create_image_bitmap_with_blob(file).ok()?).await.ok()?;
    let bitmap: web_sys::ImageBitmap = bitmap.dyn_into().ok()?;
    let (width, height) = scaled(bitmap.width(), bitmap.height());
    let canvas: web_sys::HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.set_width(width);
    canvas.set_height(height);
    let pen: web_sys::CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    pen.draw_image_with_image_bitmap_and_dw_and_dh(&bitmap, 0.0, 0.0, f64::from(width), f64::from(height)).ok()?;
    // The finest that has room.
    let drawn = |fineness: f64| canvas.to_data_url_with_type_and_encoder_options("image/jpeg", &fineness.into()).ok();
    [0.8, 0.6, 0.4].into_iter().filter_map(drawn).find(|picture| is_picture_up_to(picture, LONGEST))
}
