//! The store room: what is issued when, and what is to be bought for it.

use std::collections::BTreeMap;

use jiff::civil::Date;
use levamen_bakery::{Bakery, Supply};
use levamen_formula::IngredientId;
use levamen_quantity::{Duration, Exact, Mass, TimeUnit};

use crate::pieces::ceiling;
use crate::stock::Stock;

/// What the store room issues of one ingredient on one date.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Issue {
    /// When.
    pub date: Date,
    /// What.
    pub ingredient: IngredientId,
    /// Its name.
    pub name: String,
    /// How much, as it is weighed.
    pub mass: Mass,
}

/// What the store room needs of one ingredient over a range of dates.
#[derive(Debug, Clone, PartialEq)]
pub struct Purchase {
    /// What.
    pub ingredient: IngredientId,
    /// Its name.
    pub name: String,
    /// What is issued in all.
    pub issued: Mass,
    /// What has to be there for it: `issued / (1 − waste)`.
    pub needed: Mass,
    /// What is on hand.
    pub on_hand: Mass,
    /// What has to be bought; nothing where the stock does.
    pub to_buy: Mass,
    /// How the bakery buys it; `None` where it does not say.
    pub supply: Option<Supply>,
    /// In how many packs; `None` where the bakery says no pack.
    pub packs: Option<u64>,
    /// The first date that the stock does not cover; `None` where it covers all.
    pub short_on: Option<Date>,
    /// The last date on which it can be ordered and still be there; `None` where nothing is to be bought.
    pub order_by: Option<Date>,
    /// What it costs, whole packs included; `None` without a price.
    pub price: Option<Exact>,
}

/// What a range of dates needs of each ingredient, in the order of their names.
#[must_use]
pub fn purchases(bakery: &Bakery, issues: &[Issue], stock: &[Stock]) -> Vec<Purchase> {
    let mut by_ingredient: BTreeMap<IngredientId, Vec<&Issue>> = BTreeMap::new();
    for issue in issues {
        by_ingredient.entry(issue.ingredient).or_default().push(issue);
    }
    let mut purchases: Vec<Purchase> = by_ingredient
        .into_values()
        .filter_map(|mut issues| {
            issues.sort_by_key(|issue| issue.date);
            let first = issues.first()?;
            let (ingredient, name) = (first.ingredient, first.name.clone());
            let on_hand = stock.iter().filter(|stock| stock.ingredient == ingredient);
            let on_hand = on_hand.map(|stock| stock.mass.grams()).sum::<Exact>();
            Some(purchase(bakery, (ingredient, name), &issues, &on_hand))
        })
        .collect();
    purchases.sort_by(|a, b| a.name.cmp(&b.name));
    purchases
}

/// What one ingredient's issues, in the order of their dates, need.
fn purchase(
    bakery: &Bakery,
    (ingredient, name): (IngredientId, String),
    issues: &[&Issue],
    on_hand: &Exact,
) -> Purchase {
    let supply = bakery.supply(ingredient);
    let kept = supply.map_or(Exact::ONE, |supply| supply.waste.rest().fraction().clone());
    let with_waste = |mass: &Exact| mass.checked_div(&kept).unwrap_or_else(|| mass.clone());
    let mut issued = Exact::ZERO;
    let mut short_on = None;
    for issue in issues {
        issued += issue.mass.grams();
        if short_on.is_none() && with_waste(&issued) > *on_hand {
            short_on = Some(issue.date);
        }
    }
    let needed = with_waste(&issued);
    let to_buy = (&needed - on_hand).max(Exact::ZERO);
    let pack = supply.and_then(|supply| supply.pack.as_ref());
    let packs = pack.and_then(|pack| to_buy.checked_div(pack.grams())).map(|packs| ceiling(&packs));
    let bought = match (packs, pack) {
        (Some(packs), Some(pack)) => pack.grams() * &crate::pieces::exact(packs),
        _ => to_buy.clone(),
    };
    let price = supply.and_then(|supply| supply.price.as_ref());
    let price = price.and_then(|(price, mass)| Some(&price.checked_div(mass.grams())? * &bought));
    let days = supply.and_then(|supply| supply.delivery.as_ref()).map_or(0, days);
    Purchase {
        ingredient,
        name,
        issued: Mass::from_grams(issued),
        needed: Mass::from_grams(needed),
        on_hand: Mass::from_grams(on_hand.clone()),
        to_buy: Mass::from_grams(to_buy),
        supply: supply.cloned(),
        packs,
        short_on,
        order_by: short_on.and_then(|date| date.checked_sub(jiff::Span::new().try_days(days).ok()?).ok()),
        price,
    }
}

/// A time in days, rounded up: what is ordered today is there a whole number of days later.
fn days(time: &Duration) -> i64 {
    let days = &time.in_unit(TimeUnit::Hour) / &Exact::from(24);
    i64::try_from(ceiling(&days)).unwrap_or(i64::MAX)
}
