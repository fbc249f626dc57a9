//! One change of a book: texts come, go or are written anew.
//!
//! 1. **Write.** What each text defined before is taken out, what it defines now is put in. A dough keeps its id by its
//!    name, and one that is renamed by its turn.
//! 2. **Renew.** Each name that was touched comes to mean what its definitions now say. One that then means something
//!    else is stale.
//! 3. **Claim.** Texts that share a touched name are asked anew which of them holds it.
//! 4. **Read.** The formulas of the texts, and those elsewhere that look up a stale name, are read.

use std::collections::BTreeSet;
use std::sync::Arc;

use levamen_language::{Problem, Severity, TextId, parse};
use rustc_hash::{FxHashMap, FxHashSet};

use super::names::{Claim, NameId, Names, Sort};
use super::pages::{Definition, Page};
use super::{Effect, OpenBook, Reading};
use crate::book::Entry;
use crate::collect::{FormulaDraft, Items, collect};
use crate::directory::Directory;
use crate::formula::{FormulaId, Role};
use crate::pantry::{Ingredient, key};
use crate::resolve::resolve;
use crate::scale::Scale;

/// A text as it is to stand in the book.
pub(super) struct Written<'t> {
    pub id: TextId,
    pub text: Arc<str>,
    /// What is wrong with its words.
    pub faults: Vec<Problem>,
    pub items: Items<'t>,
}

/// A change under way.
pub(super) struct Change<'o> {
    open: &'o mut OpenBook,
    effect: Effect,
    /// Names that were or are defined in a text that is written.
    touched: Vec<NameId>,
    /// Names that mean something else than before.
    stale: Vec<NameId>,
    /// The doughs of the texts that are written, as they were.
    before: FxHashMap<FormulaId, Entry>,
    /// Whether a text has other doughs, or has them in another order.
    is_rearranged: bool,
    has_scales: bool,
}

impl<'o> Change<'o> {
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

    /// Writes the texts and does all that follows from it.
    pub(super) fn make(mut self, mut texts: Vec<Written<'_>>) -> Effect {
        for written in &mut texts {
            self.write(written);
        }
        self.renew_names();
        let mut anew = self.claim_names(&texts);
        for name in &self.stale {
            anew.extend(self.open.names.looked_up_by(*name));
        }
        if self.is_rearranged {
            let pages = self.open.pages.ids().filter_map(|id| self.open.pages.get(id));
            self.open.book.order = pages.flat_map(|page| &page.formulas).map(|defined| defined.what).collect();
        }
        for written in &texts {
            self.read(written.id, &written.items.formulas, |_| true);
        }
        self.read_elsewhere(anew, &texts);
        self.open.names.sweep();
        self.effect.sort();
        self.effect
    }

    /// Puts what a text defines in the place of what it defined before.
    fn write(&mut self, written: &mut Written<'_>) {
        let OpenBook { pages, names, .. } = &mut *self.open;
        let Some(page) = pages.get_mut(written.id) else { return };
        let old = std::mem::take(page);
        let mut new = old.at_its_place();
        new.text = Arc::clone(&written.text);
        new.faults = std::mem::take(&mut written.faults);
        self.effect.problems |= new.faults != old.faults;
        self.has_scales |= !old.scales.is_empty() || !written.items.scales.is_empty();
        for block in &written.items.ingredients {
            let name = names.id(Sort::Ingredient, &key(block.name.text));
            new.ingredients.push(Definition { name, span: block.name.span, what: Ingredient::read(block) });
        }
        for block in &written.items.scales {
            let name = names.id(Sort::Scale, &key(block.name.text));
            let mut problems = Vec::new();
            let scale = Scale::read(block, &mut problems);
            new.scales.push(Definition { name, span: block.name.span, what: (scale, problems) });
        }
        let keys: Vec<NameId> = written
            .items
            .formulas
            .iter()
            .map(|draft| names.id(Sort::Formula, &key(draft.name.text)))
            .collect();
        let ids = self.place_formulas(&old.formulas, &keys, &written.items.formulas);
        let drafts = written.items.formulas.iter().zip(keys).zip(ids);
        new.formulas =
            drafts.map(|((draft, name), what)| Definition { name, span: draft.name.span, what }).collect();
        self.hand_over(written.id, &old, new);
    }

    /// Exchanges the definitions of a text.
    fn hand_over(&mut self, text: TextId, old: &Page, new: Page) {
        let OpenBook { pages, names, .. } = &mut *self.open;
        if let Some(page) = pages.get_mut(text) {
            *page = new;
        }
        for sort in [Sort::Ingredient, Sort::Scale, Sort::Formula] {
            for (name, _) in old.defined(sort) {
                names.unclaim(name, text);
                self.touched.push(name);
            }
            let defined = pages.get(text).map(|page| page.defined(sort)).unwrap_or_default();
            for (index, (name, _)) in defined.into_iter().enumerate() {
                let claim = Claim { text, index };
                names.claim(name, claim, |other| pages.rank(other) < pages.rank(&claim));
                self.touched.push(name);
            }
        }
    }

    /// Finds the ids of a text's doughs: by the name, and otherwise that of an old dough which has lost its name. What
    /// is then left of the old is gone.
    fn place_formulas(
        &mut self,
        old: &[Definition<FormulaId>],
        keys: &[NameId],
        drafts: &[FormulaDraft<'_>],
    ) -> Vec<FormulaId> {
        let mut by_name: FxHashMap<NameId, Vec<FormulaId>> = FxHashMap::default();
        for defined in old.iter().rev() {
            by_name.entry(defined.name).or_default().push(defined.what);
        }
        let found: Vec<Option<FormulaId>> =
            keys.iter().map(|name| by_name.get_mut(name).and_then(Vec::pop)).collect();
        let kept: FxHashSet<FormulaId> = found.iter().flatten().copied().collect();
        let mut left = old.iter().map(|defined| defined.what).filter(|id| !kept.contains(id));
        let mut ids = Vec::with_capacity(drafts.len());
        let mut names_before: Vec<String> = Vec::with_capacity(old.len());
        for defined in old {
            if let Some(entry) = self.open.book.entries.get_mut(defined.what.0 as usize).and_then(Option::take) {
                names_before.push(entry.name.clone());
                self.before.insert(defined.what, entry);
            }
        }
        for (found, draft) in found.into_iter().zip(drafts) {
            let id = found.or_else(|| left.next()).unwrap_or_else(|| {
                self.open.book.entries.push(None);
                self.open.readings.push(Reading::default());
                let id = FormulaId(u32::try_from(self.open.book.entries.len() - 1).unwrap_or(u32::MAX));
                self.effect.formulas.push(id);
                id
            });
            if let Some(slot) = self.open.book.entries.get_mut(id.0 as usize) {
                *slot = Some(heading(draft));
            }
            ids.push(id);
        }
        for id in left {
            self.forget(id);
        }
        let is_same_name = |(before, draft): (&String, &FormulaDraft<'_>)| before == draft.name.text;
        if names_before.len() != drafts.len() || !names_before.iter().zip(drafts).all(is_same_name) {
            self.stale.push(Names::all(Sort::Formula));
        }
        self.is_rearranged |= !old.iter().map(|defined| defined.what).eq(ids.iter().copied());
        ids
    }

    /// A dough is gone.
    fn forget(&mut self, id: FormulaId) {
        self.before.remove(&id);
        if let Some(reading) = self.open.readings.get_mut(id.0 as usize) {
            let reading = std::mem::take(reading);
            self.effect.problems |= !reading.problems.is_empty();
            self.open.names.note(id, &reading.lookups, &[]);
        }
        self.effect.gone.push(id);
    }

    /// Lets every touched name mean what its definitions now say: first those that lose their meaning, so that what is
    /// renamed keeps its id.
    fn renew_names(&mut self) {
        let mut seen = FxHashSet::default();
        self.touched.retain(|name| seen.insert(*name));
        let (defined, lost): (Vec<_>, Vec<_>) =
            self.touched.iter().partition(|name| !self.open.names.claims(**name).is_empty());
        for name in lost.into_iter().chain(defined) {
            match self.open.names.sort(name) {
                Some(Sort::Ingredient) => self.renew_ingredient(name),
                Some(Sort::Formula) => self.renew_formula(name),
                Some(Sort::Scale) | None => {}
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
        let claim = pages.holder(names.claims(name));
        let page = claim.and_then(|claim| Some((pages.get(claim.text)?, claim.index)));
        let now = page.and_then(|(page, index)| page.ingredients.get(index)).map(|defined| &defined.what);
        let known = book.pantry.find(names.key(name));
        let before = known.and_then(|id| book.pantry.get(id)).cloned();
        if now == before.as_ref() {
            return;
        }
        let same = |same: fn(&Ingredient, &Ingredient) -> bool| matches!((&before, now), (Some(before), Some(now)) if same(before, now));
        if !same(Ingredient::reads_like) {
            self.stale.extend([name, Names::all(Sort::Ingredient)]);
        }
        if !same(Ingredient::weighs_like) {
            self.effect.formulas.extend(names.looked_up_by(name));
        }
        let id = match now {
            Some(now) => Some(book.pantry.put(now.clone())),
            None => book.pantry.remove(names.key(name)).map(|(id, _)| id),
        };
        self.effect.ingredients.extend(id);
    }

    fn renew_formula(&mut self, name: NameId) {
        let OpenBook { book, pages, names, .. } = &mut *self.open;
        let claim = pages.holder(names.claims(name));
        let page = claim.and_then(|claim| Some((pages.get(claim.text)?, claim.index)));
        let now = page.and_then(|(page, index)| page.formulas.get(index)).map(|defined| defined.what);
        let now = now.and_then(|id| Some((id, book.entry(id)?.role)));
        let key = names.key(name);
        let before = match now {
            Some(now) => book.by_name.insert(key.to_owned(), now),
            None => book.by_name.remove(key),
        };
        if before != now {
            self.stale.push(name);
        }
    }

    /// Finds what is wrong with the names of the texts, and of those that share one with them. Returns the formulas to
    /// be read anew for it.
    fn claim_names(&mut self, texts: &[Written<'_>]) -> Vec<FormulaId> {
        let mut sharing: BTreeSet<TextId> = texts.iter().map(|written| written.id).collect();
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

    /// Reads formulas of texts that are not written.
    fn read_elsewhere(&mut self, formulas: Vec<FormulaId>, texts: &[Written<'_>]) {
        let written: FxHashSet<TextId> = texts.iter().map(|written| written.id).collect();
        let mut wanted: BTreeSet<(TextId, FormulaId)> = BTreeSet::new();
        for id in formulas {
            let text = self.open.book.entry(id).map(|entry| entry.place.text);
            wanted.extend(text.filter(|text| !written.contains(text)).map(|text| (text, id)));
        }
        let mut last = None;
        for (text, _) in &wanted {
            if last.replace(*text) == Some(*text) {
                continue;
            }
            let Some(words) = self.open.text(*text).cloned() else { continue };
            let parsed = parse(*text, &words);
            let drafts = collect(*text, &parsed.tree).formulas;
            self.read(*text, &drafts, |id| wanted.contains(&(*text, id)));
        }
    }

    /// Reads formulas of one text.
    fn read(&mut self, text: TextId, drafts: &[FormulaDraft<'_>], is_wanted: impl Fn(FormulaId) -> bool) {
        let OpenBook { book, pages, names, .. } = &mut *self.open;
        let Some(page) = pages.get(text) else { return };
        let is_error = |problem: &&Problem| problem.severity == Severity::Error;
        let errors: Vec<&Problem> = page.faults.iter().chain(&page.name_problems).filter(is_error).collect();
        let directory = Directory::new(book, std::mem::take(names));
        let mut read = Vec::new();
        for (defined, draft) in page.formulas.iter().zip(drafts).filter(|(defined, _)| is_wanted(defined.what)) {
            let is_own = |problem: &&&Problem| {
                problem.primary.as_ref().is_some_and(|label| draft.holds(label.place))
            };
            let mut own: Vec<Problem> = errors.iter().filter(is_own).map(|problem| (*problem).clone()).collect();
            let mut problems = Vec::new();
            let formula = resolve(&directory, draft, own.is_empty(), &mut problems);
            own.extend(problems.iter().filter(is_error).cloned());
            let formula = formula.filter(|_| own.is_empty());
            let entry = Entry { formula, problems: own, ..heading(draft) };
            read.push((defined.what, entry, Reading { problems, lookups: directory.take_lookups() }));
        }
        *names = directory.into_names();
        for (id, entry, reading) in read {
            self.keep(id, entry, reading);
        }
    }

    /// Keeps a formula as it was read.
    fn keep(&mut self, id: FormulaId, entry: Entry, reading: Reading) {
        let OpenBook { book, names, readings, .. } = &mut *self.open;
        let (Some(slot), Some(noted)) = (book.entries.get_mut(id.0 as usize), readings.get_mut(id.0 as usize))
        else {
            return;
        };
        let replaced = slot.replace(entry);
        if self.before.remove(&id).or(replaced) != *slot {
            self.effect.formulas.push(id);
        }
        self.effect.problems |= noted.problems != reading.problems;
        names.note(id, &noted.lookups, &reading.lookups);
        *noted = reading;
    }
}

/// What stands in the book for a formula that is not read yet.
fn heading(draft: &FormulaDraft<'_>) -> Entry {
    Entry {
        name: draft.name.text.to_owned(),
        place: draft.place(draft.name.span),
        role: if draft.is_culture { Role::Culture } else { Role::Dough },
        formula: None,
        problems: Vec::new(),
    }
}
