//! `levamen store`

use levamen::{StoreQuestion, StoreReport, store, store_orders};
use levamen_files::text_beside;
use levamen_views::{csv, json, text};

use super::{deliver, form};
use crate::args::{Arguments, SheetForm, StoreArguments};
use crate::dates;
use crate::failure::Failure;
use crate::opened::Opened;
use crate::ordered;
use crate::progress::{CountUnit, ProgressLine};

pub fn run(arguments: &Arguments, asked: &StoreArguments) -> Result<(), Failure> {
    let form = form(asked.form, arguments.json)?;
    let book = Opened::book(&arguments.book)?;
    let bakery = book.plan_bakery()?;
    let orders = asked.files.files(&arguments.book)?;
    let target = asked.output.target();
    if let Some(target) = target {
        let beside = orders.paths().chain(asked.stock.as_deref());
        target.check(&arguments.book, book.files.paths().chain(beside))?;
    }
    let zone = dates::zone(None, bakery.settings.time_zone.as_deref())?;
    let days = dates::days(&asked.from, &asked.days, zone)?;
    let stock = asked.stock.as_deref().map(text_beside);
    let progress = ProgressLine::new("planning", CountUnit::Of("days"));
    let orders = asked.files.ask(&orders, |orders| store_orders(&book, &days, &orders))?;
    ordered::report(&orders);
    let report = store(&book, StoreQuestion { days, orders, stock }, &progress)?;
    deliver(target, &written(form, &report)?)?;
    book.remind(" elsewhere");
    asked.files.settle(&report.orders, report.unfed, arguments.json)
}

fn written(form: SheetForm, report: &StoreReport) -> Result<Vec<u8>, Failure> {
    match form {
        SheetForm::Text => Ok(text::store(&report.sheet).into_bytes()),
        SheetForm::Csv => Ok(csv::store(&report.sheet)?),
        SheetForm::Json => Ok(json::written(&json::StoreJson::from(&report.sheet))?.into_bytes()),
    }
}
