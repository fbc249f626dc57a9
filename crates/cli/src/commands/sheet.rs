//! `levamen sheet`

use levamen_sheets::{Sheet, csv, json, text};

use super::{Form, SheetArguments, balanced, csv_bytes, deliver, form, json_bytes};
use crate::args::Arguments;
use crate::failure::Failure;

pub fn run(arguments: &Arguments, sheet: &SheetArguments) -> Result<(), Failure> {
    let form = form(sheet.form, arguments.json)?;
    let (balance, shelf) = balanced(arguments, &sheet.dough, &sheet.size)?;
    let made = Sheet::new(&balance.batch(), &shelf.book.scales());
    let bytes = match form {
        Form::Text => text::sheet(&made).into_bytes(),
        Form::Csv => csv_bytes("sheet", csv::sheet(&made))?,
        Form::Json => json_bytes(&json::Sheet::from(&made)),
    };
    deliver(sheet.output.as_deref(), &bytes)
}
