//! Light or dark.

use leptos::prelude::document;

/// Light, dark, or as the system has it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Theme {
    /// As the system has it.
    System,
    /// Ink on paper.
    Light,
    /// Chalk on slate.
    Dark,
}

impl Theme {
    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::System => "auto",
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }

    /// By its name; as the system has it where there is none of that name.
    pub fn from_name(name: &str) -> Self {
        match name {
            "light" => Self::Light,
            "dark" => Self::Dark,
            _ => Self::System,
        }
    }
}

/// Shows a theme.
pub fn apply(theme: Theme) {
    let Some(root) = document().document_element() else { return };
    let _ = match theme {
        Theme::System => root.remove_attribute("data-theme"),
        Theme::Light | Theme::Dark => root.set_attribute("data-theme", theme.name()),
    };
}
