//! A picture of an invented day: `cargo run -p levamen-views --example picture -- 40 > day.svg`.

#![expect(clippy::unwrap_used, reason = "the invented day is small enough for every number in it")]

use std::error::Error;
use std::io::Write;

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_sheets::TimetableSheet;
use levamen_timetable::{Clock, Effort, plan};
use levamen_views::svg;

#[path = "../../timetable/benches/kitchen/mod.rs"]
mod kitchen;

fn main() -> Result<(), Box<dyn Error>> {
    let doughs = std::env::args().nth(1).map_or(Ok(10), |doughs| doughs.parse())?;
    let clock = Clock::new(date(2026, 11, 26), TimeZone::get("Europe/Paris")?)?;
    let work = kitchen::day(kitchen::Size::of(doughs));
    let timetable = plan(&work, Effort::default()).map_err(|trouble| trouble.text(&work, &clock).what)?;
    std::io::stdout()
        .write_all(svg::timetable(&TimetableSheet::new(&work, &timetable, &clock)).as_bytes())?;
    Ok(())
}
