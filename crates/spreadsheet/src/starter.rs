//! A workbook to begin with, from the declarations of the fields: what to write in which column, in which unit, and where it is read. Native only.

use crate::fields::{Field, Role};
use quantity::{Named, Unit};
use rust_xlsxwriter::{DataValidation, DataValidationErrorStyle, Format, Note, Workbook, Worksheet, XlsxError};
use table::row::Form;

/// The fields that a dealer fills in first, sheet by sheet; the others may be added as columns of their own.
const SHEETS: [(Role, Option<&str>, &str, &[&str]); 4] = [
    (
        Role::Machines,
        None,
        "machines",
        &[
            "id",
            "maker",
            "model",
            "class",
            "stock",
            "checked",
            "operating_mass",
            "engine.power",
            "engine.working_speed",
            "pumps.kind",
            "pumps.control",
            "pumps.greatest_flow",
            "pumps.pressure",
            "main_relief",
            "case_line.fitted",
            "return_filter.rated_flow",
            "tank.volume",
            "oil.kind",
            "oil.grade",
            "electrics.voltage",
            "lifting.rated_operating_capacity",
            "mounting.standard",
            "mounting.pin",
            "mounting.width",
            "mounting.centres",
            "guards",
            "travel_speed",
        ],
    ),
    (
        Role::Machines,
        Some("circuits"),
        "circuits",
        &[
            "circuits.name",
            "circuits.flow",
            "circuits.relief",
            "circuits.relief_range",
            "circuits.fed_from",
            "circuits.ways",
            "circuits.continuous",
            "circuits.return_path.route",
            "circuits.supply.bore",
            "circuits.supply.length",
            "circuits.coupling.standard",
            "circuits.coupling.size",
        ],
    ),
    (
        Role::Attachments,
        None,
        "attachments",
        &[
            "id",
            "maker",
            "model",
            "kind",
            "stock",
            "checked",
            "mass",
            "centre_of_gravity",
            "flow.least",
            "flow.rated",
            "flow.greatest",
            "pressure.working",
            "pressure.greatest",
            "motor.kind",
            "motor.displacement",
            "motor.rotor_speed.rated",
            "motor.rotor_speed.greatest",
            "outlet.back_pressure",
            "outlet.case_pressure",
            "outlet.needs_case_line",
            "outlet.case_flow",
            "coupling.standard",
            "coupling.size",
            "mounting.standard",
            "mounting.pin",
            "mounting.width",
            "mounting.centres",
            "carrier_mass.least",
            "carrier_mass.greatest",
            "work.width",
            "demands.return_filter",
            "demands.thrown_object_distance",
            "ways",
            "run_down_check",
        ],
    ),
    (
        Role::Parts,
        None,
        "parts",
        &[
            "id",
            "change",
            "name",
            "number",
            "coupling",
            "standard",
            "bore",
            "rated_flow",
            "rated_pressure",
            "loss",
            "price",
            "time",
        ],
    ),
];

/// Invented rows: what a filled one looks like.
const EXAMPLES: &[(&str, &[(&str, &str)])] = &[
    (
        "machines",
        &[
            ("id", "orrin-36"),
            ("maker", "Orrin Bay (invented)"),
            ("model", "OB 36"),
            ("class", "mini-excavator"),
            ("stock", "bay 4"),
            ("operating_mass", "3640"),
            ("engine.power", "21.5"),
            ("engine.working_speed", "2200"),
            ("pumps.kind", "axial-piston"),
            ("pumps.control", "load-sensing"),
            ("pumps.greatest_flow", "70"),
            ("pumps.pressure", "245"),
            ("case_line.fitted", "no"),
            ("oil.grade", "vg-46"),
            ("mounting.pin", "40"),
            ("mounting.width", "165"),
            ("mounting.centres", "205"),
            ("guards", "rops"),
        ],
    ),
    (
        "machines",
        &[
            ("id", "quern-75"),
            ("maker", "Quern (invented)"),
            ("model", "S 75"),
            ("class", "skid-steer"),
            ("operating_mass", "3350"),
            ("engine.power", "55"),
            ("case_line.fitted", "yes"),
            ("mounting.standard", "iso-24410"),
        ],
    ),
    (
        "circuits",
        &[
            ("machine", "orrin-36"),
            ("circuits.name", "first auxiliary"),
            ("circuits.flow", "62"),
            ("circuits.relief", "215"),
            ("circuits.ways", "two"),
            ("circuits.coupling.size", "12.5"),
        ],
    ),
    (
        "circuits",
        &[
            ("machine", "orrin-36"),
            ("circuits.name", "second auxiliary"),
            ("circuits.flow", "25"),
            ("circuits.relief", "190"),
            ("circuits.ways", "two"),
        ],
    ),
    (
        "circuits",
        &[
            ("machine", "quern-75"),
            ("circuits.name", "auxiliary"),
            ("circuits.flow", "80"),
            ("circuits.relief", "215"),
            ("circuits.ways", "one"),
        ],
    ),
    (
        "attachments",
        &[
            ("id", "marram-f100"),
            ("maker", "Marram (invented)"),
            ("model", "F 100"),
            ("kind", "flail"),
            ("stock", "shed"),
            ("mass", "290"),
            ("flow.least", "40"),
            ("flow.rated", "52"),
            ("flow.greatest", "65"),
            ("pressure.working", "170"),
            ("pressure.greatest", "230"),
            ("motor.kind", "gear-drained"),
            ("outlet.back_pressure", "12"),
            ("outlet.case_pressure", "3"),
            ("outlet.needs_case_line", "yes"),
            ("mounting.pin", "40"),
            ("mounting.width", "167"),
            ("mounting.centres", "205"),
            ("ways", "one"),
        ],
    ),
    (
        "parts",
        &[
            ("id", "coupling-half-inch"),
            ("change", "couplings"),
            ("name", "pair of couplings 1/2 in (invented)"),
            ("coupling", "iso-16028"),
            ("bore", "12.5"),
            ("price", "184.00"),
            ("time", "30"),
        ],
    ),
];

/// What stands above a column: the field's name, and the unit of its figures.
fn header(field: &Field, within: Option<&str>) -> String {
    let name = within.and_then(|prefix| field.name.strip_prefix(prefix)?.strip_prefix('.')).unwrap_or(&field.name);
    match field.form {
        Form::Figure(_, unit) | Form::Range(_, unit) | Form::Window(_, unit) => {
            format!("{name} [{}]", unit_in_header(unit))
        }
        _ => name.to_owned(),
    }
}

/// What to write in a column, in a few words.
fn form(field: &Field) -> String {
    match field.form {
        Form::Figure(dimension, unit) => {
            format!("a {} in {}, or with its unit in the cell", dimension.name(), unit_in_header(unit))
        }
        Form::Range(dimension, unit) | Form::Window(dimension, unit) => {
            format!("{}, least to greatest, in {}: 20..60", dimension.name(), unit_in_header(unit))
        }
        Form::YesNo => "yes or no".to_owned(),
        Form::Date => "a day like 2026-11-25".to_owned(),
        Form::Name(names) if field.is_list() => {
            format!("any of {}, with ; between; none says that there are none", names.join(", "))
        }
        Form::Name(names) => format!("one of {}", names.join(", ")),
        Form::Money => "an amount without its currency".to_owned(),
        Form::Id => "small letters, digits and hyphens, each once; left out, one is made".to_owned(),
        _ => "text".to_owned(),
    }
}

/// The bytes of the workbook.
///
/// # Errors
/// When a sheet would have what no workbook has: a fault of the one who writes it.
pub fn starter() -> Result<Vec<u8>, XlsxError> {
    let (bold, shaded) = (Format::new().set_bold(), Format::new().set_italic().set_font_color(0x0060_6060));
    let mut workbook = Workbook::new();
    // The same bytes from the same declarations.
    workbook.set_properties(
        &rust_xlsxwriter::DocProperties::new()
            .set_creation_datetime(&rust_xlsxwriter::ExcelDateTime::from_ymd(2026, 1, 1)?),
    );
    for (role, within, name, fields) in SHEETS {
        let sheet = workbook.add_worksheet().set_name(name)?;
        sheet.set_freeze_panes(1, 0)?;
        let reference = within.map(|_| role.one());
        let mut columns: Vec<&str> = reference.into_iter().collect();
        if let Some(reference) = reference {
            sheet.write_string_with_format(0, 0, reference, &bold)?;
            sheet.insert_note(
                0,
                0,
                &Note::new(format!("The id of the {reference} on its own sheet, or maker and model.")),
            )?;
        }
        for field in fields.iter().filter_map(|name| role.fields().named(name)) {
            let column = u16::try_from(columns.len()).unwrap_or(u16::MAX);
            write_column(sheet, column, field, within, &bold)?;
            columns.push(&field.name);
        }
        let rows = EXAMPLES.iter().filter(|(of, _)| *of == name);
        for (row, (_, cells)) in (1..).zip(rows) {
            for (field, text) in *cells {
                let Some(column) = columns.iter().position(|column| column == field) else { continue };
                let column = u16::try_from(column).unwrap_or(u16::MAX);
                match text.parse::<f64>() {
                    Ok(number) => sheet.write_number_with_format(row, column, number, &shaded)?,
                    Err(_) => sheet.write_string_with_format(row, column, *text, &shaded)?,
                };
            }
        }
    }
    where_to_read_it(workbook.add_worksheet().set_name("where to read it")?, &bold)?;
    workbook.save_to_buffer()
}

fn write_column(
    sheet: &mut Worksheet,
    column: u16,
    field: &Field,
    within: Option<&str>,
    bold: &Format,
) -> Result<(), XlsxError> {
    let header = header(field, within);
    sheet.set_column_width(column, header.chars().count().clamp(10, 34) as f64 + 2.0)?;
    sheet.write_string_with_format(0, column, &header, bold)?;
    let found = if field.found.is_empty() { String::new() } else { format!("\nWhere: {}.", field.found) };
    sheet.insert_note(0, column, &Note::new(format!("{}\n{}.{found}", field.what, form(field))))?;
    let names: &[&str] = match field.form {
        Form::YesNo => &["yes", "no"],
        Form::Name(names) if !field.is_list() => names,
        _ => return Ok(()),
    };
    // A workbook keeps the list of a choice in 255 characters; longer ones stand in the note.
    if names.iter().map(|name| name.len() + 1).sum::<usize>() <= 255 {
        let choice =
            DataValidation::new().allow_list_strings(names)?.set_error_style(DataValidationErrorStyle::Warning);
        sheet.add_data_validation(1, column, 1999, column, &choice)?;
    }
    Ok(())
}

/// Every field that there is, with what it is and where a person finds it.
fn where_to_read_it(sheet: &mut Worksheet, bold: &Format) -> Result<(), XlsxError> {
    let headers = ["sheet", "column", "what it is", "what to write", "where it is found"];
    for (column, (header, width)) in (0..).zip(headers.into_iter().zip([12.0, 34.0, 60.0, 60.0, 50.0])) {
        sheet.write_string_with_format(0, column, header, bold)?;
        sheet.set_column_width(column, width)?;
    }
    sheet.set_freeze_panes(1, 0)?;
    let mut row = 1;
    for role in [Role::Machines, Role::Attachments, Role::Parts] {
        for field in role.fields().0.iter().filter(|field| !matches!(field.form, Form::Object(_) | Form::Window(..))) {
            let own = role.own_sheets().iter().find(|(list, _)| field.name.starts_with(&format!("{list}.")));
            let within = own.map(|(list, _)| *list);
            let texts = [
                own.map_or(role.sheet(), |(_, sheet)| sheet).to_owned(),
                header(field, within),
                field.what.to_owned(),
                form(field),
                field.found.to_owned(),
            ];
            for (column, text) in (0..).zip(texts) {
                sheet.write_string(row, column, text)?;
            }
            row += 1;
        }
    }
    Ok(())
}

/// What a unit is called in a header that this crate writes.
fn unit_in_header(unit: Unit) -> &'static str {
    let code = unit.name();
    if code.contains(['[', '{']) { unit.spoken().first().unwrap_or(&code) } else { code }
}
