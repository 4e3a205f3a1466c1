//! The known name that was probably meant.

/// Names longer than this, in bytes, are no slip of the pen.
const LONGEST: usize = 64;

/// The nearest of some names, when it is near enough to be what was meant.
pub fn nearest<'k>(name: &str, known: &[&'k str]) -> Option<&'k str> {
    if name.len() > LONGEST {
        return None;
    }
    let lower = name.to_lowercase();
    // What the screens and people call the two lists.
    let called = match lower.as_str() {
        "machines" | "machine" | "carrier" => "carriers",
        "attachments" | "attachment" | "tools" | "head" => "heads",
        _ => "",
    };
    if let Some(meant) = known.iter().find(|candidate| **candidate == called) {
        return Some(meant);
    }
    let letters = name.chars().count();
    let most = |candidate: &str| match candidate.len() {
        0..=4 => 1,
        5..=11 => 2,
        long => long / 4,
    };
    known
        .iter()
        .map(|&candidate| (strsim::osa_distance(&lower, candidate), candidate))
        .filter(|(distance, candidate)| *distance <= most(candidate) && *distance < letters)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn slips_are_recognised_and_other_names_are_not() {
        let known = ["id", "one", "two", "model", "operating_mass", "hydromechanical_efficiency"];
        assert_eq!(nearest("modle", &known), Some("model"));
        assert_eq!(nearest("Model", &known), Some("model"));
        assert_eq!(nearest("operatingMass", &known), Some("operating_mass"));
        assert_eq!(nearest("hydro_mechanical_efficency", &known), Some("hydromechanical_efficiency"));
        assert_eq!(nearest("tow", &known), Some("two"));
        assert_eq!(nearest("x", &known), None);
        assert_eq!(nearest("three", &known), None);
        assert_eq!(nearest(&"model".repeat(1000), &known), None);
    }
}
