//! Figures that nothing settles, and what would settle them.

use levamen_formula::{Formula, Item, Pantry, StageId, Term, Variable, VariableId};
use levamen_language::Problem;
use levamen_quantity::Exact;

use super::needed;
use crate::figure_text::{in_words, place_of};
use crate::linear::{System, Values, solve};
use crate::solved::Solved;

/// The rank of figures that nobody states first.
const LEAST_NATURAL: u8 = 5;

/// How many figures are named in a row.
const MOST_NAMED: usize = 4;

/// One problem for each figure that has to be stated before all others follow, with those that follow from it.
pub(super) fn open_figures(solved: &Solved<'_>, pantry: &Pantry, known: &[Term]) -> Vec<Problem> {
    let list = shortest_list(solved, known);
    if list.is_empty() {
        return Vec::new();
    }
    let dependence = Dependence::new(solved, known, &list);
    let problems = list.iter().enumerate().map(|(index, (figure, _))| {
        let notes = dependence.notes(index, solved, pantry);
        notes.into_iter().fold(problem(*figure, solved, pantry), Problem::note)
    });
    problems.collect()
}

/// A shortest list of figures that, once stated, settle all that the dough must have: each settles one degree of
/// freedom, and without any one of them something stays open.
fn shortest_list(solved: &Solved<'_>, known: &[Term]) -> Vec<(Variable, VariableId)> {
    let mut known = known.to_vec();
    let mut open = open_of(solved, &solved.values);
    let mut list = Vec::new();
    while let Some((figure, id)) = best_to_state(solved, &known, &open) {
        list.push((figure, id));
        // Any value will do to see what else follows from it.
        known.push((id, Exact::ONE));
        let Ok(values) = solve_with(solved, &known) else { break };
        open = open_of(solved, &values);
    }
    list
}

/// Which of the figures to state each other open figure depends on.
struct Dependence {
    list: Vec<Variable>,
    /// Indices in the list, in order, and the figure that needs just these.
    needs: Vec<(Vec<usize>, Variable)>,
}

impl Dependence {
    /// Finds them by stating one figure after the other otherwise: what then is not as before depends on it.
    fn new(solved: &Solved<'_>, known: &[Term], list: &[(Variable, VariableId)]) -> Self {
        let at = |other: Option<usize>| {
            let value = |index| if Some(index) == other { Exact::from(2) } else { Exact::ONE };
            let stated = list.iter().enumerate().map(|(index, (_, id))| (*id, value(index)));
            solve_with(solved, &known.iter().cloned().chain(stated).collect::<Vec<_>>()).ok()
        };
        let base = at(None);
        let others: Vec<Option<Values>> = (0..list.len()).map(|index| at(Some(index))).collect();
        let depends_on = |id: VariableId, other: &Option<Values>| match (&base, other) {
            (Some(base), Some(other)) => base.get(id) != other.get(id),
            _ => false,
        };
        let open = needed(&solved.equations).filter(|(figure, id)| {
            solved.values.get(*id).is_none() && list.iter().all(|(stated, _)| stated != figure)
        });
        let needs = open.map(|(figure, id)| {
            let indices = others.iter().enumerate().filter(|(_, other)| depends_on(id, other));
            (indices.map(|(index, _)| index).collect(), figure)
        });
        Self { list: list.iter().map(|(figure, _)| *figure).collect(), needs: needs.collect() }
    }

    /// What follows from a figure of the list: alone, and with others that are before it.
    fn notes(&self, index: usize, solved: &Solved<'_>, pantry: &Pantry) -> Vec<String> {
        if self.list.len() == 1 {
            return vec!["all else follows from it".to_owned()];
        }
        let name = |figure: &Variable| in_words(*figure, solved.formula, pantry);
        let mut groups: Vec<(&[usize], Vec<String>)> = Vec::new();
        for (needs, figure) in self.needs.iter().filter(|(needs, _)| needs.last() == Some(&index)) {
            match groups.iter_mut().find(|(own, _)| own == needs) {
                Some((_, names)) => names.push(name(figure)),
                None => groups.push((needs, vec![name(figure)])),
            }
        }
        let notes = groups.into_iter().map(|(needs, names)| {
            let others =
                needs.iter().filter(|other| **other != index).filter_map(|other| self.list.get(*other));
            let others: Vec<String> = others.map(name).collect();
            let with =
                if others.is_empty() { String::new() } else { format!(" and {}", others.join(" and ")) };
            let (verb, names) = (if names.len() == 1 { "follows" } else { "follow" }, listed(&names));
            format!("from it{with} {verb} {names}")
        });
        notes.collect()
    }
}

/// Names in a row; of many, the first.
fn listed(names: &[String]) -> String {
    if names.len() <= MOST_NAMED {
        return levamen_language::listed(names, "and");
    }
    let (first, others) = names.split_at(MOST_NAMED - 1);
    format!("{} and {} other figures", first.join(", "), others.len())
}

fn solve_with(solved: &Solved<'_>, known: &[Term]) -> Result<Values, crate::linear::Contradiction> {
    solve(&System { equations: &solved.equations, known, without: &[], more: &[] })
}

fn open_of(solved: &Solved<'_>, values: &Values) -> Vec<VariableId> {
    needed(&solved.equations).filter(|(_, id)| values.get(*id).is_none()).map(|(_, id)| id).collect()
}

/// The open figure from which most others follow; a baker's usual way of stating it first among equals.
fn best_to_state(solved: &Solved<'_>, known: &[Term], open: &[VariableId]) -> Option<(Variable, VariableId)> {
    if open.is_empty() {
        return None;
    }
    let equations = &solved.equations;
    let mut candidates: Vec<(Variable, VariableId)> = (0_u32..)
        .map(VariableId)
        .zip(equations.variables())
        .filter(|(id, _)| solved.values.get(*id).is_none() && known.iter().all(|(own, _)| own != id))
        .map(|(id, figure)| (*figure, id))
        .collect();
    candidates.sort_by_key(|(figure, id)| (rank(*figure, solved.formula), *id));
    let mut known = known.to_vec();
    let left_open = candidates.into_iter().map(|(figure, id)| {
        known.push((id, Exact::ONE));
        let left = match solve_with(solved, &known) {
            Ok(values) => open_of(solved, &values).len(),
            Err(_) => usize::MAX,
        };
        known.pop();
        (left, figure, id)
    });
    // Weights and sums are stated only where nothing else would help, however much follows from them.
    let helps = left_open.filter(|(left, ..)| *left < open.len());
    let best = helps.min_by_key(|(left, figure, _)| (rank(*figure, solved.formula) == LEAST_NATURAL, *left));
    best.map(|(_, figure, id)| (figure, id))
}

/// How natural it is to state a figure, the most natural first. A stage whose size the text states already is
/// not what is missing.
fn rank(figure: Variable, formula: &Formula) -> u8 {
    match figure {
        Variable::Content(id) if !size_is_stated(id, formula) => 0,
        Variable::Intake(..) | Variable::Part(..) => 1,
        Variable::Row(_) => 2,
        Variable::Cell(..) => 3,
        Variable::Content(_) | Variable::LeftOver(_) => 4,
        _ => LEAST_NATURAL,
    }
}

fn size_is_stated(id: StageId, formula: &Formula) -> bool {
    let own = formula.stage(id).is_some_and(|stage| stage.takes.is_some() || stage.weighs.is_some());
    let mut lines = formula.stages.iter().flat_map(|stage| &stage.lines);
    own || id == formula.final_dough()
        || lines.any(|line| line.item == Item::Stage(id) && line.amount.is_some())
}

fn problem(figure: Variable, solved: &Solved<'_>, pantry: &Pantry) -> Problem {
    let formula = solved.formula;
    let what = in_words(figure, formula, pantry);
    let problem = Problem::error("not-settled", format!("nothing settles {what}"))
        .at(place_of(figure, formula), "how much?");
    let stage = |id| formula.stage(id).map_or("it", |stage| stage.name.as_ref());
    match figure {
        Variable::Content(id) | Variable::OwnFlour(id) | Variable::Weight(id) => problem
            .help(format!("in the stage `{}`: `takes 20 % of the flour`, with your own figure", stage(id)))
            .help(format!("or in the final dough: `{} 40 % of its flour`, or its weight", stage(id))),
        Variable::Cell(id, ingredient) => {
            let name = pantry.get(ingredient).map_or("it", |known| known.name.as_str());
            let is_water = pantry.get(ingredient).is_some_and(levamen_formula::Ingredient::is_water);
            let problem = problem.help(format!("write its percentage or its weight in `{}`", stage(id)));
            let problem = if is_water { problem.help("or the stage's `hydration`") } else { problem };
            problem.help(format!("all that the dough has of it: `{name} 100 % of the {name}`"))
        }
        Variable::LeftOver(id) | Variable::Made(id) => problem.help(format!(
            "write weights in `{}`, or what is left over as a mass or a percentage",
            stage(id)
        )),
        Variable::Intake(..) => {
            problem.help("write how much is taken, as a percentage of a flour or as a weight")
        }
        _ => problem.help("write its percentage or its weight"),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::problems::sample::{flour, sample};

    /// A dough in which anything may be left unsaid.
    const LINES: [&str; 16] = [
        "overall",
        "  rye flour  100 %",
        "  water  70 %|  water  rest",
        "  salt  2 %|  salt  rest",
        "  olive oil  12 %|  olive oil  rest",
        "stage poolish, a poolish",
        "  takes  30 % of the flour|",
        "  rye flour  100 %",
        "  water  90 %|  water  rest",
        "stage soaker, a soaker",
        "  olive oil  10 % of the flour|  olive oil  rest",
        "  water  20 % of the flour|  water  rest",
        "stage mash, a soaker",
        "  takes  5 % of the flour|",
        "  rye flour  100 %",
        "  water  150 %|  water  rest",
    ];

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]
        #[test]
        fn the_list_settles_the_dough_and_none_of_it_is_too_much(said in proptest::collection::vec(any::<bool>(), LINES.len())) {
            let (formula, pantry, equations) = sample(&LINES, &said);
            let known = [(flour(&equations), Exact::ONE)];
            let values = solve(&System { equations: &equations, known: &known, without: &[], more: &[] }).unwrap();
            let solved = Solved { formula: &formula, equations, values };
            let list = shortest_list(&solved, &known);
            let open = |stated: &[(Variable, VariableId)]| {
                let stated = stated.iter().map(|(_, id)| (*id, Exact::ONE));
                let known: Vec<Term> = known.iter().cloned().chain(stated).collect();
                open_of(&solved, &solve_with(&solved, &known).unwrap()).len()
            };
            prop_assert_eq!(open(&list), 0);
            for left_out in 0..list.len() {
                let mut others = list.clone();
                others.remove(left_out);
                prop_assert!(open(&others) > 0, "{:?} is too much", list[left_out]);
            }
            prop_assert_eq!(open_figures(&solved, &pantry, &known).len(), list.len());
        }
    }
}
