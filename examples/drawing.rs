//! Draws a pairing of a spec table and prints it as a page with the drawing in it, for looking at.
//!
//! ```text
//! cargo run --example drawing -- --table FILE --carrier ID --head ID [--what circuit] [--stage after] [--form tall] [--theme grey]
//! ```

use pairwright::drawing::{self, Form, Picture, Stroke, TEXT};
use pairwright::pairing::installation::State;
use pairwright::pairing::{Conditions, Installation, Load, Stage, pair};
use pairwright::quantity::{Named, UnitSystem};
use pairwright::table;
use pairwright::wording::{PlainNumbers, Words, look_up};
use std::process::ExitCode;

const USAGE: &str = "usage: drawing --table FILE --carrier ID --head ID [--what WHAT] [--stage as-it-is|after-changes]
       [--form tall|wide] [--load free|working|stalled] [--units metric|us] [--theme light|dark|grey]

  --what    circuit (the usual)";

const WHATS: [&str; 1] = ["circuit"];

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

fn answer(arguments: &[String]) -> Result<String, String> {
    let given = |name: &str| {
        let at = arguments.iter().position(|argument| argument == name)?;
        arguments.get(at + 1).map(String::as_str)
    };
    let needed = |name: &str| given(name).ok_or(format!("{name} is missing"));
    fn choice<T: Named>(given: Option<&str>, usual: T) -> Result<T, String> {
        given.map_or(Ok(usual), |name| T::from_name(name).ok_or(format!("{name} is no {}", T::WHAT)))
    }
    let text = std::fs::read_to_string(needed("--table")?).map_err(|error| error.to_string())?;
    let table = table::read(&text).table.ok_or("the table cannot be read")?;
    let words = Words {
        numbers: &PlainNumbers,
        units: if given("--units") == Some("us") { UnitSystem::UsCustomary } else { UnitSystem::Metric },
    };
    let found = look_up(&table, needed("--carrier")?, needed("--head")?);
    let found = found.map_err(|reasons| reasons.iter().map(|r| words.refusal(r)).collect::<Vec<_>>().join("\n"))?;
    let (carrier, head) = (&*found.carrier, found.head);
    let conditions = Conditions::of_table(&table);
    let pairing = pair(carrier, head, &conditions);
    let stage = choice(given("--stage"), Stage::AfterChanges)?;
    let form = choice(given("--form"), Form::Tall)?;
    let load = choice(given("--load"), Load::Working)?;
    let machine = if stage == Stage::AfterChanges { pairing.changed.as_deref().unwrap_or(carrier) } else { carrier };
    let look = pairing.circuit.as_ref().and_then(|circuit| Installation::new(machine, circuit, head, &conditions));
    let what = given("--what").unwrap_or(WHATS[0]);
    let picture = match what {
        "circuit" => {
            let standing = look.map(|look| look.state(State::usual(load)));
            drawing::circuit((&pairing, carrier, head), stage, standing.as_ref(), &words, form).picture()
        }
        other => return Err(format!("nothing is drawn of {other}; there is: {}", WHATS.join(", "))),
    };
    Ok(page(&picture, given("--theme").unwrap_or("light")))
}

/// A page with a drawing in it.
fn page(picture: &Picture, theme: &str) -> String {
    let (paper, ink, quiet, accent, soft, fault) = match theme {
        "dark" => ("#1c2426", "#ece9dd", "#a9b4b2", "#7cc7b5", "#23443e", "#f0a58f"),
        "grey" => ("#fff", "#000", "#333", "#000", "#ddd", "#000"),
        _ => ("#f6f3ea", "#1d2a2c", "#516063", "#1f6a5e", "#d8e6df", "#8a2f1d"),
    };
    let mut style = format!(
        "body{{margin:0;background:{paper}}}svg{{display:block}}text{{font-size:{TEXT}px;fill:{ink};stroke:none}}\
         .word{{font-family:sans-serif}}.quiet{{font-family:sans-serif;fill:{quiet}}}.figures{{font-family:'DejaVu Sans Mono',monospace}}"
    );
    for &stroke in Stroke::ALL {
        let colour = match stroke {
            Stroke::Heavy | Stroke::HeavyDrain | Stroke::HeavySolid => accent,
            Stroke::Beyond => fault,
            Stroke::Hair | Stroke::Chain => quiet,
            Stroke::Allowed | Stroke::Face => soft,
            _ => ink,
        };
        let fill = if stroke.fills() { colour } else { "none" };
        let line = if stroke == Stroke::Face { ink } else { colour };
        let dashes = stroke.dashes().iter().map(ToString::to_string).collect::<Vec<_>>().join(" ");
        style += &format!(
            ".{}{{fill:{fill};stroke:{line};stroke-width:{};stroke-dasharray:{}}}",
            stroke.name(),
            stroke.weight(),
            if dashes.is_empty() { "none".to_owned() } else { dashes }
        );
    }
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\"><style>{style}</style>\
         <rect width=\"{0}\" height=\"{1}\" fill=\"{paper}\"/>",
        picture.width.ceil(),
        picture.height.ceil()
    );
    for path in &picture.paths {
        svg += &format!("<path class=\"{}\" d=\"{}\"/>", path.stroke.name(), path.d);
    }
    for text in &picture.texts {
        let said = text.text.replace('&', "&amp;").replace('<', "&lt;");
        svg += &format!(
            "<text class=\"{}\" x=\"{}\" y=\"{}\" text-anchor=\"{}\">{said}</text>",
            text.face.name(),
            text.at.x,
            text.at.y,
            text.anchor.name()
        );
    }
    svg + "</svg>"
}
