//! The balance of a book's doughs, each after all that it takes from.

mod circle;
mod joint;
mod members;
mod unsteady;

use std::sync::Arc;

use levamen_formula::{
    Book, Composition, Equations, Formula, FormulaId, Item, Pantry, StageId, Term, Variable, VariableId,
    build_equations,
};
use levamen_language::Problem;
use levamen_quantity::Exact;
use rustc_hash::FxHashMap;

use crate::figures::Balance;
use crate::linear::{Solver, Values};
use crate::objective::Objective;
use crate::problems;
use crate::read::BalanceReader;
use crate::solved::{MAX_SEPARATE_DEPTH, Mixture, Parts, Solved};

/// What is solved of a book, kept from one balancer to the next. It is that of one book: an edit takes out what it affects.
#[derive(Debug, Default)]
pub struct BalanceCache {
    pub(crate) solved: FxHashMap<FormulaId, Result<Mixture, Vec<Problem>>>,
    /// What doughs that take from each other are made of: known before any of them is balanced.
    pub(crate) steady: FxHashMap<FormulaId, Composition>,
    solver: Solver,
}

impl BalanceCache {
    /// Lets a balancer of the book work with what is solved already, and keeps what it solves.
    pub fn with_balancer<T>(&mut self, book: &Book, work: impl FnOnce(&mut Balancer<'_>) -> T) -> T {
        let Self { solved, steady, solver } = std::mem::take(self);
        let mut balancer = Balancer { book, solved, steady, solver };
        let result = work(&mut balancer);
        let Balancer { solved, steady, solver, .. } = balancer;
        *self = Self { solved, steady, solver };
        result
    }
}

/// Balances the doughs of one book; what is solved once is kept.
#[derive(Debug)]
pub struct Balancer<'b> {
    pub(crate) book: &'b Book,
    pub(crate) solved: FxHashMap<FormulaId, Result<Mixture, Vec<Problem>>>,
    /// What doughs that take from each other are made of: known before any of them is balanced.
    pub(crate) steady: FxHashMap<FormulaId, Composition>,
    pub(crate) solver: Solver,
}

impl<'b> Balancer<'b> {
    /// A balancer of a book.
    #[must_use]
    pub fn new(book: &'b Book) -> Self {
        Self { book, solved: FxHashMap::default(), steady: FxHashMap::default(), solver: Solver::default() }
    }

    /// The book.
    pub(crate) const fn book(&self) -> &'b Book {
        self.book
    }

    /// The balance of a dough or culture.
    ///
    /// # Errors
    /// The problems that keep it from being balanced: lines that contradict each other, figures that nothing
    /// settles, less than zero of something, a source with problems of its own.
    pub fn balance(&mut self, id: FormulaId) -> Result<&Balance, &[Problem]> {
        self.shared(id).map(|balance| &**balance)
    }

    /// As [`Balancer::balance`]; a copy shares the balance with the one that is kept.
    ///
    /// # Errors
    /// As [`Balancer::balance`].
    pub fn shared(&mut self, id: FormulaId) -> Result<&Arc<Balance>, &[Problem]> {
        if self.waits(id) {
            for group in self.book.solving_order(&[id], |id| !self.solved.contains_key(&id)) {
                match group.as_slice() {
                    [one] => self.solve_one(*one),
                    circle => self.solve_circle(circle),
                }
            }
        } else if !self.solved.contains_key(&id) {
            self.solve_one(id);
        }
        match self.solved.get(&id) {
            Some(Ok(mixture)) => Ok(&mixture.balance),
            Some(Err(problems)) => Err(problems),
            None => {
                debug_assert!(false, "what is asked for is solved or has problems");
                Err(&[])
            }
        }
    }

    /// As [`Balancer::shared`], of a dough that nothing takes from and that is asked for once: it is not kept, only what it
    /// takes from.
    ///
    /// # Errors
    /// As [`Balancer::balance`].
    pub fn unkept(&mut self, id: FormulaId) -> Result<Arc<Balance>, Vec<Problem>> {
        if let Some(known) = self.solved.get(&id) {
            return known.as_ref().map(|mixture| Arc::clone(&mixture.balance)).map_err(Clone::clone);
        }
        let balance = self.shared(id).cloned().map_err(<[Problem]>::to_vec);
        self.solved.remove(&id);
        balance
    }

    /// The balance of a dough as it would be with other wants, or with the most or the least of a figure.
    ///
    /// # Errors
    /// As [`Balancer::balance`]; also where no dough keeps the bounds, or the figure has no bound.
    pub fn balance_as(
        &mut self,
        formula: &Formula,
        objective: Option<Objective>,
    ) -> Result<Balance, Vec<Problem>> {
        self.balance_sources(formula);
        let Some(objective) = objective else { return self.balance_formula(formula, 0, None) };
        let parts = self.parts(formula, 0, None)?;
        let (equations, grams) = self.optimize(formula, objective, &parts)?;
        let pantry = self.book.pantry();
        let flour =
            equations.id(Variable::Flour).and_then(|flour| grams.get(flour)).cloned().unwrap_or_default();
        let values = grams.per(&flour).ok_or_else(|| vec![problems::weighs_nothing(formula)])?;
        let solved = Solved { formula, equations, values };
        BalanceReader { solved: &solved, pantry, parts: &parts }.balance()
    }

    /// The formula with the bounds that stop its objective as what it must keep exactly: in terms of linear
    /// programming, the binding constraints.
    ///
    /// # Errors
    /// As [`Balancer::balance_as`].
    pub fn with_binding_bounds(
        &mut self,
        formula: &Formula,
        objective: Objective,
    ) -> Result<Formula, Vec<Problem>> {
        self.balance_sources(formula);
        let parts = self.parts(formula, 0, None)?;
        let (equations, grams) = self.optimize(formula, objective, &parts)?;
        Ok(crate::objective::with_binding_bounds(formula, &equations, &grams))
    }

    /// The equations of a formula, and in grams the values that are best by an objective.
    fn optimize(
        &self,
        formula: &Formula,
        objective: Objective,
        parts: &Parts,
    ) -> Result<(Equations, Values), Vec<Problem>> {
        let mut equations = self.equations(formula, parts)?;
        let grams = crate::objective::optimize(objective, formula, &mut equations, self.book.pantry())?;
        Ok((equations, grams))
    }

    /// Balances what a formula takes from. A source with problems is reported by the dough that takes from it.
    fn balance_sources(&mut self, formula: &Formula) {
        for (source, _) in formula.sources().collect::<Vec<_>>() {
            let _ = self.balance(source);
        }
    }

    /// Whether something that a formula takes from is not solved yet; mostly nothing is, and no order has to be found.
    fn waits(&self, id: FormulaId) -> bool {
        let mut sources = self.book.formula(id).into_iter().flat_map(Formula::sources);
        sources.any(|(source, _)| !self.solved.contains_key(&source))
    }

    /// Solves one formula whose sources are solved.
    pub(crate) fn solve_one(&mut self, id: FormulaId) {
        let solved = self.mixture(id);
        self.solved.insert(id, solved);
    }

    fn mixture(&mut self, id: FormulaId) -> Result<Mixture, Vec<Problem>> {
        let formula = self.book.formula(id).ok_or_else(Vec::new)?;
        let balance = self.balance_formula(formula, 0, None)?;
        self.to_mixture(balance, formula)
    }

    pub(crate) fn to_mixture(&self, balance: Balance, formula: &Formula) -> Result<Mixture, Vec<Problem>> {
        Mixture::new(balance, self.book.pantry()).ok_or_else(|| vec![problems::weighs_nothing(formula)])
    }

    /// Balances one formula whose sources are solved. `own` is what the dough's last batch is made of, where that is
    /// known.
    pub(crate) fn balance_formula(
        &mut self,
        formula: &Formula,
        depth: usize,
        own: Option<&Composition>,
    ) -> Result<Balance, Vec<Problem>> {
        let parts = self.parts(formula, depth, own)?;
        let solved = self.solve_formula(formula, &parts)?;
        let reading = BalanceReader { solved: &solved, pantry: self.book.pantry(), parts: &parts };
        reading.balance()
    }

    /// What is solved before a formula: its own last batch, and its separate batches.
    pub(crate) fn parts(
        &mut self,
        formula: &Formula,
        depth: usize,
        own: Option<&Composition>,
    ) -> Result<Parts, Vec<Problem>> {
        let mut parts = Parts { last_batch: own.cloned(), ..Parts::default() };
        if own.is_none() && formula.takes_own_piece() {
            parts.last_batch = Some(self.last_batch(formula)?);
        }
        for (id, stage) in formula.portioned() {
            if depth >= MAX_SEPARATE_DEPTH {
                return Err(vec![problems::too_deep(stage)]);
            }
            if let Some(part) = formula.separate_batch(id) {
                let balance = self.balance_formula(&part, depth + 1, parts.last_batch.as_ref())?;
                parts.separate.insert(id, self.to_mixture(balance, &part)?);
            }
        }
        Ok(parts)
    }

    /// What a dough or culture is made of, where that is known.
    pub(crate) fn composition(&self, id: FormulaId) -> Option<&Composition> {
        match self.solved.get(&id) {
            Some(Ok(mixture)) => Some(&mixture.composition),
            Some(Err(_)) => None,
            None => self.steady.get(&id),
        }
    }

    /// The equations of a formula whose parts are solved.
    fn equations(&self, formula: &Formula, parts: &Parts) -> Result<Equations, Vec<Problem>> {
        let composition = |item: Item| match item {
            Item::Seed(id, _) | Item::Piece(id) => self.composition(id),
            Item::Stage(id) => parts.separate.get(&id).map(|mixture| &mixture.composition),
            Item::OwnPiece => parts.last_batch.as_ref(),
            Item::Ingredient(_) => None,
        };
        let made = parts.separate.iter().filter_map(|(id, mixture)| Some((*id, mixture.grams()?)));
        let made: Vec<(StageId, Exact)> = made.collect();
        build_equations(formula, self.book.pantry(), composition, &made)
            .map_err(|item| vec![problems::source_has_problems(self.book, formula, item)])
    }

    /// The values of the figures where one of them is one; `None` where the equations contradict each other.
    fn values(&mut self, formula: &Formula, equations: &Equations, unit: VariableId) -> Option<Values> {
        let per_fresh = fresh(formula, equations).and_then(|fresh| self.solver.solve(equations, fresh).ok());
        let in_unit = per_fresh.and_then(|values| values.per(values.get(unit)?));
        in_unit.or_else(|| self.solver.solve(equations, unit).ok())
    }

    pub(crate) fn solve_formula<'f>(
        &mut self,
        formula: &'f Formula,
        parts: &Parts,
    ) -> Result<Solved<'f>, Vec<Problem>> {
        let pantry = self.book.pantry();
        let mut equations = self.equations(formula, parts)?;
        let unit = unit(formula, &equations, pantry);
        let known: Vec<Term> = unit.map(|unit| (unit, Exact::ONE)).into_iter().collect();
        let mut values = unit.and_then(|unit| self.values(formula, &equations, unit));
        let is_open = values.as_ref().is_some_and(|values| problems::leaves_open(&equations, values));
        if is_open && equations.tie_weights_to_batch() {
            values = unit.and_then(|unit| self.values(formula, &equations, unit));
        }
        match values.filter(|values| problems::no_stated_zero(&equations, values, &[])) {
            Some(values) => {
                let solved = Solved { formula, equations, values };
                problems::check(&solved, pantry, &known)?;
                let broken = crate::objective::broken_bounds(&solved.equations, &solved.values, formula);
                if broken.is_empty() { Ok(solved) } else { Err(broken) }
            }
            None => Err(vec![problems::contradiction(formula, pantry, &equations, &known)]),
        }
    }
}

/// What is fresh in a formula that takes something made of long numbers, as a long chain of doughs brings them. In
/// this unit they meet only at the end, in a few sums; in another every figure is a quotient of long numbers.
fn fresh(formula: &Formula, equations: &Equations) -> Option<VariableId> {
    let is_long = equations.intakes().iter().any(|intake| !intake.flour.is_in_words());
    let fresh = [Variable::Gram, Variable::OwnFlour(formula.final_dough())];
    fresh.into_iter().filter(|_| is_long).find_map(|figure| equations.id(figure))
}

/// The length of the direction: the whole flour is one; of a mixture without flour, its weight.
fn unit(formula: &Formula, equations: &Equations, pantry: &Pantry) -> Option<VariableId> {
    let is_flour = |item: Item| match item {
        Item::Ingredient(id) => pantry.get(id).is_some_and(|known| known.is_flour),
        // What goes into it is among the lines too.
        Item::Stage(_) => false,
        Item::Seed(..) | Item::Piece(_) | Item::OwnPiece => true,
    };
    let has_flour = formula.stages.iter().flat_map(|stage| &stage.lines).any(|line| is_flour(line.item));
    equations.id(if has_flour { Variable::Flour } else { Variable::Dough })
}
