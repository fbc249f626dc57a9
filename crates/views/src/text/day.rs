//! The day as text: what is made, when it is set and mixed, what each culture gives, what each scale weighs, and a sheet
//! for every dough.

mod picks;
mod products;
mod remarks;
mod seeds;
mod set;

use levamen_quantity::{Exact, Mass};
use levamen_timetable::Remedy;

use super::weights::with_unit;
use levamen_sheets::{DayPage, DayPart, DaySeeds, Weight};

/// What was found out for a day beside its page.
#[derive(Debug, Clone, Default)]
pub struct DayFound {
    /// What each culture gives.
    pub seeds: DaySeeds,
    /// What would do where there is no timetable.
    pub remedies: Vec<Remedy>,
}

/// A day, in these parts; each is left out where there is nothing to say.
#[must_use]
pub fn day(page: &DayPage<'_>, found: &DayFound, parts: &[DayPart]) -> String {
    let parts = parts.iter().flat_map(|part| match part {
        DayPart::Made => vec![products::products(page), remarks::remarks(page)],
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
    let pieces = page.day.doughs.iter().flat_map(|dough| &dough.need.pieces);
    let pieces = pieces.fold(0, |sum: u64, pieces| sum.saturating_add(pieces.made));
    let batches = page.sheets.doughs.iter().fold(0, |sum: u64, dough| sum.saturating_add(dough.batches));
    let mut lines = vec![title, rule];
    if page.day.doughs.is_empty() {
        let ordered = if page.mistakes > 0 { "No order could be read" } else { "Nothing is ordered" };
        lines.push(format!("{ordered}: there is nothing to make."));
    } else {
        let dough = with_unit(&page.sheets.made, &gram());
        lines.push(format!(
            "{} of {}: {dough} of dough in {}",
            counted(pieces, "piece"),
            counted(u64::try_from(page.day.doughs.len()).unwrap_or(u64::MAX), "dough"),
            counted_as(batches, "batch", "batches"),
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
pub(super) fn counted(count: u64, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}

fn counted_as(count: u64, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{count} {many}") }
}
