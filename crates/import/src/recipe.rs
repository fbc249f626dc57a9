//! A recipe in memory: the rows of its table, and the stages that they make.

use std::borrow::Cow;

use levamen_language::Place;
use levamen_quantity::{Mass, MassUnit};

/// The most rows that are read. More are no recipe.
pub const MAX_ROWS: usize = 10_000;

/// What the stage of an empty cell is called.
pub(crate) const FINAL_DOUGH: &str = "final dough";

/// What a table does not say of itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Options {
    /// The unit of its weights; the text keeps it.
    pub unit: MassUnit,
    /// What the dough is called.
    pub name: String,
    /// The cultures that the book has; of any other, the text says what it is taken to be made of.
    pub cultures: Vec<String>,
}

/// A cell of the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct RecipeCell {
    /// Its words, without space around them and with one space between.
    pub(crate) words: String,
    /// Where they stand.
    pub(crate) place: Place,
    /// The line that its row begins in; the first is 1.
    pub(crate) line: u64,
    /// Whether the end of a line is within it.
    pub(crate) is_broken: bool,
}

/// One thing that is weighed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct RecipeRow {
    /// What it is weighed into; empty for the final dough.
    pub(crate) stage: RecipeCell,
    /// What it is.
    pub(crate) ingredient: RecipeCell,
    /// How much, as it is written.
    pub(crate) figure: RecipeCell,
    /// How much; nothing where it could not be read.
    pub(crate) mass: Mass,
}

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

/// What is weighed into a stage: a row, and with it the rows that weigh more of the same.
#[derive(Debug)]
pub(crate) struct RecipeLine<'r> {
    /// The row that names it first.
    pub(crate) row: &'r RecipeRow,
    pub(crate) again: Vec<&'r RecipeRow>,
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
    /// The unit of its weights.
    pub(crate) unit: MassUnit,
    pub(crate) stages: Vec<RecipeStage<'r>>,
}

impl<'r> Recipe<'r> {
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
}

impl<'r> RecipeLine<'r> {
    /// Its rows, the first one first.
    pub(crate) fn rows(&self) -> impl Iterator<Item = &'r RecipeRow> {
        std::iter::once(self.row).chain(self.again.iter().copied())
    }

    /// How much its rows weigh together.
    pub(crate) fn mass(&self) -> Mass {
        self.rows().fold(Mass::ZERO, |sum, row| &sum + &row.mass)
    }

    /// The same as a figure: as it is written where one row says it. A sum of decimals is one too.
    pub(crate) fn figure(&self, unit: MassUnit) -> Cow<'r, str> {
        if self.again.is_empty() {
            return Cow::Borrowed(&self.row.figure.words);
        }
        Cow::Owned(self.mass().in_unit(unit).to_decimal_string())
    }

    /// An amount that may stand after its name; what is wrong with its own is reported separately.
    pub(crate) fn amount_after_name(&self, unit: MassUnit) -> String {
        if self.rows().any(|row| row.mass == Mass::ZERO) {
            return "1 g".to_owned();
        }
        format!("{} g", self.figure(unit))
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

/// Words with one space between them.
pub(crate) fn one_spaced(words: &str) -> String {
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}
