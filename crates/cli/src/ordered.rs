//! Orders as they lie in files, and what is wrong with them.

use std::fs::{File, Metadata};
use std::io::Read;
use std::path::{Path, PathBuf};

use levamen::{Error, OrderSource, OrderSources, Orders, OrdersQuestion, Texts};
use levamen_views::text;

use crate::args::OrderFiles;
use crate::failure::Failure;
use crate::progress::{Progress, Unit};
use crate::{dates, output};

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

/// The files of orders that a command names, or those of the book.
pub struct OrdersOnDisk<'a> {
    named: &'a OrderFiles,
    book: &'a Path,
    orders: Vec<PathBuf>,
    weekly: Vec<PathBuf>,
    exceptions: Vec<PathBuf>,
}

impl<'a> OrdersOnDisk<'a> {
    pub fn new(named: &'a OrderFiles, book: &'a Path) -> Self {
        let orders = paths(&named.orders, book, "orders.csv");
        let weekly = paths(&named.weekly, book, "weekly.csv");
        let exceptions = paths(&named.exceptions, book, "exceptions.csv");
        Self { named, book, orders, weekly, exceptions }
    }

    /// The files that orders are read from.
    pub fn paths(&self) -> impl Iterator<Item = &Path> {
        self.all().into_iter().flatten().map(PathBuf::as_path)
    }

    const fn all(&self) -> [&Vec<PathBuf>; 3] {
        [&self.orders, &self.weekly, &self.exceptions]
    }

    /// Asks a question for which the orders are read.
    ///
    /// # Errors
    /// There is no file of orders, or none of a name that was given; a date is none. What the question ends with.
    pub fn read<T>(&self, ask: impl FnOnce(OrdersQuestion<'_>) -> Result<T, Failure>) -> Result<T, Failure> {
        self.all_there()?;
        if self.orders.is_empty() && self.weekly.is_empty() {
            return Err(Failure::usage(format!("there are no orders in `{}`", self.book.display()))
                .help("put orders.csv there, with the columns date,customer,product,quantity, or name a file: --orders FILE"));
        }
        self.report_left_out();
        let today = self.named.today.as_deref().map(|text| dates::date("--today", text)).transpose()?;
        let progress = Progress::new("reading orders", Unit::Bytes);
        levamen::Progress::expect(&progress, size(self.all()));
        let [orders, weekly, exceptions] = self.all().map(|paths| on_disk(paths, &progress));
        let (orders, weekly, exceptions) = (borrowed(&orders), borrowed(&weekly), borrowed(&exceptions));
        let files = OrderSources { orders: &orders, standing: &weekly, exceptions: &exceptions };
        ask(OrdersQuestion { files, today })
    }

    /// Whether every file that was named is there: without it a day would be planned from less than was meant.
    fn all_there(&self) -> Result<(), Failure> {
        let mut named = self.named.orders.iter().chain(&self.named.weekly).chain(&self.named.exceptions);
        match named.find(|path| !path.exists()) {
            Some(path) => Err(Failure::usage(format!("there is no file `{}`", path.display()))
                .help("look whether its name is right, and that of its folder")),
            None => Ok(()),
        }
    }

    /// Reports a file of the book that is not read, where others are named in its place.
    fn report_left_out(&self) {
        for (named, usual, option) in [
            (&self.named.orders, "orders.csv", "--orders"),
            (&self.named.weekly, "weekly.csv", "--weekly"),
            (&self.named.exceptions, "exceptions.csv", "--exceptions"),
        ] {
            let usual = self.book.join(usual);
            let is_usual = |path: &PathBuf| {
                path.canonicalize().is_ok_and(|path| usual.canonicalize().is_ok_and(|own| own == path))
            };
            if !named.is_empty() && usual.is_file() && !named.iter().any(is_usual) {
                let usual = usual.display();
                let note = format!("`{usual}` is not read, since `{option}` names other files in its place");
                output::notes(&[note]);
            }
        }
    }

    /// How the command ends: lines that are wrong are a failure that was reported, unless they are to be skipped; and so is a
    /// culture that has no plan.
    ///
    /// # Errors
    /// The orders are incomplete, or a culture has no plan.
    pub fn settle(&self, orders: &Orders, unfed: Vec<Error>, as_json: bool) -> Result<(), Failure> {
        let is_fed = unfed.is_empty();
        for error in unfed {
            Failure::from(error).report(as_json);
        }
        if is_fed && (orders.is_complete() || self.named.skip_wrong) {
            Ok(())
        } else {
            Err(Failure::Reported)
        }
    }
}

/// Reports what is wrong with orders, on standard error. What was asked for is done with the other lines all the same.
pub fn report(orders: &Orders) {
    let problems = orders.problems();
    if !problems.is_empty() {
        output::error(&text::problems(&Texts::default(), &problems));
    }
}

fn borrowed<'s>(sources: &'s [OnDisk<'_>]) -> Vec<&'s dyn OrderSource> {
    sources.iter().map(|source| source as &dyn OrderSource).collect()
}

fn on_disk<'p>(paths: &[PathBuf], progress: &'p Progress) -> Vec<OnDisk<'p>> {
    let file = |path: &PathBuf| OnDisk { name: path.display().to_string(), path: path.clone(), progress };
    paths.iter().map(file).collect()
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
