//! `levamen formula` and `levamen scale`

use levamen_balance::{Balance, Size};
use levamen_sheets::FormulaSheet;
use levamen_views::{json, text};

use super::{balanced, print_json};
use crate::args::{Arguments, BatchSize, Named};
use crate::failure::Failure;
use crate::output;

/// A dough at the size that is asked for, and otherwise at that of its file.
///
/// # Errors
/// As [`run`]; nothing says how much to make, here or in the file.
pub fn run_scaled(arguments: &Arguments, dough: &Named, size: &BatchSize) -> Result<(), Failure> {
    let (balance, _) = balanced(arguments, dough, size)?;
    if balance.size == Size::Open {
        return Err(Failure::usage(format!("nothing says how much to make of `{}`", balance.dough)).help(
            "write --pieces 24 --piece 920g, --dough 22kg, --to-divide 21.5kg, --flour 10kg or --have levain=4.2kg",
        ));
    }
    show(arguments, &balance)
}

pub fn run(arguments: &Arguments, dough: &Named, size: &BatchSize) -> Result<(), Failure> {
    let (balance, _) = balanced(arguments, dough, size)?;
    show(arguments, &balance)
}

fn show(arguments: &Arguments, balance: &Balance) -> Result<(), Failure> {
    let sheet = FormulaSheet::new(balance.batch())?;
    if arguments.json {
        print_json(&json::FormulaJson::from(&sheet))
    } else {
        output::result(text::formula(&sheet).as_bytes())
    }
}
