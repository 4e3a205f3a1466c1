//! The solver: takes messages, does a piece of the work at a time, and hands out replies.

use super::fill_next::FillNext;
use super::fits::List;
use super::memory::{self, Memory};
use super::plate::OfPlate;
use super::runs::RunsOnTask;
use super::script::ListJson;
use super::task::{Found, Task};
use super::{Answer, Message, Reader, Reply, Request};
use std::collections::VecDeque;
use std::sync::Arc;
use wording::{Desk, Numbers, Words};

/// Answers requests, one piece of work after the other.
///
/// ```
/// use quantity::UnitSystem;
/// use solver::{Answer, Machine, Message, Reader, Request, Solver};
/// let mut solver = Solver::new(&wording::PlainNumbers);
/// let text = include_str!("../../../public/table/demo.json").to_owned();
/// solver.hear(Message::Table { mark: "demo".to_owned(), text });
/// let reader = Reader { table: "demo".to_owned(), units: UnitSystem::Metric };
/// let request = Request::Fits {
///     reader,
///     machine: Machine::OfTable("quern-q27".to_owned()),
///     asked: solver::Asked::default(),
///     among: vec!["thistlecut-r60".to_owned()],
/// };
/// solver.hear(Message::Ask { id: 1, request });
/// while solver.step() {}
/// let replies = solver.replies();
/// assert!(matches!(&replies[0].answer, Answer::Rows { rows, .. } if rows[0].head == "thistlecut-r60"));
/// ```
pub struct Solver {
    numbers: &'static dyn Numbers,
    memory: Memory,
    desk: Desk,
    tasks: VecDeque<(u32, Box<dyn Task>)>,
    /// Of tasks that are done.
    ready: Vec<Reply>,
}

impl Solver {
    /// A solver that writes numbers in a reader's way.
    pub fn new(numbers: &'static dyn Numbers) -> Self {
        Self { numbers, memory: Memory::default(), desk: Desk::default(), tasks: VecDeque::new(), ready: Vec::new() }
    }

    /// Takes a message.
    pub fn hear(&mut self, message: Message) {
        match message {
            Message::Table { mark, text } => self.memory.take(mark, text),
            Message::Ask { id, request } => {
                let task = self.task(request);
                self.tasks.push_back((id, task));
            }
            Message::Stop { id } => {
                self.tasks.retain(|(of, _)| *of != id);
                self.ready.retain(|reply| reply.id != id);
            }
        }
    }

    /// Does a piece of the work; false when nothing is left to do. Requests take turns, so that a long one holds up no other.
    pub fn step(&mut self) -> bool {
        let Some((id, mut task)) = self.tasks.pop_front() else { return false };
        if task.step(&mut self.memory) {
            self.tasks.push_back((id, task));
        } else {
            self.ready.extend(task.tell().into_iter().map(|answer| Reply { id, answer }));
        }
        !self.tasks.is_empty()
    }

    /// What is to be told that was not told before.
    pub fn replies(&mut self) -> Vec<Reply> {
        let mut replies = std::mem::take(&mut self.ready);
        for (id, task) in &mut self.tasks {
            replies.extend(task.tell().into_iter().map(|answer| Reply { id: *id, answer }));
        }
        replies
    }

    fn words(&self, reader: &Reader) -> Words<'static> {
        Words { numbers: self.numbers, units: reader.units }
    }

    fn task(&mut self, request: Request) -> Box<dyn Task> {
        let of = |memory: &Memory, reader: &Reader| memory.table(&reader.table);
        let nothing = || -> Box<dyn Task> { Box::new(Found(vec![Answer::Done])) };
        match request {
            Request::Fits { reader, machine, asked, among } => {
                let words = self.words(&reader);
                let Some(of) = of(&self.memory, &reader) else { return nothing() };
                match memory::machine(&of, &machine) {
                    Some(machine) => Box::new(List::of_machine(of, words, &machine, &asked, &among)),
                    None => nothing(),
                }
            }
            Request::Machines { reader, head, own } => {
                let words = self.words(&reader);
                let Some(of) = of(&self.memory, &reader) else { return nothing() };
                match of.table.heads.iter().position(|known| known.id.as_str() == head) {
                    Some(head) => Box::new(List::of_head(Arc::clone(&of), words, head, &own)),
                    None => nothing(),
                }
            }
            Request::RunsOn { reader, heads, own } => {
                let words = self.words(&reader);
                let Some(of) = of(&self.memory, &reader) else { return nothing() };
                Box::new(RunsOnTask::new(of, words, heads, &own))
            }
            Request::Plate { reader, plate, among, questions, typical } => {
                let words = self.words(&reader);
                let Some(of) = of(&self.memory, &reader) else { return nothing() };
                Box::new(OfPlate::new(of, words, &plate, &among, questions, typical))
            }
            Request::FillNext { reader, most } => {
                let words = self.words(&reader);
                let Some(of) = of(&self.memory, &reader) else { return nothing() };
                Box::new(FillNext::new(of, words, most))
            }
            Request::Pair { table, carrier, head } => {
                Box::new(Found(vec![Answer::Json(self.desk.pair(&table, &carrier, &head))]))
            }
            Request::List { table, carrier } => match self.desk.machine(&table, &carrier) {
                Ok(found) => Box::new(ListJson::new(found)),
                Err(refused) => Box::new(Found(vec![Answer::Json(refused.to_json())])),
            },
            Request::Check { table } => Box::new(Found(vec![Answer::Json(self.desk.check_table(&table))])),
        }
    }
}
