//! The book of a workspace: read and balanced, and open for edits from the first edit on.

use std::sync::{Arc, Mutex, PoisonError};

use levamen_balance::{BalanceCache, Balancer, Changes, LiveBook};
use levamen_formula::Book;
use levamen_language::{Problem, TextId};

/// The texts of a book, layer by layer.
type Layers<'t> = [&'t [(TextId, Arc<str>)]];

/// A book with what is solved of it. What an edit needs beside takes a quarter of its memory, so a book is opened when somebody
/// edits it; read again from the same texts, it has the same ids.
#[derive(Debug)]
pub(crate) enum KeptBook {
    /// A book that nobody has edited.
    Closed(Box<ClosedBook>),
    /// A book that takes edits.
    Open(Box<LiveBook>),
}

/// A book, and what is solved of it.
#[derive(Debug)]
pub(crate) struct ClosedBook {
    book: Book,
    cache: Mutex<BalanceCache>,
}

impl KeptBook {
    /// Reads texts into a book; and what is wrong with them.
    pub fn read(layers: &Layers<'_>) -> (Self, Vec<Problem>) {
        let (book, problems) = Book::read(layers);
        (Self::Closed(Box::new(ClosedBook { book, cache: Mutex::default() })), problems)
    }

    pub fn book(&self) -> &Book {
        match self {
            Self::Closed(closed) => &closed.book,
            Self::Open(live) => live.book(),
        }
    }

    /// Lets a balancer of the book work with what is solved already.
    pub fn with_balancer<T>(&self, work: impl FnOnce(&mut Balancer<'_>) -> T) -> T {
        match self {
            Self::Closed(closed) => {
                let mut cache = closed.cache.lock().unwrap_or_else(PoisonError::into_inner);
                cache.with_balancer(&closed.book, work)
            }
            Self::Open(live) => live.with_balancer(work),
        }
    }

    /// Gives a text other words; `layers` are the texts as they are. Returns what it changes, and everything that is wrong with the
    /// texts then; `None` where the book has no such text.
    pub fn edit(&mut self, layers: &Layers<'_>, id: TextId, text: &str) -> Option<(Changes, Vec<Problem>)> {
        if matches!(self, Self::Closed(_)) {
            *self = Self::Open(Box::new(LiveBook::read(layers)));
        }
        let Self::Open(live) = self else { return None };
        let changes = live.edit(id, text)?;
        Some((changes, live.open_book().problems().cloned().collect()))
    }
}
