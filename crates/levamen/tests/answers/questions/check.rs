//! Every problem of a book, and how many there are of which sort.

use levamen::{Error, Severity, Silent};
use levamen_views::text;

use crate::answer::{Answer, plain};
use crate::asked::Asked;
use crate::question::{Question, Request, Shown};

/// The whole book.
pub struct Check;

pub fn check() -> Question<Check> {
    Question::new("check", Check)
}

impl Request for Check {
    fn answer(&self, asked: &Asked, _: &str, _: Shown) -> Result<Answer, Error> {
        let workspace = asked.workspace();
        let problems = levamen::check(&workspace, &Silent);
        let of = |severity| problems.iter().filter(|problem| problem.severity == severity).count();
        let counted =
            |count, one: &str, several: &str| format!("{count} {}", if count == 1 { one } else { several });
        let entries = counted(workspace.book().entries().count(), "dough or culture", "doughs and cultures");
        let errors = counted(of(Severity::Error), "error", "errors");
        let warnings = counted(of(Severity::Warning), "warning", "warnings");
        let summary = if problems.is_empty() {
            format!("{entries}: no problem\n")
        } else {
            format!("{entries}: {errors}, {warnings}\n")
        };
        let drawn = plain(&text::problems(workspace.texts(), &problems));
        if of(Severity::Error) > 0 {
            return Ok(Answer { shown: String::new(), beside: drawn + &summary, is_incomplete: true });
        }
        Ok(Answer { shown: summary, beside: drawn, is_incomplete: false })
    }
}
