//! The names of a book: which texts define each, and which formulas look it up.
//!
//! A [`Directory`] says what names mean while formulas are read, and notes each name that a formula looks up: when it
//! comes to mean something else, the formula is read again.

use std::cell::RefCell;
use std::sync::Arc;

use levamen_language::TextId;
use rustc_hash::FxHashMap;

use crate::book::Book;
use crate::formula::Role;
use crate::ingredient::{IngredientId, key};
use crate::pantry::Pantry;
use crate::stage::FormulaId;

/// Which name of a book.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(crate) struct NameId(u32);

/// What a name is a name of. The same word may name one of each.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NameKind {
    Ingredient,
    Scale,
    Formula,
}

/// A definition of a name: the text, and which of its definitions of that sort.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Claim {
    pub text: TextId,
    pub index: usize,
}

#[derive(Debug, Clone)]
struct NameRecord {
    sort: NameKind,
    key: Arc<str>,
    /// In the order of the texts.
    claims: Vec<Claim>,
    looked_up_by: Vec<FormulaId>,
}

impl NameRecord {
    const fn new(sort: NameKind, key: Arc<str>) -> Self {
        Self { sort, key, claims: Vec::new(), looked_up_by: Vec::new() }
    }
}

/// Every name that is defined or looked up.
#[derive(Debug, Clone, Default)]
pub(crate) struct Names {
    /// By sort.
    ids: [FxHashMap<Arc<str>, NameId>; 3],
    known: Vec<NameRecord>,
    /// Names that may be of no more use.
    loose: Vec<NameId>,
    /// Ids of names that are no more.
    free: Vec<NameId>,
}

impl Names {
    /// No names but those that stand for all of a sort.
    pub(super) fn new() -> Self {
        let all = [NameKind::Ingredient, NameKind::Scale, NameKind::Formula];
        Self { known: all.map(|sort| NameRecord::new(sort, Arc::default())).into(), ..Self::default() }
    }

    /// What stands for every name of a sort: a formula that looks through all of them looks it up.
    pub(super) const fn all(sort: NameKind) -> NameId {
        NameId(sort as u32)
    }

    /// Makes room for so many more names of a sort.
    pub(super) fn reserve(&mut self, sort: NameKind, more: usize) {
        self.known.reserve(more);
        if let Some(ids) = self.ids.get_mut(sort as usize) {
            ids.reserve(more);
        }
    }

    /// The id of a name, which is made known where it is new.
    pub(super) fn id(&mut self, sort: NameKind, key: &str) -> NameId {
        let Some(ids) = self.ids.get_mut(sort as usize) else { return Self::all(sort) };
        if let Some(id) = ids.get(key) {
            return *id;
        }
        let key: Arc<str> = key.into();
        let name = NameRecord::new(sort, Arc::clone(&key));
        let next = NameId(u32::try_from(self.known.len()).unwrap_or(u32::MAX));
        let id = self.free.pop().unwrap_or(next);
        match self.known.get_mut(id.0 as usize) {
            Some(slot) => *slot = name,
            None => self.known.push(name),
        }
        ids.insert(key, id);
        id
    }

    pub(super) fn sort(&self, id: NameId) -> Option<NameKind> {
        self.get(id).map(|name| name.sort)
    }

    /// The name as it is compared.
    pub(super) fn key(&self, id: NameId) -> Arc<str> {
        let name = self.get(id);
        debug_assert!(name.is_some(), "an id is of a name that is known");
        name.map(|name| Arc::clone(&name.key)).unwrap_or_default()
    }

    /// The definitions of a name, in the order of the texts.
    pub(super) fn claims(&self, id: NameId) -> &[Claim] {
        self.get(id).map_or(&[], |name| &name.claims)
    }

    /// The formulas that look a name up.
    pub(super) fn looked_up_by(&self, id: NameId) -> &[FormulaId] {
        self.get(id).map_or(&[], |name| &name.looked_up_by)
    }

    /// Adds a definition after the last that is before it.
    pub(super) fn claim(&mut self, id: NameId, claim: Claim, is_before: impl Fn(&Claim) -> bool) {
        if let Some(name) = self.get_mut(id) {
            let at = name.claims.partition_point(is_before);
            name.claims.insert(at, claim);
        }
    }

    /// Takes out all definitions that a text gives.
    pub(super) fn unclaim(&mut self, id: NameId, text: TextId) {
        if let Some(name) = self.get_mut(id) {
            name.claims.retain(|claim| claim.text != text);
        }
        self.loose.push(id);
    }

    /// Notes that a formula which looked up some names now looks up others; both are in order.
    pub(super) fn note(&mut self, formula: FormulaId, before: &[NameId], after: &[NameId]) {
        if before == after {
            return;
        }
        for id in before.iter().filter(|id| after.binary_search(id).is_err()) {
            if let Some(name) = self.get_mut(*id)
                && let Some(at) = name.looked_up_by.iter().position(|own| *own == formula)
            {
                name.looked_up_by.swap_remove(at);
            }
            self.loose.push(*id);
        }
        for id in after.iter().filter(|id| before.binary_search(id).is_err()) {
            if let Some(name) = self.get_mut(*id) {
                name.looked_up_by.push(formula);
            }
        }
    }

    /// Forgets names that nothing defines and nothing looks up any more.
    pub(super) fn sweep(&mut self) {
        for id in std::mem::take(&mut self.loose) {
            let Some(name) = self.known.get_mut(id.0 as usize) else { continue };
            // A name that stands for all has no key, and neither has one that is no more.
            if name.key.is_empty() || !name.claims.is_empty() || !name.looked_up_by.is_empty() {
                continue;
            }
            let (sort, key) = (name.sort, std::mem::take(&mut name.key));
            if let Some(ids) = self.ids.get_mut(sort as usize) {
                ids.remove(&key);
            }
            self.free.push(id);
        }
    }

    fn get(&self, id: NameId) -> Option<&NameRecord> {
        self.known.get(id.0 as usize)
    }

    fn get_mut(&mut self, id: NameId) -> Option<&mut NameRecord> {
        self.known.get_mut(id.0 as usize)
    }
}

/// The names that one formula after the other looks up.
#[derive(Debug, Default)]
pub(crate) struct Lookups {
    pub(crate) names: Names,
    found: Vec<NameId>,
}

impl Lookups {
    /// Lookups among names.
    pub(crate) fn new(names: Names) -> Self {
        Self { names, found: Vec::new() }
    }

    /// A name is looked up.
    pub(crate) fn name(&mut self, sort: NameKind, key: &str) {
        self.found.push(self.names.id(sort, key));
    }

    /// All names of a sort are looked through.
    pub(crate) fn all(&mut self, sort: NameKind) {
        self.found.push(Names::all(sort));
    }

    /// The names that were looked up, in order and each once.
    pub(crate) fn take(&mut self) -> Box<[NameId]> {
        self.found.sort_unstable();
        self.found.dedup();
        self.found.drain(..).collect()
    }
}

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
        self.lookups.borrow_mut().name(NameKind::Formula, &key);
        self.book.by_name.get(key.as_ref()).copied()
    }

    /// The ingredient of a name.
    pub(crate) fn ingredient(&self, name: &str) -> Option<IngredientId> {
        let key = key(name);
        self.lookups.borrow_mut().name(NameKind::Ingredient, &key);
        self.pantry.find_key(&key)
    }

    /// The names of all doughs and cultures.
    pub(crate) fn formula_names(&self) -> impl Iterator<Item = &'b str> {
        self.lookups.borrow_mut().all(NameKind::Formula);
        self.book.entries().map(|(_, entry)| entry.name.as_str())
    }

    /// Every ingredient: for what is looked up in the whole pantry.
    pub(crate) fn whole_pantry(&self) -> &'b Pantry {
        self.lookups.borrow_mut().all(NameKind::Ingredient);
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
