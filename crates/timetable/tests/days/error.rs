//! Each reason why there is no timetable, in words.

use insta::assert_snapshot;
use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_timetable::{
    Clock, Effort, LagFrom, Minutes, Moment, OpeningHours, PoolNeed, Step, TimeLag, TimetableError, Work,
    plan, remedies, verify,
};

use crate::bakery::{Bakery, at, mixer, window};
use crate::kitchen::kilograms;

fn clock() -> Clock {
    Clock::new(date(2026, 11, 26), TimeZone::UTC).unwrap()
}

/// Why there is no timetable, as it is told.
fn text(work: &Work) -> String {
    let error = match plan(work, Effort { rounds: 1, neighbourhoods: 64, prices: 8 }) {
        Ok(timetable) => {
            assert_eq!(verify(work, &timetable), []);
            timetable.shortfall.unwrap()
        }
        Err(error) => error,
    };
    lines(work, &error)
}

/// Trouble with what would do, which is true of each.
fn lines(work: &Work, error: &TimetableError) -> String {
    let text = error.text(work, &clock());
    let why = text.why.iter().map(|line| format!("  {line}\n"));
    let help = text.help.iter().map(|line| format!("help: {line}\n"));
    let remedies = remedies(work, error).into_iter().map(|remedy| {
        let effort = Effort { rounds: 1, neighbourhoods: 0, prices: 0 };
        assert!(plan(&remedy.applied(work), effort).unwrap().is_complete());
        format!("help: {}\n", remedy.text(work, &clock()))
    });
    format!("{}\n", text.what) + &why.chain(help).chain(remedies).collect::<String>()
}

#[test]
fn no_machine_takes_the_dough() {
    let mut bakery = Bakery::new();
    bakery.work.step(Step::new(bakery.loaf, "second mix", Minutes::new(10)).on(bakery.mixers, kilograms(80)));
    assert_snapshot!(text(&bakery.work));
}

#[test]
fn more_decks_than_there_are() {
    let mut bakery = Bakery::new();
    bakery.work.step(Step::new(bakery.loaf, "second bake", Minutes::new(10)).with(bakery.oven, 7));
    assert_snapshot!(text(&bakery.work));
}

#[test]
fn out_too_early() {
    let mut bakery = Bakery::new();
    let early = bakery.work.steps()[3].clone().deadline(at(3, 0));
    let early = bakery.work.step(early);
    bakery.work.time_lag(window("proof", bakery.shape, LagFrom::End, early, (60, 90)));
    assert_snapshot!(text(&bakery.work));
}

#[test]
fn nobody_there_at_the_hour() {
    let mut bakery = Bakery::new();
    let night = Step::new(bakery.loaf, "fold", Minutes::new(5)).with(bakery.bakers, 1);
    let night = bakery.work.step(night.release(at(-4, 0)).deadline(at(-1, 0)));
    bakery.work.time_lag(window("rest", night, LagFrom::End, bakery.shape, (0, 600)));
    assert_snapshot!(text(&bakery.work));
}

#[test]
fn waits_in_a_circle() {
    let mut bakery = Bakery::new();
    bakery.work.time_lag(window("levain again", bakery.shape, LagFrom::End, bakery.build, (0, 60)));
    assert_snapshot!(text(&bakery.work));
}

/// More bakes of two decks for the same hour.
fn bakes(count: u32) -> Bakery {
    let mut bakery = Bakery::new();
    for number in 0..count {
        let job = bakery.work.job(&format!("roll {}", number + 1));
        let bake = Step::new(job, "bake", Minutes::new(60)).with(bakery.oven, 1);
        bakery.work.step(bake.release(at(2, 0)).deadline(at(4, 0)));
    }
    bakery
}

#[test]
fn an_oven_too_small() {
    assert!(plan(&bakes(6).work, Effort::default()).unwrap().is_complete());
    assert_snapshot!(text(&bakes(7).work));
}

#[test]
fn mixers_too_few() {
    let mut bakery = Bakery::new();
    bakery.work.machine(mixer("second spiral", bakery.mixers));
    for number in 0..5 {
        // Two batches of one name are counted, not listed.
        let job = bakery.work.job(&format!("ciabatta {}", number.max(1)));
        let mix = Step::new(job, "mix", Minutes::new(30)).on(bakery.mixers, kilograms(30));
        bakery.work.step(mix.release(at(2, 0)).deadline(at(3, 0)));
    }
    assert_snapshot!(text(&bakery.work));
}

#[test]
fn limits_that_cannot_all_hold() {
    // Two steps of four minutes on one mixer: there is room in ten minutes, but no two places that the rests allow.
    let mut work = Work::new(Moment::MIDNIGHT, Moment::minute(10));
    let class = work.class("mixer");
    work.machine(mixer("spiral", class));
    let (one, two) = (work.job("focaccia"), work.job("tin loaf"));
    let one = work.step(Step::new(one, "mix", Minutes::new(4)).on(class, kilograms(20)));
    let two = work.step(Step::new(two, "mix", Minutes::new(4)).on(class, kilograms(20)));
    work.time_lag(window("rest", one, LagFrom::Start, two, (1, 3)));
    assert_snapshot!(text(&work));
}

#[test]
fn none_found() {
    let work = Bakery::new();
    assert_snapshot!(lines(&work.work, &TimetableError::NotFound(vec![work.loaf])));
}

#[test]
fn mistakes() {
    let spoil = |change: &dyn Fn(&mut Bakery)| {
        let mut bakery = Bakery::new();
        change(&mut bakery);
        text(&bakery.work)
    };
    let long = text(&Work::new(at(0, 0), at(24 * 31, 1)));
    let backwards = text(&Work::new(at(1, 0), at(0, 0)));
    let past_end = spoil(&|bakery| {
        let mut step = Step::new(bakery.loaf, "draw", Minutes::new(5));
        step.needs.push(PoolNeed {
            pool: bakery.bakers,
            places: 1,
            after: Minutes::new(2),
            length: Minutes::new(4),
        });
        bakery.work.step(step);
    });
    let upside_down = spoil(&|bakery| {
        bakery.work.time_lag(window("rest", bakery.mix, LagFrom::End, bakery.bake, (60, 30)));
    });
    let to_itself = spoil(&|bakery| {
        let (after, before, most) = (bakery.mix, bakery.mix, None);
        let name = "rest".to_owned();
        bakery.work.time_lag(TimeLag {
            name,
            after,
            since: LagFrom::End,
            before,
            least: Minutes::ZERO,
            most,
        });
    });
    let machine = spoil(&|bakery| {
        let mut machine = mixer("old mixer", bakery.mixers);
        machine.least = kilograms(70);
        bakery.work.machine(machine);
    });
    let open = spoil(&|bakery| {
        bakery.work.open(bakery.oven, OpeningHours { from: at(3, 0), until: at(2, 0), places: 1 });
    });
    let crowded = spoil(&|bakery| bakery.work.always(bakery.oven, u32::MAX));
    let foreign = text(&{
        let mut work = Work::new(at(0, 0), at(1, 0));
        work.step(Step::new(Bakery::new().loaf, "mix", Minutes::ZERO));
        work
    });
    let many = text(&{
        let mut work = Work::new(at(0, 0), at(1, 0));
        let job = work.job("bun");
        for _ in 0..5001 {
            work.step(Step::new(job, "mix", Minutes::ZERO));
        }
        work
    });
    let all = [long, backwards, many, foreign, past_end, upside_down, to_itself, machine, open, crowded];
    assert_snapshot!(all.concat());
}
