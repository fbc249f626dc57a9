//! Orders as they lie in files: read, and told what is wrong with them.

use std::fs::{File, Metadata};
use std::io::Read;
use std::path::{Path, PathBuf};

use jiff::civil::Date;
use levamen_bakery::{Bakery, OrderColumn, Settings};
use levamen_calendar::Days;
use levamen_calendar::{NotADate, read_date};
use levamen_orders::{Files, OrderColumns, OrderRequest, OrderSource, Orders, Products, read};

use crate::args::OrderFiles;
use crate::failure::Failure;
use crate::output;
use crate::progress::{Progress, Unit};
use crate::render::Texts;

/// A CSV file on the disk.
struct OnDisk<'p> {
    path: PathBuf,
    name: String,
    progress: &'p Progress,
}

impl OrderSource for OnDisk<'_> {
    fn name(&self) -> &str {
        &self.name
    }

    fn open(&self) -> std::io::Result<Box<dyn Read + Send + '_>> {
        Ok(Box::new(self.progress.reading(File::open(&self.path)?)))
    }
}

/// A date as it is typed.
///
/// # Errors
/// It is none.
pub fn date(what: &str, text: &str) -> Result<Date, Failure> {
    let refused = |why: &str| Failure::usage(format!("`{text}` is no date for {what}{why}"));
    let form = || "write year, month and day, such as 2026-11-27".to_owned();
    read_date(text.trim()).map_err(|why| match why {
        NotADate::Form(_) => {
            refused("").help(dashed(text.trim()).map_or_else(form, |date| format!("write {date}")))
        }
        _ => refused(": there is no such day").help(form()),
    })
}

/// The date that eight digits in a row may mean.
fn dashed(digits: &str) -> Option<Date> {
    let (year, month, day) = (digits.get(..4)?, digits.get(4..6)?, digits.get(6..)?);
    read_date(&format!("{year}-{month}-{day}")).ok()
}

/// The orders of some days.
///
/// # Errors
/// There is no file of orders, or none of a name that was given; a date is none.
pub fn orders(
    files: &OrderFiles,
    book: &Path,
    bakery: &Bakery,
    days: Days,
    by_customer: bool,
) -> Result<Orders, Failure> {
    all_there(files)?;
    let orders = paths(&files.orders, book, "orders.csv");
    let weekly = paths(&files.weekly, book, "weekly.csv");
    let exceptions = paths(&files.exceptions, book, "exceptions.csv");
    if orders.is_empty() && weekly.is_empty() {
        return Err(Failure::usage(format!("there are no orders in `{}`", book.display()))
            .help("put orders.csv there, with the columns date,customer,product,quantity, or name a file: --orders FILE"));
    }
    for (named, usual, option) in [
        (&files.orders, "orders.csv", "--orders"),
        (&files.weekly, "weekly.csv", "--weekly"),
        (&files.exceptions, "exceptions.csv", "--exceptions"),
    ] {
        tell_left_out(named, &book.join(usual), option);
    }
    let today = files.today.as_deref().map(|text| date("--today", text)).transpose()?;
    let products = Products::new(bakery.products.iter().map(|product| product.name.as_str()));
    let columns = columns(&bakery.settings);
    let request = OrderRequest { days, today, products: &products, columns: &columns, by_customer };
    let progress = Progress::new("reading orders", size([&orders, &weekly, &exceptions]), Unit::Bytes);
    let [orders, weekly, exceptions] = [orders, weekly, exceptions].map(|paths| on_disk(paths, &progress));
    let (orders, weekly, exceptions) = (borrowed(&orders), borrowed(&weekly), borrowed(&exceptions));
    let files = Files { orders: &orders, standing: &weekly, exceptions: &exceptions };
    Ok(read(&files, &request))
}

/// The files that orders are read from.
pub fn read_from(files: &OrderFiles, book: &Path) -> Vec<PathBuf> {
    let kinds =
        [(&files.orders, "orders.csv"), (&files.weekly, "weekly.csv"), (&files.exceptions, "exceptions.csv")];
    kinds.into_iter().flat_map(|(named, usual)| paths(named, book, usual)).collect()
}

/// Whether every file that was named is there: without it a day would be planned from less than was meant.
fn all_there(files: &OrderFiles) -> Result<(), Failure> {
    let mut named = files.orders.iter().chain(&files.weekly).chain(&files.exceptions);
    match named.find(|path| !path.exists()) {
        Some(path) => Err(Failure::usage(format!("there is no file `{}`", path.display()))
            .help("look whether its name is right, and that of its folder")),
        None => Ok(()),
    }
}

/// Says that a file of the book is not read, where others are named in its place.
fn tell_left_out(named: &[PathBuf], usual: &Path, option: &str) {
    let is_usual = |path: &PathBuf| {
        path.canonicalize().is_ok_and(|path| usual.canonicalize().is_ok_and(|own| own == path))
    };
    if !named.is_empty() && usual.is_file() && !named.iter().any(is_usual) {
        let usual = usual.display();
        output::error(&format!(
            "note: `{usual}` is not read, since `{option}` names other files in its place\n"
        ));
    }
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

fn borrowed<'s>(sources: &'s [OnDisk<'_>]) -> Vec<&'s dyn OrderSource> {
    sources.iter().map(|source| source as &dyn OrderSource).collect()
}

fn on_disk(paths: Vec<PathBuf>, progress: &Progress) -> Vec<OnDisk<'_>> {
    paths.into_iter().map(|path| OnDisk { name: path.display().to_string(), path, progress }).collect()
}

/// The files that were named; without any, the usual one of the book where it is there.
fn paths(named: &[PathBuf], book: &Path, usual: &str) -> Vec<PathBuf> {
    if named.is_empty() {
        let path = book.join(usual);
        return path.is_file().then_some(path).into_iter().collect();
    }
    named.to_vec()
}

/// The bytes of some files together; 0 where one is a pipe, of which nobody knows.
fn size(files: [&Vec<PathBuf>; 3]) -> u64 {
    let size = |path: &PathBuf| path.metadata().ok().filter(Metadata::is_file).map(|known| known.len());
    files.into_iter().flatten().map(size).sum::<Option<u64>>().unwrap_or_default()
}

fn columns(settings: &Settings) -> OrderColumns {
    let name = |column| settings.column(column).to_owned();
    OrderColumns {
        date: name(OrderColumn::Date),
        customer: name(OrderColumn::Customer),
        product: name(OrderColumn::Product),
        quantity: name(OrderColumn::Quantity),
        weekday: name(OrderColumn::Weekday),
        from: name(OrderColumn::From),
        until: name(OrderColumn::Until),
    }
}
