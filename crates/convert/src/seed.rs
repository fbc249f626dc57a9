//! The culture that a levain or a sour is seeded from.

use levamen_balance::Balance;
use levamen_formula::{IngredientId, Role, key};
use levamen_language::Problem;
use levamen_quantity::Exact;

use crate::declared::is_rye;
use crate::fault;
use crate::target::Target;
use crate::trial::Trial;

/// A culture, and what a gram of it is made of.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Culture {
    pub name: String,
    /// Each ingredient, with its name and its grams.
    pub parts: Vec<(IngredientId, String, Exact)>,
    /// Grams of flour in a gram.
    pub flour: Exact,
    /// Grams of added water in a gram.
    pub water: Exact,
}

/// How a culture was come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Choice {
    Named,
    Only,
    BestFitting,
}

/// The culture of a name; without one the only culture of the book, or the one that fits the dough best: it brings
/// nothing that the dough has not, and is nearest in hydration.
///
/// # Errors
/// The book has no such culture, or none at all.
pub(crate) fn choose(
    trial: &Trial,
    dough: &Balance,
    target: Target,
    hydration: &Exact,
    wanted: Option<&str>,
) -> Result<(Culture, Choice), Vec<Problem>> {
    let entries: Vec<_> =
        trial.open().book().entries().filter(|(_, entry)| entry.role == Role::Culture).collect();
    let names: Vec<&str> = entries.iter().map(|(_, entry)| entry.name.as_str()).collect();
    if let Some(wanted) = wanted {
        let Some((id, entry)) = entries.iter().find(|(_, entry)| key(&entry.name) == key(wanted)) else {
            let is_dough = trial.open().book().find(wanted).is_some();
            return Err(vec![fault::unknown_culture(wanted, is_dough, &names)]);
        };
        return Ok((Culture::read(&entry.name, &trial.balance(*id)?), Choice::Named));
    }
    let sound =
        entries.iter().filter_map(|(id, entry)| Some(Culture::read(&entry.name, &trial.balance(*id).ok()?)));
    let best = sound.min_by_key(|culture| {
        let has_rye = culture.parts.iter().any(|(id, ..)| is_rye(trial.pantry(), *id));
        let hydration = culture.water.checked_div(&culture.flour).map(|own| (&own - hydration).abs());
        // A sour is seeded from rye where there is a culture of it.
        (!culture.missing(dough).is_empty(), has_rye != (target == Target::RyeSour), hydration)
    });
    let choice = if entries.len() == 1 { Choice::Only } else { Choice::BestFitting };
    best.map(|culture| (culture, choice)).ok_or_else(|| vec![fault::no_culture(target.name(), names.len())])
}

impl Culture {
    fn read(name: &str, balance: &Balance) -> Self {
        let in_a_gram =
            |share: &Exact| share.checked_div(balance.weight.fraction()).unwrap_or_default().reduced();
        let rows = balance.overall.iter().filter(|row| !row.share.fraction().is_zero());
        let parts = rows.map(|row| (row.ingredient, row.name.clone(), in_a_gram(row.share.fraction())));
        let flour: Exact =
            balance.overall.iter().filter(|row| row.is_flour).map(|row| row.share.fraction()).sum();
        Self {
            name: name.to_owned(),
            parts: parts.collect(),
            flour: in_a_gram(&flour),
            water: in_a_gram(balance.hydration.fraction()),
        }
    }

    /// What it holds and a dough has not: each with its name and its grams in a gram.
    pub fn missing(&self, dough: &Balance) -> Vec<(String, Exact)> {
        let has = |id: IngredientId| {
            dough.overall.iter().any(|row| row.ingredient == id && row.share.fraction().is_positive())
        };
        let missing = self.parts.iter().filter(|(id, ..)| !has(*id));
        missing.map(|(_, name, grams)| (name.clone(), grams.clone())).collect()
    }
}
