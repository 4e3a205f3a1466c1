//! What is written at the parts of a circuit: short names from `wording`, figures of the state that is shown.

use super::super::text::Face;
use super::block::Block;
use super::sheet::Form;
use fit::Node;
use fit::installation::{NodeReading, Standing};
use quantity::Amount;
use wording::Words;
use workshop::schema::{Fitted, Part, Schema, State};

/// What a reader's words make of parts and readings.
#[derive(Clone, Copy)]
pub struct Writer<'a> {
    words: &'a Words<'a>,
    nodes: &'a [NodeReading],
    rotor: Option<Amount>,
}

/// Which figures of a node are written.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Figures {
    Both,
    Pressure,
    /// The flow alone: what goes over a relief, whose pressure is written as its setting.
    Flow,
}

impl<'a> Writer<'a> {
    pub fn new(words: &'a Words<'a>, standing: Option<&'a Standing>) -> Self {
        let (nodes, rotor) = match standing {
            Some(Standing::Turns { nodes, rotor_speed, .. }) => (nodes.as_slice(), *rotor_speed),
            Some(Standing::Stalls { nodes, .. }) => (nodes.as_slice(), None),
            _ => (&[] as &[NodeReading], None),
        };
        Self { words, nodes, rotor }
    }

    /// The lines of a node's figures.
    fn figures(&self, node: Node, wanted: Figures) -> Vec<(String, Face)> {
        let Some(reading) = self.nodes.iter().find(|reading| reading.node == node) else { return Vec::new() };
        let mut lines = Vec::new();
        if wanted != Figures::Pressure {
            lines.push((self.words.amount(reading.flow), Face::Figure));
        }
        if wanted != Figures::Flow {
            lines.push((self.words.amount(reading.pressure), Face::Figure));
        }
        lines
    }

    fn name(&self, fitted: &Fitted, schema: &Schema) -> String {
        let own = fitted.name.clone();
        let name = own.unwrap_or_else(|| self.words.part(fitted.part, schema.pumps, fitted.set.is_some()));
        if fitted.state == State::NotStated { format!("{name}?") } else { name }
    }

    /// The label of a part; nothing where there is nothing to say.
    pub fn block(&self, schema: &Schema, part: Part, form: Form) -> Block {
        let Some(fitted) = schema.get(part) else { return Block::default() };
        let mut lines: Vec<(String, Face)> = Vec::new();
        let most = form.label(part);
        let numbers = fitted.numbers.clone();
        // Lines are named only where there is something to say of them: their figures, or that they are added.
        let named = !matches!(part, Part::SupplyLine | Part::ReturnLine | Part::CaseLine)
            || !numbers.is_empty()
            || fitted.state == State::NotStated;
        if named {
            let name = self.name(fitted, schema);
            lines.extend(super::super::text::wrap(&name, Face::Word, most).into_iter().map(|line| (line, Face::Word)));
        }
        if let Some(set) = fitted.set.filter(|_| part != Part::Pump || !numbers.is_empty()) {
            lines.push((self.words.set_to(set), Face::Figure));
        }
        lines.extend(self.of_node(schema, part));
        Block { numbers, lines }
    }

    fn of_node(&self, schema: &Schema, part: Part) -> Vec<(String, Face)> {
        let direct = schema.route == Some(table::ReturnRoute::Direct);
        let own_filter = schema.has(Part::OwnFilter) && !schema.has(Part::MachineFilter);
        match part {
            Part::Pump => self.figures(Node::Pump, Figures::Both),
            Part::SupplyLine => self.figures(Node::SupplyLine, Figures::Both),
            Part::Couplings => self.figures(Node::SupplyCoupling, Figures::Pressure),
            Part::CaseLine => self.figures(Node::Case, Figures::Both),
            Part::Functions => self.figures(Node::Functions, Figures::Both),
            Part::Relief if !schema.has(Part::HeadRelief) => self.figures(Node::Relief, Figures::Flow),
            Part::HeadRelief => self.figures(Node::Relief, Figures::Flow),
            Part::Changeover if direct => self.figures(Node::ReturnValve, Figures::Pressure),
            Part::Spool if !direct => self.figures(Node::ReturnValve, Figures::Pressure),
            Part::MachineFilter if !direct || schema.joins => self.figures(Node::ReturnFilter, Figures::Pressure),
            Part::OwnFilter if own_filter => self.figures(Node::ReturnFilter, Figures::Pressure),
            Part::Tank => self.figures(Node::Tank, Figures::Pressure),
            _ => Vec::new(),
        }
    }

    /// At the motor's inlet.
    pub fn inlet(&self) -> Block {
        Block { numbers: Vec::new(), lines: self.figures(Node::MotorInlet, Figures::Both) }
    }

    /// At the motor's outlet.
    pub fn outlet(&self) -> Block {
        Block { numbers: Vec::new(), lines: self.figures(Node::MotorOutlet, Figures::Both) }
    }

    /// Behind the coupling of the return, with the numbers of the changes that lay a line there.
    pub fn return_line(&self, schema: &Schema, form: Form) -> Block {
        let mut block = self.block(schema, Part::ReturnLine, form);
        block.lines.extend(self.figures(Node::ReturnLine, Figures::Pressure));
        block
    }

    /// At the motor itself: what it is, and how fast its rotor turns.
    pub fn motor(&self, schema: &Schema, model: &str, form: Form) -> Block {
        let mut block = self.block(schema, Part::Motor, form);
        let stated = schema.get(Part::Motor).is_some_and(|fitted| fitted.state != State::NotStated);
        let name = if stated { model.to_owned() } else { format!("{model}?") };
        let lines = super::super::text::wrap(&name, Face::Word, form.label(Part::Motor));
        block.lines = lines.into_iter().map(|line| (line, Face::Word)).collect();
        block.lines.extend(self.rotor.map(|rotor| (self.words.amount(rotor), Face::Figure)));
        block
    }

    /// The boundary between machine and attachment.
    pub fn border(&self) -> Block {
        Block { numbers: Vec::new(), lines: vec![(self.words.border().to_owned(), Face::Quiet)] }
    }
}
