//! Doughs, stages, ingredients and the pantry, and the facts they state.

mod kind;
mod pantry;
mod scale;

pub use kind::StageKind;
pub use pantry::{Ingredient, IngredientId};
pub use scale::Scale;
