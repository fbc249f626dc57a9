//! The most or the least of a figure, and bounds: what a dough can be where its lines leave something free.
//!
//! With the gram of the batch as its unit, the free part of a dough is a few figures on which all others depend
//! linearly, with a constant. They are found by stating one after the other; the best values of them under the bounds,
//! and with no weight below zero, come from exact linear programming ([`crate::simplex`]).

use levamen_formula::{
    Equations, Formula, NamedFigure, Pantry, Relation, Term, Variable, VariableId, WantValue,
};
use levamen_language::{AskedField, Hint, Place, Problem};
use levamen_quantity::Exact;

use crate::linear::{System, Values, solve};
use crate::problems;
use crate::simplex::{Inequality, Optimum, maximize};

/// Which figure should be the most or the least that is possible.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Objective {
    /// Which figure.
    pub figure: NamedFigure,
    /// Whether it should be the most; otherwise the least.
    pub maximize: bool,
}

/// The free part of a dough: values with all free figures at zero, and what one more of each changes.
struct FreeVariables {
    start: Values,
    directions: Vec<Values>,
}

/// The values that are best by an objective within the bounds; of figures that weigh, in grams of the batch.
///
/// # Errors
/// Where there is no such dough, or no end to it.
pub(crate) fn optimize(
    objective: Objective,
    formula: &Formula,
    equations: &mut Equations,
    pantry: &Pantry,
) -> Result<Values, Vec<Problem>> {
    // 1. The objective as a sum of variables, and the unit that fixes the size.
    let (goal, _) = equations.express(objective.figure, formula, pantry);
    let unit = if equations.id(Variable::BatchGram).is_some() { Variable::BatchGram } else { Variable::Gram };
    let unit = equations.id(unit);
    let name = objective.figure.name(formula, pantry);
    let Some(free) = unit.and_then(|unit| FreeVariables::find(equations, unit)) else {
        return Err(vec![nothing_to_choose(&name)]);
    };
    // 2. The objective and every constraint as functions of the free variables alone: a value at the start, and a slope
    //    in each direction. What is weighed is never less than zero.
    let sign = if objective.maximize { Exact::ONE } else { -Exact::ONE };
    let goal: Vec<Exact> = free.slopes(&goal).into_iter().map(|slope| slope * &sign).collect();
    let weights = problems::needed(equations).map(|(_, id)| vec![(id, -Exact::ONE)]);
    let constraints: Vec<Inequality> = weights
        .chain(equations.bounds().iter().map(|bound| bound.terms.clone()))
        .map(|terms| Inequality { coefficients: free.slopes(&terms), bound: -free.at_start(&terms) })
        .collect();
    // 3. Linear programming chooses the free variables.
    match maximize(&goal, &constraints) {
        Optimum::Best(chosen) => Ok(free.at(&chosen)),
        Optimum::Unbounded => Err(vec![unbounded(&name, objective.maximize)]),
        Optimum::Infeasible => Err(vec![infeasible(equations)]),
    }
}

impl FreeVariables {
    /// Finds the free figures by stating one after the other; `None` where the equations contradict each other.
    fn find(equations: &Equations, unit: VariableId) -> Option<Self> {
        let mut free: Vec<VariableId> = Vec::new();
        let solve_at = |unit_value: Exact, free: &[VariableId], one: Option<VariableId>| {
            let value = |id: VariableId| if Some(id) == one { Exact::ONE } else { Exact::ZERO };
            let stated = free.iter().map(|id| (*id, value(*id)));
            let known: Vec<Term> = std::iter::once((unit, unit_value)).chain(stated).collect();
            solve(&System { equations, known: &known, without: &[], more: &[] }).ok()
        };
        let mut start = solve_at(Exact::ONE, &free, None)?;
        while let Some(next) = (0_u32..)
            .map(VariableId)
            .zip(equations.variables())
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
pub(crate) fn with_binding_bounds(formula: &Formula, equations: &Equations, values: &Values) -> Formula {
    let reached = equations.bounds().iter().filter(|bound| value_of(values, &bound.terms).is_zero());
    let places: Vec<Place> = reached.map(|bound| bound.place).collect();
    let mut exact = formula.clone();
    for want in exact.wants.iter_mut().filter(|want| places.contains(&want.place)) {
        want.relation = Relation::Exactly;
    }
    exact
}

/// The bounds that the dough does not keep.
pub(crate) fn broken_bounds(equations: &Equations, values: &Values, formula: &Formula) -> Vec<Problem> {
    let broken = equations.bounds().iter().filter(|bound| value_of(values, &bound.terms).is_positive());
    broken
        .map(|bound| {
            let problem =
                Problem::error("bound-not-kept", format!("`{}` does not keep `{}`", formula.name, bound.words))
                    .at(bound.place, "the other lines settle this figure otherwise");
            let want = formula.wants.iter().find(|want| want.place == bound.place);
            let is_weight = want.is_some_and(|want| matches!(want.limit, WantValue::Mass(_)));
            match formula.make.as_ref().filter(|_| is_weight) {
                // A weight is held against the size that the file makes.
                Some(make) => problem
                    .and_at(make.place, "this line says how much is made")
                    .help(Hint::of_field(
                        "let the bound say it instead: add `",
                        AskedField::Most,
                        " dough`, and the file's size gives way",
                    ))
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

fn unbounded(name: &str, most: bool) -> Problem {
    let what = if most { "the most" } else { "the least" };
    Problem::error("no-bound", format!("there is no bound to {what} of {name}"))
        .help("say what there is, such as a want `strong white flour at most 30 kg`")
}

fn infeasible(equations: &Equations) -> Problem {
    let mut problem = Problem::error("cannot-all-hold", "no dough keeps all of these bounds")
        .help("let one of them go, or take back one of the dough's own lines");
    for bound in equations.bounds() {
        problem = if problem.primary.is_none() {
            problem.at(bound.place, "")
        } else {
            problem.and_at(bound.place, "")
        };
    }
    problem
}
