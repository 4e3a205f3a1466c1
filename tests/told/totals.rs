//! What several sets of changes take on one machine: what they share counts once, and nothing is summed up over machines.

use fit::Total;
use fit::{Conditions, Pairing, SettingId, Verdict, pair};
use quantity::{Amount, UnitSystem};
use std::collections::BTreeMap;
use table::{ChangeId, Table, read};
use workshop::machine_totals;

fn demo() -> Table {
    read(include_str!("../../public/table/demo.json")).table.expect("the demo table")
}

fn judged(table: &Table, carrier: &str, head: &str) -> Pairing {
    let found = (table.carrier(carrier).expect("a machine"), table.head(head).expect("an attachment"));
    pair(found.0, found.1, &Conditions::of_table(table))
}

fn minor(total: &Total) -> u64 {
    total.price.as_ref().expect("a price").amount.minor()
}

/// An amount so many times as large.
fn times(amount: Amount, factor: f64) -> Amount {
    let (value, unit) = amount.in_system(UnitSystem::Metric);
    Amount::from_si(amount.dimension(), unit.to_si(value * factor))
}

#[test]
fn invariant_shared_parts_are_paid_once_however_many_attachments_need_them() {
    let table = demo();
    let heads = ["thistlecut-r90", "wrackline-f125", "pebblegate-k70", "wrackline-n200"];
    let all: Vec<_> = heads.iter().map(|head| judged(&table, "orrin-e78", head)).collect();
    assert!(all.iter().all(|pairing| pairing.verdict == Verdict::FitsAfterChanges));
    let all: Vec<&Pairing> = all.iter().collect();
    let totals = machine_totals(&all);
    assert_eq!(totals.len(), 1);
    let machine = &totals[0];
    assert_eq!((machine.carrier.id.as_str(), machine.sets), ("orrin-e78", 4));
    for shared in [ChangeId::ReturnFilter, ChangeId::IsolateTool] {
        assert!(machine.shared.contains(&shared), "{shared:?}: {machine:?}");
    }
    // Every part once, counted apart: pins are the attachment's and would come for each.
    let mut parts = BTreeMap::new();
    let mut pins = Vec::new();
    for change in all.iter().flat_map(|pairing| &pairing.changes) {
        let price = change.price.as_ref().expect("a price").amount.minor();
        if change.id == ChangeId::MountingKit {
            pins.push((price, change.minutes));
            continue;
        }
        // A setting that is set to another value is made again.
        let set_to = change.id.is_setting().then(|| format!("{:?} {:?}", change.id, change.settings));
        parts.insert((change.part.clone(), set_to), (price, change.minutes));
    }
    let apart = parts.values().chain(&pins).fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
    assert_eq!((minor(&machine.total), machine.total.minutes), apart);
    let columns: u64 = all.iter().map(|pairing| minor(&Total::of(pairing))).sum();
    assert!(minor(&machine.total) * 2 < columns, "{} of {columns}", minor(&machine.total));
    // No less than the dearest of them.
    assert!(all.iter().all(|pairing| minor(&Total::of(pairing)) <= minor(&machine.total)));
}

#[test]
fn invariant_there_is_no_sum_over_machines() {
    let table = demo();
    let (one, other) = (judged(&table, "orrin-e78", "thistlecut-r90"), judged(&table, "quern-q56", "thistlecut-r90"));
    assert!(machine_totals(&[&one, &other]).is_empty());
    // One for each machine with several, and what does not fit adds nothing.
    let (more, no) = (judged(&table, "orrin-e78", "pebblegate-k70"), judged(&table, "orrin-e78", "thistlecut-r130"));
    assert!(no.verdict != Verdict::FitsAfterChanges, "{:?}", no.verdict);
    let totals = machine_totals(&[&one, &other, &no, &more]);
    assert_eq!(totals.iter().map(|total| total.sets).collect::<Vec<_>>(), [2]);
}

#[test]
fn a_setting_counts_for_each_value_and_what_the_attachment_carries_for_each_attachment() {
    let table = demo();
    let one = judged(&table, "orrin-e78", "thistlecut-r90");
    let setting = one.changes.iter().find(|change| change.id == ChangeId::MachineFlowSetting).expect("a flow is set");
    let mut other = one.clone();
    // All the same: nothing comes on top.
    assert_eq!(machine_totals(&[&one, &other])[0].total, Total::of(&one));
    let changed = other.changes.iter_mut().find(|change| change.id == ChangeId::MachineFlowSetting).expect("it is set");
    let flow = changed.settings.iter_mut().find(|made| made.name == SettingId::Flow).expect("its flow");
    flow.value = times(flow.value, 1.25);
    let both = machine_totals(&[&one, &other]).remove(0);
    assert_eq!(both.total.minutes, one.cost.minutes + setting.minutes);
    assert!(!both.shared.contains(&ChangeId::MachineFlowSetting), "{both:?}");
    // A valve whose value differs is bought once and set anew.
    let valve = other.changes.iter_mut().find(|change| change.id == ChangeId::IsolateTool).expect("a tool is shut off");
    let relief = valve.settings.iter_mut().find(|made| made.name == SettingId::ToolRelief).expect("its relief");
    relief.value = times(relief.value, 0.9);
    let both = machine_totals(&[&one, &other]).remove(0);
    assert_eq!(both.set_anew, [ChangeId::IsolateTool]);
    assert_eq!(both.total.minutes, one.cost.minutes + setting.minutes);
    // The attachment's own parts go with it.
    let (pins, more) = (judged(&table, "orrin-e78", "wrackline-f160"), judged(&table, "orrin-e78", "wrackline-n200"));
    let kits = |pairing: &Pairing| pairing.changes.iter().any(|change| change.id == ChangeId::MountingKit);
    assert!(kits(&pins) && kits(&more));
    assert!(!machine_totals(&[&pins, &more])[0].shared.contains(&ChangeId::MountingKit));
}
