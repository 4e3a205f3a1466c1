//! What several sets of changes take on one machine: what they share is fitted, and paid, once.

use fit::{CarrierName, Change, Pairing, Setting, Total, Verdict};
use table::{ChangeId, ExtraValve};

/// What it takes to make a machine ready for several attachments.
#[derive(Clone, Debug, PartialEq)]
pub struct MachineTotal {
    /// The machine.
    pub carrier: CarrierName,
    /// For how many attachments: two at the least.
    pub sets: usize,
    /// What all of it takes, what is shared counted once.
    pub total: Total,
    /// What is shared, in working order.
    pub shared: Vec<ChangeId>,
    /// What is shared and stands otherwise for one attachment than for another, so that it is set anew with each.
    pub set_anew: Vec<ChangeId>,
}

/// What the changes of several pairings take, a machine at a time in the order in which they come: of those that fit after changes, for
/// each machine with two of them or more. There is no sum over machines: a part bought once may serve several of them.
///
/// A change counts once on a machine where its part is the same; a mere setting does where its values are the same too; what is
/// fitted to the attachment, wholly or in part, counts for each.
pub fn machine_totals(pairings: &[&Pairing]) -> Vec<MachineTotal> {
    let fits: Vec<_> = pairings.iter().filter(|pairing| pairing.verdict == Verdict::FitsAfterChanges).collect();
    let mut machines: Vec<&CarrierName> = Vec::new();
    for pairing in &fits {
        if !machines.iter().any(|known| known.id == pairing.carrier.id) {
            machines.push(&pairing.carrier);
        }
    }
    let of = |carrier: &CarrierName| {
        let sets: Vec<_> = fits.iter().filter(|pairing| pairing.carrier.id == carrier.id).collect();
        let changes = sets.iter().flat_map(|pairing| &pairing.changes);
        let (mut made, mut shared, mut set_anew) = (Vec::<&Change>::new(), Vec::new(), Vec::new());
        for change in changes {
            match made.iter().find(|known| counts_once(known, change)) {
                None => made.push(change),
                Some(known) => {
                    shared.push(change.id);
                    set_anew.extend((values(known) != values(change)).then_some(change.id));
                }
            }
        }
        for list in [&mut shared, &mut set_anew] {
            list.sort_unstable();
            list.dedup();
        }
        let total = Total::of_changes(made.into_iter());
        MachineTotal { carrier: carrier.clone(), sets: sets.len(), total, shared, set_anew }
    };
    machines.into_iter().map(of).filter(|machine| machine.sets > 1).collect()
}

/// Whether a change that is made already serves for another one, too.
fn counts_once(made: &Change, other: &Change) -> bool {
    made.option == other.option && !is_on_attachment(other) && (!other.id.is_setting() || values(made) == values(other))
}

/// Whether a change is made to the attachment, wholly or in part.
fn is_on_attachment(change: &Change) -> bool {
    match change.id {
        // Of the couplings one half is the attachment's.
        ChangeId::OwnRelief | ChangeId::MakeUpCheck | ChangeId::MountingKit | ChangeId::Couplings => true,
        ChangeId::DoorCircuit => change.valve == Some(ExtraValve::HeadBlock),
        _ => false,
    }
}

/// What somebody sets on it, not what its size or the circuit makes of it.
fn values(change: &Change) -> Vec<&Setting> {
    change.settings.iter().filter(|setting| setting.name.is_set()).collect()
}
