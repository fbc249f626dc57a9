//! How a command fails: with problems of the book, or because it was called wrongly.

use std::process::ExitCode;

use levamen::{Error, Problem, Texts, visible};
use levamen_files::FileError;
use levamen_views::{json, text};

use crate::{advice, output};

/// Why a command did not do what it was asked for.
#[derive(Debug)]
pub enum Failure {
    /// The book or another input has problems.
    Problems {
        /// The problems.
        problems: Vec<Problem>,
        /// The texts that their places are in.
        texts: Texts,
    },
    /// There is something to mend, and it was reported already.
    Reported,
    /// The command was called wrongly: what is wrong, and how to mend it.
    Usage {
        /// What is wrong.
        message: String,
        /// How to mend it.
        help: Vec<String>,
    },
    /// Who reads the output has gone.
    Gone,
}

impl Failure {
    /// A wrong call.
    pub fn usage(message: impl Into<String>) -> Self {
        Self::Usage { message: message.into(), help: Vec::new() }
    }

    /// Says how to mend a wrong call.
    #[must_use]
    pub fn help(mut self, text: impl Into<String>) -> Self {
        if let Self::Usage { help, .. } = &mut self {
            help.push(text.into());
        }
        self
    }

    /// Problems, and the texts that their places are in.
    pub fn problems(mut problems: Vec<Problem>, texts: Texts) -> Self {
        advice::spell_problems(&mut problems);
        Self::Problems { problems, texts }
    }

    /// A problem without a place in any text.
    pub fn problem(problem: Problem) -> Self {
        Error::problem(problem).into()
    }

    /// Reports the failure on standard error; returns the exit code.
    pub fn report(&self, as_json: bool) -> ExitCode {
        match self {
            Self::Problems { problems, texts } => {
                match json::written(&json::problems(texts, problems)) {
                    Ok(text) if as_json => output::error(&text),
                    _ => output::error(&text::problems(texts, problems)),
                }
                ExitCode::from(1)
            }
            Self::Reported => ExitCode::from(1),
            Self::Usage { message, help } => {
                let lines = help.iter().map(|line| format!("  help: {}\n", visible(line)));
                output::error(&format!("error: {}\n{}", visible(message), lines.collect::<String>()));
                ExitCode::from(2)
            }
            Self::Gone => ExitCode::SUCCESS,
        }
    }
}

impl From<Error> for Failure {
    fn from(error: Error) -> Self {
        match error {
            Error::Problems { problems, texts } => Self::problems(problems, texts),
            Error::Question(error) => {
                Self::Usage { message: advice::message(&error), help: advice::help(&error) }
            }
        }
    }
}

impl From<Problem> for Failure {
    fn from(problem: Problem) -> Self {
        Self::problem(problem)
    }
}

impl From<FileError> for Failure {
    fn from(error: FileError) -> Self {
        match error {
            FileError::NotWritten(problem) => Self::problem(*problem),
            error => Self::Usage { message: error.to_string(), help: advice::help_with_file(&error) },
        }
    }
}
