//! What a person types in a form rather than writes in a table: a phone's keypad may offer a comma and nothing else.

/// A text with each decimal comma that can be nothing else as a point. A comma before just three digits stays, as it sets off
/// thousands for one reader and decimals for another; so does one in a number with another comma or a point.
///
/// ```
/// use quantity::text::with_points;
/// assert_eq!(with_points("9,5 bar"), "9.5 bar");
/// assert_eq!(with_points("1,234 bar"), "1,234 bar");
/// ```
pub fn with_points(text: &str) -> String {
    let signs: Vec<char> = text.chars().collect();
    let read = |(place, sign): (usize, &char)| if *sign == ',' && is_decimal(&signs, place) { '.' } else { *sign };
    signs.iter().enumerate().map(read).collect()
}

/// Whether a comma can be nothing but a decimal one.
fn is_decimal(signs: &[char], comma: usize) -> bool {
    let is_digit = |place: usize| signs.get(place).is_some_and(char::is_ascii_digit);
    let before = (0..comma).rev().take_while(|&place| is_digit(place)).count();
    let after = (comma + 1..signs.len()).take_while(|&place| is_digit(place)).count();
    let (begin, end) = (comma - before, comma + 1 + after);
    // Two points are a range.
    let goes_on = |sign: Option<&char>, beyond: bool| match sign {
        Some(',') => true,
        Some('.' | '\'' | '’' | '_') => beyond,
        _ => false,
    };
    let behind = goes_on(signs.get(end), is_digit(end + 1));
    let in_front = begin > 0 && goes_on(signs.get(begin - 1), begin > 1 && is_digit(begin - 2));
    let thousands = after == 3 && (1..=3).contains(&before) && signs[begin] != '0';
    after > 0 && !behind && !in_front && !thousands
}

/// What a number with a comma, or with spaces between its digits, likely means: each reading that is taken without a word.
pub fn likely_meant(typed: &str, is_taken: impl Fn(&str) -> bool) -> Vec<String> {
    let digits = |c: Option<&char>| c.is_some_and(char::is_ascii_digit);
    let letters: Vec<char> = typed.chars().collect();
    // A sign between two digits: a decimal point, or nothing.
    let between = |index: usize| digits(letters.get(index.wrapping_sub(1))) && digits(letters.get(index + 1));
    let read_as = |point: &str| {
        let piece = |(index, c): (usize, &char)| match c {
            ',' if between(index) => point.to_owned(),
            ' ' | '\u{a0}' | '\u{202f}' if between(index) => String::new(),
            c => c.to_string(),
        };
        letters.iter().enumerate().map(piece).collect::<String>()
    };
    let mut readings = vec![read_as("."), read_as("")];
    readings.dedup();
    readings.retain(|text| is_taken(text));
    readings
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_comma_that_can_be_nothing_else_is_a_decimal_one() {
        for (typed, read) in [
            ("9,5", "9.5"),
            ("9,5 bar", "9.5 bar"),
            ("-4,5 °C", "-4.5 °C"),
            (",5 bar", ".5 bar"),
            ("0,125 L", "0.125 L"),
            ("12,50 EUR", "12.50 EUR"),
            ("1234,567 kg", "1234.567 kg"),
            ("1,2345 kg", "1.2345 kg"),
            ("180,5..260,5 bar", "180.5..260.5 bar"),
            ("9,5 ±0,5 bar", "9.5 ±0.5 bar"),
            ("9,5 bar (measured)", "9.5 bar (measured)"),
            ("9.5 bar", "9.5 bar"),
        ] {
            assert_eq!(with_points(typed), read, "{typed}");
        }
    }

    #[test]
    fn what_may_set_off_thousands_stays_to_be_asked() {
        for typed in
            ["1,234", "1,234 kg", "12,345 kg", "1,234,567", "1,234.5", "1.234,5", "1,5,5", "9,", ",", "a,b", "1'234,5"]
        {
            assert_eq!(with_points(typed), typed);
        }
    }

    #[test]
    fn both_readings_are_offered_where_both_are_taken() {
        assert_eq!(likely_meant("1,234 kg", |_| true), ["1.234 kg", "1234 kg"]);
        assert_eq!(likely_meant("1 234 kg", |_| true), ["1234 kg"]);
        assert_eq!(likely_meant("1,234 kg", |text| text.contains('.')), ["1.234 kg"]);
    }
}
