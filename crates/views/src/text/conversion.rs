//! What a conversion did, as text: what was chosen, how the yeast was counted, and both doughs side by side.

use levamen_convert::YeastCount;
use levamen_quantity::Share;

use super::compare;
use levamen_sheets::ConversionSheet;

/// The widest line of running text, in characters.
const WIDEST: usize = 96;

/// What a conversion did. The dough's own text is that of the conversion.
#[must_use]
pub fn conversion(sheet: &ConversionSheet<'_>) -> String {
    let done = sheet.done;
    let mut page = String::new();
    for remark in &done.remarks {
        item(&mut page, remark);
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
    let before = percent(&count.before);
    let now = match percent(&count.whole) {
        after if count.whole == count.before => format!("{after} now, as before"),
        after => format!("{after} now"),
    };
    item(page, &format!("{name} in all: {before} before, {now}"));
    if let Some(dose) = &count.dose {
        let whence = match &dose.printed {
            Some((least, most)) => {
                format!(
                    "for its hours and temperature; printed pre-ferments have {} to {}",
                    percent(least),
                    percent(most)
                )
            }
            None => "as asked for".to_owned(),
        };
        item(page, &format!("in the pre-ferment: {} of its flour, {whence}", percent(&dose.share)));
        for remark in &dose.remarks {
            item(page, remark);
        }
    }
    item(page, &format!("in the final dough: {}. The rule: {}", percent(&count.final_dough), count.rule));
}

/// A share with as many decimals as yeast needs.
fn percent(share: &Share) -> String {
    if share.fraction().is_zero() {
        return "none".to_owned();
    }
    format!("{} %", share.percent().to_trimmed(4))
}

/// One point of a list, its words broken into lines.
fn item(page: &mut String, words: &str) {
    let mut line = "- ".to_owned();
    let mut width = 2;
    for (at, word) in words.split(' ').enumerate() {
        let length = word.chars().count();
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
