//! How wide a text may become. The core cannot measure: what is drawn must hold in any face that a system has, so that the widest
//! of the usual ones is taken.
//!
//! Advances of DejaVu Sans and DejaVu Sans Mono, from memory and rounded up: the widest of the faces that `style/app.css` names.

use quantity::string_enum;

string_enum! {
    /// In which face a text is set. The name is the class that the page gives it.
    "face" pub enum Face {
        /// Words.
        Word = "word",
        /// Figures, all of one width.
        Figure = "figures",
        /// Words that matter less.
        Quiet = "quiet",
    }
}

/// Size of texts in pixels: what can be read on a phone.
pub const TEXT: f64 = 12.0;

/// A text's width in pixels at the size of a drawing's texts.
pub fn width(text: &str, face: Face) -> f64 {
    let per_em: f64 = match face {
        // One width for all, also for a thin space.
        Face::Figure => text.chars().map(|_| 0.605).sum(),
        Face::Word | Face::Quiet => text.chars().map(advance).sum(),
    };
    per_em * TEXT
}

fn advance(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' => 0.28,
        '.' | ',' | ':' | ';' | '\'' | '|' | ' ' | '\u{a0}' | '\u{202f}' => 0.34,
        'f' | 't' | 'r' | '(' | ')' | '/' | '-' | '!' => 0.42,
        's' | 'c' | 'z' | '?' => 0.56,
        'a' | 'b' | 'd' | 'e' | 'g' | 'h' | 'k' | 'n' | 'o' | 'p' | 'q' | 'u' | 'v' | 'x' | 'y' | '0'..='9' => 0.64,
        'm' | 'w' | '%' | 'W' | 'M' | '@' | '…' | '—' => 1.0,
        'A'..='Z' => 0.78,
        // Letters of other scripts may be as wide as they are high.
        _ if letter.is_ascii() => 0.84,
        _ => 1.0,
    }
}

/// A text in lines that are no wider than this, broken between words; a word that is wider by itself is cut, with an ellipsis.
pub fn wrap(text: &str, face: Face, most: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    // A thin space within a figure is no place to break it.
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let word = cut(word, face, most);
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {word}"), face) <= most => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}

/// A text no wider than this, its end cut off where it must be.
pub fn cut(text: &str, face: Face, most: f64) -> String {
    if width(text, face) <= most {
        return text.to_owned();
    }
    let mut kept = String::new();
    for letter in text.chars() {
        if width(&format!("{kept}{letter}…"), face) > most {
            break;
        }
        kept.push(letter);
    }
    kept + "…"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_no_wider_than_asked_and_lose_no_word() {
        let text = "Return direct to the tank by a changeover valve, bore 25.4 mm";
        let lines = wrap(text, Face::Word, 120.0);
        assert!(lines.len() > 2 && lines.iter().all(|line| width(line, Face::Word) <= 120.0), "{lines:?}");
        assert_eq!(lines.join(" "), text);
    }

    #[test]
    fn a_word_too_wide_is_cut() {
        let cut = wrap("Hydraulikschlauchleitungen", Face::Word, 60.0);
        assert!(cut[0].ends_with('…') && width(&cut[0], Face::Word) <= 60.0, "{cut:?}");
        assert_eq!(wrap("oil", Face::Word, 60.0), ["oil"]);
        assert_eq!(wrap("10\u{202f}243 lb", Face::Word, 50.0), ["10\u{202f}243", "lb"]);
    }

    #[test]
    fn figures_are_all_of_one_width() {
        assert!((width("111 bar", Face::Figure) - width("888 bar", Face::Figure)).abs() < 1e-9);
        assert!(width("128 L/min", Face::Figure) < 66.0);
    }
}
