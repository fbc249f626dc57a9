//! Reading the formulas that a change affects.

use std::collections::BTreeSet;

use levamen_language::{Place, Problem, Severity, TextId, parse};

use super::BookChange;
use crate::collect::{FormulaDraft, collect};
use crate::formula::Formula;
use crate::names::Directory;
use crate::open::pages::BookPage;
use crate::open::{FormulaReading, OpenBook};
use crate::resolve::resolve;
use crate::stage::FormulaId;

impl BookChange<'_> {
    /// Reads formulas of texts that are not written.
    pub(super) fn read_elsewhere(&mut self, formulas: &[FormulaId], written: &BTreeSet<TextId>) {
        let placed = |id: &FormulaId| Some((self.open.book.entry(*id)?.place.text, *id));
        let wanted: BTreeSet<(TextId, FormulaId)> =
            formulas.iter().filter_map(placed).filter(|(text, _)| !written.contains(text)).collect();
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
        let errors = Errors::of(page);
        let directory = Directory::new(book, std::mem::take(names));
        let mut read = Vec::with_capacity(1);
        let wanted = page.formulas.iter().zip(drafts).filter(|(defined, _)| is_wanted(defined.what));
        for (defined, draft) in wanted {
            let mut own = errors.within(draft);
            let mut problems = Vec::new();
            let formula = resolve(&directory, draft, own.is_empty(), &mut problems);
            own.extend(problems.iter().filter(|problem| is_error(problem)).cloned());
            let formula = formula.filter(|_| own.is_empty());
            let reading = FormulaReading { problems, lookups: directory.take_lookups() };
            read.push((defined.what, formula, own, reading));
        }
        *names = directory.into_names();
        for (id, formula, errors, reading) in read {
            self.keep(id, formula, errors, reading);
        }
    }

    /// Keeps a formula as it was read.
    fn keep(
        &mut self,
        id: FormulaId,
        formula: Option<Formula>,
        errors: Vec<Problem>,
        reading: FormulaReading,
    ) {
        let OpenBook { book, names, readings, .. } = &mut *self.open;
        let entry = book.entries.get_mut(id.0 as usize).and_then(Option::as_mut);
        let (Some(entry), Some(noted)) = (entry, readings.get_mut(id.0 as usize)) else { return };
        let formula = std::mem::replace(&mut entry.formula, formula);
        let problems = std::mem::replace(&mut entry.problems, errors);
        let is_as_before = match self.before.remove(&id) {
            Some(before) => before == *entry,
            None => formula == entry.formula && problems == entry.problems,
        };
        if !is_as_before {
            self.effect.formulas.push(id);
        }
        self.effect.problems |= noted.problems != reading.problems;
        names.note(id, &noted.lookups, &reading.lookups);
        *noted = reading;
    }
}

/// The errors in the words and the names of a text, in the order of their places: a text of many doughs may have many.
struct Errors<'p>(Vec<(Place, usize, &'p Problem)>);

impl<'p> Errors<'p> {
    fn of(page: &'p BookPage) -> Self {
        let errors =
            page.syntax_problems.iter().chain(&page.name_problems).filter(|problem| is_error(problem));
        let placed = errors
            .enumerate()
            .filter_map(|(index, error)| Some((error.primary.as_ref()?.place, index, error)));
        let mut placed: Vec<_> = placed.collect();
        placed.sort_unstable_by_key(|(place, index, _)| (place.span.start, *index));
        Self(placed)
    }

    /// Those of one formula, in the order in which they were found.
    fn within(&self, draft: &FormulaDraft<'_>) -> Vec<Problem> {
        let start = self.0.partition_point(|(place, ..)| place.span.start < draft.span.start);
        let near = self.0.iter().skip(start).take_while(|(place, ..)| place.span.start <= draft.span.end);
        let mut own: Vec<_> = near.filter(|(place, ..)| draft.holds(*place)).collect();
        own.sort_unstable_by_key(|(_, index, _)| *index);
        own.into_iter().map(|(.., error)| (*error).clone()).collect()
    }
}

fn is_error(problem: &Problem) -> bool {
    problem.severity == Severity::Error
}
