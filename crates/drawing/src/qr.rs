//! A text as a QR code (ISO/IEC 18004), so that a phone takes a link off a screen or a printed sheet.
//!
//! How large a module is drawn, and in which colours, is the page's: dark on light, two pixels a module at the least.

use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write;

/// The longest text, in characters: denser codes are hard to read off a screen at arm's length.
pub const MOST: usize = 600;

/// The quiet zone around the code, in modules (ISO/IEC 18004 asks for four).
const QUIET: i32 = 4;

/// A QR code as a path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Qr {
    /// Side of the square in modules, with the quiet zone of four on each side.
    pub side: u32,
    /// SVG path data of the dark modules, one unit a module; the modules of a row that touch are one rectangle.
    pub path: String,
}

/// The code of a text, with error correction of the medium level, or a better one where it takes no more room: a seventh of
/// it may be dirty or creased. None for a text of more than [`MOST`] characters, or of more bytes than a code holds.
///
/// ```
/// let code = drawing::qr("https://tools.example/app/").expect("short enough");
/// assert_eq!(code.side, 25 + 2 * 4); // version 2
/// assert!(code.path.starts_with("M4 4h7v1h-7z")); // the upper edge of the first finder pattern
/// ```
pub fn qr(text: &str) -> Option<Qr> {
    if text.chars().count() > MOST {
        return None;
    }
    let code = QrCode::encode_text(text, QrCodeEcc::Medium).ok()?;
    let mut path = String::new();
    for y in 0..code.size() {
        let mut x = 0;
        while x < code.size() {
            let begin = x;
            while code.get_module(x, y) {
                x += 1;
            }
            let run = x - begin;
            if run > 0 {
                // Writing to a String cannot fail.
                let _ = write!(path, "M{} {}h{run}v1h-{run}z", begin + QUIET, y + QUIET);
            }
            x += 1;
        }
    }
    Some(Qr { side: u32::try_from(code.size() + 2 * QUIET).ok()?, path })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The rectangles of a path: left, top, width.
    fn rectangles(code: &Qr) -> Vec<(usize, usize, usize)> {
        let rectangle = |text: &str| {
            let (left, rest) = text.split_once(' ').expect("two coordinates");
            let (top, rest) = rest.split_once('h').expect("a width");
            let (width, rest) = rest.split_once('v').expect("a height");
            assert_eq!(rest, format!("1h-{width}z"));
            [left, top, width].map(|number| number.parse().expect("a whole number")).into()
        };
        code.path.split('M').skip(1).map(rectangle).collect()
    }

    /// What another reader makes of the code, drawn with four pixels a module.
    fn read(code: &Qr) -> String {
        const PIXELS: usize = 4;
        let side = code.side as usize * PIXELS;
        let mut grey = vec![255; side * side];
        for (left, top, width) in rectangles(code) {
            for y in top * PIXELS..(top + 1) * PIXELS {
                grey[y * side + left * PIXELS..y * side + (left + width) * PIXELS].fill(0);
            }
        }
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| grey[y * side + x]);
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1, "one code in the picture");
        grids[0].decode().expect("it reads").1
    }

    /// An address with a link of this many characters in all.
    fn address(characters: usize) -> String {
        let begin = "https://tools.example/app/#/link/1/";
        let letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_".chars();
        // Steps of 37 letters, so that the code has no pattern that repeats soon.
        let mixed = letters.cycle().step_by(37);
        begin.chars().chain(mixed).take(characters).collect()
    }

    #[test]
    fn invariant_another_reader_reads_the_very_text_of_a_code() {
        for characters in [1, 60, 300, MOST] {
            let text = address(characters);
            assert_eq!(text.len(), characters);
            assert_eq!(read(&qr(&text).expect("a code")), text);
        }
        for text in ["0123456789", "PAIRWRIGHT 2026", "Böschungsmäher → 25 mm²"] {
            assert_eq!(read(&qr(text).expect("a code")), text);
        }
    }

    #[test]
    fn a_longer_text_has_none() {
        assert!(qr(&address(MOST)).is_some());
        assert_eq!(qr(&address(MOST + 1)), None);
        // Characters within the limit whose bytes no code holds.
        assert_eq!(qr(&"\u{1f69c}".repeat(MOST)), None);
        assert!(qr(&"ü".repeat(MOST)).is_some());
    }

    #[test]
    fn nothing_dark_touches_the_quiet_zone_or_its_neighbour_in_the_row() {
        for characters in [1, 60, 300, MOST] {
            let code = qr(&address(characters)).expect("a code");
            let (least, most) = (QUIET.unsigned_abs() as usize, (code.side as usize) - QUIET.unsigned_abs() as usize);
            let found = rectangles(&code);
            for (left, top, width) in &found {
                assert!(*width > 0 && *left >= least && *top >= least && left + width <= most && *top < most);
            }
            for pair in found.windows(2) {
                let ((left, top, width), (next, below, _)) = (pair[0], pair[1]);
                assert!(below > top || below == top && next > left + width, "{pair:?}");
            }
            let reach = |place: fn(&(usize, usize, usize)) -> usize| found.iter().map(place).max();
            assert_eq!((reach(|r| r.0 + r.2), reach(|r| r.1 + 1)), (Some(most), Some(most)));
        }
    }
}
