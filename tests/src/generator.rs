//! Random doughs that a baker might make.
//!
//! [`doughs`] has any figures; of some of them no dough can be made, because a stage needs more water or flour than
//! there is. [`decimal_doughs`] has figures of which every weight and every percentage, in whichever way the dough is
//! written, is a short decimal: its flours weigh products of twos and fives.

mod decimal;
mod stages;

pub use decimal::decimal_doughs;

use num_traits::{One, Zero};
use proptest::prelude::*;

use crate::model::{FLOURS, Filling, GRAIN, Model, Part, Source, Stage, WATER};
use crate::ratio::{Ratio, ratio, whole};

/// Doughs of 2 to 4 flours at 55 to 85 % hydration, with 0 to 3 pre-ferments, and now and then a soaker, a scald, old
/// dough of the dough itself or a piece of another.
pub fn doughs() -> impl Strategy<Value = Model> {
    let parts = (overall(), proptest::collection::vec(stages::stage(), 0..=3));
    let extras = (
        proptest::option::weighted(0.2, stages::soaker()),
        proptest::option::weighted(0.2, stages::old_dough()),
        proptest::option::weighted(0.2, piece()),
        1_i64..=80,
    );
    (parts, extras).prop_map(|((mut overall, mut stages), (soaker, old_dough, piece, kilograms))| {
        stages.extend(old_dough);
        if let Some(soaker) = soaker {
            overall.push(Part { name: GRAIN, percent: whole(12) });
            stages.push(soaker);
        }
        let mut model = Model { overall, stages, piece, flour_grams: whole(kilograms * 1000) };
        make_consistent(&mut model);
        model
    })
}

/// The whole dough: 2 to 4 flours that add up to 100, water, salt, yeast.
fn overall() -> impl Strategy<Value = Vec<Part>> {
    let rest = (550_i64..=850, 18_i64..=22, 0_i64..=20);
    (proptest::collection::vec(1_i64..=15, 1..=3), rest).prop_map(|(others, (water, salt, yeast))| {
        let first = 100 - others.iter().sum::<i64>();
        let flours = std::iter::once(first).chain(others);
        let mut parts: Vec<Part> = FLOURS
            .into_iter()
            .zip(flours)
            .map(|(name, percent)| Part { name, percent: whole(percent) })
            .collect();
        parts.push(Part { name: WATER, percent: ratio(water, 10) });
        parts.push(Part { name: "salt", percent: ratio(salt, 10) });
        if yeast > 0 {
            parts.push(Part { name: "fresh yeast", percent: ratio(yeast, 10) });
        }
        parts
    })
}

/// A little of a culture or of another dough, straight into the final dough.
fn piece() -> impl Strategy<Value = (Source, Ratio)> {
    (prop::sample::select(vec![Source::Stiff, Source::Yesterday]), 1_i64..=200)
        .prop_map(|(source, tenths)| (source, ratio(tenths, 10)))
}

/// Gives every stage a name of its own, and takes out what the dough does not have: yeast where the whole has none, a
/// second flour, the rye of a culture, a seed given back from a tub that is not emptied.
fn make_consistent(model: &mut Model) {
    let has = |name: &str| model.overall.iter().any(|part| part.name == name);
    let (has_rye, has_yeast, has_second) = (has(FLOURS[2]), has("fresh yeast"), has(FLOURS[1]));
    // No figures in a name: `levain 2  360 g` can be read in two ways, and is refused.
    let mut tubs = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"].into_iter();
    for stage in &mut model.stages {
        let mut next = Some(stage);
        let mut is_emptied = true;
        while let Some(stage) = next {
            stage.name = format!("{} of tub {}", stage.name, tubs.next().unwrap_or("ten"));
            is_emptied &= stage.left_over.is_zero();
            next = match &mut stage.filling {
                Filling::Flour { parts, seed, inside, .. } => {
                    if !has_second {
                        merge_flours(parts);
                    }
                    parts.retain(|part| part.name != "fresh yeast" || has_yeast);
                    if let Some((source, _, given_back)) = seed {
                        *source = if *source == Source::Rye && !has_rye { Source::Liquid } else { *source };
                        *given_back &= is_emptied;
                    }
                    inside.as_deref_mut()
                }
                _ => None,
            };
        }
    }
}

/// Puts all flour of a stage into the first.
fn merge_flours(parts: &mut Vec<Part>) {
    parts.retain(|part| part.name != FLOURS[1]);
    if let Some(part) = parts.iter_mut().find(|part| part.name == FLOURS[0]) {
        part.percent = Ratio::one() * whole(100);
    }
}

/// A stage with nothing lost.
fn stage_of(name: &str, kind: &'static str, filling: Filling) -> Stage {
    Stage { name: name.to_owned(), kind, filling, left_over: Ratio::zero(), steam: Ratio::zero() }
}
