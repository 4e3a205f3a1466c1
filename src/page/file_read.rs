//! A file of a dealer between being chosen and being used: what it was read as, and with which answers.

use spreadsheet::Answers;
use std::sync::Arc;
use wording::FileReading;

/// The file that is read or was read.
#[derive(Clone, Default, PartialEq)]
pub enum FileRead {
    /// There is none.
    #[default]
    None,
    /// It is being read.
    Busy(String),
    /// What it was read as.
    Ready(Arc<ReadFile>),
}

/// What a file was read as.
#[derive(PartialEq)]
pub struct ReadFile {
    /// Its name.
    pub name: String,
    /// What it was read as, in words.
    pub reading: FileReading,
    /// The table, JSON text.
    pub table: String,
    /// The fingerprint of its layout.
    pub layout: String,
    /// The answers with which it was read.
    pub answers: Answers,
    /// Whether answers about an earlier file of its layout were used.
    pub is_remembered: bool,
}

impl FileRead {
    /// What it was read as.
    pub fn ready(&self) -> Option<Arc<ReadFile>> {
        if let Self::Ready(read) = self { Some(read.clone()) } else { None }
    }
}
