//! `levamen cost`

use std::collections::BTreeMap;

use jiff::civil::Date;
use levamen_bakery::{Bakery, Product};
use levamen_balance::Balance;
use levamen_formula::{FormulaId, Role};
use levamen_orders::{Days, Orders};
use levamen_plan::{Cost, Day};
use levamen_sheets::{DoughCost, Ordered, OrdersCost, RoundingError};
use levamen_views::{json, text};

use super::{print_json, remind};
use crate::args::{Arguments, CostArguments};
use crate::failure::Failure;
use crate::shelf::Shelf;
use crate::{ordered, output, planned, relied};

pub fn run(arguments: &Arguments, asked: &CostArguments) -> Result<(), Failure> {
    if asked.date.is_none() && !asked.files.orders.is_empty() {
        return Err(Failure::usage("`--orders` alone does not say which day is meant")
            .help("name it: --date 2026-11-27"));
    }
    let shelf = Shelf::open(&arguments.book)?;
    let bakery = relied::bakery(&shelf)?;
    match &asked.date {
        Some(words) => of_orders(arguments, asked, &shelf, &bakery, ordered::date("the orders", words)?),
        None => of_doughs(arguments, asked, &shelf, &bakery),
    }
}

/// What doughs cost: those that are named, or all that are sound.
fn of_doughs(
    arguments: &Arguments,
    asked: &CostArguments,
    shelf: &Shelf,
    bakery: &Bakery,
) -> Result<(), Failure> {
    let balances: Vec<(FormulaId, Balance)> = if asked.names.is_empty() {
        let doughs = shelf.book.entries().filter(|(_, entry)| entry.role == Role::Dough).map(|(id, _)| id);
        doughs.filter_map(|id| Some((id, shelf.balance(id).ok()?))).collect()
    } else {
        let named = asked.names.iter().map(|name| named(shelf, bakery, name));
        named.map(|id| id.and_then(|id| Ok((id, shelf.balance(id)?)))).collect::<Result<_, Failure>>()?
    };
    let cost = |(id, balance): &(FormulaId, Balance)| {
        let products: Vec<&Product> = bakery.products.iter().filter(|product| product.dough == *id).collect();
        DoughCost::new(bakery, balance, &products)
    };
    let mut doughs = balances.iter().map(cost).collect::<Result<Vec<DoughCost>, RoundingError>>()?;
    let currency = bakery.settings.currency.as_deref();
    remind(shelf, " elsewhere");
    if arguments.json {
        let doughs = doughs.iter().map(json::DoughCostJson::from).collect();
        return print_json(&json::CostsJson { currency: currency.map(str::to_owned), doughs, orders: None });
    }
    if asked.names.is_empty() {
        doughs.sort_by(|a, b| a.dough.cmp(&b.dough));
        return output::result(text::costs(&doughs, currency).as_bytes());
    }
    let pages: Vec<String> = doughs.iter().map(|dough| text::cost(dough, currency)).collect();
    output::result(pages.join("\n").as_bytes())
}

/// A dough by its name, or by that of a product.
fn named(shelf: &Shelf, bakery: &Bakery, name: &str) -> Result<FormulaId, Failure> {
    match bakery.product(name).filter(|_| shelf.book.find(name).is_none()) {
        Some(product) => Ok(product.dough),
        None => shelf.find(name),
    }
}

/// What the orders of a day cost.
fn of_orders(
    arguments: &Arguments,
    asked: &CostArguments,
    shelf: &Shelf,
    bakery: &Bakery,
    date: Date,
) -> Result<(), Failure> {
    let days = Days::one(date);
    let orders = ordered::orders(&asked.files, &arguments.book, bakery, days, true)?;
    ordered::tell(&orders);
    let planned = planned::days(shelf, bakery, &orders, days).next().transpose()?;
    let day = planned.as_ref().map(|(_, day)| day);
    let pieces = pieces(shelf, bakery, day)?;
    let cost = OrdersCost::new(date, bakery, &pieces, &ordered_pieces(&orders, day))?;
    let currency = bakery.settings.currency.as_deref();
    if arguments.json {
        let orders = Some(json::OrdersCostJson::from(&cost));
        print_json(&json::CostsJson { currency: currency.map(str::to_owned), doughs: Vec::new(), orders })?;
    } else {
        output::result(text::orders_cost(&cost, currency).as_bytes())?;
    }
    remind(shelf, " elsewhere");
    ordered::settle(&orders, &asked.files)
}

/// What one piece costs of each product of a day.
fn pieces(shelf: &Shelf, bakery: &Bakery, day: Option<&Day>) -> Result<BTreeMap<usize, Cost>, Failure> {
    let needs = day.into_iter().flat_map(|day| &day.doughs).flat_map(|dough| &dough.need.pieces);
    let products = needs.filter_map(|pieces| Some((pieces.product, bakery.products.get(pieces.product)?)));
    let cost = |(index, product): (usize, &Product)| {
        let balance = shelf.balance(product.dough)?;
        Ok((index, Cost::of_piece(bakery, product, &balance)))
    };
    products.map(cost).collect()
}

/// What each customer ordered, and at last what is made beyond the orders.
fn ordered_pieces(orders: &Orders, day: Option<&Day>) -> Vec<Ordered> {
    let mut all: Vec<Ordered> = orders
        .by_customer
        .iter()
        .map(|((_, customer, product), pieces)| Ordered {
            customer: Some(customer.clone()),
            product: product.index(),
            pieces: pieces.count(),
        })
        .collect();
    let needs = day.into_iter().flat_map(|day| &day.doughs).flat_map(|dough| &dough.need.pieces);
    let beyond = needs.filter(|pieces| pieces.made > pieces.ordered).map(|pieces| Ordered {
        customer: None,
        product: pieces.product,
        pieces: pieces.made - pieces.ordered,
    });
    all.extend(beyond);
    all
}
