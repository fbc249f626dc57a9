//! The plan of a solution, the shape of the facts that it is for, and running it over the numbers of one dough.

use levamen_formula::{Fact, Facts, FigureId};
use levamen_quantity::Exact;

use super::{Rows, Task, Terms, Values};

/// Writes down the shape of some facts, the figures of each and which is known: what decides the steps, but for
/// numbers that come to zero.
pub(crate) fn shape(facts: &Facts, known: FigureId, words: &mut Vec<u32>) {
    words.clear();
    words.extend([known.0, to_u32(facts.figures().len())]);
    words.extend(facts.facts().iter().map(Fact::end));
    words.extend(facts.all_terms().iter().map(|(figure, _)| figure.0));
}

/// The steps of a solution.
///
/// They hold for all facts of the shape but those whose numbers come to zero elsewhere than in the facts that the
/// plan was made from. A run notices that and stops.
#[derive(Debug, Default)]
pub(crate) struct Plan {
    pub ops: Vec<Op>,
    /// How many slots the steps use.
    pub slots: u32,
    /// The slots that hold sums of terms; the others hold coefficients.
    pub sums: Vec<Slot>,
    /// Whether every figure has a value in the end.
    pub is_whole: bool,
}

/// A place for a number while a plan runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Slot(pub u32);

/// One step of a plan.
#[derive(Debug, Clone)]
pub(crate) enum Op {
    /// The row has one unknown figure, at the term `lead`: its value follows.
    Substitute { row: u32, lead: u32 },
    /// The row has no unknown figure: it must hold.
    Verify { row: u32 },
    /// The sum of the terms of the row whose figures have values.
    Constant { slot: Slot, row: u32 },
    /// A coefficient of the row.
    Copy { slot: Slot, row: u32, term: u32 },
    /// The factor of the additions that follow: minus `own` over `lead`.
    Factor { own: Slot, lead: Slot },
    /// Adds `from` times the factor.
    Add { to: Slot, from: Slot },
    /// A coefficient that came to zero when the plan was made, and must again.
    Vanish { slot: Slot },
    /// What is left of a row without unknown figures must be nothing.
    Check { slot: Slot },
    /// A figure from its pivot row and the figures that came after.
    Back { figure: FigureId, lead: Slot, constant: Slot, rest: Box<[(Slot, FigureId)]> },
}

/// An index as plans keep it.
pub(crate) fn to_u32(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}

/// Why a run did not come to its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stop {
    /// The facts cannot all hold.
    Contradiction,
    /// A number came to zero, or did not, otherwise than in the facts that the plan was made from.
    ByChance,
}

/// The numbers of one run.
pub(crate) struct Run<'f> {
    rows: Rows<'f>,
    values: Vec<Option<Exact>>,
    slots: Vec<Exact>,
    factor: Exact,
}

impl<'f> Run<'f> {
    /// A run over the numbers of a task.
    pub fn new(task: &Task<'f>, slots: u32) -> Self {
        let mut values = vec![None; task.figures()];
        for (figure, value) in task.known {
            if let Some(slot) = values.get_mut(figure.index()) {
                *slot = Some(value.clone());
            }
        }
        Self { rows: task.rows(), values, slots: vec![Exact::ZERO; slots as usize], factor: Exact::ZERO }
    }

    /// Takes every step.
    pub fn complete(mut self, ops: &[Op]) -> Result<Values, Stop> {
        for op in ops {
            self.step(op)?;
        }
        Ok(self.finish())
    }

    /// The values so far.
    pub fn finish(self) -> Values {
        Values(self.values)
    }

    /// Takes one step.
    pub fn step(&mut self, op: &Op) -> Result<(), Stop> {
        match op {
            Op::Substitute { row, lead } => self.substitute(*row, *lead as usize),
            Op::Verify { row } => must_hold(&self.constant(*row)),
            Op::Constant { slot, row } => {
                let constant = self.constant(*row);
                self.put(*slot, constant);
                Ok(())
            }
            Op::Copy { slot, row, term } => {
                let coefficient =
                    self.row(*row).get(*term as usize).map(|(_, coefficient)| coefficient.clone());
                self.put(*slot, coefficient.unwrap_or_default());
                Ok(())
            }
            Op::Factor { own, lead } => {
                self.factor = -self.slot(*own).checked_div(self.slot(*lead)).ok_or(Stop::ByChance)?;
                Ok(())
            }
            Op::Add { to, from } => {
                let mut sum = self.slot(*to).clone();
                sum.add_product(self.slot(*from), &self.factor);
                self.put(*to, sum);
                Ok(())
            }
            Op::Vanish { slot } => {
                if self.slot(*slot).is_zero() {
                    Ok(())
                } else {
                    Err(Stop::ByChance)
                }
            }
            Op::Check { slot } => must_hold(self.slot(*slot)),
            Op::Back { figure, lead, constant, rest } => {
                let mut sum = self.slot(*constant).clone();
                for (slot, other) in rest {
                    sum.add_product(self.value(*other).ok_or(Stop::ByChance)?, self.slot(*slot));
                }
                let value = (-sum).checked_div(self.slot(*lead)).ok_or(Stop::ByChance)?;
                self.learn(*figure, value);
                Ok(())
            }
        }
    }

    fn substitute(&mut self, row: u32, lead: usize) -> Result<(), Stop> {
        let terms = self.row(row);
        let mut sum = Exact::ZERO;
        for (index, (figure, coefficient)) in terms.iter().enumerate() {
            if index != lead
                && let Some(value) = self.value(*figure)
            {
                sum.add_product(value, coefficient);
            }
        }
        let (figure, coefficient) = terms.get(lead).ok_or(Stop::ByChance)?;
        let value = if coefficient.is_one() {
            -sum
        } else {
            (-sum).checked_div(coefficient).ok_or(Stop::ByChance)?
        };
        self.learn(*figure, value);
        Ok(())
    }

    /// The sum of a row's terms whose figures have values.
    fn constant(&self, row: u32) -> Exact {
        let mut sum = Exact::ZERO;
        for (figure, coefficient) in self.row(row) {
            if let Some(value) = self.value(*figure) {
                sum.add_product(value, coefficient);
            }
        }
        sum
    }

    /// The terms of a row.
    pub fn row(&self, row: u32) -> Terms<'f> {
        self.rows.get(row)
    }

    /// How many rows there are.
    pub fn rows(&self) -> usize {
        self.rows.len()
    }

    /// The value of a figure.
    pub fn value(&self, figure: FigureId) -> Option<&Exact> {
        self.values.get(figure.index())?.as_ref()
    }

    /// The number in a slot; nothing in one that no step has filled.
    pub fn slot(&self, slot: Slot) -> &Exact {
        self.slots.get(slot.0 as usize).unwrap_or(&NOTHING)
    }

    fn learn(&mut self, figure: FigureId, value: Exact) {
        if let Some(slot) = self.values.get_mut(figure.index()) {
            *slot = Some(value);
        }
    }

    fn put(&mut self, slot: Slot, value: Exact) {
        let index = slot.0 as usize;
        if index >= self.slots.len() {
            self.slots.resize(index + 1, Exact::ZERO);
        }
        if let Some(place) = self.slots.get_mut(index) {
            *place = value;
        }
    }
}

static NOTHING: Exact = Exact::ZERO;

fn must_hold(sum: &Exact) -> Result<(), Stop> {
    if sum.is_zero() { Ok(()) } else { Err(Stop::Contradiction) }
}
