//! The store room's list: what is needed over some dates, and what is to be ordered for it by when.

use jiff::civil::Date;
use levamen_plan::{Issue, Purchase};
use levamen_quantity::{Exact, Mass};

use crate::money::{SUM_PLACES, Sum, rounded};

/// What the store room needs over some dates.
#[derive(Debug, Clone, PartialEq)]
pub struct StoreSheet {
    /// The first date on which anything is issued.
    pub first: Date,
    /// The last.
    pub last: Date,
    /// The letters of the currency, where the bakery says them.
    pub currency: Option<String>,
    /// Each ingredient, those to order first: by the date by which to order, and by name.
    pub lines: Vec<StoreLine>,
    /// What is issued, date by date, in the order of the dates and of the names.
    pub issues: Vec<Issue>,
    /// What the list does not hold though it is needed, in whole sentences.
    pub gaps: Vec<String>,
}

/// One ingredient of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct StoreLine {
    /// Its name.
    pub name: String,
    /// What is to be done about it.
    pub action: Action,
    /// What is weighed of it.
    pub issued: Mass,
    /// What has to be there for it, waste included.
    pub needed: Mass,
    /// What is on hand.
    pub on_hand: Mass,
    /// What has to be bought.
    pub to_buy: Mass,
    /// In how many packs, and what one holds.
    pub packs: Option<(u64, Mass)>,
    /// The first date that the stock does not cover.
    pub short_on: Option<Date>,
    /// What it costs, in hundredths that add up; `None` without a price.
    pub price: Option<Exact>,
}

/// What is to be done about an ingredient.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Action {
    /// Order it by a date.
    OrderBy(Date),
    /// The bakery does not say how it is bought.
    Unsaid,
    /// It comes as it is used.
    Drawn,
    /// Nothing: there is enough.
    Covered,
}

impl StoreSheet {
    /// Lays out what is bought. Prices are rounded once, together.
    #[must_use]
    pub fn new(
        (first, last): (Date, Date),
        currency: Option<&str>,
        purchases: &[Purchase],
        mut issues: Vec<Issue>,
        gaps: Vec<String>,
    ) -> Self {
        let mut lines: Vec<StoreLine> = purchases.iter().map(line).collect();
        lines.sort_by(|a, b| (a.action, &a.name).cmp(&(b.action, &b.name)));
        let mut group = 0;
        let mut last_action = None;
        let sums = lines.iter().enumerate().filter_map(|(row, line)| {
            if last_action.replace(line.action) != Some(line.action) {
                group += 1;
            }
            line.price.clone().map(|value| Sum { row, column: group, value })
        });
        let rounded = rounded(sums, SUM_PLACES);
        let priced = lines.iter_mut().filter_map(|line| line.price.as_mut());
        for (price, rounded) in priced.zip(rounded) {
            *price = rounded;
        }
        issues.sort_by(|a, b| (a.date, &a.name).cmp(&(b.date, &b.name)));
        Self { first, last, currency: currency.map(str::to_owned), lines, issues, gaps }
    }

    /// The sum of all prices.
    #[must_use]
    pub fn total(&self) -> Exact {
        sum(&self.lines)
    }

    /// What is to be bought and has no price.
    pub fn unpriced(&self) -> impl Iterator<Item = &StoreLine> {
        self.lines.iter().filter(|line| line.price.is_none() && line.to_buy > Mass::ZERO)
    }
}

/// The sum of the prices of some lines.
#[must_use]
pub fn sum(lines: &[StoreLine]) -> Exact {
    lines.iter().filter_map(|line| line.price.as_ref()).sum()
}

fn line(purchase: &Purchase) -> StoreLine {
    let supply = purchase.supply.as_ref();
    let action = match (purchase.order_by, supply) {
        (None, _) => Action::Covered,
        (Some(_), None) => Action::Unsaid,
        (Some(_), Some(supply)) if supply.is_drawn() => Action::Drawn,
        (Some(date), Some(_)) => Action::OrderBy(date),
    };
    let pack = supply.and_then(|supply| supply.pack.clone());
    StoreLine {
        name: purchase.name.clone(),
        action,
        issued: purchase.issued.clone(),
        needed: purchase.needed.clone(),
        on_hand: purchase.on_hand.clone(),
        to_buy: purchase.to_buy.clone(),
        packs: purchase.packs.zip(pack),
        short_on: purchase.short_on,
        price: purchase.price.clone(),
    }
}
