//! One night of an invented bakery, from its work to a timetable: `cargo run -p levamen-timetable --example demo_day`.

use std::error::Error;
use std::io::Write;

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_quantity::{Exact, Mass, MassUnit};
use levamen_timetable::{
    ClassId, Clock, Effort, Machine, Minutes, Moment, Open, PoolId, Since, Step, StepId, Wait, Work, plan,
};

/// What there is to work with.
struct Room {
    bakers: PoolId,
    oven: PoolId,
    mixers: ClassId,
}

/// One batch of dough.
struct Batch {
    name: &'static str,
    kilograms: i64,
    mix: u32,
    bulk: (u32, u32),
    shape: u32,
    proof: (u32, u32),
    bake: u32,
    decks: u32,
}

const BATCHES: [Batch; 3] = [
    Batch {
        name: "Quayside loaf",
        kilograms: 38,
        mix: 18,
        bulk: (150, 210),
        shape: 30,
        proof: (75, 110),
        bake: 48,
        decks: 2,
    },
    Batch {
        name: "Fogbank rye",
        kilograms: 22,
        mix: 12,
        bulk: (45, 75),
        shape: 20,
        proof: (60, 80),
        bake: 60,
        decks: 1,
    },
    Batch {
        name: "Harbour baguette",
        kilograms: 30,
        mix: 14,
        bulk: (90, 120),
        shape: 35,
        proof: (40, 60),
        bake: 25,
        decks: 2,
    },
];

fn main() -> Result<(), Box<dyn Error>> {
    let clock = Clock::new(date(2026, 11, 26), TimeZone::get("Europe/Paris")?)?;
    let work = night(&clock)?;
    let timetable = plan(&work, Effort::default()).map_err(|trouble| trouble.told(&work, &clock).what)?;
    let mut entries = timetable.entries.clone();
    entries.sort_by_key(|entry| entry.start);
    let mut out = std::io::stdout();
    for entry in entries {
        let (start, end) = (clock.words(entry.start), clock.words(entry.end));
        let machine = entry.machine.and_then(|id| work.get_machine(id)).map_or("", |machine| &machine.name);
        writeln!(out, "{start:>10} - {end:<10} {} {machine}", work.name(entry.step))?;
    }
    let (waiting, bound) = (timetable.waiting.total(), timetable.bound);
    writeln!(out, "{waiting} of waiting; no timetable has less than {bound}")?;
    Ok(())
}

/// Everything to be done for bread that is out by six.
fn night(clock: &Clock) -> Result<Work, Box<dyn Error>> {
    let at = |day, hour| clock.moment(date(2026, 11, day).at(hour, 0, 0, 0));
    let mut work = Work::new(at(25, 12)?, at(26, 12)?);
    let bakers = work.pool("bakers", "baker", "bakers");
    work.open(bakers, Open { from: at(25, 14)?, until: at(25, 20)?, places: 1 });
    work.open(bakers, Open { from: at(26, 0)?, until: at(26, 8)?, places: 2 });
    let oven = work.pool("deck oven", "deck", "decks");
    work.always(oven, 3);
    let mixers = work.class("mixer");
    let [least, most] = [8, 60].map(|kilograms| Mass::from_unit(Exact::from(kilograms), MassUnit::Kilogram));
    work.machine(Machine { name: "the spiral".to_owned(), class: mixers, least, most });
    let room = Room { bakers, oven, mixers };
    let culture = work.job("liquid levain");
    let levain = work.step(Step::new(culture, "build", Minutes::new(15)).with(bakers, 1));
    for batch in &BATCHES {
        add(&mut work, &room, batch, levain, at(26, 6)?);
    }
    Ok(work)
}

/// A batch: mix, bulk, divide and shape, proof, bake.
fn add(work: &mut Work, room: &Room, batch: &Batch, levain: StepId, out_by: Moment) {
    let job = work.job(batch.name);
    let dough = Mass::from_unit(Exact::from(batch.kilograms), MassUnit::Kilogram);
    let mix = Step::new(job, "mix", Minutes::new(batch.mix)).on(room.mixers, dough);
    let mix = work.step(mix.with_for(room.bakers, 1, Minutes::ZERO, Minutes::new(8)));
    let shape = Step::new(job, "divide and shape", Minutes::new(batch.shape)).with(room.bakers, 1);
    let shape = work.step(shape);
    let bake = Step::new(job, "bake", Minutes::new(batch.bake)).with(room.oven, batch.decks);
    let bake = bake.with_for(room.bakers, 1, Minutes::ZERO, Minutes::new(5)).out_by(out_by);
    let bake = work.step(bake);
    let mut wait = |name: &str, after, since, before, window: (u32, u32)| {
        let (least, most) = (Minutes::new(window.0), Some(Minutes::new(window.1)));
        work.wait(Wait { name: name.to_owned(), after, since, before, least, most });
    };
    wait("ripens", levain, Since::Start, mix, (8 * 60, 12 * 60));
    wait("bulk", mix, Since::End, shape, batch.bulk);
    wait("proof", shape, Since::End, bake, batch.proof);
}
