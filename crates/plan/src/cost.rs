//! What doughs and pieces cost.

use levamen_bakery::{Bakery, Product};
use levamen_balance::Balance;
use levamen_formula::IngredientId;
use levamen_quantity::{Exact, Mass, Share};

use crate::needs::flour_of;

/// What something costs, in the bakery's currency, and what of it has no price.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Cost {
    /// The sum of all that has a price.
    pub priced: Exact,
    /// What has none: the sum is that much too small.
    pub unpriced: Vec<Unpriced>,
}

/// An ingredient without a price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unpriced {
    /// Which.
    pub ingredient: IngredientId,
    /// Its name.
    pub name: String,
    /// How much of it there is.
    pub mass: Mass,
}

/// What one ingredient of a dough costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CostLine {
    /// Which.
    pub ingredient: IngredientId,
    /// Its name.
    pub name: String,
    /// How much of it there is.
    pub mass: Mass,
    /// What that costs; `None` without a price.
    pub price: Option<Exact>,
}

impl CostLine {
    /// What each ingredient of a dough from so much flour costs: its overall rows, those of its cultures among them.
    #[must_use]
    pub fn of_dough(bakery: &Bakery, balance: &Balance, flour: &Mass) -> Vec<Self> {
        let rows = balance.overall.iter().map(|row| (row.ingredient, &row.name, row.share.of(flour)));
        let rows = rows.filter(|(.., mass)| *mass != Mass::ZERO);
        rows.map(|(ingredient, name, mass)| Self::new(bakery, ingredient, name, mass)).collect()
    }

    fn new(bakery: &Bakery, ingredient: IngredientId, name: &str, mass: Mass) -> Self {
        let price = bakery.supply(ingredient).and_then(levamen_bakery::Supply::price_of_a_gram);
        let price = price.map(|price| &price * mass.grams());
        Self { ingredient, name: name.to_owned(), mass, price }
    }
}

impl Cost {
    /// What the ingredients of a dough from so much flour cost.
    #[must_use]
    pub fn of_dough(bakery: &Bakery, balance: &Balance, flour: &Mass) -> Self {
        let mut cost = Self::default();
        for line in CostLine::of_dough(bakery, balance, flour) {
            cost.add(line);
        }
        cost
    }

    /// What one piece of a product costs: its dough before baking, what is lost in mixing and dividing included, and
    /// what goes on it. `None` where all of the dough is lost or it weighs nothing: no card and no balance says so.
    #[must_use]
    pub fn of_piece(bakery: &Bakery, product: &Product, balance: &Balance) -> Option<Self> {
        let dough = product.piece.dough();
        let with_loss = dough.grams().checked_div(product.losing.rest().fraction())?;
        let flour = flour_of(balance, &Mass::from_grams(with_loss)).ok()?;
        let mut cost = Self::of_dough(bakery, balance, &flour);
        for topping in &product.toppings {
            cost.add(CostLine::new(bakery, topping.ingredient, &topping.name, topping.mass.clone()));
        }
        Some(cost)
    }

    /// So many times the cost.
    #[must_use]
    pub fn times(&self, count: u64) -> Self {
        let count = crate::pieces::exact(count);
        let unpriced = self.unpriced.iter().map(|unpriced| Unpriced {
            mass: Mass::from_grams(unpriced.mass.grams() * &count),
            ..unpriced.clone()
        });
        Self { priced: &self.priced * &count, unpriced: unpriced.collect() }
    }

    /// The part of the cost that falls to a share of the whole.
    #[must_use]
    pub fn share(&self, share: &Share) -> Self {
        let unpriced = self
            .unpriced
            .iter()
            .map(|unpriced| Unpriced { mass: share.of(&unpriced.mass), ..unpriced.clone() });
        Self { priced: &self.priced * share.fraction(), unpriced: unpriced.collect() }
    }

    /// Both costs together.
    #[must_use]
    pub fn and(mut self, other: &Self) -> Self {
        self.priced += &other.priced;
        for unpriced in &other.unpriced {
            self.lacks(unpriced.ingredient, &unpriced.name, &unpriced.mass);
        }
        self
    }

    /// Whether everything in it has a price.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.unpriced.is_empty()
    }

    fn add(&mut self, line: CostLine) {
        match line.price {
            Some(price) => self.priced += &price,
            None => self.lacks(line.ingredient, &line.name, &line.mass),
        }
    }

    fn lacks(&mut self, ingredient: IngredientId, name: &str, mass: &Mass) {
        match self.unpriced.iter_mut().find(|unpriced| unpriced.ingredient == ingredient) {
            Some(unpriced) => unpriced.mass = &unpriced.mass + mass,
            None => self.unpriced.push(Unpriced { ingredient, name: name.to_owned(), mass: mass.clone() }),
        }
    }
}
