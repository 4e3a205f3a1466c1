//! Each fault moves the readings as the trade expects it to, on a machine on which it shows.

use super::setups::Setup;
use crate::Fault::{self, *};
use crate::Measurement::{self as M, *};
use quantity::Named;

/// Which way a reading goes.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Way {
    Up,
    Down,
    /// By less than a hundredth.
    Same,
}
use Way::{Down, Same, Up};

const DIVIDED: usize = 0;
const NEGATIVE: usize = 1;
const SENSING: usize = 2;
const SMALL: usize = 5;
const BELT: usize = 6;
const INSTALLED: usize = 8;
const TOLD: usize = 9;

type Row = (Fault, usize, &'static [(M, Way)]);

const TABLE: &[Row] = &[
    (
        WornPump,
        SMALL,
        &[
            (FlowNearRelief, Down),
            (FlowWorking, Down),
            (FlowFree, Same),
            (Relief, Same),
            (OutletWorking, Down),
            (RotorWorking, Down),
            (OilAfter, Up),
        ],
    ),
    (PowerLimitLow, NEGATIVE, &[(FlowFree, Same), (FlowNearRelief, Down), (Relief, Same), (EngineWorking, Same)]),
    (
        EngineWeak,
        SMALL,
        &[
            (EngineFree, Same),
            (EngineWorking, Down),
            (FlowFree, Same),
            (FlowWorking, Down),
            (Relief, Same),
            (OutletWorking, Down),
            (RotorWorking, Down),
        ],
    ),
    (
        LowThrottle,
        SMALL,
        &[
            (EngineFree, Down),
            (EngineWorking, Down),
            (FlowFree, Down),
            (FlowWorking, Down),
            (RotorFree, Down),
            (Relief, Same),
        ],
    ),
    (ReliefLow, SENSING, &[(FlowFree, Same), (Relief, Down), (FlowNearRelief, Down), (OutletFree, Same)]),
    (ReliefHigh, SENSING, &[(FlowFree, Same), (Relief, Up)]),
    (
        ReliefLeaking,
        SMALL,
        &[(FlowFree, Down), (FlowWorking, Down), (FlowNearRelief, Down), (RotorWorking, Down), (OilAfter, Up)],
    ),
    (CutOffLow, SENSING, &[(FlowFree, Same), (Relief, Down), (FlowNearRelief, Down)]),
    (ReliefUnderCutOff, NEGATIVE, &[]),
    (
        ChangeoverOnSpool,
        INSTALLED,
        &[(FlowFree, Same), (FlowWorking, Same), (OutletFree, Up), (OutletWorking, Up), (Relief, Same)],
    ),
    (
        ReturnHalfShut,
        SENSING,
        &[
            (FlowFree, Same),
            (FlowWorking, Same),
            (OutletFree, Up),
            (OutletWorking, Up),
            (InletFree, Up),
            (PumpFree, Up),
            (OilAfter, Up),
        ],
    ),
    (
        SupplyHalfShut,
        SENSING,
        &[(PumpFree, Up), (OutletFree, Same), (InletFree, Same), (FlowFree, Same), (OilAfter, Up)],
    ),
    (ReturnHoseSmall, SENSING, &[(FlowWorking, Same), (OutletFree, Up), (OutletWorking, Up)]),
    (FilterBlocked, SENSING, &[(FlowWorking, Same), (OutletFree, Up), (OutletWorking, Up), (RotorFree, Same)]),
    (
        CaseLinePinched,
        SENSING,
        &[(FlowWorking, Same), (OutletWorking, Same), (CaseFree, Up), (CaseWorking, Up), (CaseFlow, Down)],
    ),
    (
        WornMotor,
        SENSING,
        &[
            (FlowFree, Same),
            (FlowWorking, Same),
            (OutletWorking, Down),
            (CaseWorking, Up),
            (CaseFlow, Up),
            (RotorWorking, Down),
            (OilAfter, Up),
        ],
    ),
    (
        RunDownLeaking,
        SENSING,
        &[(FlowWorking, Same), (OutletWorking, Same), (CaseWorking, Same), (RotorWorking, Down), (OilAfter, Up)],
    ),
    (
        SetFlowLow,
        DIVIDED,
        &[
            (FlowFree, Down),
            (FlowWorking, Down),
            (Relief, Same),
            (OutletWorking, Down),
            (RotorFree, Down),
            (RotorWorking, Down),
        ],
    ),
    (PriorityStuck, TOLD, &[(FlowFree, Same), (FlowWorking, Same), (FlowBusy, Down)]),
    (PumpNotJoined, DIVIDED, &[(FlowFree, Down), (FlowWorking, Down), (OutletWorking, Down), (RotorFree, Down)]),
    (NoDemandSignal, TOLD, &[(FlowFree, Down), (FlowWorking, Down), (RotorFree, Down)]),
    (IsolatingValveOpen, SENSING, &[(FlowFree, Same), (Relief, Down), (FlowNearRelief, Down)]),
    (
        SetFlowHigh,
        DIVIDED,
        &[(FlowFree, Up), (FlowWorking, Up), (OutletWorking, Up), (RotorFree, Up), (RotorWorking, Up)],
    ),
    (WrongMotor, SENSING, &[(FlowFree, Same), (RotorFree, Up), (RotorWorking, Up)]),
    (WrongPulley, BELT, &[(FlowFree, Same), (RotorFree, Up), (RotorWorking, Up), (MotorWorking, Same)]),
    (BeltSlips, BELT, &[(RotorWorking, Down), (InletWorking, Down), (MotorWorking, Same)]),
    (CoolerBlocked, SENSING, &[(FlowWorking, Same), (OutletWorking, Same), (OilAfter, Up)]),
];

#[test]
fn invariant_each_fault_moves_the_readings_as_the_trade_expects() {
    let setups = Setup::all();
    let mut wrong = Vec::new();
    for (fault, setup, ways) in TABLE {
        let setup = &setups[*setup];
        let severities = fault.severities();
        let severity = severities[severities.len() / 2];
        let (sound, faulty) =
            (setup.sound(), fault.on(&setup.site, &setup.site.rig, severity).reads(&setup.site.computed));
        if !fault.can_be(&setup.site) && !ways.is_empty() {
            wrong.push(format!("{} cannot be on {}", fault.name(), setup.name));
        }
        for (what, way) in *ways {
            let Some((was, is)) = sound.get(*what).zip(faulty.get(*what)) else {
                wrong.push(format!("{} {} is not known", fault.name(), what.name()));
                continue;
            };
            // A temperature moves by kelvins, not by shares.
            let moved = if *what == OilAfter { (is - was) / 50.0 } else { is / was - 1.0 };
            let found = if moved.abs() < 0.01 {
                Same
            } else if moved > 0.0 {
                Up
            } else {
                Down
            };
            if found != *way {
                wrong.push(format!(
                    "{} {} goes {found:?} by {:.3} instead of {way:?}",
                    fault.name(),
                    what.name(),
                    moved
                ));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
    // Each fault has its row.
    for fault in Fault::ALL {
        assert!(TABLE.iter().any(|(row, _, _)| row == fault), "{}", fault.name());
    }
}

#[test]
fn the_worse_the_severity_the_further_the_readings_go() {
    for setup in Setup::all() {
        for fault in setup.signatures.faults() {
            let sound = setup.sound();
            let far: Vec<f64> = fault
                .severities()
                .iter()
                .map(|&severity| {
                    setup
                        .signatures
                        .apart(&sound, &fault.on(&setup.site, &setup.site.rig, severity).reads(&setup.site.computed))
                })
                .collect();
            // Once it stands still it can go no further.
            assert!(far.windows(2).all(|pair| pair[1] >= pair[0] * 0.9), "{} {} {far:?}", setup.name, fault.name());
        }
    }
}
