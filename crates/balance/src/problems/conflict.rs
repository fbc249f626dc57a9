//! Lines that cannot all hold: a smallest set of them, and what each would make of the figure.

use levamen_formula::{EquationOrigin, Equations, Formula, Intake, Item, Pantry, Term, Variable};
use levamen_language::{Place, Problem};
use levamen_quantity::Exact;

use crate::figure_text::percent;
use crate::linear::{System, Values, solve};

/// Whether every stated amount is of something. The baker states amounts above zero, so one that comes to zero is a
/// contradiction too: a stage at 90 % and at 100 % hydration is one of nothing.
pub(crate) fn no_stated_zero(equations: &Equations, values: &Values, without: &[usize]) -> bool {
    equations.all().iter().enumerate().all(|(index, equation)| {
        let is_stated =
            matches!(equation.origin, EquationOrigin::Stated(_)) && without.binary_search(&index).is_err();
        let (subject, compared) = equations.sides(equation);
        !is_stated
            || !sum(subject, values).is_some_and(|sum| sum.is_zero())
            || is_share_of_itself(equations, subject, compared)
    })
}

/// Whether a line says how much of what goes into a stage goes in at one of several times: of nothing that is nothing.
fn is_share_of_itself(equations: &Equations, subject: &[Term], compared: &[Term]) -> bool {
    let figure = |terms: &[Term]| match terms {
        [(id, _)] => equations.variables().get(id.index()).copied(),
        _ => None,
    };
    matches!(
        (figure(subject), figure(compared)),
        (Some(Variable::Part(part, _)), Some(Variable::Cell(whole, _))) if part == whole
    )
}

/// Solves equations that must all hold, none of them with nothing.
fn solve_stated(system: &System<'_>) -> Option<Values> {
    solve(system).ok().filter(|values| no_stated_zero(system.equations, values, system.without))
}

/// Explains equations that cannot all hold.
pub(crate) fn contradiction(
    formula: &Formula,
    pantry: &Pantry,
    equations: &Equations,
    known: &[Term],
) -> Problem {
    if let Some(problem) = unlisted_flour(formula, pantry, equations) {
        return problem;
    }
    let (conflict, left_out) = irreducible_conflict(equations, known);
    let name = &formula.name;
    let mut problem = match conflict.len() {
        0 => {
            return Problem::error("cannot-all-hold", format!("the lines of `{name}` contradict each other"))
                .at(formula.place, "in this dough");
        }
        1 => Problem::error("cannot-all-hold", format!("this line of `{name}` cannot hold")),
        count => {
            Problem::error("cannot-all-hold", format!("these {count} lines of `{name}` cannot all hold"))
        }
    };
    // The caret goes to the last line of which it can be said what the others make of it.
    let conflicts = conflict
        .iter()
        .rev()
        .filter_map(|index| Some((*index, stated_and_implied(equations, known, &left_out, *index)?)));
    let (main, words) = conflicts.into_iter().next().unwrap_or_else(|| {
        (conflict.last().copied().unwrap_or_default(), "this cannot hold with the others".to_owned())
    });
    for index in &conflict {
        match stated(equations, *index) {
            Some(place) if *index == main => problem = problem.at(place, words.clone()),
            Some(place) => problem = problem.and_at(place, ""),
            None => {}
        }
    }
    problem.help("change one of them, or take one out: the balance finds the figure from the others")
}

/// A seed or a piece of dough that brings a flour of which the overall formula knows nothing: its flours are
/// then more than all the flour.
fn unlisted_flour(formula: &Formula, pantry: &Pantry, equations: &Equations) -> Option<Problem> {
    let overall = formula.overall.as_ref()?;
    let listed = |id| overall.lines.iter().any(|line| line.item == Item::Ingredient(id));
    let unlisted = |intake: &Intake| {
        let flours = intake.parts().iter().filter_map(|(id, _)| Some((*id, pantry.get(*id)?)));
        flours
            .filter(|(id, known)| known.is_flour && !listed(*id))
            .map(|(_, known)| known.name.as_str())
            .next()
    };
    let mut staying = equations.intakes().iter().filter(|intake| intake.stays());
    let (intake, flour) = staying.find_map(|intake| Some((intake, unlisted(intake)?)))?;
    let line = formula.stage(intake.stage)?.lines.get(intake.line as usize)?;
    let source = &line.name;
    Some(
        Problem::error("unlisted-flour", format!("`{source}` brings {flour}, which `overall` does not list"))
            .at(line.place, format!("holds {flour}"))
            .and_at(overall.place, "its flours are all the flour of the dough")
            .help(format!(
                "add `{flour}  rest` to `overall`, and write `rest` for the flour that it takes the place of"
            )),
    )
}

fn stated(equations: &Equations, index: usize) -> Option<Place> {
    match equations.all().get(index)?.origin {
        EquationOrigin::Stated(place) => Some(place),
        EquationOrigin::Sum(_) => None,
    }
}

/// An irreducible infeasible set of stated equations: they cannot hold together, and taking any one out lets the rest
/// hold. Also the stated equations that play no part.
///
/// Equations are left out one after the other; one that the conflict does not need stays out (the deletion filter of
/// J. W. Chinneck and E. W. Dravnieks, "Locating Minimal Infeasible Constraint Sets in Linear Programs", ORSA Journal on
/// Computing 3 (1991) 157-168; from memory).
fn irreducible_conflict(equations: &Equations, known: &[Term]) -> (Vec<usize>, Vec<usize>) {
    let all: Vec<usize> =
        (0..equations.all().len()).filter(|index| stated(equations, *index).is_some()).collect();
    let mut conflict = Vec::new();
    let mut left_out: Vec<usize> = Vec::new();
    for index in all {
        // 1. Leave one more equation out.
        let mut without = left_out.clone();
        without.push(index);
        if solve_stated(&System { equations, known, without: &without, more: &[] }).is_none() {
            // 2. Still infeasible: the conflict does not need it, and it stays out.
            left_out = without;
        } else {
            // 3. Feasible without it: it is part of the conflict, and goes back in.
            conflict.push(index);
        }
    }
    (conflict, left_out)
}

/// What a line says and what the others make of it.
fn stated_and_implied(
    equations: &Equations,
    known: &[Term],
    left_out: &[usize],
    index: usize,
) -> Option<String> {
    // Without this line the dough mostly has a balance; where it has other problems, without those that play no
    // part in this one.
    let mut without = left_out.to_vec();
    without.push(index);
    without.sort_unstable();
    let solve_without = |without| solve_stated(&System { equations, known, without, more: &[] });
    let values = solve_without(&[index]).or_else(|| solve_without(&without))?;
    let (subject, compared) = equations.sides(equations.all().get(index)?);
    let is = sum(subject, &values)?;
    let [(basis, coefficient)] = compared else { return None };
    let said = -coefficient;
    let per = is.checked_div(values.get(*basis)?)?;
    if matches!(equations.variables().get(basis.index()), Some(Variable::Gram | Variable::BatchGram)) {
        return Some(format!(
            "says {} g; the others make it {} g",
            said.to_decimal_string(),
            per.to_fixed(3)
        ));
    }
    Some(format!("says {}; the others make it {}", percent(&said), percent(&per)))
}

/// The sum of terms; `None` where one of them is free.
fn sum(terms: &[Term], values: &Values) -> Option<Exact> {
    let mut sum = Exact::ZERO;
    for (figure, coefficient) in terms {
        sum.add_product(values.get(*figure)?, coefficient);
    }
    Some(sum)
}

#[cfg(test)]
mod tests {
    use levamen_quantity::Exact;
    use proptest::prelude::*;

    use super::*;
    use crate::problems::sample::{flour, sample};

    /// A dough that says too much of itself where a few of the lines are said.
    const LINES: [&str; 16] = [
        "overall",
        "  rye flour  100 %",
        "  water  70 %|  water  rest",
        "  salt  2 %|  salt  rest",
        "stage poolish, a poolish",
        "  takes  30 % of the flour|",
        "  weighs  5 kg|",
        "  hydration  100 %|",
        "  rye flour  3 kg|  rye flour  rest",
        "  water  90 %|  water  rest",
        "final dough",
        "  rye flour  6 kg|  rye flour  rest",
        "  water  4 kg|  water  rest",
        "  salt  200 g|  salt  rest",
        "  poolish  60 % of its flour|  poolish  rest",
        "want\n  hydration  68 %|",
    ];

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]
        #[test]
        fn without_any_one_line_of_a_conflict_the_rest_holds(said in proptest::collection::vec(any::<bool>(), LINES.len())) {
            let (_, _, equations) = sample(&LINES, &said);
            let known = [(flour(&equations), Exact::ONE)];
            let holds = |without: &[usize]| {
                solve_stated(&System { equations: &equations, known: &known, without, more: &[] }).is_some()
            };
            if holds(&[]) {
                return Ok(());
            }
            let (conflict, left_out) = irreducible_conflict(&equations, &known);
            prop_assert!(!conflict.is_empty());
            prop_assert!(!holds(&left_out), "the conflict alone is one");
            for line in conflict {
                let mut without = left_out.clone();
                without.push(line);
                without.sort_unstable();
                prop_assert!(holds(&without), "without {line} the rest does not hold");
            }
        }
    }

    #[test]
    fn the_sample_does_contradict_itself() {
        let (_, _, equations) = sample(&LINES, &[true; 16]);
        let known = [(flour(&equations), Exact::ONE)];
        let (conflict, left_out) = irreducible_conflict(&equations, &known);
        assert!(conflict.len() > 1 && !left_out.is_empty(), "{conflict:?} {left_out:?}");
    }
}
