//! The colours of `style/app.css`, as they are and as others see them: contrast by WCAG 2.2 (1.4.3: 4.5 to 1 for text; 1.4.11: 3 to 1
//! for graphics), in light and dark, for three kinds of colour blindness, and in grey.
//!
//! Colour blindness is simulated after Machado, Oliveira and Fernandes (2009), “A physiologically-based model for simulation of color
//! vision deficiency”, IEEE TVCG 15(6), severity 1.0: the matrices are from memory, applied to linear light; that each leaves grey as it
//! is is tested. The sRGB curve and relative luminance are WCAG's.

type Rgb = [f64; 3];
type Matrix = [[f64; 3]; 3];

const PROTANOPIA: Matrix =
    [[0.152_286, 1.052_583, -0.204_868], [0.114_503, 0.786_281, 0.099_216], [-0.003_882, -0.048_116, 1.051_998]];
const DEUTERANOPIA: Matrix =
    [[0.367_322, 0.860_646, -0.227_968], [0.280_085, 0.672_501, 0.047_413], [-0.011_820, 0.042_940, 0.968_881]];
const TRITANOPIA: Matrix =
    [[1.255_528, -0.076_749, -0.178_779], [-0.078_411, 0.930_809, 0.147_602], [0.004_733, 0.691_367, 0.303_900]];
const AS_IT_IS: Matrix = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
const GREY: Matrix = [[0.2126, 0.7152, 0.0722]; 3];

const EYES: [(&str, Matrix); 5] = [
    ("as it is", AS_IT_IS),
    ("protanopia", PROTANOPIA),
    ("deuteranopia", DEUTERANOPIA),
    ("tritanopia", TRITANOPIA),
    ("grey", GREY),
];

/// A custom property in light and in dark, linear.
fn colours(css: &str, name: &str) -> [Rgb; 2] {
    let line = css.lines().find(|line| line.trim_start().starts_with(&format!("--{name}:"))).expect("the property");
    let (_, pair) = line.split_once("light-dark(").expect("light and dark");
    let (pair, _) = pair.split_once(')').expect("an end");
    let mut both = pair.split(',').map(|hex| linear(hex.trim()));
    [both.next().expect("light"), both.next().expect("dark")]
}

/// `#1d2a2c` or `#fff`, as linear light.
fn linear(hex: &str) -> Rgb {
    let digits = hex.strip_prefix('#').expect("a colour by its digits");
    let full: String =
        if digits.len() == 3 { digits.chars().flat_map(|d| [d, d]).collect() } else { digits.to_owned() };
    [0, 2, 4].map(|at| {
        let value = f64::from(u8::from_str_radix(&full[at..at + 2], 16).expect("two digits")) / 255.0;
        if value <= 0.040_45 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    })
}

fn seen(colour: Rgb, by: &Matrix) -> Rgb {
    by.map(|row| row.iter().zip(colour).map(|(share, light)| share * light).sum::<f64>().clamp(0.0, 1.0))
}

fn contrast(one: Rgb, other: Rgb) -> f64 {
    let luminance = |c: Rgb| 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2] + 0.05;
    let (a, b) = (luminance(one), luminance(other));
    a.max(b) / a.min(b)
}

#[test]
fn every_eye_sees_grey_as_grey_and_black_on_white() {
    for (name, matrix) in EYES {
        for row in matrix {
            assert!((row.iter().sum::<f64>() - 1.0).abs() < 1e-4, "{name}: {row:?}");
        }
        let contrast = contrast(seen(linear("#000"), &matrix), seen(linear("#fff"), &matrix));
        assert!((contrast - 21.0).abs() < 0.01, "{name}: {contrast}");
    }
    // The eyes differ: red and green of like lightness come closer to one who tells them apart no more.
    let (red, green) = (linear("#b04030"), linear("#3a7a3a"));
    let apart = |matrix: &Matrix| {
        let (a, b) = (seen(red, matrix), seen(green, matrix));
        a.iter().zip(b).map(|(x, y)| (x - y).powi(2)).sum::<f64>().sqrt()
    };
    assert!(apart(&DEUTERANOPIA) < 0.6 * apart(&AS_IT_IS), "{} {}", apart(&DEUTERANOPIA), apart(&AS_IT_IS));
}

#[test]
fn invariant_text_and_lines_stand_out_for_every_eye() {
    let css = include_str!("../style/app.css");
    let theme = ["light", "dark"];
    for ground in ["paper", "sheet"] {
        // Ink and quiet ink are text; so are links in the accent, and faults.
        for (ink, least) in [("ink", 4.5), ("ink-2", 4.5), ("accent", 4.5), ("fault", 4.5)] {
            for (eye, matrix) in EYES {
                let (a, b) = (colours(css, ink), colours(css, ground));
                for mode in 0..2 {
                    let found = contrast(seen(a[mode], &matrix), seen(b[mode], &matrix));
                    // Numbers hold for the eye that WCAG measures; others get what graphics need, and by far.
                    let least = if eye == "as it is" || eye == "grey" { least } else { 3.0 };
                    assert!(found >= least, "{ink} on {ground}, {}, {eye}: {found:.2} to 1", theme[mode]);
                }
            }
        }
    }
}

/// Ink lies on the tints too: figures within a band that is allowed, words on a fault.
#[test]
fn ink_stands_out_on_the_tints() {
    let css = include_str!("../style/app.css");
    for (ink, tint) in
        [("ink", "accent-soft"), ("ink", "fault-soft"), ("fault", "fault-soft"), ("accent", "accent-soft")]
    {
        for (eye, matrix) in EYES {
            for mode in 0..2 {
                let found = contrast(seen(colours(css, ink)[mode], &matrix), seen(colours(css, tint)[mode], &matrix));
                let least = if ink == "ink" { 4.5 } else { 3.0 };
                assert!(found >= least, "{ink} on {tint}, {mode}, {eye}: {found:.2} to 1");
            }
        }
    }
}
