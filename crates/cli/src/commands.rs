//! The commands: read what is asked for, call the library, print.

mod check;
mod compare;
mod convert;
mod cost;
mod day;
mod feed;
mod formula;
mod import;
mod list;
mod ripen;
mod sheet;
mod store;
mod tidy;
mod tub;
mod water;
mod why;

use clap::CommandFactory;
use levamen_balance::Balance;
use levamen_formula::FormulaId;
use levamen_language::Problem;

use crate::args::{Arguments, BatchSize, Command, Form, Named, SheetArguments};
use crate::failure::Failure;
use crate::output;
use crate::shelf::Shelf;

/// Does what is asked for.
pub fn run(arguments: &Arguments) -> Result<(), Failure> {
    match &arguments.command {
        Command::List => list::run(arguments),
        Command::Check => check::run(arguments),
        Command::Formula(dough) => formula::run(arguments, dough, &BatchSize::default()),
        Command::Scale { dough, size } => formula::run_scaled(arguments, dough, size),
        Command::Why { name, figure, wishes } => why::run(arguments, name, &figure.join(" "), wishes),
        Command::Compare(doughs) => compare::run(arguments, doughs),
        Command::Convert(asked) => convert::run(arguments, asked),
        Command::Day(day) => day::run(arguments, day),
        Command::Feed(feed) => feed::run(arguments, feed),
        Command::Sheet(sheet) => sheet::run(arguments, sheet),
        Command::Cost(cost) => cost::run(arguments, cost),
        Command::Store(store) => store::run(arguments, store),
        Command::Ripen(ripen) => ripen::run(arguments, ripen),
        Command::Tub(tub) => tub::run(arguments, tub),
        Command::Water(water) => water::run(arguments, water),
        Command::Tidy { files, check } => tidy::run(arguments, files, *check),
        Command::Import { file, unit, name } => import::run(arguments, file, *unit, name.as_deref()),
        Command::Completions { shell } => completions(*shell),
        Command::Man => man(),
    }
}

/// The balance of a dough of the book, or of standard input, at a size; and the shelf that it stands on.
fn balanced(arguments: &Arguments, dough: &Named, size: &BatchSize) -> Result<(Balance, Shelf), Failure> {
    let (mut shelf, id) = found(arguments, &dough.name)?;
    let mut balance =
        if dough.wishes.are_none() { shelf.balance(id)? } else { dough.wishes.balance(&mut shelf, id)? };
    balance = shelf.with_cards(id, balance);
    size.apply(&mut balance)?;
    remind_elsewhere(&shelf, &dough.name);
    Ok((balance, shelf))
}

/// A dough by its name, or `-` for that of standard input; and the shelf that it stands on.
fn found(arguments: &Arguments, name: &str) -> Result<(Shelf, FormulaId), Failure> {
    if name == "-" {
        return Shelf::open_with_standard_input(&arguments.book);
    }
    let shelf = Shelf::open(&arguments.book)?;
    let id = shelf.find(name)?;
    Ok((shelf, id))
}

/// A sound dough of the book may stand beside others that are not.
fn remind_elsewhere(shelf: &Shelf, name: &str) {
    if name != "-" {
        remind(shelf, " elsewhere");
    }
}

/// Says that the book has problems, where a command that does not show them is done.
fn remind(shelf: &Shelf, place: &str) {
    let count = shelf.errors();
    if count > 0 {
        let s = if count == 1 { "" } else { "s" };
        output::error(&format!("the book has {count} problem{s}{place}: `levamen check` shows them\n"));
    }
}

/// Prints a value as JSON.
fn print_json(value: &impl serde::Serialize) -> Result<(), Failure> {
    output::result(output::json(value)?.as_bytes())
}

/// What was made as CSV, or why it could not be.
fn csv_bytes(what: &str, made: Result<Vec<u8>, impl std::fmt::Display>) -> Result<Vec<u8>, Failure> {
    made.map_err(|error| {
        Failure::problem(Problem::error("not-written", format!("the {what} could not be made: {error}")))
    })
}

/// The form of what is made: as it was asked for, or text.
fn form(asked: Option<Form>, json: bool) -> Result<Form, Failure> {
    match (asked, json) {
        (None | Some(Form::Json), true) => Ok(Form::Json),
        (Some(form), false) => Ok(form),
        (None, false) => Ok(Form::Text),
        (Some(_), true) => Err(Failure::usage("`--json` and `--as` ask for two forms")),
    }
}

fn completions(shell: clap_complete::Shell) -> Result<(), Failure> {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "levamen", &mut script);
    output::result(&script)
}

/// What the manual says of exit codes, as a section in roff.
const EXIT_STATUS: &str = "\
.SH EXIT STATUS
0: done. 1: the book, a file or what was typed in has problems; standard error tells which. 2: wrongly called.
";

/// The manual: a page for the whole, and after it a part for each command.
fn man() -> Result<(), Failure> {
    let mut page = Vec::new();
    let mut command = Arguments::command();
    command.build();
    let written = clap_mangen::Man::new(command.clone()).render(&mut page);
    let parts = command.get_subcommands().filter(|part| part.get_name() != "help").try_for_each(|part| {
        let man = clap_mangen::Man::new(part.clone());
        page.extend_from_slice(format!(".SH levamen {}\n", part.get_name()).as_bytes());
        man.render_synopsis_section(&mut page)?;
        man.render_description_section(&mut page)?;
        man.render_options_section(&mut page)
    });
    page.extend_from_slice(EXIT_STATUS.as_bytes());
    match written.and(parts) {
        Ok(()) => output::result(&page),
        Err(error) => Err(Failure::usage(format!("the manual could not be made: {error}"))),
    }
}
