//! `levamen check`

use levamen_language::{Severity, visible};

use super::print_json;
use crate::args::Arguments;
use crate::failure::Failure;
use crate::output;
use crate::shelf::Shelf;

pub fn run(arguments: &Arguments) -> Result<(), Failure> {
    let shelf = Shelf::open(&arguments.book)?;
    let mut problems = shelf.all_problems();
    problems.extend(shelf.passed_over(&arguments.book));
    let errors = problems.iter().filter(|problem| problem.severity == Severity::Error).count();
    let warnings = problems.len() - errors;
    if arguments.json {
        print_json(&shelf.texts.json(&problems))?;
    } else {
        output::error(&shelf.texts.draw(&problems));
        let entries = count(shelf.book.entries().count(), "dough or culture", "doughs and cultures");
        let summary = match (errors, warnings) {
            _ if shelf.book.entries().next().is_none() && problems.is_empty() => {
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
