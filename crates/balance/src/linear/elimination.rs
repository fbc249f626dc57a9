//! Solving facts step by step, and keeping the steps.
//!
//! Substitution; then what is coupled block by block, and substitution again after each block; at the end whatever no
//! block has settled. A block is solved by Gaussian elimination with the pivot rule of Markowitz (H. M. Markowitz, "The
//! Elimination Form of the Inverse and Its Application to Linear Programming", Management Science 3 (1957) 255-269; from
//! memory): the row with the fewest unknowns, and in it the figure that stands in the fewest rows, so that little new is
//! filled in.
//!
//! Advice to whoever edits this: a row that was used as a pivot is never touched again, and a figure is eliminated
//! from every row that is still open; the back substitution at the end relies on both. A coefficient that comes to
//! zero is taken out of its row and the step says so, since the plan must not be run where it does not.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use levamen_formula::{FigureId, Term};

use super::blocks::{Unsolved, blocks};
use super::plan::{Op, Plan, Run, Slot, Stop, to_u32};
use super::{Contradiction, Task, Values};

/// Solves a task; returns the steps and the values.
///
/// # Errors
/// [`Contradiction`], where the facts cannot all hold.
pub(super) fn trace(task: &Task<'_>) -> Result<(Plan, Values), Contradiction> {
    let mut tracer = Tracer::new(task);
    for (figure, _) in task.known {
        tracer.settle(*figure);
    }
    let all = (0..tracer.uses.len()).rev().collect();
    tracer.substitute(all)?;
    for block in tracer.blocks() {
        tracer.eliminate(&block)?;
    }
    tracer.spare = None;
    let left: Vec<usize> = (0..tracer.uses.len()).collect();
    tracer.eliminate(&left)?;
    tracer.verify()?;
    let (mut plan, values) = (tracer.plan, tracer.run.finish());
    plan.is_whole = values.0.iter().all(Option::is_some);
    Ok((plan, values))
}

/// A coupled row: the slot of each unknown figure's coefficient, and of the constant.
struct Row {
    terms: BTreeMap<FigureId, Slot>,
    constant: Slot,
}

/// What a row is good for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Use {
    /// It has as many unknown figures.
    Open(usize),
    /// It gave a value, or was found to hold.
    Spent,
}

struct Tracer<'f> {
    run: Run<'f>,
    plan: Plan,
    uses: Vec<Use>,
    /// By figure: the rows in which it stands.
    rows_of: Vec<Vec<usize>>,
    /// The row that may repeat what others say: it gives a value only where a block needs it.
    spare: Option<usize>,
}

impl<'f> Tracer<'f> {
    fn new(task: &Task<'f>) -> Self {
        let run = Run::new(task, 0);
        let mut rows_of = vec![Vec::new(); task.figures()];
        let mut uses = Vec::with_capacity(run.rows());
        for row in 0..run.rows() {
            let terms = run.row(to_u32(row));
            uses.push(Use::Open(terms.len()));
            for (figure, _) in terms {
                if let Some(rows) = rows_of.get_mut(figure.index()) {
                    rows.push(row);
                }
            }
        }
        Self { run, plan: Plan::default(), uses, rows_of, spare: task.spare() }
    }

    /// Takes a step and keeps it.
    fn step(&mut self, op: Op) -> Result<(), Contradiction> {
        let done = self.run.step(&op);
        self.plan.ops.push(op);
        // While tracing, what comes to zero is looked at before it could be divided by.
        done.map_err(|stop| {
            debug_assert_eq!(stop, Stop::Contradiction);
            Contradiction
        })
    }

    /// A figure has its value now: it is no longer unknown in its rows.
    fn settle(&mut self, figure: FigureId) {
        for row in self.rows_of.get(figure.index()).into_iter().flatten() {
            if let Some(Use::Open(count)) = self.uses.get_mut(*row) {
                *count -= 1;
            }
        }
    }

    /// Rows with one unknown give its value, and may leave others with one.
    fn substitute(&mut self, mut ready: Vec<usize>) -> Result<(), Contradiction> {
        while let Some(row) = ready.pop() {
            if self.uses.get(row) != Some(&Use::Open(1)) || self.spare == Some(row) {
                continue;
            }
            let terms = self.run.row(to_u32(row));
            let unknown = |(figure, _): &Term| self.run.value(*figure).is_none();
            let Some(lead) = terms.iter().position(unknown) else { continue };
            let Some((figure, _)) = terms.get(lead).filter(|(_, coefficient)| !coefficient.is_zero()) else {
                continue;
            };
            self.step(Op::Substitute { row: to_u32(row), lead: to_u32(lead) })?;
            self.spend(row);
            self.settle(*figure);
            ready.extend(self.rows_with(*figure));
        }
        Ok(())
    }

    /// Rows without unknowns that gave no value must hold.
    fn verify(&mut self) -> Result<(), Contradiction> {
        for row in 0..self.uses.len() {
            if self.uses.get(row) == Some(&Use::Open(0)) {
                self.step(Op::Verify { row: to_u32(row) })?;
            }
        }
        Ok(())
    }

    /// The blocks of rows that are coupled.
    fn blocks(&self) -> Vec<Vec<usize>> {
        let open = (0..self.uses.len()).filter(|row| self.is_coupled(*row));
        let unsolved = open.map(|row| {
            let terms = self.run.row(to_u32(row)).iter();
            let figures = terms.map(|(figure, _)| *figure).filter(|figure| self.run.value(*figure).is_none());
            Unsolved { row, figures: figures.collect(), spare: self.spare == Some(row) }
        });
        blocks(&unsolved.collect::<Vec<_>>())
    }

    fn is_coupled(&self, row: usize) -> bool {
        matches!(self.uses.get(row), Some(Use::Open(1..)))
    }

    fn rows_with(&self, figure: FigureId) -> impl Iterator<Item = usize> + use<'_, 'f> {
        self.rows_of.get(figure.index()).into_iter().flatten().copied()
    }

    fn spend(&mut self, row: usize) {
        if let Some(slot) = self.uses.get_mut(row) {
            *slot = Use::Spent;
        }
    }

    /// Eliminates the rows of a block that are still coupled, substitutes back, and goes on from there.
    fn eliminate(&mut self, block: &[usize]) -> Result<(), Contradiction> {
        let coupled: Vec<usize> = block.iter().copied().filter(|row| self.is_coupled(*row)).collect();
        let mut table = Table::default();
        for row in &coupled {
            let loaded = self.load(*row)?;
            table.push(loaded);
        }
        let mut pivots = Vec::new();
        while let Some((index, row)) = table.next() {
            let source = coupled.get(index).copied();
            let Some(figure) = table.rarest(&row) else {
                self.step(Op::Check { slot: row.constant })?;
                if let Some(source) = source {
                    self.spend(source);
                }
                continue;
            };
            for other in table.columns.remove(&figure).unwrap_or_default() {
                let Some(mut changed) = table.take(other).filter(|_| other != index) else { continue };
                let new = self.combine(&mut changed, &row, figure)?;
                table.put_back(other, changed, &new);
            }
            pivots.push((figure, row, source));
        }
        self.back(pivots)
    }

    /// Takes a row into slots.
    fn load(&mut self, row: usize) -> Result<Row, Contradiction> {
        let constant = self.slot();
        self.plan.sums.push(constant);
        self.step(Op::Constant { slot: constant, row: to_u32(row) })?;
        let mut terms = BTreeMap::new();
        for (term, (figure, _)) in self.run.row(to_u32(row)).iter().enumerate() {
            if self.run.value(*figure).is_none() {
                let slot = self.slot();
                self.step(Op::Copy { slot, row: to_u32(row), term: to_u32(term) })?;
                // What is stated to be all of itself says nothing of the figure.
                if self.run.slot(slot).is_zero() {
                    self.step(Op::Vanish { slot })?;
                } else {
                    terms.insert(*figure, slot);
                }
            }
        }
        Ok(Row { terms, constant })
    }

    /// Adds the multiple of a pivot to a row that makes its figure vanish; returns the figures that are new in it.
    fn combine(
        &mut self,
        row: &mut Row,
        pivot: &Row,
        figure: FigureId,
    ) -> Result<Vec<FigureId>, Contradiction> {
        let (Some(own), Some(lead)) = (row.terms.remove(&figure), pivot.terms.get(&figure)) else {
            return Ok(Vec::new());
        };
        self.step(Op::Factor { own, lead: *lead })?;
        self.step(Op::Add { to: row.constant, from: pivot.constant })?;
        let mut new = Vec::new();
        for (other, from) in pivot.terms.iter().filter(|(other, _)| **other != figure) {
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

    /// Back substitution, the last pivot first. A figure that depends on a free one stays free.
    fn back(&mut self, pivots: Vec<(FigureId, Row, Option<usize>)>) -> Result<(), Contradiction> {
        let mut ready = Vec::new();
        for (figure, pivot, source) in pivots.into_iter().rev() {
            let Some(lead) = pivot.terms.get(&figure).copied() else { continue };
            let rest = pivot.terms.iter().filter(|(other, _)| **other != figure);
            let rest: Box<[(Slot, FigureId)]> = rest.map(|(other, slot)| (*slot, *other)).collect();
            if rest.iter().all(|(_, other)| self.run.value(*other).is_some()) {
                self.step(Op::Back { figure, lead, constant: pivot.constant, rest })?;
                if let Some(source) = source {
                    self.spend(source);
                }
                self.settle(figure);
                ready.extend(self.rows_with(figure));
            }
        }
        self.substitute(ready)
    }

    fn slot(&mut self) -> Slot {
        let slot = Slot(self.plan.slots);
        self.plan.slots += 1;
        slot
    }
}

/// The coupled rows that are still open.
#[derive(Default)]
struct Table {
    rows: Vec<Option<Row>>,
    /// By figure: the rows in which it stands or stood.
    columns: BTreeMap<FigureId, Vec<usize>>,
    /// By figure: in how many rows it stands.
    standing: BTreeMap<FigureId, usize>,
    /// Rows by their number of unknowns; an entry is stale where the row has changed since.
    queue: BinaryHeap<Reverse<(usize, usize)>>,
}

impl Table {
    fn push(&mut self, row: Row) {
        let index = self.rows.len();
        let figures: Vec<FigureId> = row.terms.keys().copied().collect();
        self.rows.push(None);
        self.put_back(index, row, &figures);
    }

    /// Puts a changed row back, with the figures that are new in it.
    fn put_back(&mut self, index: usize, row: Row, new: &[FigureId]) {
        for figure in new {
            self.columns.entry(*figure).or_default().push(index);
        }
        for figure in row.terms.keys() {
            *self.standing.entry(*figure).or_default() += 1;
        }
        self.queue.push(Reverse((row.terms.len(), index)));
        if let Some(slot) = self.rows.get_mut(index) {
            *slot = Some(row);
        }
    }

    fn take(&mut self, index: usize) -> Option<Row> {
        let row = self.rows.get_mut(index)?.take()?;
        for figure in row.terms.keys() {
            if let Some(count) = self.standing.get_mut(figure) {
                *count -= 1;
            }
        }
        Some(row)
    }

    /// Takes out the row with the fewest unknowns.
    fn next(&mut self) -> Option<(usize, Row)> {
        while let Some(Reverse((length, index))) = self.queue.pop() {
            let current =
                self.rows.get(index).and_then(Option::as_ref).is_some_and(|row| row.terms.len() == length);
            if current && let Some(row) = self.take(index) {
                return Some((index, row));
            }
        }
        None
    }

    /// The figure of a row that stands in the fewest others.
    fn rarest(&self, row: &Row) -> Option<FigureId> {
        let standing = |figure: &FigureId| self.standing.get(figure).copied().unwrap_or_default();
        row.terms.keys().copied().min_by_key(|figure| (standing(figure), *figure))
    }
}
