//! What holds of every timetable, and what is said where there is none.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod any;
mod bakery;
mod brute;
mod chart_rows;
mod clock;
mod error;
#[path = "../../benches/kitchen/mod.rs"]
mod kitchen;
mod random;
mod sizes;
mod verify;
