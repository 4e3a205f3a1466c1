//! What stands above a column, and which field it means.

use crate::fields::{Field, Role, Target};
use crate::words::{HEADERS, folded};
use quantity::Unit;
use std::collections::HashMap;
use std::sync::OnceLock;
use table::row::Form;

/// A header taken apart.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Header {
    /// Without its unit.
    pub words: String,
    /// The unit in it.
    pub unit: Option<Unit>,
    /// The currency in it.
    pub currency: Option<String>,
}

/// What a header means in a list.
#[derive(Clone, Debug)]
pub enum Meant {
    /// A field; `exact` where it is written as the format names it.
    Field {
        /// The field.
        target: Target,
        /// Whether it is the format's own name.
        exact: bool,
    },
    /// The entry to which a row of a sheet of its own belongs.
    Reference,
    /// Nothing that is known; perhaps a field whose words are near.
    Unknown {
        /// The dotted name of that field.
        near: Option<String>,
    },
}

impl Header {
    /// Of a text above a column.
    pub fn of(text: &str) -> Self {
        let text = text.trim();
        let plain = Self { words: text.to_owned(), ..Self::default() };
        for (open, close) in [('[', ']'), ('(', ')')] {
            let Some(begin) = text.rfind(open) else { continue };
            let Some(length) = text[begin..].rfind(close) else { continue };
            let inner = text[begin + 1..begin + length].trim();
            let words = format!("{} {}", text[..begin].trim(), text[begin + length + 1..].trim()).trim().to_owned();
            if let Some(unit) = unit(inner) {
                return Self { words, unit: Some(unit), currency: None };
            }
            if let Some(currency) = currency(inner) {
                return Self { words, unit: None, currency: Some(currency) };
            }
        }
        // `Aux flow, gpm` and `Aux flow in gpm`: what stands last may be a unit.
        for (at, sign) in text.char_indices().filter(|(_, sign)| matches!(sign, ' ' | ',' | '/' | '\u{a0}')) {
            let last = text[at + sign.len_utf8()..].trim();
            let words = text[..at].trim_end_matches(|c: char| c.is_whitespace() || c == ',');
            let words = words.strip_suffix(" in").unwrap_or(words).trim();
            if !words.is_empty() && !last.is_empty() {
                if let Some(unit) = unit(last) {
                    return Self { words: words.to_owned(), unit: Some(unit), currency: None };
                }
                if let Some(currency) = currency(last) {
                    return Self { words: words.to_owned(), unit: None, currency: Some(currency) };
                }
            }
        }
        plain
    }
}

/// The unit that a text is, also with a point behind it.
pub fn unit(text: &str) -> Option<Unit> {
    let text = text.trim();
    // `c`, `f` and `1` are units of a figure; beside words they are anything.
    let short = ["c", "f", "1", "%"].contains(&text.to_lowercase().as_str()) && text != "%";
    Unit::from_text(text).or_else(|| Unit::from_text(text.trim_end_matches('.'))).filter(|_| !short)
}

/// The currency that a text is: its code, or a sign that means only one.
pub fn currency(text: &str) -> Option<String> {
    match text {
        "€" => Some("EUR".to_owned()),
        "£" => Some("GBP".to_owned()),
        code if ["EUR", "GBP", "USD", "CAD", "AUD", "NZD", "CHF", "SEK", "NOK", "DKK", "PLN", "CZK", "HUF"]
            .contains(&code) =>
        {
            Some(code.to_owned())
        }
        _ => None,
    }
}

/// The fields of a list by the words of their own names; none where words lead to two.
fn own_words(role: Role) -> &'static HashMap<String, Option<&'static Field>> {
    static WORDS: [OnceLock<HashMap<String, Option<&'static Field>>>; 5] = [const { OnceLock::new() }; 5];
    WORDS[role as usize].get_or_init(|| {
        let fields = &role.fields().0;
        let mut known: HashMap<String, Option<&'static Field>> = HashMap::new();
        // Whole names first; what is shorter never takes the place of one.
        for (steps_left_out, only_new) in [(0, false), (1, true), (usize::MAX, true)] {
            let mut found: HashMap<String, Vec<&'static Field>> = HashMap::new();
            for field in fields {
                let skip = steps_left_out.min(field.steps.len() - 1);
                let words: Vec<_> = field.steps[skip..].iter().map(|(name, _)| *name).collect();
                found.entry(folded(&words.join(" "))).or_default().push(field);
            }
            for (words, fields) in found {
                let one = if let [one] = fields[..] { Some(one) } else { None };
                if only_new {
                    known.entry(words).or_insert(one);
                } else {
                    known.insert(words, one);
                }
            }
        }
        known
    })
}

fn by_words(role: Role, words: &str) -> Option<&'static Field> {
    let synonym = HEADERS.iter().find(|(of, _, headers)| *of == role && headers.contains(&words));
    match synonym {
        Some((_, name, _)) => role.fields().named(name),
        None => own_words(role).get(words).copied().flatten(),
    }
}

/// What words above a column mean in a list, or in a sheet of what stands within a list's entries; what is not known may be near to something.
pub fn meant(role: Role, within: Option<&str>, words: &str) -> Meant {
    known(role, within, words).unwrap_or_else(|| {
        let headers = HEADERS.iter().filter(|(of, ..)| *of == role).flat_map(|(_, _, headers)| headers.iter().copied());
        let own = own_words(role).iter().filter_map(|(words, field)| field.map(|_| words.as_str()));
        let mut all: Vec<&str> = own.chain(headers).filter(|words| words.len() > 3).collect();
        all.sort_unstable();
        let plain = folded(words);
        // A question for every word that is like another would tire: `colour` is no slip of the pen for `cooler`.
        let is_slip = |near: &&str| strsim::osa_distance(near, &plain) <= (near.chars().count() / 5).max(1);
        let near = table::read::nearest(&plain, &all).filter(is_slip).and_then(|near| by_words(role, near));
        Meant::Unknown { near: near.map(|field| field.name.clone()) }
    })
}

/// What words above a column mean, where they are known.
pub fn known(role: Role, within: Option<&str>, words: &str) -> Option<Meant> {
    let words = words.trim();
    let lower = words.to_lowercase();
    if let Some(prefix) = within {
        if [role.one(), role.sheet()].contains(&lower.as_str())
            || [role.one(), "model"].contains(&folded(words).as_str())
        {
            return Some(Meant::Reference);
        }
        let whole = lower.strip_suffix("{}").or_else(|| lower.strip_suffix("[]")).unwrap_or(&lower).trim();
        if let Some(target) = Target::named(role, &format!("{prefix}.{whole}")) {
            return Some(Meant::Field { target, exact: true });
        }
        let inside = by_words(role, &folded(&format!("{prefix} {words}"))).or_else(|| by_words(role, &folded(words)));
        let inside = inside.filter(|field| field.name.starts_with(&format!("{prefix}.")));
        if let Some(target) = inside.and_then(|field| Target::named(role, &field.name)) {
            return Some(Meant::Field { target, exact: false });
        }
    }
    // Objects and lists as a whole: `tank {}`, `mounting []`; without that `tank` is a word like others.
    let whole = lower.strip_suffix("{}").or_else(|| lower.strip_suffix("[]")).map(str::trim);
    if let Some(target) = Target::named(role, whole.unwrap_or(&lower)) {
        let is_word = whole.is_none() && matches!(target.field.form, Form::Object(_));
        if !is_word || by_words(role, &folded(words)).is_none_or(|field| field.name == target.field.name) {
            return Some(Meant::Field { target, exact: true });
        }
    }
    let plain = folded(words);
    if let Some(target) = by_words(role, &plain).and_then(|field| Target::named(role, &field.name)) {
        return Some(Meant::Field { target, exact: false });
    }
    if let Some(target) = numbered(role, &plain) {
        return Some(Meant::Field { target, exact: false });
    }
    None
}

/// `Aux 2 flow`, `Flow aux2`: a number from 1 to 9 says which one of a list.
fn numbered(role: Role, words: &str) -> Option<Target> {
    let mut number = None;
    let mut rest = Vec::new();
    for word in words.split(' ') {
        let letters = word.trim_end_matches(|c: char| c.is_ascii_digit());
        match word[letters.len()..].parse::<usize>() {
            Ok(found @ 1..=9) if number.is_none() => {
                number = Some(found);
                rest.extend((!letters.is_empty()).then_some(letters));
            }
            _ => rest.push(word),
        }
    }
    let field = by_words(role, &rest.join(" "))?;
    let mut target = Target::named(role, &field.name)?;
    *target.places.first_mut()? = number? - 1;
    Some(target)
}

/// The figure's unit that needs no asking: there is only one.
pub fn only_unit(form: Form) -> Option<Unit> {
    use quantity::Named;
    let (Form::Figure(dimension, _) | Form::Range(dimension, _) | Form::Window(dimension, _)) = form else {
        return None;
    };
    let mut units = Unit::ALL.iter().copied().filter(|unit| unit.dimension() == dimension);
    units.next().filter(|_| units.next().is_none())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn leads(role: Role, text: &str, field: &str, unit: Option<Unit>) {
        let header = Header::of(text);
        let Meant::Field { target, .. } = meant(role, None, &header.words) else { panic!("{text}: {header:?}") };
        assert_eq!((target.name().as_str(), header.unit), (field, unit), "{text}");
    }

    #[test]
    fn a_header_leads_to_its_field_with_its_unit() {
        use Role::{Attachments, Machines, Parts};
        leads(Machines, "Aux flow [gpm]", "circuits.flow", Some(Unit::UsGallonPerMinute));
        leads(Machines, "Weight (kg)", "operating_mass", Some(Unit::Kilogram));
        leads(Machines, "Operating weight, lb", "operating_mass", Some(Unit::Pound));
        leads(Machines, "Engine power in kW", "engine.power", Some(Unit::Kilowatt));
        leads(Machines, "Engine HP", "engine.power", Some(Unit::Horsepower));
        leads(Machines, "AUX. HYD. FLOW L/min", "circuits.flow", Some(Unit::LitrePerMinute));
        leads(Machines, "Aux 2 flow (L/min)", "circuits.2.flow", Some(Unit::LitrePerMinute));
        leads(Machines, "Coupling size in", "circuits.coupling.size", Some(Unit::Inch));
        leads(Machines, "engine.high_idle", "engine.high_idle", None);
        leads(Machines, "Reaction torque [Nm]", "reaction_torque", Some(Unit::NewtonMetre));
        leads(Attachments, "Max. back pressure (bar)", "outlet.back_pressure", Some(Unit::Bar));
        leads(Attachments, "Working Pressure PSI", "pressure.working", Some(Unit::Psi));
        leads(Attachments, "pressure.greatest", "pressure.greatest", None);
        leads(Attachments, "Min flow", "flow.least", None);
        leads(Parts, "Price (EUR)", "price", None);
        assert_eq!(Header::of("Price (EUR)").currency.as_deref(), Some("EUR"));
    }

    #[test]
    fn a_misspelt_header_is_asked_and_not_taken() {
        let Meant::Unknown { near } = meant(Role::Machines, None, "Operating wieght") else { panic!("taken") };
        assert_eq!(near.as_deref(), Some("operating_mass"));
        let Meant::Unknown { near } = meant(Role::Machines, None, "Colour") else { panic!("taken") };
        assert_eq!(near, None);
    }

    #[test]
    fn a_sheet_of_circuits_names_its_fields_without_their_list() {
        let circuits = |words| meant(Role::Machines, Some("circuits"), words);
        assert!(matches!(circuits("machine"), Meant::Reference));
        for (words, field) in
            [("flow", "circuits.flow"), ("Relief", "circuits.relief"), ("supply.2.bore", "circuits.supply.2.bore")]
        {
            let Meant::Field { target, .. } = circuits(words) else { panic!("{words}") };
            assert_eq!(target.name(), field);
        }
    }
}
