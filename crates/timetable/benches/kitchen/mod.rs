//! A bakery of any size, the same every time: doughs with levains, poolishes, mixers, bakers and an oven.

use levamen_quantity::{Exact, Mass, MassUnit};
use levamen_timetable::{
    ClassId, JobId, LagFrom, Machine, Minutes, Moment, OpeningHours, PoolId, Step, StepId, TimeLag, Work,
};

/// How large the bakery is.
#[derive(Debug, Clone, Copy)]
pub struct Size {
    pub doughs: u32,
    pub mixers: u32,
    pub decks: u32,
    pub bakers: u32,
}

impl Size {
    /// Everything in proportion: forty doughs on four mixers and six decks.
    pub fn of(doughs: u32) -> Self {
        let share = |of_forty: u32| (doughs * of_forty).div_ceil(40);
        Self { doughs, mixers: share(4).max(2), decks: share(6).max(2), bakers: share(5).max(2) }
    }
}

struct Kitchen {
    work: Work,
    bakers: PoolId,
    oven: PoolId,
    mixers: ClassId,
}

pub fn kilograms(figure: u32) -> Mass {
    Mass::from_unit(Exact::from(i64::from(figure)), MassUnit::Kilogram)
}

/// A whole day of that size: levains fed at noon and built in the evening before, bread out between four and nine.
pub fn day(size: Size) -> Work {
    let mut work = Work::new(Moment::minute(-20 * 60), Moment::minute(10 * 60));
    let bakers = work.pool("bakers", "baker", "bakers");
    work.open(
        bakers,
        OpeningHours { from: Moment::minute(-18 * 60), until: Moment::minute(-5 * 60), places: 2 },
    );
    work.open(
        bakers,
        OpeningHours { from: Moment::minute(-4 * 60), until: Moment::minute(10 * 60), places: size.bakers },
    );
    let oven = work.pool("deck oven", "deck", "decks");
    work.always(oven, size.decks);
    let mixers = work.class("mixer");
    for number in 1..=size.mixers {
        let (least, most) = if number % 2 == 0 { (2, 25) } else { (8, 60) };
        let name = format!("mixer {number}");
        work.machine(Machine { name, class: mixers, least: kilograms(least), most: kilograms(most) });
    }
    let mut kitchen = Kitchen { work, bakers, oven, mixers };
    let levains: Vec<StepId> = (0..size.doughs.div_ceil(8)).map(|number| kitchen.levain(number)).collect();
    for number in 0..size.doughs {
        let levain = levains[usize::try_from(number / 8).unwrap()];
        kitchen.dough(number, levain, size.doughs);
    }
    kitchen.work
}

impl Kitchen {
    fn time_lag(&mut self, name: &str, after: StepId, since: LagFrom, before: StepId, window: (u32, u32)) {
        let (least, most) = (Minutes::new(window.0), Some(Minutes::new(window.1)));
        let name = name.to_owned();
        self.work.time_lag(TimeLag { name, after, since, before, least, most });
    }

    fn hands(&mut self, job: JobId, name: &str, minutes: u32) -> Step {
        Step::new(job, name, Minutes::new(minutes)).with(self.bakers, 1)
    }

    /// A levain in two builds; its second.
    fn levain(&mut self, number: u32) -> StepId {
        let job = self.work.job(&format!("levain {}", number + 1));
        let feed = self.hands(job, "feed", 10);
        let feed = self.work.step(feed);
        let build = self.hands(job, "build", 15);
        let build = self.work.step(build);
        self.time_lag("ripens", feed, LagFrom::Start, build, (240, 480));
        build
    }

    fn dough(&mut self, number: u32, levain: StepId, doughs: u32) {
        // A step of a permutation: neighbours differ.
        let of = |range: u32, salt: u32| (number * 7919 + salt * 104_729) % range;
        let job = self.work.job(&format!("dough {}", number + 1));
        let kilograms = kilograms(4 + of(50, 1));
        let mix = Step::new(job, "mix", Minutes::new(12 + of(9, 2))).on(self.mixers, kilograms);
        let mix = mix.with_for(self.bakers, 1, Minutes::ZERO, Minutes::new(6));
        let mix = self.work.step(mix);
        let shape = self.hands(job, "divide and shape", 10 + of(16, 3));
        let shape = self.work.step(shape);
        let long = 30 + of(21, 4);
        let due = 4 * 60 + 15 * (number * 20 / doughs.max(1));
        let bake = Step::new(job, "bake", Minutes::new(long)).with(self.oven, 1 + of(2, 5));
        let bake = bake.with_for(self.bakers, 1, Minutes::ZERO, Minutes::new(4));
        let bake = bake.with_for(self.bakers, 1, Minutes::new(long - 5), Minutes::new(5));
        let bake = self.work.step(bake.deadline(Moment::minute(i32::try_from(due).unwrap())));
        let (bulk, proof) = (60 + 15 * of(9, 6), 45 + 5 * of(10, 7));
        self.time_lag("bulk", mix, LagFrom::End, shape, (bulk, bulk + 45));
        self.time_lag("proof", shape, LagFrom::End, bake, (proof, proof + 30));
        self.time_lag("ripens", levain, LagFrom::Start, mix, (480, 900));
        if number.is_multiple_of(3) {
            let poolish = self.work.job(&format!("poolish for dough {}", number + 1));
            let set = self.hands(poolish, "set", 8);
            let set = self.work.step(set);
            self.time_lag("ripens", set, LagFrom::Start, mix, (600, 840));
        }
    }
}
