//! What plans look like, and what holds of each.

use levamen_culture::{
    CultureKeeping, CultureNeed, Declared, FeedingHours, FeedingTask, Interval, plan, replay,
};
use proptest::prelude::*;

use crate::bakery::{clock, daily, days, grams, hours, keeping, liquid, need, percent, suiting, told};

fn planned(keeping: &CultureKeeping, needs: &[CultureNeed], count: u32, on_hand: Option<i64>) -> String {
    let (days, hours) = (days(count), suiting(keeping, needs));
    let task = FeedingTask { keeping, needs, days: &days, hours: &hours, on_hand: on_hand.map(grams) };
    told(&plan(&task).unwrap())
}

#[test]
fn the_same_every_day_is_fed_once_a_day_at_the_usual_share() {
    let needs = daily(&days(4), &[600; 4]);
    insta::assert_snapshot!(planned(&keeping(liquid()), &needs, 4, Some(667)));
}

/// Common practice: 40 parts old to 60 parts new hold the weight, and 60 of each 100 parts are thrown away.
#[test]
fn a_culture_that_keeps_its_weight_throws_away_sixty_parts_of_a_hundred() {
    let usual = liquid();
    let steady = Declared {
        keeps: Interval::new(usual.usually.clone(), usual.usually.clone()),
        hold_least: grams(1000),
        hold_most: Some(grams(1000)),
        ..usual
    };
    let keeping = keeping(steady);
    let (days, hours) = (days(4), suiting(&keeping, &[]));
    let task =
        FeedingTask { keeping: &keeping, needs: &[], days: &days, hours: &hours, on_hand: Some(grams(1000)) };
    let plan = plan(&task).unwrap();
    assert!(plan.feedings().count() >= 3);
    for feeding in plan.feedings() {
        let parts = [&feeding.old, &feeding.discard, &feeding.made()].map(|mass| mass.grams().to_i64());
        assert_eq!(parts, [Some(400), Some(600), Some(1000)]);
    }
}

#[test]
fn a_share_is_low_or_high_beside_forty_parts_of_a_hundred() {
    let called = |figure| Declared { usually: percent(figure), ..liquid() }.beside_usual();
    assert_eq!([39, 40, 41].map(called), [Some("low"), None, Some("high")]);
}

#[test]
fn a_large_day_is_built_up_to() {
    let needs = daily(&days(5), &[300, 300, 300, 9000, 300]);
    insta::assert_snapshot!(planned(&keeping(liquid()), &needs, 5, Some(400)));
}

#[test]
fn without_a_need_as_little_is_held_as_may_be() {
    insta::assert_snapshot!(planned(&keeping(liquid()), &[], 4, Some(200)));
}

#[test]
fn idle_days_are_spent_in_the_cold() {
    let cold = Declared { stored: Some(hours(72)), ..liquid() };
    let needs = [need(&days(6), 0, 4, 500), need(&days(6), 5, 4, 500)];
    insta::assert_snapshot!(planned(&keeping(cold), &needs, 6, Some(700)));
}

#[test]
fn a_little_is_built_up_as_fast_as_may_be() {
    let needs = [need(&days(4), 3, 4, 2000)];
    insta::assert_snapshot!(planned(&keeping(liquid()), &needs, 4, Some(10)));
}

#[test]
fn without_a_figure_the_plan_says_what_to_begin_with() {
    let needs = daily(&days(3), &[600; 3]);
    insta::assert_snapshot!(planned(&keeping(liquid()), &needs, 3, None));
}

#[test]
fn times_close_together_are_met_by_one_feeding() {
    let days = days(3);
    let needs: Vec<CultureNeed> = (0..3)
        .flat_map(|day| (3..7).map(move |hour| (day, hour)))
        .map(|(day, hour)| need(&days, day, hour, 100))
        .collect();
    let keeping = keeping(liquid());
    let hours = suiting(&keeping, &needs);
    assert_eq!(hours.times(), [clock(17), clock(5)]);
    insta::assert_snapshot!(planned(&keeping, &needs, 3, Some(600)));
}

fn any_declared() -> impl Strategy<Value = Declared> {
    let shares = (5i64..40, 0i64..30, 0i64..50);
    let times = (4i64..14, 0i64..4, 4i64..16, 0i64..24, prop::option::of(24i64..96));
    let hold = (20i64..400, prop::option::of(0i64..12_000));
    (shares, times, hold).prop_map(
        |((low, usual, high), (ripe, ripe_more, every, every_more, cold), (least, most))| {
            let every_most = (every + every_more).max(ripe);
            Declared {
                keeps: Interval::new(percent(low), percent((low + usual + high).min(90))),
                usually: percent((low + usual).min(90)),
                ripens: Interval::new(hours(ripe), hours(ripe + ripe_more)),
                fed_every: Interval::new(hours(every.min(every_most)), hours(every_most)),
                stored: cold.map(hours),
                hold_least: grams(least),
                hold_most: most.map(|more| grams(least + more)),
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Whatever is needed, a plan passes the replay, or there is a refusal with words; what it throws away adds up.
    #[test]
    fn a_plan_stands_up_to_its_replay(
        declared in any_declared(),
        masses in prop::collection::vec((0i64..10, 0i8..24, 1i64..4000), 0..9),
        count in 1u32..12,
        on_hand in prop::option::of(1i64..5000),
        given in prop::option::of(prop::collection::vec(0i8..24, 1..4)),
    ) {
        let keeping = CultureKeeping::new(declared).unwrap();
        let days = days(count);
        let needs: Vec<CultureNeed> = masses.iter().map(|(day, hour, mass)| need(&days, *day, *hour, *mass)).collect();
        let hours = given.map_or_else(
            || suiting(&keeping, &needs),
            |given| FeedingHours::given(given.into_iter().map(clock).collect()),
        );
        let task = FeedingTask { keeping: &keeping, needs: &needs, days: &days, hours: &hours, on_hand: on_hand.map(grams) };
        match plan(&task) {
            Ok(plan) => {
                prop_assert_eq!(replay(&task, &plan), Ok(()));
                let came = &plan.on_hand + &plan.added();
                let went = &(&plan.taken() + &plan.discarded()) + &plan.left;
                prop_assert_eq!(came, went);
            }
            Err(refusal) => {
                prop_assert!(refusal != levamen_culture::PlanError::Unsound);
                prop_assert!(!refusal.problem("culture", &keeping).help.is_empty());
            }
        }
    }
}
