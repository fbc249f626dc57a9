//! What the sheets look like and what must hold on them.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod compare;
mod csv;
mod dilution;
mod doughs;
mod enough;
mod feed;
mod formula;
mod golden;
mod json;
mod kitchen;
mod night;
mod pieces;
mod plot;
mod poured;
mod ripe;
mod rounding;
mod sheet;
mod timetable;
mod why;
