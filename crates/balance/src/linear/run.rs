//! Running a plan over the numbers of one dough.

use levamen_formula::{Facts, FigureId};
use levamen_quantity::Exact;

use super::plan::Plan;
use super::Values;

/// A place for a number while a plan runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Slot(pub u32);

/// One step of a plan.
#[derive(Debug, Clone)]
pub(crate) enum Op {
    /// The fact `row` has one unknown figure, at the term `lead`: its value follows.
    Substitute { row: u32, lead: u32 },
    /// The fact `row` has no unknown figure: it must hold.
    Verify { row: u32 },
    /// The sum of the terms of `row` whose figures have values.
    Constant { slot: Slot, row: u32 },
    /// A coefficient of `row`.
    Copy { slot: Slot, row: u32, term: u32 },
    /// The factor of the additions that follow: minus `own` over `lead`; `own` is spent.
    Factor { own: Slot, lead: Slot },
    /// Adds `from` times the factor.
    Add { to: Slot, from: Slot },
    /// What is left must be nothing.
    Check { slot: Slot },
    /// A figure from its pivot row and the figures that came after.
    Back { figure: FigureId, lead: Slot, constant: Slot, rest: Box<[(Slot, FigureId)]> },
}

/// Why a plan did not come to its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Stop {
    /// The facts cannot all hold.
    Contradiction,
    /// A pivot came to zero: this dough needs another order.
    ByChance,
}

/// The numbers of one run.
struct Run<'f> {
    facts: &'f Facts,
    values: Vec<Option<Exact>>,
    slots: Vec<Exact>,
    factor: Exact,
}

impl Plan {
    /// Solves facts of this plan's shape, of which one figure has the value one.
    pub fn run(&self, facts: &Facts, known: FigureId) -> Result<Values, Stop> {
        let mut values = vec![None; facts.figures().len()];
        if let Some(value) = values.get_mut(known.index()) {
            *value = Some(Exact::ONE);
        }
        let mut run = Run { facts, values, slots: vec![Exact::ZERO; self.slots], factor: Exact::ZERO };
        for op in &self.ops {
            run.step(op)?;
        }
        Ok(Values(run.values))
    }
}

impl<'f> Run<'f> {
    fn step(&mut self, op: &Op) -> Result<(), Stop> {
        match op {
            Op::Substitute { row, lead } => self.substitute(*row, *lead as usize),
            Op::Verify { row } => holds(&self.constant(*row)),
            Op::Constant { slot, row } => {
                let constant = self.constant(*row);
                self.put(*slot, constant);
                Ok(())
            }
            Op::Copy { slot, row, term } => {
                let coefficient = self.terms(*row).get(*term as usize).map(|(_, coefficient)| coefficient.clone());
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
            Op::Check { slot } => holds(self.slot(*slot)),
            Op::Back { figure, lead, constant, rest } => {
                let mut sum = self.slot(*constant).clone();
                for (slot, other) in rest {
                    if let Some(value) = self.value(*other) {
                        sum.add_product(value, self.slot(*slot));
                    }
                }
                let value = (-sum).checked_div(self.slot(*lead)).ok_or(Stop::ByChance)?;
                self.learn(*figure, value);
                Ok(())
            }
        }
    }

    fn substitute(&mut self, row: u32, lead: usize) -> Result<(), Stop> {
        let mut sum = Exact::ZERO;
        let terms = self.terms(row);
        for (index, (figure, coefficient)) in terms.iter().enumerate() {
            if index != lead
                && let Some(value) = self.value(*figure)
            {
                sum.add_product(value, coefficient);
            }
        }
        let (figure, coefficient) = terms.get(lead).ok_or(Stop::ByChance)?;
        let value = if coefficient.is_one() { -sum } else { (-sum).checked_div(coefficient).ok_or(Stop::ByChance)? };
        self.learn(*figure, value);
        Ok(())
    }

    /// The sum of a fact's terms whose figures have values.
    fn constant(&self, row: u32) -> Exact {
        let mut sum = Exact::ZERO;
        for (figure, coefficient) in self.terms(row) {
            if let Some(value) = self.value(*figure) {
                sum.add_product(value, coefficient);
            }
        }
        sum
    }

    fn terms(&self, row: u32) -> &'f [(FigureId, Exact)] {
        self.facts.facts().get(row as usize).map(|fact| self.facts.terms(fact)).unwrap_or_default()
    }

    fn value(&self, figure: FigureId) -> Option<&Exact> {
        self.values.get(figure.index())?.as_ref()
    }

    fn learn(&mut self, figure: FigureId, value: Exact) {
        if let Some(slot) = self.values.get_mut(figure.index()) {
            *slot = Some(value);
        }
    }

    fn slot(&self, slot: Slot) -> &Exact {
        // Slots are numbered by the plan that made this run's list of them.
        self.slots.get(slot.0 as usize).unwrap_or(&NOTHING)
    }

    fn put(&mut self, slot: Slot, value: Exact) {
        if let Some(place) = self.slots.get_mut(slot.0 as usize) {
            *place = value;
        }
    }
}

static NOTHING: Exact = Exact::ZERO;

fn holds(sum: &Exact) -> Result<(), Stop> {
    if sum.is_zero() { Ok(()) } else { Err(Stop::Contradiction) }
}
