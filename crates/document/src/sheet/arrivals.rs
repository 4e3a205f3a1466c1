//! What arrives at the attachment, by oil and load.

use super::Sheet;
use crate::tree::{Block, Fact, Look, Span};
use explain::{FigureId, PointFigure};
use fit::{Load, OilState, Point, Stage};
use quantity::Amount;

impl Sheet<'_> {
    /// The solved points of the machine of a stage, a card each; nothing where none can be solved.
    pub fn arrivals(&self, stage: Stage) -> Vec<Block> {
        let (words, pairing) = (self.words, self.pairing);
        let points = pairing.points.iter().filter(|point| point.stage == stage && point.flow.is_some());
        let items: Vec<_> = points.map(|point| vec![self.point(point)]).collect();
        if items.is_empty() {
            return Vec::new();
        }
        let mut blocks = vec![Block::List { look: Look::Cards, ordered: false, items }];
        // It is of the machine as it would go to work.
        if let Some(sharing) = pairing.sharing.as_ref().filter(|_| stage == self.final_stage()) {
            blocks.push(Block::says(Look::Plain, words.sharing(sharing)));
        }
        blocks.push(Block::says(Look::Quiet, words.points_hold()));
        blocks
    }

    /// What arrives at work, in a line; empty where it cannot be said.
    pub fn arrives_at_work(&self) -> String {
        let stage = self.final_stage();
        let at_work =
            |point: &&Point| point.stage == stage && point.oil == OilState::Working && point.load == Load::Working;
        let Some(point) = self.pairing.points.iter().find(at_work) else { return String::new() };
        let told = [point.flow, point.head_inlet, point.rotor_speed].into_iter().flatten();
        let told: Vec<_> = told.map(|amount| self.words.amount(amount)).collect();
        if told.is_empty() { String::new() } else { format!("at work {}", told.join(", ")) }
    }

    fn point(&self, point: &Point) -> Block {
        let words = self.words;
        let oil = format!("{}, {}", words.oil_state(point.oil), words.amount(point.oil_temperature));
        let mut facts = vec![
            Fact::new("Oil", [Span::Strong(oil)]),
            Fact::new("Load", [Span::Strong(words.load(point.load).to_owned())]),
        ];
        // The reasoning is of this point alone.
        let opens = point.oil == OilState::Working && point.load == Load::Working;
        let figures: [(PointFigure, &str, Option<Amount>); 8] = [
            (PointFigure::Flow, "Flow", point.flow),
            (PointFigure::PumpPressure, "At the pump", point.pump_pressure),
            (PointFigure::HeadInlet, "Inlet", point.head_inlet),
            (PointFigure::HeadOutlet, "Outlet", point.head_outlet),
            (PointFigure::CasePressure, "Case", point.case_pressure),
            (PointFigure::RotorSpeed, "Rotor", point.rotor_speed),
            (PointFigure::ShaftPower, "Shaft", point.shaft_power),
            (PointFigure::Heat, "Heat", point.heat),
        ];
        facts.extend(figures.into_iter().filter_map(|(figure, name, amount)| {
            let text = words.amount(amount?);
            let of = FigureId::Point(figure, point.stage);
            Some(Fact::new(name, [if opens { Span::Figure { text, of } } else { Span::Text(text) }]))
        }));
        Block::Facts { look: Look::Card, facts }
    }
}
