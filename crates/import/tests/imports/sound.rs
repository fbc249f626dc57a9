//! What every imported text must be.

use levamen_balance::{Balance, Balancer};
use levamen_formula::{Book, Role};
use levamen_language::{TextId, tidy};
use levamen_quantity::Mass;

/// The balance of an imported text: it is canonical, read without a problem, and adds up.
pub fn balanced(text: &str) -> Balance {
    assert_eq!(tidy(TextId(0), text).as_deref(), Ok(text), "not canonical");
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert!(problems.is_empty(), "{text}\n{problems:#?}");
    let (id, _) = book.entries().find(|(_, entry)| entry.role == Role::Dough).unwrap();
    Balancer::new(&book).balance(id).cloned().unwrap_or_else(|problems| panic!("{text}\n{problems:#?}"))
}

/// What is weighed into the stages, as `stage/name`, with its mass, in the order of the names.
pub fn weights(balance: &Balance) -> Vec<(String, Mass)> {
    let batch = balance.batch();
    let lines = balance.stages.iter().flat_map(|stage| stage.lines.iter().map(move |line| (stage, line)));
    let weighed =
        lines.map(|(stage, line)| (format!("{}/{}", stage.name, line.name), batch.mass(&line.share)));
    let mut weights: Vec<(String, Mass)> = weighed.collect();
    weights.sort();
    weights
}
