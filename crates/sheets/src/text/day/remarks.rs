//! What the baker should know before the day begins.

use levamen_ferment::Hazard;
use levamen_plan::{Gap, Remark};
use levamen_quantity::Mass;

use super::{counted, gram};
use crate::day_page::DayPage;
use crate::text::words::weight;

/// Batches under what a mixer mixes, what the bakery does not say, and the cautions that go with a day.
pub(super) fn remarks(page: &DayPage<'_>) -> String {
    if page.day.doughs.is_empty() {
        return String::new();
    }
    let mut lines: Vec<String> = Vec::new();
    for dough in &page.day.doughs {
        let mixer = dough.batches.mixer.and_then(|index| page.bakery.mixers.get(index));
        let mixer = mixer.map_or("the mixer", |mixer| mixer.name.as_str());
        for remark in &dough.batches.remarks {
            lines.push(format!(
                "{}: {}",
                dough.balance.dough,
                words(page, dough.balance.dough.as_str(), mixer, remark)
            ));
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

fn words(page: &DayPage<'_>, dough: &str, mixer: &str, remark: &Remark) -> String {
    let rounded = |mass: &Mass| weight(&mass.round_to(&gram()));
    match remark {
        Remark::BelowLeast { batch, least, others } => {
            let lacks = least - batch;
            let names = others.iter().filter_map(|index| page.bakery.mixers.get(*index));
            let names: Vec<&str> = names.map(|mixer| mixer.name.as_str()).collect();
            let other = match names.as_slice() {
                [] => String::new(),
                [one] => format!("; {one} takes it"),
                several => format!("; {} take it", several.join(" and ")),
            };
            let more = more_pieces(page, dough, &lacks).unwrap_or_default();
            format!(
                "a batch of {} is under the {} that {mixer} mixes, by {}{other}{more}",
                rounded(batch),
                rounded(least),
                rounded(&lacks)
            )
        }
        Remark::TooMany { batches } => {
            format!("it would be {} in {mixer}: is the order meant?", counted(*batches, "mixing"))
        }
    }
}

/// How many more pieces of the dough's first product would make a least batch.
fn more_pieces(page: &DayPage<'_>, dough: &str, lacks: &Mass) -> Option<String> {
    let dough = page.day.doughs.iter().find(|day| day.balance.dough == dough)?;
    let product = page.bakery.products.get(dough.need.pieces.first()?.product)?;
    let piece = product.piece.dough();
    let count = lacks.grams().checked_div(piece.grams())?;
    let whole = -&(-&count).floor();
    Some(format!("; {} more of {} would make it", whole.to_decimal_string(), product.name))
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
    }
}
