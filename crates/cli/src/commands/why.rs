//! `levamen why`

use levamen_balance::Balancer;
use levamen_formula::Asked;
use levamen_sheets::{json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::Arguments;
use crate::failure::Failure;
use crate::output;

pub fn run(arguments: &Arguments, name: &str, figure: &str) -> Result<(), Failure> {
    let (shelf, id) = found(arguments, name)?;
    shelf.balance(id)?;
    let formula = shelf.book.entry(id).and_then(|entry| entry.formula.as_ref());
    let formula = formula.ok_or_else(|| shelf.fail(Vec::new()))?;
    let asked = Asked::read(figure, formula, shelf.book.pantry())
        .map_err(|problem| problem.help.into_iter().fold(Failure::usage(problem.message), Failure::help))?;
    let why = Balancer::new(&shelf.book).why(id, asked).map_err(|problems| shelf.fail(problems))?;
    remind_elsewhere(&shelf, name);
    if arguments.json {
        print_json(&json::Why::new(&why, &shelf.texts))
    } else {
        output::result(text::why(&why, &shelf.texts).as_bytes())
    }
}
