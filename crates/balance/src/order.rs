//! In which order the doughs of a book are solved: each after all that it takes from, and those that take from each
//! other together.

use levamen_formula::{Book, Formula, FormulaId};
use rustc_hash::FxHashMap;

use crate::walk::Walk;

/// The formula of a dough or a culture of a book; `None` of one with errors.
pub(crate) fn formula_of(book: &Book, id: FormulaId) -> Option<&Formula> {
    book.entry(id)?.formula.as_ref()
}

/// Some formulas and all those that they take from, in groups, each after those that it takes from. The formulas of a
/// group take from each other in a circle; they come in the order of their places, whichever of them is asked for. Only
/// formulas that are `wanted` are looked at.
pub(crate) fn groups(
    book: &Book,
    starts: &[FormulaId],
    wanted: impl Fn(FormulaId) -> bool,
) -> Vec<Vec<FormulaId>> {
    let mut found: Vec<FormulaId> = Vec::new();
    let mut number: FxHashMap<FormulaId, usize> = FxHashMap::default();
    let mut numbered = |id: FormulaId, found: &mut Vec<FormulaId>| {
        *number.entry(id).or_insert_with(|| {
            found.push(id);
            found.len() - 1
        })
    };
    for start in starts.iter().filter(|id| wanted(**id)) {
        numbered(*start, &mut found);
    }
    let mut sources: Vec<Vec<usize>> = Vec::new();
    while let Some(id) = found.get(sources.len()).copied() {
        let taken = formula_of(book, id).into_iter().flat_map(Formula::sources).map(|(source, _)| source);
        let taken = taken.filter(|source| wanted(*source)).map(|source| numbered(source, &mut found));
        sources.push(taken.collect());
    }
    let mut walk = Walk::new(found.len());
    for start in 0..found.len() {
        walk.from(start, |node, next| sources.get(node)?.get(next).copied().map(Some));
    }
    let named = |group: Vec<usize>| {
        let mut group: Vec<FormulaId> = group.iter().filter_map(|node| found.get(*node)).copied().collect();
        group.sort_by_key(|id| book.entry(*id).map(|entry| entry.place));
        group
    };
    walk.into_components().into_iter().map(named).collect()
}
