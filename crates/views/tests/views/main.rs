//! What the sheets look like and what must hold on them.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod compare;
mod csv;
mod feed;
mod formula;
mod golden;
mod json;
mod night;
mod plot;
mod ripe;
mod sheet;
mod timetable;
mod water_and_tubs;
mod why;

#[path = "../../../sheets/tests/sheets/culture.rs"]
mod culture;
#[path = "../../../sheets/tests/sheets/doughs.rs"]
mod doughs;
#[path = "../../../sheets/tests/sheets/kitchen.rs"]
mod kitchen;
