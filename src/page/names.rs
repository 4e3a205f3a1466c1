//! How machines and attachments are called on the screens.

use record::Saved;

/// Maker and model.
pub fn label(maker: Option<&String>, model: &str) -> String {
    table::full_name(maker.map(String::as_str), model)
}

/// The machines of a saved comparison, by their names.
pub fn machines_of(saved: &Saved) -> String {
    saved.carriers().into_iter().map(|carrier| carrier.name.as_str()).collect::<Vec<_>>().join(", ")
}
