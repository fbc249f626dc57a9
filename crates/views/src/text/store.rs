//! The store room's list as text: what to order by when, and what is there.

use levamen_language::listed;
use levamen_sheets::{Action, Money, StoreGroup, StoreLine, StoreSheet};

use super::TextPage;
use super::figures::{day, kilograms, kilograms_cell};

/// Room for the names of most ingredients.
const LEAST_LABEL: usize = 22;

/// The store room's list.
#[must_use]
pub fn store(sheet: &StoreSheet) -> String {
    let mut page = TextPage::new(LEAST_LABEL);
    page.text(format!("Store room, {}", dates(sheet)));
    page.text("weights in kg, waste included");
    for group in &sheet.groups {
        page.text("");
        add_group(&mut page, sheet, group);
    }
    if sheet.groups.is_empty() {
        page.text("");
        page.text("Nothing is issued on these dates.");
    } else {
        page.text("");
        add_total(&mut page, sheet);
    }
    for gap in &sheet.gaps {
        page.text(format!("Not in this list: {gap}."));
    }
    page.render()
}

fn dates(sheet: &StoreSheet) -> String {
    if sheet.first == sheet.last {
        day(sheet.first)
    } else {
        format!("{} to {}", day(sheet.first), day(sheet.last))
    }
}

fn add_group(page: &mut TextPage<4>, sheet: &StoreSheet, group: &StoreGroup) {
    let title = match group.action {
        Action::OrderBy(date) => format!("order by {}", day(date)),
        Action::Unsaid => "no supply in the book".to_owned(),
        Action::Drawn => "comes as it is used".to_owned(),
        Action::Covered => "on hand is enough".to_owned(),
    };
    let is_covered = group.action == Action::Covered;
    let to_buy = if is_covered { "" } else { "to buy" };
    page.titles(title, ["needed", "on hand", to_buy, if is_covered { "" } else { "price" }], "");
    for line in &group.lines {
        let cells = if is_covered {
            [kilograms_cell(&line.needed), kilograms_cell(&line.on_hand), String::new(), String::new()]
        } else {
            let price = line.price.as_ref().map_or("none".to_owned(), Money::to_string);
            [kilograms_cell(&line.needed), kilograms_cell(&line.on_hand), kilograms_cell(&line.to_buy), price]
        };
        page.figures(format!("  {}", line.name), cells, remark(line));
    }
    if !is_covered && group.lines.len() > 1 {
        let empty = String::new();
        let total = [empty.clone(), empty.clone(), empty, group.sum.to_string()];
        page.figures("  = together", total, sheet.currency.clone().unwrap_or_default());
    }
}

/// In how many packs, and from when on it is short.
fn remark(line: &StoreLine) -> String {
    let packs = line.packs.as_ref().filter(|(count, _)| *count > 0).map(|(count, pack)| {
        let noun = if *count == 1 { "pack" } else { "packs" };
        format!("{count} {noun} of {}", kilograms(pack))
    });
    let is_ordered = matches!(line.action, Action::OrderBy(_) | Action::Unsaid);
    let short =
        line.short_on.filter(|_| is_ordered).map(|date| format!("short on {}", date.strftime("%a %-d %b")));
    let parts: Vec<String> = packs.into_iter().chain(short).collect();
    parts.join(", ")
}

fn add_total(page: &mut TextPage<4>, sheet: &StoreSheet) {
    let total = sheet.total;
    let currency = sheet.currency.as_ref().map(|letters| format!(" {letters}")).unwrap_or_default();
    let unpriced = listed(sheet.unpriced().map(|line| &line.name), "and");
    page.text(if unpriced.is_empty() {
        format!("Together {total}{currency}.")
    } else {
        format!("Together {total}{currency}, and it is incomplete: no price is known of {unpriced}.")
    });
}
