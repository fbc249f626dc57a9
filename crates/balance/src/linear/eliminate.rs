//! Sparse elimination of the facts that are coupled.
//!
//! Gaussian elimination with the pivot rule of Markowitz (H. M. Markowitz, "The Elimination Form of the Inverse and Its
//! Application to Linear Programming", Management Science 3 (1957) 255-269; from memory): the row with the fewest
//! unknowns, and in it the figure that stands in the fewest rows, so that little new is filled in.
//!
//! Advice to whoever edits this: a row that was used as a pivot is never touched again, and a figure is eliminated
//! from every row that is still open; the back substitution at the end relies on both.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use levamen_formula::FigureId;
use levamen_quantity::Exact;
use rustc_hash::FxHashMap;

use super::{Contradiction, Remainder};

/// Solves coupled rows; writes the values that they fix.
pub(super) fn solve(rows: Vec<Remainder>, values: &mut [Option<Exact>]) -> Result<(), Contradiction> {
    let mut elimination = Elimination::new(rows);
    let mut pivots: Vec<(FigureId, Row)> = Vec::new();
    while let Some((row, figure)) = elimination.next_pivot()? {
        let pivot = elimination.eliminate(row, figure);
        pivots.push((figure, pivot));
    }
    for (figure, pivot) in pivots.into_iter().rev() {
        if let (Some(value), Some(slot)) = (value_of(&pivot, figure, values), values.get_mut(figure.index())) {
            *slot = Some(value);
        }
    }
    Ok(())
}

/// A row sorted by figure; `None` once it was used as a pivot.
struct Row {
    terms: Vec<(FigureId, Exact)>,
    constant: Exact,
}

struct Elimination {
    rows: Vec<Option<Row>>,
    /// By figure: the rows in which it stands or stood.
    columns: FxHashMap<FigureId, Vec<usize>>,
    /// Rows by their number of unknowns; an entry is stale where the row has changed since.
    queue: BinaryHeap<Reverse<(usize, usize)>>,
}

impl Elimination {
    fn new(remainders: Vec<Remainder>) -> Self {
        let mut columns: FxHashMap<FigureId, Vec<usize>> = FxHashMap::default();
        let mut queue = BinaryHeap::with_capacity(remainders.len());
        let mut rows = Vec::with_capacity(remainders.len());
        for (index, Remainder { unknown: mut terms, constant }) in remainders.into_iter().enumerate() {
            terms.sort_unstable_by_key(|(figure, _)| *figure);
            for (figure, _) in &terms {
                columns.entry(*figure).or_default().push(index);
            }
            queue.push(Reverse((terms.len(), index)));
            rows.push(Some(Row { terms, constant }));
        }
        Self { rows, columns, queue }
    }

    /// The next row and figure to eliminate; a row without unknowns must hold.
    fn next_pivot(&mut self) -> Result<Option<(usize, FigureId)>, Contradiction> {
        while let Some(Reverse((length, index))) = self.queue.pop() {
            let Some(row) = self.rows.get(index).and_then(Option::as_ref) else { continue };
            if row.terms.len() != length {
                continue;
            }
            let rarest = row.terms.iter().min_by_key(|(figure, _)| (self.standing(*figure), *figure));
            match rarest {
                Some((figure, _)) => return Ok(Some((index, *figure))),
                None if row.constant.is_zero() => {}
                None => return Err(Contradiction),
            }
        }
        Ok(None)
    }

    fn standing(&self, figure: FigureId) -> usize {
        self.columns.get(&figure).map_or(0, Vec::len)
    }

    /// Takes the pivot row out and eliminates its figure from every other.
    fn eliminate(&mut self, index: usize, figure: FigureId) -> Row {
        let pivot = self.rows.get_mut(index).and_then(Option::take);
        let pivot = pivot.unwrap_or(Row { terms: Vec::new(), constant: Exact::ZERO });
        let lead = coefficient(&pivot.terms, figure).cloned().unwrap_or(Exact::ONE);
        for other in self.columns.remove(&figure).unwrap_or_default() {
            let Some(row) = self.rows.get_mut(other).and_then(Option::as_mut) else { continue };
            let Some(own) = coefficient(&row.terms, figure) else { continue };
            let factor = -&(own / &lead);
            let (terms, new) = combine(&row.terms, &pivot.terms, &factor, figure);
            row.terms = terms;
            row.constant += &(&pivot.constant * &factor);
            self.queue.push(Reverse((row.terms.len(), other)));
            for figure in new {
                self.columns.entry(figure).or_default().push(other);
            }
        }
        pivot
    }
}

fn coefficient(terms: &[(FigureId, Exact)], figure: FigureId) -> Option<&Exact> {
    let index = terms.binary_search_by_key(&figure, |(own, _)| *own).ok()?;
    terms.get(index).map(|(_, coefficient)| coefficient)
}

/// `row + factor * pivot` without the eliminated figure, and the figures that are new in the row.
fn combine(
    row: &[(FigureId, Exact)],
    pivot: &[(FigureId, Exact)],
    factor: &Exact,
    eliminated: FigureId,
) -> (Vec<(FigureId, Exact)>, Vec<FigureId>) {
    let mut sum = Vec::with_capacity(row.len() + pivot.len());
    let mut new = Vec::new();
    let (mut row, mut pivot) = (row.iter().peekable(), pivot.iter().peekable());
    loop {
        let figure = match (row.peek(), pivot.peek()) {
            (Some((a, _)), Some((b, _))) => *a.min(b),
            (Some((figure, _)), None) | (None, Some((figure, _))) => *figure,
            (None, None) => return (sum, new),
        };
        let own = row.next_if(|(a, _)| *a == figure).map(|(_, value)| value);
        let added = pivot.next_if(|(b, _)| *b == figure).map(|(_, value)| value * factor);
        if figure == eliminated {
            continue;
        }
        if own.is_none() {
            new.push(figure);
        }
        let value = match (own, added) {
            (Some(own), Some(added)) => own + &added,
            (Some(own), None) => own.clone(),
            (None, added) => added.unwrap_or_default(),
        };
        if !value.is_zero() {
            sum.push((figure, value));
        }
    }
}

/// The value that a pivot row gives its figure; `None` where another of its figures is free.
fn value_of(pivot: &Row, figure: FigureId, values: &[Option<Exact>]) -> Option<Exact> {
    let mut rest = pivot.constant.clone();
    let mut lead = None;
    for (other, coefficient) in &pivot.terms {
        if *other == figure {
            lead = Some(coefficient);
        } else {
            rest += &(values.get(other.index())?.as_ref()? * coefficient);
        }
    }
    (-rest).checked_div(lead?)
}
