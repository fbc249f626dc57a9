//! What the store room needs over some dates, and what to order by when.

mod feeds;

use jiff::ToSpan;
use levamen_calendar::{Days, ZonedDays};
use levamen_language::Problem;
use levamen_orders::Orders;
use levamen_plan::{Issue, Starts, Stock, purchases, read_stock};
use levamen_sheets::{DaySheets, StoreSheet};

use crate::day::{clock, no_moment};
use crate::error::Error;
use crate::orders::{OrdersQuestion, read_orders};
use crate::progress::Progress;
use crate::workspace::{InputText, Workspace};
use crate::{days, sound};

/// Bread of so many days after the dates that are asked for is looked at: its pre-ferments may be set on them.
const DAYS_AHEAD: i64 = 4;

/// Some dates of a store room.
#[derive(Debug)]
pub struct StoreQuestion {
    /// The dates.
    pub days: ZonedDays,
    /// The orders, as [`store_orders`] reads them.
    pub orders: Orders,
    /// What is on hand on the first morning, as a table: `ingredient,on hand`. Without it, nothing.
    pub stock: Option<InputText>,
}

/// What the store room needs.
#[derive(Debug)]
pub struct StoreReport {
    /// What is issued and bought.
    pub sheet: StoreSheet,
    /// The orders that it is planned from, with what is wrong with them.
    pub orders: Orders,
    /// Why a culture has no plan of feedings.
    pub unfed: Vec<Error>,
}

/// Reads the orders that some dates of a store room are planned from.
///
/// # Errors
/// The cards of the bakery have problems.
pub fn store_orders(
    workspace: &Workspace,
    days: &ZonedDays,
    question: &OrdersQuestion<'_>,
) -> Result<Orders, Error> {
    Ok(read_orders(sound::bakery(workspace)?, question, bread(days), false))
}

/// The days of the bread that is set on some dates.
fn bread(days: &ZonedDays) -> Days {
    let (first, last) = (days.first(), days.last());
    let last = last.checked_add(DAYS_AHEAD.days()).unwrap_or(last);
    Days::new(first, last).unwrap_or(Days::one(first))
}

/// Lists what is taken from the store room over some dates, and what to order by when.
///
/// # Errors
/// The book has problems in what a day relies on; a day cannot be planned; the table of the stock is wrong.
pub fn store(
    workspace: &Workspace,
    question: StoreQuestion,
    progress: &dyn Progress,
) -> Result<StoreReport, Error> {
    let bakery = sound::bakery(workspace)?;
    let (first, last) = (question.days.first(), question.days.last());
    let stock = question.stock.as_ref().map(|table| stock(workspace, table)).transpose()?.unwrap_or_default();
    let (bread, orders) = (bread(&question.days), question.orders);
    let mut issues = Vec::new();
    let mut seeds = Vec::new();
    for planned in days::days(workspace, bakery, &orders, bread, progress) {
        let (date, day) = planned?;
        let clock = clock(bakery, date)?;
        let starts = Starts::new(bakery, &day, &clock).map_err(|error| no_moment(&error))?;
        issues.extend(DaySheets::new(&day, &workspace.book().scales())?.issues(date, &starts));
        seeds.extend(feeds::needed(&day, &starts));
    }
    let fed = feeds::issues(workspace, bakery, &question.days, seeds);
    issues.extend(fed.issues);
    issues.retain(|issue: &Issue| (first..=last).contains(&issue.date));
    let bought = purchases(bakery, &issues, &stock);
    let gaps = fed.unfed.iter().map(|(culture, _)| format!("what {culture} is fed"));
    let gaps = gaps.chain((!orders.is_complete()).then(|| "orders with mistakes".to_owned())).collect();
    let currency = bakery.settings.currency.as_deref();
    let sheet = StoreSheet::new((first, last), currency, &bought, issues, gaps)?;
    Ok(StoreReport { sheet, orders, unfed: fed.unfed.into_iter().map(|(_, error)| error).collect() })
}

/// What is on hand, from a table.
fn stock(workspace: &Workspace, table: &InputText) -> Result<Vec<Stock>, Error> {
    let text = table.text.clone().map_err(Error::problem)?;
    let mut texts = workspace.texts().clone();
    let id = texts.next_id();
    texts.add(id, table.name.clone(), text.as_str());
    let read: Result<_, Vec<Problem>> = read_stock(id, &text, workspace.book().pantry());
    read.map_err(|problems| Error::Problems { problems, texts })
}
