//! Gathers the parts that a machine and an attachment state, and marks what the changes add or set.

use super::{Fitted, Part, Schema, State, adds, sets};
use fit::{Change, SettingId};
use quantity::{Amount, Quantity};
use table::{Carrier, ChangeId, Circuit, ExtraKind, ExtraValve, FedFrom, Head, ReturnRoute};

impl Schema {
    pub(super) fn put(&mut self, part: Part, stated: bool, set: Option<Amount>, name: Option<String>) {
        let state = if stated { State::Stands } else { State::NotStated };
        self.parts.push(Fitted { part, state, numbers: Vec::new(), set, name });
    }

    pub(super) fn source(&mut self, carrier: &Carrier, circuit: &Circuit) {
        self.put(Part::Tank, carrier.tank.is_some(), None, None);
        self.put(Part::Pump, !circuit.pumps.is_empty(), None, None);
        let feeds = carrier.pumps.iter().filter(|pump| circuit.pumps.contains(&pump.id));
        if feeds.flat_map(|pump| pump.also_feeds.iter().flatten()).next().is_some() {
            self.put(Part::First, true, None, None);
        }
        let relief = circuit.relief.map(|stated| Amount::of(stated.nominal));
        self.put(Part::Relief, relief.is_some(), relief, None);
        self.put(Part::Functions, true, None, None);
        if let Some(divider) = &circuit.divider {
            self.put(Part::Divider, true, Some(amount(divider.set_flow)), None);
        }
        if circuit.demand_signal == Some(true) {
            self.put(Part::Demand, true, None, None);
        }
    }

    pub(super) fn valves(&mut self, circuit: &Circuit) {
        if !matches!(circuit.fed_from, Some(FedFrom::PumpLine | FedFrom::PowerBeyond)) {
            self.put(Part::Spool, circuit.fed_from.is_some(), None, None);
        }
        if circuit.reverse_locked == Some(true) {
            self.put(Part::ReverseLock, true, None, None);
        }
        if let Some(limit) = circuit.flow_limit {
            self.put(Part::FlowLimit, true, Some(amount(limit)), None);
        }
        let tools = circuit.shared_with.as_deref().unwrap_or(&[]);
        if let Some(first) = tools.first() {
            let names: Vec<_> = tools.iter().map(|tool| tool.name.as_str()).collect();
            self.put(Part::Tool, true, None, Some(names.join(", ")));
            if tools.iter().any(|tool| tool.isolated == Some(true)) {
                self.put(Part::ShutOff, true, None, None);
            }
            if tools.iter().any(|tool| tool.own_relief == Some(true)) {
                self.put(Part::ToolRelief, true, first.greatest_pressure.map(amount), None);
            }
        }
        let stated = |line: &table::Line| !line.segments.is_empty();
        self.put(Part::SupplyLine, stated(&circuit.supply), None, None);
        let path = &circuit.return_path;
        self.put(Part::ReturnLine, stated(&path.line) && path.route.is_some(), None, None);
        if self.route == Some(ReturnRoute::Direct) && !tools.is_empty() {
            self.put(Part::Changeover, true, None, None);
        }
    }

    pub(super) fn way_back(&mut self, carrier: &Carrier, circuit: &Circuit) {
        let path = &circuit.return_path;
        if path.relief == Some(true) {
            self.put(Part::ReturnRelief, true, None, None);
        }
        // What the circuit itself takes where it is not stated: through the spool the machine's filter is in the way.
        let direct = self.route == Some(ReturnRoute::Direct);
        if path.through_filter.unwrap_or(!direct) {
            let stated = path.through_filter.is_some() && carrier.return_filter.is_some();
            self.put(Part::MachineFilter, stated, None, None);
        }
        if path.through_cooler == Some(true) {
            self.put(Part::MachineCooler, true, None, None);
        }
        if path.filter.is_some() {
            self.put(Part::OwnFilter, true, None, None);
        }
        if path.cooler.is_some() {
            self.put(Part::OwnCooler, true, None, None);
        }
    }

    pub(super) fn of_head(&mut self, carrier: &Carrier, circuit: &Circuit, head: &Head) {
        match circuit.extra_valve {
            Some(ExtraValve::Diverter) => self.put(Part::Diverter, true, None, None),
            Some(ExtraValve::HeadBlock) => self.put(Part::DoorBlock, true, None, None),
            None => {}
        }
        if circuit.extra_valve.is_some() {
            self.put(Part::Door, true, None, None);
        }
        self.put(Part::Couplings, circuit.coupling.is_some(), None, None);
        if self.drains {
            let line = carrier.case_line.as_ref();
            match line {
                Some(line) if !line.fitted => self.put(Part::CasePlug, true, None, None),
                line => self.put(Part::CaseLine, line.is_some(), None, None),
            }
        }
        if let Some(relief) = circuit.head_relief {
            self.put(Part::HeadRelief, true, Some(amount(relief)), None);
        }
        if head.extra_functions.iter().any(|extra| extra.kind == ExtraKind::OnOff) {
            self.put(Part::OnOff, true, None, None);
        }
        if circuit.make_up_check == Some(true) || head.run_down_check == Some(true) {
            self.put(Part::RunDownCheck, true, None, None);
        }
        self.put(Part::Motor, head.motor.is_some(), None, None);
    }

    /// Marks what a change adds or sets.
    pub(super) fn mark(&mut self, number: usize, change: &Change) {
        let (adds, sets) = (adds(change), sets(change.id));
        for fitted in &mut self.parts {
            let (added, set) = (adds.contains(&fitted.part), sets == Some(fitted.part));
            if added {
                fitted.state = State::Added;
            }
            if added || set {
                fitted.numbers.push(number);
            }
            let setting = match change.id {
                ChangeId::MachineFlowSetting => SettingId::Flow,
                ChangeId::EngineSpeed => SettingId::EngineSpeed,
                ChangeId::WarmUp => SettingId::OilTemperature,
                ChangeId::ReturnRelief => SettingId::ReturnRelief,
                ChangeId::IsolateTool | ChangeId::ToolRelief => SettingId::ToolRelief,
                _ => continue,
            };
            let of_relief = matches!(setting, SettingId::ToolRelief) && fitted.part != Part::ToolRelief;
            if (added || set) && !of_relief {
                let found = change.settings.iter().find(|made| made.name == setting).map(|made| made.value);
                fitted.set = found.or(fitted.set);
            }
        }
    }
}

fn amount<Q: Quantity>(stated: quantity::Stated<Q>) -> Amount {
    Amount::of(stated.nominal)
}
