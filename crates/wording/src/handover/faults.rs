//! What may be wrong, in words: the faults, what speaks for and against them, what to do next.

use crate::reasons::list;
use crate::{Line, Section, Words, small};
use handover::{Diagnosis, Fault, Finding, LookAt, Measurement, NAMED, Next, Sign, Suspect};

impl Words<'_> {
    /// What a fault is called.
    pub fn fault_name(&self, fault: Fault) -> &'static str {
        match fault {
            Fault::WornPump => "Worn pump",
            Fault::PowerLimitLow => "Power mode or power limiter too low",
            Fault::EngineWeak => "Engine weak under load",
            Fault::LowThrottle => "Auto-idle on, or throttle not at its end",
            Fault::ReliefLow => "Relief set too low",
            Fault::ReliefHigh => "Relief set too high",
            Fault::ReliefLeaking => "Relief leaking at its seat",
            Fault::CutOffLow => "Pump cuts off too early",
            Fault::ReliefUnderCutOff => "Relief opens before the pump cuts off",
            Fault::ChangeoverOnSpool => "Changeover valve left on the spool",
            Fault::ReturnHalfShut => "Return coupling or valve half shut",
            Fault::SupplyHalfShut => "Supply coupling half shut",
            Fault::ReturnHoseSmall => "Return hose too small or too long",
            Fault::FilterBlocked => "Return filter blocked, on its bypass",
            Fault::CaseLinePinched => "Case drain pinched or not open",
            Fault::WornMotor => "Worn motor",
            Fault::RunDownLeaking => "Anti-cavitation check valve leaking",
            Fault::SetFlowLow => "Flow set too low",
            Fault::PriorityStuck => "Divider stuck: the attachment has no priority",
            Fault::PumpNotJoined => "One of the pumps does not join in",
            Fault::NoDemandSignal => "No demand signal reaches the pump",
            Fault::IsolatingValveOpen => "Isolating valve of the other tool open",
            Fault::SetFlowHigh => "Flow set too high",
            Fault::WrongMotor => "Motor of another size than stated",
            Fault::WrongPulley => "Pulley or gear of another ratio than stated",
            Fault::BeltSlips => "Belt slips",
            Fault::CoolerBlocked => "Cooler blocked or passed by",
        }
    }

    /// What to look at, listen to or try, as something to do.
    pub fn look_at(&self, at: LookAt) -> &'static str {
        match at {
            LookAt::PumpCaseFlow => {
                "Measure what leaks from the pump's own housing by a flow meter in its drain, fitted engine off: more than a tenth of its flow means \
                 worn."
            }
            LookAt::PowerMode => "Look at power mode and eco switch. The engine's speed holds under load.",
            LookAt::EngineUnderLoad => "Watch the engine's speed under load: it falls.",
            LookAt::IdleSwitch => "Look at the auto-idle switch and at the throttle's stop.",
            LookAt::ReliefBody => {
                "Oil over the relief heats its body: straight after work, engine off and locked, hold an infrared thermometer on the relief and \
                 on the block around it. Set it again with a gauge."
            }
            LookAt::ReliefSetting => "See what the relief is marked with, and set it again with a gauge.",
            LookAt::ReliefPort => {
                "Engine off, pressure out: exchange the relief's cartridge, or have it tested on a bench, and read the flow again. Its port is never \
                 blocked: nothing else limits the pressure."
            }
            LookAt::QuietAtStall => {
                "Listen at stall, from the cab, for a few seconds at the most: quiet, nothing goes over the relief."
            }
            LookAt::WhineAtStall => {
                "Listen at stall, from the cab, for a few seconds at the most: a whine, oil goes over the relief."
            }
            LookAt::DirectLine => {
                "Straight after work, engine off and rotor at rest, hold an infrared thermometer on the direct line: as cool as the air, nothing \
                 went through it."
            }
            LookAt::ReturnCouplings => {
                "Stop. Engine off, pressure out: look at every coupling and valve of the return."
            }
            LookAt::SupplyCouplings => {
                "Engine off, pressure out: look at the supply's couplings. Compare the pressures at pump and inlet."
            }
            LookAt::HosePrint => {
                "Read the bore in the print on the return hose. The back pressure falls as the oil warms."
            }
            LookAt::FilterIndicator => "Look at the filter's indicator; compare the pressures before and behind it.",
            LookAt::CaseLine => {
                "Stop. Engine off, pressure out: follow the case drain from the motor to the tank. The seal goes first."
            }
            LookAt::MotorWear => "Compare the case flow with that of a new motor.",
            LookAt::HeadValve => {
                "Straight after work, engine off and rotor at rest, hold an infrared thermometer on the valve at the attachment: hotter than its \
                 lines while the case flow is normal, it leaks."
            }
            LookAt::FlowSetting => {
                "Read the flow setting or the divider's set screw. The functions are faster or slower than computed."
            }
            LookAt::WorkAFunction => "Move a function: the attachment dips.",
            LookAt::TracksPull => "Travel straight with the attachment on: the machine pulls aside.",
            LookAt::AnotherLever => "Move another lever a little: it gets better.",
            LookAt::OtherTool => "Watch the other tool: it creeps.",
            LookAt::MotorPlate => {
                "Stop. Engine off, pressure out: read the motor's size off its plate. A tachometer at its shaft, fixed before the start and read from \
                 the cab, tells too."
            }
            LookAt::Pulleys => {
                "Stop. Engine off and locked: count teeth or measure the pulleys. Tachometers at motor and rotor, fixed before the start and read \
                 from the cab, tell too."
            }
            LookAt::Belt => {
                "Engine off and locked: look at the belt's tension. Two tachometers at motor and rotor, fixed before the start and read from the cab, \
                 tell too."
            }
            LookAt::Cooler => {
                "Engine off and locked: look at the cooler's fins and fan. Straight after work an infrared thermometer tells which of its lines \
                 is hot."
            }
        }
    }

    /// The heading over the faults that are named.
    pub fn what_may_be_wrong(&self) -> &'static str {
        "What may be wrong"
    }

    /// What is found, in a sentence or two; `off` says whether any reading by itself is not as computed.
    pub fn finding(&self, diagnosis: &Diagnosis, off: bool) -> String {
        match &diagnosis.finding {
            Finding::Suspects { .. } if !off => self.leaning().to_owned(),
            Finding::TooFew { first } if first.is_empty() => {
                "Nothing can be said of faults: what is computed does not suffice.".to_owned()
            }
            Finding::TooFew { first } => {
                format!(
                    "Too little is read to say whether something is wrong. Best read next: {}.",
                    self.measured(first)
                )
            }
            Finding::NothingWrong { unseen } if unseen.is_empty() => {
                "Nothing is wrong as far as the readings show it.".to_owned()
            }
            Finding::NothingWrong { unseen } => {
                format!(
                    "Nothing is wrong as far as the readings show it. They would not show: {}.",
                    self.faults_named(unseen)
                )
            }
            Finding::Suspects { explained: true, suspects } => match suspects.len().min(NAMED) {
                1 => "One fault explains what was read:".to_owned(),
                several => format!(
                    "These {several} explain best what was read, the likeliest first, what is dangerous before all:"
                ),
            },
            Finding::Suspects { suspects, .. } if suspects.is_empty() => {
                "No fault that is known here explains what was read. Read again what is off.".to_owned()
            }
            Finding::Suspects { explained: false, .. } => {
                "No fault that is known here explains all that was read. Read again what is off. The nearest:"
                    .to_owned()
            }
        }
    }

    /// That readings which are each as computed point to something together.
    pub fn leaning(&self) -> &'static str {
        "Each reading by itself is as computed. Together they lean towards a fault; look before it goes to work:"
    }

    /// That the readings point to a fault, beside a state in which each of them is as computed.
    pub fn leans_all_the_same(&self) -> &'static str {
        "Together the readings lean towards a fault all the same: see below what may be wrong."
    }

    /// What was left out, as a sentence; nothing where all was used.
    pub fn left_out(&self, diagnosis: &Diagnosis) -> Option<String> {
        let left_out = &diagnosis.left_out;
        (!left_out.is_empty()).then(|| format!("Nothing could be computed for: {}.", self.measured(left_out)))
    }

    /// How likely a suspect is among all faults; nothing where none of them explains what was read.
    pub fn suspicion(&self, suspect: &Suspect, explained: bool) -> Option<String> {
        let percent = suspect.score * 100.0;
        explained.then(|| {
            if percent < 1.0 {
                "hardly likely".to_owned()
            } else {
                format!("{} % likely among these faults", self.numbers.decimal(percent.min(99.0), 0))
            }
        })
    }

    /// A reading that speaks for or against a fault.
    pub fn sign(&self, sign: &Sign) -> String {
        let (read, healthy) = (self.amount(sign.read), self.amount(sign.healthy));
        let with = self.from_to(sign.with_fault.low, sign.with_fault.high);
        format!("{}: read {read}; sound, it would be {healthy}; with this fault {with}", self.measurement(sign.what))
    }

    /// What to do next about a suspect.
    pub fn next_step(&self, next: Next) -> String {
        match next {
            Next::Measure { what } => format!("Read next, as it parts them best: {}.", small(self.measurement(what))),
            Next::Look { at } => self.look_at(at).to_owned(),
        }
    }

    /// Which faults these readings do not tell from a suspect.
    pub fn alike(&self, suspect: &Suspect) -> Option<String> {
        let alike = &suspect.alike;
        (!alike.is_empty()).then(|| format!("By these readings it cannot be told from: {}.", self.faults_named(alike)))
    }

    /// The faults named, as a section of the paper.
    pub(super) fn faults_of_paper(&self, diagnosis: &Diagnosis, off: bool) -> Section {
        let mut lines = vec![Line::new(self.finding(diagnosis, off), self.left_out(diagnosis).unwrap_or_default())];
        if let Finding::Suspects { suspects, explained } = &diagnosis.finding {
            lines.extend(suspects.iter().take(NAMED).map(|suspect| self.suspect_of_paper(suspect, *explained, off)));
        }
        Section { title: self.what_may_be_wrong().to_owned(), in_order: false, lines, total: None }
    }

    fn suspect_of_paper(&self, suspect: &Suspect, explained: bool, off: bool) -> Line {
        let signs = |signs: &[Sign]| signs.iter().map(|sign| self.sign(sign)).collect::<Vec<_>>().join("; ");
        let mut said = Vec::new();
        if suspect.stop && off {
            said.push("Stop first.".to_owned());
        }
        if !suspect.speaks_for.is_empty() {
            said.push(format!("For it: {}.", signs(&suspect.speaks_for)));
        }
        if !suspect.speaks_against.is_empty() {
            said.push(format!("Against it: {}.", signs(&suspect.speaks_against)));
        }
        said.extend(self.alike(suspect));
        said.push(self.next_step(suspect.next));
        Line::with(
            self.fault_name(suspect.fault),
            said.join(" "),
            self.suspicion(suspect, explained).unwrap_or_default(),
        )
    }

    fn measured(&self, all: &[Measurement]) -> String {
        let named: Vec<_> = all.iter().map(|what| format!("“{}”", self.measurement(*what))).collect();
        list(&named.iter().map(String::as_str).collect::<Vec<_>>())
    }

    fn faults_named(&self, all: &[Fault]) -> String {
        let named: Vec<_> = all.iter().map(|fault| small(self.fault_name(*fault))).collect();
        list(&named.iter().map(String::as_str).collect::<Vec<_>>())
    }
}
