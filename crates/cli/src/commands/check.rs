//! `levamen check`

use levamen::{Severity, check};
use levamen_views::{json, text};

use crate::args::Arguments;
use crate::failure::Failure;
use crate::opened::Opened;
use crate::progress::{CountUnit, ProgressLine};
use crate::{advice, output};

pub fn run(arguments: &Arguments) -> Result<(), Failure> {
    let book = Opened::book(&arguments.book)?;
    let mut problems = check(&book, &ProgressLine::new("balancing", CountUnit::Of("doughs")));
    problems.extend(book.passed_over(&arguments.book));
    advice::spell_problems(&mut problems);
    let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
    if arguments.json {
        output::result(json::written(&json::problems(book.texts(), &problems))?.as_bytes())?;
    } else {
        output::error(&text::problems(book.texts(), &problems));
        let place = arguments.book.display().to_string();
        let summary = text::checked(book.book().entries().count(), &problems, &place);
        if errors == 0 {
            output::result(summary.as_bytes())?;
        } else {
            output::error(&summary);
        }
    }
    if errors == 0 { Ok(()) } else { Err(Failure::Reported) }
}
