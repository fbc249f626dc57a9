//! What is needed of which culture.

use jiff::civil::Date;
use levamen_calendar::ZonedDays;
use levamen_culture::{CultureNeed, NeedRow, read_needs};
use levamen_formula::{FormulaId, Role};
use levamen_language::{Place, Problem, nearest};

use super::asked::Asked;
use crate::args::FeedArguments;
use crate::failure::Failure;
use crate::shelf::Shelf;

/// The most rows of the past that are told one by one.
const MOST_PAST: usize = 5;

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

/// Reads the table, and sorts its rows by culture, in the order in which they are named.
///
/// # Errors
/// What is wrong with the table, or with what it asks for.
pub fn read(feed: &FeedArguments, asked: &Asked, shelf: &mut Shelf) -> Result<Vec<Wanted>, Failure> {
    let file = feed.need.clone().unwrap_or_default();
    let only = feed.culture.as_deref().map(|name| named(shelf, name)).transpose()?;
    let (id, text) = shelf.read_beside(&file)?;
    let rows = read_needs(id, &text).map_err(|problems| shelf.fail(problems))?;
    let sorted = sort(shelf, asked, only, &rows).map_err(|problems| shelf.fail(problems))?;
    if sorted.is_empty() {
        let days = &asked.days;
        return Err(Failure::usage(format!("nothing is needed from {} to {}", days.first(), days.last()))
            .help("look at the dates of the table, or name the culture to keep alive: --culture"));
    }
    Ok(sorted)
}

fn sort(
    shelf: &Shelf,
    asked: &Asked,
    only: Option<FormulaId>,
    rows: &[NeedRow],
) -> Result<Vec<Wanted>, Vec<Problem>> {
    let mut problems = past(rows, asked.days.first());
    let empty = |culture| Wanted { culture, needs: Vec::new(), later: 0 };
    let mut sorted: Vec<Wanted> = only.map(empty).into_iter().collect();
    for row in rows.iter().filter(|row| row.date >= asked.days.first()) {
        let culture = match (&row.culture, only) {
            (Some((name, place)), _) => culture(shelf, name).ok_or_else(|| unknown(shelf, name, *place)),
            (None, Some(culture)) => Ok(culture),
            (None, None) => single(shelf).ok_or_else(|| nameless(row.place)),
        };
        match culture {
            Ok(culture) if only.is_none_or(|only| only == culture) => {
                let at = sorted.iter().position(|wanted| wanted.culture == culture).unwrap_or_else(|| {
                    sorted.push(empty(culture));
                    sorted.len() - 1
                });
                if let Some(wanted) = sorted.get_mut(at) {
                    wanted.add(row, asked);
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
    fn add(&mut self, row: &NeedRow, asked: &Asked) {
        if row.date > asked.days.last() {
            self.later += 1;
        } else if let Some(at) = asked.days.at(row.date, row.time.unwrap_or(asked.at)) {
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
                .help(format!("leave such rows out, or begin earlier: `--from {}`", row.date))
        })
        .collect()
}

fn culture(shelf: &Shelf, name: &str) -> Option<FormulaId> {
    let id = shelf.book.find(name)?;
    shelf.book.entry(id).is_some_and(|entry| entry.role == Role::Culture).then_some(id)
}

/// The book's only culture.
fn single(shelf: &Shelf) -> Option<FormulaId> {
    let mut cultures = shelf.book.entries().filter(|(_, entry)| entry.role == Role::Culture);
    let first = cultures.next().map(|(id, _)| id);
    cultures.next().map_or(first, |_| None)
}

/// The culture that was named with an option.
///
/// # Errors
/// The book has none of that name.
pub fn named(shelf: &Shelf, name: &str) -> Result<FormulaId, Failure> {
    culture(shelf, name).ok_or_else(|| {
        let failure = Failure::usage(format!("the book has no culture called `{name}`"));
        failure.help(near(shelf, name))
    })
}

fn unknown(shelf: &Shelf, name: &str, place: Place) -> Problem {
    Problem::error("unknown-culture", format!("the book has no culture called `{name}`"))
        .at(place, "which culture?")
        .help(near(shelf, name))
}

fn nameless(place: Place) -> Problem {
    Problem::error("which-culture", "the row does not say which culture is needed")
        .at(place, "of which culture?")
        .help("add a column `culture`, or name it for all rows: `--culture \"liquid culture\"`")
}

/// The names that were perhaps meant, or else all there are.
fn near(shelf: &Shelf, name: &str) -> String {
    let cultures = shelf.book.entries().filter(|(_, entry)| entry.role == Role::Culture);
    let names: Vec<&str> = cultures.map(|(_, entry)| entry.name.as_str()).collect();
    match (nearest(name, names.iter().copied()).first(), names.as_slice()) {
        (Some(near), _) => format!("did you mean `{near}`?"),
        (None, []) => {
            "a culture stands in the book as `culture` and its name, with what it is fed".to_owned()
        }
        (None, names) => format!("its cultures are {}", names.join(", ")),
    }
}
