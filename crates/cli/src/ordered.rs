//! Orders as they lie in files: read, and told what is wrong with them.

use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};

use jiff::civil::Date;
use levamen_bakery::{Bakery, Column, Settings};
use levamen_orders::{Columns, Days, Files, Orders, Products, Request, Source, read};

use crate::args::OrderFiles;
use crate::failure::Failure;
use crate::output;
use crate::render::Texts;

/// A CSV file on the disk.
struct OnDisk {
    path: PathBuf,
    name: String,
}

impl Source for OnDisk {
    fn name(&self) -> &str {
        &self.name
    }

    fn open(&self) -> std::io::Result<Box<dyn Read + Send + '_>> {
        Ok(Box::new(File::open(&self.path)?))
    }
}

/// A date as it is typed.
///
/// # Errors
/// It is none.
pub fn date(what: &str, text: &str) -> Result<Date, Failure> {
    text.parse().map_err(|_| {
        Failure::usage(format!("`{text}` is no date for {what}"))
            .help("write year, month and day, such as 2026-11-27")
    })
}

/// The orders of some days.
///
/// # Errors
/// There is no file of orders, or a date is none.
pub fn orders(
    files: &OrderFiles,
    book: &Path,
    bakery: &Bakery,
    days: Days,
    by_customer: bool,
) -> Result<Orders, Failure> {
    let orders = sources(&files.orders, book, "orders.csv");
    let weekly = sources(&files.weekly, book, "weekly.csv");
    let exceptions = sources(&files.exceptions, book, "exceptions.csv");
    if orders.is_empty() && weekly.is_empty() {
        return Err(Failure::usage(format!("there are no orders in `{}`", book.display()))
            .help("put orders.csv there, with the columns date,customer,product,quantity, or name a file: --orders FILE"));
    }
    let today = files.today.as_deref().map(|text| date("--today", text)).transpose()?;
    let products = Products::new(bakery.products.iter().map(|product| product.name.as_str()));
    let columns = columns(&bakery.settings);
    let request = Request { days, today, products: &products, columns: &columns, by_customer };
    let (orders, weekly, exceptions) = (borrowed(&orders), borrowed(&weekly), borrowed(&exceptions));
    let files = Files { orders: &orders, standing: &weekly, exceptions: &exceptions };
    Ok(read(&files, &request))
}

/// Tells what is wrong with orders, on standard error. What was asked for is done with the other lines all the same.
pub fn tell(orders: &Orders) {
    let problems = orders.problems();
    if !problems.is_empty() {
        output::error(&Texts::default().draw(&problems));
    }
}

/// How the command ends: lines that are wrong are a failure that was told, unless they are to be skipped.
///
/// # Errors
/// The orders are incomplete.
pub fn settle(orders: &Orders, files: &OrderFiles) -> Result<(), Failure> {
    if orders.is_complete() || files.skip_wrong { Ok(()) } else { Err(Failure::Reported) }
}

fn borrowed(sources: &[OnDisk]) -> Vec<&dyn Source> {
    sources.iter().map(|source| source as &dyn Source).collect()
}

/// The files that were named; without any, the usual one of the book where it is there.
fn sources(named: &[PathBuf], book: &Path, usual: &str) -> Vec<OnDisk> {
    let on_disk = |path: PathBuf| OnDisk { name: path.display().to_string(), path };
    if named.is_empty() {
        let path = book.join(usual);
        return path.is_file().then(|| on_disk(path)).into_iter().collect();
    }
    named.iter().cloned().map(on_disk).collect()
}

fn columns(settings: &Settings) -> Columns {
    let name = |column| settings.column(column).to_owned();
    Columns {
        date: name(Column::Date),
        customer: name(Column::Customer),
        product: name(Column::Product),
        quantity: name(Column::Quantity),
        weekday: name(Column::Weekday),
        from: name(Column::From),
        until: name(Column::Until),
    }
}
