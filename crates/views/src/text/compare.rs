//! Two doughs side by side as text: what each has, and how much more the second has. What a conversion did: what was
//! chosen, how the yeast was counted, and both doughs.

use levamen_balance::{Compared, ComparedAmount, ComparedStage, Comparison};
use levamen_convert::YeastCount;
use levamen_formula::StageKind;
use levamen_quantity::{Exact, Share};
use levamen_sheets::ConversionSheet;

use super::TextPage;
use super::figures::{grams_cell, percent_cell, weight, yeast_percent};
use super::page;

/// Shares of both and their difference, weights of both and theirs.
const OF_ALL_FLOUR: [&str; 6] = ["A, % of flour", "B", "B - A", "A, grams", "B", "B - A"];
const OF_OWN_FLOUR: [&str; 6] = ["A, % of its flour", "B", "B - A", "A, grams", "B", "B - A"];

/// Two doughs side by side. What one of them has not is left empty, and so is a difference of nothing.
#[must_use]
pub fn compare(comparison: &Comparison) -> String {
    let mut page = TextPage::new(20);
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

fn stage_of(page: &mut TextPage<6>, stage: &ComparedStage) {
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

fn row_of(page: &mut TextPage<6>, row: &Compared, name: &str) {
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

fn shares_difference(shares: &[Share; 2]) -> String {
    let difference = Comparison::difference(shares);
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

/// The widest line of running text, in characters.
const WIDEST: usize = 96;

/// What a conversion did. The dough's own text is that of the conversion.
#[must_use]
pub fn conversion(sheet: &ConversionSheet) -> String {
    let done = &sheet.done;
    let mut page = String::new();
    for remark in &done.remarks {
        point(&mut page, remark);
    }
    if let Some(count) = &done.yeast {
        yeast(&mut page, count);
    }
    if !page.is_empty() {
        page.push('\n');
    }
    page + &compare(&sheet.comparison)
}

fn yeast(page: &mut String, count: &YeastCount) {
    let name = &count.name;
    let before = yeast_percent(&count.before);
    let now = match yeast_percent(&count.whole) {
        after if count.whole == count.before => format!("{after} now, as before"),
        after => format!("{after} now"),
    };
    point(page, &format!("{name} in all: {before} before, {now}"));
    if let Some(dose) = &count.dose {
        let whence = match &dose.printed {
            Some((least, most)) => {
                format!(
                    "for its hours and temperature; printed pre-ferments have {} to {}",
                    yeast_percent(least),
                    yeast_percent(most)
                )
            }
            None => "as asked for".to_owned(),
        };
        point(page, &format!("in the pre-ferment: {} of its flour, {whence}", yeast_percent(&dose.share)));
        for remark in &dose.remarks {
            point(page, remark);
        }
    }
    point(
        page,
        &format!("in the final dough: {}. The rule: {}", yeast_percent(&count.final_dough), count.rule),
    );
}

/// One point of a list, its words broken into lines.
fn point(page: &mut String, words: &str) {
    let mut line = "- ".to_owned();
    let mut width = 2;
    for (at, word) in words.split(' ').enumerate() {
        let length = page::width(word);
        if at > 0 && width + 1 + length > WIDEST {
            *page += &line;
            page.push('\n');
            "  ".clone_into(&mut line);
            width = 2;
        } else if at > 0 {
            line.push(' ');
            width += 1;
        }
        line += word;
        width += length;
    }
    *page += &line;
    page.push('\n');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_difference_has_its_sign_and_nothing_has_no_difference() {
        let cells = [2, -2, 0].map(|percent: i64| {
            let share = |percent: i64| Share::from_percent(Exact::from(percent));
            shares_difference(&[share(60), share(60 + percent)])
        });
        assert_eq!(cells, ["+2.00", "-2.00", ""]);
    }

    #[test]
    fn a_stage_is_titled_by_the_dough_that_has_it() {
        let none = || Compared { name: String::new(), amounts: [None, None] };
        let title = |names: [Option<&str>; 2]| {
            stage_title(&ComparedStage {
                names: names.map(|name| name.map(str::to_owned)),
                kind: StageKind::FinalDough,
                lines: Vec::new(),
                made: none(),
                hydration: [None, None],
            })
        };
        assert_eq!(title([Some("poolish"), Some("poolish")]), "poolish");
        assert_eq!(title([Some("poolish"), Some("levain")]), "poolish / levain");
        assert_eq!(
            [title([Some("poolish"), None]), title([None, Some("levain")])],
            ["poolish, only A", "levain, only B"]
        );
    }

    #[test]
    fn a_point_is_broken_between_words() {
        let mut page = String::new();
        point(&mut page, &"thirty ".repeat(20));
        assert!(page.lines().count() == 2 && page.lines().all(|line| line.len() <= WIDEST), "{page}");
        assert!(page.starts_with("- thirty") && page.lines().nth(1).unwrap().starts_with("  thirty"));
    }
}
