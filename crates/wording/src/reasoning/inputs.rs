//! What went into a number: its name, what it says, and who says so.

use super::InputText;
use crate::{Words, capital};
use fit::FactId;
use fit::trace::{Aspect, Context, InputRecord, Origin, Value, What, Worked};
use quantity::{Amount, Provenance, Source, SpreadFrom};
use table::AssumptionId;

impl Words<'_> {
    /// An input; `own_ranges` are those of the table.
    pub(super) fn input(&self, used: &InputRecord, own_ranges: &[AssumptionId]) -> InputText {
        let source = match used.origin {
            Origin::Stated(said) => self.stated(said, used),
            Origin::Table => match used.what {
                What::Context(Context::SettingRange) => "as machine or part offers it",
                What::Context(
                    Context::PartUsed
                    | Context::PartBore
                    | Context::PartRatedFlow
                    | Context::PartRatedPressure
                    | Context::PartConductance
                    | Context::PartPrice
                    | Context::WorkshopTime
                    | Context::LabourRate,
                ) => "the table's",
                _ => "as stated",
            }
            .to_owned(),
            Origin::Assumed(id) => {
                let whose = if own_ranges.contains(&id) {
                    "the table's own range"
                } else {
                    "common practice, no published source"
                };
                match &used.value {
                    Value::Figure { span: Some((low, high)), .. } if low != high => {
                        format!(
                            "not stated; usually {} to {}: {whose}",
                            self.input_figure(used, *low),
                            self.input_figure(used, *high)
                        )
                    }
                    _ => format!("not stated; the typical value: {whose}"),
                }
            }
            Origin::Practice => match &used.value {
                Value::Minutes(_, Some((least, most))) if least != most => format!(
                    "not stated; usually {} to {}: common practice, no published source",
                    self.duration(*least),
                    self.duration(*most)
                ),
                Value::Minutes(..) => "not stated; the usual time: common practice, no published source".to_owned(),
                _ => "common practice, no published source".to_owned(),
            },
            Origin::Chosen => "chosen for this answer".to_owned(),
            Origin::Worked => "worked out on the way".to_owned(),
            Origin::Missing => match used.what {
                What::Fact(id, _) => format!("not stated; to be found: {}", self.place(id)),
                What::Context(_) | What::Worked(_) | What::Change(_) => "not stated".to_owned(),
            },
        };
        InputText { name: capital(self.input_name(used)), value: self.input_value(used), source }
    }

    /// Who states a figure, and what spread is added to it.
    fn stated(&self, said: Provenance, used: &InputRecord) -> String {
        let by = match said.source {
            Source::Published => "published",
            Source::Plate => "read off a plate",
            Source::Measured => "measured",
        };
        let Value::Figure { likely, span: Some((low, high)), .. } = &used.value else { return by.to_owned() };
        // An interval of a standard's grade, of practice, or as it is written.
        let spread = match likely.filter(|likely| likely.si() > 0.0) {
            Some(likely) => {
                self.spread((likely.si() - low.si()) / likely.si(), (high.si() - likely.si()) / likely.si())
            }
            None => format!("{} to {}", self.input_figure(used, *low), self.input_figure(used, *high)),
        };
        match said.spread {
            _ if low == high => format!("{by}, taken as it stands"),
            SpreadFrom::Exact | SpreadFrom::Stated => format!("{by}, {spread} as stated"),
            SpreadFrom::Practice if matches!(used.what, What::Fact(FactId::OilGrade, _)) => {
                format!("{by}, {spread} by ISO 3448")
            }
            SpreadFrom::Practice if said.source == Source::Measured => {
                format!("{by}, {spread} of instruments: common practice, no published source")
            }
            SpreadFrom::Practice => format!("{by}, {spread} added: common practice, no published source"),
        }
    }

    /// `±5 %`, `−15/+8 %`.
    fn spread(&self, minus: f64, plus: f64) -> String {
        let percent = |share: f64| {
            let percent = share * 100.0;
            self.numbers.decimal(percent, usize::from((percent - percent.round()).abs() > 0.05))
        };
        let (below, above) = (percent(minus), percent(plus));
        if below == above { format!("±{below} %") } else { format!("−{below}/+{above} %") }
    }

    fn input_figure(&self, used: &InputRecord, amount: Amount) -> String {
        let practice = match used.what {
            What::Fact(FactId::CouplingLoss, Aspect::Like(AssumptionId::CouplingLoss)) => {
                Some(AssumptionId::CouplingLoss)
            }
            What::Context(Context::UsualCleanliness) => Some(AssumptionId::OilCleanliness),
            What::Context(Context::UsualFiltration) => Some(AssumptionId::FiltrationRating),
            _ => None,
        };
        match used.what {
            _ if let Some(practice) = practice => self.assumed_figure(practice, amount),
            What::Fact(FactId::MotorRatio | FactId::ReturnPulsation, _) => self.numbers.decimal(amount.si(), 2),
            _ => self.amount(amount),
        }
    }

    fn input_value(&self, used: &InputRecord) -> String {
        let named = |name: &str| self.named(used.what, name);
        match &used.value {
            Value::Figure { likely, worst, span } => {
                let worst: Vec<_> = worst.iter().map(|worst| self.input_figure(used, *worst)).collect();
                let likely = likely.map(|likely| self.input_figure(used, likely));
                match (likely, worst.as_slice()) {
                    (Some(likely), []) => likely,
                    (Some(likely), [worst]) if *worst == likely => likely,
                    (Some(likely), worst) => format!("likely {likely}, at worst {}", worst.join(" and ")),
                    (None, []) => match (span, used.origin) {
                        (Some((low, high)), _) => {
                            format!("{} to {}", self.input_figure(used, *low), self.input_figure(used, *high))
                        }
                        (None, _) => "not known".to_owned(),
                    },
                    (None, worst) => format!("at worst {}", worst.join(" and ")),
                }
            }
            Value::Yes => "yes".to_owned(),
            Value::No => "no".to_owned(),
            Value::Named(name) => named(name),
            Value::Names(names) if names.is_empty() => "none".to_owned(),
            Value::Names(names) => names.iter().map(|name| named(name)).collect::<Vec<_>>().join(", "),
            Value::Guards(guards) if guards.is_empty() => "none".to_owned(),
            Value::Guards(guards) => guards.iter().map(|guard| self.guard(*guard)).collect::<Vec<_>>().join(", "),
            Value::Count(count) => match used.what {
                What::Fact(FactId::FiltrationRating, _) | What::Context(Context::FiltrationDemanded) => {
                    format!("{count} µm")
                }
                _ => count.to_string(),
            },
            Value::HeadKind(kind) => self.head_kind(*kind).to_owned(),
            Value::CarrierClass(class) => self.carrier_class(*class).to_owned(),
            Value::Mountings(mountings) => self.mountings(mountings),
            Value::Text(text) => text.clone(),
            Value::Money(price) => self.price(price),
            Value::Minutes(minutes, _) => self.duration(*minutes),
            Value::Takes(total) => self.total(total),
            Value::NotStated => "not known".to_owned(),
        }
    }

    /// A value of a closed list: its written name is that of the trade, but for a few.
    fn named(&self, what: What, name: &str) -> String {
        match (what, name) {
            (What::Fact(FactId::ReturnRoute, _), "spool") => "through the valve".to_owned(),
            (What::Fact(FactId::ReturnRoute, _), "direct") => "direct to the tank".to_owned(),
            (What::Fact(FactId::CircuitWays | FactId::HeadWays, _), "one") => "one way".to_owned(),
            (What::Fact(FactId::CircuitWays | FactId::HeadWays, _), "two") => "both ways".to_owned(),
            _ => match name.split_once("iso-") {
                Some(("", number)) => format!("ISO {}", number.replace('-', " ")),
                _ => name.replace('-', " "),
            },
        }
    }

    fn input_name(&self, used: &InputRecord) -> &'static str {
        match used.what {
            What::Fact(id, aspect) => self.figure_name(id, aspect, used.origin),
            What::Context(besides) => circumstance(besides),
            What::Worked(worked) => on_the_way(worked),
            What::Change(id) => self.change_name(id),
        }
    }

    fn figure_name(&self, id: FactId, aspect: Aspect, origin: Origin) -> &'static str {
        let fact = |id| {
            let name = self.fact(id);
            name.strip_prefix("the ").unwrap_or(name)
        };
        match (id, aspect) {
            (FactId::HighIdle, _) => "engine speed without load, as a share of that at work",
            (FactId::OilGrade, Aspect::Like(_)) => "viscosity of the oil at 40 °C",
            (_, Aspect::TurnedUp) => "flow to which it can be turned up without tools",
            (_, Aspect::Regulator) => "flow that regulator or divider holds",
            (_, Aspect::Pumps) => "flow of the circuit's pumps together",
            (_, Aspect::CutOff) => "pressure at which the pumps cut off",
            (_, Aspect::Bypass) => "pressure at which the return filter's bypass opens",
            (_, Aspect::Bore) => "size of the couplings",
            (FactId::ReturnRoute, _) => "way of the return",
            (FactId::CircuitWays, _) => "directions of the circuit",
            (FactId::HeadWays, _) => "directions of oil that the attachment takes",
            (FactId::CarrierMassWindow, _) => "machine weight for which the attachment is made",
            (_, Aspect::Like(usual)) if matches!(origin, Origin::Assumed(_)) => self.assumption(usual),
            // Of several figures of a fact the one of practice's name; of a class's figures the fact's own.
            (_, Aspect::Like(usual)) if !self.assumption(usual).ends_with("of this class") => self.assumption(usual),
            (id, _) => fact(id),
        }
    }
}

fn circumstance(besides: Context) -> &'static str {
    match besides {
        Context::HeadKind => "kind of attachment",
        Context::CarrierClass => "class of machine",
        Context::ReverseLocked => "whether the reverse is locked",
        Context::ReturnRelief => "whether a relief to the tank guards the return",
        Context::OwnFilter => "whether the return has a filter of its own",
        Context::FilterDemanded => "whether the attachment demands a filter",
        Context::FiltrationDemanded => "filtration rating that the attachment demands",
        Context::Divider => "whether a priority flow divider is fitted",
        Context::OilKindsDemanded => "kinds of oil that the attachment demands",
        Context::OilGradesDemanded => "grades of oil that the attachment demands",
        Context::CleanlinessDemanded => "cleanliness that the attachment demands",
        Context::UsualGrade => "grade of oil that attachments usually take",
        Context::UsualCleanliness => "usual cleanliness of the oil (last number of ISO 4406)",
        Context::UsualFiltration => "usual filtration rating of return filters",
        Context::ExtraFunctions => "functions of the attachment besides its rotor",
        Context::ExtraValve => "valve that drives them",
        Context::OutputsNeeded => "switched outputs that are needed",
        Context::SwitchedByValve => "whether the attachment is switched by a valve of its own",
        Context::CouplerFitted => "whether there is a coupler",
        Context::OtherCircuits => "other circuits of the machine",
        Context::PumpsOfMachine => "pumps that can drive the machine",
        Context::OtherTools => "other tools on the same valve",
        Context::ToolShutOff => "whether the other tool is shut off",
        Context::ToolRelief => "whether the other tool has a relief of its own",
        Context::MakeUpCheck => "whether the machine's side has a check valve for coast-down",
        Context::CouplingStandard => "standard of the machine's couplings",
        Context::HeadCouplingStandard => "standard of the attachment's couplings",
        Context::WorkNamed => "material that is to be worked",
        Context::HeadPower => "power for which the attachment is made",
        Context::ReliefAsked => "relief setting that the attachment's maker asks for",
        Context::ReliefGap => "gap between two pressure settings",
        Context::CreepWindow => "travel speed at which the attachment works",
        Context::PumpsOfCircuit => "those of them that feed the circuit",
        Context::Ambient => "air around the machine",
        Context::OilStop => "oil temperature at which work ends",
        Context::SettingRange => "between what it can be set",
        Context::ShopStep => "step to which it is set",
        Context::SettingTolerance => "how exactly it is set",
        Context::RegulatorHolds => "how exactly regulator or divider holds it, up or down",
        Context::SpeedToday => "engine speed at work as it is",
        Context::WarmestStart => "most to which oil is idled warm",
        Context::ColdestStart => "the coldest day on which it is to be started",
        Context::PartUsed => "part of the table",
        Context::PartBore => "its bore or size",
        Context::PartRatedFlow => "flow that it is rated for",
        Context::PartRatedPressure => "pressure that it is rated for",
        Context::PartConductance => "heat that it carries away",
        Context::PartPrice => "price of the part",
        Context::WorkshopTime => "time in the workshop",
        Context::TankPortTime => "time for a port in the tank: none to spare is stated",
        Context::LabourRate => "an hour in the workshop",
        Context::Labour => "labour",
        Context::ColdOil => "oil at the start",
        Context::WarmEnough => "oil that counts as warm enough",
    }
}

fn on_the_way(worked: Worked) -> &'static str {
    match worked {
        Worked::FlowAtWork => "flow through the attachment",
        Worked::FlowFree => "flow through the attachment, turning freely",
        Worked::MostFlow => "most flow that can come",
        Worked::WholeFlowUpTo => "pressure up to which the whole flow is given",
        Worked::SupplyLoss => "taken on the way to the attachment",
        Worked::ReturnLoss => "taken by the return",
        Worked::LeakedFlow => "leaked into the motor's housing",
        Worked::PressureNeeded => "pressure needed at the pumps",
        Worked::Difference => "pressure difference over the motor",
        Worked::PumpPressure => "pressure at the pumps",
    }
}
