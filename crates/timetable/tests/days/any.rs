//! Any work gets an answer: a timetable that passes the check, or a reason in words. Nothing panics.

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_timetable::{
    Clock, Effort, LagFrom, Machine, Minutes, Moment, OpeningHours, PoolNeed, Step, TimeLag, Work,
    chart_rows, plan, verify,
};
use proptest::prelude::*;

use crate::kitchen::kilograms;

/// Mostly near, at times at the ends of time.
fn moment() -> impl Strategy<Value = Moment> {
    prop_oneof![8 => -90..90_i32, 1 => Just(i32::MIN), 1 => Just(i32::MAX)].prop_map(Moment::minute)
}

fn minutes() -> impl Strategy<Value = Minutes> {
    prop_oneof![10 => 0..40_u32, 1 => Just(u32::MAX)].prop_map(Minutes::new)
}

type StepLot = (Minutes, bool, Option<(u32, Minutes, Minutes)>, Option<Moment>, Option<Moment>);

fn step() -> impl Strategy<Value = StepLot> {
    // Mostly within the step.
    let within = || prop_oneof![9 => 0..4_u32, 1 => Just(u32::MAX)].prop_map(Minutes::new);
    let need = prop::option::of((0..4_u32, within(), within()));
    let end = || prop::option::weighted(0.2, moment());
    (minutes(), any::<bool>(), need, end(), end())
}

fn work() -> impl Strategy<Value = Work> {
    let steps = prop::collection::vec(step(), 0..6);
    let time_lags = prop::collection::vec(
        (0..6_usize, 0..6_usize, any::<bool>(), minutes(), prop::option::of(minutes())),
        0..6,
    );
    let opens = prop::collection::vec((moment(), moment(), 0..4_u32), 0..3);
    (steps, time_lags, opens, moment()).prop_map(|(steps, time_lags, opens, until)| {
        let mut work = Work::new(Moment::minute(-100), until);
        let pool = work.pool("bakers", "baker", "bakers");
        for (from, until, places) in opens {
            work.open(pool, OpeningHours { from, until, places });
        }
        let other = work.pool("helpers", "helper", "helpers");
        work.always(other, 2);
        let class = work.class("mixer");
        let [least, most] = [1, 40].map(kilograms);
        work.machine(Machine { name: "spiral".to_owned(), class, least, most });
        let job = work.job("dough");
        let add = |(length, is_mixed, need, release, deadline): StepLot| {
            let mut step = Step { release, deadline, ..Step::new(job, "step", length) };
            step.needs.extend(need.map(|(places, after, length)| PoolNeed { pool, places, after, length }));
            if let Some(first) = step.needs.first().copied().filter(|_| !is_mixed) {
                // The same of one pool or of another.
                step.either = vec![first, PoolNeed { pool: other, ..first }];
            }
            work.step(if is_mixed { step.on(class, kilograms(20)) } else { step })
        };
        let ids: Vec<_> = steps.into_iter().map(add).collect();
        for (after, before, is_start, least, most) in time_lags {
            let (Some(&after), Some(&before)) = (ids.get(after), ids.get(before)) else { continue };
            let since = if is_start { LagFrom::Start } else { LagFrom::End };
            work.time_lag(TimeLag { name: "rest".to_owned(), after, since, before, least, most });
        }
        work
    })
}

proptest! {
    #[test]
    fn any_work_gets_an_answer(work in work()) {
        match plan(&work, Effort { rounds: 1, neighbourhoods: 16, prices: 16 }) {
            Ok(timetable) => {
                prop_assert_eq!(verify(&work, &timetable), []);
                prop_assert!(!chart_rows(&work, &timetable).is_empty());
            }
            Err(error) => {
                let clock = Clock::new(date(2026, 11, 26), TimeZone::UTC).unwrap();
                prop_assert!(!error.text(&work, &clock).what.is_empty());
            }
        }
    }
}
