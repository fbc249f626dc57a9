//! `levamen compare`

use levamen_balance::Comparison;
use levamen_views::{json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, CompareArguments};
use crate::failure::Failure;
use crate::output;

pub fn run(arguments: &Arguments, doughs: &CompareArguments) -> Result<(), Failure> {
    check(doughs)?;
    let (shelf, id) = found(arguments, &doughs.first)?;
    let first = shelf.balance(id)?;
    // A dough of standard input may be a changed one of the book, under the same name: each has a shelf of its own.
    let (mut shelf, id) = match &doughs.second {
        Some(name) => found(arguments, name)?,
        None => (shelf, id),
    };
    let second =
        if doughs.wishes.are_none() { shelf.balance(id)? } else { doughs.wishes.balance(&mut shelf, id)? };
    let one = first.batch();
    let other = if doughs.as_written { second.batch() } else { second.with_flour(one.flour().clone()) };
    let comparison = Comparison::new([&one, &other]);
    remind_elsewhere(&shelf, doughs.second.as_ref().unwrap_or(&doughs.first));
    if arguments.json {
        print_json(&json::ComparisonJson::from(&comparison))
    } else {
        output::result(text::compare(&comparison).as_bytes())
    }
}

/// What cannot be compared.
fn check(doughs: &CompareArguments) -> Result<(), Failure> {
    if doughs.first == "-" && doughs.second.as_deref() == Some("-") {
        return Err(Failure::usage("standard input holds one dough, and two are compared")
            .help("name one of the two doughs by its name in the book"));
    }
    if doughs.second.is_none() && doughs.wishes.are_none() {
        return Err(Failure::usage(format!("`{}` is compared with nothing", doughs.first))
            .help("name a second dough")
            .help("or say how the dough should be instead, such as --want \"hydration 78 %\""));
    }
    Ok(())
}
