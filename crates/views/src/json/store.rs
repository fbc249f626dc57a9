//! The store room's list.

use levamen_sheets::{Action, StoreLine, StoreSheet};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::DecimalJson;

/// What the store room needs over some dates, and what is to be ordered for it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[schemars(rename = "Store")]
pub struct StoreJson {
    /// The first date, as in ISO 8601.
    pub from: String,
    /// The last date.
    pub to: String,
    /// The letters of the currency (ISO 4217); null where the bakery says none.
    pub currency: Option<String>,
    /// Each ingredient, those to order first.
    pub ingredients: Vec<StockJson>,
    /// The sum of all prices.
    pub total: DecimalJson,
    /// What is to be bought and has no price: the sum is too small by it.
    pub unpriced: Vec<String>,
    /// What is issued, date by date.
    pub issues: Vec<IssueJson>,
    /// What the list does not hold though it is needed.
    pub gaps: Vec<String>,
}

/// One ingredient.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct StockJson {
    /// Its name.
    pub ingredient: String,
    /// "order", "unsaid" where the book has no supply of it, "drawn" where it comes as it is used, or "covered".
    pub action: String,
    /// The last date on which it can be ordered and still be there.
    pub order_by: Option<String>,
    /// The first date that the stock does not cover.
    pub short_on: Option<String>,
    /// What is weighed of it.
    pub issued_g: DecimalJson,
    /// What has to be there for it, waste included.
    pub needed_g: DecimalJson,
    /// What is on hand.
    pub on_hand_g: DecimalJson,
    /// What has to be bought.
    pub to_buy_g: DecimalJson,
    /// In how many packs.
    pub packs: Option<u64>,
    /// What a pack holds.
    pub pack_g: Option<DecimalJson>,
    /// What it costs, whole packs included, rounded to hundredths that add up; null without a price.
    pub price: Option<DecimalJson>,
}

/// What is issued of one ingredient on one date.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct IssueJson {
    /// When.
    pub date: String,
    /// What.
    pub ingredient: String,
    /// How much, as it is weighed.
    pub grams: DecimalJson,
}

impl From<&StoreSheet> for StoreJson {
    fn from(sheet: &StoreSheet) -> Self {
        let issues = sheet.issues.iter().map(|issue| IssueJson {
            date: issue.date.to_string(),
            ingredient: issue.name.clone(),
            grams: DecimalJson::grams(&issue.mass),
        });
        Self {
            from: sheet.first.to_string(),
            to: sheet.last.to_string(),
            currency: sheet.currency.clone(),
            ingredients: sheet.lines().map(StockJson::from).collect(),
            total: DecimalJson::money(sheet.total),
            unpriced: sheet.unpriced().map(|line| line.name.clone()).collect(),
            issues: issues.collect(),
            gaps: sheet.gaps.clone(),
        }
    }
}

impl From<&StoreLine> for StockJson {
    fn from(line: &StoreLine) -> Self {
        let (action, order_by) = match line.action {
            Action::OrderBy(date) => ("order", Some(date.to_string())),
            Action::Unsaid => ("unsaid", None),
            Action::Drawn => ("drawn", None),
            Action::Covered => ("covered", None),
        };
        Self {
            ingredient: line.name.clone(),
            action: action.to_owned(),
            order_by,
            short_on: line.short_on.map(|date| date.to_string()),
            issued_g: DecimalJson::grams(&line.issued),
            needed_g: DecimalJson::grams(&line.needed),
            on_hand_g: DecimalJson::grams(&line.on_hand),
            to_buy_g: DecimalJson::grams(&line.to_buy),
            packs: line.packs.as_ref().map(|(count, _)| *count),
            pack_g: line.packs.as_ref().map(|(_, pack)| DecimalJson::grams(pack)),
            price: line.price.map(DecimalJson::money),
        }
    }
}
