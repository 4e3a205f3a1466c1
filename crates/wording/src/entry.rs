//! The form of an entry of the table: what each field is called, where its figure is found, what may be typed, what is wrong.

use super::Words;
use super::problems::example;
use fit::FactId;
use quantity::{Dimension, Named, Unit, UnitSystem};
use spreadsheet::{Role, Target};
use table::row::Form;
use table::{CarrierClass, Fault, Guard, HeadKind, Problem, Severity};

/// What each step of a dotted name is called; of several that fit, the longest counts. A step without words says nothing by itself.
const STEPS: &[(&str, &str)] = &[
    ("maker", "maker"),
    ("model", "model"),
    ("class", "class"),
    ("kind", "kind"),
    ("generic", "does it stand for a whole class?"),
    ("serial_range", "serial numbers"),
    ("link", "web page"),
    ("stock", "stock"),
    ("checked", "figures last checked"),
    ("operating_mass", "operating mass"),
    ("engine", "engine"),
    ("engine.power", "net power"),
    ("working_speed", "speed at work"),
    ("high_idle", "speed without load"),
    ("speed_range", "speeds at which it may work"),
    ("pumps", "pump"),
    ("control", "how it is commanded"),
    ("displacement", "displacement"),
    ("greatest_flow", "greatest flow"),
    ("pumps.pressure", "cut-off, or greatest pressure"),
    ("power_limit", "power at which its limiter acts"),
    ("power_group", "power group"),
    ("margin", "load-sensing margin"),
    ("also_feeds", "what it must feed first"),
    ("power_groups", "power group"),
    ("limit", "power of its pumps together"),
    ("sum", "how the limit is shared"),
    ("main_relief", "main relief"),
    ("circuits", "circuit"),
    ("name", "name"),
    ("end", "end of the machine"),
    ("circuits.flow", "greatest flow"),
    ("flow_setting", "flow can be set"),
    ("range", "from … to"),
    ("step", "in steps of"),
    ("locked", "can the setting be locked?"),
    ("flow_limit", "flow of a sealed regulator"),
    ("divider", "flow divider"),
    ("set_flow", "flow to which it is set"),
    ("port_relief", "has its priority port a relief?"),
    ("vented_when_off", "is it vented while the attachment is off?"),
    ("circuits.relief", "relief"),
    ("relief_role", "what the relief is for"),
    ("head_relief", "relief block of the attachment"),
    ("relief_range", "relief can be set from … to"),
    ("circuits.pumps", "which pumps feed it"),
    ("fed_from", "where it gets its oil"),
    ("demand_signal", "do the pumps get a demand signal?"),
    ("circuits.ways", "ways in which oil can be sent"),
    ("reverse_locked", "is the other way locked?"),
    ("continuous", "does the flow stay on without a hand?"),
    ("circuits.centre", "its valve while idle"),
    ("unloads_when_off", "does its oil go to the tank unloaded while the attachment's valve is shut?"),
    ("stops_and_stays_off", "does it stop without operator or power, and stay off?"),
    ("warm_up", "idled until the oil has"),
    ("shared_with", "other tool on the same valve"),
    ("shared_with.greatest_pressure", "pressure that it is rated for"),
    ("shared_with.greatest_flow", "flow that it takes"),
    ("own_relief", "has it a relief of its own?"),
    ("isolated", "is it shut off while an attachment works?"),
    ("extra_valve", "valve for the attachment's other functions"),
    ("make_up_check", "is there an anti-cavitation check valve near the motor?"),
    ("supply", "supply hose"),
    ("bore", "bore"),
    ("length", "length"),
    ("standard", "kind"),
    ("rating", "rated pressure"),
    ("return_path", "return"),
    ("route", "where the oil returns"),
    ("loss", "pressure lost"),
    ("loss.loss", ""),
    ("loss.flow", "at a flow of"),
    ("loss.viscosity", "at a viscosity of"),
    ("line", "hose"),
    ("through_filter", "does it pass the return filter?"),
    ("filter", "filter of its own"),
    ("fineness_um", "filtration rating, in µm"),
    ("bypass", "pressure at which its bypass opens"),
    ("spare_port", "has it a spare port before it?"),
    ("tank.spare_port", "spare return port"),
    ("through_cooler", "does it pass the cooler?"),
    ("cooler", "oil cooler"),
    ("return_path.cooler", "cooler of its own"),
    ("conductance", "heat carried away per kelvin"),
    ("cooler.flow", "at a flow of"),
    ("can_be_shut", "can anything shut it?"),
    ("return_path.relief", "does a relief to the tank guard it?"),
    ("port", "port"),
    ("port.standard", "thread or flange"),
    ("spare_port.standard", "thread or flange"),
    ("size", "size"),
    ("coupling", "hose coupling"),
    ("rated_flow", "rated flow"),
    ("rated_pressure", "rated pressure"),
    ("screwed", "is it screwed, so that it locks?"),
    ("both_halves", "is its other half there too?"),
    ("case_line", "case drain"),
    ("fitted", "is there one?"),
    ("own_port", "does it end in the tank by a port of its own?"),
    ("return_filter", "return filter"),
    ("tank", "tank"),
    ("volume", "oil in it"),
    ("tank.pressure", "pressure above the oil"),
    ("dissipation", "heat given off per kelvin"),
    ("oil", "oil in the tank"),
    ("grade", "grade"),
    ("viscosity_40", "viscosity at 40 °C"),
    ("viscosity_100", "viscosity at 100 °C"),
    ("cleanliness", "cleanliness (ISO 4406)"),
    ("electrics", "electrics"),
    ("voltage", "voltage"),
    ("outputs", "spare output"),
    ("current", "greatest current"),
    ("spare_buttons", "spare buttons, how many"),
    ("converter", "is there a converter for coils of another voltage?"),
    ("lifting", "lift"),
    ("chart", "point of the chart"),
    ("reach", "reach"),
    ("height", "height"),
    ("over_side", "is it over the side?"),
    ("chart.mass", "load"),
    ("greatest_reach", "greatest reach at ground level"),
    ("rated_operating_capacity", "rated operating capacity"),
    ("tipping_load", "tipping load"),
    ("tipping_axis", "from tipping axis to coupler"),
    ("load_centre", "from coupler to middle of the bucket"),
    ("share", "share of the tipping load that may be carried"),
    ("tipping_edge", "from slew axis to tipping edge"),
    ("boom_foot", "from slew axis to boom foot"),
    ("bucket", "mass of the bucket with which the chart was made"),
    ("mounting", "mounting"),
    ("mounting.standard", "by a standard"),
    ("pin", "pin diameter"),
    ("centres", "distance of the pins, centre to centre"),
    ("coupler", "coupler for attachments"),
    ("mass", "mass"),
    ("capacity", "what it may carry"),
    ("secured", "is its lock proven by its build?"),
    ("second_coupler", "second coupler for attachments"),
    ("curl_clearance", "free radius for a curled tool"),
    ("reaction_torque", "torque about the vertical axis that it holds"),
    ("guards", "guards fitted"),
    ("travel_speed", "travel speeds at full engine speed"),
    ("functions", "other functions while an attachment works"),
    ("least_flow", "flow that they need"),
    ("functions.pressure", "at a pressure of"),
    ("centre_of_gravity", "from mounting face to centre of gravity"),
    ("curl_radius", "radius when it is curled in"),
    ("work", "work"),
    ("materials", "material"),
    ("materials.greatest", "greatest thickness"),
    ("width", "width"),
    ("depth", "depth"),
    ("payload", "what it may carry besides its own mass"),
    ("flow", "flow"),
    ("least", "at least"),
    ("rated", "at its best"),
    ("greatest", "at most"),
    ("pressure", "pressure"),
    ("working", "at work"),
    ("basis", "how that at work is meant"),
    ("pressure.relief", "relief that its maker asks for"),
    ("pressure.greatest", "at its inlet, at most"),
    ("power", "hydraulic power"),
    ("motor", "motor"),
    ("volumetric_efficiency", "volumetric efficiency"),
    ("hydromechanical_efficiency", "hydro-mechanical efficiency"),
    ("ratio", "turns of the rotor per turn of the motor"),
    ("rotor_speed", "rotor speed"),
    ("inertia", "inertia of the rotor"),
    ("torque_limit", "greatest torque"),
    ("outlet", ""),
    ("back_pressure", "back pressure, at most"),
    ("case_pressure", "case pressure, at most"),
    ("needs_case_line", "does it need a case drain?"),
    ("case_flow", "flow through the case drain"),
    ("extra_functions", "other function"),
    ("drive", "how it is driven"),
    ("greatest_pressure", "greatest pressure"),
    ("carrier_mass", "mass of the machine"),
    ("demands", "what it demands"),
    ("demands.return_filter", "must its return pass a filter?"),
    ("filter_fineness_um", "filtration rating, in µm"),
    ("oil_kinds", "kinds of oil"),
    ("oil_grades", "grades of oil"),
    ("demands.guards", "guards"),
    ("thrown_object_distance", "nobody nearer than"),
    ("creep_speed", "travel speed at work"),
    ("duty", "duty, in its maker's words"),
    ("vibrating", "does it shake, so that couplings must lock?"),
    ("ways", "ways in which oil may flow"),
    ("centre", "its valve while it is off"),
    ("run_down_check", "does an anti-cavitation check valve let its rotor coast down?"),
];

/// What the last of some steps is called.
fn step(steps: &[(&'static str, bool)]) -> Option<&'static str> {
    (0..steps.len()).find_map(|from| {
        let name = steps[from..].iter().map(|(key, _)| *key).collect::<Vec<_>>().join(".");
        STEPS.iter().find(|(known, _)| *known == name).map(|(_, words)| *words)
    })
}

/// The words of a target, a piece for each step that says something.
fn pieces(role: Role, target: &Target) -> Vec<String> {
    let mut places = target.places.iter();
    let mut pieces = Vec::new();
    let steps = &target.field.steps;
    for (at, (key, is_list)) in steps.iter().enumerate() {
        // The ears of an attachment stand about the stick of a machine.
        let is_of_ears = target.field.name == "mounting.width" && at == 1;
        let words = match (is_of_ears, role) {
            (true, Role::Attachments) => "gap between the ears",
            (true, _) => "width of the stick",
            _ => step(&steps[..=at]).unwrap_or(key),
        };
        let place = is_list.then(|| places.next().copied()).flatten().unwrap_or(0);
        let numbered = if place == 0 { words.to_owned() } else { format!("{words} {}", place + 1) };
        pieces.extend(Some(numbered).filter(|words| !words.is_empty()));
    }
    pieces
}

/// The fact that a field is, of those that are one field.
fn fact_of(role: Role, target: &Target) -> Option<FactId> {
    let name = &target.field.name;
    let fact = if role == Role::Attachments {
        format!("head.{name}")
    } else {
        let of_circuit = name.strip_prefix("circuits.").map(|name| format!("carrier.circuit.{name}"));
        of_circuit.unwrap_or_else(|| format!("carrier.{name}"))
    };
    FactId::from_name(&fact)
}

impl Words<'_> {
    /// What a field of an entry is called: “Circuit 2, supply hose, bore”.
    pub fn field_title(&self, role: Role, target: &Target) -> String {
        super::capital(&pieces(role, target).join(", "))
    }

    /// Under what the field stands in a list of many.
    pub fn field_group(&self, role: Role, target: &Target) -> String {
        if target.field.steps.len() == 1 {
            return if role == Role::Machines { "The machine" } else { "The attachment" }.to_owned();
        }
        pieces(role, target).first().map_or_else(String::new, |words| super::capital(words))
    }

    /// Where a person finds what is asked; empty where that is plain.
    pub fn field_place(&self, role: Role, target: &Target) -> &'static str {
        fact_of(role, target).map_or(target.field.found, |fact| self.place(fact))
    }

    /// What to type, in the reader's units; empty where one chooses.
    pub fn field_example(&self, target: &Target) -> String {
        let us = self.units == UnitSystem::UsCustomary;
        let own = |metric: &str, customary: &str| if us { customary } else { metric }.to_owned();
        let last = target.field.steps.last().map_or("", |(key, _)| *key);
        match target.field.form {
            Form::YesNo | Form::Name(_) | Form::Reference | Form::Object(_) | Form::Text | Form::Id | Form::Picture => {
                String::new()
            }
            Form::Count if last.contains("fineness") => "10".to_owned(),
            Form::Count => "2".to_owned(),
            Form::Link => "https://…".to_owned(),
            Form::Date => "2026-11-25".to_owned(),
            Form::Money => "1240.50".to_owned(),
            Form::Currency => "EUR".to_owned(),
            Form::Cleanliness => "20/18/15".to_owned(),
            Form::Figure(..) | Form::Range(..) if last == "back_pressure" => own("10 bar", "145 psi"),
            Form::Figure(..) if ["case_pressure", "bypass"].contains(&last) => own("2 bar", "29 psi"),
            Form::Figure(Dimension::Pressure, _) if target.field.name.contains("loss") => own("3 bar", "45 psi"),
            Form::Figure(Dimension::Pressure, _) if target.field.name == "tank.pressure" => own("0.3 bar", "4 psi"),
            Form::Figure(Dimension::Pressure, _) if last == "margin" => own("20 bar", "290 psi"),
            Form::Figure(Dimension::Flow, _) if last == "case_flow" => own("4 L/min", "1 gpm"),
            Form::Figure(Dimension::Mass, _)
                if last == "operating_mass" || target.field.name.contains("carrier_mass") =>
            {
                own("3640 kg", "8020 lb")
            }
            Form::Figure(Dimension::Length, Unit::Metre) => own("1.2 m", "4 ft"),
            Form::Range(dimension, unit) if unit.dimension() == dimension => match dimension {
                Dimension::Flow => own("30..118 L/min", "8..31 gpm"),
                Dimension::Pressure => own("180..250 bar", "2600..3600 psi"),
                Dimension::RotationalSpeed => "1800..2400 rpm".to_owned(),
                _ => own("0.6..12 km/h", "0.4..7.5 mph"),
            },
            Form::Figure(dimension, _) | Form::Range(dimension, _) | Form::Window(dimension, _) => {
                example(dimension, self.units).to_owned()
            }
        }
    }

    /// One of the names to choose from.
    pub fn field_choice(&self, target: &Target, name: &str) -> String {
        let steps = &target.field.steps;
        let last = steps.last().map_or("", |(key, _)| *key);
        if let Some(class) = CarrierClass::from_name(name) {
            return super::capital(self.carrier_class(class));
        }
        if let (Some(kind), "kind", 1) = (HeadKind::from_name(name), last, steps.len()) {
            return super::capital(self.head_kind(kind));
        }
        if let (Some(guard), "guards") = (Guard::from_name(name), last) {
            return self.guard(guard).to_owned();
        }
        let words = match name {
            "difference" => "between inlet and outlet",
            "inlet" => "at its inlet",
            "open" => "passes oil",
            "closed" => "passes none",
            "diverter" => "diverter at the end of the arm",
            "head-block" => "valve block on the attachment",
            "gear" => "gear pump",
            "vane" => "vane pump",
            "axial-piston" => "axial piston",
            "bent-axis" => "bent axis",
            "gear-one-way" => "gear, one way",
            "gear-drained" => "gear, with a drain",
            "radial-piston" => "radial piston",
            "impact" => "percussion",
            "load-sensing" => "load sensing",
            "pressure-compensated" => "pressure compensated",
            "individual" => "each pump its own",
            "pressure-sum" => "by the sum of the pressures",
            "torque-sum" => "by the sum of the torques",
            "main" => "the machine's main relief",
            "shock" => "against shocks",
            "work-limit" => "limits the work",
            "on-off" => "on and off",
            "side-shift" => "side shift",
            "data-bus" => "data bus",
            "rotation" => "rotation",
            other => return self.figure_choice(other),
        };
        words.to_owned()
    }

    /// The units in which a figure is likely meant when none was typed, the reader's first.
    pub fn field_units(&self, target: &Target) -> Vec<&'static str> {
        let (Form::Figure(dimension, usual) | Form::Range(dimension, usual)) = target.field.form else {
            return Vec::new();
        };
        let mut units = match usual {
            Unit::Metre => vec![Unit::Metre, Unit::Foot],
            _ => UnitSystem::ALL.iter().map(|&system| Unit::shown(dimension, system)).collect(),
        };
        if self.units == UnitSystem::UsCustomary {
            units.reverse();
        }
        units.dedup();
        units.into_iter().map(|unit| self.unit(unit)).collect()
    }

    /// What is wrong with what is typed in a form, as a sentence or two.
    pub fn form_problem(&self, problem: &Problem) -> String {
        let text = self.problem(problem);
        let (expected, remedy) = match &problem.fault {
            Fault::MissingField { .. } => {
                return "It must be there: the table cannot use the entry without it.".to_owned();
            }
            Fault::WrongType { expected: "true or false" } => ("yes or no".to_owned(), "write yes or no".to_owned()),
            _ => (text.expected, text.remedy),
        };
        let begins = if problem.severity == Severity::Error { "Not used yet" } else { "Unusual" };
        format!("{begins}: expected is {expected}. To fix it: {remedy}.")
    }

    /// What becomes of the table in use with the first change of it; none where it is a file's already.
    pub fn becomes_a_copy(&self, address: Option<&str>) -> String {
        match address {
            None => "This is the table beside the app. With the first change you save, a copy of it is kept in this browser and used from then on."
                .to_owned(),
            Some(address) => format!(
                "This table comes from {}. With the first change you save, a copy of it is kept in this browser and used from then on: it is not asked for there again.",
                self.address(address)
            ),
        }
    }

    /// Where a table that is kept here is kept.
    pub fn kept_as_a_file(&self, name: &str) -> String {
        format!(
            "The table “{name}” is kept in this browser: what you save changes it there. A file on your device stays as it is until you download the table."
        )
    }

    /// That something must be put right before it is saved.
    pub fn to_put_right(&self, count: usize) -> String {
        format!("{} to put right first", super::counted(count, "thing", "things"))
    }

    /// How many changes are not saved yet.
    pub fn unsaved(&self, count: usize) -> String {
        format!("{} not saved yet", super::counted(count, "change", "changes"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::PlainNumbers;
    use quantity::text;
    use std::collections::HashSet;

    const METRIC: Words = Words { numbers: &PlainNumbers, units: UnitSystem::Metric };
    const US: Words = Words { numbers: &PlainNumbers, units: UnitSystem::UsCustomary };

    fn targets() -> impl Iterator<Item = (Role, Target)> {
        [Role::Machines, Role::Attachments].into_iter().flat_map(|role| {
            role.fields().0.iter().map(move |field| (role, Target::named(role, &field.name).expect("a field")))
        })
    }

    /// Two fields with one name would be one field to who hears them read out.
    #[test]
    fn every_field_has_a_name_of_its_own() {
        for role in [Role::Machines, Role::Attachments] {
            let mut seen = HashSet::new();
            for (_, target) in targets().filter(|(of, _)| *of == role) {
                let held = matches!(target.field.form, Form::Object(_) | Form::Window(..) | Form::Id);
                let title = METRIC.field_title(role, &target);
                assert!(held || seen.insert(title.clone()), "{}: {title}", target.field.name);
                assert!(!title.contains('_'), "{title}");
                assert!(step(&target.field.steps).is_some() || held, "{}", target.field.name);
            }
        }
        let second = Target::named(Role::Machines, "circuits.2.supply.bore").expect("a field");
        assert_eq!(METRIC.field_title(Role::Machines, &second), "Circuit 2, supply hose, bore");
    }

    #[test]
    fn every_name_has_words_and_no_two_of_a_list_the_same() {
        for (_, target) in targets() {
            let Form::Name(names) = target.field.form else { continue };
            let shown: HashSet<_> = names.iter().map(|name| METRIC.field_choice(&target, name)).collect();
            assert_eq!(shown.len(), names.len(), "{}", target.field.name);
        }
    }

    /// What a form proposes to type, its own grammar reads.
    #[test]
    fn every_example_and_every_likely_unit_can_be_read() {
        for (_, target) in targets() {
            for words in [METRIC, US] {
                let example = words.field_example(&target);
                match target.field.form {
                    Form::Figure(dimension, _) => {
                        assert!(text::read_stated(&example, dimension).is_ok(), "{}: {example}", target.field.name);
                        for unit in words.field_units(&target) {
                            assert!(text::read_stated(&format!("12 {unit}"), dimension).is_ok(), "{unit}");
                        }
                    }
                    Form::Range(dimension, _) => {
                        assert!(text::read_span(&example, dimension).is_ok(), "{}: {example}", target.field.name);
                    }
                    _ => {}
                }
            }
        }
    }
}
