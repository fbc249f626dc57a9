//! `levamen convert`

use levamen::{TextId, convert};
use levamen_files::is_same_file;
use levamen_views::{json, text};

use super::print;
use crate::args::{Arguments, ConvertArguments};
use crate::failure::Failure;
use crate::opened::Opened;
use crate::output;

/// How a text that was converted begins.
const MADE: &str = "# Converted from ";

pub fn run(arguments: &Arguments, asked: &ConvertArguments) -> Result<(), Failure> {
    let request = asked.request()?;
    let target = asked.output.target();
    if let Some(target) = target {
        target.check_free()?;
    }
    let (book, id) = Opened::with_dough(&arguments.book, &asked.dough)?;
    book.balance(id)?;
    let is_going = |text: TextId| {
        let path = book.files.path_of(text);
        target.is_some_and(|target| path.is_some_and(|path| is_same_file(path, target.path())))
    };
    if let Some(target) = target {
        // What the file holds now is about to go, and must not be the dough itself.
        let own = book.book().entry(id).and_then(|entry| book.files.path_of(entry.place.text));
        target.check_not_read(own)?;
        // Nor may it be anything else that somebody wrote: only what this command made is made again.
        if book.layers()[0].iter().any(|(text, words)| is_going(*text) && !words.starts_with(MADE)) {
            let message =
                format!("`{}` is a file of the book that was not converted", target.path().display());
            return Err(Failure::usage(message).help("name another file"));
        }
    }
    let conversion = convert(&book, id, &request, is_going)?;
    book.remind_beside(&asked.dough);
    if let Some(target) = target {
        output::notes(&target.write(conversion.done.text.as_bytes())?);
    }
    if arguments.json || target.is_some() {
        return print(
            arguments,
            || json::ConversionJson::from(&conversion),
            || text::conversion(&conversion),
        );
    }
    // The dough alone goes to standard output, so that it can be kept or read on as it is.
    output::result(conversion.done.text.as_bytes())?;
    output::error(&format!("\n{}", text::conversion(&conversion)));
    Ok(())
}
