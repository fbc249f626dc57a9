//! Which loop of a circle has no steady composition, and the problem that says so.

use std::collections::VecDeque;

use levamen_formula::{Composition, Formula, FormulaId};
use levamen_language::{Place, Problem};
use levamen_quantity::Exact;

use super::Balancer;
use super::joint::UnsteadyReason;
use super::members::{Circle, Link};

/// How many steps of a loop are pointed at.
const STEPS_SHOWN: usize = 6;

impl Balancer<'_> {
    /// Says why a circle has no steady composition: the problem of one of its doughs, or a loop spelled out.
    pub(super) fn explain_unsteady(
        &mut self,
        circle: &Circle<'_>,
        formulas: &[(Option<FormulaId>, &Formula)],
        reason: UnsteadyReason,
    ) -> (Option<FormulaId>, Vec<Problem>) {
        if let Some(own) = self.own_problems(circle, formulas) {
            return own;
        }
        let (refusal, steps) = match reason {
            UnsteadyReason::Mixed => (UnsteadyKind::Mixed, circle.mixed_loop()),
            UnsteadyReason::Open(members) => (UnsteadyKind::NothingFresh, circle.open_loop(&members)),
            UnsteadyReason::ContradictsItself | UnsteadyReason::CannotHold => {
                (UnsteadyKind::CannotHold, circle.shortest_loop(0, 0))
            }
        };
        let id = formulas.first().and_then(|(id, _)| *id);
        (id, vec![no_steady_composition(refusal, &circle.loop_steps(&steps))])
    }

    /// The problems that a dough of the circle has whatever the others are made of: its lines contradict each other, or
    /// leave a figure free. They show when something is supposed of what the others are made of; here it is the same
    /// weight of everything.
    fn own_problems(
        &mut self,
        circle: &Circle<'_>,
        formulas: &[(Option<FormulaId>, &Formula)],
    ) -> Option<(Option<FormulaId>, Vec<Problem>)> {
        let parts = circle.ingredients.iter().map(|ingredient| (*ingredient, Exact::ONE));
        let supposed = Composition::from_weights(parts, self.book.pantry())?;
        for (id, _) in formulas {
            self.steady.extend(id.map(|id| (id, supposed.clone())));
        }
        let own = circle.members.iter().zip(formulas).find_map(|(member, (id, formula))| {
            let problems = self.balance_formula(formula, 0, Some(&supposed)).err()?;
            let is_open = problems.iter().all(|problem| problem.code == "not-settled");
            (is_open || member.contradicts_itself).then_some((*id, problems))
        });
        for id in formulas.iter().filter_map(|(id, _)| *id) {
            self.steady.remove(&id);
        }
        own
    }
}

/// A member and the index of one of its links.
type At = (usize, usize);

impl Circle<'_> {
    fn links(&self, member: usize) -> &[Link] {
        self.members.get(member).map(|member| member.links.as_slice()).unwrap_or_default()
    }

    /// A loop through a link that is not known by its weight.
    fn mixed_loop(&self) -> Vec<At> {
        let places = (0..self.members.len()).flat_map(|member| {
            self.links(member).iter().enumerate().map(move |(index, link)| ((member, index), link))
        });
        let (member, index) =
            places.filter(|(_, link)| link.weight.is_none()).map(|(at, _)| at).next().unwrap_or_default();
        self.shortest_loop(member, index)
    }

    /// A loop of members of which it is free what they are made of: each of them depends on another one.
    fn open_loop(&self, open: &[usize]) -> Vec<At> {
        let mut visited: Vec<At> = Vec::new();
        let mut next = open.first().copied();
        while let Some(member) = next {
            if let Some(start) = visited.iter().position(|(known, _)| *known == member) {
                visited.drain(..start);
                return visited;
            }
            let mut links = self.links(member).iter().enumerate();
            let link = links.find(|(_, link)| open.binary_search(&link.to).is_ok());
            visited.extend(link.map(|(index, _)| (member, index)));
            next = link.map(|(_, link)| link.to);
        }
        self.shortest_loop(open.first().copied().unwrap_or_default(), 0)
    }

    /// The shortest loop that begins with a link.
    fn shortest_loop(&self, member: usize, link: usize) -> Vec<At> {
        let Some(first) = self.links(member).get(link) else { return Vec::new() };
        // By member: the link by which it was reached.
        let mut reached: Vec<Option<At>> = vec![None; self.members.len()];
        let mut queue = VecDeque::from([first.to]);
        while reached.get(member) == Some(&None)
            && let Some(next) = queue.pop_front()
        {
            for (index, link) in self.links(next).iter().enumerate() {
                if let Some(slot) =
                    reached.get_mut(link.to).filter(|slot| slot.is_none() && link.to != first.to)
                {
                    *slot = Some((next, index));
                    queue.push_back(link.to);
                }
            }
        }
        let mut steps = Vec::new();
        let mut back = member;
        while back != first.to
            && let Some((from, index)) = reached.get(back).copied().flatten()
        {
            steps.push((from, index));
            back = from;
        }
        steps.push((member, link));
        steps.reverse();
        steps
    }

    /// The steps of a loop in words and places.
    fn loop_steps(&self, steps: &[At]) -> Vec<LoopStep<'_>> {
        let step = |(at, index): &At| {
            let member = self.members.get(*at)?;
            let link = member.links.get(*index)?;
            let line = member.formula.stage(link.stage)?.lines.get(link.line as usize)?;
            let source = self.members.get(link.to)?;
            let by = match (&link.weight, &link.flour) {
                (None, None) => "by neither weight nor flour",
                (None, Some(_)) => "by its flour",
                (Some(_), _) => "by weight",
            };
            Some(LoopStep {
                dough: &member.formula.name,
                source: &source.formula.name,
                place: line.place,
                by,
            })
        };
        steps.iter().filter_map(step).collect()
    }
}

/// One dough of a loop takes from the next.
struct LoopStep<'f> {
    pub dough: &'f str,
    pub source: &'f str,
    /// The line that says so.
    pub place: Place,
    /// How what is taken is known.
    pub by: &'static str,
}

/// Why a loop has no steady composition.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum UnsteadyKind {
    /// Nothing but pieces of each other goes into its doughs.
    NothingFresh,
    /// One piece is known by its weight and another by its flour.
    Mixed,
    /// The lines of its doughs say more than can be true at once.
    CannotHold,
}

/// A loop without a steady composition.
fn no_steady_composition(refusal: UnsteadyKind, steps: &[LoopStep<'_>]) -> Problem {
    let names = names(steps);
    let alone = steps.len() == 1;
    let message = match refusal {
        UnsteadyKind::NothingFresh => format!("nothing fresh goes into {names}"),
        UnsteadyKind::Mixed if alone => format!("{names} has no exact steady composition"),
        UnsteadyKind::Mixed => format!("{names} take from each other and have no exact steady composition"),
        UnsteadyKind::CannotHold if alone => format!("no steady composition of {names} fits all its lines"),
        UnsteadyKind::CannotHold => format!("no steady composition of {names} fits all their lines"),
    };
    let mut problem = Problem::error("no-steady-composition", message);
    for (index, step) in steps.iter().take(STEPS_SHOWN).enumerate() {
        let source =
            if step.dough == step.source { "its own last batch" } else { &format!("`{}`", step.source) };
        let words = match refusal {
            UnsteadyKind::Mixed => format!("`{}` takes from {source}, {}", step.dough, step.by),
            _ => format!("`{}` takes from {source}", step.dough),
        };
        problem = if index == 0 { problem.at(step.place, words) } else { problem.and_at(step.place, words) };
    }
    if let Some(more) = steps.len().checked_sub(STEPS_SHOWN).filter(|more| *more > 0) {
        problem = problem.note(format!("{more} more lines close the circle"));
    }
    explain(problem, refusal)
}

/// Why, and how to mend it.
fn explain(problem: Problem, refusal: UnsteadyKind) -> Problem {
    let overall = "write in one of them an `overall` with every ingredient and its percentage: the circle is open there";
    match refusal {
        UnsteadyKind::NothingFresh => problem
            .note("each is only a piece of the next, so no line says what they are made of")
            .help("weigh flour and water of its own into one of them")
            .help(format!("or {overall}")),
        UnsteadyKind::Mixed => problem
            .note("a weight of dough and a weight of flour can be compared only where the hydration is known, and here it depends on itself")
            .help(overall)
            .help("or say how much is taken by weight in every one of them, such as `200 g` or `20 % of the dough`")
            .help("or by its flour in every one of them: in a stage, `takes 20 % of the flour`, and `from` without an amount"),
        UnsteadyKind::CannotHold => problem
            .note("from batch to batch the doughs come to a composition that one of the lines forbids")
            .help("take out a line that follows from the others, such as a hydration or a percentage of the whole dough")
            .help(format!("or {overall}")),
    }
}

/// The doughs of a loop: `One`, `Two` and `Three`.
fn names(steps: &[LoopStep<'_>]) -> String {
    let quoted: Vec<String> =
        steps.iter().take(STEPS_SHOWN).map(|step| format!("`{}`", step.dough)).collect();
    match quoted.as_slice() {
        [] => "the doughs".to_owned(),
        all if steps.len() > STEPS_SHOWN => {
            format!("{} and {} more", all.join(", "), steps.len() - STEPS_SHOWN)
        }
        all => levamen_language::listed(all, "and"),
    }
}
