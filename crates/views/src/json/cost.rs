//! What doughs, pieces and orders cost.

use levamen_sheets::{CustomerCost, DoughCost, IngredientCost, OrdersCost};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::DecimalJson;

/// What doughs cost, or the orders of a day. A sum with something in `unpriced` is that much too small.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Costs")]
pub struct CostsJson {
    /// The letters of the currency (ISO 4217); null where the bakery says none.
    pub currency: Option<String>,
    /// Doughs; empty where orders were asked for.
    pub doughs: Vec<DoughCostJson>,
    /// The orders of a day; null where doughs were asked for.
    pub orders: Option<OrdersCostJson>,
}

/// What a dough costs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct DoughCostJson {
    /// The dough.
    pub dough: String,
    /// What a kilogram of it costs, with four decimals.
    pub kilogram: DecimalJson,
    /// What each ingredient of a kilogram costs; they add up.
    pub ingredients: Vec<IngredientCostJson>,
    /// What the dough weighs by its file; null where that says no size.
    pub batch_g: Option<DecimalJson>,
    /// What so much costs, with two decimals.
    pub batch: Option<DecimalJson>,
    /// Its products.
    pub pieces: Vec<PieceCostJson>,
    /// What of the dough has no price.
    pub unpriced: Vec<String>,
}

/// What an ingredient of a kilogram of dough costs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct IngredientCostJson {
    /// Its name.
    pub ingredient: String,
    /// How much of it there is.
    pub grams: DecimalJson,
    /// What that costs; null without a price.
    pub price: Option<DecimalJson>,
}

/// What a piece of a product costs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct PieceCostJson {
    /// The product.
    pub product: String,
    /// What a piece costs, with four decimals.
    pub price: DecimalJson,
    /// What of it has no price.
    pub unpriced: Vec<String>,
}

/// What the orders of a day cost.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct OrdersCostJson {
    /// The day, as in ISO 8601.
    pub date: String,
    /// Customers; at last, under null, what nobody ordered.
    pub customers: Vec<CustomerCostJson>,
    /// What all of it costs.
    pub total: DecimalJson,
    /// What of it has no price.
    pub unpriced: Vec<String>,
}

/// What a customer's orders cost.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct CustomerCostJson {
    /// Who; null for spares and what fills heads of the divider.
    pub customer: Option<String>,
    /// The lines; they add up.
    pub lines: Vec<OrderCostJson>,
    /// Their sum.
    pub sum: DecimalJson,
}

/// What some pieces of a product cost.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct OrderCostJson {
    /// The product.
    pub product: String,
    /// How many pieces.
    pub pieces: u64,
    /// What they cost, with two decimals.
    pub price: DecimalJson,
}

impl From<&DoughCost> for DoughCostJson {
    fn from(cost: &DoughCost) -> Self {
        let ingredient = |line: &IngredientCost| IngredientCostJson {
            ingredient: line.name.clone(),
            grams: DecimalJson::grams(&line.mass),
            price: line.price.map(DecimalJson::money),
        };
        let pieces = cost.pieces.iter().map(|piece| PieceCostJson {
            product: piece.product.clone(),
            price: DecimalJson::money(piece.price),
            unpriced: piece.unpriced.clone(),
        });
        Self {
            dough: cost.dough.clone(),
            kilogram: DecimalJson::money(cost.kilogram),
            ingredients: cost.lines.iter().map(ingredient).collect(),
            batch_g: cost.size.as_ref().map(DecimalJson::grams),
            batch: cost.batch.map(DecimalJson::money),
            pieces: pieces.collect(),
            unpriced: cost.unpriced.clone(),
        }
    }
}

impl From<&OrdersCost> for OrdersCostJson {
    fn from(cost: &OrdersCost) -> Self {
        Self {
            date: cost.date.to_string(),
            customers: cost.customers.iter().map(CustomerCostJson::from).collect(),
            total: DecimalJson::money(cost.total),
            unpriced: cost.unpriced.clone(),
        }
    }
}

impl From<&CustomerCost> for CustomerCostJson {
    fn from(cost: &CustomerCost) -> Self {
        let lines = cost.lines.iter().map(|line| OrderCostJson {
            product: line.product.clone(),
            pieces: line.pieces,
            price: DecimalJson::money(line.price),
        });
        Self { customer: cost.customer.clone(), lines: lines.collect(), sum: DecimalJson::money(cost.sum) }
    }
}
