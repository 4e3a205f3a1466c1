//! Lines and what stands in them, as facts: hoses, couplings, valves, filters, the tank.

use super::Facts;
use super::pieces::{FilterPoint, PieceFact, bore_of, point_fact, resistance};
use super::stated::known;
use crate::assume::{PUBLISHED_LOSS, PUBLISHED_PRESSURE};
use crate::sample::{End, Parameter, Sample};
use crate::trace::Aspect;
use crate::{FactId, Node};
use hydraulics::CaseLine;
use quantity::{Fact, Interval, Length, Pressure, Quantity, Stated, Tolerance, VolumeRate};
use table::{AssumptionId, Coupling};

impl Facts<'_> {
    /// The pieces of a line with its couplings' loss, unknown sizes assumed.
    pub(super) fn line(
        &self,
        line: &table::Line,
        fact: FactId,
        (bore_practice, length_practice): (AssumptionId, AssumptionId),
    ) -> Vec<PieceFact> {
        let pipe = |bore: Option<&Stated<Length>>, length: Option<&Stated<Length>>| PieceFact::Pipe {
            bore: Parameter::or_assumed(
                fact,
                known(bore, Tolerance::NONE),
                bore_practice,
                self.practice.range(bore_practice),
            ),
            length: Parameter::or_assumed(
                fact,
                known(length, Tolerance::both(0.05)),
                length_practice,
                self.practice.range(length_practice),
            ),
        };
        if line.segments.is_empty() {
            return vec![pipe(None, None)];
        }
        line.segments.iter().map(|s| pipe(s.bore.as_ref(), s.length.as_ref())).collect()
    }

    /// A coupled pair: by its published point, else by a loss coefficient on the velocity in the line.
    /// Of an unknown size it is of the line's bore.
    pub(super) fn coupling(&self, coupling: Option<&Coupling>, line: &[PieceFact]) -> PieceFact {
        self.coupling_of(coupling, bore_of(line))
    }

    fn coupling_of(&self, coupling: Option<&Coupling>, of_line: Option<Parameter<Length>>) -> PieceFact {
        if let Some(point) = coupling.and_then(|c| c.loss.as_ref()) {
            return point_fact(FactId::CouplingLoss, point);
        }
        let k = Parameter::or_assumed(
            FactId::CouplingLoss,
            None,
            AssumptionId::CouplingLoss,
            self.practice.range(AssumptionId::CouplingLoss),
        );
        let size = known(coupling.and_then(|c| c.size.as_ref()), Tolerance::NONE);
        let bore = match (size, of_line) {
            (Some(fact), _) => Parameter::new(FactId::CouplingLoss, fact).as_aspect(Aspect::Bore),
            (None, Some(bore)) => bore,
            (None, None) => Parameter::new(FactId::CouplingLoss, Fact::Missing),
        };
        PieceFact::Fitting { k, bore }
    }

    pub(super) fn supply_pieces(&self) -> Vec<(Node, PieceFact)> {
        let line =
            self.line(&self.circuit.supply, FactId::SupplyLine, (AssumptionId::SupplyBore, AssumptionId::SupplyLength));
        let coupling = (Node::SupplyCoupling, self.coupling(self.circuit.coupling.as_ref(), &line));
        let divider = self.divider_loss().map(|loss| (Node::SupplyLine, PieceFact::Constant(loss)));
        divider.into_iter().chain(line.into_iter().map(|piece| (Node::SupplyLine, piece))).chain([coupling]).collect()
    }

    /// What a divider loses on the way to the head, where there is one. The relief on its port acts behind that.
    pub(super) fn divider_loss(&self) -> Option<Parameter<Pressure>> {
        self.circuit.divider.as_ref()?;
        let range = self.practice.range(AssumptionId::DividerLoss);
        Some(Parameter::or_assumed(FactId::SupplyLine, None, AssumptionId::DividerLoss, range))
    }

    /// In the order in which the oil meets them, each with the node before it.
    pub(super) fn return_pieces(&self) -> Vec<(Node, PieceFact)> {
        let path = &self.circuit.return_path;
        let line = self.line(&path.line, FactId::ReturnLine, (AssumptionId::ReturnBore, AssumptionId::ReturnLength));
        // The one stated for the return, else the circuit's; of neither that of the line's bore.
        let coupling = path.coupling.as_ref().or(self.circuit.coupling.as_ref());
        let mut bore = bore_of(&line);
        if !self.returns_direct() {
            // Both lines of a valve have couplings of one size: of the narrower of them.
            let supply = (AssumptionId::SupplyBore, AssumptionId::SupplyLength);
            let supply = bore_of(&self.line(&self.circuit.supply, FactId::SupplyLine, supply));
            let nominal = |bore: &Parameter<Length>| bore.fact.interval().map(|interval| interval.nominal);
            bore = supply.filter(|supply| bore.is_some_and(|own| nominal(supply) < nominal(&own))).or(bore);
        }
        let mut pieces = vec![(Node::MotorOutlet, self.coupling_of(coupling, bore))];
        pieces.extend(line.into_iter().map(|piece| (Node::ReturnLine, piece)));
        if let Some(point) = &path.loss {
            pieces.push((Node::ReturnValve, point_fact(FactId::ReturnLoss, point)));
        } else {
            // By a line of its own too something stands in the way: a changeover valve, a manifold, the diffuser in the tank.
            let practice =
                if self.returns_direct() { AssumptionId::DirectReturnLoss } else { AssumptionId::SpoolReturnLoss };
            let loss = Parameter::or_assumed(FactId::ReturnLoss, None, practice, self.practice.range(practice));
            // Of a circuit without a stated flow the class's least is taken: the loss at another flow is the more.
            let of_class = || self.practice.range::<VolumeRate>(AssumptionId::CircuitFlow).map(|range| range.low);
            let flow = self.chosen_for().or_else(of_class).unwrap_or(VolumeRate::from_si(1e-4));
            pieces.push((Node::ReturnValve, PieceFact::Point { loss, flow }));
        }
        match path.through_filter {
            Some(false) => {}
            None if self.returns_direct() => pieces.push((Node::ReturnFilter, self.perhaps_a_filter())),
            None | Some(true) => pieces.push((Node::ReturnFilter, self.filter(self.carrier.return_filter.as_ref()))),
        }
        if let Some(filter) = &path.filter {
            pieces.push((Node::ReturnFilter, self.filter(Some(filter))));
        }
        pieces.push((Node::Tank, PieceFact::Constant(self.tank_pressure)));
        pieces
    }

    /// The flow for which what stands in the return was chosen, where nobody states what it loses: the circuit's, or what a divider sends
    /// there, not all that the pumps give.
    pub(super) fn chosen_for(&self) -> Option<VolumeRate> {
        let share = self.circuit.divider.as_ref().map(|divider| &divider.set_flow);
        let stated = self.circuit.flow.as_ref().or(share).map(|stated| stated.nominal);
        let unstated = self.circuit.return_path.loss.is_none();
        stated.or(self.flow.fact.interval().map(|interval| interval.nominal)).filter(|_| unstated)
    }

    /// Where it is not stated whether a direct return passes the machine's filter: nothing at the least, a filter on its bypass at
    /// the most.
    fn perhaps_a_filter(&self) -> PieceFact {
        let range = self.practice.range::<Pressure>(AssumptionId::FilterLoss);
        let range = range.map(|range| Interval { low: Pressure::from_si(0.0), nominal: range.low, high: range.high });
        PieceFact::Constant(Parameter::or_assumed(FactId::ReturnFilter, None, AssumptionId::FilterLoss, range))
    }

    pub(super) fn filter(&self, filter: Option<&table::ReturnFilter>) -> PieceFact {
        let range: Option<Interval<Pressure>> = self.practice.range(AssumptionId::FilterLoss);
        let Some(point) = filter.and_then(|f| f.loss.as_ref()) else {
            return PieceFact::Constant(Parameter::or_assumed(
                FactId::FilterLoss,
                None,
                AssumptionId::FilterLoss,
                range,
            ));
        };
        let bypass = known(filter.and_then(|f| f.bypass.as_ref()), PUBLISHED_PRESSURE);
        PieceFact::Filter {
            loss: Parameter::new(FactId::FilterLoss, known(Some(&point.loss), PUBLISHED_LOSS).unwrap_or(Fact::Missing)),
            point: FilterPoint {
                flow: point.flow.nominal,
                viscosity: point.viscosity.map(|stated| stated.nominal),
                rated: filter.and_then(|f| f.rated_flow).unwrap_or(point.flow).nominal,
            },
            bypass: Parameter::or_assumed(FactId::FilterLoss, bypass, AssumptionId::FilterLoss, range)
                .as_aspect(Aspect::Bypass),
        }
    }

    pub(super) fn case_pieces(&self) -> Vec<PieceFact> {
        let Some(case) = &self.carrier.case_line else { return Vec::new() };
        let mut pieces =
            self.line(&case.line, FactId::CaseLineSize, (AssumptionId::CaseBore, AssumptionId::CaseLength));
        pieces.push(self.coupling(case.coupling.as_ref(), &pieces));
        pieces
    }

    /// The case line. Nobody states how high the tank stands above the motor: level is taken.
    pub fn case_line(&self, sample: &Sample) -> CaseLine {
        CaseLine {
            line: resistance(sample, self.case_line.iter(), End::High, None, None),
            tank: sample.take(&self.tank_pressure, End::High),
            tank_above: Length::from_si(0.0),
        }
    }
}

impl Facts<'_> {
    /// The pieces between pumps and motor, and between motor and tank, each with the node before it.
    pub fn nodes(&self) -> (impl Iterator<Item = Node>, impl Iterator<Item = Node>) {
        (self.supply.iter().map(|(node, _)| *node), self.back.iter().map(|(node, _)| *node))
    }
}
