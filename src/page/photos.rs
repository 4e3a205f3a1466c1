//! Photos of machines' plates, in the browser's database: local storage has no room for pictures. The only module that asks for it.

use leptos::wasm_bindgen::JsValue;
use record::{PHOTO_PREFIX, Photo};
use rexie::{ObjectStore, Rexie, Store, Transaction, TransactionMode};
use std::cell::RefCell;
use std::collections::HashMap;

const DATABASE: &str = "pairwright";
const PHOTOS: &str = "photos";

thread_local! {
    /// The photos of machines that were deleted since the page was opened: they come back with their machines.
    static GONE: RefCell<HashMap<String, Photo>> = RefCell::new(HashMap::new());
}

/// What is to be done with the photos, and the transaction in which it is done.
async fn photos(mode: TransactionMode) -> rexie::Result<(Transaction, Store)> {
    let database = Rexie::builder(DATABASE).version(1).add_object_store(ObjectStore::new(PHOTOS)).build().await?;
    let transaction = database.transaction(&[PHOTOS], mode)?;
    let store = transaction.store(PHOTOS)?;
    Ok((transaction, store))
}

/// All photos as texts with their keys; none where the browser keeps no database for this page.
pub async fn all() -> Vec<(String, String)> {
    let read = async {
        let (_transaction, store) = photos(TransactionMode::ReadOnly).await?;
        let pairs = store.scan(None, None, None, None).await?;
        let text = |(key, value): (JsValue, JsValue)| key.as_string().zip(value.as_string());
        rexie::Result::Ok(pairs.into_iter().filter_map(text).collect())
    };
    read.await.unwrap_or_default()
}

/// The photo of a machine's plate.
pub async fn of(machine: &str) -> Option<Photo> {
    let key = format!("{PHOTO_PREFIX}{machine}");
    let (_transaction, store) = photos(TransactionMode::ReadOnly).await.ok()?;
    let text = store.get(key.into()).await.ok()??.as_string()?;
    Photo::decode(&text).ok()
}

/// Keeps a photo's text under its key; whether it worked.
pub async fn keep(key: &str, text: &str) -> bool {
    let kept = async {
        let (transaction, store) = photos(TransactionMode::ReadWrite).await?;
        store.put(&text.into(), Some(&key.into())).await?;
        transaction.done().await
    };
    kept.await.is_ok()
}

/// Deletes the photo of a machine's plate; whether it worked.
pub async fn remove(machine: &str) -> bool {
    let key = format!("{PHOTO_PREFIX}{machine}");
    let removed = async {
        let (transaction, store) = photos(TransactionMode::ReadWrite).await?;
        store.delete(key.as_str().into()).await?;
        transaction.done().await
    };
    removed.await.is_ok()
}

/// Deletes the photo of a machine that is deleted.
pub async fn gone_with(machine: String) {
    if let Some(photo) = of(&machine).await
        && remove(&machine).await
    {
        GONE.with_borrow_mut(|gone| gone.insert(machine, photo));
    }
}

/// Keeps the photo of a machine again that comes back.
pub async fn back_with(machine: String) {
    if let Some(photo) = GONE.with_borrow_mut(|gone| gone.remove(&machine)) {
        keep(&photo.key(), &photo.encode()).await;
    }
}
