//! `levamen sheet`

use levamen_language::Problem;
use levamen_sheets::{Sheet, csv, json, text};

use super::{Form, SheetArguments, balanced};
use crate::args::Arguments;
use crate::failure::Failure;
use crate::output;

pub fn run(arguments: &Arguments, sheet: &SheetArguments) -> Result<(), Failure> {
    let form = match (sheet.form, arguments.json) {
        (None | Some(Form::Json), true) => Form::Json,
        (Some(form), false) => form,
        (None, false) => Form::Text,
        (Some(_), true) => return Err(Failure::usage("`--json` and `--as` ask for two forms")),
    };
    let (balance, shelf) = balanced(arguments, &sheet.dough, &sheet.size)?;
    let made = Sheet::new(&balance.batch(), &shelf.book.scales());
    let bytes = match form {
        Form::Text => text::sheet(&made).into_bytes(),
        Form::Csv => csv::sheet(&made).map_err(|error| {
            Failure::problem(Problem::error("not-written", format!("the sheet could not be made: {error}")))
        })?,
        Form::Json => {
            let json = serde_json::to_string_pretty(&json::Sheet::from(&made)).unwrap_or_default();
            (json + "\n").into_bytes()
        }
    };
    match &sheet.output {
        Some(path) => output::file(path, &bytes),
        None => output::result(&bytes),
    }
}
