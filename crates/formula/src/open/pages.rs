//! The texts of a book and what each defines.

use std::sync::Arc;

use levamen_language::{Place, Problem, Span, TextId};
use rustc_hash::FxHashMap;

use crate::collect::used_twice;
use crate::names::{Claim, NameId, NameKind, Names};
use crate::pantry::PantryEntry;
use crate::scale::Scale;
use crate::stage::FormulaId;

/// A text and what it defines.
#[derive(Debug, Clone, Default)]
pub(super) struct BookPage {
    pub layer: usize,
    /// How many texts of the book are before it.
    rank: usize,
    pub text: Arc<str>,
    /// What is wrong with its words.
    pub syntax_problems: Vec<Problem>,
    /// What is wrong with the names that it defines.
    pub name_problems: Vec<Problem>,
    pub ingredients: Vec<Definition<Arc<PantryEntry>>>,
    /// Each with what is wrong with it.
    pub scales: Vec<Definition<(Option<Scale>, Vec<Problem>)>>,
    pub formulas: Vec<Definition<FormulaId>>,
}

/// A name and what it is given to.
#[derive(Debug, Clone)]
pub(super) struct Definition<T> {
    pub name: NameId,
    /// Where the name is.
    pub span: Span,
    pub what: T,
}

impl BookPage {
    /// An empty page at the place of this one.
    pub(super) fn at_its_place(&self) -> Self {
        Self { layer: self.layer, rank: self.rank, ..Self::default() }
    }

    /// The definitions of a sort: the name of each and where it is.
    pub(super) fn defined(&self, sort: NameKind) -> Vec<(NameId, Span)> {
        fn names<T>(definitions: &[Definition<T>]) -> Vec<(NameId, Span)> {
            definitions.iter().map(|defined| (defined.name, defined.span)).collect()
        }
        match sort {
            NameKind::Ingredient => names(&self.ingredients),
            NameKind::Scale => names(&self.scales),
            NameKind::Formula => names(&self.formulas),
        }
    }

    /// Where a definition is.
    fn span(&self, sort: NameKind, index: usize) -> Option<Span> {
        match sort {
            NameKind::Ingredient => self.ingredients.get(index).map(|defined| defined.span),
            NameKind::Scale => self.scales.get(index).map(|defined| defined.span),
            NameKind::Formula => self.formulas.get(index).map(|defined| defined.span),
        }
    }
}

/// The texts of a book.
#[derive(Debug, Clone, Default)]
pub(super) struct BookPages {
    by_id: FxHashMap<TextId, BookPage>,
    /// In the order of layers and of texts within a layer.
    order: Vec<TextId>,
}

impl BookPages {
    pub(super) fn has(&self, id: TextId) -> bool {
        self.by_id.contains_key(&id)
    }

    pub(super) fn get(&self, id: TextId) -> Option<&BookPage> {
        self.by_id.get(&id)
    }

    pub(super) fn get_mut(&mut self, id: TextId) -> Option<&mut BookPage> {
        self.by_id.get_mut(&id)
    }

    /// The ids of the texts, in order.
    pub(super) fn ids(&self) -> impl Iterator<Item = TextId> {
        self.order.iter().copied()
    }

    /// Adds an empty page behind all others, which are of no later layer. Tells whether the id is a new one.
    pub(super) fn append(&mut self, layer: usize, id: TextId) -> bool {
        let is_new = !self.has(id);
        if is_new {
            self.by_id.insert(id, BookPage { layer, rank: self.order.len(), ..BookPage::default() });
            self.order.push(id);
        }
        is_new
    }

    /// Adds an empty page, in its layer after `index` others.
    pub(super) fn insert(&mut self, layer: usize, index: usize, id: TextId) {
        let layer_of = |id: &TextId| self.by_id.get(id).map_or(0, |page| page.layer);
        let start = self.order.partition_point(|id| layer_of(id) < layer);
        let end = self.order.partition_point(|id| layer_of(id) <= layer);
        let at = start.saturating_add(index).min(end);
        self.by_id.insert(id, BookPage { layer, ..BookPage::default() });
        self.order.insert(at, id);
        self.count_from(at);
    }

    pub(super) fn remove(&mut self, id: TextId) {
        if let Some(page) = self.by_id.remove(&id) {
            self.order.remove(page.rank.min(self.order.len().saturating_sub(1)));
            self.count_from(page.rank);
        }
    }

    fn count_from(&mut self, start: usize) {
        for (rank, id) in self.order.iter().enumerate().skip(start) {
            if let Some(page) = self.by_id.get_mut(id) {
                page.rank = rank;
            }
        }
    }

    /// What definitions are ordered by.
    pub(super) fn rank(&self, claim: &Claim) -> (usize, usize) {
        (self.get(claim.text).map_or(0, |page| page.rank), claim.index)
    }

    /// Which of a name's definitions holds in a layer: the first.
    fn owner_in(&self, layer: usize, claims: &[Claim]) -> Option<Claim> {
        let layer_of = |claim: &Claim| self.get(claim.text).map_or(0, |page| page.layer);
        let first = claims.partition_point(|claim| layer_of(claim) < layer);
        claims.get(first).copied()
    }

    /// Which of a name's definitions holds in the book: that of the last layer.
    pub(super) fn owner(&self, claims: &[Claim]) -> Option<Claim> {
        let layer = self.get(claims.last()?.text)?.layer;
        self.owner_in(layer, claims)
    }

    /// Every scale of the book.
    pub(super) fn scales(&self, names: &Names) -> Vec<Scale> {
        let pages = self.order.iter().filter_map(|id| Some((*id, self.get(*id)?)));
        let defined = pages.flat_map(|(text, page)| {
            let scales = page.scales.iter().enumerate();
            scales.map(move |(index, defined)| (page.layer, Claim { text, index }, defined))
        });
        let owning = defined.filter(|(layer, claim, defined)| {
            self.owner_in(*layer, names.claims(defined.name)) == Some(*claim)
        });
        owning.filter_map(|(.., defined)| defined.what.0.clone()).collect()
    }

    /// What is wrong with the names that a text defines: those that are taken, and scales without a figure.
    pub(super) fn name_problems(&self, text: TextId, names: &Names) -> Vec<Problem> {
        let mut problems = Vec::new();
        let Some(page) = self.get(text) else { return problems };
        let sorts = [
            (NameKind::Ingredient, "ingredients"),
            (NameKind::Scale, "scales"),
            (NameKind::Formula, "doughs or cultures"),
        ];
        for (sort, what) in sorts {
            for (index, (name, span)) in page.defined(sort).into_iter().enumerate() {
                match self.owner_in(page.layer, names.claims(name)) {
                    Some(first) if first != (Claim { text, index }) => {
                        let span_of_first =
                            self.get(first.text).and_then(|page| page.span(sort, first.index));
                        let first = Place { text: first.text, span: span_of_first.unwrap_or_default() };
                        let second = Place { text, span };
                        problems.push(used_twice(what, span.of(&page.text), first, second));
                    }
                    _ if sort == NameKind::Scale => {
                        problems
                            .extend(page.scales.get(index).iter().flat_map(|scale| &scale.what.1).cloned());
                    }
                    _ => {}
                }
            }
        }
        problems
    }
}
