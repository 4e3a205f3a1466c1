//! The fields of each kind of entry, as its declaration has them.

use crate::read::Entry;
use crate::row::{Form, Kind, Row};

/// The fields of a machine.
pub fn of_carrier() -> Vec<Row> {
    crate::Carrier::rows()
}

/// The fields of an attachment.
pub fn of_head() -> Vec<Row> {
    crate::Head::rows()
}

/// The fields of a part.
pub fn of_part() -> Vec<Row> {
    crate::Part::rows()
}

/// The fields of an assumption.
pub fn of_assumption() -> Vec<Row> {
    use quantity::Named;
    vec![
        Row { must_be_there: true, ..Row::plain("id", "Which figure.", Form::Name(crate::AssumptionId::NAMES)) },
        Row::plain("class", "For which class of machines.", Form::Name(crate::CarrierClass::NAMES)),
        Row::plain("motor", "For which kind of motor.", Form::Name(crate::MotorKind::NAMES)),
        // What it measures goes by the id, so it is taken as it is written.
        Row { must_be_there: true, ..Row::plain("range", "From the least to the greatest value.", Form::Text) },
    ]
}

/// The fields of the table itself but its lists.
pub fn of_table() -> Vec<Row> {
    vec![
        Row { must_be_there: true, ..Row::plain("title", "What the table is called.", Form::Text) },
        Row::plain("publisher", "Who publishes it.", Form::Text),
        Row::plain("licence", "Under which licence, best as an SPDX expression.", Form::Text),
        Row::plain("date", "When it was made.", Form::Date),
        Row::plain("invented", "Whether its machines and attachments are invented.", Form::YesNo),
        Row::plain("currency", "The currency of all prices.", Form::Currency),
        Row::plain("labour_rate", "What an hour in the workshop costs.", Form::Money),
        Row {
            kind: Kind::object("Dealer", crate::Dealer::rows),
            ..Row::plain("dealer", "The dealer, as he stands on a quotation.", Form::Text)
        },
    ]
}
