//! The solver for `public/solver.js`, which runs it in a worker or in the page.

use intl::INTL;
use solver::{Message, Reply};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::wasm_bindgen;

/// Answers messages, a piece of work at a time.
#[wasm_bindgen]
pub struct Solver(solver::Solver);

#[wasm_bindgen]
impl Solver {
    /// One that knows nothing yet.
    #[wasm_bindgen(constructor)]
    #[allow(clippy::new_without_default)]
    pub fn new() -> Self {
        Self(solver::Solver::new(&INTL))
    }

    /// Takes a message.
    ///
    /// # Errors
    /// When it is no message: page and solver are of one build, so that is a fault of ours.
    pub fn hear(&mut self, message: &str) -> Result<(), JsValue> {
        let message = serde_json::from_str(message).map_err(|error| JsValue::from_str(&error.to_string()))?;
        self.0.hear(message);
        Ok(())
    }

    /// Takes a table into use under its mark.
    #[wasm_bindgen(js_name = takeTable)]
    pub fn take_table(&mut self, mark: String, text: String) {
        self.0.hear(Message::Table { mark, text });
    }

    /// Does a piece of the work; false when nothing is left to do.
    pub fn step(&mut self) -> bool {
        self.0.step()
    }

    /// What is to be told: each the number of its request, a blank, and the answer.
    pub fn replies(&mut self) -> Vec<String> {
        let written = |Reply { id, answer }| Some(format!("{id} {}", serde_json::to_string(&answer).ok()?));
        self.0.replies().into_iter().filter_map(written).collect()
    }
}

/// The module that this is, to be handed to a worker.
#[wasm_bindgen(js_name = ownModule)]
pub fn own_module() -> JsValue {
    wasm_bindgen::module()
}
