//! Words behind an option that are no value of it.

use levamen::typed::{TypedError, TypedErrorKind, TypedForm};

use crate::advice::name;
use crate::failure::Failure;

/// What was read of an option's words, or why they are none, with the option and the words.
pub fn typed<T>(option: &str, read: Result<T, TypedError>) -> Result<T, Failure> {
    let form = |form: TypedForm| match form {
        TypedForm::Said(form) => form,
        TypedForm::Field(before, example) => format!("{before}{option}{example}"),
    };
    read.map_err(|TypedError { words, what }| match what {
        TypedErrorKind::None { what, form: written } => {
            Failure::usage(format!("`{option} {words}` {what}")).help(form(written))
        }
        TypedErrorKind::Wrong { message, help, form: written } => {
            let help = help.iter().map(|hint| hint.spelled(name)).chain(written.map(form));
            help.fold(Failure::usage(format!("`{option} {words}`: {message}")), Failure::help)
        }
        TypedErrorKind::Meant { message, unit, words: meant } => {
            Failure::usage(format!("`{option} {words}`: {message}"))
                .help(format!("if {unit} were meant, write {option} {meant}"))
        }
    })
}

/// The value of an option, if it is given.
pub fn given<T>(
    option: &str,
    words: Option<&String>,
    read: impl FnOnce(&str) -> Result<T, TypedError>,
) -> Result<Option<T>, Failure> {
    words.map(|words| typed(option, read(words))).transpose()
}
