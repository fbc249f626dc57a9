//! Each reason why there is no timetable, in words.

use insta::assert_snapshot;
use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_timetable::{
    Clock, Effort, Minutes, Moment, Need, Open, Since, Step, Trouble, Wait, Work, plan, remedies,
};

use crate::bakery::{Bakery, at, mixer, window};
use crate::kitchen::kilograms;

fn clock() -> Clock {
    Clock::new(date(2026, 11, 26), TimeZone::UTC).unwrap()
}

/// Why there is no timetable, as it is told.
fn told(work: &Work) -> String {
    let trouble = plan(work, Effort { rounds: 64, prices: 8 }).unwrap_err();
    lines(work, &trouble)
}

/// Trouble with what would do, which is true of each.
fn lines(work: &Work, trouble: &Trouble) -> String {
    let told = trouble.told(work, &clock());
    let why = told.why.iter().map(|line| format!("  {line}\n"));
    let help = told.help.iter().map(|line| format!("help: {line}\n"));
    let remedies = remedies(work, trouble).into_iter().map(|remedy| {
        assert!(plan(&remedy.applied(work), Effort { rounds: 400, prices: 0 }).is_ok());
        format!("help: {}\n", remedy.told(work, &clock()))
    });
    format!("{}\n", told.what) + &why.chain(help).chain(remedies).collect::<String>()
}

#[test]
fn no_machine_takes_the_dough() {
    let mut bakery = Bakery::new();
    bakery.work.step(Step::new(bakery.loaf, "second mix", Minutes::new(10)).on(bakery.mixers, kilograms(80)));
    assert_snapshot!(told(&bakery.work));
}

#[test]
fn more_decks_than_there_are() {
    let mut bakery = Bakery::new();
    bakery.work.step(Step::new(bakery.loaf, "second bake", Minutes::new(10)).with(bakery.oven, 7));
    assert_snapshot!(told(&bakery.work));
}

#[test]
fn out_too_early() {
    let mut bakery = Bakery::new();
    let early = bakery.work.steps()[3].clone().out_by(at(3, 0));
    let early = bakery.work.step(early);
    bakery.work.wait(window("proof", bakery.shape, Since::End, early, (60, 90)));
    assert_snapshot!(told(&bakery.work));
}

#[test]
fn nobody_there_at_the_hour() {
    let mut bakery = Bakery::new();
    let night = Step::new(bakery.loaf, "fold", Minutes::new(5)).with(bakery.bakers, 1);
    let night = bakery.work.step(night.not_before(at(-4, 0)).out_by(at(-1, 0)));
    bakery.work.wait(window("rest", night, Since::End, bakery.shape, (0, 600)));
    assert_snapshot!(told(&bakery.work));
}

#[test]
fn waits_in_a_circle() {
    let mut bakery = Bakery::new();
    bakery.work.wait(window("levain again", bakery.shape, Since::End, bakery.build, (0, 60)));
    assert_snapshot!(told(&bakery.work));
}

/// More bakes of two decks for the same hour.
fn bakes(count: u32) -> Bakery {
    let mut bakery = Bakery::new();
    for number in 0..count {
        let job = bakery.work.job(&format!("roll {}", number + 1));
        let bake = Step::new(job, "bake", Minutes::new(60)).with(bakery.oven, 1);
        bakery.work.step(bake.not_before(at(2, 0)).out_by(at(4, 0)));
    }
    bakery
}

#[test]
fn an_oven_too_small() {
    assert!(plan(&bakes(6).work, Effort::default()).is_ok());
    assert_snapshot!(told(&bakes(7).work));
}

#[test]
fn mixers_too_few() {
    let mut bakery = Bakery::new();
    bakery.work.machine(mixer("second spiral", bakery.mixers));
    for number in 0..5 {
        // Two batches of one name are counted, not listed.
        let job = bakery.work.job(&format!("ciabatta {}", number.max(1)));
        let mix = Step::new(job, "mix", Minutes::new(30)).on(bakery.mixers, kilograms(30));
        bakery.work.step(mix.not_before(at(2, 0)).out_by(at(3, 0)));
    }
    assert_snapshot!(told(&bakery.work));
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
    work.wait(window("rest", one, Since::Start, two, (1, 3)));
    assert_snapshot!(told(&work));
}

#[test]
fn none_found() {
    let work = Bakery::new();
    assert_snapshot!(lines(&work.work, &Trouble::NotFound(vec![work.loaf])));
}

#[test]
fn mistakes() {
    let spoil = |change: &dyn Fn(&mut Bakery)| {
        let mut bakery = Bakery::new();
        change(&mut bakery);
        told(&bakery.work)
    };
    let long = told(&Work::new(at(0, 0), at(24 * 31, 1)));
    let backwards = told(&Work::new(at(1, 0), at(0, 0)));
    let past_end = spoil(&|bakery| {
        let mut step = Step::new(bakery.loaf, "draw", Minutes::new(5));
        step.needs.push(Need {
            pool: bakery.bakers,
            places: 1,
            after: Minutes::new(2),
            length: Minutes::new(4),
        });
        bakery.work.step(step);
    });
    let upside_down = spoil(&|bakery| {
        bakery.work.wait(window("rest", bakery.mix, Since::End, bakery.bake, (60, 30)));
    });
    let to_itself = spoil(&|bakery| {
        let (after, before, most) = (bakery.mix, bakery.mix, None);
        let name = "rest".to_owned();
        bakery.work.wait(Wait { name, after, since: Since::End, before, least: Minutes::ZERO, most });
    });
    let machine = spoil(&|bakery| {
        let mut machine = mixer("old mixer", bakery.mixers);
        machine.least = kilograms(70);
        bakery.work.machine(machine);
    });
    let open = spoil(&|bakery| {
        bakery.work.open(bakery.oven, Open { from: at(3, 0), until: at(2, 0), places: 1 });
    });
    let crowded = spoil(&|bakery| bakery.work.always(bakery.oven, u32::MAX));
    let foreign = told(&{
        let mut work = Work::new(at(0, 0), at(1, 0));
        work.step(Step::new(Bakery::new().loaf, "mix", Minutes::ZERO));
        work
    });
    let many = told(&{
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
