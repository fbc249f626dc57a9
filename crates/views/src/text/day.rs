//! The day as text: what is made, when it is set and mixed, what each culture gives, what each scale weighs, and a sheet
//! for every dough.

mod picks;
mod products;
mod remarks;
mod seeds;
mod set;

use std::fmt::Display;

use levamen_quantity::{Exact, Mass};
use levamen_timetable::Remedy;

use super::weights::with_unit;
use levamen_sheets::{DayFound, DayPage, DayPart, Weight};

/// A day, in these parts; each is left out where there is nothing to say.
#[must_use]
pub fn day(page: &DayPage<'_>, found: &DayFound, parts: &[DayPart]) -> String {
    let parts = parts.iter().flat_map(|part| match part {
        DayPart::Made => vec![products::products(page), remarks::remarks(page, &found.batch_remarks)],
        DayPart::Times => vec![times(page, &found.remedies)],
        DayPart::Set => vec![set::set(page)],
        DayPart::Cultures => {
            vec![seeds::seeds(page, &found.seeds), super::feed::feeds(page.feeds)]
        }
        DayPart::Scales => vec![picks::picks(&page.sheets.picks)],
        DayPart::Store => vec![issued(page)],
        DayPart::Sheets => vec![sheets(page)],
    });
    let parts = std::iter::once(heading(page)).chain(parts);
    parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n")
}

/// The date, and how much it is in all.
fn heading(page: &DayPage<'_>) -> String {
    let title = page.hours.clock.date().strftime("%A %Y-%m-%d").to_string();
    let rule = "=".repeat(title.chars().count());
    let mut lines = vec![title, rule];
    if page.day.doughs.is_empty() {
        let ordered = if page.mistakes > 0 { "No order could be read" } else { "Nothing is ordered" };
        lines.push(format!("{ordered}: there is nothing to make."));
    } else {
        let dough = with_unit(&page.sheets.made, &gram());
        lines.push(format!(
            "{} of {}: {dough} of dough in {}",
            counted(page.sheets.pieces, "piece"),
            counted(page.day.doughs.len(), "dough"),
            counted_as(page.sheets.batches, "batch", "batches"),
        ));
    }
    if page.mistakes > 0 {
        lines.push(format!(
            "INCOMPLETE: {} of the orders {} wrong and not in it",
            counted(page.mistakes, "line"),
            if page.mistakes == 1 { "is" } else { "are" }
        ));
    }
    lines.join("\n") + "\n"
}

/// The timetable; where there is none, why, and what would do.
fn times(page: &DayPage<'_>, remedies: &[Remedy]) -> String {
    let (work, clock) = (&page.hours.work, &page.hours.clock);
    match page.timetable {
        _ if page.day.doughs.is_empty() => String::new(),
        Ok(timetable) => super::timetable(work, timetable, clock),
        Err(trouble) => super::no_timetable(work, trouble, remedies, clock),
    }
}

/// The sheets of all doughs, each after those that it takes from.
fn sheets(page: &DayPage<'_>) -> String {
    let sheets = page.sheets.doughs.iter().map(|dough| super::sheet(&dough.sheet));
    sheets.collect::<Vec<_>>().join("\n")
}

/// What the store room issues for the day.
fn issued(page: &DayPage<'_>) -> String {
    let issued = &page.sheets.issued;
    if issued.is_empty() {
        return String::new();
    }
    let mut out = super::Page::<2>::new(0);
    out.text("The store room issues");
    for issued in issued {
        let cells = super::weights::in_columns(&issued.weight, &finest(issued.weight));
        out.figures("", cells, issued.name.as_str());
    }
    out.render()
}

/// The step to which a sum of weights is shown: a gram where it is whole grams, else a tenth.
pub(super) fn finest(weight: Weight) -> Mass {
    if weight.grams().is_integer() { gram() } else { Mass::from_grams(&Exact::ONE / &Exact::from(10)) }
}

pub(super) fn gram() -> Mass {
    Mass::from_grams(Exact::ONE)
}

/// `1 piece`, `24 pieces`
fn counted(count: impl Display, noun: &str) -> String {
    counted_as(count, noun, &format!("{noun}s"))
}

fn counted_as(count: impl Display, one: &str, many: &str) -> String {
    let count = count.to_string();
    let noun = if count == "1" { one } else { many };
    format!("{count} {noun}")
}
