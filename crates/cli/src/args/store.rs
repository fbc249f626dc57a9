//! What may be written after `levamen store` and `levamen cost`.

use std::path::PathBuf;

use clap::{Args, ValueHint};

use super::{OrderArguments, OutputFile, SheetForm};

/// Some dates of a store room.
#[derive(Debug, Args)]
pub struct StoreArguments {
    /// The first date, such as 2026-11-26
    #[arg(long, value_name = "DATE")]
    pub from: String,
    /// For how many days
    #[arg(long, value_name = "N", default_value = "7", allow_negative_numbers = true)]
    pub days: String,
    /// Where the orders are.
    #[command(flatten)]
    pub files: OrderArguments,
    /// What is on hand on the first morning, as CSV: ingredient,on hand; `-` reads standard input. Without it, nothing
    #[arg(long, value_name = "FILE", value_hint = ValueHint::FilePath)]
    pub stock: Option<PathBuf>,
    /// The form of the list
    #[arg(long = "as", value_name = "FORM")]
    pub form: Option<SheetForm>,
    /// Where it goes.
    #[command(flatten)]
    pub output: OutputFile,
}

/// What costs are wanted.
#[derive(Debug, Args)]
pub struct CostArguments {
    /// Doughs or products, for their costs ingredient by ingredient; without any, an overview of all
    #[arg(value_name = "NAME", conflicts_with = "date")]
    pub names: Vec<String>,
    /// What the orders of this date cost, customer by customer, such as 2026-11-27
    #[arg(long, value_name = "DATE")]
    pub date: Option<String>,
    /// Where the orders are.
    #[command(flatten)]
    pub files: OrderArguments,
}
