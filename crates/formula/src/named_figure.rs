//! Figures of a dough by the names that a baker gives them.
//!
//! A name has one of three forms, with or without `the`; capitals do not matter:
//!
//! | form | examples |
//! |---|---|
//! | `X` | `hydration`, `dough`, `rye flour`, `poolish` |
//! | `X in STAGE`, what is weighed into it | `water in poolish`, `poolish in final dough` |
//! | `X of STAGE`, what it is and what becomes of it | `hydration of poolish`, `left over of levain` |
//!
//! Where two figures have one name, a figure of the whole dough goes before a stage, and a stage before an ingredient.

mod names;
mod read;

use levamen_language::Problem;

use crate::formula::Formula;
use crate::pantry::{IngredientId, Pantry};
use crate::stage::StageId;

/// A figure of a dough that somebody asks for, or wants the dough to have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum NamedFigure {
    /// Added water to flour: of the whole dough, or of all that is in a stage.
    Hydration(Option<StageId>),
    /// Added water and the water inside other ingredients, to flour.
    EffectiveHydration,
    /// Dough yield, 100 + hydration.
    DoughYield,
    /// Salt, that inside other ingredients included.
    Salt,
    /// Flour that ferments ahead of the final dough: all of it, or what the dough gets of it through a stage.
    PrefermentedFlour(Option<StageId>),
    /// The flour of the whole dough, or what the dough gets of it through a stage.
    Flour(Option<StageId>),
    /// The added water of the whole dough, or what the dough gets of it through a stage.
    Water(Option<StageId>),
    /// The flour weighed into a stage as such.
    OwnFlour(StageId),
    /// The weight of the whole dough, as it is mixed.
    Dough,
    /// What is left of the dough to divide, after what is lost in mixing and dividing.
    ToDivide,
    /// An ingredient in the whole dough.
    Row(IngredientId),
    /// What the line of that index in a stage weighs.
    Line(StageId, u32),
    /// All that is weighed into a stage of an ingredient that goes in at several times.
    Cell(StageId, IngredientId),
    /// What goes on of a stage: the final dough's whole weight, of another stage what is taken.
    Taken(StageId),
    /// What is in the tub when a stage is made.
    Made(StageId),
    /// The seed weighed into a stage.
    Seed(StageId),
    /// What of a stage is kept for the next seed.
    GivenBack(StageId),
    /// What is made of a stage and not taken.
    LeftOver(StageId),
    /// What goes off from a stage.
    Steam(StageId),
}

impl NamedFigure {
    /// The figure that words name.
    ///
    /// # Errors
    /// Where the dough has no such figure: a problem without a place, with the nearest names that the dough has.
    pub fn read(words: &str, formula: &Formula, pantry: &Pantry) -> Result<Self, Box<Problem>> {
        read::FigureReader { formula, pantry }.read(words)
    }

    /// The name of the figure, in the form in which [`NamedFigure::read`] takes it.
    #[must_use]
    pub fn name(self, formula: &Formula, pantry: &Pantry) -> String {
        names::name(self, formula, pantry)
    }

    /// The stage that it is a figure of; `None` of the whole dough.
    #[must_use]
    pub const fn stage(self) -> Option<StageId> {
        match self {
            Self::Hydration(stage)
            | Self::PrefermentedFlour(stage)
            | Self::Flour(stage)
            | Self::Water(stage) => stage,
            Self::OwnFlour(stage)
            | Self::Line(stage, _)
            | Self::Cell(stage, _)
            | Self::Taken(stage)
            | Self::Made(stage)
            | Self::Seed(stage)
            | Self::GivenBack(stage)
            | Self::LeftOver(stage)
            | Self::Steam(stage) => Some(stage),
            Self::EffectiveHydration
            | Self::DoughYield
            | Self::Salt
            | Self::Dough
            | Self::ToDivide
            | Self::Row(_) => None,
        }
    }

    /// Every figure that a dough has, in the order of the whole, its ingredients and its stages.
    #[must_use]
    pub fn all(formula: &Formula) -> Vec<Self> {
        names::all(formula)
    }
}
