//! `levamen cost`

use levamen::{DoughCosts, cost_orders, dough_costs, orders_costs};
use levamen_views::{json, text};

use super::print;
use crate::args::{Arguments, CostArguments};
use crate::dates;
use crate::failure::Failure;
use crate::opened::Opened;
use crate::ordered;

pub fn run(arguments: &Arguments, asked: &CostArguments) -> Result<(), Failure> {
    if asked.date.is_none() && !asked.files.orders.is_empty() {
        return Err(Failure::usage("`--orders` alone does not say which day is meant")
            .help("name it: --date 2026-11-27"));
    }
    let book = Opened::book(&arguments.book)?;
    match &asked.date {
        Some(words) => of_orders(arguments, asked, &book, words),
        None => of_doughs(arguments, asked, &book),
    }
}

/// What doughs cost: those that are named, or an overview of all.
fn of_doughs(arguments: &Arguments, asked: &CostArguments, book: &Opened) -> Result<(), Failure> {
    let costs = dough_costs(book, &asked.names)?;
    book.remind(" elsewhere");
    let as_json = || json::CostsJson {
        currency: costs.currency.clone(),
        doughs: costs.doughs.iter().map(json::DoughCostJson::from).collect(),
        orders: None,
    };
    let as_text = || {
        let DoughCosts { currency, doughs } = &costs;
        let currency = currency.as_deref();
        if asked.names.is_empty() {
            return text::costs(&costs.by_name(), currency);
        }
        doughs.iter().map(|dough| text::cost(dough, currency)).collect::<Vec<_>>().join("\n")
    };
    print(arguments, as_json, as_text)
}

/// What the orders of a day cost.
fn of_orders(arguments: &Arguments, asked: &CostArguments, book: &Opened, date: &str) -> Result<(), Failure> {
    let date = dates::date("the orders", date)?;
    book.plan_bakery()?;
    let orders = asked.files.files(&arguments.book)?;
    let orders = asked.files.ask(&orders, |orders| cost_orders(book, date, &orders))?;
    ordered::report(&orders);
    let costs = orders_costs(book, date, orders)?;
    let currency = costs.currency.as_deref();
    let as_json = || json::CostsJson {
        currency: costs.currency.clone(),
        doughs: Vec::new(),
        orders: Some(json::OrdersCostJson::from(&costs.cost)),
    };
    print(arguments, as_json, || text::orders_cost(&costs.cost, currency))?;
    book.remind(" elsewhere");
    asked.files.settle(&costs.orders, Vec::new(), arguments.json)
}
