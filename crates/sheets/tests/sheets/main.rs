//! What must hold on sheets of any dough, on any scales.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod bakery;
mod cautions;
mod costs;
mod culture;
mod days;
mod dilution;
mod doughs;
mod enough;
mod feeding;
mod formulas;
mod kitchen;
mod pieces;
mod rounding;
mod stores;
mod totals;
