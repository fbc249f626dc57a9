//! The exact solver of linear equations: sparse Gaussian elimination over exact rationals, in block triangular form.
//!
//! 1. **Substitution.** An equation with one unknown variable gives its value; knowing it may leave another equation with
//!    one unknown. Nearly all of a dough falls this way, in the order in which a baker would work it out.
//! 2. **Elimination.** What is left is coupled: a stage stated on its own flour whose size follows from
//!    the whole. The smallest blocks of coupled equations are found ([`blocks`]) and eliminated one after the other, each
//!    sparsely; after each, substitution goes on. So the work grows with the number of terms and not with the cube of
//!    the number of variables.
//! 3. **Verification.** An equation without unknowns must hold exactly. No tolerance decides it.
//!
//! The steps that solve one dough are kept as an [`EliminationPlan`]: the doughs of a book are of a few shapes, and
//! every other dough of the shape is a straight run of the plan over its numbers.
//!
//! A variable that the equations leave free stays without a value; that is no failure here.

mod blocks;
mod derivation;
mod elimination;
mod integers;
mod plan;

use levamen_formula::{Equations, Term, VariableId};
use levamen_quantity::Exact;
use rustc_hash::FxHashMap;

pub(crate) use derivation::{Derivation, ValueSource, derive};
use elimination::trace;
use integers::{IntegerRun, IntegerRunError};
use plan::{EliminationPlan, Run, RunError, shape};

/// The values of the variables of some equations: `None` where the equations leave one free.
#[derive(Debug, Clone, PartialEq)]
pub struct Values(Vec<Option<Exact>>);

impl Values {
    /// The value of a variable; `None` where the equations leave it free.
    #[must_use]
    pub fn get(&self, variable: VariableId) -> Option<&Exact> {
        self.0.get(variable.index())?.as_ref()
    }

    /// The values with so many times a change; free variables stay free.
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

/// Equations that cannot all hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Contradiction;

/// Which equations to solve, and what is known beforehand.
pub(crate) struct System<'f> {
    pub equations: &'f Equations,
    /// Figures whose value is given: the length of the direction that the equations fix.
    pub known: &'f [Term],
    /// Indices of equations that are left out, sorted.
    pub without: &'f [usize],
    /// Equations that are added: sums of terms that are zero.
    pub more: &'f [Vec<Term>],
}

impl<'f> System<'f> {
    /// Equations of which one variable has the value one.
    const fn whole(equations: &'f Equations, known: &'f [Term]) -> Self {
        Self { equations, known, without: &[], more: &[] }
    }

    /// How many variables there are: those of the equations, and others that only the added rows mention.
    fn variables(&self) -> usize {
        let added = self.more.iter().flatten().map(|(variable, _)| variable.index() + 1);
        added.max().unwrap_or_default().max(self.equations.variables().len())
    }

    /// The equations as rows of terms whose sum is zero.
    fn rows(&self) -> EquationRows<'f> {
        if self.without.is_empty() && self.more.is_empty() {
            return EquationRows::All(self.equations);
        }
        let equations = self.equations.all().iter().enumerate();
        let kept = equations.filter(|(index, _)| self.without.binary_search(index).is_err());
        let kept = kept.map(|(_, equation)| self.equations.terms(equation));
        EquationRows::Some(kept.chain(self.more.iter().map(Vec::as_slice)).collect())
    }

    /// The row that may repeat what others say.
    fn spare(&self) -> Option<usize> {
        let closing = self.equations.closing()?;
        let before = self.without.partition_point(|index| *index < closing);
        (self.without.get(before) != Some(&closing)).then(|| closing - before)
    }
}

/// The terms of one row.
type Terms<'f> = &'f [Term];

/// The rows of a system.
enum EquationRows<'f> {
    /// Every equation as it is.
    All(&'f Equations),
    /// Some of the equations, and others.
    Some(Vec<Terms<'f>>),
}

impl<'f> EquationRows<'f> {
    fn get(&self, row: u32) -> Terms<'f> {
        let terms = match self {
            Self::All(equations) => {
                equations.all().get(row as usize).map(|equation| equations.terms(equation))
            }
            Self::Some(rows) => rows.get(row as usize).copied(),
        };
        debug_assert!(terms.is_some(), "rows are counted before they are asked for");
        terms.unwrap_or_default()
    }

    fn len(&self) -> usize {
        match self {
            Self::All(equations) => equations.all().len(),
            Self::Some(rows) => rows.len(),
        }
    }
}

/// Solves equations.
///
/// # Errors
/// [`Contradiction`], where the equations cannot all hold.
pub(crate) fn solve(system: &System<'_>) -> Result<Values, Contradiction> {
    trace(system).map(|(_, values)| values)
}

/// How many plans are kept. The doughs of a book are of a few hundred shapes; a book that is edited for days meets ever
/// new ones, of which most are gone with the next edit.
const MOST_PLANS: usize = 2_000;

/// Solves many equations of few shapes.
#[derive(Debug, Default)]
pub struct Solver {
    plans: FxHashMap<Box<[u32]>, EliminationPlan>,
    /// The shape at hand; kept, so that a dough costs no allocation for it.
    shape: Vec<u32>,
    words: IntegerRun,
}

impl Solver {
    /// Solves equations of which one variable has the value one.
    ///
    /// # Errors
    /// [`Contradiction`], where the equations cannot all hold.
    pub fn solve(&mut self, equations: &Equations, unit: VariableId) -> Result<Values, Contradiction> {
        let known = [(unit, Exact::ONE)];
        let system = System::whole(equations, &known);
        shape(equations, unit, &mut self.shape);
        if let Some(plan) = self.plans.get(self.shape.as_slice()) {
            let outcome = match self.words.run(plan, equations, unit.index()) {
                Ok(values) => Ok(values),
                Err(IntegerRunError::Stopped(stop)) => Err(stop),
                Err(IntegerRunError::OutgrewWords) => Run::new(&system, plan.slots).complete(&plan.ops),
            };
            match outcome {
                Ok(values) => return Ok(values),
                Err(RunError::Contradiction) => return Err(Contradiction),
                Err(RunError::ShapeDiffers) => {}
            }
        }
        let (plan, values) = trace(&system)?;
        if self.plans.len() >= MOST_PLANS {
            self.plans.clear();
        }
        self.plans.insert(self.shape.as_slice().into(), plan);
        Ok(values)
    }
}
