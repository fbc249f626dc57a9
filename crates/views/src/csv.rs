//! CSV as RFC 4180 has it: a header, commas, lines that end in CR LF.

use ::csv::{Terminator, WriterBuilder};
use levamen_language::Problem;
use levamen_quantity::{Exact, Mass, Share};
use levamen_sheets::{LineSheet, LineSource, OnScale, Sheet, StageSheet, StoreSheet, Weight};

use crate::json::{DecimalJson, LineKindJson, StockJson};

/// The columns of a sheet. Weights are in grams and shares in percent. The dough and what is made of it stand in every row, so
/// that sheets can be put under each other.
const HEADER: [&str; 14] = [
    "dough",
    "batch_grams",
    "stage",
    "kind",
    "ingredient",
    "what",
    "grams",
    "scale",
    "division_g",
    "loads",
    "exact_grams",
    "pct_stage_flour",
    "pct_total_flour",
    "goes_in",
];

/// The bench sheet, a row for each line of each stage; what is not weighed has no scale.
///
/// # Errors
/// Only those of the writer; into memory there are none.
pub fn sheet(sheet: &Sheet) -> Result<Vec<u8>, Problem> {
    let lines =
        sheet.stages.iter().flat_map(|stage| stage.lines.iter().map(move |line| row(sheet, stage, line)));
    written(&HEADER, lines)
}

/// A header and its rows.
fn written<const N: usize>(
    header: &[&str; N],
    rows: impl Iterator<Item = [String; N]>,
) -> Result<Vec<u8>, Problem> {
    let bytes = || -> Result<Vec<u8>, ::csv::Error> {
        let mut writer = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
        writer.write_record(header)?;
        for row in rows {
            writer.write_record(row)?;
        }
        writer.into_inner().map_err(|error| error.into_error().into())
    };
    bytes().map_err(|error| Problem::error("not-written", format!("the CSV could not be made: {error}")))
}

fn row(sheet: &Sheet, stage: &StageSheet, line: &LineSheet) -> [String; HEADER.len()] {
    let exact = |mass: &Mass| mass.grams().to_decimal_string();
    let grams = |weight: Weight| weight.grams().to_string();
    let percent = |share: &Share| Exact::to_decimal_string(&share.percent());
    let loads = |on: &OnScale| on.loads.map(|loads| loads.to_string()).unwrap_or_default();
    let [scale, division, loads] = match &line.source {
        LineSource::Weighed(on) => [harmless(&on.scale.name), exact(&on.scale.division), loads(on)],
        LineSource::WholeTub | LineSource::RestOfTub => [const { String::new() }; 3],
    };
    [
        harmless(&sheet.dough),
        grams(sheet.batch),
        harmless(&stage.name),
        harmless(stage.kind.name()),
        harmless(&line.name),
        LineKindJson::from(line.item).name().to_owned(),
        grams(line.weight),
        scale,
        division,
        loads,
        exact(&line.exact),
        line.of_own_flour.as_ref().map(percent).unwrap_or_default(),
        percent(&line.of_all_flour),
        line.when.as_deref().map(harmless).unwrap_or_default(),
    ]
}

/// A text that a spreadsheet cannot take for a formula.
fn harmless(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r']) { format!("'{text}") } else { text.to_owned() }
}

/// The columns of the list. Weights are in grams.
const STORE_HEADER: [&str; 11] = [
    "ingredient",
    "action",
    "order_by",
    "short_on",
    "issued_g",
    "needed_g",
    "on_hand_g",
    "to_buy_g",
    "packs",
    "pack_g",
    "price",
];

/// The store room's list, a row for each ingredient, those to order first.
///
/// # Errors
/// Only those of the writer; into memory there are none.
pub fn store(sheet: &StoreSheet) -> Result<Vec<u8>, Problem> {
    written(&STORE_HEADER, sheet.lines().map(|line| store_row(StockJson::from(line))))
}

fn store_row(line: StockJson) -> [String; STORE_HEADER.len()] {
    let figure =
        |figure: Option<DecimalJson>| figure.map(|figure| figure.as_str().to_owned()).unwrap_or_default();
    [
        harmless(&line.ingredient),
        line.action,
        line.order_by.unwrap_or_default(),
        line.short_on.unwrap_or_default(),
        figure(Some(line.issued_g)),
        figure(Some(line.needed_g)),
        figure(Some(line.on_hand_g)),
        figure(Some(line.to_buy_g)),
        line.packs.map(|packs| packs.to_string()).unwrap_or_default(),
        figure(line.pack_g),
        figure(line.price),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_looks_like_a_formula_is_text() {
        for text in ["=1+1", "+1", "-1", "@sum", "\tx", "\rx"] {
            assert_eq!(harmless(text), format!("'{text}"));
        }
        assert_eq!(harmless("water"), "water");
        assert_eq!(harmless("flour -00-"), "flour -00-");
    }
}
