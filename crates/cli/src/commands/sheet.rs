//! `levamen sheet`

use levamen::sheet;
use levamen_views::{csv, json, text};

use super::{SheetForm, deliver, form};
use crate::advice;
use crate::args::{Arguments, SheetArguments};
use crate::failure::Failure;
use crate::opened::Opened;

pub fn run(arguments: &Arguments, asked: &SheetArguments) -> Result<(), Failure> {
    let form = form(asked.form, arguments.json)?;
    let (book, id) = Opened::with_dough(&arguments.book, &asked.dough.name)?;
    let mut sheet = sheet(&book, id, &asked.dough.wishes.read(), &asked.size.read()?)?;
    advice::spell(&mut sheet.enough_for_both);
    book.remind_beside(&asked.dough.name);
    let target = asked.output.target();
    if let Some(target) = target {
        target.check(&arguments.book, book.files.paths())?;
    }
    let bytes = match form {
        SheetForm::Text => text::sheet(&sheet).into_bytes(),
        SheetForm::Csv => csv::sheet(&sheet)?,
        SheetForm::Json => json::written(&json::SheetJson::from(&sheet))?.into_bytes(),
    };
    deliver(target, &bytes)
}
