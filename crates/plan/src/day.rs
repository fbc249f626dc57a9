//! A day's work.

use std::collections::BTreeMap;

use levamen_bakery::Bakery;
use levamen_balance::{Balance, BalanceSource, Batch, StatedSize};
use levamen_formula::{FormulaId, IngredientId};
use levamen_quantity::{Exact, Mass, Share};

use crate::batches::{Batches, Sharing, most_listed};
use crate::needs::{DayError, Kept, Need, flour_of, needs, old_dough};
use crate::pieces::{DayOrders, exact};
use crate::stages::{Seeding, seeds, split};

/// Everything that a day's orders need, exact.
#[derive(Debug, Clone, PartialEq)]
pub struct Day {
    /// The doughs, each after all those that it takes from on the same day.
    pub doughs: Vec<DayDough>,
    /// What goes on or into pieces beside dough, in the order of the products.
    pub toppings: Vec<(IngredientId, String, Mass)>,
    /// How much old dough the day takes from the day before, by dough.
    pub old_dough: Vec<(FormulaId, Mass)>,
    /// How much old dough of each dough the next day's orders ask for, where they are known.
    pub(crate) asked: Option<BTreeMap<FormulaId, Mass>>,
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
    /// What its final dough is called: each batch has that name and its number.
    pub(crate) final_dough: String,
}

impl DayDough {
    fn new(sized: Sized<'_>, bakery: &Bakery, most_listed: u64) -> Result<Self, DayError> {
        let Sized { need, balance, mass, flour, share, sharing } = sized;
        let batches = sharing.batches(&mass, &share, &bakery.mixers, bakery.settings.batching, most_listed);
        let last =
            balance.stages.last().ok_or_else(|| DayError::internal("a dough balances without a stage"))?;
        let final_dough = last.name.clone();
        // The day's size is its own, whatever the dough's `make` line says.
        let size = StatedSize::Weights { flour: flour.clone() };
        let balance =
            Balance { size, standing_time: bakery.mix_to_oven(need.dough), ..split(balance, &batches.parts) };
        Ok(Self { need, balance, flour, batches, final_dough })
    }

    /// Which batch a stage is, counted from 1; `None` of a stage ahead, and where the dough is mixed in one.
    #[must_use]
    pub fn batch_number(&self, stage: usize) -> Option<usize> {
        let ahead = self.balance.stages.len().checked_sub(self.batches.parts.len())?;
        stage.checked_sub(ahead).filter(|_| self.batches.parts.len() > 1).map(|before| before + 1)
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
        seeds(self.need.dough, &self.balance, &self.flour)
    }
}

/// A dough whose batches are counted, and not listed yet.
struct Sized<'b> {
    need: Need,
    balance: &'b Balance,
    mass: Mass,
    flour: Mass,
    share: Share,
    sharing: Sharing,
}

impl<'b> Sized<'b> {
    fn new(need: Need, balance: &'b Balance, bakery: &Bakery) -> Result<Self, DayError> {
        let mass = need.mass();
        let flour = flour_of(balance, &mass)?;
        let share = flour_in_dough(balance)?;
        let mixer = bakery.named_mixer(need.dough);
        let sharing = Sharing::new(&mass, &share, &bakery.mixers, mixer);
        Ok(Self { need, balance, mass, flour, share, sharing })
    }
}

/// The share of a dough that is flour.
pub(crate) fn flour_in_dough(balance: &Balance) -> Result<Share, DayError> {
    // That of a gram of it, in grams.
    Ok(Share::from_fraction(flour_of(balance, &Mass::from_grams(Exact::ONE))?.grams().clone()))
}

impl Day {
    /// Plans a day. `tomorrow` says how much old dough to keep; without it, as much as the day's own doughs take.
    ///
    /// # Errors
    /// A dough that is needed has problems, or doughs need each other on the one day.
    pub fn plan(
        balances: &dyn BalanceSource,
        bakery: &Bakery,
        orders: &DayOrders,
        tomorrow: Option<&DayOrders>,
    ) -> Result<Self, DayError> {
        let kept = tomorrow.map(|orders| needs(balances, bakery, orders, Kept::AsTaken)).transpose()?;
        let asked = kept.map(|needs| old_dough(&needs.of, false)).transpose()?;
        let kept = asked.as_ref().map_or(Kept::AsTaken, Kept::Known);
        let needs = needs(balances, bakery, orders, kept)?;
        let old_dough = old_dough(&needs.of, false)?.into_iter().collect();
        let mut toppings: BTreeMap<IngredientId, (String, Exact)> = BTreeMap::new();
        for pieces in needs.of.iter().flat_map(|(need, _)| &need.pieces) {
            let product = bakery.product(pieces.product);
            let product = product.ok_or_else(|| DayError::internal("pieces are of no product"))?;
            for topping in &product.toppings {
                let made = exact(pieces.made);
                let sum =
                    toppings.entry(topping.ingredient).or_insert_with(|| (topping.name.clone(), Exact::ZERO));
                sum.1 += &(topping.mass.grams() * &made);
            }
        }
        let doughs = needs.of.iter().filter(|(need, _)| need.mass() > Mass::ZERO);
        let sized = doughs.map(|(need, balance)| Sized::new(need.clone(), balance, bakery));
        let sized = sized.collect::<Result<Vec<Sized<'_>>, DayError>>()?;
        let most = most_listed(sized.iter().map(|dough| dough.sharing.count).collect());
        Ok(Self {
            doughs: sized
                .into_iter()
                .map(|dough| DayDough::new(dough, bakery, most))
                .collect::<Result<_, DayError>>()?,
            toppings: toppings
                .into_iter()
                .map(|(id, (name, mass))| (id, name, Mass::from_grams(mass)))
                .collect(),
            old_dough,
            asked,
        })
    }

    /// A dough of the day.
    #[must_use]
    pub fn dough(&self, id: FormulaId) -> Option<&DayDough> {
        self.doughs.iter().find(|dough| dough.need.dough == id)
    }
}
