//! What a rule reads of machine and head that is no figure of a formula, by its name. Where a trace is kept it keeps what is read.

use super::Facts;
use super::pieces::either_line_is_fed;
use crate::trace::{Context, Counted, Ends, Given, InputRecord, Origin, Visible, What};
use crate::{FactId, WorkAsked};
use quantity::{
    Amount, ElectricCurrent, ElectricPotential, Length, Mass, Power, Pressure, Quantity, Range, Stated,
    ThermodynamicTemperature, Velocity, VolumeRate,
};
use table::{
    AssumptionId, CarrierClass, CaseLine, Centre, Circuit, Cleanliness, Coupling, CouplingStandard, Drive,
    ExtraFunction, ExtraKind, ExtraValve, FedFrom, FlowDivider, Guard, HeadKind, Lifting, Limits, MachineEnd, Material,
    MotorKind, Mounting, OilGrade, OilKind, PriorityUser, Pump, PumpControl, PumpKind, ReliefRole, ReturnRoute,
    SharedTool, ToolCoupler, Ways,
};

macro_rules! reads {
    ($($name:ident($of:ident $(, $argument:ident: $Of:ty)?) -> $Type:ty = $what:expr, $stated:expr;)+) => {
        impl<'a> Facts<'a> {$(
            pub(crate) fn $name(&self $(, $argument: $Of)?) -> $Type {
                let $of = self;
                self.read($what, $stated)
            }
        )+}
    };
}

reads! {
    // The circuit.
    circuit_ways(of) -> Option<Ways> = FactId::CircuitWays, of.circuit.ways;
    circuit_ways_of(_of, circuit: &Circuit) -> Option<Ways> = FactId::CircuitWays, circuit.ways;
    circuit_end(of) -> Option<MachineEnd> = FactId::CircuitEnd, of.circuit.end;
    circuit_relief(of) -> Option<Stated<Pressure>> = FactId::CircuitRelief, of.circuit.relief;
    relief_of(_of, circuit: &Circuit) -> Option<Stated<Pressure>> = FactId::CircuitRelief, circuit.relief;
    relief_role(of) -> Option<ReliefRole> = FactId::ReliefRole, of.circuit.relief_role;
    head_relief(of) -> Option<Stated<Pressure>> = FactId::HeadRelief, of.circuit.head_relief;
    reverse_locked(of) -> Option<bool> = Context::ReverseLocked, of.circuit.reverse_locked;
    fed_from(of) -> Option<FedFrom> = FactId::FedFrom, of.circuit.fed_from;
    demand_signal(of) -> Option<bool> = FactId::DemandSignal, of.circuit.demand_signal;
    continuous(of) -> Option<bool> = FactId::Continuous, of.circuit.continuous;
    stops_and_stays_off(of) -> Option<bool> = FactId::StopsAndStaysOff, of.circuit.stops_and_stays_off;
    unloads_when_off(of) -> Option<bool> = FactId::UnloadsWhenOff, of.circuit.unloads_when_off;
    divider_vented(_of, divider: &FlowDivider) -> Option<bool> = FactId::DividerOff, divider.vented_when_off;
    divider_relieved(_of, divider: &FlowDivider) -> Option<bool> = FactId::DividerRelief, divider.port_relief;
    make_up_check(of) -> Option<bool> = Context::MakeUpCheck, of.circuit.make_up_check;
    extra_valve(of) -> Option<ExtraValve> = Context::ExtraValve, of.circuit.extra_valve;
    coupling_screwed(_of, coupling: &Coupling) -> Option<bool> = FactId::CouplingScrewed, coupling.screwed;
    coupling_standard(_of, coupling: &Coupling) -> Option<CouplingStandard> = Context::CouplingStandard, coupling.standard;
    tool_shut_off(_of, tool: &SharedTool) -> Option<bool> = Context::ToolShutOff, tool.isolated;
    tool_relieved(_of, tool: &SharedTool) -> Option<bool> = Context::ToolRelief, tool.own_relief;
    // The return.
    return_route(of) -> Option<ReturnRoute> = FactId::ReturnRoute, of.circuit.return_path.route;
    return_relief(of) -> Option<bool> = Context::ReturnRelief, of.circuit.return_path.relief;
    can_be_shut(of) -> Option<bool> = FactId::CanBeShut, of.circuit.return_path.can_be_shut;
    has_own_filter(of) -> bool = Context::OwnFilter, of.circuit.return_path.filter.is_some();
    through_filter(of) -> Option<bool> = FactId::ReturnFilter, of.circuit.return_path.through_filter;
    through_cooler(of) -> Option<bool> = FactId::ThroughCooler, of.circuit.return_path.through_cooler;
    // The machine.
    carrier_class(of) -> CarrierClass = Context::CarrierClass, of.carrier.class;
    main_relief(of) -> Option<Stated<Pressure>> = FactId::MainRelief, of.carrier.main_relief;
    pump_control(_of, pump: &Pump) -> Option<PumpControl> = FactId::PumpControl, pump.control;
    cut_off_of(_of, pump: &Pump) -> Option<Stated<Pressure>> = FactId::PumpCutOff, pump.pressure;
    also_feeds(_of, pump: &'a Pump) -> Option<&'a [PriorityUser]> = FactId::AlsoFeeds, pump.also_feeds.as_deref();
    functions_least_flow(of) -> Option<Stated<VolumeRate>> =
        FactId::Functions, of.carrier.functions.as_ref().and_then(|functions| functions.least_flow);
    case_drain(of) -> Option<&'a CaseLine> = FactId::CaseLine, of.carrier.case_line.as_ref();
    case_port(_of, line: &CaseLine) -> Option<bool> = FactId::CasePort, line.own_port;
    carrier_mountings(of) -> Option<&'a Vec<Mounting>> =
        FactId::CarrierMounting, Some(&of.carrier.mounting).filter(|all| !all.is_empty());
    coupler_secured(_of, coupler: &ToolCoupler) -> Option<bool> = FactId::CouplerSecured, coupler.secured;
    greatest_reach(_of, lifting: &Lifting) -> Option<Stated<Length>> =
        FactId::GreatestReach, lifting.greatest_reach;
    guards(of) -> Option<&'a Vec<Guard>> = FactId::Guards, of.carrier.guards.as_ref();
    oil_kind(of) -> Option<OilKind> = FactId::OilKind, of.carrier.oil.as_ref().and_then(|oil| oil.kind);
    oil_grade(of) -> Option<OilGrade> = FactId::OilGrade, of.carrier.oil.as_ref().and_then(|oil| oil.grade);
    oil_cleanliness(of) -> Option<Cleanliness> =
        FactId::OilCleanliness, of.carrier.oil.as_ref().and_then(|oil| oil.cleanliness);
    voltage(of) -> Option<Stated<ElectricPotential>> =
        FactId::Voltage, of.carrier.electrics.as_ref().and_then(|electrics| electrics.voltage);
    // The head.
    head_kind(of) -> HeadKind = Context::HeadKind, of.head.kind;
    head_ways(of) -> Option<Ways> = FactId::HeadWays, of.head.ways;
    head_centre(of) -> Option<Centre> = FactId::HeadCentre, of.head.centre;
    head_rated_flow(of) -> Option<Stated<VolumeRate>> = FactId::HeadRatedFlow, of.head.flow.rated;
    head_least_flow(of) -> Option<Stated<VolumeRate>> = FactId::HeadLeastFlow, of.head.flow.least;
    head_greatest_pressure(of) -> Option<Stated<Pressure>> = FactId::HeadGreatestPressure, of.head.pressure.greatest;
    head_power(of) -> Option<Stated<Power>> = Context::HeadPower, of.head.power.least.or(of.head.power.rated);
    relief_asked(of) -> Option<Stated<Pressure>> = Context::ReliefAsked, of.head.pressure.relief;
    head_mountings(of) -> Option<&'a Vec<Mounting>> =
        FactId::HeadMounting, Some(&of.head.mounting).filter(|all| !all.is_empty());
    head_coupling_standard(of) -> Option<CouplingStandard> =
        Context::HeadCouplingStandard, of.head.coupling.as_ref().and_then(|other| other.standard);
    motor_kind(of) -> Option<MotorKind> = FactId::MotorKind, of.practice.motor;
    asks_for_case_line(of) -> Option<bool> = FactId::NeedsCaseLine, of.head.outlet.needs_case_line;
    vibrating(of) -> Option<bool> = FactId::Vibrating, of.head.vibrating;
    coast_down_check(of) -> Option<bool> = FactId::RunDownCheck, of.head.run_down_check;
    is_switched_by_valve(of) -> bool =
        Context::SwitchedByValve, of.head.extra_functions.iter().any(|extra| extra.kind == ExtraKind::OnOff);
    extra_drive(_of, extra: &ExtraFunction) -> Option<Drive> = FactId::ExtraDrive, extra.drive;
    extra_pressure(_of, extra: &ExtraFunction) -> Option<Stated<Pressure>> =
        FactId::ExtraPressure, extra.greatest_pressure;
    coil_voltage(_of, coil: &ExtraFunction) -> Option<Stated<ElectricPotential>> = FactId::Coils, coil.voltage;
    coil_current(_of, coil: &ExtraFunction) -> Option<Stated<ElectricCurrent>> = FactId::Coils, coil.current;
    guards_demanded(of) -> Option<&'a Vec<Guard>> = FactId::GuardsDemanded, of.head.demands.guards.as_ref();
    filter_demanded(of) -> Option<bool> = Context::FilterDemanded, of.head.demands.return_filter;
    oil_kinds_demanded(of) -> &'a [OilKind] = Context::OilKindsDemanded, of.head.demands.oil_kinds.as_slice();
    oil_grades_demanded(of) -> &'a [OilGrade] = Context::OilGradesDemanded, of.head.demands.oil_grades.as_slice();
    cleanliness_demanded(of) -> Option<Cleanliness> = Context::CleanlinessDemanded, of.head.demands.cleanliness;
    creep_window(of) -> Option<Stated<Velocity>> =
        Context::CreepWindow, of.head.creep_speed.least.or(of.head.creep_speed.greatest);
}

/// Figures that are a rule of practice or chosen for the answer, and counts.
impl<'a> Facts<'a> {
    /// What somebody states of something; kept by its name where a trace is kept.
    #[inline]
    pub(crate) fn read<T: Visible>(&self, what: impl Into<What>, stated: T) -> T {
        if let Some(trace) = self.trace() {
            trace.read(what.into(), &stated);
        }
        stated
    }

    /// A fact that nobody states.
    pub(crate) fn unstated(&self, id: FactId) -> FactId {
        self.read(id, None::<bool>);
        id
    }

    /// What something comes to, with what it took where a trace is kept.
    pub(crate) fn section<T>(&self, work: impl FnOnce() -> T) -> (T, Vec<InputRecord>) {
        match self.trace() {
            Some(trace) => trace.section(work),
            None => (work(), Vec::new()),
        }
    }

    fn counted(&self, what: impl Into<What>, count: usize) -> usize {
        self.read(what, Counted(count)).0
    }

    pub(crate) fn by_practice<Q: Quantity>(&self, what: Context, value: Q) -> Q {
        self.read(what, Given(Amount::of(value), Origin::Practice));
        value
    }

    pub(crate) fn chosen<Q: Quantity>(&self, what: Context, value: Q) -> Q {
        self.read(what, Given(Amount::of(value), Origin::Chosen));
        value
    }

    /// Between what something can be set.
    pub(crate) fn setting_range<Q: Quantity>(&self, low: Q, high: Q) {
        self.read(Context::SettingRange, Ends(Amount::of(low), Amount::of(high)));
    }

    /// The likeliest of what is usual, which stands in for what nobody demands.
    pub(crate) fn usual(&self, assumption: AssumptionId) {
        let what = match assumption {
            AssumptionId::OilCleanliness => Context::UsualCleanliness,
            AssumptionId::FiltrationRating => Context::UsualFiltration,
            _ => Context::UsualGrade,
        };
        if let Some(range) = self.practice.stated(assumption) {
            self.read(what, Given(range.nominal, Origin::Assumed(assumption)));
        }
    }

    /// Whether the return goes by a line of its own rather than through the spool. Unstated it goes through the spool,
    /// which loses more.
    pub fn returns_direct(&self) -> bool {
        self.return_route() == Some(ReturnRoute::Direct)
    }

    /// The oil temperature at which work ends.
    pub(crate) fn oil_stop(&self) -> ThermodynamicTemperature {
        self.by_practice(Context::OilStop, self.practice.limit(AssumptionId::OilStop).nominal)
    }

    pub(crate) fn ambient(&self) -> ThermodynamicTemperature {
        self.chosen(Context::Ambient, self.conditions.ambient)
    }

    pub(crate) fn coldest_start(&self) -> Option<ThermodynamicTemperature> {
        self.conditions.coldest_start.map(|start| self.chosen(Context::ColdestStart, start))
    }

    /// The distance that must be between two limiters.
    pub(crate) fn relief_gap(&self) -> Pressure {
        self.by_practice(Context::ReliefGap, self.practice.limit::<Pressure>(AssumptionId::ReliefGap).low)
    }

    pub(crate) fn work_named(&self) -> Option<&'a WorkAsked> {
        let work = self.conditions.work.as_ref();
        self.read(Context::WorkNamed, work.map(|work| work.material.clone()));
        work
    }

    pub(crate) fn materials(&self) -> &'a [Material] {
        let materials = &self.head.work.materials;
        self.read(FactId::HeadWork, (!materials.is_empty()).then_some(Counted(materials.len())));
        materials
    }

    pub(crate) fn travel_speed(&self) -> Option<Range<Velocity>> {
        let travel = self.carrier.travel_speed;
        self.read(FactId::TravelSpeed, travel.map(|travel| Ends(Amount::of(travel.low), Amount::of(travel.high))));
        travel
    }

    pub(crate) fn carrier_mass_window(&self) -> &'a Limits<Mass> {
        let window = &self.head.carrier_mass;
        if window.least.is_none() || window.greatest.is_none() {
            self.unstated(FactId::CarrierMassWindow);
        }
        window
    }

    pub(crate) fn lifting(&self) -> Option<&'a Lifting> {
        self.needed(FactId::Lifting, self.carrier.lifting.as_ref())
    }

    pub(crate) fn circuit_coupling(&self) -> Option<&'a Coupling> {
        self.needed(FactId::Coupling, self.circuit.coupling.as_ref())
    }

    /// The other tools on the spool.
    pub(crate) fn shared_with(&self) -> Option<&'a [SharedTool]> {
        let tools = self.needed(FactId::SharedTools, self.circuit.shared_with.as_deref())?;
        self.counted(Context::OtherTools, tools.len());
        Some(tools)
    }

    pub(crate) fn divider(&self) -> Option<&'a FlowDivider> {
        let divider = self.circuit.divider.as_ref();
        self.read(Context::Divider, divider.is_some());
        divider
    }

    /// Whether either line of the circuit may get the pump's pressure.
    pub(crate) fn either_line_is_fed(&self) -> bool {
        self.reverse_locked();
        self.circuit_ways();
        self.return_route();
        either_line_is_fed(self.circuit)
    }

    /// The machine's other circuits of which something holds.
    pub(crate) fn other_circuits(&self, holds: impl Fn(&Circuit) -> bool) -> Vec<&'a Circuit> {
        let others = self.carrier.circuits.iter().filter(|circuit| circuit.id != self.circuit.id);
        let others: Vec<_> = others.filter(|circuit| holds(circuit)).collect();
        self.counted(Context::OtherCircuits, others.len());
        others
    }

    /// How many of the machine's pumps drive, and how many of those feed the circuit. Gear pumps feed pilot, fan or slew.
    pub(crate) fn pumps_that_drive(&self) -> (usize, usize) {
        let drives = |pump: &&Pump| pump.kind != Some(PumpKind::Gear);
        let of_machine = self.carrier.pumps.iter().filter(drives).count();
        let of_circuit = self.pumps_of_circuit().filter(drives).count();
        (self.counted(Context::PumpsOfMachine, of_machine), self.counted(Context::PumpsOfCircuit, of_circuit))
    }

    /// The finest filtration rating in the return's path, µm.
    pub(crate) fn finest_filter(&self) -> Option<u16> {
        let path = &self.circuit.return_path;
        let own = self.carrier.return_filter.as_ref().filter(|_| path.through_filter == Some(true));
        let finest = path.filter.as_ref().into_iter().chain(own).filter_map(|filter| filter.fineness_um).min();
        self.read(FactId::FiltrationRating, finest.map(|finest| Counted(usize::from(finest))));
        finest
    }

    /// The filtration rating that the head's maker demands, µm.
    pub(crate) fn filtration_demanded(&self) -> Option<u16> {
        let demanded = self.head.demands.filter_fineness_um?;
        self.counted(Context::FiltrationDemanded, usize::from(demanded));
        Some(demanded)
    }

    /// What is told by its own figures, where somebody states it.
    pub(crate) fn needed<T>(&self, id: FactId, stated: Option<T>) -> Option<T> {
        if stated.is_none() {
            self.unstated(id);
        }
        stated
    }

    /// The head's functions besides its rotor.
    pub(crate) fn extras(&self) -> &'a [ExtraFunction] {
        self.counted(Context::ExtraFunctions, self.head.extra_functions.len());
        &self.head.extra_functions
    }
}
