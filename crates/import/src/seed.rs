//! Seeds: what a stage is started with, and what that is made of.
//!
//! A table says no more of a culture than its name. A steady culture is what it is fed, so its seed is taken to be
//! made as the stage is that it starts; the text says so, for the baker to mend.

use levamen_formula::{Pantry, key};
use levamen_language::Problem;
use rustc_hash::{FxHashMap, FxHashSet};

use crate::name::{self, NameRole};
use crate::problems::{self, MAX_PROBLEMS};
use crate::recipe::{Options, Recipe, RecipeCell, RecipeItem, RecipeLine, RecipeStageId};

/// Words that name a culture wherever they stand in a name (common practice, no source).
const ANYWHERE: [&str; 6] = ["culture", "starter", "mother", "chef", "levain", "sourdough"];

/// Words that name one where a name ends with them: a `rye sour`, but not `sour cherries`; `ripe seed`, but not
/// `seed mix`.
const LAST: [&str; 2] = ["sour", "seed"];

/// How many stages a misspelt name is compared with: more than any recipe has, and few enough to take no time.
const LOOKED_AT: usize = 100;

/// A culture that the rows name.
#[derive(Debug)]
pub(crate) struct SeedCulture<'r> {
    /// Where its name stands first.
    pub(crate) cell: &'r RecipeCell,
    /// The stage that feeds it.
    pub(crate) fed_in: RecipeStageId,
    /// Whether it is a piece of finished dough, salt included.
    pub(crate) is_old_dough: bool,
}

impl SeedCulture<'_> {
    /// Whether a line of the stage that feeds it is a part of what it is made of.
    pub(crate) fn is_fed(&self, line: &RecipeLine<'_>) -> bool {
        match line.item {
            RecipeItem::Ingredient { is_flour, is_water } => is_flour || is_water || self.is_old_dough,
            _ => false,
        }
    }
}

/// A name that the pantry does not know.
struct UnknownName<'r> {
    key: String,
    /// Where it stands first.
    cell: &'r RecipeCell,
    /// The amount after it there.
    amount: String,
    /// The first stage that could feed it: one with flour and water of its own.
    fed_in: Option<RecipeStageId>,
}

/// Tells the seeds among the names that the pantry does not know. Returns the cultures that the book does not have;
/// reports every other name that nobody knows.
pub(crate) fn find<'r>(
    recipe: &mut Recipe<'r>,
    options: &Options,
    pantry: &Pantry,
    problems: &mut Vec<Problem>,
) -> Vec<SeedCulture<'r>> {
    let of_the_book: FxHashSet<String> = options.cultures.iter().map(|name| key(name).into_owned()).collect();
    let mut seeds: FxHashSet<String> = FxHashSet::default();
    let mut found = Vec::new();
    for UnknownName { key: own, cell, amount, fed_in } in unknown(recipe) {
        if problems.len() > MAX_PROBLEMS || name::check(&cell.words, NameRole::Ingredient, &amount).is_err() {
            // Reported already, or beyond what is reported.
            continue;
        }
        let is_of_the_book = of_the_book.contains(&own);
        let culture = match fed_in.filter(|_| reads_like_one(&own)) {
            _ if is_of_the_book => None,
            Some(fed_in) => Some(SeedCulture { cell, fed_in, is_old_dough: is_old_dough(&own) }),
            None => {
                let stages = recipe.stages.iter().map(|stage| stage.name).take(LOOKED_AT);
                let known = pantry.names().chain(stages).chain(options.cultures.iter().map(String::as_str));
                problems.push(problems::unknown_ingredient(cell, known, reads_like_one(&own)));
                continue;
            }
        };
        problems.extend((own == key(&options.name)).then(|| problems::named_as_the_dough(cell)));
        let held = name::check(&cell.words, NameRole::Culture, &amount);
        problems.extend(held.err().map(|wrong| problems::name(cell, wrong)));
        found.extend(culture);
        seeds.insert(own);
    }
    for line in recipe.stages.iter_mut().flat_map(|stage| &mut stage.lines) {
        if line.item == RecipeItem::Unknown && seeds.contains(key(&line.row.ingredient.words).as_ref()) {
            line.item = RecipeItem::Seed;
        }
    }
    found
}

/// The names that the pantry does not know, in the order of the stages.
fn unknown<'r>(recipe: &Recipe<'r>) -> Vec<UnknownName<'r>> {
    let mut names: Vec<UnknownName<'r>> = Vec::new();
    let mut known: FxHashMap<String, usize> = FxHashMap::default();
    for (id, stage) in recipe.stages() {
        let feeds = (stage.has_flour() && stage.has_water()).then_some(id);
        for line in stage.lines.iter().filter(|line| line.item == RecipeItem::Unknown) {
            let own = key(&line.row.ingredient.words).into_owned();
            let index = *known.entry(own.clone()).or_insert(names.len());
            if let Some(name) = names.get_mut(index) {
                name.fed_in = name.fed_in.or(feeds);
            } else {
                let (cell, amount) = (&line.row.ingredient, line.amount_after_name(recipe.unit));
                names.push(UnknownName { key: own, cell, amount, fed_in: feeds });
            }
        }
    }
    names
}

/// Whether a name, as it is compared, reads like a seed.
fn reads_like_one(key: &str) -> bool {
    let mut words = key.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    let ends = words.clone().next_back().is_some_and(|word| LAST.contains(&word));
    ends || is_old_dough(key) || words.any(|word| ANYWHERE.contains(&word))
}

/// Whether a name reads like a piece of old dough, which holds all that a dough holds.
fn is_old_dough(key: &str) -> bool {
    ["old dough", "pâte fermentée", "pate fermentee"].iter().any(|name| key.contains(name))
}

#[cfg(test)]
mod tests {
    use super::reads_like_one;

    #[test]
    fn a_seed_is_told_by_the_words_of_the_trade() {
        for name in [
            "mature culture",
            "rye starter",
            "mother",
            "chef",
            "ripe levain",
            "rye sour",
            "old dough",
            "seed",
        ] {
            assert!(reads_like_one(name), "{name}");
        }
        for name in ["sour cherries", "poppy seeds", "seed mix", "flour", "smothered onions", "sour cream"] {
            assert!(!reads_like_one(name), "{name}");
        }
    }
}
