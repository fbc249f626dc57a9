//! A dough's formula as text, every figure unrounded, for reading and not for weighing; and the doughs of a book, a line each.

use levamen::ListedDough;
use levamen_balance::{Balance, BalancedItem, BalancedStage, Batch};
use levamen_formula::{Role, StageKind};
use levamen_quantity::{Mass, Share};
use levamen_sheets::FormulaSheet;

use super::TextPage;
use super::figures::{grams_cell, percent, percent_cell, short, weight};
use super::naming::{line_name, pieces_words, ripens, short_words, stage_name, timed};
use super::page::underline;

const TITLES: [&str; 3] = ["% of its flour", "% of all flour", "grams"];
const FOOT: &str = "Weights here are exact, not rounded to a scale: the sheet is what to weigh from.";

/// The formula of a batch.
///
/// "Its flour" is the flour weighed into a stage as such, "all flour" that of the whole dough.
#[must_use]
pub fn formula(sheet: &FormulaSheet<'_>) -> String {
    let batch = &sheet.batch;
    let mut page = TextPage::new(24);
    heading(&mut page, sheet);
    let stages = &batch.balance().stages;
    match stages.as_slice() {
        [only] if is_plain(only) => only_table(&mut page, batch, only),
        _ => {
            overall(&mut page, batch);
            for stage in stages {
                stage_table(&mut page, batch, stage);
            }
        }
    }
    if !sheet.cautions.is_empty() {
        page.text("");
    }
    for caution in &sheet.cautions {
        page.text(format!("Caution, {}: {}", caution.name, caution.words()));
    }
    page.text("");
    page.text(FOOT);
    page.render()
}

/// Whether a formula that has no other stage is all that this one says: nothing with a composition of its own goes into it,
/// and nothing of it is lost or kept.
fn is_plain(stage: &BalancedStage) -> bool {
    let all_goes_on =
        [&stage.steam, &stage.given_back, &stage.left_over].iter().all(|share| share.fraction().is_zero());
    all_goes_on && stage.lines.iter().all(|line| matches!(line.item, BalancedItem::Ingredient { .. }))
}

/// What the whole is called.
fn noun(batch: &Batch<'_>) -> &'static str {
    match batch.balance().role {
        Role::Dough => "dough",
        Role::Culture => "culture",
    }
}

/// What is mixed last.
fn last_stage(batch: &Batch<'_>, stage: &BalancedStage) -> String {
    match batch.balance().role {
        Role::Culture if stage.kind == StageKind::FinalDough => "feeding".to_owned(),
        _ => stage_name(&stage.name, stage.kind),
    }
}

fn heading(page: &mut TextPage<3>, sheet: &FormulaSheet<'_>) {
    let (batch, balance) = (&sheet.batch, sheet.batch.balance());
    page.text(balance.dough.as_str());
    page.text(underline(&balance.dough));
    page.text(format!(
        "{} of {} from {} of flour",
        weight(&sheet.weight),
        noun(batch),
        weight(batch.flour())
    ));
    if let Some(pieces) = &sheet.pieces {
        page.text(pieces_words(pieces, &sheet.loss));
    }
    kept_back(page, sheet);
    page.text("");
    page.text(key_figures(sheet));
    for note in &balance.notes {
        page.text(format!("note: {note}"));
    }
}

/// What a dough that takes of its own last batch has to keep for the next, and whether its pieces leave that.
fn kept_back(page: &mut TextPage<3>, sheet: &FormulaSheet<'_>) {
    let kept = &sheet.kept_back;
    if *kept == Mass::ZERO {
        return;
    }
    page.text(format!("keep back {} of it for the next batch, before dividing", weight(kept)));
    let short = sheet
        .pieces
        .as_ref()
        .and_then(|pieces| short_words(pieces, &sheet.short, sheet.enough_for_both.as_ref()));
    if let Some(words) = short {
        page.text(words);
    }
}

fn key_figures(sheet: &FormulaSheet<'_>) -> String {
    let (balance, leads) = (sheet.batch.balance(), sheet.is_mostly_in_others);
    let effective = format!("effective hydration {}", percent(&balance.effective_hydration));
    let mut figures = vec![if leads && balance.hydration.fraction().is_zero() {
        format!("{effective}, no added water")
    } else if leads {
        format!("{effective}, of it {} added water", percent(&balance.hydration))
    } else {
        format!("hydration {}", percent(&balance.hydration))
    }];
    if !leads && balance.effective_hydration != balance.hydration {
        figures.push(effective);
    }
    if balance.role == Role::Dough || !balance.salt.fraction().is_zero() {
        figures.push(format!("salt {}", percent(&balance.salt)));
    }
    if !balance.prefermented_flour.fraction().is_zero() {
        figures.push(format!("pre-fermented flour {}", percent(&balance.prefermented_flour)));
    }
    if !leads {
        figures.push(format!("dough yield {}", short(&balance.dough_yield())));
    }
    figures.join(", ")
}

fn overall(page: &mut TextPage<3>, batch: &Batch<'_>) {
    page.text("");
    page.titles("overall", TITLES, "");
    for row in &batch.balance().overall {
        figures(page, batch, &row.name, None, &row.share);
    }
    figures(page, batch, &format!("= {}", noun(batch)), None, &batch.balance().weight);
}

/// The one table of a formula without stages, and what else its lines say.
fn only_table(page: &mut TextPage<3>, batch: &Batch<'_>, stage: &BalancedStage) {
    page.text("");
    let [_, of_flour, grams] = TITLES;
    page.titles(
        if batch.balance().role == Role::Culture { "feeding" } else { "overall" },
        ["", of_flour, grams],
        "",
    );
    for line in &stage.lines {
        figures(
            page,
            batch,
            &timed(line_name(&line.name, line.item), line.when.as_deref()),
            None,
            &line.share,
        );
    }
    figures(page, batch, &format!("= {}", noun(batch)), None, &batch.balance().weight);
    if let Some(ripening) = &stage.ripens {
        page.text(format!("  {}", ripens(ripening)));
    }
    for note in &stage.notes {
        page.text(format!("  note: {note}"));
    }
}

fn stage_table(page: &mut TextPage<3>, batch: &Batch<'_>, stage: &BalancedStage) {
    page.text("");
    page.text(last_stage(batch, stage));
    let facts = stage_facts(stage);
    if !facts.is_empty() {
        page.text(format!("  {facts}"));
    }
    for line in &stage.lines {
        let own = stage.of_own_flour(line);
        figures(
            page,
            batch,
            &timed(line_name(&line.name, line.item), line.when.as_deref()),
            own.as_ref(),
            &line.share,
        );
    }
    let mut figure = |name: &str, share: &Share| {
        if !share.fraction().is_zero() {
            figures(page, batch, name, stage.on_own_flour(share).as_ref(), share);
        }
    };
    figure("- goes off as steam", &stage.steam);
    let whole = format!("= {}", if stage.kind == StageKind::FinalDough { noun(batch) } else { "in the tub" });
    figure(&whole, &stage.made);
    figure("- kept for the next seed", &stage.given_back);
    figure("- left over", &stage.left_over);
    for note in &stage.notes {
        page.text(format!("  note: {note}"));
    }
}

fn stage_facts(stage: &BalancedStage) -> String {
    let hydration = stage.hydration.as_ref().map(|share| format!("hydration {}", percent(share)));
    let fermented = &stage.prefermented_flour;
    let flour =
        (!fermented.fraction().is_zero()).then(|| format!("{} of all flour fermented", percent(fermented)));
    let ripening = stage.ripens.as_ref().map(ripens);
    hydration.into_iter().chain(flour).chain(ripening).collect::<Vec<_>>().join(", ")
}

fn figures(page: &mut TextPage<3>, batch: &Batch<'_>, name: &str, own: Option<&Share>, share: &Share) {
    let own = own.map(percent_cell).unwrap_or_default();
    page.figures(format!("  {name}"), [own, percent_cell(share), grams_cell(&batch.mass(share))], "");
}

const LIST_TITLES: [&str; 3] = ["hydration %", "effective %", "pre-fermented %"];

/// The doughs of a book with their hydration, pre-fermented flour and what is made ahead; a dough with problems has no
/// figures. The effective hydration is shown where it is another, and its column where it is for any of them.
#[must_use]
pub fn list(entries: &[ListedDough]) -> String {
    if entries.iter().filter_map(|entry| entry.balance.as_ref()).any(|balance| effective(balance).is_some()) {
        list_table(entries, LIST_TITLES, |balance| {
            let [hydration, prefermented] = list_cells(balance);
            [hydration, effective(balance).unwrap_or_default(), prefermented]
        })
    } else {
        let [hydration, _, prefermented] = LIST_TITLES;
        list_table(entries, [hydration, prefermented], list_cells)
    }
}

fn list_table<const N: usize>(
    entries: &[ListedDough],
    titles: [&'static str; N],
    cells: impl Fn(&Balance) -> [String; N],
) -> String {
    let mut page = TextPage::new(24);
    page.titles("dough", titles, "made ahead");
    for entry in entries {
        match &entry.balance {
            Some(balance) => page.figures(&entry.dough, cells(balance), made_ahead(balance)),
            None => page.figures(&entry.dough, [const { String::new() }; N], "has problems: see `check`"),
        }
    }
    page.render()
}

fn list_cells(balance: &Balance) -> [String; 2] {
    [percent_cell(&balance.hydration), percent_cell(&balance.prefermented_flour)]
}

/// The effective hydration, where it reads otherwise than the hydration.
fn effective(balance: &Balance) -> Option<String> {
    Some(percent_cell(&balance.effective_hydration)).filter(|cell| *cell != percent_cell(&balance.hydration))
}

fn made_ahead(balance: &Balance) -> String {
    let ahead = balance.stages.iter().filter(|stage| stage.kind != StageKind::FinalDough);
    ahead.map(|BalancedStage { name, .. }| name.as_str()).collect::<Vec<_>>().join(", ")
}
