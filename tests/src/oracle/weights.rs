//! The weights of a model, stage by stage.

use std::collections::BTreeMap;

use num_traits::{Signed, Zero};

use super::equations::Unknown;
use crate::model::{FLOURS, Filling, Model, Stage, WATER};
use crate::ratio::{Ratio, fraction, sum};

/// The weights of a dough, as shares of its whole flour.
#[derive(Debug, Clone)]
pub struct Weights {
    /// The stages, in the order of [`Model::all_stages`], and the final dough last.
    pub stages: Vec<StageWeights>,
    /// The whole dough, ingredient by ingredient.
    pub overall: Vec<(&'static str, Ratio)>,
    /// The flour that ferments ahead.
    pub prefermented: Ratio,
}

/// What is weighed into a stage, and what becomes of it.
#[derive(Debug, Clone)]
pub struct StageWeights {
    /// Its name.
    pub name: String,
    /// What is weighed: ingredients, a culture or dough, the stages that go in.
    pub lines: Vec<(String, Ratio)>,
    /// The flour weighed as such.
    pub own_flour: Ratio,
    /// What stands in the tub.
    pub made: Ratio,
    /// What goes off as steam.
    pub steam: Ratio,
    /// What stays in the tub.
    pub left_over: Ratio,
    /// What is kept for the next seed.
    pub given_back: Ratio,
    /// What goes on.
    pub taken: Ratio,
}

impl Weights {
    /// Whether anything weighs less than nothing.
    #[must_use]
    pub fn is_negative(&self) -> bool {
        self.stages.iter().flat_map(|stage| &stage.lines).any(|(_, weight)| weight.is_negative())
    }

    /// The stage of a name.
    #[must_use]
    pub fn stage(&self, name: &str) -> Option<&StageWeights> {
        self.stages.iter().find(|stage| stage.name == name)
    }
}

/// Reads the solution of the equations.
pub(super) fn read(model: &Model, unknowns: &BTreeMap<Unknown, usize>, solution: &[Ratio]) -> Weights {
    let value = |unknown: Unknown| {
        let column = unknowns.get(&unknown);
        column.and_then(|column| solution.get(*column)).cloned().unwrap_or_else(Ratio::zero)
    };
    let mut stages: Vec<StageWeights> = Vec::new();
    let all = model.all_stages();
    let mut kept_for_later = Ratio::zero();
    for (index, (stage, goes_into)) in all.iter().enumerate() {
        let mut lines: Vec<(String, Ratio)> = Vec::new();
        for part in &model.overall {
            let unknown = Unknown::Weighed(index, part.name);
            if unknowns.contains_key(&unknown) {
                lines.push((part.name.to_owned(), value(unknown)));
            }
        }
        if let Some((name, given_back)) = source(stage) {
            let taken = value(Unknown::Taken(index));
            kept_for_later += if given_back { taken.clone() } else { Ratio::zero() };
            lines.push((name.to_owned(), taken));
        }
        lines.extend(before(&all, &stages, index));
        let given_back =
            if goes_into.is_none() { std::mem::take(&mut kept_for_later) } else { Ratio::zero() };
        let steam = value(Unknown::Weighed(index, WATER)) * fraction(&stage.steam);
        let own_flour = value(Unknown::OwnFlour(index));
        stages.push(finish(&stage.name, lines, own_flour, (steam, &stage.left_over, given_back)));
    }
    let last = last(model, &value, &all, &stages);
    stages.push(last);
    let overall = model.overall.iter().map(|part| (part.name, fraction(&part.percent))).collect();
    Weights { stages, overall, prefermented: prefermented(model, &value, &all) }
}

/// The final dough.
fn last(
    model: &Model,
    value: &impl Fn(Unknown) -> Ratio,
    all: &[(&Stage, Option<usize>)],
    stages: &[StageWeights],
) -> StageWeights {
    let weighed = model.overall.iter().map(|part| (part.name.to_owned(), value(Unknown::Last(part.name))));
    let mut lines: Vec<(String, Ratio)> = weighed.collect();
    lines.extend(model.piece.iter().map(|(source, percent)| (source.name().to_owned(), fraction(percent))));
    for ((_, goes_into), stage) in all.iter().zip(stages) {
        if goes_into.is_none() {
            lines.push((stage.name.clone(), stage.taken.clone()));
        }
    }
    let own = FLOURS.into_iter().map(|name| value(Unknown::Last(name))).collect::<Vec<_>>();
    finish("final dough", lines, sum(&own), (Ratio::zero(), &Ratio::zero(), Ratio::zero()))
}

/// The culture or dough that a stage takes, and whether it is given back.
fn source(stage: &Stage) -> Option<(&'static str, bool)> {
    match &stage.filling {
        Filling::Flour { seed, .. } => {
            seed.as_ref().map(|(source, _, given_back)| (source.name(), *given_back))
        }
        Filling::Piece { source, .. } => Some((source.name(), false)),
        Filling::Grain { .. } => None,
    }
}

/// The stage that goes into another, and what of it.
fn before(all: &[(&Stage, Option<usize>)], stages: &[StageWeights], index: usize) -> Option<(String, Ratio)> {
    let before = all.iter().position(|(_, goes_into)| *goes_into == Some(index))?;
    stages.get(before).map(|stage| (stage.name.clone(), stage.taken.clone()))
}

/// What becomes of what is weighed: steam, what is left over in %, and what is given back.
fn finish(
    name: &str,
    lines: Vec<(String, Ratio)>,
    own_flour: Ratio,
    (steam, left_over, given_back): (Ratio, &Ratio, Ratio),
) -> StageWeights {
    let made = sum(lines.iter().map(|(_, weight)| weight)) - &steam;
    let left_over = &made * fraction(left_over);
    let taken = &made - &left_over - &given_back;
    StageWeights { name: name.to_owned(), lines, own_flour, made, steam, left_over, given_back, taken }
}

/// The flour that reaches the dough out of stages that ferment, and out of cultures and pieces of dough.
fn prefermented(model: &Model, value: &impl Fn(Unknown) -> Ratio, all: &[(&Stage, Option<usize>)]) -> Ratio {
    let mut fermented = Ratio::zero();
    for (index, (stage, goes_into)) in all.iter().enumerate() {
        if goes_into.is_none() && !matches!(stage.kind, "soaker" | "scald" | "autolyse") {
            fermented += sum(&FLOURS.map(|name| value(Unknown::GoesOn(index, name))));
        }
    }
    if let Some((source, percent)) = &model.piece {
        fermented += source.flour_in_a_gram() * fraction(percent);
    }
    fermented
}
