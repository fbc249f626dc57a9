//! The first days of a new culture as text.

use levamen_ferment::Hazard;
use levamen_quantity::{Mass, TemperatureUnit};

use super::words::weight;
use levamen_sheets::{BegunDays, BegunSheet, Weight};

/// Where the book does not say how warm: common practice, no source.
const USUALLY_WARM: &str = "24 to 28 °C (common practice, no source)";
/// What to look out for; all of it common practice, no source.
const CAUTIONS: [&str; 3] = [
    "Fur, or pink, orange or black anywhere: throw all of it away, wash and scald the jar, begin anew.",
    "Raw flour is not ready to eat: do not taste it, and do not bake with what is thrown away in these days.",
    "Whoever bakes for others keeps to local codes and licensed practice first.\n",
];

/// What is weighed on the first days of a culture, and what to look for.
#[must_use]
pub fn begun(sheet: &BegunSheet) -> String {
    let title = format!("{}: from flour and water", sheet.culture);
    let warm = sheet.warm.as_ref().map_or_else(
        || USUALLY_WARM.to_owned(),
        |warm| format!("{} °C", warm.in_unit(TemperatureUnit::Celsius).to_trimmed(1)),
    );
    let mut page = vec![title.clone(), "=".repeat(title.chars().count()), format!("Stand it at {warm}.")];
    for days in &sheet.days {
        page.push(String::new());
        page.extend(block(sheet, days));
    }
    page.push(String::new());
    page.extend(sheet.notes.iter().cloned());
    page.push("These days and amounts are common practice, no source.".to_owned());
    let hazards = [Hazard::Culture, Hazard::CarbonDioxide];
    page.extend(hazards.iter().map(|hazard| hazard.caution().words.to_owned()));
    page.extend(CAUTIONS.iter().map(|words| (*words).to_owned()));
    page.join("\n")
}

fn block(sheet: &BegunSheet, days: &BegunDays) -> Vec<String> {
    let when = match days.plan.last {
        None => format!("from day {} on", days.plan.first),
        Some(last) if last == days.plan.first => format!("day {last}"),
        Some(last) => format!("days {} to {last}", days.plan.first),
    };
    let mut lines = vec![when];
    let mut weighed = |shown: Weight, name: &str| lines.push(format!("  [ ] {:>8}   {name}", weight(&shown)));
    if days.old > Weight::ZERO {
        weighed(days.old, "of the old; throw the rest away");
    }
    if days.plan.new > Mass::ZERO {
        for (name, part) in sheet.parts.iter().zip(&days.parts) {
            weighed(*part, name);
        }
        lines.push(format!("    = {:>8}   in the jar", weight(&days.made)));
    }
    lines.extend(days.plan.words.iter().map(|words| format!("  {words}")));
    lines
}
