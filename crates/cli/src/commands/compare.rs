//! `levamen compare`

use levamen::compare;
use levamen_views::{json, text};

use super::print;
use crate::args::{Arguments, CompareArguments};
use crate::failure::Failure;
use crate::opened::Opened;

pub fn run(arguments: &Arguments, doughs: &CompareArguments) -> Result<(), Failure> {
    check(doughs)?;
    let (first, id) = Opened::with_dough(&arguments.book, &doughs.first)?;
    first.balance(id)?;
    // A dough of standard input may be a changed one of the book, under the same name: each has a book of its own.
    let other = doughs.second.as_ref().map(|name| Opened::with_dough(&arguments.book, name)).transpose()?;
    let (second, second_id) = other.as_ref().map_or((&first, id), |(book, id)| (book, *id));
    let comparison = compare((&first, id), (second, second_id), &doughs.wishes.read(), doughs.as_written)?;
    second.remind_beside(doughs.second.as_ref().unwrap_or(&doughs.first));
    print(arguments, || json::ComparisonJson::from(&comparison), || text::compare(&comparison))
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
