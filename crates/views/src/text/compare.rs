//! Two doughs side by side as text: what each has, and how much more the second has.

use levamen_balance::{Compared, ComparedAmount, ComparedStage, Comparison};
use levamen_formula::StageKind;
use levamen_quantity::{Exact, Share};

use super::Page;
use super::words::{grams_cell, percent_cell, weight};

/// Shares of both and their difference, weights of both and theirs.
const OF_ALL_FLOUR: [&str; 6] = ["A, % of flour", "B", "B - A", "A, grams", "B", "B - A"];
const OF_OWN_FLOUR: [&str; 6] = ["A, % of its flour", "B", "B - A", "A, grams", "B", "B - A"];

/// Two doughs side by side. What one of them has not is left empty, and so is a difference of nothing.
#[must_use]
pub fn compare(comparison: &Comparison) -> String {
    let mut page = Page::new(20);
    for ((letter, name), flour) in ["A", "B"].iter().zip(&comparison.doughs).zip(&comparison.flour) {
        page.text(format!("{letter}  {name}, from {} of flour", weight(flour)));
    }
    page.text("");
    page.titles("figures", OF_ALL_FLOUR, "");
    for (name, shares) in &comparison.figures {
        let difference = shares_difference(shares);
        let [one, other] = shares.each_ref().map(percent_cell);
        page.figures(
            format!("  {name}"),
            [one, other, difference, String::new(), String::new(), String::new()],
            "",
        );
    }
    page.text("");
    page.titles("overall", OF_ALL_FLOUR, "");
    for row in &comparison.rows {
        row_of(&mut page, row, &row.name);
    }
    row_of(&mut page, &comparison.dough, "= dough");
    for stage in &comparison.stages {
        stage_of(&mut page, stage);
    }
    page.render()
}

fn stage_of(page: &mut Page<6>, stage: &ComparedStage) {
    page.text("");
    page.titles(stage_title(stage), OF_OWN_FLOUR, "");
    if let [Some(one), Some(other)] = &stage.hydration {
        let shares = [one.clone(), other.clone()];
        let difference = shares_difference(&shares);
        let [one, other] = shares.each_ref().map(percent_cell);
        page.figures(
            "  hydration",
            [one, other, difference, String::new(), String::new(), String::new()],
            "",
        );
    }
    for line in &stage.lines {
        row_of(page, line, &line.name);
    }
    row_of(page, &stage.made, if stage.kind == StageKind::FinalDough { "= dough" } else { "= in the tub" });
}

/// The stage's name; where the two call it otherwise, both names.
fn stage_title(stage: &ComparedStage) -> String {
    match &stage.names {
        [Some(one), Some(other)] if one == other => one.clone(),
        [Some(one), Some(other)] => format!("{one} / {other}"),
        [Some(one), None] => format!("{one}, only A"),
        [None, Some(other)] => format!("{other}, only B"),
        [None, None] => String::new(),
    }
}

fn row_of(page: &mut Page<6>, row: &Compared, name: &str) {
    let shares = row.amounts.each_ref().map(|amount| {
        amount.as_ref().and_then(|amount| amount.share.as_ref()).map(percent_cell).unwrap_or_default()
    });
    let weights = row.amounts.each_ref().map(|amount| amount.as_ref().map(grams).unwrap_or_default());
    let (share, weight) = row.difference();
    let share = share.map(|share| signed(share.fraction(), percent_cell(&share))).unwrap_or_default();
    let weight = signed(weight.grams(), grams_cell(&weight));
    let ([one, other], [in_one, in_other]) = (shares, weights);
    page.figures(format!("  {name}"), [one, other, share, in_one, in_other, weight], "");
}

fn grams(amount: &ComparedAmount) -> String {
    grams_cell(&amount.weight)
}

fn shares_difference([one, other]: &[Share; 2]) -> String {
    let difference = Share::from_fraction(other.fraction() - one.fraction());
    signed(difference.fraction(), percent_cell(&difference))
}

/// A difference with its sign; nothing of nothing.
fn signed(difference: &Exact, cell: String) -> String {
    if difference.is_zero() {
        String::new()
    } else if difference.is_positive() {
        format!("+{cell}")
    } else {
        cell
    }
}
