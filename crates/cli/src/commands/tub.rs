//! `levamen tub`

use levamen::{tubs, typed};
use levamen_views::{json, text};

use super::print;
use crate::args::{Arguments, TubArguments};
use crate::failure::Failure;
use crate::measure::given;
use crate::opened::Opened;

pub fn run(arguments: &Arguments, asked: &TubArguments) -> Result<(), Failure> {
    let (book, id) = Opened::with_dough(&arguments.book, &asked.name)?;
    let dough = given("--dough", asked.dough.as_ref(), typed::mass)?;
    let given = given("--tubs", asked.tubs.as_ref(), typed::volumes)?;
    let plan = tubs(&book, id, given, dough)?;
    book.remind_beside(&asked.name);
    print(arguments, || json::TubPlanJson::from(&plan), || text::tubs(&plan))
}
