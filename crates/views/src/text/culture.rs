//! A feeding plan as text, a page for the wall with a row for each thing that is done; and the first days of a new culture.

use levamen_ferment::Hazard;
use levamen_language::listed;
use levamen_quantity::Mass;
use levamen_sheets::{FeedingRow, FeedingSheet, FeedingWeights, NewCultureDays, NewCultureSheet, Weight};

use super::figures::{day, degrees, trimmed_grams, weight, whole_percent};
use super::page::{left, right, underline, width};

/// The feeding plan.
#[must_use]
pub fn feed(sheet: &FeedingSheet) -> String {
    plan(sheet) + &cautions()
}

/// The feeding plans of several cultures on one page, each after an empty line; what to take care of is said once.
pub(super) fn feeds(sheets: &[FeedingSheet]) -> String {
    let plans = sheets.iter().map(plan).collect::<Vec<_>>();
    if plans.is_empty() { String::new() } else { plans.join("\n") + "\n" + &cautions() }
}

/// What to take care of with any culture.
fn cautions() -> String {
    let [culture, gas] = [Hazard::Culture, Hazard::CarbonDioxide].map(|hazard| hazard.caution().words);
    format!("{culture}\n{gas}\nLook and smell before you feed. Rules of your house and country go first.\n")
}

fn plan(sheet: &FeedingSheet) -> String {
    let title = format!("{}: feeding plan", sheet.culture);
    let mut page = vec![underline(&title), String::new()];
    page.insert(0, title);
    page.insert(2, format!("{} to {}; all weights in grams", day(sheet.first), day(sheet.last)));
    let cold = if sheet.begins_cold { ", kept in the cold until it is fed" } else { "" };
    page.insert(3, format!("begin with {} of ripe culture{cold}", weight(&sheet.on_hand)));
    page.extend(table(sheet));
    page.push(String::new());
    page.extend(foot(sheet));
    page.join("\n") + "\n"
}

/// A column: its title, one word a line, and its cells.
struct FeedColumn {
    title: Vec<String>,
    cells: Vec<String>,
}

impl FeedColumn {
    /// Decimal points stand under each other.
    fn new(title: &str, mut cells: Vec<String>) -> Self {
        let after = |cell: &str| cell.find('.').map_or(0, |point| cell.len() - point);
        let most = cells.iter().map(|cell| after(cell)).max().unwrap_or(0);
        for cell in cells.iter_mut().filter(|cell| !cell.is_empty()) {
            *cell += &" ".repeat(most - after(cell));
        }
        Self { title: title.split_whitespace().map(str::to_owned).collect(), cells }
    }

    fn width(&self) -> usize {
        let words = self.title.iter().chain(&self.cells);
        words.map(|word| width(word)).max().unwrap_or(0)
    }

    /// The word of the title in a line, when titles stand on `height` lines and end on the last.
    fn title(&self, line: usize, height: usize) -> &str {
        let index = (line + self.title.len()).checked_sub(height);
        index.and_then(|index| self.title.get(index)).map_or("", String::as_str)
    }
}

/// The table: when, and under a title each what is taken, thrown away, kept, added and then stands in the tub.
fn table(sheet: &FeedingSheet) -> Vec<String> {
    let columns = columns(sheet);
    let height = columns.iter().map(|column| column.title.len()).max().unwrap_or(0);
    let when = when(sheet);
    let room = when.iter().map(|when| width(when)).max().unwrap_or(0);
    let mut table = Vec::new();
    for line in 0..height {
        let cells = columns.iter().map(|column| (column.title(line, height), column.width()));
        table.push(row("", room, cells, ""));
    }
    for (index, (when, data)) in when.iter().zip(&sheet.rows).enumerate() {
        let cells =
            columns.iter().map(|column| (column.cells.get(index).map_or("", String::as_str), column.width()));
        table.push(row(when, room, cells, &remark(data)));
    }
    table
}

fn row<'c>(when: &str, room: usize, cells: impl Iterator<Item = (&'c str, usize)>, remark: &str) -> String {
    let cells: Vec<String> = cells.map(|(cell, width)| right(cell, width)).collect();
    let line = format!("{}  {}   {remark}", left(when, room), cells.join("  "));
    line.trim_end().to_owned()
}

fn columns(sheet: &FeedingSheet) -> Vec<FeedColumn> {
    let of_feeding = |title: &str, cell: &dyn Fn(&FeedingWeights) -> String| {
        let cells = sheet.rows.iter().map(|row| match row {
            FeedingRow::Feed { weighed, .. } => cell(weighed),
            FeedingRow::Take { .. } => String::new(),
        });
        FeedColumn::new(title, cells.collect())
    };
    let of_each = |title: &str, cell: &dyn Fn(&FeedingRow) -> String| {
        FeedColumn::new(title, sheet.rows.iter().map(cell).collect())
    };
    let mut columns = vec![
        of_each("take", &|row| match row {
            FeedingRow::Take { weight, .. } => trimmed_grams(*weight),
            FeedingRow::Feed { .. } => String::new(),
        }),
        of_feeding("throw away", &|weighed| trimmed_grams(weighed.discard)),
        of_feeding("keep", &|weighed| trimmed_grams(weighed.old)),
    ];
    for (index, name) in sheet.parts.iter().enumerate() {
        let part = |weighed: &FeedingWeights| {
            let part = weighed.parts.get(index);
            debug_assert!(part.is_some(), "a feeding weighs every part");
            part.map_or_else(|| "?".to_owned(), |part| trimmed_grams(*part))
        };
        columns.push(of_feeding(name, &part));
    }
    columns.push(of_each("in tub", &|row| match row {
        FeedingRow::Take { stays, .. } => trimmed_grams(*stays),
        FeedingRow::Feed { weighed, .. } => trimmed_grams(weighed.made),
    }));
    columns.push(of_feeding("% old", &|weighed| whole_percent(&weighed.share_old())));
    columns
}

/// Each row's box, day and time; the day only where it changes.
fn when(sheet: &FeedingSheet) -> Vec<String> {
    let mut last = None;
    let mut when = Vec::new();
    for row in &sheet.rows {
        let at = match row {
            FeedingRow::Take { at, .. } => at,
            FeedingRow::Feed { exact, .. } => &exact.at,
        };
        let day = if last == Some(at.date()) { String::new() } else { at.strftime("%a %-d %b").to_string() };
        last = Some(at.date());
        when.push(format!("[ ] {} {}", left(&day, 10), at.strftime("%H:%M")));
    }
    when
}

fn remark(row: &FeedingRow) -> String {
    match row {
        FeedingRow::Take { .. } => String::new(),
        FeedingRow::Feed { exact, .. } => {
            let cold = if exact.goes_cold { ", then into the cold" } else { "" };
            format!("ripe {}{cold}", exact.ripe.strftime("%a %H:%M"))
        }
    }
}

fn foot(sheet: &FeedingSheet) -> Vec<String> {
    let added = sheet.parts.iter().zip(&sheet.added);
    let added: Vec<String> = added.map(|(name, part)| format!("{} of {name}", weight(part))).collect();
    let discarded = sheet.discarded;
    let lost = if discarded.is_zero() {
        "Nothing is thrown away.".to_owned()
    } else {
        format!("Thrown away: {}{}.", weight(&discarded), by_week(sheet))
    };
    let mut foot = vec![
        format!("In all {} taken, fed with {}.", weight(&sheet.taken), listed(added, "and")),
        format!("{lost} At the end {} are in the tub.", weight(&sheet.left)),
        format!(
            "After each feeding it holds {} or more; what is taken comes off that.",
            weight(&sheet.holds)
        ),
    ];
    match (discarded.is_zero(), sheet.is_least) {
        (true, true) => {}
        (false, true) => foot.push("No other plan at these hours throws away less.".to_owned()),
        (_, false) => foot.push("No other plan that feeds at the same moments throws away less.".to_owned()),
    }
    foot.extend(sheet.notes.iter().map(ToString::to_string));
    foot
}

/// Where a plan is longer than a week, what each week throws away: other uses can be planned by it.
fn by_week(sheet: &FeedingSheet) -> String {
    let weeks = sheet.weeks.iter();
    let weeks: Vec<String> =
        weeks.map(|(from, lost)| format!("{} from {}", weight(lost), from.strftime("%-d %b"))).collect();
    if weeks.len() < 2 { String::new() } else { format!(" ({})", weeks.join(", ")) }
}

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
pub fn new_culture(sheet: &NewCultureSheet) -> String {
    let title = format!("{}: from flour and water", sheet.culture);
    let warm = sheet.warm.as_ref().map_or_else(|| USUALLY_WARM.to_owned(), degrees);
    let mut page = vec![title.clone(), underline(&title), format!("Stand it at {warm}.")];
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

fn block(sheet: &NewCultureSheet, days: &NewCultureDays) -> Vec<String> {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_of_a_column_stand_under_each_other_and_its_title_ends_below() {
        let cells = ["640", "6.5", ""].map(str::to_owned).to_vec();
        let column = FeedColumn::new("throw away", cells);
        assert_eq!(column.cells, ["640  ", "6.5", ""]);
        assert_eq!(column.width(), 5);
        let title: Vec<&str> = (0..3).map(|line| column.title(line, 3)).collect();
        assert_eq!(title, ["", "throw", "away"]);
    }
}
