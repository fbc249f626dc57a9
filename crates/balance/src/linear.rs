//! The exact solver: from facts to the values of their figures.
//!
//! 1. **Substitution.** A fact with one unknown figure gives its value; knowing it may leave another fact with
//!    one unknown. Nearly all of a dough falls this way, in the order in which a baker would work it out.
//! 2. **Elimination.** What is left leans on coupled facts: a stage stated on its own flour whose size follows from
//!    the whole. The smallest blocks of coupled facts are found ([`blocks`]) and eliminated one after the other, each
//!    sparsely; after each, substitution goes on. So the work grows with the number of terms and not with the cube of
//!    the number of figures.
//! 3. **Verification.** A fact without unknowns must hold exactly. No tolerance decides it.
//!
//! The steps that solve one dough are kept as a [`Plan`]: the doughs of a book are of a few shapes, and every other
//! dough of the shape is a straight run of the plan over its numbers.
//!
//! A figure that the facts leave free stays without a value; that is no failure here.

mod blocks;
mod derivation;
mod elimination;
mod integers;
mod plan;

use levamen_formula::{Facts, FigureId, Term};
use levamen_quantity::Exact;
use rustc_hash::FxHashMap;

pub(crate) use derivation::{Derivation, How, derive};
use elimination::trace;
use integers::{Ended, Words};
use plan::{Plan, Run, Stop, shape};

/// The values of the figures of some facts: `None` where the facts leave one free.
#[derive(Debug, Clone, PartialEq)]
pub struct Values(Vec<Option<Exact>>);

impl Values {
    /// The value of a figure; `None` where the facts leave it free.
    #[must_use]
    pub fn get(&self, figure: FigureId) -> Option<&Exact> {
        self.0.get(figure.index())?.as_ref()
    }

    /// The values with so many times a change; free figures stay free.
    pub(crate) fn plus(&self, change: &Self, times: &Exact) -> Self {
        let sum = |(value, change): (&Option<Exact>, &Option<Exact>)| {
            let mut sum = value.clone()?;
            sum.add_product(change.as_ref()?, times);
            Some(sum)
        };
        Self(self.0.iter().zip(&change.0).map(sum).collect())
    }

    /// The values in another unit; `None` where it is nothing.
    pub(crate) fn per(&self, unit: &Exact) -> Option<Self> {
        let in_unit = |value: &Option<Exact>| match value {
            Some(value) => value.checked_div(unit).map(Some),
            None => Some(None),
        };
        self.0.iter().map(in_unit).collect::<Option<Vec<_>>>().map(Self)
    }
}

/// Facts that cannot all hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Contradiction;

/// Which facts to solve, and what is known beforehand.
pub(crate) struct Task<'f> {
    pub facts: &'f Facts,
    /// Figures whose value is given: the length of the direction that the facts fix.
    pub known: &'f [Term],
    /// Indices of facts that are left out, sorted.
    pub without: &'f [usize],
    /// Facts that are added: sums of terms that are zero.
    pub more: &'f [Vec<Term>],
}

impl<'f> Task<'f> {
    /// Facts of which one figure has the value one.
    const fn whole(facts: &'f Facts, known: &'f [Term]) -> Self {
        Self { facts, known, without: &[], more: &[] }
    }

    /// How many figures there are: those of the facts, and others that only the added rows speak of.
    fn figures(&self) -> usize {
        let added = self.more.iter().flatten().map(|(figure, _)| figure.index() + 1);
        added.max().unwrap_or_default().max(self.facts.figures().len())
    }

    /// The facts as rows of terms whose sum is zero.
    fn rows(&self) -> Rows<'f> {
        if self.without.is_empty() && self.more.is_empty() {
            return Rows::All(self.facts);
        }
        let facts = self.facts.facts().iter().enumerate();
        let kept = facts.filter(|(index, _)| self.without.binary_search(index).is_err());
        let kept = kept.map(|(_, fact)| self.facts.terms(fact));
        Rows::Some(kept.chain(self.more.iter().map(Vec::as_slice)).collect())
    }

    /// The row that may repeat what others say.
    fn spare(&self) -> Option<usize> {
        let closing = self.facts.closing()?;
        let before = self.without.partition_point(|index| *index < closing);
        (self.without.get(before) != Some(&closing)).then(|| closing - before)
    }
}

/// The terms of one row.
type Terms<'f> = &'f [Term];

/// The rows of a task.
enum Rows<'f> {
    /// Every fact as it stands.
    All(&'f Facts),
    /// Some of the facts, and others.
    Some(Vec<Terms<'f>>),
}

impl<'f> Rows<'f> {
    fn get(&self, row: u32) -> Terms<'f> {
        match self {
            Self::All(facts) => {
                facts.facts().get(row as usize).map(|fact| facts.terms(fact)).unwrap_or_default()
            }
            Self::Some(rows) => rows.get(row as usize).copied().unwrap_or_default(),
        }
    }

    fn len(&self) -> usize {
        match self {
            Self::All(facts) => facts.facts().len(),
            Self::Some(rows) => rows.len(),
        }
    }
}

/// Solves facts.
///
/// # Errors
/// [`Contradiction`], where the facts cannot all hold.
pub(crate) fn solve(task: &Task<'_>) -> Result<Values, Contradiction> {
    trace(task).map(|(_, values)| values)
}

/// How many plans are kept. The doughs of a book are of a few hundred shapes; a book that is edited for days meets ever
/// new ones, of which most are gone with the next edit.
const MOST_PLANS: usize = 2_000;

/// Solves many facts of few shapes.
#[derive(Debug, Default)]
pub struct Solver {
    plans: FxHashMap<Box<[u32]>, Plan>,
    /// The shape at hand; kept, so that a dough costs no allocation for it.
    shape: Vec<u32>,
    words: Words,
}

impl Solver {
    /// Solves facts of which one figure has the value one.
    ///
    /// # Errors
    /// [`Contradiction`], where the facts cannot all hold.
    pub fn solve(&mut self, facts: &Facts, unit: FigureId) -> Result<Values, Contradiction> {
        let known = [(unit, Exact::ONE)];
        let task = Task::whole(facts, &known);
        shape(facts, unit, &mut self.shape);
        if let Some(plan) = self.plans.get(self.shape.as_slice()) {
            let outcome = match self.words.run(plan, facts, unit.index()) {
                Ok(values) => Ok(values),
                Err(Ended::Stopped(stop)) => Err(stop),
                Err(Ended::OutgrewWords) => Run::new(&task, plan.slots).complete(&plan.ops),
            };
            match outcome {
                Ok(values) => return Ok(values),
                Err(Stop::Contradiction) => return Err(Contradiction),
                Err(Stop::ByChance) => {}
            }
        }
        let (plan, values) = trace(&task)?;
        if self.plans.len() >= MOST_PLANS {
            self.plans.clear();
        }
        self.plans.insert(self.shape.as_slice().into(), plan);
        Ok(values)
    }
}
