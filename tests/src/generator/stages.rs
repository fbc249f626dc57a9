//! Random stages.

use proptest::prelude::*;

use super::stage_of;
use crate::model::{FLOURS, Filling, Part, Source, Stage, WATER};
use crate::ratio::{Ratio, ratio, whole};

/// A pre-ferment or a scald that takes 5 to 25 % of the flour; one in four has a build inside.
pub(super) fn stage() -> impl Strategy<Value = Stage> {
    let inside = proptest::option::weighted(0.25, levain(10..=40));
    prop_oneof![
        2 => sponge(),
        3 => (levain(50..=250), inside).prop_map(|(stage, inside)| with_build(stage, inside)),
        1 => scald(),
    ]
}

/// What takes a share of the flour, in tenths of a percent.
fn flour_stage(
    name: &'static str,
    kind: &'static str,
    takes: std::ops::RangeInclusive<i64>,
    water: std::ops::RangeInclusive<i64>,
) -> impl Strategy<Value = Stage> {
    let second = prop_oneof![3 => Just(0_i64), 1 => 5_i64..=30];
    (takes, second, water, left_over()).prop_map(move |(takes, second, water, left_over)| {
        let mut parts = vec![Part { name: FLOURS[0], percent: whole(100 - second) }];
        if second > 0 {
            parts.push(Part { name: FLOURS[1], percent: whole(second) });
        }
        parts.push(Part { name: WATER, percent: whole(water) });
        let filling = Filling::Flour { takes: ratio(takes, 10), parts, seed: None, inside: None };
        Stage { left_over, ..stage_of(name, kind, filling) }
    })
}

/// A yeasted pre-ferment.
fn sponge() -> impl Strategy<Value = Stage> {
    (flour_stage("sponge", "sponge", 50..=250, 45..=105), 1_i64..=4).prop_map(|(mut stage, yeast)| {
        if let Filling::Flour { parts, .. } = &mut stage.filling {
            parts.push(Part { name: "fresh yeast", percent: ratio(yeast, 10) });
        }
        stage
    })
}

/// A build from a culture, which stays or is given back.
fn levain(takes: std::ops::RangeInclusive<i64>) -> impl Strategy<Value = Stage> {
    let source = prop::sample::select(vec![Source::Stiff, Source::Liquid, Source::Rye]);
    (flour_stage("levain", "levain", takes, 45..=125), source, 10_i64..=40, any::<bool>()).prop_map(
        |(mut stage, source, percent, given_back)| {
            if let Filling::Flour { seed, .. } = &mut stage.filling {
                *seed = Some((source, whole(percent), given_back));
            }
            stage
        },
    )
}

/// A levain that grows from an earlier build, and then needs no culture.
pub(super) fn with_build(mut stage: Stage, build: Option<Stage>) -> Stage {
    if let (Filling::Flour { seed, inside, .. }, Some(build)) = (&mut stage.filling, build) {
        *seed = None;
        *inside = Some(Box::new(Stage { name: "first build".to_owned(), ..build }));
    }
    stage
}

/// Flour wetted with boiling water, of which some goes off as steam.
fn scald() -> impl Strategy<Value = Stage> {
    (flour_stage("scald", "scald", 20..=80, 100..=200), 1_i64..=15)
        .prop_map(|(stage, steam)| Stage { steam: whole(steam), ..stage })
}

/// All of the grain, in water.
pub(super) fn soaker() -> impl Strategy<Value = Stage> {
    (50_i64..=150).prop_map(|water| stage_of("soaker", "soaker", Filling::Grain { water: whole(water) }))
}

/// A piece of the dough's own last batch, or of another dough.
pub(super) fn old_dough() -> impl Strategy<Value = Stage> {
    let source = prop::sample::select(vec![Source::ThisDough, Source::Yesterday]);
    (source, 50_i64..=200, left_over()).prop_map(|(source, takes, left_over)| {
        let filling = Filling::Piece { takes: ratio(takes, 10), source };
        Stage { left_over, ..stage_of("old dough", "old dough", filling) }
    })
}

/// What stays in the tub: mostly nothing.
pub(super) fn left_over() -> impl Strategy<Value = Ratio> {
    prop_oneof![3 => Just(0_i64), 1 => 1_i64..=10].prop_map(whole)
}
