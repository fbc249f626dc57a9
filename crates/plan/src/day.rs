//! A day's work.

use std::collections::BTreeMap;

use levamen_bakery::Bakery;
use levamen_balance::{Balance, Batch, Size};
use levamen_formula::{Book, FormulaId, IngredientId};
use levamen_quantity::{Exact, Mass, Share};

use crate::batches::{Batches, batches};
use crate::needs::{Kept, Need, needs, old_dough};
use crate::orders::Orders;
use crate::seeds::{self, Seeding};
use crate::split::split;
use crate::trouble::Trouble;

/// Everything that a day's orders need, exact.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// The doughs, each after all those that it takes from on the same day.
    pub doughs: Vec<DayDough>,
    /// What goes on or into pieces beside dough, in the order of the products.
    pub toppings: Vec<(IngredientId, String, Mass)>,
    /// How much old dough the day takes from the day before, by dough.
    pub old_dough: Vec<(FormulaId, Mass)>,
}

/// One dough of a day.
#[derive(Debug, Clone, PartialEq)]
pub struct DayDough {
    /// How much is needed, and for what.
    pub need: Need,
    /// The dough, its final dough split into the day's batches.
    pub balance: Balance,
    /// The whole flour.
    pub flour: Mass,
    /// The batches.
    pub batches: Batches,
}

impl DayDough {
    fn new(need: Need, balance: &Balance, bakery: &Bakery) -> Self {
        let mass = need.mass();
        let flour = mass.grams().checked_div(balance.weight.fraction()).unwrap_or_default();
        let share = Exact::ONE.checked_div(balance.weight.fraction()).unwrap_or_default();
        let mixer = bakery.method(need.dough).and_then(|method| method.mixer);
        let share = Share::from_fraction(share);
        let batches = batches(&mass, &share, &bakery.mixers, mixer, bakery.settings.batching);
        // The day's size is its own, whatever the dough's `make` line says.
        let size = Size::Weights { flour: Mass::from_grams(flour.clone()) };
        let balance = Balance { size, stands: bakery.stands(need.dough), ..split(balance, &batches.parts) };
        Self { need, balance, flour: Mass::from_grams(flour), batches }
    }

    /// The dough to mix.
    #[must_use]
    pub fn mass(&self) -> Mass {
        self.need.mass()
    }

    /// Every weight of the dough.
    #[must_use]
    pub fn batch(&self) -> Batch<'_> {
        self.balance.with_flour(self.flour.clone())
    }

    /// The seeds of its stages.
    #[must_use]
    pub fn seeds(&self) -> Vec<Seeding> {
        seeds::of(self.need.dough, &self.balance, self.flour.grams())
    }
}

impl Day {
    /// Plans a day. `tomorrow` says how much old dough to keep; without it, as much as the day's own doughs take.
    ///
    /// # Errors
    /// A dough that is needed has problems, or doughs need each other on the one day.
    pub fn plan(
        book: &Book,
        bakery: &Bakery,
        orders: &Orders,
        tomorrow: Option<&Orders>,
    ) -> Result<Self, Trouble> {
        let kept = tomorrow.map(|orders| needs(book, bakery, orders, Kept::AsTaken)).transpose()?;
        let kept = kept.map(|needs| old_dough(&needs.of, false));
        let kept = kept.as_ref().map_or(Kept::AsTaken, Kept::Known);
        let needs = needs(book, bakery, orders, kept)?;
        let old_dough = old_dough(&needs.of, false).into_iter().collect();
        let mut toppings: BTreeMap<IngredientId, (String, Exact)> = BTreeMap::new();
        for pieces in needs.of.iter().flat_map(|(need, _)| &need.pieces) {
            for topping in bakery.products.get(pieces.product).map_or(&[][..], |product| &product.toppings) {
                let made = crate::pieces::exact(pieces.made);
                let sum =
                    toppings.entry(topping.ingredient).or_insert_with(|| (topping.name.clone(), Exact::ZERO));
                sum.1 += &(topping.mass.grams() * &made);
            }
        }
        let doughs = needs.of.into_iter().filter(|(need, _)| need.mass() > Mass::ZERO);
        Ok(Self {
            doughs: doughs.map(|(need, balance)| DayDough::new(need, &balance, bakery)).collect(),
            toppings: toppings
                .into_iter()
                .map(|(id, (name, mass))| (id, name, Mass::from_grams(mass)))
                .collect(),
            old_dough,
        })
    }

    /// The seeds of all doughs.
    #[must_use]
    pub fn seeds(&self) -> Vec<Seeding> {
        self.doughs.iter().flat_map(DayDough::seeds).collect()
    }
}
