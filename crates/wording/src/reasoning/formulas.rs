//! The relations: each with its symbols, where it holds, and its source as it stands beside it in `circuit`.

use super::formula_text::FormulaText;
use super::settings;
use explain::Formula;

const PRACTICE: &str = "Common practice, no published source.";
const TEXTBOOK: &str = "Textbook statics and continuity.";
const COMPARED: &str = "Both are compared at their ends that are the worse.";

/// A relation.
#[expect(clippy::too_many_lines, reason = "a list, one entry a relation")]
pub fn formula(formula: Formula) -> FormulaText {
    let text = |line, symbols, holds, source| FormulaText { line, symbols, holds, source };
    match formula {
        Formula::PumpFlow => text(
            "Q(p) = min( Q_set, (Q_max − leak·p/p_rated)·κ(p), P_limit/p )",
            "Q_set: flow to which something limits it; Q_max: flow of the pumps without load; leak: what they lose with pressure; \
             κ: what their cut-off leaves; P_limit: hydraulic power that they may give",
            "Leakage grows in a straight line with pressure; a limiter is ideal. A load-sensing pump stands its margin above the load.",
            "Q·p = const is the textbook's ideal of a torque limiter; leakage and cut-off band are common practice, no published \
             source.",
        ),
        Formula::MostFlow => text(
            "Q_most = Q_reachable · n_high idle/n_work, or what a sealed regulator holds",
            "Q_reachable: the setting turned up as far as goes without tools; n: speed of the engine",
            "No leakage, no losses and no load are credited. A load-sensing spool holds its flow whatever the engine does.",
            PRACTICE,
        ),
        Formula::Balance => text(
            "Q(p) − Q = 0 at p = Δp_motor + Δp_supply(Q) + p_back(Q)",
            "Q: flow through the attachment; Δp_motor: pressure difference over its motor; Δp_supply, p_back: what the lines take",
            "Steady flow, functions idle, less what the relief passes. It falls strictly with Q, so that there is one such flow or none.",
            TEXTBOOK,
        ),
        Formula::Relief => text(
            "p_opens = p_full·(1 − override)",
            "p_full: pressure at which all flow goes over the relief; override: the share below it at which it begins to open",
            "A steep line between both. A load-sensing pump ends its whole flow its margin before its cut-off, if that is less.",
            PRACTICE,
        ),
        Formula::HeldFast => text(
            "p = the lower of relief and cut-off, at Q = 0",
            "p: pressure at pump and inlet with the attachment stalled",
            "Nothing flows through the attachment, so that the lines to it take nothing.",
            TEXTBOOK,
        ),
        Formula::LineLoss => text(
            "Δp = f·(L/D)·ρ·v²/2; fittings K·ρ·v²/2; f = 64/Re up to Re 2300, 1/√f = −1.8·log₁₀((ε/3.7D)^1.11 + 6.9/Re) from 4000",
            "L, D: length and bore; ρ: density of the oil; v: velocity; ε: roughness, 0.01 mm; Re = v·D/ν; K: loss of a coupling",
            "Straight between both Re. At worst each line loses the most, or the least, that it does anywhere in the oil's span, and the \
             filter stands on its bypass.",
            "Hagen–Poiseuille; Haaland (1983), not compared with the paper; roughness and K are common practice, no published source.",
        ),
        Formula::Viscosity => text(
            "log₁₀ log₁₀(ν + 0.7) = A − B·log₁₀ T",
            "ν: kinematic viscosity in mm²/s; T: temperature in kelvin; A, B: from two points of the oil",
            "From 2 mm²/s upwards, above 0 °C; likely figures with oil at work, worst ones from warm enough to the hottest.",
            "ASTM D341; grades by ISO 3448.",
        ),
        Formula::RotorSpeed => text(
            "n = Q·η_v·i/V",
            "Q: flow through the motor; η_v: volumetric efficiency; i: turns of the rotor for each of the motor; V: displacement",
            "At worst η_v = 1 and the most flow that can come: nothing is credited that is not stated.",
            "Definition of displacement and efficiency (textbook).",
        ),
        Formula::PressureLeft => text(
            "Δp_left = p_whole − Δp_supply(Q) − p_back(Q)",
            "p_whole: pressure up to which the whole flow is given; Q: the attachment's least flow",
            "At worst the relief stands at its low end and the lines take the most. It must be no less than the motor's need at work.",
            TEXTBOOK,
        ),
        Formula::ReliefAsked => text(
            "p_relief ≥ p_asked·(1 − 0.05)",
            "p_relief: the setting as it is; p_asked: the setting that the attachment's maker asks for",
            "A gauge and a shop's step allow for a twentieth less.",
            PRACTICE,
        ),
        Formula::DeadPressure => text(
            "p_stalled = p_relief at its high end ≤ p_greatest",
            "p_relief: full-flow pressure of the lowest relief in the way; p_greatest: what the attachment allows",
            "Without flow nothing is lost on the way. Pressure may hurt people: nothing assumed passes.",
            TEXTBOOK,
        ),
        Formula::HydraulicPower => text(
            "P = Δp·Q",
            "Δp: pressure difference over the motor at work; Q: flow at work. Where the maker names no power: Δp times the least flow",
            "Hydraulic power into the motor, before its own losses.",
            "Definition (textbook).",
        ),
        Formula::EngineShare => text(
            "p·Q_least/η ≤ s·P_engine",
            "p: pressure that the least flow needs at the pumps; η: efficiency of the pumps; s: share of the net power that fan, \
             alternator and driving leave",
            "With the attachment's least flow: more is welcome, not needed.",
            PRACTICE,
        ),
        Formula::ShaftPower => text(
            "P = Δp·Q·η_v·η_hm",
            "Δp: pressure difference over the motor; Q: flow through it; η_v, η_hm: its efficiencies",
            "At likely figures.",
            "Definition of the efficiencies (textbook).",
        ),
        Formula::Heat => text(
            "H = p·Q_pumped/η − P_shaft − work of the functions",
            "p, Q_pumped: pressure and flow at the pumps; η: their efficiency; P_shaft: power at the motor's shaft",
            "Every watt that leaves by no shaft warms the oil; it is booked place by place.",
            "First law; efficiencies where they are not stated are common practice, no published source.",
        ),
        Formula::BackPressure => text(
            "p_back = p_tank + Σ Δp(lines, couplings, valve, filter) at Q_free",
            "p_tank: gauge pressure in the tank; Q_free: flow with the motor turning freely, where it is greatest",
            "At worst engine at high idle, the setting turned up, the filter on its bypass, and no credit for the motor's leakage.",
            "Textbook statics; a dirty filter and the valve's loss are common practice, no published source.",
        ),
        Formula::PulsatingReturn => text(
            "p_back = p_tank + Σ Δp_laminar(Q) + F·Σ Δp_squared(Q)",
            "F: mean of the flow's square over the square of its mean",
            "For a breaker, whose return pulsates: its mean pressure.",
            PRACTICE,
        ),
        Formula::CasePressure => text(
            "p_case = p_tank + Δp_line(Q_c, ν) + Δp_coupling",
            "Q_c: what leaks into the housing; ν: viscosity of the oil in the line",
            "Tank and motor are taken as level; the motor is judged as worn, new at likely figures. Drained inside, the seal gets p_back.",
            "Textbook statics; wear is common practice, no published source.",
        ),
        Formula::Leakage => text(
            "Q_c(ν) = Q_c,work·μ_work/μ",
            "Q_c,work: leakage with oil at work; μ: dynamic viscosity",
            "Flow through gaps is laminar; in thinner oil no more is taken than at work.",
            "Textbook (laminar gaps); the share that leaks is common practice, no published source.",
        ),
        Formula::SeesRelief => text(
            "p_relief at its high end ≤ p_rated",
            "p_relief: full-flow pressure of the relief; p_rated: what the part is rated for, as stated or by its standard and size",
            "The weakest part counts; no loss on the way is credited. Pressure may hurt people: nothing assumed passes.",
            "Hoses: EN 853:2015, EN 856:2015 and SAE J517; not compared with their text. Couplings: ISO 14541 as a maker of such couplings reproduces it; \
             ISO 16028, not compared with its text.",
        ),
        Formula::CouplingFlow => text(
            "Q_work ≤ Q_rated",
            "Q_work: likely flow at work; Q_rated: what the coupling is rated for, as stated or by its standard and size",
            "Its loss is in the circuit already; what is left is wear.",
            "ISO 14541 as a maker of such couplings reproduces it; ISO 16028 and ISO 7241, not compared with their text.",
        ),
        Formula::ReliefGap => text(
            "|p_1 − p_2| ≥ gap",
            "p_1, p_2: two pressure settings; gap: 15 bar, and of a main relief over a cut-off no less than 5 % of it; a shock \
             relief stands 20 bar above the main relief",
            "At the figures as set: one gauge sets both. The direction goes by what the relief is for.",
            PRACTICE,
        ),
        Formula::Torque => text(
            "T = p_relief·V/(2π·i)",
            "p_relief: relief at its high end; V: displacement; i: turns of the rotor for each of the motor",
            "Stalled, without losses and without any efficiency: they could only take off.",
            "Definition of displacement (textbook).",
        ),
        Formula::LoaderLift => text(
            "m·(a + e) ≤ m_rated·(a + e_bucket)",
            "m: attachment, coupler and what it holds; a: tipping axis to coupler; e: coupler to the attachment's centre of gravity; \
             e_bucket: the same of the bucket",
            "Moments about the tipping axis, firm and level ground, slow work.",
            "Statics; rated operating capacity by ISO 14397-1, 50 % of the tipping load on wheels and 35 % on crawlers (secondary; not \
             compared with its text).",
        ),
        Formula::ExcavatorLift => text(
            "m ≤ m_chart·min( (r − b)/(r − b + e), (r − c)/(r − c + e) )",
            "r: slew axis to pin; b: to the tipping edge; c: to the boom's foot; e: how far out the centre of gravity hangs",
            "At every point of the chart that the table names, over the side at the greatest reach among them; the chart holds 75 % of tipping load and 87 % of lift already.",
            "Statics; chart by ISO 10567 (secondary).",
        ),
        Formula::CouplerLoad => text(
            "m_attachment + m_held ≤ m_coupler",
            "m_coupler: what the coupler is made for",
            "And its lock must hold without its engaging force and show that it has locked.",
            "ISO 13031 (secondary).",
        ),
        Formula::Clearance => text(
            "r_swing ≤ r_free",
            "r_swing: from pin to the attachment's farthest point; r_free: from pin to boom, cab and window",
            COMPARED,
            PRACTICE,
        ),
        Formula::MassWindow => text(
            "m_least ≤ m_machine ≤ m_greatest",
            "m_machine: operating mass; m_least, m_greatest: between which the attachment's maker asks for it",
            COMPARED,
            PRACTICE,
        ),
        Formula::HeatBalance => text(
            "H(T) = UA_cooler·(T − T_air) + UA_tank·(T − T_ambient)",
            "H: heat into the oil over a typical day of such work; UA: what carries it away per kelvin; T: where the oil settles",
            "A balance of heat is good to a third either way: the worst value is that of a third more heat, or less.",
            "First law; duty, cooler and band are common practice, no published source.",
        ),
        Formula::RunDown => text(
            "p_in = p_tank − ρ·g·h + p_preload − Δp_line(Q_c) − Δp_check(Q)",
            "h: motor above the oil in the tank; p_preload: what a check keeps in a return by the valve; Q_c: leakage that must \
             follow; Δp_check: the check valve's loss",
            "No less than −0.2 bar: below it the motor draws air past its seal.",
            PRACTICE,
        ),
        Formula::FlowLeft => text(
            "Q_left = min( Q_pumps(p) − Q_head, (P_limit − p·Q_head)/p_functions )",
            "Q_pumps: flow of the pumps that share; p_functions: pressure of the functions",
            "At likely figures. Behind a divider each pump's priority port is served first.",
            "Balance of flow and power; what functions need is common practice, no published source.",
        ),
        Formula::CreepWindow => text(
            "v_least ≤ v_machine ≤ v_greatest",
            "v_machine: travel speed at full engine speed; v_least, v_greatest: at which the attachment works",
            "Shows in the first metres and hurts nobody.",
            PRACTICE,
        ),
        Formula::WorkWindow => text(
            "d_named ≤ d_greatest",
            "d_named: thickness that was named; d_greatest: what the attachment's maker names for that material",
            "As its maker names it.",
            PRACTICE,
        ),
        Formula::SetFlow => settings::SET_FLOW,
        Formula::SetPressure => settings::SET_PRESSURE,
        Formula::SetSpeed => settings::SET_SPEED,
        Formula::SetWarmth => settings::SET_WARMTH,
        Formula::SetToolRelief => settings::SET_TOOL_RELIEF,
        Formula::SetReturnRelief => settings::SET_RETURN_RELIEF,
        Formula::PinsBridged => settings::PINS_BRIDGED,
        Formula::CheapestPart => settings::CHEAPEST_PART,
        Formula::ShareOfPumps => settings::SHARE_OF_PUMPS,
        Formula::ChangeCost => settings::CHANGE_COST,
        Formula::SetCost => settings::SET_COST,
        Formula::Rule => text("A rule decides, not a figure.", "", "", PRACTICE),
    }
}
