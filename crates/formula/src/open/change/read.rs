//! Reading the formulas that a change affects.

use std::collections::BTreeSet;

use levamen_language::{Problem, Severity, TextId, parse};
use rustc_hash::FxHashSet;

use super::{Change, Written, heading};
use crate::book::Entry;
use crate::collect::{FormulaDraft, collect};
use crate::directory::Directory;
use crate::formula::FormulaId;
use crate::open::{OpenBook, Reading};
use crate::resolve::resolve;

impl Change<'_> {
    /// Reads formulas of texts that are not written.
    pub(super) fn read_elsewhere(&mut self, formulas: Vec<FormulaId>, texts: &[Written<'_>]) {
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
    pub(super) fn read(
        &mut self,
        text: TextId,
        drafts: &[FormulaDraft<'_>],
        is_wanted: impl Fn(FormulaId) -> bool,
    ) {
        let OpenBook { book, pages, names, .. } = &mut *self.open;
        let Some(page) = pages.get(text) else { return };
        let is_error = |problem: &&Problem| problem.severity == Severity::Error;
        let errors: Vec<&Problem> = page.faults.iter().chain(&page.name_problems).filter(is_error).collect();
        let directory = Directory::new(book, std::mem::take(names));
        let mut read = Vec::new();
        for (defined, draft) in
            page.formulas.iter().zip(drafts).filter(|(defined, _)| is_wanted(defined.what))
        {
            let is_own =
                |problem: &&&Problem| problem.primary.as_ref().is_some_and(|label| draft.holds(label.place));
            let mut own: Vec<Problem> =
                errors.iter().filter(is_own).map(|problem| (*problem).clone()).collect();
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
        let (Some(slot), Some(noted)) =
            (book.entries.get_mut(id.0 as usize), readings.get_mut(id.0 as usize))
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
