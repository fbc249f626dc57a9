//! What the baker should know before the day begins.

use levamen::DayReport;
use levamen_ferment::Hazard;
use levamen_plan::{Gap, Timed};
use levamen_sheets::{BatchRemark, BatchRemarkKind};

use crate::text::figures::weight;

/// Batches under what a mixer mixes, what the bakery does not say, and the cautions that go with a day.
pub(super) fn remarks(page: &DayReport<'_>, of_batches: &[BatchRemark]) -> String {
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
