//! From a text to a balance.

use levamen_balance::{Balance, Balancer};
use levamen_formula::Book;
use levamen_language::{Problem, TextId};

/// The balance of the last dough of a text.
///
/// # Errors
/// What is wrong with the text or with its dough, a line a problem.
pub fn last_dough(text: &str) -> Result<Balance, String> {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    if !problems.is_empty() {
        return Err(told(&problems));
    }
    let (id, _) = book.entries().last().ok_or("the text has no dough")?;
    Balancer::new(&book).balance(id).cloned().map_err(told)
}

/// Problems as one text.
#[must_use]
pub fn told(problems: &[Problem]) -> String {
    let lines = problems.iter().map(|problem| {
        let place = problem.primary.as_ref().map(|label| format!(" at {:?}", label.place.span));
        format!("{}: {}{}", problem.code, problem.message, place.unwrap_or_default())
    });
    lines.collect::<Vec<_>>().join("\n")
}
