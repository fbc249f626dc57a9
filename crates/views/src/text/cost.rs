//! What doughs, pieces and orders cost, as text.

use levamen_language::listed;
use levamen_sheets::{DoughCost, Money, OrdersCost};

use super::TextPage;
use super::figures::{day, hundredths_of_grams, weight};

/// Room for the names of most products.
const LEAST_LABEL: usize = 28;

/// What is not in any cost, said once.
const FOOT: &str = "Ingredients alone, with what is lost and wasted of them; no work, heat or packing.";

/// What doughs cost, a line each, with their products under them.
#[must_use]
pub fn costs(doughs: &[DoughCost], currency: Option<&str>) -> String {
    let mut page = TextPage::new(LEAST_LABEL);
    page.titles(title("Costs", currency), ["1 kg or piece", "batch"], "");
    for dough in doughs {
        let batch = dough.batch.as_ref().map(Money::to_string).unwrap_or_default();
        let size = dough.size.as_ref().map(|size| format!("for {}", weight(size)));
        let remark = joined(size, &dough.unpriced);
        page.figures(dough.dough.clone(), [dough.kilogram.to_string(), batch], remark);
        for piece in &dough.pieces {
            let cells = [piece.price.to_string(), String::new()];
            page.figures(
                format!("  {}, a piece", piece.product),
                cells,
                joined(None, &piece.unpriced_beside_dough),
            );
        }
    }
    page.text("");
    add_unpriced(&mut page, doughs);
    page.text(FOOT);
    page.render()
}

/// What one dough costs, ingredient by ingredient.
#[must_use]
pub fn cost(dough: &DoughCost, currency: Option<&str>) -> String {
    let mut page = TextPage::new(LEAST_LABEL);
    page.titles(title(&dough.dough, currency), ["grams in 1 kg", "price"], "");
    for line in &dough.lines {
        let price = line.price.as_ref().map_or("none".to_owned(), Money::to_string);
        page.figures(format!("  {}", line.name), [hundredths_of_grams(&line.mass), price], "");
    }
    page.figures("  = a kilogram of dough", [String::new(), dough.kilogram.to_string()], "");
    if let (Some(size), Some(batch)) = (&dough.size, &dough.batch) {
        page.figures(format!("  its batch of {}", weight(size)), [String::new(), batch.to_string()], "");
    }
    for piece in &dough.pieces {
        page.figures(format!("  {}, a piece", piece.product), [String::new(), piece.price.to_string()], "");
    }
    page.text("");
    add_unpriced(&mut page, std::slice::from_ref(dough));
    page.text(FOOT);
    page.render()
}

/// What the orders of a day cost, customer by customer.
#[must_use]
pub fn orders_cost(cost: &OrdersCost, currency: Option<&str>) -> String {
    let mut page = TextPage::new(LEAST_LABEL);
    page.text(title(&format!("Orders for {}", day(cost.date)), currency));
    for customer in &cost.customers {
        let name = customer.customer.as_deref().unwrap_or("ordered by nobody: spares and full heads");
        page.text("");
        page.titles(name, ["pieces", "cost"], "");
        for line in &customer.lines {
            page.figures(
                format!("  {}", line.product),
                [line.pieces.to_string(), line.price.to_string()],
                "",
            );
        }
        page.figures("  = together", [String::new(), customer.sum.to_string()], "");
    }
    page.text("");
    if cost.customers.is_empty() {
        page.text("Nothing is ordered.");
        return page.render();
    }
    page.figures("All of it", [String::new(), cost.total.to_string()], "");
    if !cost.unpriced.is_empty() {
        page.text(incomplete(&cost.unpriced));
    }
    page.text(FOOT);
    page.render()
}

fn title(what: &str, currency: Option<&str>) -> String {
    currency.map_or_else(|| what.to_owned(), |letters| format!("{what}, in {letters}"))
}

/// `for 22 kg, without dulse flakes`
fn joined(size: Option<String>, unpriced: &[String]) -> String {
    let lacks = (!unpriced.is_empty()).then(|| format!("without {}", listed(unpriced, "and")));
    let parts: Vec<String> = size.into_iter().chain(lacks).collect();
    parts.join(", ")
}

fn add_unpriced(page: &mut TextPage<2>, doughs: &[DoughCost]) {
    let names = DoughCost::all_unpriced(doughs);
    if !names.is_empty() {
        page.text(incomplete(&names));
    }
}

fn incomplete(names: &[String]) -> String {
    format!("Incomplete: no price is known of {}.", listed(names, "and"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_cost_is_without_is_said_after_its_size() {
        let lacks = ["dulse flakes".to_owned(), "ale".to_owned()];
        assert_eq!(joined(Some("for 22 kg".to_owned()), &lacks), "for 22 kg, without dulse flakes and ale");
        assert_eq!([joined(None, &lacks[1..]), joined(None, &[])], ["without ale", ""]);
        assert_eq!(incomplete(&lacks), "Incomplete: no price is known of dulse flakes and ale.");
    }

    #[test]
    fn a_currency_is_named_where_the_bakery_has_one() {
        assert_eq!([title("Costs", Some("EUR")), title("Costs", None)], ["Costs, in EUR", "Costs"]);
    }
}
