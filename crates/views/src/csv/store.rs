//! The store room's list.

use super::{harmless, written};
use crate::json::{Figure, StockJson};
use levamen_sheets::StoreSheet;

/// The columns of the list. Weights are in grams.
const HEADER: [&str; 11] = [
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
pub fn store(sheet: &StoreSheet) -> Result<Vec<u8>, ::csv::Error> {
    written(&HEADER, sheet.lines().map(|line| row(StockJson::from(line))))
}

fn row(line: StockJson) -> [String; HEADER.len()] {
    let figure = |figure: Option<Figure>| figure.map(|figure| figure.as_str().to_owned()).unwrap_or_default();
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
