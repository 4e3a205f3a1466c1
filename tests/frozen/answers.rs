//! Answers that an earlier build gave, held against those of today: the fields and ids that were there are there, and a
//! verdict differs only where it is said why.

use super::known::{Known, REMAKE};
use super::shape::{Places, lost};
use super::{TABLE, lines, plate};
use fit::installation::Solved;
use fit::{Conditions, Installation, Pairing, Stage, pair};
use quantity::Named;
use record::mark;
use serde_json::{Value, json};
use std::collections::{BTreeMap, HashMap};
use std::sync::OnceLock;
use table::{Carrier, Table, read};
use wording::Desk;

/// One question with the answer then and the one of today.
struct Asked {
    machine: String,
    head: String,
    then: Value,
    now: Value,
}

/// The machine of a question: one of the table, or a person's own by its plate.
fn machine(table: &Table, asked: &Value) -> (String, Carrier) {
    if let Some(id) = asked["carrier"].as_str() {
        return (id.to_owned(), table.carrier(id).unwrap_or_else(|| panic!("{id} is in the table")).clone());
    }
    let id = asked["plate"].as_str().expect("a machine or a plate");
    (format!("plate {id}"), plate(id).read().carrier.unwrap_or_else(|| panic!("the plate {id} reads")))
}

fn table_and_conditions() -> (Table, Conditions) {
    let table = read(TABLE).table.expect("the frozen table reads");
    let conditions = Conditions::of_table(&table);
    (table, conditions)
}

fn judged(table: &Table, conditions: &Conditions, carrier: &Carrier, head: &str) -> Pairing {
    pair(carrier, table.head(head).unwrap_or_else(|| panic!("{head} is in the table")), conditions)
}

fn pairings() -> &'static [Asked] {
    static ALL: OnceLock<Vec<Asked>> = OnceLock::new();
    ALL.get_or_init(|| {
        let (table, conditions) = table_and_conditions();
        let ask = |line: Value| {
            let head = line["asked"]["head"].as_str().expect("an attachment").to_owned();
            let (machine, carrier) = machine(&table, &line["asked"]);
            let now = parsed(&judged(&table, &conditions, &carrier, &head).to_json());
            Asked { machine, head, then: line["answer"].clone(), now }
        };
        lines(include_str!("pairings.jsonl")).map(ask).collect()
    })
}

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

/// How each check comes out on the machine as it would go to work.
fn outcomes(answer: &Value) -> BTreeMap<&str, &str> {
    let after = answer["checks_after"].as_array().filter(|checks| !checks.is_empty());
    let checks = after.or_else(|| answer["checks"].as_array()).expect("checks");
    checks.iter().filter_map(|check| Some((check["id"].as_str()?, check["outcome"].as_str()?))).collect()
}

#[test]
fn the_frozen_pairings_are_a_spread() {
    let all = pairings();
    assert!(all.len() >= 60, "{}", all.len());
    let of = |name: fn(&Asked) -> String| all.iter().map(name).collect::<std::collections::BTreeSet<_>>();
    assert_eq!(of(|asked| asked.then["verdict"].to_string()).len(), 4, "every verdict");
    assert_eq!(of(|asked| asked.then["head"]["kind"].to_string()).len(), 14, "every kind of attachment");
    let (table, _) = table_and_conditions();
    let classes: std::collections::BTreeSet<_> =
        all.iter().filter_map(|asked| Some(table.carrier(&asked.machine)?.class)).map(Named::name).collect();
    assert_eq!(classes.len(), table::CarrierClass::ALL.len(), "every class of machine: {classes:?}");
    assert!(all.iter().filter(|asked| asked.machine.starts_with("plate ")).count() >= 8, "own machines");
}

/// Checks that ask two questions and tell the worse, which may be the other one today: with the units of both.
const WORSE_OF_TWO: [(&str, [&str; 2]); 1] = [("couplings", ["bar", "L/min"])];

fn is_worse(fault: &str, check: &str, [one, other]: [&str; 2]) -> bool {
    let told = |was: &str, is: &str| {
        fault.ends_with(&format!("was in {:?} and is in {:?}", Some(Value::from(was)), Some(Value::from(is))))
    };
    fault.contains(&format!("/{check:?}/")) && (told(one, other) || told(other, one))
}

/// A pair of today's demo table that has a second set of changes.
fn with_a_second_set() -> Pairing {
    let table = read(include_str!("../../public/table/demo.json")).table.expect("the demo table");
    let conditions = Conditions::of_table(&table);
    let carrier = table.carrier("skerry-s84").expect("the machine");
    let pairing = judged(&table, &conditions, carrier, "thistlecut-r90");
    assert!(pairing.runner_up.is_some(), "another pair has a second set today");
    pairing
}

#[test]
fn invariant_every_field_that_a_pairing_had_is_there_as_what_it_was() {
    let (mut then, mut now) = (Places::default(), Places::default());
    let mut faults = Vec::new();
    for asked in pairings() {
        let who = |fault: String| format!("{} with {}: {fault}", asked.machine, asked.head);
        for name in ["format", "version", "carrier", "head"] {
            if asked.then[name] != asked.now[name] {
                faults.push(who(format!("{name} is {} and was {}", asked.now[name], asked.then[name])));
            }
        }
        let ids = |answer: &Value| -> Vec<String> {
            answer["checks"].as_array().expect("checks").iter().map(|check| check["id"].to_string()).collect()
        };
        let after = ids(&asked.now);
        faults.extend(
            ids(&asked.then).into_iter().filter(|id| !after.contains(id)).map(|id| who(format!("no check {id}"))),
        );
        let worse = |fault: &String| WORSE_OF_TWO.iter().all(|(check, units)| !is_worse(fault, check, *units));
        faults.extend(lost(&asked.then, &asked.now).into_iter().filter(worse).map(who));
        then.add(&asked.then);
        now.add(&asked.now);
    }
    // The one pair of them that had a second set cannot be judged any more; others of today's table have one.
    now.add(&parsed(&with_a_second_set().to_json()));
    faults.extend(then.lost_in(&now));
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn invariant_a_verdict_differs_only_where_it_is_said_why() {
    let known = Known {
        file: "differences.tsv",
        text: include_str!("differences.tsv"),
        columns: &["machine", "attachment", "then", "now"],
    };
    let text = |value: &Value| value.as_str().expect("a name").to_owned();
    let differ = pairings().iter().filter(|asked| asked.then["verdict"] != asked.now["verdict"]).map(|asked| {
        let (then, now) = (outcomes(&asked.then), outcomes(&asked.now));
        let others = now.iter().filter(|(id, outcome)| then.get(*id) != Some(outcome));
        let others = others.map(|(id, outcome)| format!("{id}: {} -> {outcome}", then.get(id).unwrap_or(&"none")));
        let verdicts = [&asked.then, &asked.now].map(|answer| text(&answer["verdict"]));
        let columns = [asked.machine.clone(), asked.head.clone()].into_iter().chain(verdicts).collect();
        (columns, others.collect::<Vec<_>>().join(", "))
    });
    known.holds(&differ.collect::<Vec<_>>());
}

/// What a kept comparison holds of an answer, one line for all: by this it is told that something comes out differently.
fn told_of(answers: impl Iterator<Item = &'static Value>) -> String {
    let ids = |list: &Value| {
        list.as_array().into_iter().flatten().map(|one| one["id"].to_string()).collect::<Vec<_>>().join(",")
    };
    let told = answers.map(|answer| {
        let tightest = &answer["tightest"];
        let margin = tightest["margin"].as_f64().map_or_else(String::new, |margin| format!("{:.0}", margin * 1000.0));
        format!("{} {} {} {} {margin}", answer["verdict"], ids(&answer["changes"]), answer["cost"], tightest["check"])
    });
    mark(&told.collect::<Vec<_>>().join("\n"))
}

/// Without it a person is told that his table has changed where the program has.
#[test]
fn the_judgement_has_another_number_when_answers_are_others() {
    let number = fit::JUDGEMENT.to_string();
    let today = told_of(pairings().iter().map(|asked| &asked.now));
    let (then, answers) = include_str!("judgement.tsv").trim_end().split_once('\t').expect("a number and a mark");
    if (then, answers) == (number.as_str(), today.as_str()) {
        return;
    }
    assert!(
        then != number,
        "Answers are not those that judgement {number} gave. If that is meant, raise fit::JUDGEMENT by one, then run \
         `{REMAKE}=1 cargo test --test frozen`."
    );
    assert!(
        std::env::var_os(REMAKE).is_some(),
        "The judgement has a new number. Run `{REMAKE}=1 cargo test --test frozen`."
    );
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/frozen/judgement.tsv");
    std::fs::write(path, format!("{number}\t{today}\n")).unwrap_or_else(|error| panic!("{path}: {error}"));
}

#[test]
fn every_field_of_the_states_is_there_as_what_it_was() {
    let (table, conditions) = table_and_conditions();
    // By machine and attachment: the states of today by what names them.
    let mut today: HashMap<(String, String), BTreeMap<String, Value>> = HashMap::new();
    let name = |state: &Value| {
        ["stage", "load", "oil", "functions", "engine", "filter"].map(|part| state[part].to_string()).join(" ")
    };
    let states = |carrier: &str, head: &str| {
        let (machine, attachment) =
            (table.carrier(carrier).expect("a machine"), table.head(head).expect("an attachment"));
        let pairing = pair(machine, attachment, &conditions);
        let mut all = BTreeMap::new();
        for (stage, machine) in [(Stage::AsItIs, Some(machine)), (Stage::AfterChanges, pairing.changed.as_deref())] {
            let looked = machine.zip(pairing.circuit.as_ref());
            let looked =
                looked.and_then(|(machine, circuit)| Installation::new(machine, circuit, attachment, &conditions));
            for (state, standing) in looked.iter().flat_map(Installation::states) {
                let state = json!(Solved { stage, state, standing });
                all.insert(name(&state), state);
            }
        }
        all
    };
    let (mut then, mut now) = (Places::default(), Places::default());
    let (mut faults, mut looked) = (Vec::new(), 0);
    for line in lines(include_str!("states.jsonl")) {
        let pair = [&line["carrier"], &line["head"]].map(|id| id.as_str().expect("an id").to_owned());
        let [carrier, head] = &pair;
        let all = today.entry(pair.clone().into()).or_insert_with(|| {
            let all = states(carrier, head);
            for state in all.values() {
                now.add(state);
            }
            all
        });
        let before = &line["state"];
        then.add(before);
        let Some(after) = all.get(&name(before)) else {
            // Without changes there is nothing after them.
            if before["stage"] == "as-it-is" {
                faults.push(format!("{carrier} with {head}: no state {}", name(before)));
            }
            continue;
        };
        looked += 1;
        if before["does"] == after["does"] {
            faults.extend(
                lost(before, after)
                    .into_iter()
                    .map(|fault| format!("{carrier} with {head}, {}: {fault}", name(before))),
            );
        }
    }
    faults.extend(then.lost_in(&now));
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(looked > 200, "{looked}");
}

#[test]
fn a_dealers_script_gets_its_other_answers_as_they_were() {
    let mut desk = Desk::default();
    let mut count = 0;
    for line in lines(include_str!("script.jsonl")) {
        let text = |value: &Value| value.as_str().map_or_else(|| TABLE.to_owned(), str::to_owned);
        let then = &line["answer"];
        let (name, now) = match line.get("pair") {
            Some(asked) => {
                let [carrier, head] = ["carrier", "head"].map(|part| asked[part].as_str().expect("a text"));
                (&asked["name"], parsed(&desk.pair(&text(&asked["table"]), carrier, head)))
            }
            None => (&line["check_table"]["name"], parsed(&desk.check_table(&text(&line["check_table"]["table"])))),
        };
        assert_eq!(lost(then, &now), [""; 0], "{name}");
        assert_eq!(then["usable"], now["usable"], "{name}");
        assert_eq!(then["set_aside"], now["set_aside"], "{name}");
        assert_eq!(then["error"].is_string(), now["error"].is_string(), "{name}");
        let same = |list: &str, of: &Value, is: &Value, fields: &[&str]| {
            let empty = Vec::new();
            let (of, is) = (of[list].as_array().unwrap_or(&empty), is[list].as_array().unwrap_or(&empty));
            for before in of {
                let there = is.iter().any(|after| fields.iter().all(|field| before[*field] == after[*field]));
                assert!(there, "{name}: {before} is not among {is:?}");
            }
        };
        same("reasons", then, &now, &["code", "id", "near"]);
        for list in ["problems", "carrier_problems"] {
            same(list, then, &now, &["pointer", "severity", "found", "line", "column"]);
        }
        for (before, after) in
            then["reasons"].as_array().into_iter().flatten().zip(now["reasons"].as_array().into_iter().flatten())
        {
            same("problems", before, after, &["pointer", "severity", "found", "line", "column"]);
        }
        count += 1;
    }
    assert_eq!(count, 10);
}

/// Ids are only ever added: scripts go by them.
#[test]
fn invariant_every_id_is_known_and_documented() {
    fn known<T: Named>(name: &str) -> bool {
        T::from_name(name).is_some()
    }
    let ids = parsed(include_str!("ids.json"));
    let documented = include_str!("../../docs/pairing.md");
    let of_list = |list: &str| -> Option<fn(&str) -> bool> {
        Some(match list {
            "verdict" => known::<fit::Verdict>,
            "check" => known::<fit::CheckId>,
            "class" => known::<fit::Class>,
            "outcome" => known::<fit::Outcome>,
            "bound" => known::<fit::Bound>,
            "because" => known::<fit::Cause>,
            "fact" => known::<fit::FactId>,
            "assumption" => known::<table::AssumptionId>,
            "assumed from" => known::<fit::AssumedFrom>,
            "change" => known::<table::ChangeId>,
            "reason of a change" => known::<fit::ChangeReason>,
            "setting" => known::<fit::SettingId>,
            "extra valve" => known::<table::ExtraValve>,
            "question" => known::<fit::MakerQuestion>,
            "line" => known::<fit::LineId>,
            "stage" => known::<fit::Stage>,
            "oil" => known::<fit::OilState>,
            "load" => known::<fit::Load>,
            "functions" => known::<fit::installation::FunctionsState>,
            "engine" => known::<fit::installation::EngineState>,
            "filter" => known::<fit::installation::FilterState>,
            "node" => known::<fit::Node>,
            "no such point" => known::<fit::installation::NoPoint>,
            "guard" => known::<table::Guard>,
            "head kind" => known::<table::HeadKind>,
            "carrier class" => known::<table::CarrierClass>,
            // These have no names but in their JSON.
            "reason" | "remark" | "refusal" => return None,
            other => panic!("no list {other}"),
        })
    };
    let mut count = 0;
    for (list, ids) in ids.as_object().expect("lists") {
        for id in ids.as_array().expect("ids").iter().filter_map(Value::as_str) {
            let there = of_list(list).map_or_else(|| documented.contains(&format!("`{id}`")), |known| known(id));
            assert!(there, "{list} {id} is not known any more");
            count += 1;
        }
    }
    assert!(count > 400, "{count}");
}
