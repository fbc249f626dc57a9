//! Which ingredients of the built-in pantry are yeast: those that say so.

use std::sync::LazyLock;

use levamen_formula::Book;

static BUILT_IN: LazyLock<Book> = LazyLock::new(|| Book::read::<&str>(&[]).0);

/// Whether an ingredient of the built-in pantry is a commercial yeast.
#[must_use]
pub fn is_yeast(name: &str) -> bool {
    let pantry = BUILT_IN.pantry();
    let known = pantry.find(name).and_then(|id| pantry.get(id));
    known.is_some_and(|known| known.yeast.is_some())
}
