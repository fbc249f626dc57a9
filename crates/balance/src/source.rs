//! Where balances come from, for whoever plans with them.

use std::cell::RefCell;
use std::sync::Arc;

use levamen_formula::{Book, FormulaId};
use levamen_language::Problem;

use crate::balancer::Balancer;
use crate::figures::Balance;
use crate::live::LiveBook;

/// A book with its balances at hand: each dough is balanced once, however often it is asked for.
pub trait BalanceSource {
    /// The book.
    fn book(&self) -> &Book;

    /// The balance of a dough or culture.
    ///
    /// # Errors
    /// As [`Balancer::balance`].
    fn balance(&self, id: FormulaId) -> Result<Arc<Balance>, Vec<Problem>>;
}

/// The balances of a book that nobody edits.
#[derive(Debug)]
pub struct BookBalances<'b>(RefCell<Balancer<'b>>);

impl<'b> BookBalances<'b> {
    /// The balances of a book.
    #[must_use]
    pub fn new(book: &'b Book) -> Self {
        Self(RefCell::new(Balancer::new(book)))
    }
}

impl BalanceSource for BookBalances<'_> {
    fn book(&self) -> &Book {
        self.0.borrow().book()
    }

    fn balance(&self, id: FormulaId) -> Result<Arc<Balance>, Vec<Problem>> {
        self.0.borrow_mut().shared(id).cloned().map_err(<[Problem]>::to_vec)
    }
}

impl BalanceSource for LiveBook {
    fn book(&self) -> &Book {
        Self::book(self)
    }

    fn balance(&self, id: FormulaId) -> Result<Arc<Balance>, Vec<Problem>> {
        Self::balance(self, id)
    }
}
