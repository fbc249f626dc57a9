//! A bakery with one dough, to be spoiled in one way at a time.

use levamen_quantity::Mass;
use levamen_timetable::{
    ClassId, JobId, LagFrom, Machine, MachineId, Minutes, Moment, OpeningHours, PoolId, Step, StepId,
    TimeLag, TimeLagId, Work,
};

use crate::kitchen::kilograms;

/// Two jobs, five steps, one mixer, two bakers, three decks.
pub struct Bakery {
    pub work: Work,
    pub bakers: PoolId,
    pub oven: PoolId,
    pub mixers: ClassId,
    pub mixer: MachineId,
    pub loaf: JobId,
    pub build: StepId,
    pub mix: StepId,
    pub shape: StepId,
    pub bake: StepId,
    pub bulk: TimeLagId,
}

pub fn at(hours: i32, minutes: i32) -> Moment {
    Moment::minute(hours * 60 + minutes)
}

pub fn window(name: &str, after: StepId, since: LagFrom, before: StepId, window: (u32, u32)) -> TimeLag {
    let (least, most) = (Minutes::new(window.0), Some(Minutes::new(window.1)));
    TimeLag { name: name.to_owned(), after, since, before, least, most }
}

/// A mixer for 10 to 60 kg.
pub fn mixer(name: &str, class: ClassId) -> Machine {
    let (least, most): (Mass, Mass) = (kilograms(10), kilograms(60));
    Machine { name: name.to_owned(), class, least, most }
}

impl Bakery {
    pub fn new() -> Self {
        let mut work = Work::new(at(-12, 0), at(12, 0));
        let bakers = work.pool("bakers", "baker", "bakers");
        work.open(bakers, OpeningHours { from: at(-8, 0), until: at(-4, 0), places: 1 });
        work.open(bakers, OpeningHours { from: at(0, 0), until: at(8, 0), places: 2 });
        let oven = work.pool("deck oven", "deck", "decks");
        work.always(oven, 3);
        let mixers = work.class("mixer");
        let mixer = work.machine(mixer("spiral", mixers));
        let levain = work.job("levain");
        let loaf = work.job("Quayside loaf");
        let build = work.step(Step::new(levain, "build", Minutes::new(15)).with(bakers, 1));
        let mix = Step::new(loaf, "mix", Minutes::new(20)).on(mixers, kilograms(24)).with(bakers, 1);
        let mix = work.step(mix);
        let shape = work.step(Step::new(loaf, "divide and shape", Minutes::new(25)).with(bakers, 2));
        let bake = Step::new(loaf, "bake", Minutes::new(45)).with(oven, 2).deadline(at(7, 0));
        let bake = work.step(bake);
        work.time_lag(window("ripens", build, LagFrom::Start, mix, (480, 720)));
        let bulk = work.time_lag(window("bulk", mix, LagFrom::End, shape, (120, 180)));
        work.time_lag(window("proof", shape, LagFrom::End, bake, (60, 90)));
        Self { work, bakers, oven, mixers, mixer, loaf, build, mix, shape, bake, bulk }
    }
}
