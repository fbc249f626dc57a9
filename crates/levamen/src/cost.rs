//! What doughs, pieces and orders cost.

use std::collections::BTreeMap;

use jiff::civil::Date;
use levamen_bakery::{Bakery, Product, ProductId};
use levamen_calendar::Days;
use levamen_formula::{FormulaId, Role};
use levamen_language::Problem;
use levamen_orders::Orders;
use levamen_plan::{Cost, Day};
use levamen_sheets::{DoughCost, Ordered, OrdersCost};

use crate::error::Error;
use crate::orders::{OrdersQuestion, read_orders};
use crate::progress::Silent;
use crate::workspace::Workspace;
use crate::{days, sound};

/// What doughs cost.
#[derive(Debug)]
pub struct DoughCosts {
    /// The currency, where the bakery's card names one.
    pub currency: Option<String>,
    /// Each dough.
    pub doughs: Vec<DoughCost>,
}

impl DoughCosts {
    /// The doughs by their names.
    #[must_use]
    pub fn by_name(&self) -> Vec<DoughCost> {
        let mut doughs = self.doughs.clone();
        doughs.sort_by(|a, b| a.dough.cmp(&b.dough));
        doughs
    }
}

/// What the orders of a day cost.
#[derive(Debug)]
pub struct OrdersCosts {
    /// The currency, where the bakery's card names one.
    pub currency: Option<String>,
    /// What they cost, customer by customer.
    pub cost: OrdersCost,
    /// The orders, with what is wrong with them.
    pub orders: Orders,
}

/// What doughs cost: those of the names, of doughs or of products, in that order; without names all that are sound, in the order of the book.
///
/// # Errors
/// The cards have problems; a dough that is named is not there, or has problems.
pub fn dough_costs(workspace: &Workspace, names: &[String]) -> Result<DoughCosts, Error> {
    let bakery = sound::bakery(workspace)?;
    let cost = |id: FormulaId| {
        let balance = workspace.balance(id)?;
        let products: Vec<&Product> = bakery.products.iter().filter(|product| product.dough == id).collect();
        Ok(DoughCost::new(bakery, &balance, &products)?)
    };
    let doughs = if names.is_empty() {
        let doughs = workspace.book().entries().filter(|(_, entry)| entry.role == Role::Dough);
        doughs.filter_map(|(id, _)| cost(id).ok()).collect()
    } else {
        let named = names.iter().map(|name| cost(named(workspace, bakery, name)?));
        named.collect::<Result<_, Error>>()?
    };
    Ok(DoughCosts { currency: bakery.settings.currency.clone(), doughs })
}

/// A dough by its name, or by that of a product.
fn named(workspace: &Workspace, bakery: &Bakery, name: &str) -> Result<FormulaId, Error> {
    match bakery.find_product(name).filter(|_| workspace.book().find(name).is_none()) {
        Some(product) => Ok(product.dough),
        None => workspace.find(name),
    }
}

/// Reads the orders of a day, each customer's apart.
///
/// # Errors
/// The cards of the bakery have problems.
pub fn cost_orders(
    workspace: &Workspace,
    date: Date,
    question: &OrdersQuestion<'_>,
) -> Result<Orders, Error> {
    Ok(read_orders(sound::bakery(workspace)?, question, Days::one(date), true))
}

/// What the orders of a day cost, customer by customer.
///
/// # Errors
/// The book has problems in what the day relies on, or the day cannot be planned.
pub fn orders_costs(workspace: &Workspace, date: Date, orders: Orders) -> Result<OrdersCosts, Error> {
    let bakery = sound::bakery(workspace)?;
    let one_day = Days::one(date);
    let planned = days::days(workspace, bakery, &orders, one_day, &Silent).next().transpose()?;
    let day = planned.as_ref().map(|(_, day)| day);
    let pieces = pieces(workspace, bakery, day)?;
    let cost = OrdersCost::new(date, bakery, &pieces, &ordered_pieces(&orders, day))?;
    Ok(OrdersCosts { currency: bakery.settings.currency.clone(), cost, orders })
}

/// What one piece costs of each product of a day.
fn pieces(
    workspace: &Workspace,
    bakery: &Bakery,
    day: Option<&Day>,
) -> Result<BTreeMap<ProductId, Cost>, Error> {
    let needs = day.into_iter().flat_map(|day| &day.doughs).flat_map(|dough| &dough.need.pieces);
    let products = needs.filter_map(|pieces| Some((pieces.product, bakery.product(pieces.product)?)));
    let cost = |(id, product): (ProductId, &Product)| {
        let balance = workspace.balance(product.dough)?;
        let cost = Cost::of_piece(bakery, product, &balance);
        Ok((id, cost.ok_or_else(|| workspace.fail(vec![Problem::internal("a piece has no cost")]))?))
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
            product: *product,
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
