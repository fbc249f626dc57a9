//! Which doughs take from which, and so which are balanced again after an edit, and in which order.

use levamen_formula::{Effect, Formula, FormulaId};
use rustc_hash::{FxHashMap, FxHashSet};

use super::{LiveBook, Outcome};

/// What was done so far after an edit.
struct Round<'e> {
    effect: &'e Effect,
    dependencies: &'e Dependencies,
    /// Doughs that are balanced again, whatever their sources come to.
    due: FxHashSet<FormulaId>,
    /// Doughs that are something else to those that take from them.
    moved: FxHashSet<FormulaId>,
    /// Doughs of which it is known that they have the right balance.
    done: FxHashSet<FormulaId>,
    /// Doughs that were balanced again, each with what came of it before: `None` of one that is new.
    before: Vec<(FormulaId, Option<Outcome>)>,
}

impl LiveBook {
    /// Balances again the doughs that an edit affects. Returns each with what came of it before: `None` of one that is
    /// new.
    ///
    /// First those whose own lines or ingredients are others, after all that they take from. Only where one of them
    /// then is something else to those that take from it, these are looked up.
    pub(super) fn rebalance(&mut self, effect: &Effect) -> Vec<(FormulaId, Option<Outcome>)> {
        let mut dependencies = self.dependencies.take().unwrap_or_default();
        for id in &effect.gone {
            dependencies.set(*id, None);
            self.cache().solved.remove(id);
            self.cache().steady.remove(id);
        }
        for id in &effect.formulas {
            dependencies.set(*id, self.open.book().formula(*id));
        }
        let own: Vec<FormulaId> = effect.formulas.iter().chain(&effect.reweighed).copied().collect();
        let mut round = Round {
            effect,
            dependencies: &dependencies,
            due: own.iter().copied().collect(),
            moved: FxHashSet::default(),
            done: FxHashSet::default(),
            before: Vec::new(),
        };
        for group in self.open.book().solving_order(&own, |_| true) {
            self.rebalance_group(&group, &mut round);
        }
        let mut dependents = dependencies.dependents_of_all(&round.moved);
        dependents.retain(|id| !round.done.contains(id));
        let among: FxHashSet<FormulaId> = dependents.iter().copied().collect();
        for group in self.open.book().solving_order(&dependents, |id| among.contains(&id)) {
            self.rebalance_group(&group, &mut round);
        }
        let before = round.before;
        self.dependencies = Some(dependencies);
        before
    }

    /// Balances doughs again that take from each other, or a single one, where an edit affects them.
    fn rebalance_group(&mut self, group: &[FormulaId], round: &mut Round<'_>) {
        round.done.extend(group);
        let has_changed_source =
            |id: &FormulaId| round.dependencies.sources(*id).iter().any(|id| round.moved.contains(id));
        if !group.iter().any(|id| round.due.contains(id) || has_changed_source(id)) {
            return;
        }
        for (id, old) in self.balance_again(group) {
            if self.is_another_source(id, old.as_ref(), round.effect) {
                round.moved.insert(id);
            }
            round.before.push((id, old));
        }
    }

    fn balance_again(&self, group: &[FormulaId]) -> Vec<(FormulaId, Option<Outcome>)> {
        self.with_balancer(|balancer| {
            let mut before = Vec::with_capacity(group.len());
            for id in group {
                balancer.steady.remove(id);
                before.push((*id, balancer.solved.remove(id)));
            }
            for id in group {
                // Problems are kept like balances.
                let _ = balancer.balance(*id);
            }
            before
        })
    }

    /// Whether a dough is something else to those that take from it.
    fn is_another_source(&mut self, id: FormulaId, before: Option<&Outcome>, effect: &Effect) -> bool {
        match (before, self.cache().solved.get(&id)) {
            (Some(Ok(before)), Some(Ok(now))) => {
                let mut parts = now.composition.parts().iter();
                now.composition != before.composition
                    || parts.any(|(part, _)| effect.ingredients.binary_search(part).is_ok())
            }
            // Those that take from a dough with problems point at it.
            (Some(Err(_)), Some(Err(_))) => effect.formulas.binary_search(&id).is_ok(),
            _ => true,
        }
    }
}

/// What every dough takes from, and what takes from it.
#[derive(Debug, Default)]
pub(super) struct Dependencies {
    /// In order, each once.
    sources: FxHashMap<FormulaId, Box<[FormulaId]>>,
    dependents: FxHashMap<FormulaId, Vec<FormulaId>>,
}

impl Dependencies {
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
            if let Some(dependents) = self.dependents.get_mut(source)
                && let Some(at) = dependents.iter().position(|dependent| *dependent == id)
            {
                dependents.swap_remove(at);
            }
        }
        for source in now.iter().filter(|source| before.binary_search(source).is_err()) {
            self.dependents.entry(*source).or_default().push(id);
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
    pub(super) fn dependents_of_all(&self, sources: &FxHashSet<FormulaId>) -> Vec<FormulaId> {
        let dependents = |id: &FormulaId| self.dependents.get(id).into_iter().flatten().copied();
        let mut seen: FxHashSet<FormulaId> = sources.iter().flat_map(dependents).collect();
        let mut found: Vec<FormulaId> = seen.iter().copied().collect();
        found.sort_unstable();
        let mut next = 0;
        while let Some(id) = found.get(next).copied() {
            found.extend(dependents(&id).filter(|dependent| seen.insert(*dependent)));
            next += 1;
        }
        found
    }
}
