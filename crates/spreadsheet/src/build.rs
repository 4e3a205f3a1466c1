//! Rows of cells as the tree of a table.

use crate::cell::{self, Open, Reading};
use crate::fields::{Role, Target};
use crate::ids::{self, free, slug};
use crate::layout::{Column, SheetTaken};
use crate::tree::{Conflict, Node};
use crate::words::folded;
use crate::{Book, Cell, Place, Row};
use quantity::{Mass, Named, Stated};
use serde_json::{Value, json};
use std::collections::{BTreeMap, HashMap, HashSet};
use table::{CarrierClass, bounds};

/// How each column is read: by the place of its sheet in the book and its number.
pub type Readings = HashMap<(usize, usize), Reading>;

/// What is built of a book.
#[derive(Default)]
pub struct Built {
    /// The whole table.
    pub root: Node,
    /// The rows of the entries, by their JSON Pointers.
    pub rows: HashMap<String, Place>,
    /// Columns that wait for an answer, with the first cell that does.
    pub open: BTreeMap<(usize, usize), (Open, Place, String)>,
    /// What rows say against each other.
    pub conflicts: Vec<Conflict>,
    /// Rows that name no entry that there is, with what they name.
    pub homeless: Vec<(Place, String)>,
    /// Rows of which nothing is used as they say nothing but one thing: a heading, a sum.
    pub skipped: Vec<(Place, String)>,
}

/// An entry that grows.
struct Growing {
    node: Node,
    row: Place,
}

/// The entries of a list, and how they are found again.
#[derive(Default)]
struct Growings {
    entries: Vec<Growing>,
    keys: HashMap<String, usize>,
    /// The class that the last heading between the rows names, and the sheet on which it stands.
    heading: Option<(usize, &'static str)>,
}

/// Builds the table of a book.
pub fn build(book: &Book, sheets: &[SheetTaken], readings: &Readings, title: &str) -> Built {
    let mut built = Built::default();
    let mut lists: BTreeMap<Role, Growings> = BTreeMap::new();
    let mut about = Node::default();
    // Sheets of what stands within entries come behind those of the entries.
    for own in [false, true] {
        for (index, sheet) in sheets.iter().enumerate().filter(|(_, sheet)| sheet.within.is_some() == own) {
            match sheet.role {
                Some(Role::About) => read_about(&book.sheets[index].rows, &sheet.name, &mut about),
                Some(role) => {
                    let list = lists.entry(role).or_default();
                    for row in &book.sheets[index].rows[sheet.first_row.min(book.sheets[index].rows.len())..] {
                        add_row(row, (index, sheet), role, list, readings, &mut built);
                    }
                }
                None => {}
            }
        }
    }
    let currency = sheets.iter().flat_map(|sheet| &sheet.columns).find_map(|column| column.currency.clone());
    finish(&mut built, lists, about, title, currency);
    built
}

fn read_about(rows: &[Row], sheet: &str, about: &mut Node) {
    for row in rows {
        let name = row.cells.first().map(Cell::text).unwrap_or_default();
        let Some(target) = Target::named(Role::About, &name.trim().to_lowercase()) else { continue };
        // What is longer than a cell can be goes on in the next.
        let text: String = row.cells.iter().skip(1).map(Cell::text).collect();
        let cell = if row.cells.len() == 2 { row.cells[1].clone() } else { Cell::Text(text) };
        let place = Place { sheet: sheet.to_owned(), row: row.number, column: Some(2) };
        let reading = Reading { exact: true, ..Reading::default() };
        let value = cell::value(&cell, &target, reading).unwrap_or_else(|_| Some(json!(cell.text())));
        about.put(&target, value.map_or_else(Node::default, |value| node_of(value, &place)));
    }
}

/// A value as a tree: the ends of a window are values of their own.
fn node_of(value: Value, place: &Place) -> Node {
    let Value::Object(members) = value else { return Node::Value(value, Some(place.clone())) };
    let ends = ["least", "rated", "greatest"];
    let member = |end: &'static str| Some((end, Node::Value(members.get(end)?.clone(), Some(place.clone()))));
    Node::Object(ends.into_iter().filter_map(member).collect())
}

fn add_row(
    row: &Row,
    (index, sheet): (usize, &SheetTaken),
    role: Role,
    list: &mut Growings,
    readings: &Readings,
    built: &mut Built,
) {
    let place = |column: Option<usize>| Place { sheet: sheet.name.clone(), row: row.number, column };
    let text = |column: &Column| row.cells.get(column.number - 1).map(Cell::text).unwrap_or_default();
    let filled = || sheet.columns.iter().filter(|column| !text(column).trim().is_empty());
    // The headers once more, as printed lists have them on each page.
    if filled().count() == 0 || filled().count() > 1 && filled().all(|column| text(column).trim() == column.header) {
        return;
    }
    // Sums stand below figures, and are none of an entry.
    let sums = ["sum", "total", "totals", "subtotal", "sub total", "grand total", "average"];
    let is_sum = |cell: &Cell| matches!(cell, Cell::Text(text) if sums.contains(&folded(text).as_str()));
    if let Some(at) = row.cells.iter().position(|cell| !cell.is_empty()).filter(|at| is_sum(&row.cells[*at])) {
        built.skipped.push((place(Some(at + 1)), row.cells[at].text()));
        return;
    }
    let mut node = Node::default();
    let mut is_any_excavator = false;
    for column in sheet.columns.iter().filter(|column| column.same_as.is_none()) {
        let (Some(target), Some(cell)) = (&column.target, row.cells.get(column.number - 1)) else { continue };
        let reading = readings.get(&(index, column.number)).copied().unwrap_or_default();
        match cell::value(cell, target, reading) {
            Ok(Some(value)) => {
                let as_written = column.exact && cell.text() == CarrierClass::Excavator.name();
                is_any_excavator |=
                    target.field.name == "class" && value == CarrierClass::Excavator.name() && !as_written;
                node.put(target, node_of(value, &place(Some(column.number))));
            }
            Ok(None) => {}
            Err(open) => {
                let waiting = (open, place(Some(column.number)), cell.text());
                built.open.entry((index, column.number)).or_insert(waiting);
            }
        }
    }
    // Where no column says the class, the name of the machine may, or a heading above.
    let says_class = sheet.columns.iter().any(|column| column.field.as_deref() == Some("class"));
    let is_machine = role == Role::Machines && sheet.within.is_none() && filled().count() > 1;
    if is_machine && !says_class {
        let heading = list.heading.filter(|(of, _)| *of == index).map(|(_, class)| class);
        let named = node.text("model").and_then(|model| cell::name_within(model, CarrierClass::NAMES));
        if let (Some(class), Some(target)) = (named.or(heading), Target::named(role, "class")) {
            is_any_excavator |= class == CarrierClass::Excavator.name();
            node.put(&target, node_of(json!(class), &place(None)));
        }
    }
    if is_any_excavator {
        by_mass(&mut node);
    }
    if sheet.within.is_some() {
        let reference = sheet.columns.iter().find(|column| column.is_reference);
        let named = reference.map(&text).unwrap_or_default();
        match list.keys.get(&reference_key(&named)) {
            Some(entry) => list.entries[*entry].node.merge(node, false, &mut built.conflicts),
            None => built.homeless.push((place(reference.map(|column| column.number)), named)),
        }
        return;
    }
    if filled().count() == 1 && sheet.columns.len() > 2 && node.text("id").is_none() {
        let said = filled().map(text).next().unwrap_or_default();
        list.heading = cell::name_within(&said, CarrierClass::NAMES).map(|class| (index, class));
        built.skipped.push((place(filled().map(|column| column.number).next()), said));
        return;
    }
    let key = key(role, &node);
    if let Some(entry) = key.as_ref().and_then(|key| list.keys.get(key)) {
        list.entries[*entry].node.merge(node, true, &mut built.conflicts);
        return;
    }
    let place_in_list = list.entries.len();
    list.keys.extend(key.map(|key| (key, place_in_list)));
    for name in names(&node) {
        list.keys.entry(reference_key(&name)).or_insert(place_in_list);
    }
    list.entries.push(Growing { node, row: place(None) });
}

/// What makes two rows one entry: its id, else maker, model and serial numbers.
fn key(role: Role, node: &Node) -> Option<String> {
    if let Some(id) = node.text("id") {
        return Some(format!("id {id}"));
    }
    let model = node.text("model").filter(|_| matches!(role, Role::Machines | Role::Attachments))?;
    let parts = [node.text("maker").unwrap_or_default(), model, node.text("serial_range").unwrap_or_default()];
    Some(format!("named {}", parts.map(folded).join("\u{1}")))
}

fn reference_key(name: &str) -> String {
    format!("called {}", folded(name))
}

/// By what a row of another sheet may call an entry.
fn names(node: &Node) -> Vec<String> {
    let model = node.text("model");
    let full = model.map(|model| table::full_name(node.text("maker"), model));
    [node.text("id").map(str::to_owned), full, model.map(str::to_owned)].into_iter().flatten().collect()
}

/// An excavator of whatever size is of the class that its mass says: that is what the classes mean.
fn by_mass(node: &mut Node) {
    let Some(mass) = node.text("operating_mass").and_then(|text| quantity::text::read::<Mass>(text).ok()) else {
        return;
    };
    let mass: Stated<Mass> = mass;
    let kilograms = quantity::Unit::Kilogram.of_si(quantity::Quantity::si(mass.nominal));
    let Node::Object(members) = node else { return };
    if let Some(Node::Value(class, _)) = members.get_mut("class") {
        *class = json!(bounds::excavator_of(kilograms).name());
    }
}

/// Gives ids to what has none, and puts the lists together.
fn finish(built: &mut Built, mut lists: BTreeMap<Role, Growings>, about: Node, title: &str, currency: Option<String>) {
    let Node::Object(mut root) = about else { return };
    let own = |value: Value| Node::Value(value, None);
    root.insert("format", own(json!(table::FORMAT)));
    root.insert("version", own(json!(table::VERSION)));
    root.entry("title").or_insert_with(|| own(json!(title)));
    if let Some(currency) = currency {
        root.entry("currency").or_insert_with(|| own(json!(currency)));
    }
    for (role, key) in [
        (Role::Machines, "carriers"),
        (Role::Attachments, "heads"),
        (Role::Parts, "parts"),
        (Role::Assumptions, "assumptions"),
    ] {
        let mut entries = lists.remove(&role).unwrap_or_default().entries;
        if role != Role::Assumptions {
            give_ids(role, &mut entries);
        }
        for (index, entry) in entries.iter().enumerate() {
            built.rows.insert(format!("/{key}/{index}"), entry.row.clone());
        }
        root.insert(key, Node::List(entries.into_iter().map(|entry| entry.node).enumerate().collect()));
    }
    built.root = Node::Object(root);
}

fn give_ids(role: Role, entries: &mut [Growing]) {
    let mut taken: HashSet<String> =
        entries.iter().filter_map(|entry| entry.node.text("id").map(str::to_owned)).collect();
    for entry in entries {
        let name = names(&entry.node).first().cloned().or_else(|| entry.node.text("name").map(str::to_owned));
        let slug = name.map(|name| slug(&name)).filter(|slug| !slug.is_empty());
        let Node::Object(members) = &mut entry.node else { continue };
        if !members.contains_key("id") {
            let id = free(&mut taken, &slug.unwrap_or_else(|| role.one().to_owned()));
            members.insert("id", Node::Value(json!(id), None));
        }
        for (list, usual) in ids::OF_ITEMS.into_iter().filter(|_| role == Role::Machines) {
            let Some(Node::List(items)) = members.get_mut(list) else { continue };
            let mut taken: HashSet<String> =
                items.values().filter_map(|item| item.text("id").map(str::to_owned)).collect();
            for item in items.values_mut() {
                if let Node::Object(members) = item {
                    members.entry("id").or_insert_with(|| Node::Value(json!(free(&mut taken, usual)), None));
                }
            }
        }
    }
}
