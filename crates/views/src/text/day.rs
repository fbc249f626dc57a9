//! The day as text: what is made, when it is set and mixed, what each culture gives, what each scale weighs, and a sheet
//! for every dough.

use std::fmt::Display;

use levamen::DayReport;
use levamen_ferment::Hazard;
use levamen_plan::{Gap, Timed};
use levamen_quantity::Mass;
use levamen_sheets::{BatchRemark, BatchRemarkKind, DaySeeds, Pick, ScalePicks, Weight};

use super::figures::{finest, gram, in_columns, weight, with_unit};
use super::naming::entry_name;
use super::page::underline;
use crate::text::TextPage;

/// A part of a day's pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DayPart {
    /// What is made, and what to know of it.
    Made,
    /// When what is done, or why nothing can be said of it.
    Times,
    /// What is set and mixed, with tubs and water.
    Set,
    /// What each culture gives.
    Cultures,
    /// What each scale weighs.
    Scales,
    /// What the store room issues.
    Store,
    /// A sheet for every dough.
    Sheets,
}

impl DayPart {
    /// Every part, in the order of the pages.
    pub const ALL: [Self; 7] =
        [Self::Made, Self::Times, Self::Set, Self::Cultures, Self::Scales, Self::Store, Self::Sheets];
}

/// A day, in these parts; each is left out where there is nothing to say.
#[must_use]
pub fn day(page: &DayReport<'_>, parts: &[DayPart]) -> String {
    let parts = parts.iter().flat_map(|part| match part {
        DayPart::Made => vec![products(page), remarks(page, &page.batch_remarks)],
        DayPart::Times => vec![times(page)],
        DayPart::Set => vec![super::set::set(page)],
        DayPart::Cultures => {
            vec![seeds(page, &page.seeds), super::culture::feeds(&page.feeds)]
        }
        DayPart::Scales => vec![picks(&page.sheets.picks)],
        DayPart::Store => vec![issued(page)],
        DayPart::Sheets => vec![sheets(page)],
    });
    let parts = std::iter::once(heading(page)).chain(parts);
    parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join("\n")
}

/// The date, and how much it is in all.
fn heading(page: &DayReport<'_>) -> String {
    let title = page.hours.clock.date().strftime("%A %Y-%m-%d").to_string();
    let rule = underline(&title);
    let mut lines = vec![title, rule];
    if page.day.doughs.is_empty() {
        let ordered =
            if page.orders.errors.count() > 0 { "No order could be read" } else { "Nothing is ordered" };
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
    if page.orders.errors.count() > 0 {
        lines.push(format!(
            "INCOMPLETE: {} of the orders {} wrong and not in it",
            counted(page.orders.errors.count(), "line"),
            if page.orders.errors.count() == 1 { "is" } else { "are" }
        ));
    }
    lines.join("\n") + "\n"
}

/// The timetable; where there is none, why.
fn times(page: &DayReport<'_>) -> String {
    let (work, clock) = (&page.hours.work, &page.hours.clock);
    match page.timetable_sheet() {
        _ if page.day.doughs.is_empty() => String::new(),
        Ok(sheet) => super::timetable(&sheet),
        Err(error) => super::no_timetable(work, error, clock),
    }
}

/// The sheets of all doughs, each after those that it takes from.
fn sheets(page: &DayReport<'_>) -> String {
    let sheets = page.sheets.doughs.iter().map(|dough| super::sheet(&dough.sheet));
    sheets.collect::<Vec<_>>().join("\n")
}

/// What the store room issues for the day.
fn issued(page: &DayReport<'_>) -> String {
    let issued = &page.sheets.issued;
    if issued.is_empty() {
        return String::new();
    }
    let mut out = TextPage::<2>::new(0);
    out.text("The store room issues");
    for issued in issued {
        let cells = in_columns(&issued.weight, &finest(issued.weight));
        out.figures("", cells, issued.name.as_str());
    }
    out.render()
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

/// Each product with its pieces; each dough that others take, and what is kept as old dough.
fn products(page: &DayReport<'_>) -> String {
    if page.day.doughs.is_empty() {
        return String::new();
    }
    let mut out = TextPage::<3>::new(0);
    out.titles("What is made", ["ordered", "made", "dough"], "");
    for (dough, sheet) in page.day.doughs.iter().zip(&page.sheets.doughs) {
        let goes = &sheet.goes_into;
        for (pieces, dough) in
            dough.need.pieces.iter().zip(&goes.pieces).filter(|(pieces, _)| pieces.made > 0)
        {
            let Some(product) = page.bakery.product(pieces.product) else {
                debug_assert!(false, "pieces of a product that the bakery has not");
                continue;
            };
            let each = format!("{} each", weight(&product.piece.dough().round_to(&gram())));
            let cells = [pieces.ordered.to_string(), pieces.made.to_string(), kilograms(*dough)];
            out.figures(format!("  {}", product.name), cells, each);
        }
        for (taken, mass) in dough.need.taken.iter().zip(&goes.taken) {
            let by = entry_name(page.book, taken.by);
            let how =
                if taken.is_base { format!("base of {by}") } else { format!("{} of {by}", taken.stage) };
            let cells = [String::new(), String::new(), kilograms(*mass)];
            out.figures(format!("  {}", dough.balance.dough), cells, how);
        }
        if dough.need.kept > Mass::ZERO {
            let cells = [String::new(), String::new(), kilograms(goes.kept)];
            out.figures(format!("  {}", dough.balance.dough), cells, "kept as old dough for tomorrow");
        }
    }
    out.render()
}

fn kilograms(weight: Weight) -> String {
    with_unit(&weight, &gram())
}

/// For each culture its seeds in the order of the clock, as they are weighed, and their sum.
fn seeds(page: &DayReport<'_>, seeds: &DaySeeds) -> String {
    let mut out = TextPage::<2>::new(0);
    for (culture, sum) in &seeds.sums {
        let name = entry_name(page.book, *culture);
        out.text(format!("Ripe {name}"));
        for seed in seeds.of(*culture) {
            let when = seed.at.map_or_else(|| "-".to_owned(), |at| page.hours.clock.words(at));
            let cells = in_columns(&seed.weight, &finest(seed.weight));
            out.figures(format!("  {when}"), cells, format!("{} of {}", seed.stage, seed.dough));
        }
        let cells = in_columns(sum, &finest(*sum));
        out.figures("  in all", cells, "beside what is kept for its next feeding");
    }
    out.render()
}

/// Each scale with what is weighed on it, in how many weighings.
fn picks(scales: &[ScalePicks]) -> String {
    let mut out = TextPage::<2>::new(0);
    for ScalePicks { scale, picks } in scales {
        out.text(format!("On the {scale}"));
        for Pick { name, weight, weighings } in picks {
            let often = if *weighings == 1 { String::new() } else { format!(", {weighings} weighings") };
            out.figures("  [ ]", in_columns(weight, &finest(*weight)), format!("{name}{often}"));
        }
    }
    out.render()
}

/// Batches under what a mixer mixes, what the bakery does not say, and the cautions that go with a day.
fn remarks(page: &DayReport<'_>, of_batches: &[BatchRemark]) -> String {
    if page.day.doughs.is_empty() {
        return String::new();
    }
    let mut lines: Vec<String> = of_batches.iter().map(batch_remark).collect();
    for dough in &page.sheets.doughs {
        let cautions = dough.sheet.cautions.iter();
        lines.extend(
            cautions.map(|caution| format!("{}, {}: {}", dough.sheet.dough, caution.name, caution.words())),
        );
    }
    lines.extend(page.hours.gaps.iter().map(gap));
    let mut out = vec!["To know".to_owned()];
    out.extend(lines.into_iter().map(|line| format!("  {line}")));
    let cautions = [Hazard::Mixer, Hazard::FlourDust, Hazard::CarbonDioxide];
    out.extend(cautions.into_iter().map(|hazard| format!("  {}", hazard.caution().words)));
    out.join("\n") + "\n"
}

fn batch_remark(remark: &BatchRemark) -> String {
    let BatchRemark { dough, mixer, about } = remark;
    let mixer = mixer.as_deref().unwrap_or("the mixer");
    match about {
        BatchRemarkKind::BelowLeast { batch, least, lacks, others, more } => {
            let lacks = if lacks.is_zero() { String::new() } else { format!(", by {}", weight(lacks)) };
            let other = match others.as_slice() {
                [] => String::new(),
                [one] => format!("; {one} takes it"),
                several => format!("; {} take it", several.join(" and ")),
            };
            let more =
                more.as_ref().map(|(pieces, product)| format!("; {pieces} more of {product} would make it"));
            let (batch, least) = (weight(batch), weight(least));
            let more = more.unwrap_or_default();
            format!("{dough}: a batch of {batch} is under the {least} that {mixer} mixes{lacks}{other}{more}")
        }
        BatchRemarkKind::Counted { batches, largest } => format!(
            "{dough}: {batches} batches of up to {} in {mixer} are too many to list: they are counted, the sheet is of all of them \
             together, and there is no timetable; is the order meant?",
            weight(largest)
        ),
    }
}

fn gap(gap: &Gap) -> String {
    match gap {
        Gap::OutBy(time) => format!("no card says when bread is out: {time} is taken"),
        Gap::Product(name, missing) => {
            let missing: Vec<String> = missing.iter().map(|step| format!("`{step}`")).collect();
            format!("{name} does not say {}: it counts no time", missing.join(", "))
        }
        Gap::Mixing(dough, minutes) => {
            format!("no method says how long {dough} is mixed: {minutes} are taken")
        }
        Gap::Shifts => "no card says who is at work: as many bakers as it takes, at any hour".to_owned(),
        Gap::Oven => "no card says how many decks there are: as many as it takes".to_owned(),
        Gap::Skipped { what, time, taken } => {
            let what = match what {
                Timed::ShiftBegins(name) => format!("shift {name} begins"),
                Timed::ShiftEnds(name) => format!("shift {name} ends"),
                Timed::Out(name) => format!("{name} is out"),
            };
            let short = if taken.date() == time.date() { "%H:%M" } else { "%H:%M on %A %Y-%m-%d" };
            let (time, taken) = (time.strftime("%H:%M on %A %Y-%m-%d"), taken.strftime(short));
            format!(
                "clocks go forward over {time}, when {what}: {taken} is taken, the first minute that exists"
            )
        }
    }
}
