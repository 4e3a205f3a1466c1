//! What the pumps give over pressure, and what the head needs: the two curves that meet at the working point.

use super::Installation;
use super::states::{balanced, temperature_of};
use crate::sample::{Corner, Sample};
use crate::{Load, OilState};
use hydraulics::balance::Balanced;
use quantity::{Amount, Named, Pressure, Quantity, VolumeRate};

/// Pressure and flow of a point.
pub type At = (Amount, Amount);

/// What the head needs with its oil in one state, at work.
#[derive(Clone, Debug, PartialEq)]
pub struct Need {
    /// The oil.
    pub oil: OilState,
    /// Pressure over flow, from no flow up.
    pub points: Vec<At>,
    /// Where it meets what the pumps give; with no flow where the head stands still.
    pub works_at: At,
    /// Whether it stands still there.
    pub stalls: bool,
}

/// A pump's curve as its circuit sees it, at likely figures: engine at working speed, functions idle.
#[derive(Clone, Debug, PartialEq)]
pub struct PumpCurve {
    /// What reaches the head's branch over the pressure there, to where relief or cut-off end it.
    pub gives: Vec<At>,
    /// Where the pumps' power limit begins to take flow, where one acts before the end.
    pub limited_from: Option<At>,
    /// What the head needs, cold, working and hot.
    pub needs: Vec<Need>,
    /// The least and the greatest flow that the head's maker allows.
    pub window: (Option<Amount>, Option<Amount>),
    /// The greatest pressure that the head's maker allows.
    pub bears: Option<Amount>,
    /// Flow and relief as the brochure has them.
    pub says: Option<At>,
    /// What the circuit really gives at the brochure's pressure.
    pub gives_there: Option<Amount>,
}

/// Into how many steps a curve is cut.
const STEPS: u32 = 64;

impl Installation<'_> {
    /// The curve of the pumps with what the head needs. None where it cannot be solved, or nothing is known that ends the
    /// pressure.
    pub fn pump_curve(&self) -> Option<PumpCurve> {
        let facts = self.facts();
        let sample = Sample::new(Corner::Likely);
        let (circuit, _) = balanced(&facts, &sample, Load::Working, self.conditions.working);
        if !sample.missing().is_empty() {
            return None;
        }
        let end = circuit.ends_at()?;
        let point = |pressure: Pressure| (Amount::of(pressure), Amount::of(circuit.available(pressure)));
        let limited = circuit.source.limited_from().filter(|from| *from < end);
        let mut at: Vec<f64> = (0..=STEPS).map(|i| end.si() * f64::from(i) / f64::from(STEPS)).collect();
        let corners = [limited, circuit.whole_flow_up_to().filter(|whole| *whole < end)];
        at.extend(corners.iter().flatten().map(|pressure| pressure.si()));
        at.sort_by(f64::total_cmp);
        // Fully open the relief leaves nothing.
        let mut gives: Vec<At> = at.iter().map(|&p| point(Pressure::from_si(p))).collect();
        gives.push((Amount::of(end), Amount::of(VolumeRate::from_si(0.0))));
        let most = circuit.available(Pressure::from_si(0.0));
        let needs = OilState::ALL.iter().filter_map(|&oil| self.need(oil, most)).collect();
        let says = self.says();
        let head = self.head;
        let amount = |stated: Option<quantity::Stated<VolumeRate>>| stated.map(|s| Amount::of(s.nominal));
        Some(PumpCurve {
            gives,
            limited_from: limited.map(point),
            needs,
            window: (amount(head.flow.least), amount(head.flow.greatest)),
            bears: head.pressure.greatest.map(|stated| Amount::of(stated.nominal)),
            says: says.map(|(flow, relief)| (Amount::of(relief), Amount::of(flow))),
            gives_there: says.map(|(_, relief)| Amount::of(circuit.available(relief))),
        })
    }

    fn need(&self, oil: OilState, most: VolumeRate) -> Option<Need> {
        let facts = self.facts();
        let sample = Sample::new(Corner::Likely);
        let (circuit, at) = balanced(&facts, &sample, Load::Working, temperature_of(&facts, oil));
        let difference = facts.working_difference(&sample, &circuit);
        if !sample.missing().is_empty() {
            return None;
        }
        let (Balanced::Turns(point) | Balanced::Stalls(point)) = at else { return None };
        let points = (0..=STEPS).map(|i| {
            let flow = most * (f64::from(i) / f64::from(STEPS));
            (Amount::of(circuit.need(flow, difference)), Amount::of(flow))
        });
        let stalls = matches!(at, Balanced::Stalls(_));
        let points = points.collect();
        Some(Need { oil, points, works_at: (Amount::of(point.supply), Amount::of(point.flow)), stalls })
    }
}
