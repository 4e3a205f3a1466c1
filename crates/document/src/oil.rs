//! What the circuit does with the oil at a temperature, and what the brochure says against what the circuit gives.

use super::tree::{Block, Fact, Line, Look, Span};
use explain::{BrochureFigure, FigureId, OilFigure};
use fit::installation::{Brochure, Gap, OilMark, OilReading, Warmth};
use fit::{CheckId, Outcome, Stage};
use quantity::{Amount, ThermodynamicTemperature};
use wording::Words;

/// The figures of a machine with the oil at a temperature, and how the checks come out with it.
pub fn at_oil(words: &Words, reading: &OilReading, stage: Stage) -> Vec<Block> {
    if reading.flow.is_none() && !reading.stalls {
        return vec![Block::says(Look::Plain, words.cannot_be_solved())];
    }
    let Some(oil) = reading.temperature.quantity::<ThermodynamicTemperature>() else { return Vec::new() };
    let figure = |figure: OilFigure, amount: Option<Amount>| match amount {
        _ if figure == OilFigure::Flow && reading.stalls => Span::from("none: it stands still"),
        Some(amount) => Span::Figure { text: words.amount(amount), of: FigureId::Oil(figure, stage, oil) },
        None => Span::from("–"),
    };
    let always = [
        (OilFigure::Flow, reading.flow),
        (OilFigure::Pump, reading.pump),
        (OilFigure::BackPressure, reading.back_pressure),
    ];
    let at_times = [(OilFigure::CasePressure, reading.case_pressure), (OilFigure::Viscosity, reading.viscosity)];
    let all = always.into_iter().chain(at_times.into_iter().filter(|(_, amount)| amount.is_some()));
    let facts = all.map(|(of, amount)| Fact::new(words.oil_figure(of), [figure(of, amount)])).collect();
    let lines = reading.marks.iter().map(|mark| line(words, mark, stage, oil)).collect();
    vec![Block::Facts { look: Look::Readings, facts }, Block::Lines { look: Look::Marks, ordered: false, lines }]
}

fn line(words: &Words, mark: &OilMark, stage: Stage, oil: ThermodynamicTemperature) -> Line {
    let mut figure = vec![Span::Text(words.outcome(mark.outcome).to_owned())];
    if let Some(margin) = mark.margin.filter(|_| mark.outcome != Outcome::NotKnown) {
        let of = FigureId::Mark(mark.check, stage, oil);
        figure.extend([Span::from(" · "), Span::Figure { text: words.margin(margin, mark.bound), of }]);
    }
    let name = vec![Span::from(words.check_title(mark.check))];
    Line { sign: None, name, figure, detail: Vec::new(), outcome: Some(mark.outcome) }
}

/// Where the oil settles over a day of work.
pub fn over_a_day(words: &Words, warmth: &Warmth, stage: Stage) -> Vec<Block> {
    let how = Span::Opens {
        text: words.reasoning_opens().to_owned(),
        about: words.where_it_settles().to_owned(),
        of: FigureId::Check(CheckId::Heat, stage),
    };
    vec![Block::says(Look::Plain, words.warmth(warmth)), Block::of(Look::Plain, [how])]
}

/// What the brochure says against what the circuit gives.
pub fn brochure(words: &Words, brochure: &Brochure) -> Vec<Block> {
    let mut blocks = vec![Block::says(Look::Plain, words.brochure(brochure))];
    blocks.extend(gap(words, "Flow", &brochure.flow, BrochureFigure::Flow));
    blocks.extend(gap(words, "Pressure", &brochure.pressure, BrochureFigure::Pressure));
    blocks.push(Block::says(Look::Quiet, words.brochure_holds()));
    blocks
}

fn gap(words: &Words, name: &str, gap: &Gap, figure: BrochureFigure) -> Vec<Block> {
    let causes = words.causes(gap);
    let mut spans = vec![
        Span::Quiet("brochure ".to_owned()),
        Span::Text(format!("{} · ", words.amount(gap.says))),
        Span::Quiet("circuit ".to_owned()),
        Span::Figure { text: words.amount(gap.gives), of: FigureId::Brochure(figure) },
    ];
    if !causes.is_empty() {
        spans.push(Span::Quiet(format!(" · {causes}")));
    }
    let drawn =
        drawing::strip(gap).map(|strip| Block::Picture { picture: strip.picture(), said: words.two_bars(name) });
    let named = Block::says(Look::Name, name);
    std::iter::once(named).chain(drawn).chain([Block::Text { look: Look::Figures, spans }]).collect()
}
