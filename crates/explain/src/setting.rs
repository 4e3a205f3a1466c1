//! Why a setting stands where it does, or a part has its size: the change is made once more on the same machine, with all that
//! tells how it is solved.

use crate::check::judged_from;
use crate::formula;
use crate::reasoning::{Conclusion, Reasoning};
use fit::changes::{Catalogue, ChangeOption, Slot, applied, explained};
use fit::facts::Facts;
use fit::installation::sharing;
use fit::machine::{Machine, Store};
use fit::setup::Setup;
use fit::trace::{Against, Context, InputRecord, Trial, What};
use fit::warm_up::{COLD_CHECKS, warm_up_from};
use fit::{Change, Check, CheckId, Conditions, FactId, Pairing, Setting, SettingId, checks, unknown_circuit};
use quantity::Amount;
use table::{Carrier, ChangeId, Circuit, Head, Id};
use workshop::tolerance;

/// A pairing that is gone through once more.
#[derive(Clone, Copy)]
struct Again<'a> {
    pairing: &'a Pairing,
    circuit: &'a Id,
    head: &'a Head,
    conditions: &'a Conditions,
}

/// How a setting of a change was solved, or its part chosen; without a change the temperature to which the oil is idled first. None where
/// there is no such setting.
pub fn reasoning_of_setting(
    pairing: &Pairing,
    carrier: &Carrier,
    head: &Head,
    conditions: &Conditions,
    change: Option<ChangeId>,
    setting: SettingId,
) -> Option<Reasoning> {
    // A machine that states no circuit is judged with one of which nothing is known.
    let unknown = unknown_circuit();
    let bare = pairing.circuit.is_none().then(|| Carrier { circuits: vec![unknown.clone()], ..carrier.clone() });
    let carrier = bare.as_ref().unwrap_or(carrier);
    let again = Again { pairing, circuit: pairing.circuit.as_ref().unwrap_or(&unknown.id), head, conditions };
    let finished = pairing.changed.as_deref().unwrap_or(carrier);
    let Some(change) = change else {
        return again.idled_warm(finished).filter(|_| setting == SettingId::OilTemperature);
    };
    let place = pairing.changes.iter().position(|made| made.id == change)?;
    let made = &pairing.changes[place];
    let taken = made.settings.iter().find(|known| known.name == setting)?.value;
    let (inputs, tried) = match setting {
        SettingId::Bore | SettingId::RatedFlow | SettingId::RatedPressure | SettingId::Conductance => {
            (again.part(made, setting, taken), again.others(carrier, place, setting))
        }
        SettingId::ShareAtWork | SettingId::ShareFree => {
            let (shares, inputs) = again.facts(finished)?.with_inputs(sharing::sharing);
            shares?;
            (inputs, Vec::new())
        }
        _ => {
            let store = Store::default();
            let before = again.changed(&store, carrier, pairing.changes[..place].iter().map(|made| &made.option))?;
            let (_, solved) = explained(before, &made.option)?;
            let same = |known: &Setting| known.name == setting && known.value == taken;
            let solved = solved.into_iter().find(|known| same(&known.value))?;
            (solved.inputs, solved.trials)
        }
    };
    let between = matches!(
        setting,
        SettingId::Flow | SettingId::Relief | SettingId::HeadRelief | SettingId::ToolRelief | SettingId::EngineSpeed
    );
    let between = between.then(|| tolerance(taken, None)).map(|expected| (expected.low, expected.high));
    let result = Conclusion { between, ..Conclusion::figure(Some(taken)) };
    let practice = again.facts(finished)?.practice;
    let why = Reasoning::new(None, formula::of_setting(setting), inputs, &practice, result);
    Some(Reasoning { tried, held: again.held(finished, made, setting), ..why })
}

impl<'a> Again<'a> {
    fn place(self, carrier: &Carrier) -> Option<&Circuit> {
        carrier.circuit(self.circuit)
    }

    fn facts<'c>(self, carrier: &'c Carrier) -> Option<Facts<'c>>
    where
        'a: 'c,
    {
        Some(Facts::gather(carrier, self.place(carrier)?, self.head, self.conditions))
    }

    /// The machine with these changes made, in this order.
    fn changed<'c, 'o>(
        self,
        store: &'c Store,
        carrier: &'c Carrier,
        options: impl Iterator<Item = &'o ChangeOption>,
    ) -> Option<Machine<'c>>
    where
        'a: 'c,
    {
        let (circuit, head, conditions) = (self.place(carrier)?, self.head, self.conditions);
        let mut changed = Machine::of(store, Setup { carrier, circuit, head, conditions });
        for option in options {
            (changed, _) = applied(changed, option)?;
        }
        Some(changed)
    }

    /// The part that is used and its size, from the table's list or the usual ones of shops.
    fn part(self, made: &Change, setting: SettingId, taken: Amount) -> Vec<InputRecord> {
        use fit::trace::{Origin, Value};
        let part = made.part.as_ref().and_then(|id| self.conditions.parts.iter().find(|part| part.id == *id));
        let origin = if part.is_some() { Origin::Table } else { Origin::Practice };
        let figure = Value::Figure { likely: Some(taken), worst: vec![taken], span: None };
        let name = part.map(|part| Value::Text(format!("{} ({})", part.name, part.id)));
        let name = name.map(|value| InputRecord { what: What::Context(Context::PartUsed), value, origin });
        let size = match setting {
            SettingId::RatedFlow => Context::PartRatedFlow,
            SettingId::RatedPressure => Context::PartRatedPressure,
            SettingId::Conductance => Context::PartConductance,
            _ => Context::PartBore,
        };
        name.into_iter().chain([InputRecord { what: What::Context(size), value: figure, origin }]).collect()
    }

    /// The other sizes of the same change that would not do in this set, with what speaks against each.
    fn others(self, carrier: &Carrier, place: usize, setting: SettingId) -> Vec<Trial> {
        let made = &self.pairing.changes[place];
        let catalogue = Catalogue::of(self.conditions);
        let same =
            catalogue.of_slot(Slot::of(made.id)).filter(|option| option.id == made.id && **option != made.option);
        let same = same.filter(|option| option.tank_port == made.option.tank_port);
        let open = |id: CheckId| self.pairing.final_checks().iter().any(|check| check.id == id && check.fails());
        let tried = same.filter_map(|option| {
            let value = size(option, setting)?;
            let set = self.pairing.changes.iter().enumerate();
            let set = set.map(|(i, made)| if i == place { option } else { &made.option });
            let store = Store::default();
            let facts = self.changed(&store, carrier, set)?.setup.facts();
            let quick = checks::in_a_search(&facts);
            let failing = quick.iter().filter(|check| check.fails() && !open(check.id)).map(|check| check.id);
            let warm = facts.warm_enough;
            let against = failing.map(|id| Against { check: checks::check(id, &facts, warm), spare: 0.0 });
            Some(Trial { value, against: against.collect() })
        });
        tried.filter(|trial| !trial.against.is_empty()).collect()
    }

    /// The checks of the finished machine that took the setting, each with its limit; of other settings those that the change fixes.
    fn held(self, finished: &Carrier, made: &Change, setting: SettingId) -> Vec<Check> {
        let fact = match setting {
            SettingId::Flow => Some(FactId::CircuitFlow),
            SettingId::Relief => Some(FactId::CircuitRelief),
            SettingId::HeadRelief => Some(FactId::HeadRelief),
            _ => None,
        };
        let took = |id: CheckId| {
            let Some((fact, circuit)) = fact.zip(self.place(finished)) else { return made.fixes.contains(&id) };
            let why = judged_from(finished, circuit, self.head, self.conditions, id, None);
            why.inputs.iter().any(|used| matches!(used.what, What::Fact(id, _) if id == fact))
        };
        let with_limit = self.pairing.final_checks().iter().filter(|check| check.limit.is_some());
        with_limit.filter(|check| took(check.id)).cloned().collect()
    }

    /// To which temperature the oil is idled before full speed is asked.
    fn idled_warm(self, finished: &Carrier) -> Option<Reasoning> {
        let taken = self.pairing.warm_up?;
        let facts = self.facts(finished)?;
        let solved = facts.with_inputs(warm_up_from).0.filter(|solved| Amount::of(solved.value) == taken)?;
        let formulas = formula::of_setting(SettingId::OilTemperature);
        let why = Reasoning::new(None, formulas, solved.inputs, &facts.practice, Conclusion::figure(Some(taken)));
        let held = self.pairing.final_checks().iter().filter(|check| COLD_CHECKS.contains(&check.id));
        Some(Reasoning {
            tried: solved.trials,
            held: held.filter(|check| check.limit.is_some()).cloned().collect(),
            ..why
        })
    }
}

/// The figure of a part by which it is chosen.
fn size(option: &ChangeOption, setting: SettingId) -> Option<Amount> {
    match setting {
        SettingId::Bore => option.bore.map(Amount::of),
        SettingId::RatedFlow => option.rated_flow.map(|flow| Amount::of(flow.nominal)),
        SettingId::RatedPressure => option.rated_pressure.map(|pressure| Amount::of(pressure.nominal)),
        SettingId::Conductance => option.conductance.map(|conductance| Amount::of(conductance.nominal)),
        _ => None,
    }
}
