//! The book: a bakery's doughs, cultures, pantry and scales.

use std::sync::Arc;

use levamen_language::{Place, Problem};
use rustc_hash::FxHashMap;

use crate::formula::{Formula, Role};
use crate::ingredient::key;
use crate::pantry::Pantry;
use crate::scale::Scale;
use crate::stage::FormulaId;

/// A bakery's book: everything that its texts say, with every name resolved.
#[derive(Debug, Clone, Default)]
pub struct Book {
    pub(crate) pantry: Pantry,
    pub(crate) scales: Vec<Scale>,
    /// By id; `None` for one that is gone.
    pub(crate) entries: Vec<Option<BookEntry>>,
    /// The ids in the order of the texts.
    pub(crate) order: Vec<FormulaId>,
    pub(crate) by_name: FxHashMap<Arc<str>, (FormulaId, Role)>,
}

/// A dough or a culture of a book, also one that has errors.
#[derive(Debug, Clone, PartialEq)]
pub struct BookEntry {
    /// Its name as it is written.
    pub name: String,
    /// Where its name is.
    pub place: Place,
    /// What it is.
    pub role: Role,
    /// What it says; `None` where it has errors.
    pub formula: Option<Formula>,
    /// The errors that keep it from being made.
    pub problems: Vec<Problem>,
}

impl Book {
    /// The ingredients that the book knows.
    #[must_use]
    pub const fn pantry(&self) -> &Pantry {
        &self.pantry
    }

    /// The bakery's scales; the usual ones where it names none.
    #[must_use]
    pub fn scales(&self) -> Vec<Scale> {
        if self.scales.is_empty() { Scale::usual() } else { self.scales.clone() }
    }

    /// Every dough and culture, in the order of the texts.
    pub fn entries(&self) -> impl Iterator<Item = (FormulaId, &BookEntry)> {
        self.order.iter().filter_map(|id| Some((*id, self.entry(*id)?)))
    }

    /// A dough or culture of this book.
    #[must_use]
    pub fn entry(&self, id: FormulaId) -> Option<&BookEntry> {
        self.entries.get(id.0 as usize)?.as_ref()
    }

    /// The dough or culture of a name; capitals and the width of spaces do not matter.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<FormulaId> {
        self.by_name.get(key(name).as_ref()).map(|(id, _)| *id)
    }
}
