//! Where the oil's temperature ends over a working day, solved together with the viscosity that it brings.

use super::Installation;
use super::states::{balanced, booked, idles, powers};
use crate::assume::{COOLER_AIR, HEAT_BAND, duty};
use crate::facts::{Facts, known, of_class};
use crate::sample::{Corner, End, Parameter, Sample};
use crate::{FactId, Load};
use hydraulics::Motor;
use hydraulics::balance::Balanced;
use hydraulics::heat::{Bath, Cooler, with_steel};
use quantity::shop::celsius;
use quantity::{
    Amount, Displacement, Power, Quantity, Stated, ThermalConductance, ThermodynamicTemperature, Time, Tolerance, Unit,
    Until, Volume, VolumeRate, halved_where_known,
};
use std::cell::OnceCell;
use table::{AssumptionId, PumpControl, ReturnRoute};

/// What the oil does over a working day. What cannot be said is absent.
#[derive(Clone, Debug, PartialEq)]
pub struct Warmth {
    /// Where it starts: the ambient.
    pub from: Amount,
    /// Heat into the oil with the oil at working temperature, averaged over the head's usual day.
    pub heat: Option<Amount>,
    /// Where the oil settles in the end; none when it rises beyond 150 °C, or cannot be said.
    pub settles: Option<Amount>,
    /// Where it settles with a third less heat and with a third more: a balance of heat is no better than that. 150 °C where it
    /// rises beyond; none where it cannot be said.
    pub within: Option<(Amount, Amount)>,
    /// Whether it rises beyond 150 °C: no machine gets there.
    pub boundless: bool,
    /// Whether the return goes past the machine's cooler, so that nothing of it is credited.
    pub past_cooler: bool,
    /// The temperature at which work ends: above it seals and oil age fast.
    pub stop: Amount,
    /// How long it takes from the ambient to that; none when it never gets there, or cannot be said.
    pub to_stop: Option<Amount>,
    /// How long it would take from the ambient without any cooler, all of that heat in the oil of the tank alone.
    pub at_the_soonest: Option<Amount>,
    /// What is missing to say where it settles.
    pub missing: Vec<FactId>,
}

/// The highest oil temperature that is looked at, °C.
const HIGHEST: f64 = 150.0;

impl Installation<'_> {
    /// Where the oil's temperature ends over a working day at likely figures.
    ///
    /// The heat is that of the circuit with its oil at each temperature; the cooler gets the flow that really passes it,
    /// and none of a return that goes past it. Beyond that cooler and walls nothing is credited.
    pub fn warmth(&self) -> Warmth {
        let facts = self.facts();
        let stop = stop_of(&facts);
        let (volume, cooler) = (tank_volume(&facts), shown_cooler(&facts));
        let sample = facts.sample(Corner::Likely);
        let oil = facts.oil_at(&sample, self.conditions.working);
        let at_work = mean_heat(&facts, Cooling::default(), self.conditions.working);
        let mut missing = match &at_work {
            Ok(_) => Vec::new(),
            Err(missing) => missing.clone(),
        };
        let litres = volume.fact.interval().map(|interval| interval.nominal);
        let heat = at_work.ok().map(|(heat, _)| heat);
        let at_the_soonest = heat.zip(litres).and_then(|(heat, litres)| {
            let none = ThermalConductance::from_si(0.0);
            let capacity = oil.heat_capacity(litres);
            let ambient = self.conditions.ambient;
            Bath { heat, cooler: none, air: ambient, walls: none, ambient, capacity }.time_to(ambient, stop)
        });
        if litres.is_none() {
            missing.push(FactId::TankVolume);
        }
        if let Err(fact) = cooler {
            missing.push(fact);
        }
        let mut warmth = Warmth {
            from: Amount::of(self.conditions.ambient),
            heat: heat.map(Amount::of),
            settles: None,
            within: HeatOverTemperature::of(&facts).ok().map(|balance| balance.within()),
            boundless: false,
            past_cooler: cooler.is_ok_and(|cooling| !cooling.returns_through && cooling.own.is_none()),
            stop: Amount::of(stop),
            to_stop: None,
            at_the_soonest: at_the_soonest.map(Amount::of),
            missing,
        };
        let (Ok(cooler), Some(litres), true) = (cooler, litres, warmth.missing.is_empty()) else { return warmth };
        let bath = |temperature: ThermodynamicTemperature| -> Option<Bath> {
            let (heat, carried) = mean_heat(&facts, cooler, temperature).ok()?;
            Some(bath_of(&facts, heat, carried, with_steel(oil.heat_capacity(litres))))
        };
        let Some(ends) = settle(&bath, self.conditions.ambient, celsius(HIGHEST)) else { return warmth };
        match ends {
            Ends::At(temperature) => warmth.settles = Some(Amount::of(temperature)),
            Ends::Beyond => warmth.boundless = true,
        }
        warmth.to_stop = time_to(&bath, self.conditions.ambient, stop).map(Amount::of);
        warmth
    }
}

/// The oil temperature at which work ends, as the check of heat has it.
pub fn stop_of(facts: &Facts) -> ThermodynamicTemperature {
    facts.practice.limit(AssumptionId::OilStop).nominal
}

/// Whether a third of the heat decides on which side of the end of work the oil settles.
pub fn is_open(within: Option<(Amount, Amount)>, stop: Amount) -> bool {
    within.is_some_and(|(least, most)| least.si() <= stop.si() && most.si() > stop.si())
}

impl Warmth {
    /// Whether it is open on which side of the end of work the oil settles: then half an hour of work must show it.
    pub fn is_open(&self) -> bool {
        is_open(self.within, self.stop)
    }
}

/// The oil as a bath that heat warms and a cooler cools.
pub fn bath_of(facts: &Facts, heat: Power, cooler: ThermalConductance, capacity: quantity::HeatCapacity) -> Bath {
    let none = ThermalConductance::from_si(0.0);
    let ambient = facts.conditions.ambient;
    let walls = facts.carrier.tank.as_ref().and_then(|tank| tank.dissipation).map_or(none, |stated| stated.nominal);
    let air = ThermodynamicTemperature::from_si(ambient.si() + COOLER_AIR);
    Bath { heat, cooler, air, walls, ambient, capacity }
}

/// Oil in the tank.
pub fn tank_volume(facts: &Facts) -> Parameter<Volume> {
    let stated = facts.carrier.tank.as_ref().and_then(|tank| tank.volume.as_ref());
    or_of_class(facts, FactId::TankVolume, stated, AssumptionId::TankVolume)
}

/// What cools the oil.
#[derive(Clone, Copy, Debug, Default)]
pub struct Cooling {
    /// The machine's cooler.
    machine: Option<Cooler>,
    /// Whether the head's return passes it.
    returns_through: bool,
    /// A cooler of its own in the head's return.
    own: Option<Cooler>,
    /// What is missing of the machine's cooler, which the head's return goes past: then the oil is at most as warm as without it.
    unknown: Option<FactId>,
}

/// The coolers with which an oil temperature is worked out. With a cooler of its own in the head's return the oil settles at most where
/// that says.
///
/// # Errors
/// What is missing: also the figure of a machine's cooler past which the head's return goes.
pub fn shown_cooler(facts: &Facts) -> Result<Cooling, FactId> {
    let cooling = cooler(facts)?;
    cooling.unknown.filter(|_| cooling.own.is_none()).map_or(Ok(cooling), Err)
}

/// The coolers that the oil really meets.
///
/// # Errors
/// What is missing to say whether the return passes the machine's.
pub fn cooler(facts: &Facts) -> Result<Cooling, FactId> {
    let path = &facts.circuit.return_path;
    let own = path.cooler.as_ref().and_then(|cooler| {
        let flow = cooler.flow.or(facts.circuit.flow).map(|stated| stated.nominal);
        Some(Cooler { conductance: cooler.conductance?.nominal, flow: flow.filter(|flow| flow.si() > 0.0)? })
    });
    let passes = facts.through_cooler().or((path.route == Some(ReturnRoute::Direct)).then_some(false));
    match passes {
        Some(true) => Ok(Cooling { machine: Some(machines_cooler(facts)?), returns_through: true, own, unknown: None }),
        // The machine's own oil still passes it, and all is mixed in the tank.
        Some(false) => {
            let machine = machines_cooler(facts);
            Ok(Cooling { machine: machine.ok(), returns_through: false, own, unknown: machine.err() })
        }
        None => Err(FactId::ThroughCooler),
    }
}

fn machines_cooler(facts: &Facts) -> Result<Cooler, FactId> {
    let stated = facts.carrier.cooler.as_ref();
    let conductance: Parameter<ThermalConductance> = or_of_class(
        facts,
        FactId::CoolerConductance,
        stated.and_then(|cooler| cooler.conductance.as_ref()),
        AssumptionId::CoolerConductance,
    );
    if conductance.fact.interval().is_none() {
        return Err(facts.unstated(FactId::CoolerConductance));
    }
    let conductance = facts.sample(Corner::Likely).take(&conductance, End::Low);
    let flow = stated.and_then(|cooler| cooler.flow).or(facts.circuit.flow).map(|stated| stated.nominal);
    let flow = flow.or(facts.flow.fact.interval().map(|interval| interval.nominal));
    let Some(flow) = flow.filter(|flow| flow.si() > 0.0) else { return Err(FactId::CircuitFlow) };
    Ok(Cooler { conductance, flow })
}

/// What the pumps send through the machine past the head: all the rest of a constant pump; of those that stroke back 15 % of
/// their flow (common practice, no published source); nothing of a pump that gives what is asked.
fn past_head(facts: &Facts, flow: VolumeRate) -> VolumeRate {
    let none = VolumeRate::from_si(0.0);
    let pumps = facts.carrier.pumps.iter().map(|pump| {
        let greatest = pump.greatest_flow.map_or(none, |stated| stated.nominal);
        let feeds = facts.circuit.pumps.contains(&pump.id);
        (greatest, feeds, pump.control)
    });
    let mut past = none;
    let mut constant = none;
    for (greatest, feeds, control) in pumps {
        match control {
            Some(PumpControl::Fixed) if feeds => constant += greatest,
            Some(PumpControl::Fixed) => past += greatest,
            Some(PumpControl::Negative | PumpControl::Positive) => past += greatest * 0.15,
            Some(PumpControl::LoadSensing | PumpControl::PressureCompensated) | None => {}
        }
    }
    past + (constant - flow).max(none)
}

/// Heat into the oil, and what the cooler carries away per kelvin, averaged over the head's day, with oil at a
/// temperature. While the head is off the cooler is credited with nothing.
///
/// # Errors
/// What is missing of the heat.
pub fn mean_heat(
    facts: &Facts,
    cooling: Cooling,
    temperature: ThermodynamicTemperature,
) -> Result<(Power, ThermalConductance), Vec<FactId>> {
    let day = duty(facts.head.kind);
    let pilot = facts.practice.range::<Power>(AssumptionId::PilotHeat).map_or(Power::from_si(0.0), |r| r.nominal);
    let (mut heat, mut carried) = (pilot, ThermalConductance::from_si(0.0));
    for (share, load) in [(day.work, Load::Working), (day.free, Load::Free), (day.stalled, Load::Stalled)] {
        if share == 0.0 || load == Load::Free && !idles(facts.head.kind) {
            continue;
        }
        let sample = facts.sample(Corner::Likely);
        let (circuit, at) = balanced(facts, &sample, load, temperature);
        let missing = sample.missing();
        let (Balanced::Turns(at) | Balanced::Stalls(at), true) = (at, missing.is_empty()) else {
            return Err(missing);
        };
        let made = powers(facts, &circuit, &at).map_or_else(|| of_blows(facts, &circuit, &at), |(_, heat)| heat);
        heat += made * share;
        let returned = circuit.returned(at.flow);
        if let Some(machine) = cooling.machine {
            let through = if cooling.returns_through { returned } else { VolumeRate::from_si(0.0) };
            carried += machine.at(through + past_head(facts, at.flow)) * share;
        }
        if let Some(own) = cooling.own {
            carried += own.at(returned) * share;
        }
    }
    Ok((heat, carried))
}

/// Heat of a breaker: half of what passes it is blow (taken like the functions' useful part; common practice, no published
/// source), all else heat.
fn of_blows(facts: &Facts, circuit: &hydraulics::Circuit, at: &hydraulics::Operating) -> Power {
    let half = Motor { displacement: Displacement::from_si(1.0), volumetric: 1.0, hydromechanical: 0.5, ratio: 1.0 };
    booked(facts, &Sample::new(Corner::Likely), circuit, at, &half).warms()
}

/// A stated figure of the machine's cooling, or that of its class for an entry that stands for one.
fn or_of_class<Q: Quantity>(
    facts: &Facts,
    id: FactId,
    stated: Option<&Stated<Q>>,
    assumption: AssumptionId,
) -> Parameter<Q> {
    of_class(id, known(stated, Tolerance::both(0.05)), assumption, facts.carrier, &facts.practice)
}

/// What heats the oil and what cools it, at each of these oil temperatures, °C in and K out.
///
/// # Errors
/// What is missing for it.
pub fn balances(
    facts: &Facts,
    cooling: Cooling,
    capacity: quantity::HeatCapacity,
    at_celsius: &[f64],
) -> Result<Vec<(f64, Bath)>, Vec<FactId>> {
    let at = |t: ThermodynamicTemperature| {
        let (heat, carried) = mean_heat(facts, cooling, t)?;
        Ok((t.si(), bath_of(facts, heat, carried, capacity)))
    };
    at_celsius.iter().map(|&t| at(celsius(t))).collect()
}

/// Oil temperatures at which a balance of heat is drawn up, °C; between them it is taken as straight.
const BALANCES: [f64; 5] = [40.0, 60.0, 80.0, 110.0, HIGHEST];

/// Heat into the oil and what carries it away, over the oil's temperature: drawn up as far as it is looked at.
pub struct HeatOverTemperature<'f, 'a> {
    facts: &'f Facts<'a>,
    cooling: Cooling,
    baths: [OnceCell<Bath>; BALANCES.len()],
    /// What is missing of the machine's cooler where nothing of it is credited: the oil may then settle lower.
    pub unknown: Option<FactId>,
}

impl<'f, 'a> HeatOverTemperature<'f, 'a> {
    /// The balance of an installation at likely figures.
    ///
    /// # Errors
    /// What is missing for it.
    pub fn of(facts: &'f Facts<'a>) -> Result<Self, Vec<FactId>> {
        let cooling = cooler(facts).map_err(|fact| vec![fact])?;
        let balance = Self { facts, cooling, baths: Default::default(), unknown: cooling.unknown };
        let coolest = balance.drawn_up(BALANCES[0])?;
        Ok(Self { baths: std::array::from_fn(|at| if at == 0 { coolest.into() } else { OnceCell::new() }), ..balance })
    }

    fn drawn_up(&self, at_celsius: f64) -> Result<Bath, Vec<FactId>> {
        let (heat, carried) = mean_heat(self.facts, self.cooling, celsius(at_celsius))?;
        let none = quantity::HeatCapacity::new::<uom::si::heat_capacity::joule_per_kelvin>(0.0);
        Ok(bath_of(self.facts, heat, carried, none))
    }

    /// The balances from the coolest on, each with its temperature (SI).
    ///
    /// # Panics
    /// Never: what is missing at one temperature is missing at all.
    fn points(&self) -> impl Iterator<Item = (f64, Bath)> {
        let bath = |at_celsius| self.drawn_up(at_celsius).expect("nothing is missing, as nothing was at the coolest");
        let drawn = self.baths.iter().zip(BALANCES);
        drawn.map(move |(known, t)| (celsius(t).si(), *known.get_or_init(|| bath(t))))
    }

    /// Where the oil settles with a third less heat and with a third more.
    pub fn within(&self) -> (Amount, Amount) {
        (Amount::of(self.settles(1.0 / HEAT_BAND)), Amount::of(self.settles(HEAT_BAND)))
    }

    /// Where the oil settles with this many times the heat; 150 °C where it rises beyond.
    pub fn settles(&self, times: f64) -> ThermodynamicTemperature {
        let mut before: Option<(f64, f64)> = None;
        for (t, bath) in self.points() {
            let rest = net(&bath, t) + (times - 1.0) * bath.heat.si();
            if rest <= 0.0 {
                let settled = before.map_or(t, |(cooler, gained)| cooler + (t - cooler) * gained / (gained - rest));
                return ThermodynamicTemperature::from_si(settled);
            }
            before = Some((t, rest));
        }
        ThermodynamicTemperature::from_si(Unit::Celsius.to_si(HIGHEST))
    }
}

/// Where a bath ends.
enum Ends {
    At(ThermodynamicTemperature),
    Beyond,
}

/// What flows into the oil and is not carried away, at a temperature of it.
pub fn net(bath: &Bath, temperature: f64) -> f64 {
    bath.heat.si()
        - bath.cooler.si() * (temperature - bath.air.si())
        - bath.walls.si() * (temperature - bath.ambient.si())
}

/// The temperature at which what flows in is carried away: the heat that a circuit makes changes with its oil, so that it
/// is looked for, by bisection. None when it cannot be solved somewhere on the way.
fn settle(
    bath: &impl Fn(ThermodynamicTemperature) -> Option<Bath>,
    from: ThermodynamicTemperature,
    highest: ThermodynamicTemperature,
) -> Option<Ends> {
    let rises = |t: f64| Some(net(&bath(ThermodynamicTemperature::from_si(t))?, t) > 0.0);
    if rises(highest.si())? {
        return Some(Ends::Beyond);
    }
    let falls = |t: f64| rises(t).map(|rises| !rises);
    let (_, settled) = halved_where_known((from.si(), highest.si()), Until::Within(0.05), falls)?;
    Some(Ends::At(ThermodynamicTemperature::from_si(settled)))
}

/// How long the oil takes from one temperature to another: C·∫dT/net(T), by the midpoint rule in steps of a kelvin. None
/// when it never gets there.
fn time_to(
    bath: &impl Fn(ThermodynamicTemperature) -> Option<Bath>,
    from: ThermodynamicTemperature,
    to: ThermodynamicTemperature,
) -> Option<Time> {
    use uom::si::heat_capacity::joule_per_kelvin;
    let steps = (to.si() - from.si()).ceil().max(1.0);
    let step = (to.si() - from.si()) / steps;
    let (mut seconds, mut t) = (0.0, from.si() + step / 2.0);
    while t < to.si() {
        let here = bath(ThermodynamicTemperature::from_si(t))?;
        let rise = net(&here, t);
        if rise <= 0.0 {
            return None;
        }
        seconds += here.capacity.get::<joule_per_kelvin>() * step / rise;
        t += step;
    }
    Some(Time::from_si(seconds))
}
