//! A night of an invented bakery, as work for a timetable.

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_quantity::{Exact, Mass, MassUnit};
use levamen_timetable::{
    ClassId, Clock, Effort, Machine, Minutes, Moment, Open, PoolId, Since, Step, StepId, Timetable, Wait,
    Work, plan,
};

pub fn clock() -> Clock {
    Clock::new(date(2026, 11, 26), TimeZone::get("Europe/Paris").unwrap()).unwrap()
}

/// What there is to work with.
pub struct Room {
    pub work: Work,
    pub bakers: PoolId,
    pub oven: PoolId,
    pub mixers: ClassId,
}

/// One batch of dough, in minutes.
pub struct Batch {
    pub name: &'static str,
    pub kilograms: i64,
    pub mix: u32,
    pub bulk: (u32, u32),
    pub shape: u32,
    pub proof: (u32, u32),
    pub bake: u32,
    pub decks: u32,
    pub out_by: i32,
}

impl Room {
    pub fn new() -> Self {
        let mut work = Work::new(Moment::minute(-12 * 60), Moment::minute(12 * 60));
        let bakers = work.pool("bakers", "baker", "bakers");
        work.open(bakers, Open { from: Moment::minute(-600), until: Moment::minute(-240), places: 1 });
        work.open(bakers, Open { from: Moment::minute(0), until: Moment::minute(480), places: 2 });
        let oven = work.pool("deck oven", "deck", "decks");
        work.always(oven, 3);
        let mixers = work.class("mixer");
        let [least, most] = [8, 60].map(|figure| Mass::from_unit(Exact::from(figure), MassUnit::Kilogram));
        work.machine(Machine { name: "spiral".to_owned(), class: mixers, least, most });
        Self { work, bakers, oven, mixers }
    }

    fn wait(&mut self, name: &str, after: StepId, since: Since, before: StepId, window: (u32, u32)) {
        let (least, most) = (Minutes::new(window.0), Some(Minutes::new(window.1)));
        self.work.wait(Wait { name: name.to_owned(), after, since, before, least, most });
    }

    pub fn levain(&mut self) -> StepId {
        let job = self.work.job("liquid levain");
        self.work.step(Step::new(job, "build", Minutes::new(15)).with(self.bakers, 1))
    }

    pub fn batch(&mut self, batch: &Batch, levain: StepId) {
        let job = self.work.job(batch.name);
        let dough = Mass::from_unit(Exact::from(batch.kilograms), MassUnit::Kilogram);
        let mix = Step::new(job, "mix", Minutes::new(batch.mix)).on(self.mixers, dough);
        let mix = self.work.step(mix.with_for(self.bakers, 1, Minutes::ZERO, Minutes::new(8)));
        let shape = Step::new(job, "divide and shape", Minutes::new(batch.shape)).with(self.bakers, 1);
        let shape = self.work.step(shape);
        let bake = Step::new(job, "bake", Minutes::new(batch.bake)).with(self.oven, batch.decks);
        let bake = bake.with_for(self.bakers, 1, Minutes::ZERO, Minutes::new(5));
        let bake = self.work.step(bake.out_by(Moment::minute(batch.out_by)));
        self.wait("ripens", levain, Since::Start, mix, (480, 720));
        self.wait("bulk", mix, Since::End, shape, batch.bulk);
        self.wait("proof", shape, Since::End, bake, batch.proof);
    }
}

/// Three doughs from one levain, out by six and seven.
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
        out_by: 360,
    };
    let rye = Batch { name: "Fogbank rye", kilograms: 22, bulk: (45, 75), bake: 60, decks: 1, ..quayside };
    let baguette = Batch { name: "Harbour baguette", bulk: (90, 120), bake: 25, out_by: 420, ..quayside };
    for batch in [quayside, rye, baguette] {
        room.batch(&batch, levain);
    }
    room.work
}

pub fn timetable(work: &Work) -> Timetable {
    plan(work, Effort { rounds: 400, prices: 32 }).unwrap()
}
