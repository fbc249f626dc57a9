//! `levamen convert`

use std::path::Path;

use levamen_sheets::{json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, ConvertArguments};
use crate::failure::Failure;
use crate::output;

pub fn run(arguments: &Arguments, asked: &ConvertArguments) -> Result<(), Failure> {
    let request = asked.request()?;
    if let Some(path) = &asked.output {
        check_free(path, asked.replace)?;
    }
    let (shelf, id) = found(arguments, &asked.dough)?;
    let balance = shelf.balance(id)?;
    let [mut book, own] = shelf.layers();
    if let Some(path) = &asked.output {
        // What the file holds now is about to go, unless it holds the dough itself.
        let source = shelf.book.entry(id).map(|entry| entry.place.text);
        book.retain(|(text, _)| {
            Some(*text) == source || !is_same_file(&arguments.book.join(shelf.texts.name(*text)), path)
        });
    }
    let conversion = levamen_convert::convert(&[&book, &own], &balance.dough, &request)
        .map_err(|problems| shelf.fail(problems))?;
    remind_elsewhere(&shelf, &asked.dough);
    if let Some(path) = &asked.output {
        output::file(path, conversion.text.as_bytes())?;
    }
    if arguments.json {
        return print_json(&json::Conversion::from(&conversion));
    }
    let account = text::conversion(&conversion);
    if asked.output.is_some() {
        return output::result(account.as_bytes());
    }
    // The dough alone goes to standard output, so that it can be kept or read on as it is.
    output::result(conversion.text.as_bytes())?;
    output::error(&format!("\n{account}"));
    Ok(())
}

/// Whether two paths lead to one file.
fn is_same_file(one: &Path, other: &Path) -> bool {
    matches!((one.canonicalize(), other.canonicalize()), (Ok(one), Ok(other)) if one == other)
}

/// A file that is there is not lost by accident.
fn check_free(path: &Path, replace: bool) -> Result<(), Failure> {
    if path.exists() && !replace {
        let message = format!("`{}` is there already", path.display());
        return Err(Failure::usage(message).help("name another file, or add --replace"));
    }
    Ok(())
}
