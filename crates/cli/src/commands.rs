//! The commands: arguments to a question, the question to a report, the report to a view.

mod check;
mod compare;
mod convert;
mod cost;
mod day;
mod feed;
mod formula;
mod import;
mod list;
mod manual;
mod ripen;
mod sheet;
mod store;
mod tidy;
mod tub;
mod water;
mod why;

use levamen_files::Target;

use crate::args::{Arguments, Command, SheetForm, SizeArguments};
use crate::failure::Failure;
use crate::output;

/// Does what is asked for.
pub fn run(arguments: &Arguments) -> Result<(), Failure> {
    match &arguments.command {
        Command::List => list::run(arguments),
        Command::Check => check::run(arguments),
        Command::Formula(dough) => formula::run(arguments, dough, &SizeArguments::default()),
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
        Command::Completions { shell } => manual::completions(*shell),
        Command::Man => manual::man(),
    }
}

/// Prints a report: as JSON where that is asked for, and otherwise as text.
fn print<V: serde::Serialize>(
    arguments: &Arguments,
    json: impl FnOnce() -> V,
    text: impl FnOnce() -> String,
) -> Result<(), Failure> {
    if arguments.json {
        output::result(levamen_views::json::written(&json())?.as_bytes())
    } else {
        output::result(text().as_bytes())
    }
}

/// Writes a result to the file that was asked for, or prints it.
fn deliver(target: Option<Target<'_>>, bytes: &[u8]) -> Result<(), Failure> {
    let Some(target) = target else { return output::result(bytes) };
    output::notes(&target.write(bytes)?);
    Ok(())
}

/// The form of what is made: as it was asked for, or text.
fn form(asked: Option<SheetForm>, json: bool) -> Result<SheetForm, Failure> {
    match (asked, json) {
        (None | Some(SheetForm::Json), true) => Ok(SheetForm::Json),
        (Some(form), false) => Ok(form),
        (None, false) => Ok(SheetForm::Text),
        (Some(_), true) => Err(Failure::usage("`--json` and `--as` ask for two forms")),
    }
}
