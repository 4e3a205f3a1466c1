//! One pairing of which nothing can be said yet: what it waits for, and what of that decides it.

use super::likely::{Pair, Which};
use super::{Entry, Gain, Question};
use fit::{Check, Class, FactId, Judge, Outcome, Pairing, Reason, Verdict, pair};
use table::{Carrier, Head, Id};

/// How often what was found out may open new questions.
const ROUNDS: usize = 8;

/// What an answer counts to a pairing that all the likely answers together do not settle, as a share of what it counts to another one.
const UNSETTLED: f64 = 0.25;

/// A fact that a pairing waits for.
#[derive(Clone, Debug, PartialEq)]
pub struct Wait {
    /// The question.
    pub question: Question,
    /// How much it is needed: 1 where nothing else will do, less where others help more.
    pub need: f64,
    /// At which share of its likely answers the pairing is decided, whatever else is not known.
    pub decides: f64,
}

/// A pairing of which nothing can be said yet.
#[derive(Clone, Debug, PartialEq)]
pub struct HeldUp {
    /// The machine.
    pub carrier: Id,
    /// The attachment.
    pub head: Id,
    /// What it waits for, those that are asked at once first.
    pub waits: Vec<Wait>,
    /// Whether a verdict falls once all of that is found as it is likely.
    pub is_settled: bool,
}

impl HeldUp {
    /// What a pairing waits for; none where a verdict falls already. Where it is no fact that keeps it from falling, it waits for nothing.
    pub fn of(carrier: &Carrier, head: &Head, judge: &Judge) -> Option<Self> {
        let conditions = judge.conditions();
        if judge.verdict(carrier, head) != Verdict::CannotSay {
            return None;
        }
        let now = pair(carrier, head, conditions);
        // Of a machine without any circuit the one is described of which nothing is known yet.
        let unknown =
            now.circuit.is_none().then(|| Carrier { circuits: vec![fit::unknown_circuit()], ..carrier.clone() });
        let start = Pair {
            carrier: unknown.unwrap_or_else(|| carrier.clone()),
            head: head.clone(),
            circuit: now.circuit.clone().or_else(|| Some(fit::unknown_circuit().id))?,
            conditions,
        };
        let mut found =
            Self { carrier: carrier.id.clone(), head: head.id.clone(), waits: Vec::new(), is_settled: false };
        let rounds = if now.incomplete.is_some() { 0 } else { ROUNDS };
        let (mut all, mut pairing) = (start.clone(), now);
        for round in 0..rounds {
            if let Some(circuit) = &pairing.circuit {
                all.circuit = circuit.clone();
            }
            let mut went_on = false;
            let needed = needed(&pairing, &all.head);
            let is_only = needed.iter().filter(|(_, need)| *need >= 1.0).count() <= 1;
            for (fact, need) in needed {
                let question = question(carrier, head, &all.circuit, fact);
                if found.waits.iter().any(|wait| wait.question == question) {
                    continue;
                }
                let decides = if round == 0 { alone(&start, fact, is_only, judge) } else { 0.0 };
                found.waits.push(Wait { question, need, decides });
                if let Some(next) = all.with(fact, Which::Likeliest) {
                    all = next;
                    went_on = true;
                }
            }
            if !went_on {
                break;
            }
            pairing = pair(&all.carrier, &all.head, conditions);
            if pairing.verdict != Verdict::CannotSay {
                found.is_settled = true;
                break;
            }
        }
        Some(found)
    }

    /// What an answer is worth to it: where it does not decide by itself, its share among all that it waits for.
    pub fn gain(&self, wait: &Wait) -> Gain {
        let all: f64 = self.waits.iter().map(|wait| wait.need).sum();
        let share = wait.need / all * if self.is_settled { 1.0 } else { UNSETTLED };
        Gain {
            holds_up: 1,
            decides: usize::from(wait.decides > 0.0),
            weight: wait.decides + (1.0 - wait.decides) * share,
        }
    }
}

/// The question for a fact. What is not of a circuit is asked once for a machine.
fn question(carrier: &Carrier, head: &Head, circuit: &Id, fact: FactId) -> Question {
    let is_stated = carrier.circuit(circuit).is_some();
    let circuit = (is_stated && fact.is_of_circuit()).then(|| circuit.clone());
    let entry = if fact.is_of_machine() { Entry::Carrier(carrier.id.clone()) } else { Entry::Head(head.id.clone()) };
    Question { entry, circuit, fact }
}

/// The facts that a pairing waits for, each with how much it is needed: what a check lacks, wholly; what practice stands in for wholly
/// where people can be hurt, else the less the more others help more.
fn needed(pairing: &Pairing, head: &Head) -> Vec<(FactId, f64)> {
    let open = |check: &&Check| check.blocks && check.outcome == Outcome::NotKnown;
    let mut facts: Vec<(FactId, f64)> = Vec::new();
    for check in pairing.open_checks().iter().filter(open) {
        let each = check.reason == Reason::FactMissing || check.class == Class::Safety;
        let of_table =
            check.missing.iter().map(|missing| from_which(missing.fact, head)).filter(|fact| fact.has_field());
        for (place, fact) in (1_u32..).zip(of_table) {
            let need = if each { 1.0 } else { 1.0 / f64::from(place) };
            match facts.iter_mut().find(|(known, _)| *known == fact) {
                Some((_, known)) => *known = known.max(need),
                None => facts.push((fact, need)),
            }
        }
    }
    facts
}

/// The fact that is asked for in place of one: how a motor is built mostly says whether it needs a case drain, and what its outlet and its
/// housing allow.
fn from_which(fact: FactId, head: &Head) -> FactId {
    let is_built_unknown = head.motor.as_ref().is_none_or(|motor| motor.kind.is_none());
    match fact {
        FactId::NeedsCaseLine | FactId::OutletLimit | FactId::CaseLimit if is_built_unknown => FactId::MotorKind,
        fact => fact,
    }
}

/// At which share of its likely answers a fact decides a pairing by itself. Among others that are needed as well it can only rule the
/// pairing out; whether changes would help is then not looked for, as mostly none does.
fn alone(pair: &Pair, fact: FactId, is_only: bool, judge: &Judge) -> f64 {
    let decided = |found: &Pair| {
        let Pair { carrier, head, .. } = found;
        judge.is_seen_at_once(carrier, head) || is_only && judge.verdict(carrier, head) != Verdict::CannotSay
    };
    let tried: Vec<bool> =
        Which::ALL.iter().filter_map(|&which| pair.with(fact, which)).map(|found| decided(&found)).collect();
    tried.iter().filter(|decided| **decided).count() as f64 / tried.len().max(1) as f64
}
