//! The program for spreadsheets: a worker beside the page (`public/importer.js`), started when it is first needed.

use js_sys::{Array, Function, Object, Promise, Reflect, Uint8Array};
use leptos::wasm_bindgen::closure::Closure;
use leptos::wasm_bindgen::{JsCast, JsValue};
use leptos::web_sys::{ErrorEvent, MessageEvent, Worker, WorkerOptions, WorkerType};
use std::cell::RefCell;
use std::collections::HashMap;
use wasm_bindgen_futures::JsFuture;

/// The worker's script beside the page.
const SCRIPT: &str = "importer.js";

/// Why there is no answer.
pub enum Fault {
    /// The program cannot be had: it was never fetched, and there is no signal.
    Away,
    /// What it says.
    Said(String),
}

/// The worker and who waits for its answers, by their numbers.
struct Program {
    worker: Worker,
    waits: HashMap<String, Function>,
    last: u32,
}

thread_local! {
    static PROGRAM: RefCell<Option<Program>> = const { RefCell::new(None) };
}

fn start() -> Option<Program> {
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = Worker::new_with_options(SCRIPT, &options).ok()?;
    let hear = Closure::<dyn Fn(MessageEvent)>::new(|event: MessageEvent| {
        let data: Array = event.data().unchecked_into();
        let number = data.get(0).as_string().unwrap_or_default();
        let waits = PROGRAM.with_borrow_mut(|program| program.as_mut()?.waits.remove(&number));
        if let Some(take) = waits {
            let _ = take.call1(&JsValue::NULL, &data.get(1));
        }
    });
    worker.set_onmessage(Some(hear.into_js_value().unchecked_ref()));
    // A script that cannot be fetched, or a fault of the program itself: whoever waits is told, and the next one starts anew.
    let fail = Closure::<dyn Fn(ErrorEvent)>::new(|event: ErrorEvent| {
        event.prevent_default();
        let gone = PROGRAM.with_borrow_mut(Option::take);
        if let Some(Program { worker, waits, .. }) = gone {
            worker.terminate();
            for take in waits.into_values() {
                let _ = take.call1(&JsValue::NULL, &object([("away", JsValue::TRUE), ("fault", "".into())]));
            }
        }
    });
    worker.set_onerror(Some(fail.into_js_value().unchecked_ref()));
    Some(Program { worker, waits: HashMap::new(), last: 0 })
}

/// An object of a script.
pub fn object<const N: usize>(members: [(&str, JsValue); N]) -> JsValue {
    let object = Object::new();
    for (name, value) in members {
        let _ = Reflect::set(&object, &name.into(), &value);
    }
    object.into()
}

/// A member of an answer.
fn member(answer: &JsValue, name: &str) -> JsValue {
    Reflect::get(answer, &name.into()).unwrap_or(JsValue::UNDEFINED)
}

/// What a file or pasted cells were read as.
pub struct Answered {
    /// JSON of what it says.
    pub reading: String,
    /// JSON of the table.
    pub table: String,
    /// The fingerprint of the layout.
    pub layout: String,
    /// The answers about an earlier file of its layout that were used, JSON.
    pub known: Option<String>,
}

/// Asks for a reading.
pub async fn read(asked: JsValue) -> Result<Answered, Fault> {
    let answer = ask(asked).await?;
    let text = |name: &str| member(&answer, name).as_string();
    let words = |name: &str| text(name).unwrap_or_default();
    Ok(Answered { reading: words("reading"), table: words("table"), layout: words("layout"), known: text("known") })
}

/// Asks for the bytes of a workbook, or of texts packed together.
pub async fn write(table: &str, packed: bool) -> Result<Uint8Array, Fault> {
    let answer = ask(object([("write", table.into()), ("packed", packed.into())])).await?;
    member(&answer, "bytes").dyn_into().map_err(|_| Fault::Away)
}

async fn ask(asked: JsValue) -> Result<JsValue, Fault> {
    let answered = Promise::new(&mut |take, _| {
        let asked = &asked;
        let said = PROGRAM.with_borrow_mut(|program| {
            if program.is_none() {
                *program = start();
            }
            let program = program.as_mut()?;
            program.last += 1;
            let number = program.last.to_string();
            program.waits.insert(number.clone(), take.clone());
            program.worker.post_message(&Array::of2(&number.into(), asked)).ok()
        });
        if said.is_none() {
            let _ = take.call1(&JsValue::NULL, &object([("away", JsValue::TRUE), ("fault", "".into())]));
        }
    });
    let answer = JsFuture::from(answered).await.map_err(|_| Fault::Away)?;
    match member(&answer, "fault").as_string() {
        _ if member(&answer, "away").is_truthy() => Err(Fault::Away),
        Some(words) => Err(Fault::Said(words)),
        None => Ok(answer),
    }
}
