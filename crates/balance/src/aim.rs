//! The most or the least of a figure, and bounds: what a dough can be where its lines leave something free.
//!
//! With the gram of the batch as its unit, the free part of a dough is a few figures on which all others depend
//! linearly, with a constant. They are found by trying; the best values of them under the bounds, and with nothing
//! less than nothing, come from exact linear programming ([`crate::optimum`]).

use levamen_formula::{Asked, Facts, Figure, FigureId, Formula, Limit, Pantry, Relation, Term};
use levamen_language::{Place, Problem};
use levamen_quantity::Exact;

use crate::linear::{Task, Values, solve};
use crate::optimum::{AtMost, Outcome, most};
use crate::trouble;

/// Which figure should be the most or the least that is possible.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Aim {
    /// Which figure.
    pub asked: Asked,
    /// Whether it should be the most; otherwise the least.
    pub most: bool,
}

/// The free part of a dough: values with all free figures at nothing, and what one more of each changes.
struct Free {
    start: Values,
    directions: Vec<Values>,
}

/// The values that fulfil an aim within the bounds; of figures that weigh, in grams of the batch.
///
/// # Errors
/// Where there is no such dough, or no end to it.
pub(crate) fn reach(
    aim: Aim,
    formula: &Formula,
    facts: &mut Facts,
    pantry: &Pantry,
) -> Result<Values, Vec<Problem>> {
    let (goal, _) = facts.express(aim.asked, formula, pantry);
    let unit = if facts.id(Figure::BatchGram).is_some() { Figure::BatchGram } else { Figure::Gram };
    let unit = facts.id(unit);
    let name = aim.asked.name(formula, pantry);
    let Some(free) = unit.and_then(|unit| Free::find(facts, unit)) else {
        return Err(vec![nothing_to_choose(&name)]);
    };
    let sign = if aim.most { Exact::ONE } else { -Exact::ONE };
    let goal: Vec<Exact> = free.slopes(&goal).into_iter().map(|slope| slope * &sign).collect();
    let weights = trouble::needed(facts).map(|(_, id)| vec![(id, -Exact::ONE)]);
    let limits: Vec<AtMost> = weights
        .chain(facts.bounds().iter().map(|bound| bound.terms.clone()))
        .map(|terms| AtMost { coefficients: free.slopes(&terms), bound: -free.at_start(&terms) })
        .collect();
    match most(&goal, &limits) {
        Outcome::Best(chosen) => Ok(free.at(&chosen)),
        Outcome::Endless => Err(vec![endless(&name, aim.most)]),
        Outcome::Impossible => Err(vec![impossible(facts)]),
    }
}

impl Free {
    /// Finds the free figures by stating one after the other; `None` where the facts contradict each other.
    fn find(facts: &Facts, unit: FigureId) -> Option<Self> {
        let mut free: Vec<FigureId> = Vec::new();
        let solve_at = |unit_value: Exact, free: &[FigureId], one: Option<FigureId>| {
            let value = |id: FigureId| if Some(id) == one { Exact::ONE } else { Exact::ZERO };
            let stated = free.iter().map(|id| (*id, value(*id)));
            let known: Vec<Term> = std::iter::once((unit, unit_value)).chain(stated).collect();
            solve(&Task { facts, known: &known, without: &[], more: &[] }).ok()
        };
        let mut start = solve_at(Exact::ONE, &free, None)?;
        while let Some(next) = (0_u32..)
            .map(FigureId)
            .zip(facts.figures())
            .find_map(|(id, _)| start.get(id).is_none().then_some(id))
        {
            free.push(next);
            start = solve_at(Exact::ONE, &free, None)?;
        }
        let directions: Option<Vec<Values>> =
            free.iter().map(|one| solve_at(Exact::ZERO, &free, Some(*one))).collect();
        Some(Self { start, directions: directions? })
    }

    fn at_start(&self, terms: &[Term]) -> Exact {
        value_of(&self.start, terms)
    }

    /// What one more of each free figure changes of a sum.
    fn slopes(&self, terms: &[Term]) -> Vec<Exact> {
        self.directions.iter().map(|direction| value_of(direction, terms)).collect()
    }

    /// The values with the free figures chosen.
    fn at(&self, chosen: &[Exact]) -> Values {
        self.directions
            .iter()
            .zip(chosen)
            .fold(self.start.clone(), |values, (direction, by)| values.plus(direction, by))
    }
}

fn value_of(values: &Values, terms: &[Term]) -> Exact {
    let mut sum = Exact::ZERO;
    for (figure, factor) in terms {
        if let Some(value) = values.get(*figure) {
            sum.add_product(value, factor);
        }
    }
    sum
}

/// The formula with the bounds that the values reach as what it must keep exactly: what stops an aim says why the dough
/// is as it is.
pub(crate) fn held_at(formula: &Formula, facts: &Facts, values: &Values) -> Formula {
    let reached = facts.bounds().iter().filter(|bound| value_of(values, &bound.terms).is_zero());
    let places: Vec<Place> = reached.map(|bound| bound.place).collect();
    let mut held = formula.clone();
    for want in held.wants.iter_mut().filter(|want| places.contains(&want.place)) {
        want.relation = Relation::Exactly;
    }
    held
}

/// The bounds that the dough does not keep.
pub(crate) fn broken_bounds(facts: &Facts, values: &Values, formula: &Formula) -> Vec<Problem> {
    let broken = facts.bounds().iter().filter(|bound| value_of(values, &bound.terms).is_positive());
    broken
        .map(|bound| {
            let problem =
                Problem::error("bound-not-kept", format!("`{}` does not keep `{}`", formula.name, bound.words))
                    .at(bound.place, "the other lines settle this figure otherwise");
            let want = formula.wants.iter().find(|want| want.place == bound.place);
            let is_weight = want.is_some_and(|want| matches!(want.limit, Limit::Mass(_)));
            match formula.make.as_ref().filter(|_| is_weight) {
                // A weight is held against the size that the file makes.
                Some(make) => problem
                    .and_at(make.place, "this line says how much is made")
                    .help("let the bound say it instead: add `--most dough`, and the file's size gives way")
                    .help("or take the `make` line out, or make less"),
                None => problem
                    .help("let one of those lines go with `rest`, or ask for the most or the least that is possible"),
            }
        })
        .collect()
}

fn nothing_to_choose(name: &str) -> Problem {
    Problem::error("nothing-to-choose", format!("nothing says how large {name} may become"))
        .help("say what there is, such as a want `levain at most 4.2 kg`")
}

fn endless(name: &str, most: bool) -> Problem {
    let what = if most { "the most" } else { "the least" };
    Problem::error("no-bound", format!("there is no bound to {what} of {name}"))
        .help("say what there is, such as a want `strong white flour at most 30 kg`")
}

fn impossible(facts: &Facts) -> Problem {
    let mut problem = Problem::error("cannot-all-hold", "no dough keeps all of these bounds")
        .help("let one of them go, or take back one of the dough's own lines");
    for bound in facts.bounds() {
        problem = if problem.primary.is_none() {
            problem.at(bound.place, "")
        } else {
            problem.and_at(bound.place, "")
        };
    }
    problem
}
