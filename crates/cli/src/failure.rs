//! How a command fails: with problems of the book, or because it was called wrongly.

use std::process::ExitCode;

use levamen_language::{Problem, visible};
use levamen_sheets::RoundingError;

use crate::output;
use crate::render::Texts;

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
    /// There is something to mend, and it was said already.
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

impl From<RoundingError> for Failure {
    fn from(error: RoundingError) -> Self {
        Self::problem(error.problem())
    }
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

    /// A problem without a place in any text.
    pub fn problem(problem: Problem) -> Self {
        Self::Problems { problems: vec![problem], texts: Texts::default() }
    }

    /// Reports the failure on standard error; returns the exit code.
    pub fn report(&self, json: bool) -> ExitCode {
        match self {
            Self::Problems { problems, texts } => {
                match output::json(&texts.json(problems)) {
                    Ok(text) if json => output::error(&text),
                    _ => output::error(&texts.draw(problems)),
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
