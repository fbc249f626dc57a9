//! The command as a baker meets it: what it prints, what it says is wrong, and how it ends.

mod bad_input;
mod cautions;
mod commands;
mod compare;
mod convert;
mod cost;
mod day;
mod feed;
mod files;
mod goes;
mod named;
mod pages;
mod problems;
mod progress;
mod readme;
mod ripen;
mod run;
mod sizes;
mod store;
mod water;
mod why;
