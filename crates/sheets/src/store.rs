//! The store room: what it issues for a day's sheets and for a culture, what is needed over some dates, and what is to be ordered
//! for it by when.

use jiff::Zoned;
use jiff::civil::Date;
use levamen_balance::BalancedItem;
use levamen_formula::IngredientId;
use levamen_plan::{DayStageId, Issue, Purchase, Starts};
use levamen_quantity::Mass;

use crate::culture::FeedingSheet;
use crate::day::DaySheets;
use crate::money::{Money, MoneyCell, SUM_PLACES, rounded};
use crate::rounding_error::RoundingError;
use crate::weight::Weight;

/// What the store room needs over some dates.
#[derive(Debug, Clone, PartialEq)]
pub struct StoreSheet {
    /// The first date on which anything is issued.
    pub first: Date,
    /// The last.
    pub last: Date,
    /// The letters of the currency, where the bakery says them.
    pub currency: Option<String>,
    /// The ingredients by what is to be done about them: those to order first, by the date by which to order.
    pub groups: Vec<StoreGroup>,
    /// The sum of all prices.
    pub total: Money,
    /// What is issued, date by date, in the order of the dates and of the names.
    pub issues: Vec<Issue>,
    /// What the list does not hold though it is needed, in whole sentences.
    pub gaps: Vec<String>,
}

/// Ingredients about which the same is to be done.
#[derive(Debug, Clone, PartialEq)]
pub struct StoreGroup {
    /// What is to be done about them.
    pub action: Action,
    /// Each of them, by name.
    pub lines: Vec<StoreLine>,
    /// The sum of their prices.
    pub sum: Money,
}

/// One ingredient of the list. Its weights are what has to be there and to be bought, which no scale rounds: exact.
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
    pub price: Option<Money>,
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
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a price has more digits than a decimal holds.
    pub fn new(
        (first, last): (Date, Date),
        currency: Option<&str>,
        purchases: &[Purchase],
        mut issues: Vec<Issue>,
        gaps: Vec<String>,
    ) -> Result<Self, RoundingError> {
        let groups = groups(purchases)?;
        issues.sort_by(|a, b| (a.date, &a.name).cmp(&(b.date, &b.name)));
        Ok(Self {
            first,
            last,
            currency: currency.map(str::to_owned),
            total: Money::try_sum(groups.iter().map(|group| group.sum), SUM_PLACES)?,
            groups,
            issues,
            gaps,
        })
    }

    /// Each ingredient, those to order first.
    pub fn lines(&self) -> impl Iterator<Item = &StoreLine> {
        self.groups.iter().flat_map(|group| &group.lines)
    }

    /// What is to be bought and has no price.
    pub fn unpriced(&self) -> impl Iterator<Item = &StoreLine> {
        self.lines().filter(|line| line.price.is_none() && line.to_buy > Mass::ZERO)
    }
}

/// The lines in their groups, with prices that add up to the sum of their group and of all.
fn groups(purchases: &[Purchase]) -> Result<Vec<StoreGroup>, RoundingError> {
    let mut bought: Vec<(Action, &Purchase)> =
        purchases.iter().map(|purchase| (action(purchase), purchase)).collect();
    bought.sort_by(|(a, one), (b, other)| (a, &one.name).cmp(&(b, &other.name)));
    let groups: Vec<&[(Action, &Purchase)]> = bought.chunk_by(|(a, _), (b, _)| a == b).collect();
    let cells = groups.iter().enumerate().flat_map(|(column, group)| {
        let prices = group.iter().filter_map(|(_, purchase)| purchase.price.clone());
        prices.map(move |value| (column, value))
    });
    let cells = cells.enumerate().map(|(row, (column, value))| MoneyCell { row, column, value });
    let mut prices = rounded(cells, SUM_PLACES)?.into_iter();
    let mut done = Vec::new();
    for group in groups {
        let lines: Vec<StoreLine> = group
            .iter()
            .map(|(action, purchase)| {
                let price = purchase.price.as_ref().and_then(|_| prices.next());
                line(*action, purchase, price)
            })
            .collect();
        let sum = Money::try_sum(lines.iter().filter_map(|line| line.price), SUM_PLACES)?;
        let Some((action, _)) = group.first() else { continue };
        done.push(StoreGroup { action: *action, lines, sum });
    }
    Ok(done)
}

/// What is to be done about an ingredient.
fn action(purchase: &Purchase) -> Action {
    match (purchase.order_by, &purchase.supply) {
        (None, _) => Action::Covered,
        (Some(_), None) => Action::Unsaid,
        (Some(_), Some(supply)) if supply.is_drawn() => Action::Drawn,
        (Some(date), Some(_)) => Action::OrderBy(date),
    }
}

fn line(action: Action, purchase: &Purchase, price: Option<Money>) -> StoreLine {
    let pack = purchase.supply.as_ref().and_then(|supply| supply.pack.clone());
    StoreLine {
        name: purchase.name.clone(),
        action,
        issued: purchase.issued.clone(),
        needed: purchase.needed.clone(),
        on_hand: purchase.on_hand.clone(),
        to_buy: purchase.to_buy.clone(),
        packs: purchase.packs.zip(pack),
        short_on: purchase.short_on,
        price,
    }
}

impl DaySheets {
    /// What is issued for bread of a date: every weighed line on the date on which its stage is set, toppings on the
    /// date itself. Their sums are those of `issued`.
    #[must_use]
    pub fn issues(&self, date: Date, starts: &Starts) -> Vec<Issue> {
        let mut issues = Vec::new();
        for dough in &self.doughs {
            for (index, stage) in dough.sheet.stages.iter().enumerate() {
                let set =
                    starts.of(DayStageId { dough: dough.dough, stage: index }).map_or(date, Zoned::date);
                for line in &stage.lines {
                    if let BalancedItem::Ingredient { id, .. } = line.item {
                        add(&mut issues, set, id, &line.name, line.weight);
                    }
                }
            }
        }
        for topping in &self.toppings {
            add(&mut issues, date, topping.ingredient, &topping.name, topping.weight);
        }
        issues
    }
}

impl FeedingSheet {
    /// What is issued to feed a culture. `parts` says which ingredient each of [`FeedingSheet::parts`] is; one that
    /// is none is left out.
    #[must_use]
    pub fn issues(&self, parts: &[Option<IngredientId>]) -> Vec<Issue> {
        let mut issues = Vec::new();
        for (weighed, exact) in self.feedings() {
            for ((part, weight), name) in parts.iter().zip(&weighed.parts).zip(&self.parts) {
                if let Some(ingredient) = part {
                    add(&mut issues, exact.at.date(), *ingredient, name, *weight);
                }
            }
        }
        issues
    }
}

/// Adds a weight to what is issued of the same ingredient on the same date; the store room goes on with it exactly.
fn add(issues: &mut Vec<Issue>, date: Date, ingredient: IngredientId, name: &str, weight: Weight) {
    if weight.is_zero() {
        return;
    }
    let mass = weight.as_exact();
    match issues.iter_mut().find(|issue| issue.date == date && issue.ingredient == ingredient) {
        Some(issue) => issue.mass = &issue.mass + &mass,
        None => issues.push(Issue { date, ingredient, name: name.to_owned(), mass }),
    }
}
