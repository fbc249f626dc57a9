//! `levamen check`

use levamen::{Severity, check, visible};
use levamen_views::{json, text};

use crate::args::Arguments;
use crate::failure::Failure;
use crate::opened::Opened;
use crate::output;
use crate::progress::{Progress, Unit};

pub fn run(arguments: &Arguments) -> Result<(), Failure> {
    let book = Opened::book(&arguments.book)?;
    let mut problems = check(&book, &Progress::new("balancing", Unit::Of("doughs")));
    problems.extend(book.passed_over(&arguments.book));
    let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
    let warnings = problems.len() - errors;
    if arguments.json {
        output::result(output::json(&json::problems(book.texts(), &problems))?.as_bytes())?;
    } else {
        output::error(&text::problems(book.texts(), &problems));
        let entries = count(book.book().entries().count(), "dough or culture", "doughs and cultures");
        let summary = match (errors, warnings) {
            _ if book.book().entries().next().is_none() && problems.is_empty() => {
                format!(
                    "no dough in `{}`: a dough file ends in .dough\n",
                    visible(&arguments.book.display().to_string())
                )
            }
            (0, 0) => format!("{entries}: no problem\n"),
            _ => format!(
                "{entries}: {}, {}\n",
                count(errors, "error", "errors"),
                count(warnings, "warning", "warnings")
            ),
        };
        if errors == 0 {
            output::result(summary.as_bytes())?;
        } else {
            output::error(&summary);
        }
    }
    if errors == 0 { Ok(()) } else { Err(Failure::Reported) }
}

fn count(count: usize, one: &str, several: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { several })
}
