//! From rows to stages: what each row weighs, and into which stage.

use std::collections::hash_map::Entry;

use levamen_formula::{Ingredient, Pantry, key};
use levamen_language::Problem;
use levamen_quantity::MassUnit;
use rustc_hash::{FxHashMap, FxHashSet};

use crate::name::NameRole;
use crate::recipe::{FINAL_DOUGH, Recipe, RecipeItem, RecipeLine, RecipeRow, RecipeStage, RecipeStageId};
use crate::{name, problems};

/// Puts the rows into stages; rows that weigh the same into one stage are one line of it. Reports names that a text cannot hold.
pub(crate) fn gather<'r>(
    rows: &'r [RecipeRow],
    unit: MassUnit,
    pantry: &Pantry,
    problems: &mut Vec<Problem>,
) -> Recipe<'r> {
    let mut stages: Vec<RecipeStage<'r>> = Vec::new();
    let mut ids: FxHashMap<String, RecipeStageId> = FxHashMap::default();
    let stage_of: Vec<RecipeStageId> = rows
        .iter()
        .map(|row| {
            let name = stage_name(row);
            *ids.entry(key(name).into_owned()).or_insert_with(|| {
                stages.push(RecipeStage { name, first: row, lines: Vec::new() });
                RecipeStageId(stages.len() - 1)
            })
        })
        .collect();
    let mut weighed: FxHashMap<(RecipeStageId, String), usize> = FxHashMap::default();
    for (row, id) in rows.iter().zip(stage_of) {
        let Some(stage) = stages.get_mut(id.0) else {
            debug_assert!(false, "a row of no stage");
            problems.push(Problem::internal("a row of a table belongs to no stage"));
            continue;
        };
        let own = key(&row.ingredient.words).into_owned();
        match weighed.entry((id, own)) {
            Entry::Occupied(known) => {
                stage.lines.get_mut(*known.get()).into_iter().for_each(|line| line.again.push(row));
            }
            Entry::Vacant(new) => {
                let own = &new.key().1;
                let taken = ids.get(own).map(|taken| RecipeItem::Stage(*taken));
                let item = taken.unwrap_or_else(|| ingredient(own, pantry));
                new.insert(stage.lines.len());
                stage.lines.push(RecipeLine { row, again: Vec::new(), item });
            }
        }
    }
    let recipe = Recipe { unit, stages };
    check_names(&recipe, problems);
    recipe
}

/// Reports the names that will be written and cannot be. The stage that no other takes is the final dough,
/// whatever its name.
fn check_names(recipe: &Recipe<'_>, problems: &mut Vec<Problem>) {
    let mut reported: FxHashSet<&str> = FxHashSet::default();
    for line in recipe.stages.iter().flat_map(|stage| &stage.lines) {
        let (cell, role) = match line.item {
            RecipeItem::Stage(taken) => match recipe.stage(taken).filter(|stage| stage.name != FINAL_DOUGH) {
                Some(stage) => (&stage.first.stage, NameRole::Stage),
                None => continue,
            },
            RecipeItem::Seed | RecipeItem::Unknown | RecipeItem::Ingredient { .. } => {
                (&line.row.ingredient, NameRole::Ingredient)
            }
        };
        if let Err(wrong) = name::check(&cell.words, role, &line.amount_after_name(recipe.unit))
            && reported.insert(&cell.words)
        {
            problems.push(problems::name(cell, wrong));
        }
    }
}

fn stage_name(row: &RecipeRow) -> &str {
    if row.stage.words.is_empty() { FINAL_DOUGH } else { &row.stage.words }
}

fn ingredient(key: &str, pantry: &Pantry) -> RecipeItem {
    let known = pantry.find(key).and_then(|id| pantry.get(id));
    known.map_or(RecipeItem::Unknown, |known| RecipeItem::Ingredient {
        is_flour: known.is_flour,
        is_water: Ingredient::is_water(known),
    })
}
