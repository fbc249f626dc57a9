//! Small random works against every timetable that they could have.

use levamen_timetable::{
    Effort, LagFrom, Machine, MachineId, Minutes, Moment, OpeningHours, Step, StepId, TimeLag,
    TimetableError, Work, plan, verify,
};
use proptest::prelude::*;

use crate::brute;
use crate::kitchen::kilograms;

const SPAN: i32 = 9;

/// Lots for one step.
#[derive(Debug, Clone)]
struct Lot {
    length: u32,
    is_mixed: bool,
    dough: u32,
    bakers: u32,
    decks: u32,
    release: Option<i32>,
    deadline: Option<i32>,
}

/// Lots for one wait: to a step from one before it.
#[derive(Debug, Clone)]
struct Gap {
    is_there: bool,
    from: usize,
    is_since_start: bool,
    least: u32,
    more: Option<u32>,
}

fn lot() -> impl Strategy<Value = Lot> {
    let moment = prop::option::weighted(0.3, 0..SPAN);
    (1..4_u32, any::<bool>(), 5..40_u32, 0..3_u32, 0..3_u32, moment.clone(), moment).prop_map(
        |(length, is_mixed, dough, bakers, decks, release, deadline)| Lot {
            length,
            is_mixed,
            dough,
            bakers,
            decks,
            release,
            deadline,
        },
    )
}

fn gap() -> impl Strategy<Value = Gap> {
    let more = prop::option::weighted(0.8, 0..3_u32);
    (prop::bool::weighted(0.75), 0..3_usize, any::<bool>(), 0..3_u32, more).prop_map(
        |(is_there, from, is_since_start, least, more)| Gap { is_there, from, is_since_start, least, more },
    )
}

fn work() -> impl Strategy<Value = (Work, Vec<MachineId>)> {
    let steps = prop::collection::vec((lot(), gap()), 1..5);
    (steps, 1..3_usize, 1..3_u32, 1..4_u32, 3..=SPAN).prop_map(|(lots, mixers, bakers, decks, closes)| {
        let mut work = Work::new(Moment::minute(0), Moment::minute(SPAN));
        let hands = work.pool("bakers", "baker", "bakers");
        work.open(
            hands,
            OpeningHours { from: Moment::minute(0), until: Moment::minute(closes), places: bakers },
        );
        let oven = work.pool("oven", "deck", "decks");
        work.always(oven, decks);
        let small = work.pool("small oven", "deck", "decks");
        work.always(small, 1);
        let class = work.class("mixer");
        let machines = (0..mixers).map(|number| {
            let (least, most) = if number == 0 { (1, 30) } else { (10, 60) };
            let [least, most] = [least, most].map(kilograms);
            work.machine(Machine { name: format!("mixer {number}"), class, least, most })
        });
        let machines: Vec<MachineId> = machines.collect();
        let mut ids: Vec<StepId> = Vec::new();
        for (lot, gap) in lots {
            let job = work.job(&format!("job {}", ids.len()));
            let step = Step::new(job, "step", Minutes::new(lot.length));
            // Some may be in one oven or in the other.
            let mut step = if lot.dough % 3 == 0 {
                step.with_either([(oven, lot.decks), (small, lot.decks)])
            } else {
                step.with(oven, lot.decks)
            };
            step = step.with_for(hands, lot.bakers, Minutes::ZERO, Minutes::new(lot.length.min(2)));
            step.release = lot.release.map(Moment::minute);
            step.deadline = lot.deadline.map(Moment::minute);
            let id = work.step(if lot.is_mixed { step.on(class, kilograms(lot.dough)) } else { step });
            if let Some(after) = ids.get(gap.from % ids.len().max(1)).filter(|_| gap.is_there) {
                let most = gap.more.map(|more| Minutes::new(gap.least + more));
                let since = if gap.is_since_start { LagFrom::Start } else { LagFrom::End };
                let least = Minutes::new(gap.least);
                work.time_lag(TimeLag {
                    name: "rest".to_owned(),
                    after: *after,
                    since,
                    before: id,
                    least,
                    most,
                });
            }
            ids.push(id);
        }
        (work, machines)
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Everything has a place in time if and only if it can, and then as well as can be; what is at fault otherwise is proven.
    #[test]
    fn as_good_as_trying_everything((work, machines) in work()) {
        let least = brute::least(&work, &machines);
        let timetable = plan(&work, Effort { rounds: 1, neighbourhoods: 64, prices: 64 }).unwrap();
        prop_assert_eq!(verify(&work, &timetable), []);
        if let Some(least) = least {
            prop_assert_eq!(timetable.waiting.total().count(), least);
            prop_assert!(timetable.is_best(), "{:?}", timetable);
            prop_assert_eq!(timetable.shortfall, None);
        } else {
            prop_assert!(!timetable.is_complete());
            let error = timetable.shortfall.unwrap();
            prop_assert!(!matches!(error, TimetableError::NotFound(_) | TimetableError::WorkError(_)), "{:?}", error);
        }
    }
}
