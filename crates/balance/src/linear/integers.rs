//! Running a plan in machine words, over one common denominator.
//!
//! Nearly all doughs fit in words. Their values are then whole numbers of one small part of the whole, so that adding
//! them is one addition and nothing is brought to a common denominator again and again. Where a value is no whole number
//! of parts, the part is made smaller for all of them. A dough whose numbers outgrow a word is run in
//! [`super::plan`] instead, which holds numbers of any length.

use std::num::NonZero;

use levamen_formula::Equations;
use levamen_quantity::Exact;
use num_integer::gcd;

use super::plan::{EliminationPlan, Op, PlanSlot, RunError};
use super::{Terms, Values};

/// How many parts the whole has at first: shares of shares, of which one is in per mille, and most shares of those are
/// whole numbers of parts at once.
const PARTS: i64 = 50_000_000;

/// Why a run in words did not come to its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum IntegerRunError {
    /// As a run in numbers of any length would have.
    Stopped(RunError),
    /// A number does not fit.
    OutgrewWords,
}

impl From<RunError> for IntegerRunError {
    fn from(stop: RunError) -> Self {
        Self::Stopped(stop)
    }
}

/// The numbers of one run; kept for the next, so that it costs no allocation.
#[derive(Debug)]
pub(super) struct IntegerRun {
    /// By variable: how many parts it is; nothing where it is not known yet, so that it adds nothing to a sum.
    values: Vec<i64>,
    /// How many parts the whole has.
    parts: i64,
    /// The numbers of coupled equations: coefficients, and sums in parts.
    slots: Vec<Exact>,
    factor: Exact,
}

impl Default for IntegerRun {
    fn default() -> Self {
        Self { values: Vec::new(), parts: PARTS, slots: Vec::new(), factor: Exact::ZERO }
    }
}

impl IntegerRun {
    /// Runs a plan over some equations, of which the variable `unit` has the value one.
    pub fn run(
        &mut self,
        plan: &EliminationPlan,
        equations: &Equations,
        unit: usize,
    ) -> Result<Values, IntegerRunError> {
        if !plan.is_whole {
            return Err(IntegerRunError::OutgrewWords);
        }
        self.values.clear();
        self.values.resize(equations.variables().len(), 0);
        self.parts = PARTS;
        self.slots.clear();
        self.slots.resize(plan.slots as usize, Exact::ZERO);
        self.learn(unit, PARTS);
        for op in &plan.ops {
            self.step(op, plan, equations)?;
        }
        let whole = NonZero::new(self.parts).ok_or(IntegerRunError::OutgrewWords)?;
        let value = |parts: &i64| Some(Exact::quotient(*parts, whole));
        Ok(Values(self.values.iter().map(value).collect()))
    }

    fn step(
        &mut self,
        op: &Op,
        plan: &EliminationPlan,
        equations: &Equations,
    ) -> Result<(), IntegerRunError> {
        match op {
            Op::Substitute { row, lead } => {
                self.substitute(row_of(equations, *row)?, *lead as usize, plan)?;
            }
            Op::Verify { row } => {
                if self.sum(0, row_of(equations, *row)?, plan)? != 0 {
                    return Err(RunError::Contradiction.into());
                }
            }
            Op::Constant { slot, row } => {
                let sum = self.sum(0, row_of(equations, *row)?, plan)?;
                self.put(*slot, Exact::from(sum));
            }
            Op::Copy { slot, row, term } => {
                let coefficient = row_of(equations, *row)?.get(*term as usize).map(|(_, own)| own.clone());
                self.put(*slot, coefficient.ok_or(RunError::ShapeDiffers)?);
            }
            Op::Factor { own, lead } => {
                self.factor =
                    -self.slot(*own)?.checked_div(self.slot(*lead)?).ok_or(RunError::ShapeDiffers)?;
            }
            Op::Add { to, from } => {
                let mut sum = self.slot(*to)?.clone();
                sum.add_product(self.slot(*from)?, &self.factor);
                self.put(*to, sum);
            }
            Op::Vanish { slot } if self.slot(*slot)?.is_zero() => {}
            Op::Vanish { .. } => return Err(RunError::ShapeDiffers.into()),
            Op::Check { slot } if self.slot(*slot)?.is_zero() => {}
            Op::Check { .. } => return Err(RunError::Contradiction.into()),
            Op::Back { variable, lead, constant, rest } => {
                let mut sum = self.slot(*constant)?.clone();
                for (slot, other) in rest {
                    sum.add_product(&Exact::from(self.value(other.index())?), self.slot(*slot)?);
                }
                let value = self.divide_exact(&sum, *lead, plan)?;
                self.learn(variable.index(), value);
            }
        }
        Ok(())
    }

    /// The row has one unknown variable, at the term `lead`: its value follows.
    #[inline]
    fn substitute(
        &mut self,
        row: Terms<'_>,
        lead: usize,
        plan: &EliminationPlan,
    ) -> Result<(), IntegerRunError> {
        let (before, rest) = row.split_at_checked(lead).ok_or(RunError::ShapeDiffers)?;
        let ((variable, coefficient), after) = rest.split_first().ok_or(RunError::ShapeDiffers)?;
        let sum = self.sum(0, before, plan)?;
        let sum = self.sum(sum, after, plan)?;
        let value = self.divide(sum, coefficient, plan)?;
        self.learn(variable.index(), value);
        Ok(())
    }

    /// A sum with more terms in parts; those whose variables are not known add nothing.
    #[inline]
    fn sum(
        &mut self,
        mut sum: i64,
        terms: Terms<'_>,
        plan: &EliminationPlan,
    ) -> Result<i64, IntegerRunError> {
        for (variable, coefficient) in terms {
            let (above, below) = coefficient.in_words().ok_or(IntegerRunError::OutgrewWords)?;
            let product = self.value(variable.index())?.checked_mul(above);
            let mut term = product.ok_or(IntegerRunError::OutgrewWords)?;
            let below = below.get();
            if below != 1 {
                if term % below == 0 {
                    term /= below;
                } else {
                    let (quotient, finer) = self.refine(term, below, plan)?;
                    (sum, term) = (multiply(sum, finer)?, quotient);
                }
            }
            sum = sum.checked_add(term).ok_or(IntegerRunError::OutgrewWords)?;
        }
        fits(Some(sum))
    }

    /// What a variable is whose product with the coefficient makes a sum vanish.
    fn divide(
        &mut self,
        sum: i64,
        coefficient: &Exact,
        plan: &EliminationPlan,
    ) -> Result<i64, IntegerRunError> {
        let (above, below) = coefficient.in_words().ok_or(IntegerRunError::OutgrewWords)?;
        let opposite = multiply(sum, -below.get())?;
        match above {
            0 => Err(RunError::ShapeDiffers.into()),
            1 => Ok(opposite),
            _ if opposite % above == 0 => Ok(opposite / above),
            _ => Ok(self.refine(opposite, above, plan)?.0),
        }
    }

    /// The same for a sum and a coefficient of coupled equations.
    fn divide_exact(
        &mut self,
        sum: &Exact,
        lead: PlanSlot,
        plan: &EliminationPlan,
    ) -> Result<i64, IntegerRunError> {
        let value = -sum.checked_div(self.slot(lead)?).ok_or(RunError::ShapeDiffers)?;
        let (above, below) = value.in_words().ok_or(IntegerRunError::OutgrewWords)?;
        let below = below.get();
        if above % below == 0 { Ok(above / below) } else { Ok(self.refine(above, below, plan)?.0) }
    }

    /// Makes the parts so fine that a number of them can be divided; returns the quotient, and how much finer they are.
    #[cold]
    fn refine(
        &mut self,
        number: i64,
        divisor: i64,
        plan: &EliminationPlan,
    ) -> Result<(i64, i64), IntegerRunError> {
        let common = gcd(number % divisor, divisor);
        let finer = (divisor / common).abs();
        let largest = self.values.iter().map(|value| value.unsigned_abs()).max().unwrap_or_default();
        multiply(i64::try_from(largest).map_err(|_| IntegerRunError::OutgrewWords)?, finer)?;
        self.parts = multiply(self.parts, finer)?;
        for value in &mut self.values {
            *value *= finer;
        }
        let times = Exact::from(finer);
        for slot in &plan.sums {
            let sum = self.slot(*slot)? * &times;
            self.put(*slot, sum);
        }
        Ok((number / common * divisor.signum(), finer))
    }

    fn value(&self, variable: usize) -> Result<i64, IntegerRunError> {
        self.values.get(variable).copied().ok_or(IntegerRunError::Stopped(RunError::ShapeDiffers))
    }

    fn slot(&self, slot: PlanSlot) -> Result<&Exact, IntegerRunError> {
        self.slots.get(slot.0 as usize).ok_or(IntegerRunError::Stopped(RunError::ShapeDiffers))
    }

    fn learn(&mut self, variable: usize, value: i64) {
        if let Some(slot) = self.values.get_mut(variable) {
            *slot = value;
        }
    }

    fn put(&mut self, slot: PlanSlot, value: Exact) {
        if let Some(place) = self.slots.get_mut(slot.0 as usize) {
            *place = value;
        }
    }
}

fn row_of(equations: &Equations, row: u32) -> Result<Terms<'_>, RunError> {
    equations.all().get(row as usize).map(|equation| equations.terms(equation)).ok_or(RunError::ShapeDiffers)
}

fn multiply(a: i64, b: i64) -> Result<i64, IntegerRunError> {
    fits(a.checked_mul(b))
}

/// The smallest word is left out: it has no opposite.
fn fits(number: Option<i64>) -> Result<i64, IntegerRunError> {
    number.filter(|number| *number != i64::MIN).ok_or(IntegerRunError::OutgrewWords)
}

#[cfg(test)]
mod tests {
    use levamen_formula::{Book, Variable, build_equations};
    use levamen_language::TextId;

    use super::*;
    use crate::linear::System;
    use crate::linear::elimination::trace;
    use crate::linear::plan::Run;

    /// A dough whose levain has a seed: its own flour and the seed depend on each other.
    fn dough(share: &str, water: &str, seed: &str) -> Equations {
        let text = format!(
            "dough D\n\noverall\n  rye flour  100 %\n  water  {water} %\n  salt  2 %\n\nstage levain, a levain\n  takes  {share} % of \
             the flour\n  rye flour  100 %\n  water  80 %\n  from mother  {seed} %\n\nmake 10 kg of dough\n"
        );
        let culture = "culture mother\n  rye flour  100 %\n  water  90 %\n";
        let (book, problems) = Book::read(&[&[(TextId(0), culture), (TextId(1), &text)]]);
        assert!(problems.is_empty(), "{problems:?}");
        let pantry = book.pantry();
        let parts = [("rye flour", 10), ("water", 9)]
            .map(|(name, part)| (pantry.find(name).unwrap(), Exact::from(part)));
        let mother = levamen_formula::Composition::from_weights(parts, pantry).unwrap();
        let formula = book.entry(book.find("D").unwrap()).unwrap().formula.as_ref().unwrap();
        build_equations(formula, pantry, |_| Some(&mother), &[]).unwrap()
    }

    /// What the plan of one dough makes of another: in words, and in numbers of any length.
    fn both_ways(equations: &Equations) -> (Result<Values, IntegerRunError>, Values) {
        let unit = equations.id(Variable::Flour).unwrap();
        let known = [(unit, Exact::ONE)];
        let first = dough("30", "70", "20");
        let (plan, _) = trace(&System::whole(&first, &known)).unwrap();
        let long = Run::new(&System::whole(equations, &known), plan.slots).complete(&plan.ops).unwrap();
        (IntegerRun::default().run(&plan, equations, unit.index()), long)
    }

    #[test]
    fn in_words_the_values_are_the_same() {
        for (share, water, seed) in [("30", "70", "20"), ("12.5", "66.67", "7"), ("33.333", "71.9", "13.7")] {
            let (words, long) = both_ways(&dough(share, water, seed));
            assert_eq!(words.unwrap(), long);
        }
    }

    #[test]
    fn a_dough_that_outgrows_words_is_told() {
        let (words, _) = both_ways(&dough("31.41592653589793", "71.828182845904523", "14.142135623730951"));
        assert_eq!(words, Err(IntegerRunError::OutgrewWords));
    }
}
