//! What doughs, pieces and orders cost, rounded once so that lines add up to what is shown of their sum.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::Date;
use levamen_bakery::{Bakery, Product, ProductId};
use levamen_balance::{Balance, StatedSize};
use levamen_plan::{Cost, CostLine};
use levamen_quantity::{Exact, Mass};

use crate::money::{EACH_PLACES, Money, MoneyCell, SUM_PLACES, rounded};
use crate::rounding_error::RoundingError;

/// What a dough and its products cost.
#[derive(Debug, Clone, PartialEq)]
pub struct DoughCost {
    /// The dough's name.
    pub dough: String,
    /// What each ingredient of a kilogram of dough weighs and costs, with four decimals that add up.
    pub lines: Vec<IngredientCost>,
    /// What a kilogram of dough costs: the sum of the lines.
    pub kilogram: Money,
    /// What the dough weighs of which `batch` is the price; `None` where its file says no size.
    pub size: Option<Mass>,
    /// What the dough costs at the size of its file, with two decimals.
    pub batch: Option<Money>,
    /// Its products.
    pub pieces: Vec<PieceCost>,
    /// What of the dough has no price: every sum is that much too small.
    pub unpriced: Vec<String>,
}

/// What one ingredient of a kilogram of dough costs.
#[derive(Debug, Clone, PartialEq)]
pub struct IngredientCost {
    /// Its name.
    pub name: String,
    /// How much of it there is, exact: nobody weighs a kilogram's part.
    pub mass: Mass,
    /// What that costs; `None` without a price.
    pub price: Option<Money>,
}

/// What one piece of a product costs.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceCost {
    /// The product.
    pub product: String,
    /// What a piece costs, dough, losses and toppings, with four decimals.
    pub price: Money,
    /// What of it has no price.
    pub unpriced: Vec<String>,
    /// What of that is not in the dough but goes on the piece.
    pub unpriced_beside_dough: Vec<String>,
}

impl DoughCost {
    /// The costs of a dough and of its products.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a cost has more digits than a decimal holds.
    pub fn new(bakery: &Bakery, balance: &Balance, products: &[&Product]) -> Result<Self, RoundingError> {
        let lines = of_a_kilogram(bakery, balance)?;
        let size = (balance.size != StatedSize::Open).then(|| balance.batch().mass(&balance.weight));
        let batch = size.as_ref().map(|_| Cost::of_dough(bakery, balance, balance.batch().flour()));
        let unpriced = lines.iter().filter(|line| line.price.is_none()).map(|line| line.name.clone());
        let unpriced: Vec<String> = unpriced.collect();
        let pieces = products.iter().map(|product| PieceCost::new(bakery, product, balance, &unpriced));
        let pieces = pieces.collect::<Result<_, _>>()?;
        Ok(Self {
            dough: balance.dough.clone(),
            unpriced,
            kilogram: Money::try_sum(lines.iter().filter_map(|line| line.price), EACH_PLACES)?,
            lines,
            size,
            batch: batch.map(|cost| Money::nearest(&cost.priced, SUM_PLACES)).transpose()?,
            pieces,
        })
    }

    /// What of some doughs and of their pieces has no price, by name.
    #[must_use]
    pub fn all_unpriced(doughs: &[Self]) -> Vec<String> {
        let of_pieces = doughs.iter().flat_map(|dough| &dough.pieces).flat_map(|piece| &piece.unpriced);
        let names: BTreeSet<&String> =
            doughs.iter().flat_map(|dough| &dough.unpriced).chain(of_pieces).collect();
        names.into_iter().cloned().collect()
    }
}

/// What each ingredient of a kilogram of dough costs, rounded together.
fn of_a_kilogram(bakery: &Bakery, balance: &Balance) -> Result<Vec<IngredientCost>, RoundingError> {
    let flour = Exact::from(1000).checked_div(balance.weight.fraction());
    let flour = flour.ok_or_else(|| RoundingError::internal("a dough without a weight"))?;
    let lines = CostLine::of_dough(bakery, balance, &Mass::from_grams(flour));
    let cells = lines.iter().filter_map(|line| line.price.clone());
    let cells = cells.enumerate().map(|(row, value)| MoneyCell { row, column: 0, value });
    let mut prices = rounded(cells, EACH_PLACES)?.into_iter();
    let lines = lines.into_iter().map(|line| {
        let price = line.price.and_then(|_| prices.next());
        IngredientCost { name: line.name, mass: line.mass, price }
    });
    Ok(lines.collect())
}

impl PieceCost {
    fn new(
        bakery: &Bakery,
        product: &Product,
        balance: &Balance,
        of_dough: &[String],
    ) -> Result<Self, RoundingError> {
        let cost = Cost::of_piece(bakery, product, balance);
        let cost = cost.ok_or_else(|| RoundingError::internal("a piece has no cost"))?;
        let price = Money::nearest(&cost.priced, EACH_PLACES)?;
        let unpriced = names(&cost);
        let beside = unpriced.iter().filter(|name| !of_dough.contains(name)).cloned().collect();
        Ok(Self { product: product.name.clone(), price, unpriced, unpriced_beside_dough: beside })
    }
}

/// What the orders of a day cost.
#[derive(Debug, Clone, PartialEq)]
pub struct OrdersCost {
    /// The day.
    pub date: Date,
    /// What each customer's orders cost, in the order of their names; at last what nobody ordered.
    pub customers: Vec<CustomerCost>,
    /// What all of it costs: the sum of the customers.
    pub total: Money,
    /// What of it has no price: every sum is that much too small.
    pub unpriced: Vec<String>,
}

/// What a customer's orders cost.
#[derive(Debug, Clone, PartialEq)]
pub struct CustomerCost {
    /// The customer; `None` for pieces that nobody ordered: spares, and what fills a head of the divider.
    pub customer: Option<String>,
    /// Each product.
    pub lines: Vec<OrderCost>,
    /// Their sum.
    pub sum: Money,
}

/// What some pieces of a product cost.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderCost {
    /// The product.
    pub product: String,
    /// How many pieces.
    pub pieces: u64,
    /// What they cost, with two decimals that add up.
    pub price: Money,
}

/// Pieces of a product for a customer; for nobody where there is none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ordered {
    /// Who ordered.
    pub customer: Option<String>,
    /// The product.
    pub product: ProductId,
    /// How many.
    pub pieces: u64,
}

impl OrdersCost {
    /// What ordered pieces cost; `pieces` is what one piece of each product costs, by its index. Orders stand together by
    /// customer.
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a cost has more digits than a decimal holds.
    pub fn new(
        date: Date,
        bakery: &Bakery,
        pieces: &BTreeMap<ProductId, Cost>,
        orders: &[Ordered],
    ) -> Result<Self, RoundingError> {
        let mut all = Cost::default();
        let mut cells = Vec::new();
        let by_customer: Vec<&[Ordered]> = orders.chunk_by(|a, b| a.customer == b.customer).collect();
        for (row, order) in
            by_customer.iter().enumerate().flat_map(|(row, of)| of.iter().map(move |order| (row, order)))
        {
            let cost = order_cost(pieces, order)?;
            cells.push(MoneyCell { row, column: order.product.index(), value: cost.priced.clone() });
            all = all.and(&cost);
        }
        let mut prices = rounded(cells, SUM_PLACES)?.into_iter();
        let customers = by_customer.iter().map(|orders| CustomerCost::new(bakery, orders, &mut prices));
        let customers = customers.collect::<Result<Vec<_>, RoundingError>>()?;
        let total = Money::try_sum(customers.iter().map(|customer| customer.sum), SUM_PLACES)?;
        Ok(Self { date, customers, total, unpriced: names(&all) })
    }
}

/// What an order costs, exact. Of a product of which nothing is made, nothing is known, and no piece costs nothing.
fn order_cost(pieces: &BTreeMap<ProductId, Cost>, order: &Ordered) -> Result<Cost, RoundingError> {
    if order.pieces == 0 {
        return Ok(Cost::default());
    }
    let piece = pieces.get(&order.product);
    let piece = piece.ok_or_else(|| RoundingError::internal("a product is ordered that has no cost"))?;
    Ok(piece.times(order.pieces))
}

impl CustomerCost {
    /// The lines of one customer, with the prices that come next.
    fn new(
        bakery: &Bakery,
        orders: &[Ordered],
        prices: &mut impl Iterator<Item = Money>,
    ) -> Result<Self, RoundingError> {
        let line = |(order, price): (&Ordered, Money)| {
            let product = bakery.product(order.product);
            let product = product.ok_or_else(|| RoundingError::internal("an order is of no product"))?;
            Ok(OrderCost { product: product.name.clone(), pieces: order.pieces, price })
        };
        let lines = orders.iter().zip(prices).map(line).collect::<Result<Vec<_>, RoundingError>>()?;
        let sum = Money::try_sum(lines.iter().map(|line| line.price), SUM_PLACES)?;
        let customer = orders.first().and_then(|order| order.customer.clone());
        Ok(Self { customer, lines, sum })
    }
}

fn names(cost: &Cost) -> Vec<String> {
    cost.unpriced.iter().map(|unpriced| unpriced.name.clone()).collect()
}
