//! From rows to stages: what each row weighs, and into which stage.

use levamen_formula::{Ingredient, Pantry, key};
use levamen_language::Problem;
use rustc_hash::{FxHashMap, FxHashSet};

use crate::fault;
use crate::name::{self, Role};
use crate::table::{Cell, Row};

/// What the stage of an empty cell is called.
pub(crate) const FINAL_DOUGH: &str = "final dough";

/// Which stage of a [`Recipe`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct StageId(pub(crate) usize);

/// What a row weighs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Item {
    /// What the pantry knows.
    Ingredient {
        /// Whether it counts as flour.
        is_flour: bool,
        /// Whether it is water and nothing else.
        is_water: bool,
    },
    /// Another stage, which is taken in.
    Stage(StageId),
    /// Seed of a culture.
    Seed,
    /// What nobody knows.
    Unknown,
}

/// One row of a stage.
#[derive(Debug)]
pub(crate) struct Line<'r> {
    pub(crate) row: &'r Row,
    pub(crate) item: Item,
}

/// What is weighed together.
#[derive(Debug)]
pub(crate) struct Stage<'r> {
    /// Its name as its first row has it.
    pub(crate) name: &'r str,
    /// The row that names it first.
    pub(crate) first: &'r Row,
    pub(crate) lines: Vec<Line<'r>>,
}

/// The stages in the order in which the rows name them.
#[derive(Debug)]
pub(crate) struct Recipe<'r> {
    pub(crate) stages: Vec<Stage<'r>>,
}

impl<'r> Recipe<'r> {
    /// Puts the rows into stages. Reports what is weighed twice into one stage, and names that a text cannot hold.
    pub(crate) fn gather(rows: &'r [Row], pantry: &Pantry, problems: &mut Vec<Problem>) -> Self {
        let mut stages: Vec<Stage<'r>> = Vec::new();
        let mut ids: FxHashMap<String, StageId> = FxHashMap::default();
        let stage_of: Vec<StageId> = rows
            .iter()
            .map(|row| {
                let name = stage_name(row);
                *ids.entry(key(name).into_owned()).or_insert_with(|| {
                    stages.push(Stage { name, first: row, lines: Vec::new() });
                    StageId(stages.len() - 1)
                })
            })
            .collect();
        let mut weighed: FxHashMap<(StageId, String), &Row> = FxHashMap::default();
        for (row, id) in rows.iter().zip(stage_of) {
            let own = key(&row.ingredient.words).into_owned();
            let item = ids.get(&own).map_or_else(|| ingredient(&own, pantry), |taken| Item::Stage(*taken));
            let first = *weighed.entry((id, own)).or_insert(row);
            if !std::ptr::eq(first, row) {
                problems.push(fault::twice(first, row));
            }
            if let Some(stage) = stages.get_mut(id.0) {
                stage.lines.push(Line { row, item });
            }
        }
        let recipe = Self { stages };
        recipe.check_names(problems);
        recipe
    }

    /// Each stage with its id.
    pub(crate) fn stages(&self) -> impl Iterator<Item = (StageId, &Stage<'r>)> {
        (0..).map(StageId).zip(&self.stages)
    }

    /// A stage by its id.
    pub(crate) fn stage(&self, id: StageId) -> Option<&Stage<'r>> {
        self.stages.get(id.0)
    }

    /// Whether there is a flour in it: percentages are of the flour.
    pub(crate) fn has_flour(&self) -> bool {
        self.stages.iter().any(Stage::has_flour)
    }

    fn check_names(&self, problems: &mut Vec<Problem>) {
        let mut known: FxHashSet<(&str, Role)> = FxHashSet::default();
        let mut check = |cell: &'r Cell, role: Role| {
            if known.insert((&cell.words, role))
                && let Err(wrong) = name::check(&cell.words, role)
            {
                problems.push(fault::name(cell, wrong));
            }
        };
        for stage in &self.stages {
            if !stage.first.stage.words.is_empty() {
                check(&stage.first.stage, Role::Stage);
            }
            for line in &stage.lines {
                match line.item {
                    // Its own rows tell of it.
                    Item::Stage(_) => {}
                    Item::Seed | Item::Unknown | Item::Ingredient { .. } => {
                        check(&line.row.ingredient, Role::Ingredient);
                    }
                }
            }
        }
    }
}

impl Stage<'_> {
    /// Whether flour is weighed into it as such.
    pub(crate) fn has_flour(&self) -> bool {
        self.lines.iter().any(|line| matches!(line.item, Item::Ingredient { is_flour: true, .. }))
    }

    /// Whether water is weighed into it as such.
    pub(crate) fn has_water(&self) -> bool {
        self.lines.iter().any(|line| matches!(line.item, Item::Ingredient { is_water: true, .. }))
    }
}

fn stage_name(row: &Row) -> &str {
    if row.stage.words.is_empty() { FINAL_DOUGH } else { &row.stage.words }
}

fn ingredient(key: &str, pantry: &Pantry) -> Item {
    let known = pantry.find(key).and_then(|id| pantry.get(id));
    known.map_or(Item::Unknown, |known| Item::Ingredient {
        is_flour: known.is_flour,
        is_water: Ingredient::is_water(known),
    })
}
