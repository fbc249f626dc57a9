//! `levamen why`

use levamen_balance::Balancer;
use levamen_formula::Asked;
use levamen_views::{json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, Wishes};
use crate::failure::Failure;
use crate::output;

pub fn run(arguments: &Arguments, name: &str, figure: &str, wishes: &Wishes) -> Result<(), Failure> {
    let (mut shelf, id) = found(arguments, name)?;
    let wished = if wishes.are_none() { None } else { Some(wishes.held(&mut shelf, id)?) };
    if wished.is_none() {
        shelf.balance(id)?;
    }
    let written = shelf.book.entry(id).and_then(|entry| entry.formula.as_ref());
    let formula = wished.as_ref().or(written).ok_or_else(|| shelf.fail(Vec::new()))?;
    let asked = Asked::read(figure, formula, shelf.book.pantry())
        .map_err(|problem| problem.help.into_iter().fold(Failure::usage(problem.message), Failure::help))?;
    let mut balancer = Balancer::new(&shelf.book);
    let why = match &wished {
        Some(formula) => balancer.why_as(formula, asked),
        None => balancer.why(id, asked),
    };
    let why = why.map_err(|problems| shelf.fail(problems))?;
    remind_elsewhere(&shelf, name);
    if arguments.json {
        print_json(&json::WhyJson::new(&why, &shelf.texts))
    } else {
        output::result(text::why(&why, &shelf.texts).as_bytes())
    }
}
