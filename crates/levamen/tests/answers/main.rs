//! The library's answers: each question over a book in memory, as text and as JSON, and why a question has none.

#![expect(clippy::unwrap_used, clippy::panic, reason = "a test says where it fails")]

mod answer;
mod asked;
mod cautions;
mod compare;
mod convert;
mod cost;
mod day;
mod declared;
mod edits;
mod errors;
mod feed;
mod formula;
mod goes;
mod lacking;
mod mistakes;
mod plans;
mod question;
mod questions;
mod ripen;
mod sizes;
mod store;
mod unsound;
mod water;
mod why;
