//! `levamen list`

use levamen::{Texts, list, visible};
use levamen_views::{json, text};

use super::print;
use crate::args::Arguments;
use crate::failure::Failure;
use crate::opened::Opened;
use crate::output;

pub fn run(arguments: &Arguments) -> Result<(), Failure> {
    let book = Opened::book(&arguments.book)?;
    let doughs = list(&book);
    if doughs.is_empty() && !arguments.json {
        let place = arguments.book.display().to_string();
        let place = visible(&place);
        // Where files could not be read, their names are not what is wrong.
        let why = if book.unread().is_empty() { ": a dough file ends in .dough" } else { " could be read" };
        output::result(format!("no dough in `{place}`{why}\n").as_bytes())?;
    } else {
        let items = || doughs.iter().map(json::ListItemJson::from).collect::<Vec<_>>();
        print(arguments, items, || text::list(&doughs))?;
    }
    book.remind("");
    output::error(&text::problems(&Texts::default(), &book.passed_over(&arguments.book)));
    Ok(())
}
