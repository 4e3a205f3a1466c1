//! What stands in rules and relations with a unit, for a reader of US units.

/// A text of a rule or relation, and the same in US units.
const BOTH: [(&str, &str); 6] = [
    (
        "One open standard on both, or pins no more than 0.5 mm apart, a gap wider than the stick by no more than shims take up, \
             and the same pin centres. Other pins need bushes, shims or a bracket.",
        "One open standard on both, or pins no more than 0.02 in apart, a gap wider than the stick by no more than shims take up, \
             and the same pin centres. Other pins need bushes, shims or a bracket.",
    ),
    (
        "Kind, grade and cleanliness are what the attachment demands; what names nothing takes what hydraulic machines have. \
             At the hottest that it settles to it has 10 mm²/s at least; no warm-up goes beyond 30 °C; on the coldest day that is asked \
             for it has 1000 mm²/s at most.",
        "Kind, grade and cleanliness are what the attachment demands; what names nothing takes what hydraulic machines have. \
             At the hottest that it settles to it has 10 cSt at least; no warm-up goes beyond 86 °F; on the coldest day that is asked \
             for it has 1000 cSt at most.",
    ),
    (
        "Two pressure settings within 15 bar of each other open together; which way the gap goes depends on what the relief is for.",
        "Two pressure settings within 218 psi of each other open together; which way the gap goes depends on what the relief is for.",
    ),
    (
        "L, D: length and bore; ρ: density of the oil; v: velocity; ε: roughness, 0.01 mm; Re = v·D/ν; K: loss of a coupling",
        "L, D: length and bore; ρ: density of the oil; v: velocity; ε: roughness, 0.0004 in; Re = v·D/ν; K: loss of a coupling",
    ),
    (
        "p_1, p_2: two pressure settings; gap: 15 bar, and of a main relief over a cut-off no less than 5 % of it; a shock \
             relief stands 20 bar above the main relief",
        "p_1, p_2: two pressure settings; gap: 218 psi, and of a main relief over a cut-off no less than 5 % of it; a shock \
             relief stands 290 psi above the main relief",
    ),
    (
        "No less than −0.2 bar: below it the motor draws air past its seal.",
        "No less than −2.9 psi: below it the motor draws air past its seal.",
    ),
];

/// The text in US units; one without a unit as it is. A standard's own unit (ASTM D341 is written in mm²/s and kelvin) stays.
pub fn us(text: &'static str) -> &'static str {
    BOTH.iter().find(|(metric, _)| *metric == text).map_or(text, |(_, us)| us)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reasoning::{FormulaText, formulas};
    use explain::Formula;
    use fit::CheckId;
    use quantity::Named;

    #[test]
    fn every_rule_and_relation_with_a_unit_is_there() {
        let texts = Formula::ALL
            .iter()
            .map(|&formula| formulas::formula(formula))
            .chain(CheckId::ALL.iter().map(|&id| FormulaText::of_rule(id)));
        let texts: Vec<_> = texts.flat_map(|text| [text.line, text.symbols, text.holds]).collect();
        for (metric, _) in BOTH {
            assert!(texts.contains(&metric), "{metric}");
        }
        for text in texts.iter().filter(|text| !text.contains("kelvin") && !text.contains("From 2 mm²/s")) {
            let words = us(text).split([' ', ';', ',', '.', ':']);
            let foreign = words.filter(|word| ["bar", "mm", "mm²/s", "°C", "L/min", "kg"].contains(word));
            assert_eq!(foreign.count(), 0, "{}", us(text));
        }
    }
}
