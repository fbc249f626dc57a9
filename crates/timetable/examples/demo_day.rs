//! One night of an invented bakery, from its work to a timetable: `cargo run -p levamen-timetable --example demo_day`.

use std::error::Error;
use std::io::Write;

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_timetable::{Clock, Effort, plan};

mod night;

fn main() -> Result<(), Box<dyn Error>> {
    let clock = Clock::new(date(2026, 11, 26), TimeZone::get("Europe/Paris")?)?;
    let work = night::work();
    let timetable = plan(&work, Effort::default()).map_err(|error| error.text(&work, &clock).what)?;
    let mut placements = timetable.placements.clone();
    placements.sort_by_key(|placement| placement.start);
    let mut out = std::io::stdout();
    for placement in placements {
        let (start, end) = (clock.words(placement.start), clock.words(placement.end));
        let machine =
            placement.machine.and_then(|id| work.get_machine(id)).map_or("", |machine| &machine.name);
        writeln!(out, "{start:>10} - {end:<10} {} {machine}", work.name(placement.step))?;
    }
    let (waiting, bound) = (timetable.waiting.total(), timetable.bound);
    writeln!(out, "{waiting} of waiting; no timetable has less than {bound}")?;
    Ok(())
}
