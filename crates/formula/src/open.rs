//! A book that lies open: it is kept in memory and takes edits, and an edit reads only what it affects.
//!
//! 1. Each text is a page (`pages`), with what it defines; a formula is kept as it is read.
//! 2. Each name knows the texts that define it and the formulas that look it up, found or not (`crate::names`).
//! 3. A change writes a page again. Names that come to mean something else by it lead to the formulas that are read
//!    again, wherever they are (`change`).

mod change;
mod pages;

use std::sync::Arc;

use levamen_language::{Problem, TextId, parse};

use crate::book::Book;
use crate::ingredient::IngredientId;
use crate::names::{NameId, Names};
use crate::pantry::BUILT_IN_ID;
use crate::stage::FormulaId;
use change::{BookChange, WrittenText};
use pages::BookPages;

/// A book that is kept in memory and takes edits.
///
/// After every edit it is the book that would be read again from its texts, problems and their order included; but
/// doughs, cultures and ingredients keep their ids, also where they are renamed.
///
/// ```
/// use levamen_formula::OpenBook;
/// use levamen_language::TextId;
///
/// let rye = "culture rye mother\n  rye flour  100 %\n  water  90 %\n";
/// let loaf = "dough Loaf\n\nfinal dough\n  rye flour  100 %\n  water  70 %\n  from rye mother  20 % of its flour\n";
/// let mut open = OpenBook::read(&[&[(TextId(0), rye), (TextId(1), loaf)]]);
/// assert_eq!(open.problems().count(), 0);
///
/// let effect = open.edit(TextId(0), rye.replace("rye mother", "old mother")).unwrap();
/// let loaf = open.book().find("loaf").unwrap();
/// assert!(effect.formulas.contains(&loaf), "it misses its culture");
/// assert_eq!(open.problems().next().unwrap().code, "unknown-source");
/// ```
#[derive(Debug, Clone)]
pub struct OpenBook {
    book: Book,
    pages: BookPages,
    names: Names,
    /// By formula: what was noted when it was read.
    readings: Vec<FormulaReading>,
}

/// What reading a formula brought to light.
#[derive(Debug, Clone, Default)]
struct FormulaReading {
    problems: Vec<Problem>,
    /// The names that it looked up, in order and each once.
    lookups: Box<[NameId]>,
}

impl OpenBook {
    /// Reads texts into a book. A name in a later layer takes the place of the same name in an earlier one; within a
    /// layer a name is used once.
    ///
    /// Words that are shared already, as an `Arc<str>`, are kept without a copy. Every text has an id of its own; of two with the same id the first is read. The id `u32::MAX` is that of the
    /// built-in pantry.
    #[must_use]
    pub fn read<T: AsRef<str> + Clone + Into<Arc<str>>>(layers: &[&[(TextId, T)]]) -> Self {
        let mut open = Self {
            book: Book::default(),
            pages: BookPages::default(),
            names: Names::new(),
            readings: Vec::new(),
        };
        open.pages.append(0, BUILT_IN_ID);
        let mut texts: Vec<&(TextId, T)> = Vec::new();
        for (layer, own) in (1..).zip(layers) {
            texts.extend(own.iter().filter(|(id, _)| open.pages.append(layer, *id)));
        }
        let written = texts
            .into_iter()
            .map(|(id, text)| WrittenText::new(*id, text.clone().into(), parse(*id, text.as_ref())));
        BookChange::new(&mut open).make(std::iter::once(WrittenText::built_in()).chain(written).collect());
        open
    }

    /// Gives a text other words. `None` where the book has no text of that id; nothing is changed then.
    pub fn edit(&mut self, id: TextId, text: impl Into<Arc<str>>) -> Option<Effect> {
        if id == BUILT_IN_ID || !self.pages.has(id) {
            return None;
        }
        Some(self.write(id, text.into()))
    }

    /// Adds a text, in its layer after as many of that layer's texts as `index` says. `None` where the book has a text
    /// of that id already; nothing is changed then.
    pub fn insert(
        &mut self,
        layer: usize,
        index: usize,
        id: TextId,
        text: impl Into<Arc<str>>,
    ) -> Option<Effect> {
        if self.pages.has(id) {
            return None;
        }
        // The built-in pantry is a layer below those of the caller.
        self.pages.insert(layer.saturating_add(1), index, id);
        Some(self.write(id, text.into()))
    }

    /// Takes a text out. `None` where the book has no text of that id.
    pub fn remove(&mut self, id: TextId) -> Option<Effect> {
        let effect = self.edit(id, "")?;
        self.pages.remove(id);
        Some(effect)
    }

    /// The book as it is now.
    #[must_use]
    pub const fn book(&self) -> &Book {
        &self.book
    }

    /// The book alone, which takes no more edits.
    #[must_use]
    pub fn into_book(self) -> Book {
        self.book
    }

    /// The words of a text; `None` where the book has none of that id, and for the built-in pantry.
    #[must_use]
    pub fn text(&self, id: TextId) -> Option<&Arc<str>> {
        self.pages.get(id).filter(|_| id != BUILT_IN_ID).map(|page| &page.text)
    }

    /// The ids of the texts in their order, that of the built-in pantry left out.
    pub fn texts(&self) -> impl Iterator<Item = TextId> {
        self.pages.ids().filter(|id| *id != BUILT_IN_ID)
    }

    /// Everything that is wrong: first with the words of the texts, then with what they mean, both in the order of
    /// the texts.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        let pages = self.pages.ids().filter_map(|id| self.pages.get(id));
        let of_words = pages.flat_map(|page| page.syntax_problems.iter().chain(&page.name_problems));
        let readings = self.book.order.iter().filter_map(|id| self.readings.get(id.0 as usize));
        of_words.chain(readings.flat_map(|reading| &reading.problems))
    }

    fn write(&mut self, id: TextId, text: Arc<str>) -> Effect {
        let words = Arc::clone(&text);
        BookChange::new(self).make(vec![WrittenText::new(id, text, parse(id, &words))])
    }
}

impl Book {
    /// Reads texts into a book, with every problem that they have. A name in a later layer takes the place of the
    /// same name in an earlier one; within a layer a name is used once. Every text has an id of its own.
    #[must_use]
    pub fn read<T: AsRef<str> + Clone + Into<Arc<str>>>(layers: &[&[(TextId, T)]]) -> (Self, Vec<Problem>) {
        let open = OpenBook::read(layers);
        let problems = open.problems().cloned().collect();
        (open.into_book(), problems)
    }
}

/// What an edit did to a book. Every list is in the order of the ids, each id once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Effect {
    /// Doughs and cultures that are new, or that say something else than before or elsewhere.
    pub formulas: Vec<FormulaId>,
    /// Doughs and cultures that name an ingredient which is made of something else than before.
    pub reweighed: Vec<FormulaId>,
    /// Doughs and cultures that are gone.
    pub gone: Vec<FormulaId>,
    /// Ingredients that are new, gone or not what they were.
    pub ingredients: Vec<IngredientId>,
    /// Whether the scales are others.
    pub scales: bool,
    /// Whether the problems are others, or are elsewhere.
    pub problems: bool,
}

impl Effect {
    fn sort(&mut self) {
        for ids in [&mut self.formulas, &mut self.reweighed, &mut self.gone] {
            ids.sort_unstable();
            ids.dedup();
        }
        self.ingredients.sort_unstable();
        self.ingredients.dedup();
    }
}
