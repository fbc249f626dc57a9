//! Sparse Gaussian elimination, step by step, and keeping the steps.
//!
//! Substitution; then what is coupled block by block, and substitution again after each block; at the end whatever no
//! block has settled. A block is solved by Gaussian elimination over exact rationals, so that a pivot is chosen for
//! sparsity alone and never for its size, with the pivot rule of Markowitz (H. M. Markowitz, "The
//! Elimination Form of the Inverse and Its Application to Linear Programming", Management Science 3 (1957) 255-269; from
//! memory): the row with the fewest unknowns, and in it the variable that is in the fewest rows, so that little new is
//! filled in.
//!
//! Advice to whoever edits this: a row that was used as a pivot is never touched again, and a variable is eliminated
//! from every row that is still open; the back substitution at the end relies on both. A coefficient that comes to
//! zero is taken out of its row and the step says so, since the plan must not be run where it does not.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use levamen_formula::{Term, VariableId};

use super::blocks::{OpenRow, blocks};
use super::plan::{EliminationPlan, Op, PlanSlot, Run, RunError, to_u32};
use super::{Contradiction, System, Values};

/// Solves a system; returns the steps and the values.
///
/// # Errors
/// [`Contradiction`], where the equations cannot all hold.
pub(super) fn trace(system: &System<'_>) -> Result<(EliminationPlan, Values), Contradiction> {
    let mut elimination = Elimination::new(system);
    // 1. Put in the values that are given.
    for (variable, _) in system.known {
        elimination.mark_known(*variable);
    }
    // 2. Substitute: every row with one unknown gives its value.
    let all = (0..elimination.states.len()).rev().collect();
    elimination.substitute(all)?;
    // 3. Bring the coupled rows into block triangular form, and eliminate block by block.
    for block in elimination.blocks() {
        elimination.eliminate(&block)?;
    }
    // 4. Eliminate what no block has settled, now with the row that may repeat what others say.
    elimination.spare = None;
    let left: Vec<usize> = (0..elimination.states.len()).collect();
    elimination.eliminate(&left)?;
    // 5. Verify the rows that were not used.
    elimination.verify()?;
    let (mut plan, values) = (elimination.plan, elimination.run.finish());
    plan.is_whole = values.0.iter().all(Option::is_some);
    Ok((plan, values))
}

/// A coupled row: the slot of each unknown variable's coefficient, and of the constant.
struct SparseRow {
    terms: BTreeMap<VariableId, PlanSlot>,
    constant: PlanSlot,
}

/// Whether a row was used.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum RowState {
    /// It has as many unknown variables.
    Open(usize),
    /// It gave a value, or was found to hold.
    Spent,
}

struct Elimination<'f> {
    run: Run<'f>,
    plan: EliminationPlan,
    states: Vec<RowState>,
    /// By variable: the rows in which it is.
    rows_of: Vec<Vec<usize>>,
    /// The row that may repeat what others say: it gives a value only where a block needs it.
    spare: Option<usize>,
}

impl<'f> Elimination<'f> {
    fn new(system: &System<'f>) -> Self {
        let run = Run::new(system, 0);
        let mut rows_of = vec![Vec::new(); system.variables()];
        let mut states = Vec::with_capacity(run.rows());
        for row in 0..run.rows() {
            let terms = run.row(to_u32(row));
            states.push(RowState::Open(terms.len()));
            for (variable, _) in terms {
                if let Some(rows) = rows_of.get_mut(variable.index()) {
                    rows.push(row);
                }
            }
        }
        Self { run, plan: EliminationPlan::default(), states, rows_of, spare: system.spare() }
    }

    /// Takes a step and keeps it.
    fn step(&mut self, op: Op) -> Result<(), Contradiction> {
        let done = self.run.step(&op);
        self.plan.ops.push(op);
        // While tracing, what comes to zero is looked at before it could be divided by.
        done.map_err(|stop| {
            debug_assert_eq!(stop, RunError::Contradiction);
            Contradiction
        })
    }

    /// A variable has its value now: it is no longer unknown in its rows.
    fn mark_known(&mut self, variable: VariableId) {
        for row in self.rows_of.get(variable.index()).into_iter().flatten() {
            if let Some(RowState::Open(count)) = self.states.get_mut(*row) {
                *count -= 1;
            }
        }
    }

    /// Rows with one unknown give its value, and may leave others with one.
    fn substitute(&mut self, mut ready: Vec<usize>) -> Result<(), Contradiction> {
        while let Some(row) = ready.pop() {
            if self.states.get(row) != Some(&RowState::Open(1)) || self.spare == Some(row) {
                continue;
            }
            let terms = self.run.row(to_u32(row));
            let unknown = |(variable, _): &Term| self.run.value(*variable).is_none();
            let Some(lead) = terms.iter().position(unknown) else { continue };
            let Some((variable, _)) = terms.get(lead).filter(|(_, coefficient)| !coefficient.is_zero())
            else {
                continue;
            };
            self.step(Op::Substitute { row: to_u32(row), lead: to_u32(lead) })?;
            self.spend(row);
            self.mark_known(*variable);
            ready.extend(self.rows_with(*variable));
        }
        Ok(())
    }

    /// Rows without unknowns that gave no value must hold.
    fn verify(&mut self) -> Result<(), Contradiction> {
        for row in 0..self.states.len() {
            if self.states.get(row) == Some(&RowState::Open(0)) {
                self.step(Op::Verify { row: to_u32(row) })?;
            }
        }
        Ok(())
    }

    /// The blocks of rows that are coupled.
    fn blocks(&self) -> Vec<Vec<usize>> {
        let open = (0..self.states.len()).filter(|row| self.is_coupled(*row));
        let unsolved = open.map(|row| {
            let terms = self.run.row(to_u32(row)).iter();
            let variables =
                terms.map(|(variable, _)| *variable).filter(|variable| self.run.value(*variable).is_none());
            OpenRow { row, variables: variables.collect(), spare: self.spare == Some(row) }
        });
        blocks(&unsolved.collect::<Vec<_>>())
    }

    fn is_coupled(&self, row: usize) -> bool {
        matches!(self.states.get(row), Some(RowState::Open(1..)))
    }

    fn rows_with(&self, variable: VariableId) -> impl Iterator<Item = usize> + use<'_, 'f> {
        self.rows_of.get(variable.index()).into_iter().flatten().copied()
    }

    fn spend(&mut self, row: usize) {
        if let Some(slot) = self.states.get_mut(row) {
            *slot = RowState::Spent;
        }
    }

    /// Eliminates the rows of a block that are still coupled, substitutes back, and goes on from there.
    fn eliminate(&mut self, block: &[usize]) -> Result<(), Contradiction> {
        let coupled: Vec<usize> = block.iter().copied().filter(|row| self.is_coupled(*row)).collect();
        // 1. Load the rows into the matrix, the values of known variables already put in.
        let mut matrix = SparseMatrix::default();
        for row in &coupled {
            let loaded = self.load(*row)?;
            matrix.push(loaded);
        }
        let mut pivots = Vec::new();
        // 2. Choose a pivot by Markowitz's rule: the shortest row, and in it the variable in the fewest rows.
        while let Some((index, row)) = matrix.next() {
            let source = coupled.get(index).copied();
            let Some(variable) = matrix.rarest(&row) else {
                // A row of zeros: what is left of it, its constant, must be zero too.
                self.step(Op::Check { slot: row.constant })?;
                if let Some(source) = source {
                    self.spend(source);
                }
                continue;
            };
            // 3. Forward elimination: take the variable out of every row that is still open.
            for other in matrix.columns.remove(&variable).unwrap_or_default() {
                let Some(mut changed) = matrix.take(other).filter(|_| other != index) else { continue };
                let new = self.combine(&mut changed, &row, variable)?;
                matrix.put_back(other, changed, &new);
            }
            pivots.push((variable, row, source));
        }
        // 4. Back substitution, from the last pivot to the first.
        self.back(pivots)
    }

    /// Takes a row into slots.
    fn load(&mut self, row: usize) -> Result<SparseRow, Contradiction> {
        let constant = self.slot();
        self.plan.sums.push(constant);
        self.step(Op::Constant { slot: constant, row: to_u32(row) })?;
        let mut terms = BTreeMap::new();
        for (term, (variable, _)) in self.run.row(to_u32(row)).iter().enumerate() {
            if self.run.value(*variable).is_none() {
                let slot = self.slot();
                self.step(Op::Copy { slot, row: to_u32(row), term: to_u32(term) })?;
                // What is stated to be all of itself says nothing of the variable.
                if self.run.slot(slot).is_zero() {
                    self.step(Op::Vanish { slot })?;
                } else {
                    terms.insert(*variable, slot);
                }
            }
        }
        Ok(SparseRow { terms, constant })
    }

    /// Adds the multiple of a pivot to a row that makes its variable vanish; returns the variables that are new in it.
    fn combine(
        &mut self,
        row: &mut SparseRow,
        pivot: &SparseRow,
        variable: VariableId,
    ) -> Result<Vec<VariableId>, Contradiction> {
        let (Some(own), Some(lead)) = (row.terms.remove(&variable), pivot.terms.get(&variable)) else {
            return Ok(Vec::new());
        };
        self.step(Op::Factor { own, lead: *lead })?;
        self.step(Op::Add { to: row.constant, from: pivot.constant })?;
        let mut new = Vec::new();
        for (other, from) in pivot.terms.iter().filter(|(other, _)| **other != variable) {
            let to = row.terms.get(other).copied().unwrap_or_else(|| {
                new.push(*other);
                self.slot()
            });
            self.step(Op::Add { to, from: *from })?;
            if self.run.slot(to).is_zero() {
                self.step(Op::Vanish { slot: to })?;
                row.terms.remove(other);
            } else {
                row.terms.insert(*other, to);
            }
        }
        Ok(new)
    }

    /// Back substitution, the last pivot first. A variable that depends on a free one stays free.
    fn back(&mut self, pivots: Vec<(VariableId, SparseRow, Option<usize>)>) -> Result<(), Contradiction> {
        let mut ready = Vec::new();
        for (variable, pivot, source) in pivots.into_iter().rev() {
            let Some(lead) = pivot.terms.get(&variable).copied() else { continue };
            let rest = pivot.terms.iter().filter(|(other, _)| **other != variable);
            let rest: Box<[(PlanSlot, VariableId)]> = rest.map(|(other, slot)| (*slot, *other)).collect();
            if rest.iter().all(|(_, other)| self.run.value(*other).is_some()) {
                self.step(Op::Back { variable, lead, constant: pivot.constant, rest })?;
                if let Some(source) = source {
                    self.spend(source);
                }
                self.mark_known(variable);
                ready.extend(self.rows_with(variable));
            }
        }
        self.substitute(ready)
    }

    fn slot(&mut self) -> PlanSlot {
        let slot = PlanSlot(self.plan.slots);
        self.plan.slots += 1;
        slot
    }
}

/// The coupled rows that are still open.
#[derive(Default)]
struct SparseMatrix {
    rows: Vec<Option<SparseRow>>,
    /// By variable: the rows in which it is or was.
    columns: BTreeMap<VariableId, Vec<usize>>,
    /// By variable: in how many rows it is.
    row_counts: BTreeMap<VariableId, usize>,
    /// Rows by their number of unknowns; an entry is stale where the row has changed since.
    queue: BinaryHeap<Reverse<(usize, usize)>>,
}

impl SparseMatrix {
    fn push(&mut self, row: SparseRow) {
        let index = self.rows.len();
        let variables: Vec<VariableId> = row.terms.keys().copied().collect();
        self.rows.push(None);
        self.put_back(index, row, &variables);
    }

    /// Puts a changed row back, with the variables that are new in it.
    fn put_back(&mut self, index: usize, row: SparseRow, new: &[VariableId]) {
        for variable in new {
            self.columns.entry(*variable).or_default().push(index);
        }
        for variable in row.terms.keys() {
            *self.row_counts.entry(*variable).or_default() += 1;
        }
        self.queue.push(Reverse((row.terms.len(), index)));
        if let Some(slot) = self.rows.get_mut(index) {
            *slot = Some(row);
        }
    }

    fn take(&mut self, index: usize) -> Option<SparseRow> {
        let row = self.rows.get_mut(index)?.take()?;
        for variable in row.terms.keys() {
            if let Some(count) = self.row_counts.get_mut(variable) {
                *count -= 1;
            }
        }
        Some(row)
    }

    /// Takes out the row with the fewest unknowns.
    fn next(&mut self) -> Option<(usize, SparseRow)> {
        while let Some(Reverse((length, index))) = self.queue.pop() {
            let current =
                self.rows.get(index).and_then(Option::as_ref).is_some_and(|row| row.terms.len() == length);
            if current && let Some(row) = self.take(index) {
                return Some((index, row));
            }
        }
        None
    }

    /// The variable of a row that is in the fewest others.
    fn rarest(&self, row: &SparseRow) -> Option<VariableId> {
        let row_counts = |variable: &VariableId| self.row_counts.get(variable).copied().unwrap_or_default();
        row.terms.keys().copied().min_by_key(|variable| (row_counts(variable), *variable))
    }
}
