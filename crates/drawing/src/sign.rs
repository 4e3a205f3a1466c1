//! Safety signs: the shape that says warning, prohibition or command (ISO 3864-1), and a plain figure of our own in it. The number
//! of the sign in ISO 7010 stands beside it in words.

use super::shape::Stroke;
use wording::SafetySign;

/// A sign: paths on a field of 24 × 24.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sign {
    /// Paths in SVG's path notation with their strokes.
    pub paths: Vec<(&'static str, Stroke)>,
}

const TRIANGLE: &str = "M12 2L23 21H1Z";
const RING: &str = "M1.5 12A10.5 10.5 0 1 1 22.5 12A10.5 10.5 0 1 1 1.5 12Z";
const BAR: &str = "M4.6 4.6L19.4 19.4";

/// The drawing of a sign.
pub fn sign(sign: SafetySign) -> Sign {
    let (shape, figure) = match sign {
        SafetySign::Warning => (vec![TRIANGLE], "M12 8V15M12 17.2V19"),
        SafetySign::Electricity => (vec![TRIANGLE], "M13 7L9.5 13.5H14L11 19"),
        SafetySign::HotSurface => (vec![TRIANGLE], "M7 18.5H17M9 9V16M12 9V16M15 9V16"),
        SafetySign::NoThoroughfare => (vec![RING, BAR], "M12 5V7M12 8.5V14M8.5 10.5H15.5M12 14L9.5 19M12 14L14.5 19"),
        SafetySign::ReadManual => (vec![RING], "M5.5 8L12 10L18.5 8V16L12 18L5.5 16ZM12 10V18"),
        SafetySign::EyeProtection => (vec![RING], "M5 11H11V14.5H5ZM13 11H19V14.5H13ZM11 12H13"),
        SafetySign::Respirator => (vec![RING], "M8 10H16V15L12 18L8 15ZM8 12H5.5M16 12H18.5"),
        SafetySign::Disconnect => {
            (vec![RING], "M5 12H9V9.5H11V14.5H9M19 12H15.5M15.5 9.5H13.5M15.5 14.5H13.5M15.5 9.5V14.5")
        }
    };
    let mut paths: Vec<_> = shape.into_iter().map(|path| (path, Stroke::Heavy)).collect();
    paths.push((figure, Stroke::Thin));
    Sign { paths }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::Named;

    #[test]
    fn every_sign_is_drawn_otherwise_and_within_its_field() {
        let all: Vec<_> = SafetySign::ALL.iter().map(|&one| sign(one)).collect();
        for (index, one) in all.iter().enumerate() {
            assert!(all[..index].iter().all(|other| other != one));
            for (path, _) in &one.paths {
                for number in path.split(|c: char| !c.is_ascii_digit() && c != '.').filter(|n| !n.is_empty()) {
                    let place: f64 = number.parse().expect("a number");
                    assert!((0.0..=24.0).contains(&place), "{path}");
                }
            }
        }
    }

    /// Its shape says what a sign is before its figure does.
    #[test]
    fn a_warning_is_a_triangle_and_a_prohibition_is_barred() {
        for &one in SafetySign::ALL {
            let paths = sign(one).paths;
            assert_eq!(paths[0].0 == TRIANGLE, one.name().starts_with('W'), "{one:?}");
            assert_eq!(paths[1].0 == BAR, one.name().starts_with('P'), "{one:?}");
        }
    }
}
