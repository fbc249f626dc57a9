//! What may be written after `levamen day`, and where orders come from.

use std::path::PathBuf;

use clap::{Args, ValueEnum, ValueHint};

use crate::args::OutputFile;

/// The files of orders, and how they are read.
#[derive(Debug, Args)]
pub struct OrderArguments {
    /// Orders as CSV: date,customer,product,quantity; may be given again. Without it, orders.csv of the book
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub orders: Vec<PathBuf>,
    /// Orders of every week as CSV: weekday,customer,product,quantity, and from,until. Without it, weekly.csv of the book
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub weekly: Vec<PathBuf>,
    /// What takes the place of a weekly order on a date, as CSV like orders; 0 calls it off. Without it, exceptions.csv of
    /// the book
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub exceptions: Vec<PathBuf>,
    /// Orders for a day before this one are mistakes, such as 2026-11-25
    #[arg(long, value_name = "DATE")]
    pub today: Option<String>,
    /// Go on without the lines that are wrong
    #[arg(long)]
    pub skip_wrong: bool,
}

/// A day.
#[derive(Debug, Args)]
pub struct DayArguments {
    /// The day of the bread, such as 2026-11-27
    #[arg(value_name = "DATE")]
    pub date: String,
    /// Where the orders are.
    #[command(flatten)]
    pub files: OrderArguments,
    /// The form of the day
    #[arg(long = "as", value_name = "FORM")]
    pub form: Option<DayForm>,
    /// Look four times as long for a better timetable
    #[arg(long)]
    pub longer: bool,
    /// Only this part of the text; may be given again
    #[arg(long, value_name = "PART", conflicts_with = "form")]
    pub only: Vec<DayPartOption>,
    /// Where it goes.
    #[command(flatten)]
    pub output: OutputFile,
}

/// The forms of a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum DayForm {
    /// To read and to print
    Text,
    /// JSON
    Json,
    /// The timetable for a calendar (RFC 5545)
    Ics,
    /// The timetable as a picture
    Svg,
    /// The work of the timetable as JSON, for another scheduler
    Work,
}

/// The parts of a day's text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum DayPartOption {
    /// What is made, and what to know of it
    Made,
    /// The timetable
    Times,
    /// What is set and mixed, with tubs and water
    Set,
    /// What each culture gives
    Cultures,
    /// What each scale weighs
    Scales,
    /// What the store room issues
    Store,
    /// A sheet for every dough
    Sheets,
}
