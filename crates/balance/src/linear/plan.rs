//! The plan of a solution: what to do, from the structure of the facts alone.
//!
//! The doughs of a book are of a few shapes, so the order of substitution, the pivots and where they fill in are
//! found once for a shape, and each dough of it is a straight run over its numbers. The plan is the sparse
//! elimination of [`super::eliminate`] done on symbols.
//!
//! A plan holds for every dough of its shape but those in which a pivot comes to zero by chance; those are solved
//! without a plan.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use levamen_formula::{Facts, FigureId};

use super::run::{Op, Slot};

/// What a plan is made from: the figures of each fact, and which are known.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(crate) struct Shape(Vec<u32>);

impl Shape {
    /// The shape of some facts.
    pub fn of(facts: &Facts, known: FigureId) -> Self {
        let mut words = Vec::with_capacity(256);
        words.extend([known.0, u32::try_from(facts.figures().len()).unwrap_or(u32::MAX)]);
        for fact in facts.facts() {
            let terms = facts.terms(fact);
            words.push(u32::try_from(terms.len()).unwrap_or(u32::MAX));
            words.extend(terms.iter().map(|(figure, _)| figure.0));
        }
        Self(words)
    }
}

/// The steps of a solution.
#[derive(Debug)]
pub(crate) struct Plan {
    pub ops: Vec<Op>,
    pub slots: usize,
}

impl Plan {
    /// The plan for facts of which one figure is known; `None` where their structure leaves a figure free.
    pub fn new(facts: &Facts, known: FigureId) -> Option<Self> {
        let mut planner = Planner::new(facts, known);
        planner.substitute();
        planner.eliminate();
        let complete = planner.settled.iter().all(|settled| *settled);
        complete.then_some(Self { ops: planner.ops, slots: planner.slots as usize })
    }
}

/// A coupled row: the slot of each unknown figure's coefficient, and of the constant.
struct Row {
    terms: BTreeMap<FigureId, Slot>,
    constant: Slot,
}

struct Planner<'f> {
    facts: &'f Facts,
    settled: Vec<bool>,
    /// By row: how many of its figures are not settled.
    unknown: Vec<usize>,
    /// By figure: the rows in which it stands.
    rows_of: Vec<Vec<usize>>,
    ops: Vec<Op>,
    slots: u32,
}

impl<'f> Planner<'f> {
    fn new(facts: &'f Facts, known: FigureId) -> Self {
        let mut rows_of = vec![Vec::new(); facts.figures().len()];
        let mut unknown = Vec::with_capacity(facts.facts().len());
        for (row, fact) in facts.facts().iter().enumerate() {
            let terms = facts.terms(fact);
            unknown.push(terms.len());
            for (figure, _) in terms {
                if let Some(rows) = rows_of.get_mut(figure.index()) {
                    rows.push(row);
                }
            }
        }
        let mut planner =
            Self { facts, settled: vec![false; rows_of.len()], unknown, rows_of, ops: Vec::new(), slots: 0 };
        planner.settle(known);
        planner
    }

    fn is_settled(&self, figure: FigureId) -> bool {
        self.settled.get(figure.index()).copied().unwrap_or(true)
    }

    fn settle(&mut self, figure: FigureId) {
        if let Some(settled) = self.settled.get_mut(figure.index()) {
            *settled = true;
        }
        for row in self.rows_of.get(figure.index()).into_iter().flatten() {
            if let Some(count) = self.unknown.get_mut(*row) {
                *count -= 1;
            }
        }
    }

    /// Rows with one unknown give its value; rows without must hold.
    fn substitute(&mut self) {
        let mut ready: Vec<usize> = (0..self.unknown.len()).rev().collect();
        while let Some(row) = ready.pop() {
            match self.unknown.get(row) {
                Some(1) => {}
                // A row is looked at again when its last figure is settled, and then it is checked.
                _ => continue,
            }
            let Some(fact) = self.facts.facts().get(row) else { continue };
            let unknown = |(_, (figure, _)): &(usize, &(FigureId, _))| !self.is_settled(*figure);
            let Some((lead, (figure, _))) = self.facts.terms(fact).iter().enumerate().find(unknown) else { continue };
            let (lead, figure) = (u32::try_from(lead).unwrap_or(u32::MAX), *figure);
            self.ops.push(Op::Substitute { row: to_u32(row), lead });
            self.mark_used(row);
            self.settle(figure);
            ready.extend(self.rows_of.get(figure.index()).into_iter().flatten());
        }
        for row in 0..self.unknown.len() {
            if self.unknown.get(row) == Some(&0) {
                self.ops.push(Op::Verify { row: to_u32(row) });
            }
        }
    }

    /// A row that gave a value needs no check.
    fn mark_used(&mut self, row: usize) {
        if let Some(count) = self.unknown.get_mut(row) {
            *count = usize::MAX;
        }
    }

    /// What substitution could not use: sparse elimination on symbols, then back substitution.
    fn eliminate(&mut self) {
        let mut rows: Vec<Option<Row>> = Vec::new();
        let mut columns: BTreeMap<FigureId, Vec<usize>> = BTreeMap::new();
        let mut queue = BinaryHeap::new();
        let coupled = (0..self.unknown.len()).filter(|row| {
            self.unknown.get(*row).is_some_and(|count| (1..self.facts.figures().len() + 1).contains(count))
        });
        for row in coupled.collect::<Vec<_>>() {
            let index = rows.len();
            let loaded = self.load(row);
            for figure in loaded.terms.keys() {
                columns.entry(*figure).or_default().push(index);
            }
            queue.push(Reverse((loaded.terms.len(), index)));
            rows.push(Some(loaded));
        }
        let mut pivots = Vec::new();
        while let Some(Reverse((length, index))) = queue.pop() {
            let Some(row) = rows.get(index).and_then(Option::as_ref) else { continue };
            if row.terms.len() != length {
                continue;
            }
            let standing = |figure: &FigureId| columns.get(figure).map_or(0, Vec::len);
            let Some(figure) = row.terms.keys().copied().min_by_key(|figure| (standing(figure), *figure)) else {
                self.ops.push(Op::Check { slot: row.constant });
                continue;
            };
            let Some(pivot) = rows.get_mut(index).and_then(Option::take) else { continue };
            for other in columns.remove(&figure).unwrap_or_default() {
                let Some(row) = rows.get_mut(other).and_then(Option::as_mut) else { continue };
                for new in self.combine(row, &pivot, figure) {
                    columns.entry(new).or_default().push(other);
                }
                queue.push(Reverse((row.terms.len(), other)));
            }
            pivots.push((figure, pivot));
        }
        self.back(pivots);
    }

    /// Takes a row into slots.
    fn load(&mut self, row: usize) -> Row {
        let constant = self.slot();
        self.ops.push(Op::Constant { slot: constant, row: to_u32(row) });
        let mut terms = BTreeMap::new();
        let fact = self.facts.facts().get(row);
        for (index, (figure, _)) in fact.map(|fact| self.facts.terms(fact)).unwrap_or_default().iter().enumerate() {
            if !self.is_settled(*figure) {
                let slot = self.slot();
                self.ops.push(Op::Copy { slot, row: to_u32(row), term: to_u32(index) });
                terms.insert(*figure, slot);
            }
        }
        Row { terms, constant }
    }

    /// Adds the multiple of a pivot to a row that makes its figure vanish; returns the figures that are new in it.
    fn combine(&mut self, row: &mut Row, pivot: &Row, figure: FigureId) -> Vec<FigureId> {
        let (Some(own), Some(lead)) = (row.terms.remove(&figure), pivot.terms.get(&figure)) else { return Vec::new() };
        self.ops.push(Op::Factor { own, lead: *lead });
        self.ops.push(Op::Add { to: row.constant, from: pivot.constant });
        let mut new = Vec::new();
        for (other, from) in pivot.terms.iter().filter(|(other, _)| **other != figure) {
            if let Some(to) = row.terms.get(other) {
                self.ops.push(Op::Add { to: *to, from: *from });
            } else {
                let to = self.slot();
                self.ops.push(Op::Add { to, from: *from });
                row.terms.insert(*other, to);
                new.push(*other);
            }
        }
        new
    }

    /// Back substitution, the last pivot first.
    fn back(&mut self, pivots: Vec<(FigureId, Row)>) {
        for (figure, pivot) in pivots.into_iter().rev() {
            let Some(lead) = pivot.terms.get(&figure).copied() else { continue };
            let rest: Vec<(Slot, FigureId)> =
                pivot.terms.iter().filter(|(other, _)| **other != figure).map(|(other, slot)| (*slot, *other)).collect();
            if rest.iter().all(|(_, other)| self.is_settled(*other)) {
                self.ops.push(Op::Back { figure, lead, constant: pivot.constant, rest: rest.into() });
                self.settle(figure);
            }
        }
    }

    fn slot(&mut self) -> Slot {
        let slot = Slot(self.slots);
        self.slots += 1;
        slot
    }
}

fn to_u32(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}
