//! `levamen convert`

use std::path::Path;

use levamen_language::TextId;
use levamen_sheets::ConversionSheet;
use levamen_views::{json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, ConvertArguments};
use crate::failure::Failure;
use crate::output;
use crate::target::is_same_file;

/// How a text that was converted begins.
const MADE: &str = "# Converted from ";

pub fn run(arguments: &Arguments, asked: &ConvertArguments) -> Result<(), Failure> {
    let request = asked.request()?;
    let target = asked.output.target();
    if let Some(target) = target {
        target.check_free()?;
    }
    let (shelf, id) = found(arguments, &asked.dough)?;
    let balance = shelf.balance(id)?;
    let [mut book, own] = shelf.layers();
    if let Some(target) = target {
        // What the file holds now is about to go, and must not be the dough itself.
        target.check_not_read(shelf.path_of(id))?;
        let paths: Vec<&Path> = shelf.paths().collect();
        let is_going =
            |text: TextId| paths.get(text.0 as usize).is_some_and(|path| is_same_file(path, target.path()));
        // Nor may it be anything else that somebody wrote: only what this command made is made again.
        if book.iter().any(|(text, words)| is_going(*text) && !words.starts_with(MADE)) {
            let message =
                format!("`{}` is a file of the book that was not converted", target.path().display());
            return Err(Failure::usage(message).help("name another file"));
        }
        book.retain(|(text, _)| !is_going(*text));
    }
    let conversion = levamen_convert::convert(&[&book, &own], &balance.dough, &request)
        .map_err(|problems| shelf.fail(problems))?;
    remind_elsewhere(&shelf, &asked.dough);
    if let Some(target) = target {
        target.write(conversion.text.as_bytes())?;
    }
    let sheet = ConversionSheet::new(&conversion);
    if arguments.json {
        return print_json(&json::ConversionJson::from(&sheet));
    }
    let account = text::conversion(&sheet);
    if target.is_some() {
        return output::result(account.as_bytes());
    }
    // The dough alone goes to standard output, so that it can be kept or read on as it is.
    output::result(conversion.text.as_bytes())?;
    output::error(&format!("\n{account}"));
    Ok(())
}
