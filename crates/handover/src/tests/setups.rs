//! Pairs of the demo table, and the installation of check values, to try faults on.

use super::super::plan::plan;
use super::super::site::Site;
use super::super::spread::{Range, Spread};
use super::super::{Circumstances, Planned, Reads, Signatures, signature};
use fit::facts::Facts;
use fit::{Conditions, Pairing, pair};
use quantity::{Named, Quantity, ThermodynamicTemperature, Unit, text};
use std::sync::LazyLock;
use table::{Carrier, Functions, Head, Table, read};
use workshop::Job;

/// A machine with its head, ready to be spoilt.
pub struct Setup {
    pub name: String,
    pub site: Site,
    pub ranges: Vec<(Spread, Range)>,
    pub plan: Vec<Planned>,
    pub signatures: Signatures,
}

fn table(text: &str) -> Table {
    read(text).table.expect("a table")
}

pub fn demo() -> Table {
    table(include_str!("../../../../public/table/demo.json"))
}

/// The installation of check values.
fn installation() -> Table {
    table(include_str!("../../../fit/tests/pairing/installation.json"))
}

impl Setup {
    fn of(carrier: &Carrier, head: &Head, conditions: &Conditions) -> Self {
        Self::paired(&pair(carrier, head, conditions), carrier, head, conditions)
    }

    fn paired(pairing: &Pairing, carrier: &Carrier, head: &Head, conditions: &Conditions) -> Self {
        let celsius = |t: f64| Some(ThermodynamicTemperature::from_si(Unit::Celsius.to_si(t)));
        let at = Circumstances { oil: celsius(50.0), air: celsius(14.0), ..Circumstances::default() };
        let job = Job::of(pairing, carrier, head, conditions).expect("it goes to work");
        let (oil, air) = (at.oil.expect("set"), at.air.expect("set"));
        let here = Conditions { hot: oil, ambient: air, ..conditions.clone() };
        let site = Site::of(&job, oil, &here).expect("a circuit");
        let facts = Facts::gather(job.after.carrier, job.after.circuit, head, &here);
        let plan = plan(pairing, carrier, head, conditions, &at);
        let tester = signature::tester_gauge(&plan, &at);
        let ranges = Spread::ALL
            .iter()
            .filter_map(|&spread| Some((spread, spread.range(&site, &facts, oil, tester)?)))
            .collect();
        let signatures = Signatures::of(pairing, carrier, head, conditions, &at);
        let name = format!("{} {}", carrier.id.as_str(), head.id.as_str());
        Self { name, site, ranges, plan, signatures }
    }

    /// A pair of the demo table.
    pub fn demo(carrier: &str, head: &str) -> Self {
        let table = demo();
        let carrier = table.carriers.iter().find(|known| known.id.as_str() == carrier).expect("a carrier");
        let head = table.heads.iter().find(|known| known.id.as_str() == head).expect("a head");
        Self::of(carrier, head, &Conditions::of_table(&table))
    }

    /// The installation of check values: divider, direct return, case line, another tool shut off.
    pub fn installation() -> Self {
        let table = installation();
        Self::of(&table.carriers[0], &table.heads[0], &Conditions::of_table(&table))
    }

    /// The first pair on a machine whose pumps are told that oil is wanted, and which says what its functions take: more than the
    /// pairing was judged by.
    pub fn told() -> Self {
        let table = demo();
        let (carrier, head) = PAIRS[0];
        let conditions = Conditions::of_table(&table);
        let carrier = table.carriers.iter().find(|known| known.id.as_str() == carrier).expect("a carrier");
        let head = table.heads.iter().find(|known| known.id.as_str() == head).expect("a head");
        let mut pairing = pair(carrier, head, &conditions);
        let tell = |carrier: &mut Carrier| {
            let (least_flow, pressure) = (text::read("220 L/min").ok(), text::read("120 bar").ok());
            carrier.functions = Some(Functions { least_flow, pressure });
            for circuit in &mut carrier.circuits {
                circuit.demand_signal = Some(true);
            }
        };
        let mut told = carrier.clone();
        tell(&mut told);
        pairing.changed.as_deref_mut().into_iter().for_each(tell);
        Self::paired(&pairing, &told, head, &conditions)
    }

    /// All that proofs are made on, made once.
    pub fn all() -> &'static [Self] {
        static ALL: LazyLock<Vec<Setup>> = LazyLock::new(Setup::make);
        &ALL
    }

    fn make() -> Vec<Self> {
        let mut all: Vec<Self> = PAIRS.iter().map(|(carrier, head)| Self::demo(carrier, head)).collect();
        all.push(Self::installation());
        all.push(Self::told());
        all
    }

    /// What is read on the sound machine.
    pub fn sound(&self) -> Reads {
        self.site.rig.reads(&self.site.computed)
    }
}

/// Two pumps with a divider and a case line; two pumps by their own control; load sensing with another tool shut off; a breaker; a
/// trencher on a small one; an auger with a constant pump on the smallest and on a loader with a belt drive; a loader with load sensing.
pub const PAIRS: [(&str, &str); 8] = [
    ("orrin-e220", "thistlecut-r130"),
    ("orrin-e145", "thistlecut-r130"),
    ("orrin-e78", "thistlecut-r90"),
    ("orrin-e78", "wrackline-b45"),
    ("quern-q48", "pebblegate-t60"),
    ("skerry-s11", "pebblegate-a15"),
    ("quern-k37", "saltmarsh-g40"),
    ("skerry-t46", "saltmarsh-h140"),
];
