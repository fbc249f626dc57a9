//! What the book declares an ingredient to be: nothing is read from a name.

use levamen_ferment::Strength;
use levamen_formula::{IngredientId, Pantry};

/// How strong a commercial yeast is; `None` of what is none.
pub(crate) fn strength(pantry: &Pantry, id: IngredientId) -> Option<Strength> {
    let said = pantry.get(id)?.yeast.as_ref()?;
    Strength::said(said.kind, said.replaces.as_ref())
}

/// Whether an ingredient is a commercial yeast.
pub(crate) fn is_yeast(pantry: &Pantry, id: IngredientId) -> bool {
    strength(pantry, id).is_some()
}

/// Whether an ingredient is a flour of rye.
pub(crate) fn is_rye(pantry: &Pantry, id: IngredientId) -> bool {
    pantry.get(id).is_some_and(|known| known.is_rye)
}
