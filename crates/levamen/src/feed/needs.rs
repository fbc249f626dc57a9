//! What is asked of feedings, and what is needed of which culture.

use jiff::civil::{Date, Time};
use levamen_calendar::ZonedDays;
use levamen_culture::{CultureNeed, NeedRow, read_needs};
use levamen_formula::{FormulaId, Role};
use levamen_language::{AskedField, Hint, Place, Problem, Texts, nearest};
use levamen_quantity::{Mass, Temperature};

use crate::error::{Error, QuestionError};
use crate::workspace::{InputText, Workspace};

/// The most rows of the past that are reported one by one.
const MOST_PAST: usize = 5;

/// For which days cultures are fed, and by what.
#[derive(Debug, Clone)]
pub struct FeedQuestion {
    /// The days.
    pub days: ZonedDays,
    /// Only this culture; it stands also for rows that name none.
    pub culture: Option<String>,
    /// When culture is needed where a row says no time.
    pub at: Time,
    /// When somebody can feed; without it, at hours that suit the needs.
    pub feed_at: Option<Vec<Time>>,
    /// How warm the culture is kept, where that is not as the book says.
    pub kept_at: Option<Temperature>,
    /// Ripe culture at the start.
    pub on_hand: Option<Mass>,
}

/// What is needed of one culture.
#[derive(Debug)]
pub struct Wanted {
    /// Which.
    pub culture: FormulaId,
    /// What is needed of it on the days of the plan.
    pub needs: Vec<CultureNeed>,
    /// How many rows are for days after the plan.
    later: usize,
}

impl Wanted {
    /// Says that rows were left out.
    pub fn later_note(&self, days: &ZonedDays) -> Option<String> {
        let rows = if self.later == 1 { "1 row is".to_owned() } else { format!("{} rows are", self.later) };
        (self.later > 0).then(|| format!("{rows} for days after {}, and not in this plan.", days.last()))
    }
}

/// What is needed, and the texts of the book and of the table that says so.
pub struct NeedTable {
    /// By culture, in the order in which they are named.
    pub wanted: Vec<Wanted>,
    /// The texts, for problems to be drawn in.
    pub texts: Texts,
}

/// Reads the table of needs, and sorts its rows by culture, in the order in which they are named.
///
/// # Errors
/// What is wrong with the table, or with what it asks for.
pub fn read(workspace: &Workspace, question: &FeedQuestion, table: &InputText) -> Result<NeedTable, Error> {
    let only = question.culture.as_deref().map(|name| named(workspace, name)).transpose()?;
    let text = table.text.clone().map_err(Error::problem)?;
    let mut texts = workspace.texts().clone();
    let id = texts.next_id();
    texts.add(id, table.name.clone(), text.as_str());
    let rows = read_needs(id, &text);
    let sorted = rows.and_then(|rows| sort(workspace, question, only, &rows));
    let wanted = match sorted {
        Ok(wanted) => wanted,
        Err(problems) => return Err(Error::Problems { problems, texts }),
    };
    if wanted.is_empty() {
        let (first, last) = (question.days.first(), question.days.last());
        return Err(QuestionError::NothingNeeded { first, last }.into());
    }
    Ok(NeedTable { wanted, texts })
}

fn sort(
    workspace: &Workspace,
    question: &FeedQuestion,
    only: Option<FormulaId>,
    rows: &[NeedRow],
) -> Result<Vec<Wanted>, Vec<Problem>> {
    let mut problems = past(rows, question.days.first());
    let empty = |culture| Wanted { culture, needs: Vec::new(), later: 0 };
    let mut sorted: Vec<Wanted> = only.map(empty).into_iter().collect();
    for row in rows.iter().filter(|row| row.date >= question.days.first()) {
        let culture = match (&row.culture, only) {
            (Some((name, place)), _) => {
                culture(workspace, name).ok_or_else(|| unknown(workspace, name, *place))
            }
            (None, Some(culture)) => Ok(culture),
            (None, None) => single(workspace).ok_or_else(|| nameless(row.place)),
        };
        match culture {
            Ok(culture) if only.is_none_or(|only| only == culture) => {
                let at = sorted.iter().position(|wanted| wanted.culture == culture).unwrap_or_else(|| {
                    sorted.push(empty(culture));
                    sorted.len() - 1
                });
                if let Some(wanted) = sorted.get_mut(at) {
                    wanted.add(row, question);
                }
            }
            Ok(_) => {}
            Err(problem) => problems.push(problem),
        }
    }
    sorted.retain(|wanted| only.is_some() || !wanted.needs.is_empty());
    if problems.is_empty() { Ok(sorted) } else { Err(problems) }
}

impl Wanted {
    fn add(&mut self, row: &NeedRow, question: &FeedQuestion) {
        if row.date > question.days.last() {
            self.later += 1;
        } else if let Some(at) = question.days.at(row.date, row.time.unwrap_or(question.at)) {
            self.needs.push(CultureNeed { at, mass: row.mass.clone(), place: Some(row.place) });
        }
    }
}

/// Rows for days before the plan; of many only the first.
fn past(rows: &[NeedRow], first: Date) -> Vec<Problem> {
    let past = rows.iter().filter(|row| row.date < first);
    past.take(MOST_PAST)
        .map(|row| {
            Problem::error("in-the-past", format!("{} is before the plan begins, on {first}", row.date))
                .at(row.place, "too late for this")
                .help(Hint::of_field(
                    "leave such rows out, or begin earlier: `",
                    AskedField::From,
                    format!(" {}`", row.date),
                ))
        })
        .collect()
}

fn culture(workspace: &Workspace, name: &str) -> Option<FormulaId> {
    let id = workspace.book().find(name)?;
    workspace.book().entry(id).is_some_and(|entry| entry.role == Role::Culture).then_some(id)
}

/// The book's only culture.
fn single(workspace: &Workspace) -> Option<FormulaId> {
    let mut cultures = workspace.book().entries().filter(|(_, entry)| entry.role == Role::Culture);
    let first = cultures.next().map(|(id, _)| id);
    cultures.next().map_or(first, |_| None)
}

/// The culture of a name.
///
/// # Errors
/// The book has none of that name.
pub fn named(workspace: &Workspace, name: &str) -> Result<FormulaId, QuestionError> {
    culture(workspace, name)
        .ok_or_else(|| QuestionError::UnknownCulture { name: name.to_owned(), advice: near(workspace, name) })
}

fn unknown(workspace: &Workspace, name: &str, place: Place) -> Problem {
    Problem::error("unknown-culture", format!("the book has no culture called `{name}`"))
        .at(place, "which culture?")
        .help(near(workspace, name))
}

fn nameless(place: Place) -> Problem {
    Problem::error("which-culture", "the row does not say which culture is needed")
        .at(place, "of which culture?")
        .help(Hint::of_field(
            "add a column `culture`, or name it for all rows: `",
            AskedField::Culture,
            " \"liquid culture\"`",
        ))
}

/// The names that were perhaps meant, or else all there are.
fn near(workspace: &Workspace, name: &str) -> String {
    let cultures = workspace.book().entries().filter(|(_, entry)| entry.role == Role::Culture);
    let names: Vec<&str> = cultures.map(|(_, entry)| entry.name.as_str()).collect();
    match (nearest(name, names.iter().copied()).first(), names.as_slice()) {
        (Some(near), _) => format!("did you mean `{near}`?"),
        (None, []) => {
            "a culture stands in the book as `culture` and its name, with what it is fed".to_owned()
        }
        (None, names) => format!("its cultures are {}", names.join(", ")),
    }
}
