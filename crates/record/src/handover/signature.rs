//! A signature by finger: strokes on a field, kept as the path of a plain SVG, with a mark of what it was set under.

use serde::{Deserialize, Deserializer, Serialize};
use std::fmt::Write;

/// How wide the field is that is signed on, in its own units.
pub const WIDE: u16 = 600;
/// How high it is.
pub const HIGH: u16 = 200;
/// The longest path, in characters: some thousand points.
const LONGEST: usize = 8_000;
/// From which distance on a point of a stroke is kept.
const STEP: u16 = 3;
/// How often that is doubled for a path that is too long.
const COARSEST: u32 = 7;

/// A point of a stroke.
pub type Point = (u16, u16);

/// A signature.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Signature {
    /// Strokes as `M` and `L` with whole coordinates on the field, and nothing else.
    path: String,
    /// The mark of what it was set under.
    of: String,
}

impl Signature {
    /// The signature of some strokes under what has this mark; none where nothing was drawn.
    pub fn of_strokes(strokes: &[Vec<Point>], of: String) -> Option<Self> {
        // What is too long is drawn with fewer points; what still is, as some hundred taps are, ends with the last stroke that fits.
        let coarser = |times: u32| Some(path(strokes, STEP << times)).filter(|path| path.len() <= LONGEST);
        let path = (0..COARSEST).find_map(coarser).unwrap_or_else(|| {
            let all = path(strokes, STEP << COARSEST);
            let end = if all.len() > LONGEST { all[..LONGEST].rfind('M').unwrap_or(0) } else { all.len() };
            all[..end].to_owned()
        });
        (!path.is_empty()).then_some(Self { path, of })
    }

    /// The path, as of a plain SVG of [`WIDE`] by [`HIGH`].
    pub fn path(&self) -> &str {
        &self.path
    }

    /// Whether it was set under what has this mark.
    pub fn is_of(&self, mark: &str) -> bool {
        self.of == mark
    }
}

/// Reads a signature; none of one that this app cannot have made: a record opens without it.
pub(super) fn sound<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Signature>, D::Error> {
    #[derive(Deserialize)]
    struct Raw {
        path: String,
        of: String,
    }
    let raw = serde_json::from_value::<Raw>(serde_json::Value::deserialize(from)?).ok();
    Ok(raw.filter(|raw| is_sound(&raw.path) && raw.of.len() <= 16).map(|Raw { path, of }| Signature { path, of }))
}

/// The strokes as a path, with points no nearer to each other than `step`. A tap is a dot.
pub fn path(strokes: &[Vec<Point>], step: u16) -> String {
    let mut path = String::new();
    for stroke in strokes {
        let mut last: Option<Point> = None;
        for &(x, y) in stroke {
            let (x, y) = (x.min(WIDE), y.min(HIGH));
            let letter = match last {
                Some((a, b)) if x.abs_diff(a).max(y.abs_diff(b)) < step => continue,
                Some(_) => 'L',
                None => 'M',
            };
            // Writing to a String cannot fail.
            let _ = write!(path, "{letter}{x} {y}");
            last = Some((x, y));
        }
        if let (Some((x, y)), [_]) = (last, stroke.as_slice()) {
            let _ = write!(path, "L{x} {y}");
        }
    }
    path
}

fn is_sound(path: &str) -> bool {
    let point = |text: &str| {
        let on_field = |text: &str, most: u16| {
            text.bytes().all(|byte| byte.is_ascii_digit()) && text.parse::<u16>().is_ok_and(|at| at <= most)
        };
        text.split_once(' ').is_some_and(|(x, y)| on_field(x, WIDE) && on_field(y, HIGH))
    };
    path.len() <= LONGEST && path.strip_prefix('M').is_some_and(|rest| rest.split(['M', 'L']).all(point))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_stroke_is_moves_and_lines_and_near_points_are_left_out() {
        let strokes = [vec![(10, 20), (11, 21), (14, 20)], vec![(5, 5)], vec![]];
        assert_eq!(path(&strokes, STEP), "M10 20L14 20M5 5L5 5");
        assert_eq!(Signature::of_strokes(&[], "m".to_owned()), None);
        assert_eq!(Signature::of_strokes(&[Vec::new()], "m".to_owned()), None);
    }

    #[test]
    fn what_is_too_long_is_drawn_with_fewer_points_or_ends_with_a_stroke() {
        let stroke: Vec<Point> = (0..5_000_u16).map(|at| (at * 7 % WIDE, at * 11 % HIGH)).collect();
        let one = Signature::of_strokes(&[stroke], "m".to_owned()).expect("a signature");
        assert!(one.path.len() <= LONGEST && one.path.len() > 100, "{}", one.path.len());
        let taps: Vec<_> = (0..2_000_u16).map(|at| vec![(at % WIDE, at % HIGH)]).collect();
        let many = Signature::of_strokes(&taps, "m".to_owned()).expect("a signature");
        assert!(is_sound(&many.path) && many.path.len() > LONGEST / 2, "{}", many.path);
    }

    #[test]
    fn what_is_no_path_of_ours_is_no_signature() {
        for text in [
            "",
            "L1 2",
            "M1",
            "M1 2Z",
            "M1 2L3",
            "M1 2 L3 4",
            "M1 2L3 4 5",
            "M-1 2",
            "M1.5 2",
            "M1 201",
            "M601 2",
            "M1e2 3",
            "M1 2C3 4",
            "M1 2L",
            "M 2",
            "M+1 2",
            "url(#a)",
            "M1 2\"/>",
        ] {
            assert!(!is_sound(text), "{text}");
        }
        assert!(is_sound("M0 0L600 200M1 2"));
        assert!(!is_sound(&format!("M1 1{}", "L2 2".repeat(LONGEST / 4))), "longer than any that is drawn here");
    }

    proptest! {
        #[test]
        fn whatever_is_drawn_is_bounded_and_reads_back(
            strokes in prop::collection::vec(prop::collection::vec((0..2000_u16, 0..2000_u16), 0..300), 0..40)
        ) {
            if let Some(signature) = Signature::of_strokes(&strokes, "0123456789abcdef".to_owned()) {
                prop_assert!(is_sound(&signature.path), "{}", signature.path);
                let text = serde_json::to_string(&signature).expect("it is written");
                let read = sound(&mut serde_json::Deserializer::from_str(&text)).expect("it is read");
                prop_assert_eq!(read, Some(signature));
            } else {
                prop_assert!(strokes.iter().all(Vec::is_empty));
            }
        }
    }
}
