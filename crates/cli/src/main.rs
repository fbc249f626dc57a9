//! The command `levamen`: a bakery's formula book from text file to bench sheet.

mod args;
mod book_files;
mod cards;
mod commands;
mod conversion;
mod failure;
mod input;
mod leaven;
mod measure;
mod noted;
mod ordered;
mod output;
mod planned;
mod progress;
mod relied;
mod render;
mod shelf;
mod size;
mod target;
mod wishes;

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
