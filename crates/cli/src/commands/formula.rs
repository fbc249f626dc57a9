//! `levamen formula` and `levamen scale`

use levamen::{FormulaReport, formula, scaled};
use levamen_views::{json, text};

use super::print;
use crate::advice;
use crate::args::{Arguments, Named, SizeArguments};
use crate::failure::Failure;
use crate::opened::Opened;

pub fn run(arguments: &Arguments, dough: &Named, size: &SizeArguments) -> Result<(), Failure> {
    let (book, id) = Opened::with_dough(&arguments.book, &dough.name)?;
    let report = formula(&book, id, &dough.wishes.read(), &size.read()?)?;
    book.remind_beside(&dough.name);
    show(arguments, &report)
}

/// A dough at the size that is asked for, and otherwise at that of its file.
pub fn run_scaled(arguments: &Arguments, dough: &Named, size: &SizeArguments) -> Result<(), Failure> {
    let (book, id) = Opened::with_dough(&arguments.book, &dough.name)?;
    let report = scaled(&book, id, &dough.wishes.read(), &size.read()?)?;
    book.remind_beside(&dough.name);
    show(arguments, &report)
}

fn show(arguments: &Arguments, report: &FormulaReport) -> Result<(), Failure> {
    let mut sheet = report.sheet()?;
    advice::spell(&mut sheet.enough_for_both);
    print(arguments, || json::FormulaJson::from(&sheet), || text::formula(&sheet))
}
