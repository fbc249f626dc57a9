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
use crate::pantry::Pantry;
use crate::stage::StageId;
use crate::want::NamedFigure;

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
