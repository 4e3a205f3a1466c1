//! Draws a pairing of a spec table and prints it as a page with the drawing in it, for looking at.
//!
//! ```text
//! cargo run --example drawing -- --table FILE --carrier ID --head ID [--what circuit] [--stage after] [--form tall] [--theme grey]
//! ```

use drawing::{self, Form, Picture, Stroke, TEXT};
use fit::installation::State;
use fit::{Conditions, Installation, Load, Stage, pair};
use quantity::{Amount, Named, Unit, UnitSystem};
use std::fmt::Write;
use std::process::ExitCode;
use wording::{PlainNumbers, Refusal, Words, look_up};
use workshop::Found;
use workshop::Sheets;
use workshop::schema::Schema;

const USAGE: &str = "usage: drawing --table FILE --carrier ID --head ID [--what WHAT] [--stage as-it-is|after-changes]
       [--form tall|wide] [--load free|working|stalled] [--units metric|us] [--theme light|dark|grey]

  --what    circuit (the usual), curve, lift, warmth, gauges or margins
  --read    a figure on the gauges, in the reader's unit as a share of what is likely (1.2: a fifth more)";

const WHATS: [&str; 6] = ["circuit", "curve", "lift", "warmth", "gauges", "margins"];

fn main() -> ExitCode {
    match answer(&std::env::args().skip(1).collect::<Vec<_>>()) {
        Ok(page) => {
            println!("{page}");
            ExitCode::SUCCESS
        }
        Err(message) => {
            eprintln!("{message}\n\n{USAGE}");
            ExitCode::from(2)
        }
    }
}

/// Why nothing is drawn.
#[derive(Debug)]
enum Wrong {
    Missing(&'static str),
    UnknownName { name: String, what: &'static str },
    Unreadable(std::io::Error),
    NoTable,
    Refused(Vec<Refusal>),
    NothingToSay { of: String },
    NoSuchDrawing { of: String },
}

impl std::fmt::Display for Wrong {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Missing(argument) => write!(f, "{argument} is missing"),
            Self::UnknownName { name, what } => write!(f, "{name} is no {what}"),
            Self::Unreadable(error) => error.fmt(f),
            Self::NoTable => f.write_str("the table cannot be read"),
            Self::Refused(reasons) => {
                f.write_str(&reasons.iter().map(Refusal::to_string).collect::<Vec<_>>().join("\n"))
            }
            Self::NothingToSay { of } => write!(f, "nothing can be said of its {of}"),
            Self::NoSuchDrawing { of } => write!(f, "nothing is drawn of {of}; there is: {}", WHATS.join(", ")),
        }
    }
}

impl std::error::Error for Wrong {}

fn choice<T: Named>(given: Option<&str>, usual: T) -> Result<T, Wrong> {
    let unknown = |name: &str| Wrong::UnknownName { name: name.to_owned(), what: T::WHAT };
    given.map_or(Ok(usual), |name| T::from_name(name).ok_or_else(|| unknown(name)))
}

fn answer(arguments: &[String]) -> Result<String, Wrong> {
    let given = |name: &str| {
        let at = arguments.iter().position(|argument| argument == name)?;
        arguments.get(at + 1).map(String::as_str)
    };
    let needed = |name| given(name).ok_or(Wrong::Missing(name));
    let text = std::fs::read_to_string(needed("--table")?).map_err(Wrong::Unreadable)?;
    let table = table::read(&text).table.ok_or(Wrong::NoTable)?;
    let words = Words {
        numbers: &PlainNumbers,
        units: if given("--units") == Some("us") { UnitSystem::UsCustomary } else { UnitSystem::Metric },
    };
    let found = look_up(&table, needed("--carrier")?, needed("--head")?).map_err(Wrong::Refused)?;
    let (carrier, head) = (&*found.carrier, found.head);
    let conditions = Conditions::of_table(&table);
    let pairing = pair(carrier, head, &conditions);
    let stage = choice(given("--stage"), Stage::AfterChanges)?;
    let form = choice(given("--form"), Form::Tall)?;
    let load = choice(given("--load"), Load::Working)?;
    let machine = if stage == Stage::AfterChanges { pairing.changed.as_deref().unwrap_or(carrier) } else { carrier };
    let look = pairing.circuit.as_ref().and_then(|circuit| Installation::new(machine, circuit, head, &conditions));
    let what = given("--what").unwrap_or(WHATS[0]);
    let alone = |picture: Picture| vec![(0.0, 0.0, picture)];
    let nothing = || Wrong::NothingToSay { of: what.to_owned() };
    let pictures = match what {
        "curve" => {
            let found = look.and_then(|look| look.pump_curve()).ok_or_else(nothing)?;
            eprintln!("{}", words.curve_text(&found));
            alone(drawing::curve(&found, &words))
        }
        "lift" => {
            let found = look.and_then(|look| look.lift_over_reach().ok()).ok_or_else(nothing)?;
            eprintln!("{}", words.lift_text(&found));
            alone(drawing::lift(&found, &words))
        }
        "warmth" => {
            let found = look.and_then(|look| look.warming().ok()).ok_or_else(nothing)?;
            eprintln!("{}", words.warming_text(&found));
            alone(drawing::warmth(&found, &words))
        }
        "gauges" => {
            let job = Sheets::of(&pairing, carrier, head, &conditions).job.ok_or_else(nothing)?;
            let share: f64 = given("--read").and_then(|share| share.parse().ok()).unwrap_or(1.0);
            let dials = job.settings.readings.iter().filter_map(|reading| {
                let Found::Expected { reads } = &reading.found else { return None };
                let read = Amount::from_si(
                    reads.nominal.dimension(),
                    Unit::shown(reads.nominal.dimension(), UnitSystem::Metric)
                        .to_si(reads.nominal.in_system(UnitSystem::Metric).0 * share),
                );
                eprintln!("{}: {}", reading.at.name(), words.gauge_text(reading, Some(read)));
                let instrument = job.settings.gauges.iter().find(|gauge| gauge.at == reading.at);
                drawing::gauge(reading, instrument, Some(read), &words).map(|dial| dial.picture)
            });
            beside(dials.collect(), 4)
        }
        "margins" => {
            let checks = pairing.final_checks().iter();
            let all = checks.filter_map(|check| {
                let picture = drawing::margin_picture(check, None, &words)?;
                eprintln!("{}: {}", check.id.name(), words.margin_text(check).unwrap_or_default());
                Some(picture)
            });
            beside(all.collect(), 2)
        }
        "circuit" => {
            let standing = look.map(|look| look.state(State::usual(load)));
            let (before, after) = Schema::of_pairing(&pairing, carrier, head);
            let schema = if stage == Stage::AfterChanges { after.unwrap_or(before) } else { before };
            eprintln!("{}", words.circuit_text(&schema, standing.as_ref()).join("\n"));
            alone(drawing::circuit((&pairing, carrier, head), stage, standing.as_ref(), &words, form).picture())
        }
        other => return Err(Wrong::NoSuchDrawing { of: other.to_owned() }),
    };
    Ok(page(&pictures, given("--theme").unwrap_or("light")))
}

/// Several drawings in one, so many in a row.
fn beside(pictures: Vec<Picture>, columns: usize) -> Vec<(f64, f64, Picture)> {
    let (mut x, mut y, mut high) = (0.0, 0.0, 0.0f64);
    let mut placed = Vec::new();
    for (index, picture) in pictures.into_iter().enumerate() {
        if index > 0 && index % columns == 0 {
            (x, y, high) = (0.0, y + high, 0.0);
        }
        let (wide, own) = (picture.width, picture.height);
        placed.push((x, y, picture));
        (x, high) = (x + wide, high.max(own));
    }
    placed
}

/// A page with drawings in it. Writing to a String cannot fail.
fn page(pictures: &[(f64, f64, Picture)], theme: &str) -> String {
    let (paper, ink, quiet, line, accent, soft, fault) = match theme {
        "dark" => ("#1c2426", "#ece9dd", "#a9b4b2", "#5a6a6b", "#7cc7b5", "#23443e", "#f0a58f"),
        "grey" => ("#fff", "#000", "#333", "#777", "#000", "#ddd", "#000"),
        _ => ("#f6f3ea", "#1d2a2c", "#516063", "#b9bfb4", "#1f6a5e", "#d8e6df", "#8a2f1d"),
    };
    let mut style = format!(
        "body{{margin:0;background:{paper}}}svg{{display:block}}text{{font-size:{TEXT}px;fill:{ink};stroke:none}}\
         .word{{font-family:sans-serif}}.quiet{{font-family:sans-serif;fill:{quiet}}}.figures{{font-family:'DejaVu Sans Mono',monospace}}"
    );
    for &stroke in Stroke::ALL {
        let colour = match stroke {
            Stroke::Heavy | Stroke::HeavyDrain | Stroke::HeavySolid => accent,
            Stroke::Beyond => fault,
            Stroke::Chain => quiet,
            Stroke::Hair => line,
            Stroke::Allowed | Stroke::Face => soft,
            _ => ink,
        };
        let fill = if stroke.fills() { colour } else { "none" };
        let edge = if stroke == Stroke::Face { ink } else { colour };
        let dashes = stroke.dashes().iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
        let _ = write!(
            style,
            ".{}{{fill:{fill};stroke:{edge};stroke-width:{};stroke-dasharray:{}}}",
            stroke.name(),
            stroke.weight(),
            if dashes.is_empty() { "none".to_owned() } else { dashes }
        );
    }
    let width = pictures.iter().map(|(x, _, picture)| x + picture.width).fold(0.0, f64::max).ceil();
    let height = pictures.iter().map(|(_, y, picture)| y + picture.height).fold(0.0, f64::max).ceil();
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" viewBox=\"0 0 {width} {height}\">\
         <style>{style}</style><rect width=\"{width}\" height=\"{height}\" fill=\"{paper}\"/>"
    );
    for (x, y, picture) in pictures {
        let _ = write!(svg, "<g transform=\"translate({x} {y})\">");
        for path in &picture.paths {
            let _ = write!(svg, "<path class=\"{}\" d=\"{}\"/>", path.stroke.name(), path.d);
        }
        for text in &picture.texts {
            let said = text.text.replace('&', "&amp;").replace('<', "&lt;");
            let (x, y, anchor) = (text.at.x, text.at.y, text.anchor.name());
            let _ = write!(
                svg,
                "<text class=\"{}\" x=\"{x}\" y=\"{y}\" text-anchor=\"{anchor}\">{said}</text>",
                text.face.name()
            );
        }
        svg += "</g>";
    }
    svg + "</svg>"
}
