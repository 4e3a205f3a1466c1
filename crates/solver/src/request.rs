//! What is asked.

use super::Asked;
use quantity::UnitSystem;
use record::Plate;
use serde::{Deserialize, Serialize};

/// What is said to a solver.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[allow(clippy::large_enum_variant)] // A message is made, sent and gone.
pub enum Message {
    /// Takes a table into use under its mark, for all requests to come.
    Table {
        /// Its mark.
        mark: String,
        /// Its text.
        text: String,
    },
    /// Asks something.
    Ask {
        /// A number that no other request has.
        id: u32,
        /// What is asked.
        request: Request,
    },
    /// Nobody waits for that answer any more.
    Stop {
        /// The number of the request.
        id: u32,
    },
}

/// For whom an answer is written, and about which table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Reader {
    /// The mark of the table.
    pub table: String,
    /// In which units.
    pub units: UnitSystem,
}

/// A machine.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Machine {
    /// One of the table, by its id.
    OfTable(String),
    /// One of a person's own.
    Own(Plate),
}

/// A request.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Request {
    /// What fits a machine: rows, then their order. The verdict that is looked for is left to who shows them, as he counts the others.
    Fits {
        /// For whom.
        reader: Reader,
        /// The machine.
        machine: Machine,
        /// What is looked for.
        asked: Asked,
        /// The ids of the attachments that are asked about; all where none is named.
        among: Vec<String>,
    },
    /// Which machines run an attachment: rows, then their order.
    Machines {
        /// For whom.
        reader: Reader,
        /// The id of the attachment.
        head: String,
        /// The machines of one's own, besides those of the table.
        own: Vec<Plate>,
    },
    /// On how many machines attachments run, and the smallest of them: a sentence for each.
    RunsOn {
        /// For whom.
        reader: Reader,
        /// The ids of the attachments.
        heads: Vec<String>,
        /// The machines of one's own, besides those of the table.
        own: Vec<Plate>,
    },
    /// What a spec plate comes to as it stands: rows in the order of the table, all at once.
    Plate {
        /// For whom.
        reader: Reader,
        /// The plate.
        plate: Plate,
        /// The ids of the attachments that are asked about; all where none is named.
        among: Vec<String>,
        /// Whether to answer what they ask of a machine of which nothing but the class is known.
        questions: bool,
        /// Whether to give a first answer, that of a machine which is typical for the class.
        typical: bool,
    },
    /// What to fill in next in the table: how far it has come, then the answer.
    FillNext {
        /// For whom.
        reader: Reader,
        /// So many columns, and so many facts of machines and attachments, at most.
        most: usize,
    },
    /// One pairing as JSON, as the command line prints it.
    Pair {
        /// The text of the table.
        table: String,
        /// The id of a machine, or a machine as it would stand in the table.
        carrier: String,
        /// The id of an attachment.
        head: String,
    },
    /// What fits a machine, as a JSON array of pairings, the best first.
    List {
        /// The text of the table.
        table: String,
        /// The id of a machine, or a machine as it would stand in the table.
        carrier: String,
    },
    /// What is wrong with a table, as JSON.
    Check {
        /// The text of the table.
        table: String,
    },
}
