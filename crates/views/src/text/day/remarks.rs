//! What the baker should know before the day begins.

use levamen_ferment::Hazard;
use levamen_plan::{DayDough, Gap, Remark, Timed};
use levamen_quantity::Mass;

use super::gram;
use crate::text::words::weight;
use levamen_sheets::DayPage;
use levamen_sheets::DoughSheet;
use levamen_sheets::mixed;

/// Batches under what a mixer mixes, what the bakery does not say, and the cautions that go with a day.
pub(super) fn remarks(page: &DayPage<'_>) -> String {
    if page.day.doughs.is_empty() {
        return String::new();
    }
    let mut lines: Vec<String> = Vec::new();
    for (dough, sheet) in page.day.doughs.iter().zip(&page.sheets.doughs) {
        let mixer = dough.batches.mixer.and_then(|index| page.bakery.mixers.get(index));
        let mixer = mixer.map_or("the mixer", |mixer| mixer.name.as_str());
        for remark in &dough.batches.remarks {
            lines.push(format!("{}: {}", dough.balance.dough, words(page, (dough, sheet), mixer, remark)));
        }
    }
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

fn words(
    page: &DayPage<'_>,
    (dough, sheet): (&DayDough, &DoughSheet),
    mixer: &str,
    remark: &Remark,
) -> String {
    let shown = |mass: &Mass| weight(&mass.round_to(&gram()));
    match remark {
        Remark::BelowLeast { batch, least, others } => {
            // The batch as it is weighed, so that it is the same in every line.
            let smallest = mixed(&sheet.sheet.stages).map(|stage| stage.made.as_exact()).min();
            let batch = smallest.filter(|_| dough.batches.are_listed()).unwrap_or(batch.clone());
            let batch = batch.round_to(&gram());
            let lacks = &least.round_to(&gram()) - &batch;
            let lacks = if lacks > Mass::ZERO { format!(", by {}", shown(&lacks)) } else { String::new() };
            let names = others.iter().filter_map(|index| page.bakery.mixers.get(*index));
            let names: Vec<&str> = names.map(|mixer| mixer.name.as_str()).collect();
            let other = match names.as_slice() {
                [] => String::new(),
                [one] => format!("; {one} takes it"),
                several => format!("; {} take it", several.join(" and ")),
            };
            let more = more_pieces(page, dough).unwrap_or_default();
            let (batch, least) = (weight(&batch), shown(least));
            format!("a batch of {batch} is under the {least} that {mixer} mixes{lacks}{other}{more}")
        }
        Remark::Counted { batches, largest } => format!(
            "{batches} batches of up to {} in {mixer} are too many to list: they are counted, the sheet is of all of them \
             together, and there is no timetable; is the order meant?",
            shown(largest)
        ),
    }
}

/// How many more pieces of the dough's first product would make a least batch.
fn more_pieces(page: &DayPage<'_>, dough: &DayDough) -> Option<String> {
    let more = page.day.more_pieces(page.book, page.bakery, dough)?;
    let product = page.bakery.products.get(more.product)?;
    Some(format!("; {} more of {} would make it", more.pieces, product.name))
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
