//! One change of a book: texts come, go or are written again.
//!
//! 1. **Write.** What each text defined before is taken out, what it defines now is put in. A dough keeps its id by its
//!    name, and one that is renamed by its turn.
//! 2. **Renew.** Each name that was touched comes to mean what its definitions now say. One that then means something
//!    else is stale.
//! 3. **Claim.** Texts that share a touched name are asked again which of them holds it.
//! 4. **Read.** The formulas of the texts, and those elsewhere that look up a stale name, are read.

mod read;
mod write;

use std::collections::BTreeSet;
use std::sync::Arc;

use levamen_language::{Parsed, Problem, TextId, Tree};
use rustc_hash::{FxBuildHasher, FxHashMap, FxHashSet};

use super::{Effect, OpenBook};
use crate::book::BookEntry;
use crate::collect::{FormulaDraft, Items, collect};
use crate::formula::Role;
use crate::names::{NameId, NameKind, Names};
use crate::pantry::BUILT_IN_ID;
use crate::stage::FormulaId;

/// A text as it is to be in the book.
pub(super) struct WrittenText<'t> {
    pub id: TextId,
    pub text: Arc<str>,
    /// What is wrong with its words.
    syntax_problems: Vec<Problem>,
    tree: Tree<'t>,
}

impl<'t> WrittenText<'t> {
    /// A text as it was parsed.
    pub(super) fn new(id: TextId, text: Arc<str>, parsed: Parsed<'t>) -> Self {
        Self { id, text, syntax_problems: parsed.problems, tree: parsed.tree }
    }

    /// The built-in pantry. Its words are at hand elsewhere, and the page need not keep them.
    pub(super) fn built_in() -> Self {
        Self { id: BUILT_IN_ID, text: Arc::default(), syntax_problems: Vec::new(), tree: Tree::default() }
    }

    /// What it defines. It is found where it is asked for: of a whole book at once it would take as much memory as the trees.
    fn items(&self) -> Items<'_> {
        collect(self.id, &self.tree)
    }
}

/// A change under way.
pub(super) struct BookChange<'o> {
    open: &'o mut OpenBook,
    effect: Effect,
    /// Names that were or are defined in a text that is written.
    touched: Vec<NameId>,
    /// Names that mean something else than before.
    stale: Vec<NameId>,
    /// The doughs of the texts that are written, as they were.
    before: FxHashMap<FormulaId, BookEntry>,
    /// Whether a text has other doughs, or has them in another order.
    is_rearranged: bool,
    has_scales: bool,
}

impl<'o> BookChange<'o> {
    pub(super) fn new(open: &'o mut OpenBook) -> Self {
        Self {
            open,
            effect: Effect::default(),
            touched: Vec::new(),
            stale: Vec::new(),
            before: FxHashMap::default(),
            is_rearranged: false,
            has_scales: false,
        }
    }

    /// Writes texts and does all that follows from it.
    pub(super) fn make(mut self, mut texts: Vec<WrittenText<'_>>) -> Effect {
        for written in &mut texts {
            self.write(written);
        }
        let ids: BTreeSet<TextId> = texts.iter().map(|written| written.id).collect();
        self.renew_names();
        let mut anew = self.claim_names(ids.clone());
        for name in &self.stale {
            anew.extend(self.open.names.looked_up_by(*name));
        }
        if self.is_rearranged {
            let pages = self.open.pages.ids().filter_map(|id| self.open.pages.get(id));
            self.open.book.order =
                pages.flat_map(|page| &page.formulas).map(|defined| defined.what).collect();
        }
        // A tree is not needed once its formulas are read, and those take its place in memory.
        for written in texts {
            self.read(written.id, &written.items().formulas, |_| true);
        }
        self.read_elsewhere(&anew, &ids);
        self.open.names.sweep();
        self.effect.sort();
        self.effect
    }

    /// Lets every touched name mean what its definitions now say: first those that lose their meaning, so that what is
    /// renamed keeps its id.
    fn renew_names(&mut self) {
        let mut seen = FxHashSet::with_capacity_and_hasher(self.touched.len(), FxBuildHasher);
        self.touched.retain(|name| seen.insert(*name));
        let (defined, lost): (Vec<_>, Vec<_>) =
            self.touched.iter().partition(|name| !self.open.names.claims(**name).is_empty());
        for name in lost.into_iter().chain(defined) {
            match self.open.names.sort(name) {
                Some(NameKind::Ingredient) => self.renew_ingredient(name),
                Some(NameKind::Formula) => self.renew_formula(name),
                Some(NameKind::Scale) | None => {}
            }
        }
        if self.has_scales {
            let scales = self.open.pages.scales(&self.open.names);
            self.effect.scales = scales != self.open.book.scales;
            self.open.book.scales = scales;
        }
    }

    fn renew_ingredient(&mut self, name: NameId) {
        let OpenBook { book, pages, names, .. } = &mut *self.open;
        let claim = pages.owner(names.claims(name));
        let page = claim.and_then(|claim| Some((pages.get(claim.text)?, claim.index)));
        let now = page.and_then(|(page, index)| page.ingredients.get(index)).map(|defined| &defined.what);
        let key = names.key(name);
        let before = book.pantry.find_key(&key).and_then(|id| book.pantry.get(id));
        let both = before.zip(now).map(|(before, now)| (before, now.get()));
        if both.map_or(before.is_none() && now.is_none(), |(before, now)| before == now) {
            return;
        }
        if !both.is_some_and(|(before, now)| before.reads_like(now)) {
            self.stale.extend([name, Names::all(NameKind::Ingredient)]);
        }
        if !both.is_some_and(|(before, now)| before.weighs_like(now)) {
            self.effect.reweighed.extend(names.looked_up_by(name));
        }
        let id = match now {
            Some(now) => Some(book.pantry.share(key, Arc::clone(now))),
            None => book.pantry.remove(&key),
        };
        self.effect.ingredients.extend(id);
    }

    fn renew_formula(&mut self, name: NameId) {
        let OpenBook { book, pages, names, .. } = &mut *self.open;
        let claim = pages.owner(names.claims(name));
        let page = claim.and_then(|claim| Some((pages.get(claim.text)?, claim.index)));
        let now = page.and_then(|(page, index)| page.formulas.get(index)).map(|defined| defined.what);
        let now = now.and_then(|id| Some((id, book.entry(id)?.role)));
        let key = names.key(name);
        let before = match now {
            Some(now) => book.by_name.insert(key, now),
            None => book.by_name.remove(&key),
        };
        if before != now {
            self.stale.push(name);
        }
    }

    /// Finds what is wrong with the names of the texts, and of those that share one with them. Returns the formulas of
    /// texts where something else is wrong than before.
    fn claim_names(&mut self, texts: BTreeSet<TextId>) -> Vec<FormulaId> {
        let mut sharing = texts;
        for name in &self.touched {
            sharing.extend(self.open.names.claims(*name).iter().map(|claim| claim.text));
        }
        let mut anew = Vec::new();
        for id in sharing {
            let problems = self.open.pages.name_problems(id, &self.open.names);
            let Some(page) = self.open.pages.get_mut(id) else { continue };
            if page.name_problems != problems {
                page.name_problems = problems;
                self.effect.problems = true;
                anew.extend(page.formulas.iter().map(|defined| defined.what));
            }
        }
        anew
    }
}

/// What is in the book for a formula that is not read yet.
fn heading(draft: &FormulaDraft<'_>) -> BookEntry {
    BookEntry {
        name: draft.name.text.to_owned(),
        place: draft.place(draft.name.span),
        role: if draft.is_culture { Role::Culture } else { Role::Dough },
        formula: None,
        problems: Vec::new(),
    }
}
