//! The culture that a levain or a sour is seeded from.

use levamen_balance::Balance;
use levamen_formula::{IngredientId, Pantry, Role, key};
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
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Choice {
    Named,
    Only,
    /// With the reasons, the first that decides first.
    BestFitting(Vec<String>),
}

/// A pre-ferment that wants a seed.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Wanting<'w> {
    pub target: Target,
    /// Whether most of the flour that is weighed into it is of rye.
    pub is_of_rye: bool,
    /// Water on flour.
    pub hydration: &'w Exact,
}

/// The culture of a name; without one the only culture of the book, or the one that fits best. First, it brings nothing
/// that the dough has not; then it is of rye where the pre-ferment is, and not where that is not, since what lives in it
/// is used to that flour (common practice, no source); then it is nearest in hydration, which a build makes up for.
///
/// # Errors
/// The book has no such culture, or none at all.
pub(crate) fn choose(
    trial: &Trial,
    dough: &Balance,
    wanting: Wanting<'_>,
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
        let away = culture.hydration().map(|own| (&own - wanting.hydration).abs());
        let is_of_rye = culture.is_of_rye(trial.pantry());
        (!culture.missing(dough).is_empty(), is_of_rye != wanting.is_of_rye, away)
    });
    let culture = best.ok_or_else(|| vec![fault::no_culture(wanting.target.name(), names.len())])?;
    let choice = if entries.len() == 1 {
        Choice::Only
    } else {
        Choice::BestFitting(reasons(&culture, trial.pantry(), dough, wanting))
    };
    Ok((culture, choice))
}

/// Why a culture fits better than others.
fn reasons(culture: &Culture, pantry: &Pantry, dough: &Balance, wanting: Wanting<'_>) -> Vec<String> {
    let mut reasons = Vec::new();
    if culture.missing(dough).is_empty() {
        reasons.push("it brings nothing that the dough has not".to_owned());
    }
    if culture.is_of_rye(pantry) == wanting.is_of_rye {
        let grain = if wanting.is_of_rye { "of rye" } else { "not of rye" };
        reasons.push(format!("like the {} it is {grain}", wanting.target.name()));
    }
    if let Some(own) = culture.hydration() {
        reasons.push(format!("its hydration, {}, is the nearest of such", fault::percent(&own)));
    }
    reasons
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

    /// Added water on flour; `None` without flour.
    fn hydration(&self) -> Option<Exact> {
        self.water.checked_div(&self.flour)
    }

    /// Whether most of its flour is of rye.
    fn is_of_rye(&self, pantry: &Pantry) -> bool {
        let rye: Exact =
            self.parts.iter().filter(|(id, ..)| is_rye(pantry, *id)).map(|(.., grams)| grams).sum();
        &rye + &rye > self.flour
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
