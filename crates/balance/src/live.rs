//! A book that lies open and is balanced: an edit re-balances what it affects, and says which figures changed.
//!
//! 1. The book reads what the edit affects ([`OpenBook`]).
//! 2. The doughs that read otherwise are balanced again, and those that take from them, each after its sources
//!    ([`rebalance`]). A source that comes to the same composition as before does not disturb those that take from it.
//! 3. Each dough that was balanced again is compared with what it was ([`changes`]).

mod changes;
mod figure_names;
mod rebalance;

use std::sync::Arc;

use levamen_formula::{Book, Composition, Effect, FormulaId, OpenBook};
use levamen_language::{Problem, TextId};
use rustc_hash::FxHashMap;

use crate::balancer::Balancer;
use crate::figures::Balance;
use crate::linear::Solver;
use crate::solved::Mixture;
pub use changes::{Changes, DoughChange, FigureChange};
pub use figure_names::{FigureKind, FigureName};
use rebalance::Dependencies;

/// What comes of balancing a dough.
type Outcome = Result<Mixture, Vec<Problem>>;

/// A book that is kept in memory with all its balances, and takes edits.
///
/// After every edit each dough has the balance, or the problems, that it would have in the book read again.
///
/// ```
/// use levamen_balance::LiveBook;
/// use levamen_language::TextId;
///
/// let mother = "culture mother\n  rye flour  100 %\n  water  100 %\n";
/// let loaf = "
/// dough Rye loaf
///
/// final dough
///   rye flour    100 %
///   water         70 %
///   from mother   20 % of its flour
/// ";
/// let mut live = LiveBook::read(&[&[(TextId(0), mother), (TextId(1), loaf)]]);
/// let changes = live.edit(TextId(0), mother.replace("water  100 %", "water  80 %")).unwrap();
///
/// // The loaf is wetter or drier with its culture.
/// let id = live.book().find("rye loaf").unwrap();
/// let loaf = changes.of(id).unwrap();
/// let hydration = loaf.figures.iter().find(|changed| changed.figure.to_string() == "hydration").unwrap();
/// assert_eq!(hydration.before.as_ref().unwrap().percent().to_fixed(2), "72.73");
/// assert_eq!(hydration.after.as_ref().unwrap().percent().to_fixed(2), "71.00");
/// assert_eq!(live.balance(id).unwrap().hydration, *hydration.after.as_ref().unwrap());
/// ```
#[derive(Debug)]
pub struct LiveBook {
    open: OpenBook,
    solved: FxHashMap<FormulaId, Outcome>,
    /// What doughs that take from each other are made of.
    steady: FxHashMap<FormulaId, Composition>,
    solver: Solver,
    dependencies: Dependencies,
}

impl LiveBook {
    /// Reads texts into a book, as [`OpenBook::read`] does, and balances every dough and culture.
    #[must_use]
    pub fn read(layers: &[&[(TextId, &str)]]) -> Self {
        Self::new(OpenBook::read(layers))
    }

    /// Balances every dough and culture of a book.
    #[must_use]
    pub fn new(open: OpenBook) -> Self {
        let mut live = Self {
            open,
            solved: FxHashMap::default(),
            steady: FxHashMap::default(),
            solver: Solver::default(),
            dependencies: Dependencies::default(),
        };
        for (id, entry) in live.open.book().entries() {
            live.dependencies.set(id, entry.formula.as_ref());
        }
        live.with_balancer(|balancer| {
            for (id, _) in balancer.book.entries() {
                // Problems are kept like balances.
                let _ = balancer.balance(id);
            }
        });
        live
    }

    /// Gives a text other words. `None` where the book has no text of that id; nothing is changed then.
    pub fn edit(&mut self, id: TextId, text: impl Into<Arc<str>>) -> Option<Changes> {
        let effect = self.open.edit(id, text)?;
        Some(self.follow(effect))
    }

    /// Adds a text, in its layer after as many of that layer's texts as `index` says. `None` where the book has a text
    /// of that id already; nothing is changed then.
    pub fn insert(
        &mut self,
        layer: usize,
        index: usize,
        id: TextId,
        text: impl Into<Arc<str>>,
    ) -> Option<Changes> {
        let effect = self.open.insert(layer, index, id, text)?;
        Some(self.follow(effect))
    }

    /// Takes a text out. `None` where the book has no text of that id.
    pub fn remove(&mut self, id: TextId) -> Option<Changes> {
        let effect = self.open.remove(id)?;
        Some(self.follow(effect))
    }

    /// The book as it is now.
    #[must_use]
    pub const fn book(&self) -> &Book {
        self.open.book()
    }

    /// The book with its texts.
    #[must_use]
    pub const fn open_book(&self) -> &OpenBook {
        &self.open
    }

    /// The balance of a dough or culture.
    ///
    /// # Errors
    /// The problems that keep it from being balanced, as [`Balancer::balance`] has them; none for a dough that the book
    /// does not have, and for one with errors in its text.
    pub fn balance(&self, id: FormulaId) -> Result<&Balance, &[Problem]> {
        match self.solved.get(&id) {
            Some(Ok(mixture)) => Ok(&mixture.balance),
            Some(Err(problems)) => Err(problems),
            None => Err(&[]),
        }
    }

    /// Everything that is wrong: with the texts, with what they mean, and with the balances, each in the order of the
    /// texts.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        let of_balances =
            self.book().entries().flat_map(|(id, _)| self.balance(id).err().unwrap_or_default());
        self.open.problems().chain(of_balances)
    }

    /// Lets a balancer of the book work with what is solved already.
    fn with_balancer<T>(&mut self, work: impl FnOnce(&mut Balancer<'_>) -> T) -> T {
        let mut balancer = Balancer {
            book: self.open.book(),
            solved: std::mem::take(&mut self.solved),
            steady: std::mem::take(&mut self.steady),
            solver: std::mem::take(&mut self.solver),
        };
        let result = work(&mut balancer);
        let Balancer { solved, steady, solver, .. } = balancer;
        (self.solved, self.steady, self.solver) = (solved, steady, solver);
        result
    }

    /// Balances again what an edit affects.
    fn follow(&mut self, effect: Effect) -> Changes {
        // What was wrong with a dough that is gone is wrong no more.
        let has_problems = |id: &FormulaId| self.balance(*id).is_err_and(|problems| !problems.is_empty());
        let problems = effect.problems || effect.gone.iter().any(has_problems);
        let before = self.rebalance(&effect);
        let mut doughs: Vec<DoughChange> = before
            .into_iter()
            .filter_map(|(id, before)| {
                let is_read_again = effect.formulas.binary_search(&id).is_ok();
                DoughChange::between(id, [before.as_ref(), self.solved.get(&id)], is_read_again)
            })
            .collect();
        doughs.sort_unstable_by_key(|change| change.id);
        let problems = problems || doughs.iter().any(|dough| dough.problems);
        Changes {
            doughs,
            gone: effect.gone,
            ingredients: effect.ingredients,
            scales: effect.scales,
            problems,
        }
    }
}
