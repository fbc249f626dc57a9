//! Figures that somebody may ask for, and those that a dough must have, whatever its other lines say of them.

use std::sync::Arc;

use levamen_language::Place;
use levamen_quantity::{Mass, Share};

use crate::ingredient::IngredientId;
use crate::stage::{ResolvedBasis, StageId};

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

/// A figure that the dough must have.
#[derive(Debug, Clone, PartialEq)]
pub struct Want {
    /// Which figure.
    pub figure: NamedFigure,
    /// Whether it is this, or only bounded by it.
    pub relation: Relation,
    /// How much.
    pub limit: WantValue,
    /// The words of it, for messages.
    pub words: Arc<str>,
    /// Where it is said.
    pub place: Place,
}

/// How much is wanted of a figure.
#[derive(Debug, Clone, PartialEq)]
pub enum WantValue {
    /// A mass of the batch.
    Mass(Mass),
    /// A share: of the basis, and where none is said of what the figure is a share of by its name.
    Share(Share, Option<ResolvedBasis>),
}

/// How a figure relates to what is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Relation {
    /// It is this.
    Exactly,
    /// It is this or less.
    AtMost,
    /// It is this or more.
    AtLeast,
}
