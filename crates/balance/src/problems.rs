//! Why a dough has no balance, in the baker's words.

mod conflict;
mod shortage;
mod undetermined;

use levamen_formula::{Book, Equations, Formula, Item, Pantry, Stage, Term, Variable, VariableId};
use levamen_language::Problem;

pub(crate) use conflict::{contradiction, no_stated_zero};

use crate::linear::Values;
use crate::solved::Solved;

/// Looks for figures that nothing settles and for less than zero of something.
pub(crate) fn check(solved: &Solved<'_>, pantry: &Pantry, known: &[Term]) -> Result<(), Vec<Problem>> {
    let open = undetermined::open_figures(solved, pantry, known);
    if !open.is_empty() {
        return Err(open);
    }
    let short = shortage::shortages(solved, pantry, known);
    if short.is_empty() { Ok(()) } else { Err(short) }
}

/// A formula without any weight.
pub(crate) fn weighs_nothing(formula: &Formula) -> Problem {
    Problem::error("weighs-nothing", format!("`{}` weighs nothing", formula.name))
        .at(formula.place, "nothing is weighed into it")
        .help("list its flour and water")
}

/// Separate batches that are nested too deep.
pub(crate) fn too_deep(stage: &Stage) -> Problem {
    Problem::error(
        "apart-too-deep",
        format!("`{}` stands too deep in batches of which some is left over", stage.name),
    )
    .at(stage.place, "built apart")
    .help("let a batch be taken whole where nothing is left over of it")
}

/// A culture or dough that this one takes from and that has no balance.
pub(crate) fn source_has_problems(book: &Book, formula: &Formula, item: Item) -> Problem {
    let line = formula.stages.iter().flat_map(|stage| &stage.lines).find(|line| line.item == item);
    let place = line.map_or(formula.place, |line| line.place);
    let entry = match item {
        Item::Seed(id, _) | Item::Piece(id) => book.entry(id),
        _ => None,
    };
    let name = entry.map_or("another dough", |entry| entry.name.as_str());
    let problem = Problem::error("source-in-trouble", format!("`{}` waits for `{name}`", formula.name))
        .at(place, format!("`{name}` has problems of its own"));
    match entry {
        Some(entry) => problem.and_at(entry.place, "mend this first"),
        None => problem,
    }
}

/// Whether a figure that the dough must have is left open.
pub(crate) fn leaves_open(equations: &Equations, values: &Values) -> bool {
    needed(equations).any(|(_, id)| values.get(id).is_none())
}

/// The figures that a dough must have: what every line weighs, and what is made.
pub(crate) fn needed(equations: &Equations) -> impl Iterator<Item = (Variable, VariableId)> + '_ {
    (0_u32..).map(VariableId).zip(equations.variables()).filter_map(|(id, figure)| {
        let is_needed = matches!(
            figure,
            Variable::Cell(..)
                | Variable::Part(..)
                | Variable::Intake(..)
                | Variable::Weight(_)
                | Variable::Made(_)
                | Variable::LeftOver(_)
                | Variable::Dough
        );
        is_needed.then_some((*figure, id))
    })
}

/// Doughs for the tests of problems: some of their lines are said and others are not.
#[cfg(test)]
mod sample {
    use levamen_formula::{Book, Equations, Formula, Pantry, Variable, VariableId, build_equations};
    use levamen_language::TextId;

    /// A dough of lines, each with what is in its place where it is not said, after a bar.
    pub(super) fn sample(lines: &[&str], said: &[bool]) -> (Formula, Pantry, Equations) {
        let mut text = "dough Sample\n".to_owned();
        for (line, said) in lines.iter().zip(said) {
            let (so, otherwise) = line.split_once('|').unwrap_or((line, line));
            text += if *said { so } else { otherwise };
            text += "\n";
        }
        let (book, problems) = Book::read(&[&[(TextId(0), text.as_str())]]);
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
}
