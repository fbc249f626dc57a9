//! `levamen tub`

use levamen::tubs;
use levamen_views::{json, text};

use super::print;
use crate::args::{Arguments, TubArguments};
use crate::failure::Failure;
use crate::measure;
use crate::opened::Opened;

pub fn run(arguments: &Arguments, asked: &TubArguments) -> Result<(), Failure> {
    let (book, id) = Opened::with_dough(&arguments.book, &asked.name)?;
    let dough = asked.dough.as_deref().map(|words| measure::mass("--dough", words)).transpose()?;
    let given = asked.tubs.as_deref().map(|words| measure::volumes("--tubs", words)).transpose()?;
    let plan = tubs(&book, id, given, dough)?;
    book.remind_beside(&asked.name);
    print(arguments, || json::TubPlanJson::from(&plan), || text::tubs(&plan))
}
