//! How an ingredient is bought.

use levamen_formula::{Book, IngredientId};
use levamen_language::{Problem, SlotValue};
use levamen_quantity::{Duration, Exact, Mass, Share};

use crate::facts::CardFacts;
use crate::names;

/// How an ingredient is bought.
#[derive(Debug, Clone, PartialEq)]
pub struct Supply {
    /// What is bought.
    pub ingredient: IngredientId,
    /// What a pack holds.
    pub pack: Option<Mass>,
    /// What so much of it costs, in the bakery's currency.
    pub price: Option<(Exact, Mass)>,
    /// The share of what is bought that is not used.
    pub waste: Share,
    /// From ordering to delivery.
    pub delivery: Option<Duration>,
}

impl Supply {
    /// Reads the card; its name is that of the ingredient.
    pub(crate) fn read(book: &Book, facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let ingredient = names::ingredient(book, &facts.name, facts.place(), problems)?;
        let waste = facts.share("waste").unwrap_or_else(|| Share::from_percent(Exact::ZERO));
        if waste.fraction() >= &Exact::ONE {
            let at = facts.find("waste").map_or(facts.place(), |(_, at)| at);
            let message = format!("all of `{}` would be wasted", facts.name.spaced());
            problems.push(facts.conflict(message, at, "write less than 100 %"));
            return None;
        }
        let price = match facts.find("price") {
            Some(([SlotValue::Number(price), SlotValue::Mass(quantity)], _)) => {
                Some((price.clone(), quantity.mass.clone()))
            }
            _ => None,
        };
        Some(Self {
            ingredient,
            pack: facts.mass("pack"),
            price,
            waste,
            delivery: facts.time("delivered in"),
        })
    }

    /// Whether it comes as it is used, such as water from the tap: there is no pack, and no delivery to wait for.
    #[must_use]
    pub fn is_drawn(&self) -> bool {
        self.pack.is_none() && self.delivery.is_none()
    }

    /// What one gram costs as it is used: the price of a gram bought, over the share of it that is used.
    #[must_use]
    pub fn price_of_a_gram(&self) -> Option<Exact> {
        let (price, mass) = self.price.as_ref()?;
        let used = mass.grams() * &(&Exact::ONE - self.waste.fraction());
        price.checked_div(&used)
    }
}
