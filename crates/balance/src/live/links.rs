//! Which doughs take from which.

use levamen_formula::{Formula, FormulaId};
use rustc_hash::{FxHashMap, FxHashSet};

/// What every dough takes from, and what takes from it.
#[derive(Debug, Default)]
pub(super) struct Links {
    /// In order, each once.
    sources: FxHashMap<FormulaId, Box<[FormulaId]>>,
    takers: FxHashMap<FormulaId, Vec<FormulaId>>,
}

impl Links {
    /// Notes what a dough takes from; nothing of one without a formula.
    pub(super) fn set(&mut self, id: FormulaId, formula: Option<&Formula>) {
        let mut now: Vec<FormulaId> =
            formula.into_iter().flat_map(Formula::sources).map(|(source, _)| source).collect();
        now.sort_unstable();
        now.dedup();
        if self.sources(id) == now {
            return;
        }
        let before = self.sources.remove(&id).unwrap_or_default();
        for source in before.iter().filter(|source| now.binary_search(source).is_err()) {
            if let Some(takers) = self.takers.get_mut(source)
                && let Some(at) = takers.iter().position(|taker| *taker == id)
            {
                takers.swap_remove(at);
            }
        }
        for source in now.iter().filter(|source| before.binary_search(source).is_err()) {
            self.takers.entry(*source).or_default().push(id);
        }
        if !now.is_empty() {
            self.sources.insert(id, now.into());
        }
    }

    /// What a dough takes from.
    pub(super) fn sources(&self, id: FormulaId) -> &[FormulaId] {
        self.sources.get(&id).map_or(&[], |sources| sources)
    }

    /// All that takes from some doughs, also by way of others.
    pub(super) fn takers_of_all(&self, sources: &FxHashSet<FormulaId>) -> Vec<FormulaId> {
        let takers = |id: &FormulaId| self.takers.get(id).into_iter().flatten().copied();
        let mut seen: FxHashSet<FormulaId> = sources.iter().flat_map(takers).collect();
        let mut found: Vec<FormulaId> = seen.iter().copied().collect();
        found.sort_unstable();
        let mut next = 0;
        while let Some(id) = found.get(next).copied() {
            found.extend(takers(&id).filter(|taker| seen.insert(*taker)));
            next += 1;
        }
        found
    }
}
