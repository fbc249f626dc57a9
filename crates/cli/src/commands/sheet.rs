//! `levamen sheet`

use levamen_sheets::Sheet;
use levamen_views::{csv, json, text};

use super::{Form, SheetArguments, balanced, csv_bytes, form};
use crate::args::Arguments;
use crate::failure::Failure;
use crate::output;
use crate::target::deliver;

pub fn run(arguments: &Arguments, sheet: &SheetArguments) -> Result<(), Failure> {
    let form = form(sheet.form, arguments.json)?;
    let (balance, shelf) = balanced(arguments, &sheet.dough, &sheet.size)?;
    let target = sheet.output.target();
    if let Some(target) = target {
        target.check(&arguments.book, shelf.paths())?;
    }
    let made = Sheet::new(&balance.batch(), &shelf.book.scales())?;
    let bytes = match form {
        Form::Text => text::sheet(&made).into_bytes(),
        Form::Csv => csv_bytes("sheet", csv::sheet(&made))?,
        Form::Json => output::json(&json::SheetJson::from(&made))?.into_bytes(),
    };
    deliver(target, &bytes)
}
