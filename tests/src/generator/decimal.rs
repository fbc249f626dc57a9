//! Doughs that can be written in every way: each weight and each percentage is a short decimal.

use num_traits::Zero;
use proptest::prelude::*;

use super::stages::{left_over, soaker, with_build};
use super::{make_consistent, stage_of};
use crate::model::{FLOURS, Filling, GRAIN, Model, Part, Source, Stage, WATER};
use crate::oracle::solve;
use crate::ratio::{Ratio, fraction, ratio, sum, whole};

/// What the flour of a final dough may be, in hundredths of % of the whole: products of twos and fives, so that a
/// percentage of it ends.
const FINAL_FLOURS: [i64; 8] = [3200, 4000, 5000, 5120, 6250, 6400, 8000, 10000];
/// The same of the flour of a stage.
const STAGE_FLOURS: [i64; 7] = [500, 625, 800, 1000, 1250, 1600, 2000];
/// The same of a first build.
const BUILD_FLOURS: [i64; 4] = [125, 200, 250, 400];

/// Doughs of which every weight and every percentage is a short decimal in pounds and in grams, and of which all
/// weights are above nothing.
pub fn decimal_doughs() -> impl Strategy<Value = Model> {
    let overall = (1_i64..=15, 680_i64..=850, 18_i64..=22, 10_i64..=20);
    let stages = proptest::collection::vec(stage(), 0..=2);
    let extras = (
        proptest::option::weighted(0.3, soaker()),
        proptest::option::weighted(0.3, (old_dough(), left_over())),
        prop::sample::select(vec![Source::Stiff, Source::Liquid, Source::Yesterday]),
        1_i64..=50,
    );
    (overall, stages, extras).prop_filter_map(
        "a dough of less than nothing",
        |(overall, mut stages, extras)| {
            let (soaker, old_dough, source, pounds) = extras;
            stages.extend(old_dough.map(|(stage, left_over)| Stage { left_over, ..stage }));
            let mut overall = self::overall(overall);
            if let Some(soaker) = soaker {
                overall.push(Part { name: GRAIN, percent: whole(8) });
                stages.push(soaker);
            }
            let flour_grams = whole(pounds) * ratio(45_359_237, 100_000);
            let mut model = Model { overall, stages, piece: None, flour_grams };
            make_consistent(&mut model);
            let taken: Vec<Ratio> =
                model.stages.iter_mut().map(|stage| state_takes(stage, &whole(1))).collect();
            let left = whole(100) - sum(&taken);
            let own = own_flour(&left)?;
            let gap = left - own;
            model.piece = (!gap.is_zero()).then(|| (source, gap / source.flour_in_a_gram()));
            let weights = solve(&model).ok()?;
            (!weights.is_negative()).then_some(model)
        },
    )
}

fn overall((second, water, salt, yeast): (i64, i64, i64, i64)) -> Vec<Part> {
    let part = |name, percent| Part { name, percent };
    vec![
        part(FLOURS[0], whole(100 - second - 3)),
        part(FLOURS[1], whole(second)),
        part(FLOURS[2], whole(3)),
        part(WATER, ratio(water, 10)),
        part("salt", ratio(salt, 10)),
        part("fresh yeast", ratio(yeast, 10)),
    ]
}

/// A stage whose own flour is known; what it takes is worked out from that.
fn stage() -> impl Strategy<Value = Stage> {
    prop_oneof![
        2 => (build(STAGE_FLOURS.to_vec()), proptest::option::weighted(0.3, build(BUILD_FLOURS.to_vec())))
            .prop_map(|(stage, build)| with_build(stage, build)),
        1 => unseeded("sponge").prop_map(|mut stage| {
            if let Filling::Flour { parts, .. } = &mut stage.filling {
                parts.push(Part { name: "fresh yeast", percent: ratio(1, 5) });
            }
            stage
        }),
        1 => (unseeded("scald"), prop::sample::select(vec![5_i64, 10]))
            .prop_map(|(stage, steam)| Stage { steam: whole(steam), ..stage }),
    ]
}

/// A stage of another kind, without a culture.
fn unseeded(kind: &'static str) -> impl Strategy<Value = Stage> {
    build(STAGE_FLOURS.to_vec()).prop_map(move |mut stage| {
        if let Filling::Flour { seed, .. } = &mut stage.filling {
            *seed = None;
        }
        Stage { name: kind.to_owned(), kind, ..stage }
    })
}

/// A levain; `takes` stands for its own flour until [`state_takes`].
fn build(flours: Vec<i64>) -> impl Strategy<Value = Stage> {
    let source = prop::sample::select(vec![Source::Stiff, Source::Liquid, Source::Rye]);
    let seed = (source, 10_i64..=40, any::<bool>());
    let second = prop_oneof![2 => Just(0_i64), 1 => 1_i64..=20];
    (prop::sample::select(flours), second, 45_i64..=125, seed, left_over()).prop_map(
        |(flour, second, water, (source, percent, given_back), left_over)| {
            let mut parts = vec![Part { name: FLOURS[0], percent: whole(100 - second) }];
            if second > 0 {
                parts.push(Part { name: FLOURS[1], percent: whole(second) });
            }
            parts.push(Part { name: WATER, percent: whole(water) });
            let seed = Some((source, whole(percent), given_back));
            let filling = Filling::Flour { takes: ratio(flour, 100), parts, seed, inside: None };
            Stage { left_over, ..stage_of("levain", "levain", filling) }
        },
    )
}

/// A piece of the dough's own last batch.
fn old_dough() -> impl Strategy<Value = Stage> {
    (5_i64..=20).prop_map(|takes| {
        let filling = Filling::Piece { takes: whole(takes), source: Source::ThisDough };
        stage_of("old dough", "old dough", filling)
    })
}

/// Replaces a stage's own flour by the flour that the dough gets through it, and returns that. `reaches` is the share
/// of what goes on from it that reaches the dough.
fn state_takes(stage: &mut Stage, reaches: &Ratio) -> Ratio {
    let kept = whole(1) - fraction(&stage.left_over);
    match &mut stage.filling {
        Filling::Flour { takes, seed, inside, .. } => {
            let mut flour = takes.clone();
            if let Some((source, percent, false)) = seed {
                flour += &*takes * fraction(percent) * source.flour_in_a_gram();
            }
            let reaches = reaches * &kept;
            let inner = inside.as_mut().map(|inner| state_takes(inner, &reaches));
            *takes = flour * &reaches + inner.unwrap_or_else(Ratio::zero);
            takes.clone()
        }
        Filling::Piece { takes, .. } => {
            *takes *= reaches * &kept;
            takes.clone()
        }
        Filling::Grain { .. } => Ratio::zero(),
    }
}

/// The most flour of a final dough that is a product of twos and fives; what it leaves comes with a piece of a culture
/// or of a dough. `None` where too little flour is left.
fn own_flour(left: &Ratio) -> Option<Ratio> {
    let candidates = FINAL_FLOURS.iter().rev().map(|flour| ratio(*flour, 100));
    candidates.into_iter().find(|own| own <= left)
}
