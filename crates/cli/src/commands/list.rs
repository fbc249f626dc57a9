//! `levamen list`

use levamen_balance::Balancer;
use levamen_formula::Role;
use levamen_language::visible;
use levamen_sheets::Entry;
use levamen_views::{json, text};

use super::{print_json, remind};
use crate::args::Arguments;
use crate::failure::Failure;
use crate::output;
use crate::render::Texts;
use crate::shelf::Shelf;

pub fn run(arguments: &Arguments) -> Result<(), Failure> {
    let shelf = Shelf::open(&arguments.book)?;
    let doughs = shelf.book.entries().filter(|(_, entry)| entry.role == Role::Dough);
    let mut balancer = Balancer::new(&shelf.book);
    let rows: Vec<_> = doughs.map(|(id, entry)| (entry, balancer.balance(id).ok().cloned())).collect();
    let entries: Vec<Entry<'_>> = rows
        .iter()
        .map(|(entry, balance)| Entry {
            dough: &entry.name,
            file: shelf.texts.name(entry.place.text),
            balance: balance.as_ref(),
        })
        .collect();
    if arguments.json {
        print_json(&entries.iter().map(json::ListItemJson::from).collect::<Vec<_>>())?;
    } else if entries.is_empty() {
        let place = arguments.book.display().to_string();
        let place = visible(&place);
        // Where files could not be read, their names are not what is wrong.
        let why = if shelf.unread.is_empty() { ": a dough file ends in .dough" } else { " could be read" };
        output::result(format!("no dough in `{place}`{why}\n").as_bytes())?;
    } else {
        output::result(text::list(&entries).as_bytes())?;
    }
    remind(&shelf, "");
    output::error(&Texts::default().draw(&shelf.passed_over(&arguments.book)));
    Ok(())
}
