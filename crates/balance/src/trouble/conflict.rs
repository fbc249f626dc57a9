//! Lines that cannot all hold: a smallest set of them, and what each would make of the figure.

use levamen_formula::{Fact, Facts, Figure, FigureId, Formula, Origin};
use levamen_language::{Place, Problem};
use levamen_quantity::Exact;

use super::percent;
use crate::linear::{Task, Values, solve};

/// Explains facts that cannot all hold.
pub(crate) fn contradiction(formula: &Formula, facts: &Facts, known: &[(FigureId, Exact)]) -> Problem {
    let (kept, left_out) = smallest_conflict(facts, known);
    let Some((last, others)) = kept.split_last() else {
        return Problem::error("cannot-all-hold", format!("the lines of `{}` contradict each other", formula.name))
            .at(formula.place, "in this dough");
    };
    let name = &formula.name;
    let mut problem = if others.is_empty() {
        Problem::error("cannot-all-hold", format!("this line of `{name}` cannot hold"))
    } else {
        Problem::error("cannot-all-hold", format!("these {} lines of `{name}` cannot all hold", kept.len()))
    };
    let mut without = left_out;
    without.push(*last);
    without.sort_unstable();
    let values = solve(&Task { facts, known, without: &without, more: &[] }).ok();
    let clash = values.and_then(|values| Some(clash(facts, facts.facts().get(*last)?, &values)?));
    let clash = clash.unwrap_or_else(|| "this cannot hold with the others".to_owned());
    if let Some(place) = stated(facts, *last) {
        problem = problem.at(place, clash);
    }
    for other in others {
        if let Some(place) = stated(facts, *other) {
            problem = problem.and_at(place, "");
        }
    }
    problem.help("change one of them, or take one out: the balance finds the figure from the others")
}

fn stated(facts: &Facts, index: usize) -> Option<Place> {
    match facts.facts().get(index)?.origin {
        Origin::Stated(place) => Some(place),
        Origin::Sum(_) => None,
    }
}

/// A smallest set of stated facts that cannot hold together: taking any one out lets the rest hold. Also the
/// stated facts that play no part.
///
/// Facts are left out one after the other; one that the trouble can do without stays out (the deletion filter of
/// J. W. Chinneck and E. W. Dravnieks, "Locating Minimal Infeasible Constraint Sets in Linear Programs", ORSA Journal on
/// Computing 3 (1991) 157-168; from memory).
fn smallest_conflict(facts: &Facts, known: &[(FigureId, Exact)]) -> (Vec<usize>, Vec<usize>) {
    let all: Vec<usize> = (0..facts.facts().len()).filter(|index| stated(facts, *index).is_some()).collect();
    let mut kept = Vec::new();
    let mut left_out: Vec<usize> = Vec::new();
    for index in all {
        let mut without = left_out.clone();
        without.push(index);
        if solve(&Task { facts, known, without: &without, more: &[] }).is_err() {
            left_out = without;
        } else {
            kept.push(index);
        }
    }
    (kept, left_out)
}

/// What a line says and what the others make of it.
fn clash(facts: &Facts, fact: &Fact, values: &Values) -> Option<String> {
    let (subject, compared) = facts.sides(fact);
    let sum = |terms: &[(FigureId, Exact)]| -> Option<Exact> {
        terms.iter().map(|(figure, coefficient)| Some(values.get(*figure)? * coefficient)).sum()
    };
    let is = sum(subject)?;
    let [(basis, coefficient)] = compared else { return None };
    let said = -coefficient;
    let per = is.checked_div(values.get(*basis)?)?;
    if facts.figures().get(basis.index()) == Some(&Figure::Gram) {
        return Some(format!("says {} g; the others make it {} g", said.to_decimal_string(), per.to_fixed(3)));
    }
    Some(format!("says {}; the others make it {}", percent(&said), percent(&per)))
}
