//! The balance of a book's doughs, each after all that it takes from.

use levamen_formula::{
    Book, Facts, Figure, FigureId, Formula, FormulaId, Item, Pantry, StageId, Term, state,
};
use levamen_language::Problem;
use levamen_quantity::Exact;
use rustc_hash::FxHashMap;

use crate::aim::Aim;
use crate::figures::Balance;
use crate::linear::{Solver, Values};
use crate::mixture::Mixture;
use crate::read::Reading;
use crate::trouble;

/// How deep batches that are built apart may stand in each other.
const DEEPEST_APART: usize = 16;

/// Balances the doughs of one book; what is solved once is kept.
#[derive(Debug)]
pub struct Balancer<'b> {
    book: &'b Book,
    solved: FxHashMap<FormulaId, Result<Mixture, Vec<Problem>>>,
    solver: Solver,
}

/// A formula's facts and what they come to.
pub(crate) struct Solved<'f> {
    pub formula: &'f Formula,
    pub facts: Facts,
    pub values: Values,
}

impl<'b> Balancer<'b> {
    /// A balancer of a book.
    #[must_use]
    pub fn new(book: &'b Book) -> Self {
        Self { book, solved: FxHashMap::default(), solver: Solver::default() }
    }

    /// The book.
    pub(crate) const fn book(&self) -> &'b Book {
        self.book
    }

    /// The balance of a dough or culture.
    ///
    /// # Errors
    /// The problems that keep it from being balanced: lines that contradict each other, figures that nothing
    /// settles, less than nothing of something, a source with problems of its own.
    pub fn balance(&mut self, id: FormulaId) -> Result<&Balance, &[Problem]> {
        for next in self.sources_first(id) {
            if !self.solved.contains_key(&next) {
                let solved = self.mixture(next);
                self.solved.insert(next, solved);
            }
        }
        match self.solved.get(&id) {
            Some(Ok(mixture)) => Ok(&mixture.balance),
            Some(Err(problems)) => Err(problems),
            None => Err(&[]),
        }
    }

    /// The balance of a dough as it would be with other wants, or with the most or the least of a figure.
    ///
    /// # Errors
    /// As [`Balancer::balance`]; also where no dough keeps the bounds, or there is no bound to what is aimed at.
    pub fn balance_as(&mut self, formula: &Formula, aim: Option<Aim>) -> Result<Balance, Vec<Problem>> {
        for (source, _) in formula.sources().collect::<Vec<_>>() {
            // A source in trouble is reported by the dough that takes from it.
            let _ = self.balance(source);
        }
        let Some(aim) = aim else { return self.balance_formula(formula, 0) };
        let parts = self.parts(formula, 0)?;
        let mut facts = self.facts(formula, &parts)?;
        let pantry = self.book.pantry();
        let grams = crate::aim::reach(aim, formula, &mut facts, pantry)?;
        let flour = facts.id(Figure::Flour).and_then(|flour| grams.get(flour)).cloned().unwrap_or_default();
        let values = grams.per(&flour).ok_or_else(|| vec![trouble::weighs_nothing(formula)])?;
        let solved = Solved { formula, facts, values };
        Reading { solved: &solved, pantry, parts: &parts }.balance()
    }

    /// A formula after all those that it takes from. Formulas that take from each other come in some order; the
    /// one that is solved first then misses its source.
    fn sources_first(&self, id: FormulaId) -> Vec<FormulaId> {
        let mut order = Vec::new();
        let mut seen = vec![id];
        let mut path = vec![(id, false)];
        while let Some((next, entered)) = path.pop() {
            if entered {
                order.push(next);
                continue;
            }
            path.push((next, true));
            let formula = self.book.entry(next).and_then(|entry| entry.formula.as_ref());
            for (source, _) in formula.into_iter().flat_map(Formula::sources) {
                if !self.solved.contains_key(&source) && !seen.contains(&source) {
                    seen.push(source);
                    path.push((source, false));
                }
            }
        }
        order
    }

    fn mixture(&mut self, id: FormulaId) -> Result<Mixture, Vec<Problem>> {
        let formula = self.book.entry(id).and_then(|entry| entry.formula.as_ref()).ok_or_else(Vec::new)?;
        let balance = self.balance_formula(formula, 0)?;
        self.to_mixture(balance, formula)
    }

    fn to_mixture(&self, balance: Balance, formula: &Formula) -> Result<Mixture, Vec<Problem>> {
        Mixture::new(balance, self.book.pantry()).ok_or_else(|| vec![trouble::weighs_nothing(formula)])
    }

    /// Balances one formula whose sources are solved.
    fn balance_formula(&mut self, formula: &Formula, depth: usize) -> Result<Balance, Vec<Problem>> {
        let parts = self.parts(formula, depth)?;
        let solved = self.solve_formula(formula, &parts)?;
        let reading = Reading { solved: &solved, pantry: self.book.pantry(), parts: &parts };
        reading.balance()
    }

    /// What is solved before a formula: its batches built apart, and its own last batch.
    pub(crate) fn parts(&mut self, formula: &Formula, depth: usize) -> Result<Parts, Vec<Problem>> {
        let mut parts = Parts::default();
        for (id, stage) in formula.portioned() {
            if depth >= DEEPEST_APART {
                return Err(vec![trouble::too_deep(stage)]);
            }
            if let Some(part) = formula.apart(id) {
                let balance = self.balance_formula(&part, depth + 1)?;
                parts.apart.insert(id, self.to_mixture(balance, &part)?);
            }
        }
        if formula.takes_own_piece() {
            parts.last_batch = Some(self.last_batch(formula, depth)?);
        }
        Ok(parts)
    }

    /// The composition of the dough's own last batch. It is that of the dough: what `overall` alone says, and
    /// otherwise what the dough is without the piece, since a piece of the same composition changes nothing.
    fn last_batch(&mut self, formula: &Formula, depth: usize) -> Result<Mixture, Vec<Problem>> {
        if let Some(alone) = formula.overall_alone()
            && let Ok(balance) = self.balance_formula(&alone, depth + 1)
        {
            return self.to_mixture(balance, formula);
        }
        let fresh = formula.without_own_pieces();
        let balance = self.balance_formula(&fresh, depth + 1)?;
        self.to_mixture(balance, formula)
    }

    /// The facts of a formula whose parts are solved.
    fn facts(&self, formula: &Formula, parts: &Parts) -> Result<Facts, Vec<Problem>> {
        let composition = |item: Item| match item {
            Item::Seed(id, _) | Item::Piece(id) => match self.solved.get(&id) {
                Some(Ok(mixture)) => Some(&mixture.composition),
                _ => None,
            },
            Item::Stage(id) => parts.apart.get(&id).map(|mixture| &mixture.composition),
            Item::OwnPiece => parts.last_batch.as_ref().map(|mixture| &mixture.composition),
            Item::Ingredient(_) => None,
        };
        let made = parts.apart.iter().filter_map(|(id, mixture)| Some((*id, mixture.grams()?)));
        let made: Vec<(StageId, Exact)> = made.collect();
        state(formula, self.book.pantry(), composition, &made)
            .map_err(|item| vec![trouble::source_in_trouble(self.book, formula, item)])
    }

    pub(crate) fn solve_formula<'f>(&mut self, formula: &'f Formula, parts: &Parts) -> Result<Solved<'f>, Vec<Problem>> {
        let pantry = self.book.pantry();
        let facts = self.facts(formula, parts)?;
        let unit = unit(formula, &facts, pantry);
        let known: Vec<Term> = unit.map(|unit| (unit, Exact::ONE)).into_iter().collect();
        let values = unit.and_then(|unit| self.solver.solve(&facts, unit).ok());
        match values.filter(|values| trouble::nothing_is_void(&facts, values, &[])) {
            Some(values) => {
                let solved = Solved { formula, facts, values };
                trouble::check(&solved, pantry, &known)?;
                let broken = crate::aim::broken_bounds(&solved.facts, &solved.values, formula);
                if broken.is_empty() { Ok(solved) } else { Err(broken) }
            }
            None => Err(vec![trouble::contradiction(formula, pantry, &facts, &known)]),
        }
    }
}

/// What is solved before a formula.
#[derive(Debug, Default)]
pub(crate) struct Parts {
    pub apart: FxHashMap<StageId, Mixture>,
    pub last_batch: Option<Mixture>,
}

/// The length of the direction: the whole flour is one; of a mixture without flour, its weight.
fn unit(formula: &Formula, facts: &Facts, pantry: &Pantry) -> Option<FigureId> {
    let is_flour = |item: Item| match item {
        Item::Ingredient(id) => pantry.get(id).is_some_and(|known| known.is_flour),
        _ => true,
    };
    let has_flour = formula.stages.iter().flat_map(|stage| &stage.lines).any(|line| is_flour(line.item));
    facts.id(if has_flour { Figure::Flour } else { Figure::Dough })
}
