//! What an edit changed.

use levamen_formula::{FormulaId, IngredientId};
use levamen_language::Problem;
use levamen_quantity::Share;
use rustc_hash::FxHashMap;

use super::Outcome;
use super::figure_names::{FigureKey, FigureName, figures};
use crate::figures::{Balance, BalancedStage};
use crate::solved::Mixture;

/// What an edit changed. Every list is in the order of the ids.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Changes {
    /// The doughs and cultures with another figure, size, word or problem than before. What stayed as it was is not
    /// listed.
    pub doughs: Vec<DoughChange>,
    /// Doughs and cultures that are gone.
    pub gone: Vec<FormulaId>,
    /// Ingredients that are new, gone or not what they were.
    pub ingredients: Vec<IngredientId>,
    /// Whether the scales are others.
    pub scales: bool,
    /// Whether the problems of the book are others, or are elsewhere.
    pub problems: bool,
}

/// What changed of one dough or culture.
#[derive(Debug, Clone, PartialEq)]
pub struct DoughChange {
    /// Which.
    pub id: FormulaId,
    /// The figures that have another value than before, that came or that went. All of them where the dough had no
    /// balance before or has none now.
    pub figures: Vec<FigureChange>,
    /// Whether it is made at another size: then every weight in grams is another.
    pub size: bool,
    /// Whether its name, a note, a ripening, the names of its stages and lines, or the culture or dough that a line is of
    /// are others.
    pub words: bool,
    /// Whether something else than before is wrong with it, or is elsewhere, or nothing is wrong any more.
    pub problems: bool,
}

/// One figure before and after an edit.
#[derive(Debug, Clone, PartialEq)]
pub struct FigureChange {
    /// Which figure.
    pub figure: FigureName,
    /// Its share of the dough's whole flour; of a hydration, water to flour. `None` where the dough had no such figure.
    pub before: Option<Share>,
    /// The same after the edit.
    pub after: Option<Share>,
}

impl Changes {
    /// What changed of one dough; `None` where nothing did.
    #[must_use]
    pub fn of(&self, id: FormulaId) -> Option<&DoughChange> {
        let at = self.doughs.binary_search_by_key(&id, |dough| dough.id).ok()?;
        self.doughs.get(at)
    }
}

impl DoughChange {
    /// What changed between two outcomes; `None` where nothing did. `is_read_anew` says whether its text says something
    /// else.
    pub(super) fn between(
        id: FormulaId,
        [before, after]: [Option<&Outcome>; 2],
        is_read_again: bool,
    ) -> Option<Self> {
        let [old, new] = [before, after].map(balance_of);
        if old.is_some() && old == new {
            return None;
        }
        let change = Self {
            id,
            figures: changed_figures(old, new),
            size: old.map(|old| &old.size) != new.map(|new| &new.size),
            words: !same_words(old, new),
            problems: problems_of(before) != problems_of(after)
                || (is_read_again && (is_unread(before) || is_unread(after))),
        };
        let is_any = !change.figures.is_empty() || change.size || change.words || change.problems;
        is_any.then_some(change)
    }
}

fn balance_of(outcome: Option<&Outcome>) -> Option<&Balance> {
    outcome?.as_ref().ok().map(|Mixture { balance, .. }| &**balance)
}

fn problems_of(outcome: Option<&Outcome>) -> &[Problem] {
    match outcome {
        Some(Err(problems)) => problems,
        Some(Ok(_)) | None => &[],
    }
}

/// Whether the text of a dough has errors, so that it was not balanced.
fn is_unread(outcome: Option<&Outcome>) -> bool {
    matches!(outcome, Some(Err(problems)) if problems.is_empty())
}

/// Whether two balances say the same but for their figures.
fn same_words(old: Option<&Balance>, new: Option<&Balance>) -> bool {
    let (Some(old), Some(new)) = (old, new) else { return old.is_none() && new.is_none() };
    let heads = |balance: &Balance| (balance.overall.len(), balance.stages.len());
    let mut rows = old.overall.iter().zip(&new.overall);
    let mut stages = old.stages.iter().zip(&new.stages);
    heads(old) == heads(new)
        && (&old.dough, &old.notes) == (&new.dough, &new.notes)
        && rows.all(|(old, new)| (old.ingredient, &old.name) == (new.ingredient, &new.name))
        && stages.all(|(old, new)| same_stage(old, new))
}

fn same_stage(old: &BalancedStage, new: &BalancedStage) -> bool {
    let mut lines = old.lines.iter().zip(&new.lines);
    old.lines.len() == new.lines.len()
        && (&old.name, old.kind) == (&new.name, new.kind)
        && (&old.ripens, &old.notes) == (&new.ripens, &new.notes)
        && lines.all(|(old, new)| (&old.name, old.item, old.from) == (&new.name, new.item, new.from))
}

/// The figures that differ, in the order of the dough as it is now; after them those that went.
fn changed_figures(before: Option<&Balance>, after: Option<&Balance>) -> Vec<FigureChange> {
    let [old, new] = [before, after].map(|balance| balance.map(figures).unwrap_or_default());
    let mut changed = Vec::new();
    let mut note = |key: FigureKey<'_>, before: Option<&Share>, after: Option<&Share>| {
        if before != after {
            changed.push(FigureChange { figure: key.into(), before: before.cloned(), after: after.cloned() });
        }
    };
    if old.iter().map(|(key, _)| key).eq(new.iter().map(|(key, _)| key)) {
        for ((key, before), (_, after)) in old.into_iter().zip(new) {
            note(key, Some(before), Some(after));
        }
        return changed;
    }
    let known: FxHashMap<FigureKey<'_>, &Share> = old.iter().copied().collect();
    for (key, after) in &new {
        note(*key, known.get(key).copied(), Some(after));
    }
    let left: FxHashMap<FigureKey<'_>, &Share> = new.into_iter().collect();
    for (key, before) in old.into_iter().filter(|(key, _)| !left.contains_key(key)) {
        note(key, Some(before), None);
    }
    changed
}
