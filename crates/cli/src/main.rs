//! The command `levamen`: a bakery's formula book from text file to bench sheet.
//!
//! It asks and shows: `args` reads what is asked for, `opened` and `ordered` bring in the files, the library `levamen`
//! answers, and `levamen-views` makes the answer text. Here is what only a command has: options and the words that name
//! them (`advice`), standard streams (`output`, `progress`), exit codes (`failure`).

mod advice;
mod args;
mod commands;
mod conversion;
mod dates;
mod failure;
mod measure;
mod opened;
mod ordered;
mod output;
mod progress;
mod size;

use std::process::ExitCode;

use clap::Parser;

fn main() -> ExitCode {
    let arguments = args::Arguments::try_parse_from(args::joined(std::env::args_os()))
        .unwrap_or_else(|error| args::refuse(error));
    match commands::run(&arguments) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => failure.report(arguments.json),
    }
}
