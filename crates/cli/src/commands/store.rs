//! `levamen store`

mod feeds;

use std::path::{Path, PathBuf};

use jiff::ToSpan;
use levamen_orders::Days;
use levamen_plan::{Issue, Starts, Stock, purchases, read_stock};
use levamen_sheets::{DaySheets, StoreSheet};
use levamen_views::{csv, json, text};

use super::day::{clock, no_moment};
use super::feed::asked;
use super::{csv_bytes, form, remind};
use crate::args::{Arguments, Form, StoreArguments};
use crate::failure::Failure;
use crate::shelf::Shelf;
use crate::target::deliver;
use crate::{ordered, output, planned, relied};

/// Bread of so many days after the dates that are asked for is looked at: its pre-ferments may be set on them.
const DAYS_AHEAD: i64 = 4;

pub fn run(arguments: &Arguments, asked: &StoreArguments) -> Result<(), Failure> {
    let form = form(asked.form, arguments.json)?;
    let mut shelf = Shelf::open(&arguments.book)?;
    let bakery = relied::bakery(&shelf)?;
    let target = asked.output.target();
    if let Some(target) = target {
        let orders = ordered::read_from(&asked.files, &arguments.book);
        let beside = orders.iter().chain(&asked.stock).map(PathBuf::as_path);
        target.check(&arguments.book, shelf.paths().chain(beside))?;
    }
    let zone = asked::zone(None, bakery.settings.time_zone.as_deref())?;
    let dates = asked::days(&asked.from, &asked.days, zone)?;
    let (first, last) = (dates.first(), dates.last());
    let stock = asked.stock.as_deref().map(|file| stock(&mut shelf, file)).transpose()?.unwrap_or_default();
    let bread =
        Days::new(first, last.checked_add(DAYS_AHEAD.days()).unwrap_or(last)).unwrap_or(Days::one(first));
    let orders = ordered::orders(&asked.files, &arguments.book, &bakery, bread, false)?;
    ordered::tell(&orders);
    let mut issues = Vec::new();
    let mut seeds = Vec::new();
    for planned in planned::days(&shelf, &bakery, &orders, bread) {
        let (date, day) = planned?;
        let clock = clock(&bakery, date)?;
        let starts = Starts::new(&bakery, &day, &clock).map_err(|error| no_moment(&error))?;
        issues.extend(DaySheets::new(&day, &shelf.book.scales())?.issues(date, &starts));
        seeds.extend(feeds::needed(&day, &starts));
    }
    let fed = feeds::issues(&shelf, &bakery, &dates, seeds);
    issues.extend(fed.issues);
    issues.retain(|issue: &Issue| (first..=last).contains(&issue.date));
    let bought = purchases(&bakery, &issues, &stock);
    let gaps = fed.failures.iter().map(|(culture, _)| format!("what {culture} is fed"));
    let gaps = gaps.chain((!orders.is_complete()).then(|| "orders with mistakes".to_owned())).collect();
    let sheet = StoreSheet::new((first, last), bakery.settings.currency.as_deref(), &bought, issues, gaps)?;
    deliver(target, &written(form, &sheet)?)?;
    remind(&shelf, " elsewhere");
    for (_, failure) in &fed.failures {
        failure.report(arguments.json);
    }
    if fed.failures.is_empty() { ordered::settle(&orders, &asked.files) } else { Err(Failure::Reported) }
}

/// What is on hand, from a file.
fn stock(shelf: &mut Shelf, file: &Path) -> Result<Vec<Stock>, Failure> {
    let (id, text) = shelf.read_beside(file)?;
    read_stock(id, &text, shelf.book.pantry()).map_err(|problems| shelf.fail(problems))
}

fn written(form: Form, sheet: &StoreSheet) -> Result<Vec<u8>, Failure> {
    match form {
        Form::Text => Ok(text::store(sheet).into_bytes()),
        Form::Csv => csv_bytes("list", csv::store(sheet)),
        Form::Json => Ok(output::json(&json::StoreJson::from(sheet))?.into_bytes()),
    }
}
