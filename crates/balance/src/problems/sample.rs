//! Doughs for the tests of troubles: some of their lines are said and others are not.

use levamen_formula::{Book, Equations, Formula, Pantry, Variable, VariableId, build_equations};
use levamen_language::TextId;

/// A dough of lines, each with what stands in its place where it is not said, after a bar.
pub(super) fn sample(lines: &[&str], said: &[bool]) -> (Formula, Pantry, Equations) {
    let mut text = "dough Sample\n".to_owned();
    for (line, said) in lines.iter().zip(said) {
        let (so, otherwise) = line.split_once('|').unwrap_or((line, line));
        text += if *said { so } else { otherwise };
        text += "\n";
    }
    let (book, problems) = Book::read(&[&[(TextId(0), &text)]]);
    assert!(problems.is_empty(), "{text}\n{problems:?}");
    let (_, entry) = book.entries().next().unwrap();
    let formula = entry.formula.clone().unwrap();
    let equations = build_equations(&formula, book.pantry(), |_| None, &[]).unwrap();
    (formula, book.pantry().clone(), equations)
}

/// The whole flour.
pub(super) fn flour(equations: &Equations) -> VariableId {
    equations.id(Variable::Flour).unwrap()
}
