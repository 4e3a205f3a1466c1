//! What each drawing says to who does not see it: sentences from the same data.

use super::Words;
use super::reasons::list;
use fit::installation::{LiftOverReach, NodeReading, PumpCurve, Standing, Warming};
use fit::{Check, FactId, Node, OilState};
use quantity::Amount;
use table::ReturnRoute;
use workshop::schema::{Fitted, Part, Schema, State};
use workshop::{Found, Judged, Reading};

impl Words<'_> {
    /// The circuit along the way of the oil, a sentence a stretch; with what it does in the state that is shown.
    pub fn circuit_text(&self, schema: &Schema, standing: Option<&Standing>) -> Vec<String> {
        let nodes = match standing {
            Some(Standing::Turns { nodes, .. } | Standing::Stalls { nodes, .. }) => nodes.as_slice(),
            _ => &[],
        };
        let supply = [
            Part::Pump,
            Part::First,
            Part::Functions,
            Part::Demand,
            Part::Divider,
            Part::Spool,
            Part::ReverseLock,
            Part::Relief,
            Part::FlowLimit,
            Part::Tool,
            Part::ShutOff,
            Part::ToolRelief,
            Part::Diverter,
            Part::SupplyLine,
            Part::Couplings,
        ];
        let head = [Part::OnOff, Part::HeadRelief, Part::DoorBlock, Part::Door, Part::RunDownCheck, Part::Motor];
        let back = [
            Part::ReturnLine,
            Part::ReturnRelief,
            Part::Changeover,
            Part::OwnCooler,
            Part::OwnFilter,
            Part::MachineCooler,
            Part::MachineFilter,
            Part::Tank,
        ];
        let drain = [Part::CaseLine, Part::CasePlug];
        let at = |wanted: &[(Node, &str)]| self.readings(nodes, wanted);
        let mut lines = Vec::new();
        let mut put = |title: &str, parts: &[Part], readings: String| {
            let named: Vec<_> =
                parts.iter().filter_map(|part| schema.get(*part)).map(|f| self.fitted(f, schema)).collect();
            if !named.is_empty() {
                lines.push(format!("{title}: {}.{readings}", named.join(", ")));
            }
        };
        put(
            "To the attachment",
            &supply,
            at(&[
                (Node::Pump, "at the pumps"),
                (Node::SupplyCoupling, "before the coupling"),
                (Node::Functions, "to the functions"),
                (Node::Relief, "over the relief"),
            ]),
        );
        put(
            "At the attachment",
            &head,
            at(&[(Node::MotorInlet, "at the inlet"), (Node::MotorOutlet, "at the outlet")]),
        );
        let way = match schema.route {
            Some(ReturnRoute::Direct) => "Back past the valve",
            Some(ReturnRoute::Spool) => "Back through the valve",
            None => "Return: not stated",
        };
        put(
            way,
            &back,
            at(&[
                (Node::ReturnValve, "before the valve"),
                (Node::ReturnFilter, "before the filter"),
                (Node::Tank, "in the tank"),
            ]),
        );
        put("Drain of the motor", &drain, at(&[(Node::Case, "in the housing")]));
        match standing {
            Some(Standing::Stalls { .. }) => lines.push("The attachment stands still.".to_owned()),
            Some(Standing::NotKnown { missing }) => {
                lines.push(format!("Flows and pressures cannot be said without {}.", self.facts_named(missing)));
            }
            _ => {}
        }
        lines
    }

    /// A part in a sentence, with what it is set to and how it comes there.
    fn fitted(&self, fitted: &Fitted, schema: &Schema) -> String {
        let name = fitted.name.clone().unwrap_or_else(|| self.part(fitted.part, schema.pumps, fitted.set.is_some()));
        let set = fitted.set.map(|set| format!(" {}", self.set_to(set))).unwrap_or_default();
        let state = match fitted.state {
            State::Stands => String::new(),
            State::Added => " (added".to_owned(),
            State::NotStated => return format!("{name}{set} (not stated)"),
        };
        if fitted.numbers.is_empty() {
            return format!("{name}{set}");
        }
        let numbers: Vec<_> = fitted.numbers.iter().map(ToString::to_string).collect();
        let numbers: Vec<_> = numbers.iter().map(String::as_str).collect();
        let by = if state.is_empty() { " (set" } else { state.as_str() };
        let word = if fitted.numbers.len() == 1 { "change" } else { "changes" };
        format!("{name}{set}{by} by {word} {})", list(&numbers))
    }

    fn readings(&self, nodes: &[NodeReading], wanted: &[(Node, &str)]) -> String {
        let found = wanted.iter().filter_map(|(node, place)| {
            let reading = nodes.iter().find(|reading| reading.node == *node)?;
            Some(format!("{} and {} {place}", self.amount(reading.flow), self.amount(reading.pressure)))
        });
        let found: Vec<_> = found.collect();
        if found.is_empty() { String::new() } else { format!(" There are {}.", found.join("; ")) }
    }

    pub(crate) fn facts_named(&self, missing: &[FactId]) -> String {
        let named: Vec<_> = missing.iter().map(|fact| self.fact(*fact)).collect();
        list(&named)
    }

    /// The pumps' curve.
    pub fn curve_text(&self, curve: &PumpCurve) -> String {
        let mut said = Vec::new();
        if let (Some((_, most)), Some((end, _))) = (curve.gives.first(), curve.gives.last()) {
            said.push(format!(
                "Without pressure {} are there; at {} nothing is left.",
                self.amount(*most),
                self.amount(*end)
            ));
        }
        if let Some((pressure, flow)) = &curve.limited_from {
            said.push(format!(
                "From {} and {} on the pumps' power limit takes flow.",
                self.amount(*pressure),
                self.amount(*flow)
            ));
        }
        for need in &curve.needs {
            let oil = match need.oil {
                OilState::Working => "oil at working temperature".to_owned(),
                other => format!("{} oil", self.oil_state(other)),
            };
            let (pressure, flow) = need.works_at;
            said.push(if need.stalls {
                format!("With {oil} the attachment stands still at work, at {}.", self.amount(pressure))
            } else {
                format!("With {oil} it works at {} and {}.", self.amount(flow), self.amount(pressure))
            });
        }
        if let (Some(least), Some(greatest)) = curve.window {
            said.push(format!("Its maker allows {}.", self.from_to(least, greatest)));
        }
        if let (Some((pressure, flow)), Some(gives)) = (curve.says, curve.gives_there) {
            let gives = if gives.si() > 0.0 { self.amount(gives) } else { "nothing".to_owned() };
            let (flow, pressure) = (self.amount(flow), self.amount(pressure));
            said.push(format!("The brochure says {flow} and {pressure}: at that pressure the circuit gives {gives}."));
        }
        said.join(" ")
    }

    /// What may hang, over reach.
    pub fn lift_text(&self, lift: &LiftOverReach) -> String {
        let hangs = format!("Attachment, what it holds and coupler hang with {}.", self.amount(lift.hangs));
        let Some(carries) = lift.carries_there() else { return hangs };
        let carries_text = self.amount(carries);
        match (lift.hangs_out, lift.lifts_to()) {
            (Some(out), _) => {
                let out = self.amount(out);
                format!("{hangs} With their weight {out} before the coupler {carries_text} may hang.")
            }
            (None, _) if !lift.at.iter().any(|at| at.over_side == Some(true)) => {
                format!(
                    "{hangs} Its lift chart states nothing over the side; over the front {carries_text} may hang at the worst point."
                )
            }
            (None, Some(reach)) if carries.si() < lift.hangs.si() => format!(
                "{hangs} That may hang up to a reach of {}; farther out less may, {carries_text} at the worst point of the chart, over the side too.",
                self.amount(reach)
            ),
            (None, Some(_)) => format!(
                "{hangs} At every point of the lift chart, over the side too, at least {carries_text} may hang."
            ),
            (None, None) => format!("{hangs} That is too much even at the nearest point of the chart."),
        }
    }

    /// The oil's temperature over hours.
    pub fn warming_text(&self, warming: &Warming) -> String {
        let (Some((_, from)), Some((whole, to))) = (warming.points.first(), warming.points.last()) else {
            return String::new();
        };
        let beyond = warming.points.iter().find(|(_, t)| t.si() >= warming.stop.si());
        let start = format!(
            "Started at {}, the oil is at {} after {}",
            self.amount(*from),
            self.amount(*to),
            self.span(*whole)
        );
        let stop = self.amount(warming.stop);
        let open = warming.within.filter(|_| warming.is_open());
        match (beyond, open) {
            (Some((time, _)), None) => {
                format!("{start}; at {stop}, where work ends, it is after {}.", self.span(*time))
            }
            (None, None) => format!("{start}, and stays below {stop}, where work ends."),
            (Some((time, _)), Some((least, _))) => format!(
                "At likely figures: {}; at {stop}, where work ends, it is after {}. With a third less heat it stays at {}: to prove.",
                super::small(&start),
                self.span(*time),
                self.amount(least)
            ),
            (None, Some((_, most))) => format!(
                "At likely figures: {}, below {stop}, where work ends. With a third more heat it reaches {}: to prove.",
                super::small(&start),
                self.amount(most)
            ),
        }
    }

    /// What the level line says that is drawn where a third of the heat decides.
    pub fn other_end(&self, warming: &Warming) -> Option<(Amount, &'static str)> {
        let (least, most) = warming.within.filter(|_| warming.is_open())?;
        let hot = warming.points.last().is_some_and(|(_, t)| t.si() >= warming.stop.si());
        Some(if hot { (least, "with a third less heat") } else { (most, "with a third more heat") })
    }

    /// A gauge, and how what was read lies to what was expected.
    pub fn gauge_text(&self, reading: &Reading, read: Option<Amount>) -> String {
        let expected = match &reading.found {
            Found::Expected { reads } => {
                let (low, high) = self.ends(reads);
                format!("Expected: {}.", if low == high { low } else { format!("{low} to {high}") })
            }
            Found::NotKnown { missing } => {
                format!("What to expect cannot be said without {}.", self.facts_named(missing))
            }
        };
        let stop = reading.stop.map(|stop| format!(" Above {} stop.", self.at_most(stop))).unwrap_or_default();
        let judged = read.and_then(|read| Some((read, reading.judge(read)?))).map(|(read, judged)| {
            let read = self.typed(read);
            match judged {
                Judged::Inside => format!(" Read: {read}, as expected."),
                Judged::Below => format!(" Read: {read}, less than expected."),
                Judged::Above => format!(" Read: {read}, more than expected."),
                Judged::Beyond => format!(" Read: {read}, more than the attachment allows: stop."),
            }
        });
        expected + &stop + &judged.unwrap_or_default()
    }

    /// A margin: limit, worst corner, what is to spare or missed.
    pub fn margin_text(&self, check: &Check) -> Option<String> {
        let (limit, worst) = (self.limit_of(check)?, self.worst_of(check)?);
        let gap = self.margin_of(check).map(|margin| format!("; {margin}")).unwrap_or_default();
        Some(super::capital(&format!("{limit}; {worst}{gap}.")))
    }
}
