//! Plans of feeding: what must hold of every one, and words for what cannot be.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

mod bakery;
mod clocks;
mod keeping;
mod least;
mod plans;
mod refusals;
mod rules;
mod tables;
