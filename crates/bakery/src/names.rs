//! Names on cards, looked up in the book.

use levamen_formula::{Book, FormulaId, IngredientId, Role, nearest_names, suggest};
use levamen_language::{Name, Place, Problem};

/// The dough of a name.
pub(crate) fn dough(
    book: &Book,
    name: &Name<'_>,
    at: Place,
    problems: &mut Vec<Problem>,
) -> Option<FormulaId> {
    let words = name.spaced();
    let doughs = || book.entries().filter(|(_, entry)| entry.role == Role::Dough);
    let found = book.find(&words);
    match found.and_then(|id| Some((id, book.entry(id)?.role))) {
        Some((id, Role::Dough)) => Some(id),
        Some((_, Role::Culture)) => {
            let problem = Problem::error("not-a-dough", format!("`{words}` is a culture"))
                .at(at, "a dough is wanted")
                .help("name the dough that is made with it");
            problems.push(problem);
            None
        }
        None => {
            let problem = Problem::error("unknown-dough", format!("the book has no dough called `{words}`"))
                .at(at, "not in the book");
            let names: Vec<&str> = nearest_names(&words, doughs().map(|(_, entry)| entry.name.as_str()));
            let problem = suggest(problem, &names);
            problems.push(if names.is_empty() {
                problem.help("`levamen list` shows the doughs; a name is written as the dough's own")
            } else {
                problem
            });
            None
        }
    }
}

/// The ingredient of a name.
pub(crate) fn ingredient(
    book: &Book,
    name: &Name<'_>,
    at: Place,
    problems: &mut Vec<Problem>,
) -> Option<IngredientId> {
    let words = name.spaced();
    let found = book.pantry().find(&words);
    if found.is_none() {
        let problem = Problem::error("unknown-ingredient", format!("`{words}` is not in the pantry"))
            .at(at, "not in the pantry");
        let names = nearest_names(&words, book.pantry().names());
        let ways = suggest(problem, &names);
        problems.push(ways.help(format!("or write `ingredient {words}` with what it holds")));
    }
    found
}
