//! The command as a baker meets it: what it prints, what it says is wrong, and how it ends.

mod bad_input;
mod commands;
mod compare;
mod convert;
mod cost;
mod day;
mod feed;
mod files;
mod folders;
mod named;
mod pages;
mod plans;
mod problems;
mod progress;
mod readme;
mod ripen;
mod run;
mod screen;
mod sizes;
mod store;
mod targets;
mod water;
mod why;
