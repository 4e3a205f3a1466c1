//! What the docs and the schema say of a field.

/// The fields of an object of the format.
pub type Rows = fn() -> Vec<Row>;

/// What a field holds, in words, and the object of the format that it holds, if any.
pub struct Kind {
    /// The words.
    pub words: String,
    /// The name of the object, and its fields.
    pub object: Option<(&'static str, Rows)>,
}

impl Kind {
    /// An object of the format, under whose name there is a section.
    pub fn object(name: &'static str, rows: Rows) -> Self {
        let words = spaced(name);
        Self { words: format!("[{words}](#{})", words.replace(' ', "-")), object: Some((name, rows)) }
    }

    /// A list of them.
    pub fn listed(self) -> Self {
        Self { words: format!("list of {}", self.words), ..self }
    }
}

impl<T: Into<String>> From<T> for Kind {
    fn from(words: T) -> Self {
        Self { words: words.into(), object: None }
    }
}

/// `FlowDivider` as `flow divider`.
fn spaced(name: &str) -> String {
    let word = |c: char| if c.is_uppercase() { format!(" {}", c.to_lowercase()) } else { c.to_string() };
    name.chars().map(word).collect::<String>().trim_start().to_owned()
}

/// A field of an object.
pub struct Row {
    /// Its name.
    pub name: &'static str,
    /// Whether it may not be left out.
    pub must_be_there: bool,
    /// What it is.
    pub what: &'static str,
    /// Where a person finds it.
    pub found: &'static str,
    /// What it holds.
    pub kind: Kind,
}
