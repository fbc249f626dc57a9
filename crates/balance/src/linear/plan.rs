//! The plan of a solution, the shape of the equations that it is for, and running it over the numbers of one dough.

use levamen_formula::{Equation, Equations, VariableId};
use levamen_quantity::Exact;

use super::{EquationRows, System, Terms, Values};

/// Writes down the shape of some equations, the variables of each and which is known: what decides the steps, but for
/// numbers that come to zero.
pub(crate) fn shape(equations: &Equations, known: VariableId, words: &mut Vec<u32>) {
    words.clear();
    words.extend([known.0, to_u32(equations.variables().len())]);
    words.extend(equations.all().iter().map(Equation::end));
    words.extend(equations.all_terms().iter().map(|(variable, _)| variable.0));
}

/// The steps of a solution.
///
/// They hold for all equations of the shape but those whose numbers come to zero elsewhere than in the equations that the
/// plan was made from. A run notices that and stops.
#[derive(Debug, Default)]
pub(crate) struct EliminationPlan {
    pub ops: Vec<Op>,
    /// How many slots the steps use.
    pub slots: u32,
    /// The slots that hold sums of terms; the others hold coefficients.
    pub sums: Vec<PlanSlot>,
    /// Whether every variable has a value in the end.
    pub is_whole: bool,
}

/// A place for a number while a plan runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct PlanSlot(pub u32);

/// One step of a plan.
#[derive(Debug, Clone)]
pub(crate) enum Op {
    /// The row has one unknown variable, at the term `lead`: its value follows.
    Substitute { row: u32, lead: u32 },
    /// The row has no unknown variable: it must hold.
    Verify { row: u32 },
    /// The sum of the terms of the row whose variables have values.
    Constant { slot: PlanSlot, row: u32 },
    /// A coefficient of the row.
    Copy { slot: PlanSlot, row: u32, term: u32 },
    /// The factor of the additions that follow: minus `own` over `lead`.
    Factor { own: PlanSlot, lead: PlanSlot },
    /// Adds `from` times the factor.
    Add { to: PlanSlot, from: PlanSlot },
    /// A coefficient that came to zero when the plan was made, and must again.
    Vanish { slot: PlanSlot },
    /// What is left of a row without unknown variables must be nothing.
    Check { slot: PlanSlot },
    /// A variable from its pivot row and the variables that came after.
    Back { variable: VariableId, lead: PlanSlot, constant: PlanSlot, rest: Box<[(PlanSlot, VariableId)]> },
}

/// An index as plans keep it.
pub(crate) fn to_u32(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}

/// Why a run did not come to its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum RunError {
    /// The equations cannot all hold.
    Contradiction,
    /// A number came to zero, or did not, otherwise than in the equations that the plan was made from.
    ShapeDiffers,
}

/// The numbers of one run.
pub(crate) struct Run<'f> {
    rows: EquationRows<'f>,
    values: Vec<Option<Exact>>,
    slots: Vec<Exact>,
    factor: Exact,
}

impl<'f> Run<'f> {
    /// A run over the numbers of a system.
    pub fn new(system: &System<'f>, slots: u32) -> Self {
        let mut values = vec![None; system.variables()];
        for (variable, value) in system.known {
            if let Some(slot) = values.get_mut(variable.index()) {
                *slot = Some(value.clone());
            }
        }
        Self { rows: system.rows(), values, slots: vec![Exact::ZERO; slots as usize], factor: Exact::ZERO }
    }

    /// Takes every step.
    pub fn complete(mut self, ops: &[Op]) -> Result<Values, RunError> {
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
    pub fn step(&mut self, op: &Op) -> Result<(), RunError> {
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
                self.put(*slot, coefficient.ok_or(RunError::ShapeDiffers)?);
                Ok(())
            }
            Op::Factor { own, lead } => {
                self.factor = -self.slot(*own).checked_div(self.slot(*lead)).ok_or(RunError::ShapeDiffers)?;
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
                    Err(RunError::ShapeDiffers)
                }
            }
            Op::Check { slot } => must_hold(self.slot(*slot)),
            Op::Back { variable, lead, constant, rest } => {
                let mut sum = self.slot(*constant).clone();
                for (slot, other) in rest {
                    sum.add_product(self.value(*other).ok_or(RunError::ShapeDiffers)?, self.slot(*slot));
                }
                let value = (-sum).checked_div(self.slot(*lead)).ok_or(RunError::ShapeDiffers)?;
                self.learn(*variable, value);
                Ok(())
            }
        }
    }

    fn substitute(&mut self, row: u32, lead: usize) -> Result<(), RunError> {
        let terms = self.row(row);
        let mut sum = Exact::ZERO;
        for (index, (variable, coefficient)) in terms.iter().enumerate() {
            if index != lead
                && let Some(value) = self.value(*variable)
            {
                sum.add_product(value, coefficient);
            }
        }
        let (variable, coefficient) = terms.get(lead).ok_or(RunError::ShapeDiffers)?;
        let value = if coefficient.is_one() {
            -sum
        } else {
            (-sum).checked_div(coefficient).ok_or(RunError::ShapeDiffers)?
        };
        self.learn(*variable, value);
        Ok(())
    }

    /// The sum of a row's terms whose variables have values.
    fn constant(&self, row: u32) -> Exact {
        let mut sum = Exact::ZERO;
        for (variable, coefficient) in self.row(row) {
            if let Some(value) = self.value(*variable) {
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

    /// The value of a variable.
    pub fn value(&self, variable: VariableId) -> Option<&Exact> {
        self.values.get(variable.index())?.as_ref()
    }

    /// The number in a slot; nothing in one that no step has filled.
    pub fn slot(&self, slot: PlanSlot) -> &Exact {
        self.slots.get(slot.0 as usize).unwrap_or(&NOTHING)
    }

    fn learn(&mut self, variable: VariableId, value: Exact) {
        if let Some(slot) = self.values.get_mut(variable.index()) {
            *slot = Some(value);
        }
    }

    fn put(&mut self, slot: PlanSlot, value: Exact) {
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

fn must_hold(sum: &Exact) -> Result<(), RunError> {
    if sum.is_zero() { Ok(()) } else { Err(RunError::Contradiction) }
}
