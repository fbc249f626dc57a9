//! The exact solver: from facts to the values of their figures.
//!
//! 1. **Substitution.** A fact with one unknown figure gives its value; knowing it may leave another fact with
//!    one unknown. Nearly all of a dough falls this way, in the order in which a baker would work it out.
//! 2. **Elimination.** What is left is coupled: a stage stated on its own flour whose size follows from the whole.
//!    It is eliminated sparsely, always by the fact with the fewest unknowns, so that the work grows with the number
//!    of terms and not with the cube of the number of figures.
//! 3. **Verification.** A fact without unknowns must hold exactly. No tolerance decides it.
//!
//! A figure that the facts leave free stays without a value; that is no failure here.

mod eliminate;
mod plan;
mod run;

use std::rc::Rc;

use levamen_formula::{Facts, FigureId};
use levamen_quantity::Exact;
use rustc_hash::FxHashMap;

use plan::{Plan, Shape};
use run::Stop;

/// The values of the figures of some facts: `None` where the facts leave one free.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Values(Vec<Option<Exact>>);

impl Values {
    pub(crate) fn get(&self, figure: FigureId) -> Option<&Exact> {
        self.0.get(figure.index())?.as_ref()
    }
}

/// Facts that cannot all hold: this one is broken by the others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Contradiction;

/// Which facts to solve, and what is known beforehand.
pub(crate) struct Task<'f> {
    pub facts: &'f Facts,
    /// Figures whose value is given: the length of the direction that the facts fix.
    pub known: &'f [(FigureId, Exact)],
    /// Indices of facts that are left out, sorted.
    pub without: &'f [usize],
    /// Facts that are added: sums of terms that are zero.
    pub more: &'f [Vec<(FigureId, Exact)>],
}

/// Solves facts.
///
/// # Errors
/// [`Contradiction`], where the facts cannot all hold.
pub(crate) fn solve(task: &Task<'_>) -> Result<Values, Contradiction> {
    let mut state = Substitution::new(task);
    for (figure, value) in task.known {
        state.learn(*figure, value.clone());
    }
    state.run()?;
    let coupled = state.coupled();
    if !coupled.is_empty() {
        eliminate::solve(coupled, &mut state.values)?;
    }
    Ok(Values(state.values))
}

/// Solves many facts of few shapes: the plan of each shape is made once.
#[derive(Debug, Default)]
pub(crate) struct Solver {
    /// `None` for a shape that leaves a figure free, which is solved without a plan.
    plans: FxHashMap<Shape, Option<Rc<Plan>>>,
}

impl Solver {
    /// Solves facts of which one figure has the value one.
    ///
    /// # Errors
    /// [`Contradiction`], where the facts cannot all hold.
    pub fn solve(&mut self, facts: &Facts, unit: FigureId) -> Result<Values, Contradiction> {
        let plan = self.plans.entry(Shape::of(facts, unit)).or_insert_with(|| Plan::new(facts, unit).map(Rc::new));
        match plan.as_ref().map(|plan| plan.run(facts, unit)) {
            Some(Ok(values)) => Ok(values),
            Some(Err(Stop::Contradiction)) => Err(Contradiction),
            Some(Err(Stop::ByChance)) | None => {
                solve(&Task { facts, known: &[(unit, Exact::ONE)], without: &[], more: &[] })
            }
        }
    }
}

/// A fact with its known terms summed up: the unknown terms and the constant come to zero.
pub(crate) struct Remainder {
    pub unknown: Vec<(FigureId, Exact)>,
    pub constant: Exact,
}

/// The state of substitution.
struct Substitution<'f> {
    rows: Vec<&'f [(FigureId, Exact)]>,
    /// By figure: where its rows start in `in_rows`.
    starts: Vec<u32>,
    in_rows: Vec<u32>,
    /// By row: how many of its figures have no value.
    unknown: Vec<u32>,
    /// Rows to look at: with one unknown, or none.
    ready: Vec<u32>,
    values: Vec<Option<Exact>>,
}

impl<'f> Substitution<'f> {
    fn new(task: &Task<'f>) -> Self {
        let facts = task.facts;
        let left_out = |index: usize| task.without.binary_search(&index).is_ok();
        let stated = facts.facts().iter().enumerate().filter(|(index, _)| !left_out(*index));
        let rows: Vec<&[(FigureId, Exact)]> =
            stated.map(|(_, fact)| facts.terms(fact)).chain(task.more.iter().map(Vec::as_slice)).collect();
        let figures = facts.figures().len();
        let mut starts = vec![0_u32; figures + 1];
        for (figure, _) in rows.iter().copied().flatten() {
            bump(&mut starts, figure.index() + 1);
        }
        let mut total = 0;
        for start in &mut starts {
            total += *start;
            *start = total;
        }
        let mut filled = starts.clone();
        let mut in_rows = vec![0_u32; total as usize];
        for (row, terms) in (0_u32..).zip(&rows) {
            for (figure, _) in *terms {
                if let Some(next) = filled.get_mut(figure.index()) {
                    if let Some(slot) = in_rows.get_mut(*next as usize) {
                        *slot = row;
                    }
                    *next += 1;
                }
            }
        }
        let unknown: Vec<u32> = rows.iter().map(|terms| u32::try_from(terms.len()).unwrap_or(u32::MAX)).collect();
        let ready = (0_u32..).zip(&unknown).filter(|(_, count)| **count <= 1).map(|(row, _)| row).collect();
        Self { rows, starts, in_rows, unknown, ready, values: vec![None; figures] }
    }

    /// Notes a value and the rows that it makes ready.
    fn learn(&mut self, figure: FigureId, value: Exact) {
        let Some(slot) = self.values.get_mut(figure.index()) else { return };
        *slot = Some(value);
        let range = match self.starts.get(figure.index()..figure.index() + 2) {
            Some([start, end]) => *start as usize..*end as usize,
            _ => return,
        };
        for row in self.in_rows.get(range).unwrap_or_default() {
            if let Some(count) = self.unknown.get_mut(*row as usize) {
                *count -= 1;
                if *count <= 1 {
                    self.ready.push(*row);
                }
            }
        }
    }

    /// Substitutes until no row has one unknown.
    fn run(&mut self) -> Result<(), Contradiction> {
        while let Some(row) = self.ready.pop() {
            let Remainder { unknown, constant } = self.remainder(row);
            match unknown.as_slice() {
                [] if constant.is_zero() => {}
                [] => return Err(Contradiction),
                [(figure, coefficient)] => {
                    let value = (-constant).checked_div(coefficient).ok_or(Contradiction)?;
                    self.learn(*figure, value);
                }
                _ => {}
            }
        }
        Ok(())
    }

    fn remainder(&self, row: u32) -> Remainder {
        let mut remainder = Remainder { unknown: Vec::new(), constant: Exact::ZERO };
        for (figure, coefficient) in self.rows.get(row as usize).copied().unwrap_or_default() {
            match self.values.get(figure.index()) {
                Some(Some(value)) => remainder.constant += &(value * coefficient),
                _ => remainder.unknown.push((*figure, coefficient.clone())),
            }
        }
        remainder
    }

    /// The rows that substitution could not use.
    fn coupled(&self) -> Vec<Remainder> {
        let rows = (0_u32..).zip(&self.unknown).filter(|(_, count)| **count > 1);
        rows.map(|(row, _)| self.remainder(row)).collect()
    }
}

fn bump(counts: &mut [u32], index: usize) {
    if let Some(count) = counts.get_mut(index) {
        *count += 1;
    }
}
