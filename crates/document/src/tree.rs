//! The tree.

use drawing::Picture;
use explain::FigureId;
use fit::{Outcome, Verdict};
use quantity::string_enum;
use wording::{Part, SafetySign};

string_enum! {
    /// What a block is, besides its kind. The name is the class that the page gives it.
    "look" pub enum Look {
        /// A paragraph like any other.
        Plain = "plain",
        /// The sentence that answers.
        Lead = "lead",
        /// What explains; read second.
        Quiet = "quiet",
        /// What the lines below have in common.
        Label = "label",
        /// A name over what follows.
        Name = "name",
        /// A relation in symbols.
        Formula = "formula",
        /// What is to be found out.
        Missing = "missing",
        /// What it comes to: price, work, changes.
        Sums = "sums",
        /// Facts, a line each.
        Facts = "facts",
        /// Facts of one operating point.
        Card = "card",
        /// Operating points side by side.
        Cards = "cards",
        /// A list of sentences.
        Sentences = "sentences",
        /// Relations with their sources.
        Formulas = "formulas",
        /// What went into a figure.
        Inputs = "inputs",
        /// What can kill.
        Hazards = "hazards",
        /// What is proved, with its limit.
        Prove = "prove",
        /// What is proved by looking, folded.
        Look = "look",
        /// A change, folded.
        Change = "change",
        /// A check that is not met.
        NotMet = "not-met",
        /// A check that cannot be said yet.
        NotKnown = "not-known",
        /// A check that is met.
        Met = "met",
        /// A part of a sheet, folded.
        Part = "of-sheet",
        /// Where and how something is read.
        Where = "where",
        /// What is expected of a reading, and what limits it.
        Bounds = "bounds",
        /// A fault that may be behind the readings, folded.
        Suspect = "suspect",
        /// A dangerous one: stop first.
        Stop = "stop",
        /// More of the same, folded.
        More = "more",
        /// The lines of a paper: each with its figure at the end of it, and more of it below.
        Paper = "lines-of-paper",
        /// What the lines of a paper come to together.
        Total = "total",
        /// Figures that belong together, in a line.
        Figures = "figures",
        /// Figures as they are with the oil at a temperature.
        Readings = "readings",
        /// How checks come out with it.
        Marks = "marks",
        /// What a paper is about and what it rests on, as in the title block of a drawing.
        TitleBlock = "block",
        /// Who stands for it, by hand.
        Signed = "block signed",
        /// Cautions, close together.
        Cautions = "cautions",
        /// Who offers, at the head of a letter.
        Letterhead = "letterhead",
        /// A drawing that fills a page.
        Large = "large",
        /// A card to be cut out and kept in the cab.
        CabCard = "card-of-cab",
    }
}

/// A piece of a line.
#[derive(Clone, Debug, PartialEq)]
pub enum Span {
    /// Text.
    Text(String),
    /// What the eye came for.
    Strong(String),
    /// What explains it.
    Quiet(String),
    /// A figure that opens its reasoning.
    Figure {
        /// The figure as it is written.
        text: String,
        /// What it is of.
        of: FigureId,
    },
    /// A word that opens a reasoning, by itself below what it is about.
    Opens {
        /// What stands on it.
        text: String,
        /// What it is about, for who hears it without seeing what stands above.
        about: String,
        /// Whose reasoning.
        of: FigureId,
    },
}

impl Span {
    /// What it says.
    pub fn text(&self) -> &str {
        match self {
            Self::Text(text)
            | Self::Strong(text)
            | Self::Quiet(text)
            | Self::Figure { text, .. }
            | Self::Opens { text, .. } => text,
        }
    }

    /// What it opens, where it opens something.
    pub fn of(&self) -> Option<FigureId> {
        match self {
            Self::Figure { of, .. } | Self::Opens { of, .. } => Some(*of),
            Self::Text(_) | Self::Strong(_) | Self::Quiet(_) => None,
        }
    }
}

impl From<Part> for Span {
    fn from(part: Part) -> Self {
        match part {
            Part::Text(text) => Self::Text(text),
            Part::Figure { text, of } => Self::Figure { text, of },
        }
    }
}

impl From<String> for Span {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<&str> for Span {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

/// A name with what it says.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// The name.
    pub name: String,
    /// What it says.
    pub says: Vec<Span>,
}

impl Fact {
    /// A name with what it says.
    pub fn new(name: impl Into<String>, says: impl IntoIterator<Item = impl Into<Span>>) -> Self {
        Self { name: name.into(), says: says.into_iter().map(Into::into).collect() }
    }
}

/// A line of a list: what it is about at the left, its figure at the right, more of it below.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The safety sign before it.
    pub sign: Option<SafetySign>,
    /// What it is about.
    pub name: Vec<Span>,
    /// Its figure; may be empty.
    pub figure: Vec<Span>,
    /// More of it; may be empty.
    pub detail: Vec<Span>,
    /// How the check that it tells comes out; none where it tells none.
    pub outcome: Option<Outcome>,
}

/// The heading of a part, with what stands at the other end of its line.
#[derive(Clone, Debug, PartialEq)]
pub struct Title {
    /// An id, unique on the screen.
    pub id: &'static str,
    /// The heading.
    pub text: String,
    /// What stands at the other end: a unit, or nothing.
    pub aside: String,
}

/// A part that is folded: its name and summary answer without opening.
#[derive(Clone, Debug, PartialEq)]
pub struct Fold {
    /// An id, unique on the screen, that stays when units change.
    pub id: String,
    /// What it is.
    pub look: Look,
    /// The level of its name as a heading; none for one that heads nothing.
    pub level: Option<u8>,
    /// Its number in a list; none where it has none.
    pub number: Option<usize>,
    /// Its name.
    pub name: String,
    /// A summary that one can read; may be empty.
    pub summary: String,
    /// Figures at the end of its line, the second one below the first.
    pub figures: Vec<String>,
    /// What is in it.
    pub inside: Vec<Block>,
}

impl Fold {
    /// A part with nothing in its line but its name.
    pub fn new(id: impl Into<String>, look: Look, name: impl Into<String>, inside: Vec<Block>) -> Self {
        Self {
            id: id.into(),
            look,
            level: None,
            number: None,
            name: name.into(),
            summary: String::new(),
            figures: Vec::new(),
            inside,
        }
    }
}

/// A step of work on paper, with a box to tick.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Its number on this paper.
    pub number: usize,
    /// The number of the step without which it must not be begun; none where nothing else is waited for.
    pub after: Option<usize>,
    /// What is done.
    pub line: Line,
}

/// A place of a form.
#[derive(Clone, Debug, PartialEq)]
pub enum Slot {
    /// What stands there.
    Says(Vec<Span>),
    /// What stands there, and more of it below.
    More(Vec<Span>, String),
    /// Room to write.
    Blank,
    /// A box to tick.
    Tick,
}

impl Slot {
    /// A text.
    pub fn says(text: impl Into<String>) -> Self {
        Self::Says(vec![Span::Text(text.into())])
    }

    /// A text, or room to write where nothing is known.
    pub fn or_blank(text: impl Into<String>) -> Self {
        let text = text.into();
        if text.is_empty() { Self::Blank } else { Self::says(text) }
    }
}

/// A table to be filled in by hand: what stands in each place, or room for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Form {
    /// What it is, for who hears it.
    pub name: String,
    /// The names of its columns.
    pub head: Vec<String>,
    /// Its rows, a place for each column.
    pub rows: Vec<Vec<Slot>>,
    /// The rows that sum it up.
    pub foot: Vec<Vec<Slot>>,
}

/// A row of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its name.
    pub name: String,
    /// Whether its cells differ.
    pub differs: bool,
    /// A cell for each column.
    pub cells: Vec<Cell>,
}

/// A cell of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// Where its first line leads.
    pub to: Option<String>,
    /// The mark before it.
    pub mark: Option<Verdict>,
    /// How the check that it tells comes out.
    pub outcome: Option<Outcome>,
    /// Whether its lines are a list.
    pub is_list: bool,
    /// What it says, line by line.
    pub lines: Vec<Vec<Span>>,
    /// A margin as a dimension line; the numbers stand in the text.
    pub margin: Option<Picture>,
}

impl Cell {
    /// A cell of one line.
    pub fn of(line: Vec<Span>) -> Self {
        Self { lines: vec![line], ..Self::default() }
    }

    /// A cell of one text.
    pub fn says(text: &str) -> Self {
        Self::of(vec![Span::Text(text.to_owned())])
    }

    /// Whether two cells say the same, line by line.
    pub fn says_the_same(&self, other: &Self) -> bool {
        let said = |cell: &Self| -> Vec<String> {
            cell.lines.iter().map(|line| line.iter().map(Span::text).collect()).collect()
        };
        said(self) == said(other)
    }
}

/// A block.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading within a part.
    Heading {
        /// 2 to 4.
        level: u8,
        /// The heading.
        text: String,
    },
    /// A paragraph.
    Text {
        /// What it is.
        look: Look,
        /// What it says.
        spans: Vec<Span>,
    },
    /// Names with what they say.
    Facts {
        /// How it looks.
        look: Look,
        /// The names.
        facts: Vec<Fact>,
    },
    /// Lines with a figure each.
    Lines {
        /// How it looks.
        look: Look,
        /// Whether their order counts.
        ordered: bool,
        /// The lines.
        lines: Vec<Line>,
    },
    /// A list.
    List {
        /// How it looks.
        look: Look,
        /// Whether its order counts.
        ordered: bool,
        /// What stands in it.
        items: Vec<Vec<Block>>,
    },
    /// A part that is folded.
    Fold(Fold),
    /// A drawing, with what it says for who cannot see it.
    Picture {
        /// The shapes.
        picture: Picture,
        /// What it says.
        said: String,
    },
    /// A table whose rows and columns have names. Its figures are each of the thing of its column.
    Table {
        /// What it is, for who hears it.
        name: String,
        /// The names of the columns.
        head: Vec<Cell>,
        /// The rows.
        rows: Vec<Row>,
        /// The rows that sum it up.
        foot: Vec<Row>,
    },
    /// Steps of work, in their order.
    Steps(Vec<Step>),
    /// A table to be filled in by hand.
    Form(Form),
    /// What keeps together on paper.
    Together(Vec<Block>),
    /// What begins on a page of its own when it is printed.
    Page {
        /// How it looks.
        look: Look,
        /// What is in it.
        inside: Vec<Block>,
    },
    /// A logo: a picture within the file.
    Logo(String),
    /// A part under its heading.
    Part {
        /// Its heading.
        title: Title,
        /// The name by which a page that holds the app in an element styles it; may be empty.
        part: &'static str,
        /// What is in it.
        inside: Vec<Block>,
    },
}

impl Block {
    /// A paragraph.
    pub fn of(look: Look, spans: impl IntoIterator<Item = impl Into<Span>>) -> Self {
        Self::Text { look, spans: spans.into_iter().map(Into::into).collect() }
    }

    /// A paragraph of one text.
    pub fn says(look: Look, text: impl Into<String>) -> Self {
        Self::Text { look, spans: vec![Span::Text(text.into())] }
    }

    /// A list of sentences.
    pub fn sentences(texts: impl IntoIterator<Item = impl Into<String>>) -> Self {
        let items = texts.into_iter().map(|text| vec![Self::says(Look::Plain, text)]).collect();
        Self::List { look: Look::Sentences, ordered: false, items }
    }

    /// The lines of spans in it, in the order in which they are read, those of folded parts too; each with its column where it stands in
    /// a table.
    pub fn spans(&self) -> Vec<(usize, &[Span])> {
        match self {
            Self::Heading { .. } | Self::Picture { .. } | Self::Logo(_) => Vec::new(),
            Self::Steps(steps) => {
                let lines = steps.iter().map(|step| &step.line);
                lines.flat_map(|line| [(0, &line.name[..]), (0, &line.figure[..]), (0, &line.detail[..])]).collect()
            }
            Self::Form(Form { rows, foot, .. }) => {
                let slots = rows.iter().chain(foot).flatten();
                let spans = slots.filter_map(|slot| match slot {
                    Slot::Says(spans) | Slot::More(spans, _) => Some((0, &spans[..])),
                    Slot::Blank | Slot::Tick => None,
                });
                spans.collect()
            }
            Self::Together(inside) | Self::Page { inside, .. } => inside.iter().flat_map(Self::spans).collect(),
            Self::Text { spans, .. } => vec![(0, spans)],
            Self::Facts { facts, .. } => facts.iter().map(|fact| (0, &fact.says[..])).collect(),
            Self::Lines { lines, .. } => lines
                .iter()
                .flat_map(|line| [(0, &line.name[..]), (0, &line.figure[..]), (0, &line.detail[..])])
                .collect(),
            Self::List { items, .. } => items.iter().flatten().flat_map(Self::spans).collect(),
            Self::Table { rows, foot, .. } => {
                let cells = rows.iter().chain(foot).flat_map(|row| row.cells.iter().enumerate());
                cells.flat_map(|(column, cell)| cell.lines.iter().map(move |line| (column, &line[..]))).collect()
            }
            Self::Fold(Fold { inside, .. }) | Self::Part { inside, .. } => {
                inside.iter().flat_map(Self::spans).collect()
            }
        }
    }
}

/// What the figures of a document are of, in the order in which they are read, each with its column where it stands in a table.
pub fn figures(blocks: &[Block]) -> impl Iterator<Item = (usize, FigureId)> {
    let lines = blocks.iter().flat_map(Block::spans);
    lines.flat_map(|(column, spans)| spans.iter().filter_map(move |span| Some((column, span.of()?))))
}

/// The headings of its parts, in the order in which they are read.
pub fn titles(blocks: &[Block]) -> Vec<String> {
    let of = |block: &Block| match block {
        Block::Heading { level: 2, text } => vec![text.clone()],
        Block::Page { inside, .. } | Block::Together(inside) => titles(inside),
        _ => Vec::new(),
    };
    blocks.iter().flat_map(of).collect()
}
