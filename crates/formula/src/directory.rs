//! What names mean while formulas are read. Each name that a formula looks up is noted: when it comes to mean something
//! else, the formula is read anew.

use std::cell::RefCell;

use crate::book::Book;
use crate::formula::{FormulaId, Role};
use crate::open::{Lookups, NameId, Names, Sort};
use crate::pantry::{IngredientId, Pantry, key};

/// The names of a book.
pub(crate) struct Directory<'b> {
    /// For what is known of an ingredient; names are looked up in the directory, which notes them.
    pub(crate) pantry: &'b Pantry,
    book: &'b Book,
    lookups: RefCell<Lookups>,
}

impl<'b> Directory<'b> {
    /// The directory of a book; lookups are noted by their ids among `names`, which [`Directory::into_names`] gives back.
    pub(crate) fn new(book: &'b Book, names: Names) -> Self {
        Self { pantry: &book.pantry, book, lookups: RefCell::new(Lookups::new(names)) }
    }

    /// The dough or culture of a name.
    pub(crate) fn find(&self, name: &str) -> Option<(FormulaId, Role)> {
        let key = key(name);
        self.lookups.borrow_mut().name(Sort::Formula, &key);
        self.book.by_name.get(key.as_ref()).copied()
    }

    /// The ingredient of a name.
    pub(crate) fn ingredient(&self, name: &str) -> Option<IngredientId> {
        let key = key(name);
        self.lookups.borrow_mut().name(Sort::Ingredient, &key);
        self.pantry.find_key(&key)
    }

    /// The names of all doughs and cultures.
    pub(crate) fn formula_names(&self) -> impl Iterator<Item = &'b str> {
        self.lookups.borrow_mut().all(Sort::Formula);
        self.book.entries().map(|(_, entry)| entry.name.as_str())
    }

    /// Every ingredient: for what is looked up in the whole pantry.
    pub(crate) fn whole_pantry(&self) -> &'b Pantry {
        self.lookups.borrow_mut().all(Sort::Ingredient);
        self.pantry
    }

    /// The names looked up since this was last asked, in order and each once.
    pub(crate) fn take_lookups(&self) -> Box<[NameId]> {
        self.lookups.borrow_mut().take()
    }

    /// The names, with those that were looked up.
    pub(crate) fn into_names(self) -> Names {
        self.lookups.into_inner().names
    }
}
