//! A book that lies open and is balanced: an edit re-balances what it affects, and says which figures changed.
//!
//! 1. The book reads what the edit affects ([`OpenBook`]).
//! 2. The doughs that read otherwise are balanced again, and those that take from them, each after its sources
//!    ([`rebalance`]). A source that comes to the same composition as before does not disturb those that take from it.
//! 3. Each dough that was balanced again is compared with what it was ([`changes`]).

mod changes;
mod figure_names;
mod rebalance;

use std::sync::{Arc, Mutex, PoisonError};

use levamen_formula::{Book, Effect, FormulaId, OpenBook};
use levamen_language::{Problem, TextId};

use crate::balancer::{BalanceCache, Balancer};
use crate::figures::Balance;
use crate::solved::Mixture;
pub use changes::{Changes, DoughChange, FigureChange};
pub use figure_names::{FigureKind, FigureName};
use rebalance::Dependencies;

/// What comes of balancing a dough.
type Outcome = Result<Mixture, Vec<Problem>>;

/// A book that is kept in memory with its balances, and takes edits.
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
    /// Balances are found when they are first asked for, by whoever asks.
    cache: Mutex<BalanceCache>,
    /// Before the first edit nobody asks what takes from what.
    dependencies: Option<Dependencies>,
}

impl LiveBook {
    /// Reads texts into a book, as [`OpenBook::read`] does. A dough is balanced when it is first asked for; the first edit
    /// balances all of them, to tell what it changes.
    #[must_use]
    pub fn read(layers: &[&[(TextId, &str)]]) -> Self {
        Self::new(OpenBook::read(layers))
    }

    /// A book that is open already.
    #[must_use]
    pub fn new(open: OpenBook) -> Self {
        Self { open, cache: Mutex::default(), dependencies: None }
    }

    /// Gives a text other words. `None` where the book has no text of that id; nothing is changed then.
    pub fn edit(&mut self, id: TextId, text: impl Into<Arc<str>>) -> Option<Changes> {
        self.prepare();
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
        self.prepare();
        let effect = self.open.insert(layer, index, id, text)?;
        Some(self.follow(effect))
    }

    /// Takes a text out. `None` where the book has no text of that id.
    pub fn remove(&mut self, id: TextId) -> Option<Changes> {
        self.prepare();
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
    /// The problems that keep it from being balanced, as [`Balancer::balance`] has them; none for one with errors in its
    /// text.
    pub fn balance(&self, id: FormulaId) -> Result<Arc<Balance>, Vec<Problem>> {
        self.with_balancer(|balancer| balancer.shared(id).cloned().map_err(<[Problem]>::to_vec))
    }

    /// Everything that is wrong: with the texts, with what they mean, and with the balances, each in the order of the
    /// texts.
    #[must_use]
    pub fn problems(&self) -> Vec<Problem> {
        let of_balances = self.with_balancer(|balancer| {
            let entries = self.book().entries();
            entries
                .flat_map(|(id, _)| balancer.balance(id).err().unwrap_or_default().to_vec())
                .collect::<Vec<_>>()
        });
        self.open.problems().cloned().chain(of_balances).collect()
    }

    /// Lets a balancer of the book work with what is solved already.
    pub fn with_balancer<T>(&self, work: impl FnOnce(&mut Balancer<'_>) -> T) -> T {
        self.cache.lock().unwrap_or_else(PoisonError::into_inner).with_balancer(self.open.book(), work)
    }

    /// What is solved, for whoever has the book to itself.
    fn cache(&mut self) -> &mut BalanceCache {
        self.cache.get_mut().unwrap_or_else(PoisonError::into_inner)
    }

    /// Balances every dough, and notes what takes from what: an edit is told by what it changes.
    fn prepare(&mut self) {
        if self.dependencies.is_some() {
            return;
        }
        let mut dependencies = Dependencies::default();
        for (id, entry) in self.book().entries() {
            dependencies.set(id, entry.formula.as_ref());
        }
        self.with_balancer(|balancer| {
            for (id, _) in self.book().entries() {
                // Problems are kept like balances.
                let _ = balancer.balance(id);
            }
        });
        self.dependencies = Some(dependencies);
    }

    /// Balances again what an edit affects.
    fn follow(&mut self, effect: Effect) -> Changes {
        // What was wrong with a dough that is gone is wrong no more.
        let solved = &self.cache().solved;
        let has_problems =
            |id: &FormulaId| matches!(solved.get(id), Some(Err(problems)) if !problems.is_empty());
        let problems = effect.problems || effect.gone.iter().any(has_problems);
        let before = self.rebalance(&effect);
        let solved = &self.cache().solved;
        let mut doughs: Vec<DoughChange> = before
            .into_iter()
            .filter_map(|(id, before)| {
                let is_read_again = effect.formulas.binary_search(&id).is_ok();
                DoughChange::between(id, [before.as_ref(), solved.get(&id)], is_read_again)
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
