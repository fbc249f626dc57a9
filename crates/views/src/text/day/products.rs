//! What is ordered and what is made of it.

use levamen_quantity::Mass;

use super::gram;
use crate::text::Page;
use crate::text::weights::with_unit;
use crate::text::words::weight;
use levamen_sheets::{DayPage, Weight};

/// Each product with its pieces; each dough that others take, and what is kept as old dough.
pub(super) fn products(page: &DayPage<'_>) -> String {
    if page.day.doughs.is_empty() {
        return String::new();
    }
    let mut out = Page::<3>::new(0);
    out.titles("What is made", ["ordered", "made", "dough"], "");
    for (dough, sheet) in page.day.doughs.iter().zip(&page.sheets.doughs) {
        let goes = &sheet.goes_into;
        for (pieces, dough) in
            dough.need.pieces.iter().zip(&goes.pieces).filter(|(pieces, _)| pieces.made > 0)
        {
            let Some(product) = page.bakery.products.get(pieces.product) else { continue };
            let each = format!("{} each", weight(&product.piece.dough().round_to(&gram())));
            let cells = [pieces.ordered.to_string(), pieces.made.to_string(), kilograms(*dough)];
            out.figures(format!("  {}", product.name), cells, each);
        }
        for (taken, mass) in dough.need.taken.iter().zip(&goes.taken) {
            let by = page.book.entry(taken.by).map_or("another dough", |entry| entry.name.as_str());
            let how =
                if taken.is_base { format!("base of {by}") } else { format!("{} of {by}", taken.stage) };
            let cells = [String::new(), String::new(), kilograms(*mass)];
            out.figures(format!("  {}", dough.balance.dough), cells, how);
        }
        if dough.need.kept > Mass::ZERO {
            let cells = [String::new(), String::new(), kilograms(goes.kept)];
            out.figures(format!("  {}", dough.balance.dough), cells, "kept as old dough for tomorrow");
        }
    }
    out.render()
}

fn kilograms(weight: Weight) -> String {
    with_unit(&weight, &gram())
}
