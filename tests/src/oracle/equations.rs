//! The equations of a model.

use std::collections::BTreeMap;

use num_traits::{One, Zero};

use crate::model::{FLOURS, Filling, GRAIN, Model, Stage, WATER};
use crate::ratio::{Ratio, fraction};

/// What is not known: weights, as shares of the whole flour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Unknown {
    /// The flour weighed into a stage.
    OwnFlour(usize),
    /// What is weighed of an ingredient into a stage.
    Weighed(usize, &'static str),
    /// What is weighed into a stage of the culture or dough that it takes.
    Taken(usize),
    /// What of an ingredient goes on from a stage to the next.
    GoesOn(usize, &'static str),
    /// What is weighed of an ingredient into the final dough.
    Last(&'static str),
}

/// Equations, and which unknown each column stands for.
pub(super) struct System {
    pub unknowns: BTreeMap<Unknown, usize>,
    pub rows: Vec<Vec<Ratio>>,
}

/// Terms that add up to a constant.
type Equation = (Vec<(Unknown, Ratio)>, Ratio);

/// The equations of a model.
pub(super) fn system(model: &Model) -> System {
    let mut equations = Vec::new();
    let stages = model.all_stages();
    for (index, (stage, _)) in stages.iter().enumerate() {
        filling(model, index, stage, &mut equations);
        let share_on = reaches(&stages, index);
        takes(model, index, stage, &share_on, &mut equations);
        goes_on(model, &stages, index, &mut equations);
    }
    overall(model, &stages, &mut equations);
    columns(&equations)
}

/// What is weighed into a stage, on its own flour.
fn filling(model: &Model, stage: usize, made: &Stage, equations: &mut Vec<Equation>) {
    let of = |what: Unknown, percent: &Ratio, base: Unknown| -> Equation {
        (vec![(what, Ratio::one()), (base, -fraction(percent))], Ratio::zero())
    };
    match &made.filling {
        Filling::Flour { parts, seed, .. } => {
            let own = Unknown::OwnFlour(stage);
            equations
                .extend(parts.iter().map(|part| of(Unknown::Weighed(stage, part.name), &part.percent, own)));
            equations.extend(seed.iter().map(|(_, percent, _)| of(Unknown::Taken(stage), percent, own)));
        }
        Filling::Grain { water } => {
            let grain = Unknown::Weighed(stage, GRAIN);
            let all = model.overall.iter().find(|part| part.name == GRAIN);
            let all = all.map_or_else(Ratio::zero, |part| fraction(&part.percent));
            equations.push((vec![(grain, Ratio::one())], all));
            equations.push(of(Unknown::Weighed(stage, WATER), water, grain));
        }
        Filling::Piece { .. } => {}
    }
}

/// The share of what goes on from a stage that reaches the dough: later tubs keep some of it.
fn reaches(stages: &[(&Stage, Option<usize>)], stage: usize) -> Ratio {
    let mut share = Ratio::one();
    let mut next = stages.get(stage).and_then(|(_, goes_into)| *goes_into);
    while let Some(index) = next {
        let Some((later, goes_into)) = stages.get(index) else { break };
        share *= Ratio::one() - fraction(&later.left_over);
        next = *goes_into;
    }
    share
}

/// The flour that the dough gets through a stage.
fn takes(model: &Model, stage: usize, made: &Stage, share_on: &Ratio, equations: &mut Vec<Equation>) {
    let (Filling::Flour { takes, .. } | Filling::Piece { takes, .. }) = &made.filling else { return };
    let flours = FLOURS.into_iter().filter(|name| model.overall.iter().any(|part| part.name == *name));
    let terms = flours.map(|name| (Unknown::GoesOn(stage, name), share_on.clone()));
    equations.push((terms.collect(), fraction(takes)));
}

/// What goes on from a stage: what is in it, less steam and what stays in the tub. A seed that is given back takes its
/// own flour and water away again.
fn goes_on(model: &Model, stages: &[(&Stage, Option<usize>)], stage: usize, equations: &mut Vec<Equation>) {
    let Some((made, _)) = stages.get(stage) else { return };
    let kept = Ratio::one() - fraction(&made.left_over);
    let before = stages.iter().position(|(_, goes_into)| *goes_into == Some(stage));
    for part in &model.overall {
        let name = part.name;
        let mut terms = vec![(Unknown::GoesOn(stage, name), Ratio::one())];
        if weighs(made, name) {
            let stays = if name == WATER { Ratio::one() - fraction(&made.steam) } else { Ratio::one() };
            terms.push((Unknown::Weighed(stage, name), -(&kept * stays)));
        }
        if let Some(source) = staying(made) {
            let share = source.in_a_gram(&model.overall).into_iter().find(|(own, _)| *own == name);
            terms.extend(share.map(|(_, share)| (Unknown::Taken(stage), -(&kept * share))));
        }
        terms.extend(before.map(|before| (Unknown::GoesOn(before, name), -kept.clone())));
        equations.push((terms, Ratio::zero()));
    }
}

/// Whether a stage weighs an ingredient as such.
fn weighs(made: &Stage, name: &str) -> bool {
    match &made.filling {
        Filling::Flour { parts, .. } => parts.iter().any(|part| part.name == name),
        Filling::Grain { .. } => name == GRAIN || name == WATER,
        Filling::Piece { .. } => false,
    }
}

/// The culture or dough whose flour and water stay in a stage.
fn staying(made: &Stage) -> Option<crate::model::Source> {
    match &made.filling {
        Filling::Flour { seed: Some((source, _, false)), .. } | Filling::Piece { source, .. } => {
            Some(*source)
        }
        _ => None,
    }
}

/// What comes from the stages, from a piece and from the final dough's own weights is the whole.
fn overall(model: &Model, stages: &[(&Stage, Option<usize>)], equations: &mut Vec<Equation>) {
    let piece = model.piece.as_ref().map(|(source, percent)| (source.in_a_gram(&model.overall), percent));
    for part in &model.overall {
        let mut terms = vec![(Unknown::Last(part.name), Ratio::one())];
        for (index, (_, goes_into)) in stages.iter().enumerate() {
            if goes_into.is_none() {
                terms.push((Unknown::GoesOn(index, part.name), Ratio::one()));
            }
        }
        let mut whole = fraction(&part.percent);
        if let Some((parts, percent)) = &piece {
            let share = parts.iter().find(|(name, _)| *name == part.name);
            whole -= share.map_or_else(Ratio::zero, |(_, share)| share * fraction(percent));
        }
        equations.push((terms, whole));
    }
}

/// The equations as rows of one matrix.
fn columns(equations: &[Equation]) -> System {
    let mut unknowns = BTreeMap::new();
    for (unknown, _) in equations.iter().flat_map(|(terms, _)| terms) {
        let next = unknowns.len();
        unknowns.entry(*unknown).or_insert(next);
    }
    let rows = equations.iter().map(|(terms, constant)| {
        let mut row = vec![Ratio::zero(); unknowns.len() + 1];
        for (unknown, coefficient) in terms {
            row[unknowns[unknown]] += coefficient;
        }
        row[unknowns.len()] = constant.clone();
        row
    });
    let rows = rows.collect();
    System { unknowns, rows }
}
