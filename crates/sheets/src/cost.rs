//! What doughs, pieces and orders cost, rounded once so that lines add up to what is shown of their sum.

use std::collections::BTreeMap;

use jiff::civil::Date;
use levamen_bakery::{Bakery, Product};
use levamen_balance::{Balance, StatedSize};
use levamen_plan::{Cost, CostLine};
use levamen_quantity::{Exact, Mass};

use crate::money::{EACH_PLACES, SUM_PLACES, Sum, alone, rounded};

/// What a dough and its products cost.
#[derive(Debug, Clone, PartialEq)]
pub struct DoughCost {
    /// The dough's name.
    pub dough: String,
    /// What each ingredient of a kilogram of dough weighs and costs, with four decimals that add up.
    pub lines: Vec<CostLine>,
    /// What the dough weighs of which `batch` is the price; `None` where its file says no size.
    pub size: Option<Mass>,
    /// What the dough costs at the size of its file, with two decimals.
    pub batch: Option<Exact>,
    /// Its products.
    pub pieces: Vec<PieceCost>,
    /// What of the dough has no price: every sum is that much too small.
    pub unpriced: Vec<String>,
}

/// What one piece of a product costs.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceCost {
    /// The product.
    pub product: String,
    /// What a piece costs, dough, losses and toppings, with four decimals.
    pub price: Exact,
    /// What of it has no price.
    pub unpriced: Vec<String>,
}

impl DoughCost {
    /// The costs of a dough and of its products.
    #[must_use]
    pub fn new(bakery: &Bakery, balance: &Balance, products: &[&Product]) -> Self {
        let kilogram = Exact::from(1000).checked_div(balance.weight.fraction()).unwrap_or_default();
        let mut lines = CostLine::of_dough(bakery, balance, &Mass::from_grams(kilogram));
        let sums = lines.iter().enumerate();
        let sums = sums.filter_map(|(row, line)| Some(Sum { row, column: 0, value: line.price.clone()? }));
        let sums = rounded(sums, EACH_PLACES);
        for (price, rounded) in lines.iter_mut().filter_map(|line| line.price.as_mut()).zip(sums) {
            *price = rounded;
        }
        let size = (balance.size != StatedSize::Open).then(|| balance.batch().mass(&balance.weight));
        let batch = size.as_ref().map(|_| Cost::of_dough(bakery, balance, balance.batch().flour()));
        let unpriced = lines.iter().filter(|line| line.price.is_none()).map(|line| line.name.clone());
        Self {
            dough: balance.dough.clone(),
            unpriced: unpriced.collect(),
            lines,
            size,
            batch: batch.map(|cost| alone(&cost.priced, SUM_PLACES)),
            pieces: products.iter().map(|product| PieceCost::new(bakery, product, balance)).collect(),
        }
    }

    /// What a kilogram of dough costs.
    #[must_use]
    pub fn kilogram(&self) -> Exact {
        self.lines.iter().filter_map(|line| line.price.as_ref()).sum()
    }
}

impl PieceCost {
    fn new(bakery: &Bakery, product: &Product, balance: &Balance) -> Self {
        let cost = Cost::of_piece(bakery, product, balance);
        let price = alone(&cost.priced, EACH_PLACES);
        Self { product: product.name.clone(), price, unpriced: names(&cost) }
    }
}

/// What the orders of a day cost.
#[derive(Debug, Clone, PartialEq)]
pub struct OrdersCost {
    /// The day.
    pub date: Date,
    /// What each customer's orders cost, in the order of their names; at last what nobody ordered.
    pub customers: Vec<CustomerCost>,
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
}

/// What some pieces of a product cost.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderCost {
    /// The product.
    pub product: String,
    /// How many pieces.
    pub pieces: u64,
    /// What they cost, with two decimals that add up.
    pub price: Exact,
}

/// Pieces of a product for a customer; for nobody where there is none.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ordered {
    /// Who ordered.
    pub customer: Option<String>,
    /// The product: its index in [`Bakery::products`].
    pub product: usize,
    /// How many.
    pub pieces: u64,
}

impl OrdersCost {
    /// What ordered pieces cost; `pieces` is what one piece of each product costs, by its index. Orders stand together by
    /// customer.
    #[must_use]
    pub fn new(date: Date, bakery: &Bakery, pieces: &BTreeMap<usize, Cost>, orders: &[Ordered]) -> Self {
        let mut all = Cost::default();
        let mut customers: Vec<CustomerCost> = Vec::new();
        let mut sums = Vec::new();
        for order in orders {
            let Some(product) = bakery.products.get(order.product) else { continue };
            let cost = pieces.get(&order.product).map(|piece| piece.times(order.pieces)).unwrap_or_default();
            if customers.last().is_none_or(|last| last.customer != order.customer) {
                customers.push(CustomerCost { customer: order.customer.clone(), lines: Vec::new() });
            }
            if let Some(customer) = customers.last_mut() {
                let price = cost.priced.clone();
                customer.lines.push(OrderCost { product: product.name.clone(), pieces: order.pieces, price });
            }
            sums.push(Sum { row: customers.len(), column: order.product, value: cost.priced.clone() });
            all = all.and(&cost);
        }
        let lines = customers.iter_mut().flat_map(|customer| &mut customer.lines);
        for (line, price) in lines.zip(rounded(sums, SUM_PLACES)) {
            line.price = price;
        }
        Self { date, customers, unpriced: names(&all) }
    }

    /// What all of it costs.
    #[must_use]
    pub fn total(&self) -> Exact {
        self.customers.iter().map(CustomerCost::sum).sum()
    }
}

impl CustomerCost {
    /// What all lines cost.
    #[must_use]
    pub fn sum(&self) -> Exact {
        self.lines.iter().map(|line| &line.price).sum()
    }
}

fn names(cost: &Cost) -> Vec<String> {
    cost.unpriced.iter().map(|unpriced| unpriced.name.clone()).collect()
}
