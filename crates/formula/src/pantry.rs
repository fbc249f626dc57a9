//! The pantry: every ingredient of a book. One of the built-in pantry is read when somebody first asks what it is made
//! of: a book names a few of its many ingredients, and a command that reads all of them would spend most of its time on
//! it.

use std::sync::Arc;
use std::sync::OnceLock;

use levamen_language::{Name, Span, TextId, parse};
use memchr::memmem;
use rustc_hash::FxHashMap;

use crate::collect::collect;
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

/// The figures that every book starts from; each names its source.
const BUILT_IN: &str = include_str!("../data/pantry.dough");

/// The id of the built-in pantry, which no other text has.
pub(crate) const BUILT_IN_ID: TextId = TextId(u32::MAX);

/// How the heading of an ingredient begins.
const HEADING: &str = "ingredient ";

/// An ingredient, read or still to be read.
#[derive(Debug, Clone)]
pub(crate) struct PantryEntry {
    name: &'static str,
    /// Its heading and lines; nothing where it was read with its text.
    words: &'static str,
    /// In a box: most are never read.
    read: OnceLock<Box<Ingredient>>,
}

impl PantryEntry {
    /// What it is made of.
    pub(crate) fn get(&self) -> &Ingredient {
        self.read.get_or_init(|| {
            let parsed = parse(BUILT_IN_ID, self.words);
            let items = collect(BUILT_IN_ID, &parsed.tree);
            Box::new(items.ingredients.first().map_or_else(|| Ingredient::plain(self.name), Ingredient::read))
        })
    }
}

impl From<Ingredient> for PantryEntry {
    fn from(ingredient: Ingredient) -> Self {
        Self { name: "", words: "", read: OnceLock::from(Box::new(ingredient)) }
    }
}

/// Every ingredient of the built-in pantry by its name, none of them read.
pub(crate) fn built_in() -> impl Iterator<Item = (Name<'static>, PantryEntry)> {
    let starts = memmem::find_iter(BUILT_IN.as_bytes(), b"\ningredient ").map(|index| index + 1);
    let mut starts = starts.peekable();
    let entries = std::iter::from_fn(move || {
        let start = starts.next()?;
        Some((start, starts.peek().copied().unwrap_or(BUILT_IN.len())))
    });
    entries.filter_map(|(start, end)| {
        let words = BUILT_IN.get(start..end)?;
        let text = words.strip_prefix(HEADING)?.lines().next()?.trim_end();
        let at = u32::try_from(start + HEADING.len()).ok()?;
        let span = Span::new(at, at + u32::try_from(text.len()).ok()?);
        Some((Name { text, span }, PantryEntry { name: text, words, read: OnceLock::new() }))
    })
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

    #[test]
    fn entry_by_entry_the_built_in_pantry_is_what_it_is_as_a_whole() {
        let parsed = parse(BUILT_IN_ID, BUILT_IN);
        assert_eq!(parsed.problems, []);
        let items = collect(BUILT_IN_ID, &parsed.tree);
        assert!(items.formulas.is_empty() && items.scales.is_empty());
        let whole: Vec<_> =
            items.ingredients.iter().map(|block| (block.name, Ingredient::read(block))).collect();
        let one_by_one: Vec<_> = built_in().map(|(name, stock)| (name, stock.get().clone())).collect();
        assert_eq!(one_by_one, whole);
        assert!(whole.len() > 100);
    }
}
