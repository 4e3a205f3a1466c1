//! The one list of what stands otherwise with the attachment on than with it off. The setting sheet, switch-back and its
//! reverse all follow from it, so that they cannot drift apart. How each is set, and when, the steps say.

use super::Job;
use quantity::Amount;
use serde::Serialize;
use table::{ChangeId, ExtraValve, Mounting, ReturnRoute};

/// Something that stands one way with the attachment on and another way with it off.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct State {
    /// What.
    pub item: Item,
    /// How it stands with the attachment on.
    pub on: Position,
    /// How it stands with the attachment off.
    pub off: Position,
}

impl State {
    /// Whether anything is to be done about it.
    pub fn moves(&self) -> bool {
        self.on != self.off
    }
}

/// What stands one way or the other.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(tag = "what", rename_all = "kebab-case")]
pub enum Item {
    /// The attachment's plug.
    Plug,
    /// Pressure and return couplings.
    Couplings {
        /// Whether they are screwed.
        screwed: bool,
    },
    /// The case line's coupling and whatever cock is in the line.
    CaseLine,
    /// The attachment or the bucket at the arm.
    Mounting {
        /// Held by a coupler or plate rather than by pins driven in by hand.
        coupler: bool,
    },
    /// The valve that sends the return past the spool.
    Changeover,
    /// The valves in both lines of another tool.
    Isolation {
        /// Which tool.
        tool: String,
    },
    /// The other tool itself.
    Tool {
        /// Its name.
        tool: String,
    },
    /// The priority flow divider.
    Divider,
    /// The signal that tells the pump.
    Demand,
    /// The lock of the reverse direction.
    ReverseLock,
    /// The diverter in the main lines for the attachment's other functions.
    Diverter,
    /// Guards for the operator.
    Guards,
    /// The machine's own flow setting.
    FlowSetting,
    /// The relief of the circuit.
    Relief,
    /// The engine's speed at work.
    EngineSpeed,
}

/// How something stands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(tag = "position", rename_all = "kebab-case")]
pub enum Position {
    /// The attachment is mounted and locked.
    Attachment,
    /// The bucket is mounted and locked.
    Bucket,
    /// Connected.
    Connected,
    /// Parted, both ends capped.
    Capped,
    /// The return goes past the spool.
    Direct,
    /// The return goes through the spool.
    ThroughSpool,
    /// Shut.
    Shut,
    /// Open.
    Open,
    /// Stowed or pinned so that it cannot move.
    Stowed,
    /// Free to work.
    Free,
    /// In service.
    InService,
    /// Vented or switched off; never capped.
    Vented,
    /// Locked.
    Locked,
    /// Not locked.
    Unlocked,
    /// At rest, without current.
    AtRest,
    /// Fitted.
    Fitted,
    /// Set to a value.
    At {
        /// The value.
        value: Amount,
    },
    /// As it was found before the first change: nobody states the value.
    AsFound,
}

/// All states, in the order in which switch-back sets them.
pub(super) fn states(job: &Job) -> Vec<State> {
    let (before, after) = (job.before.circuit, job.after.circuit);
    let mut all = Vec::new();
    let mut put = |item: Item, on: Position, off: Position| {
        // Two tools of one name are one step for a fitter.
        if !all.iter().any(|known: &State| known.item == item) {
            all.push(State { item, on, off });
        }
    };
    if job.has_plug() {
        put(Item::Plug, Position::Connected, Position::Capped);
    }
    let screwed = after.coupling.as_ref().and_then(|coupling| coupling.screwed) == Some(true);
    put(Item::Couplings { screwed }, Position::Connected, Position::Capped);
    // Parted last and, the other way round, connected first: a motor that turns without it bursts its seal.
    if job.has_case_line() {
        put(Item::CaseLine, Position::Connected, Position::Capped);
    }
    put(Item::Mounting { coupler: held_by_coupler(job) }, Position::Attachment, Position::Bucket);
    let direct = Some(ReturnRoute::Direct);
    let tools = after.shared_with.as_deref().unwrap_or(&[]);
    if after.return_path.route == direct && (before.return_path.route != direct || !tools.is_empty()) {
        put(Item::Changeover, Position::Direct, Position::ThroughSpool);
    }
    for tool in tools.iter().filter(|tool| tool.isolated == Some(true)) {
        put(Item::Isolation { tool: tool.name.clone() }, Position::Shut, Position::Open);
        put(Item::Tool { tool: tool.name.clone() }, Position::Stowed, Position::Free);
    }
    if after.divider.is_some() {
        put(Item::Divider, Position::InService, Position::Vented);
    }
    if job.makes(ChangeId::DemandSignal) {
        put(Item::Demand, Position::InService, Position::AtRest);
    }
    if job.makes(ChangeId::ReverseLock) {
        put(Item::ReverseLock, Position::Locked, Position::Unlocked);
    }
    if after.extra_valve == Some(ExtraValve::Diverter) {
        put(Item::Diverter, Position::InService, Position::AtRest);
    }
    if job.makes(ChangeId::Guarding) {
        put(Item::Guards, Position::Fitted, Position::Fitted);
    }
    let value = |stated: Option<Amount>| stated.map_or(Position::AsFound, |value| Position::At { value });
    for value_set in [
        (ChangeId::MachineFlowSetting, Item::FlowSetting, after.flow.map(amount), before.flow.map(amount)),
        (ChangeId::ReliefSetting, Item::Relief, after.relief.map(amount), before.relief.map(amount)),
        (
            ChangeId::EngineSpeed,
            Item::EngineSpeed,
            job.after.carrier.engine.working_speed.map(amount),
            job.before.carrier.engine.working_speed.map(amount),
        ),
    ] {
        let (change, item, on, off) = value_set;
        if job.makes(change) {
            put(item, value(on), value(off));
        }
    }
    all
}

fn amount<Q: quantity::Quantity>(stated: quantity::Stated<Q>) -> Amount {
    Amount::of(stated.nominal)
}

/// A coupler, or a standard plate or hitch, takes the attachment up with the engine running; pins are driven in by hand.
fn held_by_coupler(job: &Job) -> bool {
    let carrier = job.after.carrier;
    let end = carrier.end_of(job.after.circuit);
    let here = carrier.mounting.iter().filter(|mounting| carrier.end_of_mounting(mounting) == end);
    let plate = here
        .filter_map(Mounting::standard)
        .any(|standard| job.head.mounting.iter().any(|other| other.standard() == Some(standard)));
    end.and_then(|end| carrier.coupler_at(end)).is_some_and(|coupler| coupler.fitted) || plate
}
