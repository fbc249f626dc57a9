//! The pantry: every ingredient of a book.

use std::sync::Arc;

use rustc_hash::FxHashMap;

use crate::built_in::PantryEntry;
use crate::ingredient::{Ingredient, IngredientId, key};

/// The ingredients that a book knows.
#[derive(Debug, Clone, Default)]
pub struct Pantry {
    /// By id; `None` for one that was taken out.
    ingredients: Vec<Option<Arc<PantryEntry>>>,
    by_name: FxHashMap<Arc<str>, IngredientId>,
    /// The ids of those that were taken out, for the next that come.
    free: Vec<IngredientId>,
}

impl Pantry {
    /// Adds an ingredient, or overrides the one of the same name.
    pub fn put(&mut self, ingredient: Ingredient) -> IngredientId {
        self.share(key(&ingredient.name).into(), Arc::new(ingredient.into()))
    }

    /// Adds or overrides an ingredient that is kept elsewhere too, by its name as it is compared.
    pub(crate) fn share(&mut self, key: Arc<str>, ingredient: Arc<PantryEntry>) -> IngredientId {
        let id = self.find_key(&key).unwrap_or_else(|| {
            let next = IngredientId(u32::try_from(self.ingredients.len()).unwrap_or(u32::MAX));
            let id = self.free.pop().unwrap_or(next);
            self.by_name.insert(key, id);
            id
        });
        match self.ingredients.get_mut(id.0 as usize) {
            Some(slot) => *slot = Some(ingredient),
            None => self.ingredients.push(Some(ingredient)),
        }
        id
    }

    /// Takes the ingredient of a name out; the next that is added may get its id.
    pub fn remove(&mut self, name: &str) -> Option<IngredientId> {
        let id = self.by_name.remove(key(name).as_ref())?;
        self.free.push(id);
        self.ingredients.get_mut(id.0 as usize)?.take().map(|_| id)
    }

    /// The ingredient of a name; capitals and the width of spaces do not matter.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<IngredientId> {
        self.find_key(&key(name))
    }

    /// The ingredient of a name as it is compared.
    pub(crate) fn find_key(&self, key: &str) -> Option<IngredientId> {
        self.by_name.get(key).copied()
    }

    /// An ingredient of this pantry.
    #[must_use]
    pub fn get(&self, id: IngredientId) -> Option<&Ingredient> {
        self.ingredients.get(id.0 as usize)?.as_deref().map(PantryEntry::get)
    }

    /// Every ingredient, in the order of the ids: for a book as it is read, that in which they became known.
    pub fn iter(&self) -> impl Iterator<Item = (IngredientId, &Ingredient)> {
        (0..)
            .map(IngredientId)
            .zip(&self.ingredients)
            .filter_map(|(id, known)| Some((id, known.as_deref()?.get())))
    }

    /// The names of all ingredients.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.iter().map(|(_, ingredient)| ingredient.name.as_str())
    }
}

#[cfg(test)]
mod tests {
    use levamen_quantity::Share;

    use super::*;

    #[test]
    fn a_later_entry_overrides() {
        let mut pantry = Pantry::default();
        let first = pantry.put(Ingredient::plain("duck egg"));
        let second = pantry.put(Ingredient { water: Share::WHOLE, ..Ingredient::plain("Duck egg") });
        assert_eq!(first, second);
        assert!(pantry.get(first).unwrap().is_water());
    }

    #[test]
    fn an_entry_that_is_taken_out_leaves_its_id_to_the_next() {
        let mut pantry = Pantry::default();
        let first = pantry.put(Ingredient::plain("duck egg"));
        let second = pantry.put(Ingredient::plain("goose egg"));
        assert_eq!(pantry.remove("Duck  egg"), Some(first));
        assert_eq!(
            (pantry.remove("duck egg"), pantry.find("duck egg"), pantry.get(first)),
            (None, None, None)
        );
        assert_eq!(pantry.names().collect::<Vec<_>>(), ["goose egg"]);
        assert_eq!(pantry.put(Ingredient::plain("quail egg")), first);
        assert_eq!(pantry.find("goose egg"), Some(second));
    }
}
