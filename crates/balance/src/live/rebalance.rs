//! Which doughs are balanced anew after an edit, and in which order.

use levamen_formula::{Effect, FormulaId};
use rustc_hash::FxHashSet;

use super::{LiveBook, Outcome};
use crate::order::{formula_of, groups};

impl LiveBook {
    /// Balances anew the doughs that an edit affects. Returns each with what came of it before: `None` of one that is
    /// new.
    pub(super) fn rebalance(&mut self, effect: &Effect) -> Vec<(FormulaId, Option<Outcome>)> {
        for id in &effect.gone {
            self.links.set(*id, None);
            self.solved.remove(id);
            self.steady.remove(id);
        }
        for id in &effect.formulas {
            self.links.set(*id, formula_of(self.open.book(), *id));
        }
        let due: FxHashSet<FormulaId> = effect.formulas.iter().chain(&effect.reweighed).copied().collect();
        let affected = self.links.downstream(effect.formulas.iter().chain(&effect.reweighed).copied());
        let among: FxHashSet<FormulaId> = affected.iter().copied().collect();
        let mut moved: FxHashSet<FormulaId> = FxHashSet::default();
        let mut before = Vec::new();
        for group in groups(self.open.book(), &affected, |id| among.contains(&id)) {
            let is_due = |id: &FormulaId| {
                due.contains(id) || self.links.sources(*id).iter().any(|source| moved.contains(source))
            };
            if !group.iter().any(is_due) {
                continue;
            }
            // Doughs that take from each other are solved together.
            for (id, old) in self.balance_anew(&group) {
                if self.is_another_source(id, old.as_ref(), effect) {
                    moved.insert(id);
                }
                before.push((id, old));
            }
        }
        before
    }

    fn balance_anew(&mut self, group: &[FormulaId]) -> Vec<(FormulaId, Option<Outcome>)> {
        self.with_balancer(|balancer| {
            let mut before = Vec::with_capacity(group.len());
            for id in group {
                balancer.steady.remove(id);
                before.push((*id, balancer.solved.remove(id)));
            }
            for id in group {
                // Troubles are kept like balances.
                let _ = balancer.balance(*id);
            }
            before
        })
    }

    /// Whether a dough is something else to those that take from it.
    fn is_another_source(&self, id: FormulaId, before: Option<&Outcome>, effect: &Effect) -> bool {
        match (before, self.solved.get(&id)) {
            (Some(Ok(before)), Some(Ok(now))) => {
                let mut parts = now.composition.parts().iter();
                now.composition != before.composition
                    || parts.any(|(part, _)| effect.ingredients.binary_search(part).is_ok())
            }
            // Those that take from a dough in trouble point at it.
            (Some(Err(_)), Some(Err(_))) => effect.formulas.binary_search(&id).is_ok(),
            _ => true,
        }
    }
}
