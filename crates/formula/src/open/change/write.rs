//! What a text defines in the place of what it defined before.

use std::sync::Arc;

use levamen_language::{Name, TextId};
use rustc_hash::{FxHashMap, FxHashSet};

use super::{BookChange, WrittenText, heading};
use crate::by_name;
use crate::collect::{FormulaDraft, Items};
use crate::ingredient::{Ingredient, key};
use crate::names::{Claim, NameId, NameKind, Names};
use crate::open::pages::{BookPage, Definition};
use crate::open::{FormulaReading, OpenBook};
use crate::pantry::{BUILT_IN_ID, PantryEntry, built_in};
use crate::scale::Scale;
use crate::stage::FormulaId;

impl BookChange<'_> {
    /// Puts what a text defines in the place of what it defined before.
    pub(super) fn write(&mut self, written: &mut WrittenText<'_>) {
        let OpenBook { pages, names, .. } = &mut *self.open;
        let Some(page) = pages.get_mut(written.id) else { return };
        let mut old = std::mem::take(page);
        let mut new = old.at_its_place();
        new.text = Arc::clone(&written.text);
        new.syntax_problems = std::mem::take(&mut written.syntax_problems);
        let items = written.items();
        new.syntax_problems.extend(items.ingredients.iter().filter_map(by_name::question));
        self.effect.problems |= new.syntax_problems != old.syntax_problems;
        // They are compared with what they then are.
        new.name_problems = std::mem::take(&mut old.name_problems);
        self.has_scales |= !old.scales.is_empty() || !items.scales.is_empty();
        let ingredients = ingredients(written.id, &items);
        names.reserve(NameKind::Ingredient, ingredients.len());
        new.ingredients.reserve_exact(ingredients.len());
        for (name, entry) in ingredients {
            let id = names.id(NameKind::Ingredient, &key(name.text));
            new.ingredients.push(Definition { name: id, span: name.span, what: Arc::new(entry) });
        }
        for block in &items.scales {
            let name = names.id(NameKind::Scale, &key(block.name.text));
            let mut problems = Vec::new();
            let scale = Scale::read(block, &mut problems);
            new.scales.push(Definition { name, span: block.name.span, what: (scale, problems) });
        }
        let formulas = &items.formulas;
        let keys: Vec<NameId> =
            formulas.iter().map(|draft| names.id(NameKind::Formula, &key(draft.name.text))).collect();
        let ids = self.place_formulas(&old.formulas, &keys, formulas);
        let drafts = formulas.iter().zip(keys).zip(ids);
        new.formulas =
            drafts.map(|((draft, name), what)| Definition { name, span: draft.name.span, what }).collect();
        self.hand_over(written.id, &old, new);
    }

    /// Exchanges the definitions of a text.
    fn hand_over(&mut self, text: TextId, old: &BookPage, new: BookPage) {
        let OpenBook { pages, names, .. } = &mut *self.open;
        if let Some(page) = pages.get_mut(text) {
            *page = new;
        }
        for sort in [NameKind::Ingredient, NameKind::Scale, NameKind::Formula] {
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
        let found = find_by_name(old, keys);
        let kept: FxHashSet<FormulaId> = found.iter().flatten().copied().collect();
        let mut left = old.iter().map(|defined| defined.what).filter(|id| !kept.contains(id));
        let names_before = self.take_entries(old);
        let mut ids = Vec::with_capacity(drafts.len());
        for (found, draft) in found.into_iter().zip(drafts) {
            let id = found.or_else(|| left.next()).unwrap_or_else(|| self.new_formula());
            if let Some(slot) = self.open.book.entries.get_mut(id.0 as usize) {
                *slot = Some(heading(draft));
            }
            ids.push(id);
        }
        for id in left {
            self.forget(id);
        }
        if !drafts.iter().map(|draft| draft.name.text).eq(names_before.iter().map(String::as_str)) {
            self.stale.push(Names::all(NameKind::Formula));
        }
        self.is_rearranged |= !old.iter().map(|defined| defined.what).eq(ids.iter().copied());
        ids
    }

    /// Lays a text's doughs aside as they were; returns their names.
    fn take_entries(&mut self, old: &[Definition<FormulaId>]) -> Vec<String> {
        let mut names = Vec::with_capacity(old.len());
        for defined in old {
            let slot = self.open.book.entries.get_mut(defined.what.0 as usize);
            if let Some(entry) = slot.and_then(Option::take) {
                names.push(entry.name.clone());
                self.before.insert(defined.what, entry);
            }
        }
        names
    }

    fn new_formula(&mut self) -> FormulaId {
        let id = FormulaId(u32::try_from(self.open.book.entries.len()).unwrap_or(u32::MAX));
        self.open.book.entries.push(None);
        self.open.readings.push(FormulaReading::default());
        self.effect.formulas.push(id);
        id
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
}

/// The ingredients that a text defines.
fn ingredients<'t>(id: TextId, items: &Items<'t>) -> Vec<(Name<'t>, PantryEntry)> {
    if id == BUILT_IN_ID {
        return built_in().collect();
    }
    let read = |block| PantryEntry::from(Ingredient::read(block));
    items.ingredients.iter().map(|block| (block.name, read(block))).collect()
}

/// The ids that names had before; a name that occurs twice has its ids in order.
fn find_by_name(old: &[Definition<FormulaId>], keys: &[NameId]) -> Vec<Option<FormulaId>> {
    let mut by_name: FxHashMap<NameId, Vec<FormulaId>> = FxHashMap::default();
    for defined in old.iter().rev() {
        by_name.entry(defined.name).or_default().push(defined.what);
    }
    keys.iter().map(|name| by_name.get_mut(name).and_then(Vec::pop)).collect()
}
