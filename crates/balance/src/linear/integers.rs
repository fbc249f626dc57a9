//! Running a plan in machine words, over one common denominator.
//!
//! Nearly all doughs fit in words. Their values are then whole numbers of one small part of the whole, so that adding
//! them is one addition and nothing is brought to a common denominator again and again. Where a value is no whole number
//! of parts, the part is made smaller for all of them. A dough whose numbers outgrow a word is run in
//! [`super::plan`] instead, which holds numbers of any length.

use std::num::NonZero;

use levamen_formula::Facts;
use levamen_quantity::Exact;
use num_integer::gcd;

use super::plan::{Op, Plan, Slot, Stop};
use super::{Terms, Values};

/// How many parts the whole has at first: shares of shares, of which one is in per mille, and most shares of those are whole
/// numbers of parts at once.
const PARTS: i64 = 50_000_000;

/// Why a run in words did not come to its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Ended {
    /// As a run in numbers of any length would have.
    Stopped(Stop),
    /// A number does not fit.
    OutgrewWords,
}

impl From<Stop> for Ended {
    fn from(stop: Stop) -> Self {
        Self::Stopped(stop)
    }
}

/// The numbers of one run; kept for the next, so that it costs no allocation.
#[derive(Debug)]
pub(super) struct Words {
    /// By figure: how many parts it is; nothing where it is not known yet, so that it adds nothing to a sum.
    values: Vec<i64>,
    /// How many parts the whole has.
    parts: i64,
    /// The numbers of coupled facts: coefficients, and sums in parts.
    slots: Vec<Exact>,
    factor: Exact,
}

impl Default for Words {
    fn default() -> Self {
        Self { values: Vec::new(), parts: PARTS, slots: Vec::new(), factor: Exact::ZERO }
    }
}

impl Words {
    /// Runs a plan over some facts, of which the figure `unit` has the value one.
    pub fn run(&mut self, plan: &Plan, facts: &Facts, unit: usize) -> Result<Values, Ended> {
        if !plan.is_whole {
            return Err(Ended::OutgrewWords);
        }
        self.values.clear();
        self.values.resize(facts.figures().len(), 0);
        self.parts = PARTS;
        self.slots.clear();
        self.slots.resize(plan.slots as usize, Exact::ZERO);
        self.learn(unit, PARTS);
        for op in &plan.ops {
            self.step(op, plan, facts)?;
        }
        let whole = NonZero::new(self.parts).ok_or(Ended::OutgrewWords)?;
        let value = |parts: &i64| Some(Exact::quotient(*parts, whole));
        Ok(Values(self.values.iter().map(value).collect()))
    }

    fn step(&mut self, op: &Op, plan: &Plan, facts: &Facts) -> Result<(), Ended> {
        match op {
            Op::Substitute { row, lead } => {
                let (before, rest) = row_of(facts, *row).split_at_checked(*lead as usize).unwrap_or_default();
                let ((figure, coefficient), after) = rest.split_first().ok_or(Stop::ByChance)?;
                let sum = self.sum(0, before, plan)?;
                let sum = self.sum(sum, after, plan)?;
                let value = self.divide(sum, coefficient, plan)?;
                self.learn(figure.index(), value);
            }
            Op::Verify { row } => {
                if self.sum(0, row_of(facts, *row), plan)? != 0 {
                    return Err(Stop::Contradiction.into());
                }
            }
            Op::Constant { slot, row } => {
                let sum = self.sum(0, row_of(facts, *row), plan)?;
                self.put(*slot, Exact::from(sum));
            }
            Op::Copy { slot, row, term } => {
                let coefficient = row_of(facts, *row).get(*term as usize).map(|(_, own)| own.clone());
                self.put(*slot, coefficient.unwrap_or_default());
            }
            Op::Factor { own, lead } => {
                self.factor = -self.slot(*own)?.checked_div(self.slot(*lead)?).ok_or(Stop::ByChance)?;
            }
            Op::Add { to, from } => {
                let mut sum = self.slot(*to)?.clone();
                sum.add_product(self.slot(*from)?, &self.factor);
                self.put(*to, sum);
            }
            Op::Vanish { slot } if self.slot(*slot)?.is_zero() => {}
            Op::Vanish { .. } => return Err(Stop::ByChance.into()),
            Op::Check { slot } if self.slot(*slot)?.is_zero() => {}
            Op::Check { .. } => return Err(Stop::Contradiction.into()),
            Op::Back { figure, lead, constant, rest } => {
                let mut sum = self.slot(*constant)?.clone();
                for (slot, other) in rest {
                    sum.add_product(&Exact::from(self.value(other.index())?), self.slot(*slot)?);
                }
                let value = self.divide_exact(&sum, *lead, plan)?;
                self.learn(figure.index(), value);
            }
        }
        Ok(())
    }

    /// A sum with more terms in parts; those whose figures are not known add nothing.
    #[inline]
    fn sum(&mut self, mut sum: i64, terms: Terms<'_>, plan: &Plan) -> Result<i64, Ended> {
        for (figure, coefficient) in terms {
            let (above, below) = coefficient.in_words().ok_or(Ended::OutgrewWords)?;
            let product = self.value(figure.index())?.checked_mul(above);
            let mut term = product.ok_or(Ended::OutgrewWords)?;
            let below = below.get();
            if below != 1 {
                if term % below == 0 {
                    term /= below;
                } else {
                    let (quotient, finer) = self.refine(term, below, plan)?;
                    (sum, term) = (multiply(sum, finer)?, quotient);
                }
            }
            sum = sum.checked_add(term).ok_or(Ended::OutgrewWords)?;
        }
        fits(Some(sum))
    }

    /// What a figure is whose product with the coefficient makes a sum vanish.
    fn divide(&mut self, sum: i64, coefficient: &Exact, plan: &Plan) -> Result<i64, Ended> {
        let (above, below) = coefficient.in_words().ok_or(Ended::OutgrewWords)?;
        let opposite = multiply(sum, -below.get())?;
        match above {
            0 => Err(Stop::ByChance.into()),
            1 => Ok(opposite),
            _ if opposite % above == 0 => Ok(opposite / above),
            _ => Ok(self.refine(opposite, above, plan)?.0),
        }
    }

    /// The same for a sum and a coefficient of coupled facts.
    fn divide_exact(&mut self, sum: &Exact, lead: Slot, plan: &Plan) -> Result<i64, Ended> {
        let value = -sum.checked_div(self.slot(lead)?).ok_or(Stop::ByChance)?;
        let (above, below) = value.in_words().ok_or(Ended::OutgrewWords)?;
        let below = below.get();
        if above % below == 0 { Ok(above / below) } else { Ok(self.refine(above, below, plan)?.0) }
    }

    /// Makes the parts so fine that a number of them can be divided; returns the quotient, and how much finer they are.
    #[cold]
    fn refine(&mut self, number: i64, divisor: i64, plan: &Plan) -> Result<(i64, i64), Ended> {
        let common = gcd(number % divisor, divisor);
        let finer = (divisor / common).abs();
        let largest = self.values.iter().map(|value| value.unsigned_abs()).max().unwrap_or_default();
        multiply(i64::try_from(largest).map_err(|_| Ended::OutgrewWords)?, finer)?;
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

    fn value(&self, figure: usize) -> Result<i64, Ended> {
        self.values.get(figure).copied().ok_or(Ended::Stopped(Stop::ByChance))
    }

    fn slot(&self, slot: Slot) -> Result<&Exact, Ended> {
        self.slots.get(slot.0 as usize).ok_or(Ended::Stopped(Stop::ByChance))
    }

    fn learn(&mut self, figure: usize, value: i64) {
        if let Some(slot) = self.values.get_mut(figure) {
            *slot = value;
        }
    }

    fn put(&mut self, slot: Slot, value: Exact) {
        if let Some(place) = self.slots.get_mut(slot.0 as usize) {
            *place = value;
        }
    }
}

fn row_of(facts: &Facts, row: u32) -> Terms<'_> {
    facts.facts().get(row as usize).map(|fact| facts.terms(fact)).unwrap_or_default()
}

fn multiply(a: i64, b: i64) -> Result<i64, Ended> {
    fits(a.checked_mul(b))
}

/// The smallest word is left out: it has no opposite.
fn fits(number: Option<i64>) -> Result<i64, Ended> {
    number.filter(|number| *number != i64::MIN).ok_or(Ended::OutgrewWords)
}

#[cfg(test)]
mod tests {
    use levamen_formula::{Book, Figure, state};
    use levamen_language::TextId;

    use super::*;
    use crate::linear::Task;
    use crate::linear::elimination::trace;
    use crate::linear::plan::Run;

    /// A dough whose levain has a seed: its own flour and the seed lean on each other.
    fn dough(share: &str, water: &str, seed: &str) -> Facts {
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
        state(formula, pantry, |_| Some(&mother), &[]).unwrap()
    }

    /// What the plan of one dough makes of another: in words, and in numbers of any length.
    fn both_ways(facts: &Facts) -> (Result<Values, Ended>, Values) {
        let unit = facts.id(Figure::Flour).unwrap();
        let known = [(unit, Exact::ONE)];
        let first = dough("30", "70", "20");
        let (plan, _) = trace(&Task::whole(&first, &known)).unwrap();
        let long = Run::new(&Task::whole(facts, &known), plan.slots).complete(&plan.ops).unwrap();
        (Words::default().run(&plan, facts, unit.index()), long)
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
        assert_eq!(words, Err(Ended::OutgrewWords));
    }
}
