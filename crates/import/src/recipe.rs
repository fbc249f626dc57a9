//! From rows to stages: what each row weighs, and into which stage.

use levamen_formula::{Ingredient, Pantry, key};
use levamen_language::Problem;
use levamen_quantity::Mass;
use rustc_hash::{FxHashMap, FxHashSet};

use crate::name::NameRole;
use crate::table::RecipeRow;
use crate::{name, problems};

/// What the stage of an empty cell is called.
pub(crate) const FINAL_DOUGH: &str = "final dough";

/// Which stage of a [`Recipe`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct RecipeStageId(pub(crate) usize);

/// What a row weighs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum RecipeItem {
    /// What the pantry knows.
    Ingredient {
        /// Whether it counts as flour.
        is_flour: bool,
        /// Whether it is water and nothing else.
        is_water: bool,
    },
    /// Another stage, which is taken in.
    Stage(RecipeStageId),
    /// Seed of a culture.
    Seed,
    /// What nobody knows.
    Unknown,
}

/// One row of a stage.
#[derive(Debug)]
pub(crate) struct RecipeLine<'r> {
    pub(crate) row: &'r RecipeRow,
    pub(crate) item: RecipeItem,
}

/// What is weighed together.
#[derive(Debug)]
pub(crate) struct RecipeStage<'r> {
    /// Its name as its first row has it.
    pub(crate) name: &'r str,
    /// The row that names it first.
    pub(crate) first: &'r RecipeRow,
    pub(crate) lines: Vec<RecipeLine<'r>>,
}

/// The stages in the order in which the rows name them.
#[derive(Debug)]
pub(crate) struct Recipe<'r> {
    pub(crate) stages: Vec<RecipeStage<'r>>,
}

impl<'r> Recipe<'r> {
    /// Puts the rows into stages. Reports what is weighed twice into one stage, and names that a text cannot hold.
    pub(crate) fn gather(rows: &'r [RecipeRow], pantry: &Pantry, problems: &mut Vec<Problem>) -> Self {
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
        let mut weighed: FxHashMap<(RecipeStageId, String), &RecipeRow> = FxHashMap::default();
        for (row, id) in rows.iter().zip(stage_of) {
            let own = key(&row.ingredient.words).into_owned();
            let item =
                ids.get(&own).map_or_else(|| ingredient(&own, pantry), |taken| RecipeItem::Stage(*taken));
            let first = *weighed.entry((id, own)).or_insert(row);
            if !std::ptr::eq(first, row) {
                problems.push(problems::twice(first, row));
            }
            if let Some(stage) = stages.get_mut(id.0) {
                stage.lines.push(RecipeLine { row, item });
            }
        }
        let recipe = Self { stages };
        recipe.check_names(problems);
        recipe
    }

    /// Each stage with its id.
    pub(crate) fn stages(&self) -> impl Iterator<Item = (RecipeStageId, &RecipeStage<'r>)> {
        (0..).map(RecipeStageId).zip(&self.stages)
    }

    /// A stage by its id.
    pub(crate) fn stage(&self, id: RecipeStageId) -> Option<&RecipeStage<'r>> {
        self.stages.get(id.0)
    }

    /// Whether there is a flour in it: percentages are of the flour.
    pub(crate) fn has_flour(&self) -> bool {
        self.stages.iter().any(RecipeStage::has_flour)
    }

    /// Reports the names that will be written and cannot be. The stage that no other takes is the final dough,
    /// whatever its name.
    fn check_names(&self, problems: &mut Vec<Problem>) {
        let mut reported: FxHashSet<&str> = FxHashSet::default();
        for line in self.stages.iter().flat_map(|stage| &stage.lines) {
            let (cell, role) = match line.item {
                RecipeItem::Stage(taken) => match self.stage(taken).filter(|stage| stage.name != FINAL_DOUGH)
                {
                    Some(stage) => (&stage.first.stage, NameRole::Stage),
                    None => continue,
                },
                RecipeItem::Seed | RecipeItem::Unknown | RecipeItem::Ingredient { .. } => {
                    (&line.row.ingredient, NameRole::Ingredient)
                }
            };
            if let Err(wrong) = line.row.check_name(&cell.words, role)
                && reported.insert(&cell.words)
            {
                problems.push(problems::name(cell, wrong));
            }
        }
    }
}

impl RecipeRow {
    /// Checks that a text can hold a name before the amount of this row.
    pub(crate) fn check_name(&self, name: &str, role: NameRole) -> Result<(), name::NameError> {
        // What is wrong with the amount itself is reported separately.
        let figure = if self.mass == Mass::ZERO { "1" } else { &self.figure.words };
        name::check(name, role, &format!("{figure} g"))
    }
}

impl RecipeStage<'_> {
    /// Whether flour is weighed into it as such.
    pub(crate) fn has_flour(&self) -> bool {
        self.lines.iter().any(|line| matches!(line.item, RecipeItem::Ingredient { is_flour: true, .. }))
    }

    /// Whether water is weighed into it as such.
    pub(crate) fn has_water(&self) -> bool {
        self.lines.iter().any(|line| matches!(line.item, RecipeItem::Ingredient { is_water: true, .. }))
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
