//! A night of an invented bakery: three doughs from one levain, out by six and seven.

use levamen_quantity::{Exact, Mass, MassUnit};
use levamen_timetable::{
    ClassId, LagFrom, Machine, Minutes, Moment, OpeningHours, PoolId, Step, StepId, TimeLag, Work,
};

/// The work so far, and what there is to do it with.
pub struct Room {
    /// The work.
    pub work: Work,
    /// One in the evening, two in the night.
    pub bakers: PoolId,
    /// Three decks.
    pub oven: PoolId,
    mixers: ClassId,
}

/// One batch of dough; times in minutes, windows from the least to the most.
struct Batch {
    name: &'static str,
    kilograms: i64,
    mix: u32,
    bulk: (u32, u32),
    shape: u32,
    proof: (u32, u32),
    bake: u32,
    decks: u32,
    deadline: Moment,
}

const SIX: Moment = Moment::minute(6 * 60);
const SEVEN: Moment = Moment::minute(7 * 60);

/// The whole night.
pub fn work() -> Work {
    let mut room = Room::new();
    let levain = room.levain();
    let quayside = Batch {
        name: "Quayside loaf",
        kilograms: 38,
        mix: 18,
        bulk: (150, 210),
        shape: 30,
        proof: (75, 110),
        bake: 48,
        decks: 2,
        deadline: SIX,
    };
    let rye = Batch { name: "Fogbank rye", kilograms: 22, bulk: (45, 75), bake: 60, decks: 1, ..quayside };
    let baguette = Batch {
        name: "Harbour baguette",
        bulk: (90, 120),
        proof: (40, 60),
        bake: 25,
        deadline: SEVEN,
        ..quayside
    };
    for batch in [quayside, rye, baguette] {
        room.batch(&batch, levain);
    }
    room.work
}

impl Room {
    /// Nothing to do yet.
    pub fn new() -> Self {
        let hour = |hour: i32| Moment::minute(hour * 60);
        let mut work = Work::new(hour(-12), hour(12));
        let bakers = work.pool("bakers", "baker", "bakers");
        work.open(bakers, OpeningHours { from: hour(-10), until: hour(-4), places: 1 });
        work.open(bakers, OpeningHours { from: hour(0), until: hour(8), places: 2 });
        let oven = work.pool("deck oven", "deck", "decks");
        work.always(oven, 3);
        let mixers = work.class("mixer");
        let [least, most] = [8, 60].map(kilograms);
        work.machine(Machine { name: "spiral".to_owned(), class: mixers, least, most });
        Self { work, bakers, oven, mixers }
    }

    fn levain(&mut self) -> StepId {
        let job = self.work.job("liquid levain");
        self.work.step(Step::new(job, "build", Minutes::new(15)).with(self.bakers, 1))
    }

    /// Mix, bulk, divide and shape, proof, bake.
    fn batch(&mut self, batch: &Batch, levain: StepId) {
        let job = self.work.job(batch.name);
        let mix = Step::new(job, "mix", Minutes::new(batch.mix)).on(self.mixers, kilograms(batch.kilograms));
        let mix = self.work.step(mix.with_for(self.bakers, 1, Minutes::ZERO, Minutes::new(8)));
        let shape = Step::new(job, "divide and shape", Minutes::new(batch.shape)).with(self.bakers, 1);
        let shape = self.work.step(shape);
        let bake = Step::new(job, "bake", Minutes::new(batch.bake)).with(self.oven, batch.decks);
        let bake = bake.with_for(self.bakers, 1, Minutes::ZERO, Minutes::new(5));
        let bake = self.work.step(bake.deadline(batch.deadline));
        self.time_lag("ripens", levain, LagFrom::Start, mix, (480, 720));
        self.time_lag("bulk", mix, LagFrom::End, shape, batch.bulk);
        self.time_lag("proof", shape, LagFrom::End, bake, batch.proof);
    }

    fn time_lag(&mut self, name: &str, after: StepId, since: LagFrom, before: StepId, window: (u32, u32)) {
        let (least, most) = (Minutes::new(window.0), Some(Minutes::new(window.1)));
        self.work.time_lag(TimeLag { name: name.to_owned(), after, since, before, least, most });
    }
}

fn kilograms(figure: i64) -> Mass {
    Mass::from_unit(Exact::from(figure), MassUnit::Kilogram)
}
