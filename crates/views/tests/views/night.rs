//! The demo night with its clock and its timetable.

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_timetable::{Clock, Effort, Timetable, Work, plan};

#[path = "../../../timetable/examples/night/mod.rs"]
mod demo;

pub use demo::{Room, work};

pub fn clock() -> Clock {
    Clock::new(date(2026, 11, 26), TimeZone::get("Europe/Paris").unwrap()).unwrap()
}

pub fn timetable(work: &Work) -> Timetable {
    plan(work, Effort { rounds: 1, neighbourhoods: 400, prices: 32 }).unwrap()
}
