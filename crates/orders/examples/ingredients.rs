//! From a file of orders to what is weighed, by day, dough, stage and line.
//!
//!     ingredients orders.csv            reads it, and prints how much is weighed in all
//!     ingredients --tables folder       writes the products and the doughs as CSV, for other programs

#![allow(clippy::print_stdout, reason = "it is a command")]

#[path = "../benches/workload/mod.rs"]
mod workload;

use std::fmt::Write as _;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

use jiff::civil::date;
use levamen_calendar::Days;
use levamen_orders::{Files, OrderColumns, OrderRequest, OrderSource, read};
use levamen_quantity::Exact;
use workload::doughs::Bakery;

/// A file by its path.
struct AtPath(String);

impl OrderSource for AtPath {
    fn name(&self) -> &str {
        &self.0
    }

    fn open(&self) -> io::Result<Box<dyn Read + Send + '_>> {
        Ok(Box::new(File::open(&self.0)?))
    }
}

fn main() -> io::Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let bakery = Bakery::new();
    match arguments.as_slice() {
        [option, folder] if option == "--tables" => tables(&bakery, Path::new(folder)),
        paths => {
            add_up(&bakery, paths);
            Ok(())
        }
    }
}

fn add_up(bakery: &Bakery, paths: &[String]) {
    let files: Vec<AtPath> = paths.iter().cloned().map(AtPath).collect();
    let sources: Vec<&dyn OrderSource> = files.iter().map(|file| file as &dyn OrderSource).collect();
    let columns = OrderColumns::default();
    let Some(days) = Days::new(date(2026, 1, 1), date(2099, 12, 31)) else { return };
    let request =
        OrderRequest { days, today: None, products: &bakery.products, columns: &columns, by_customer: false };
    let orders = read(&Files { orders: &sources, ..Files::default() }, &request);
    for problem in orders.problems() {
        println!("{}", problem.message);
    }
    let weighed = bakery.weighed(&orders.demand);
    let sum: Exact = weighed.values().map(|mass| mass.grams().clone()).sum();
    println!("{} rows, {} g", weighed.len(), sum.round_to(&Exact::ONE).to_decimal_string());
}

fn tables(bakery: &Bakery, folder: &Path) -> io::Result<()> {
    let mut products = "product,dough,piece\n".to_owned();
    for number in 0..workload::PRODUCTS {
        let (dough, piece) = Bakery::made_of(number);
        let _ = writeln!(products, "{},{dough},{piece}", workload::product(number));
    }
    fs::write(folder.join("products.csv"), products)?;
    let mut lines = "dough,stage,line,share\n".to_owned();
    for (number, dough) in bakery.doughs.iter().enumerate() {
        for (stage, line) in
            dough.stages.iter().flat_map(|stage| stage.lines.iter().map(move |line| (stage, line)))
        {
            let share = line.share.fraction().checked_div(dough.weight.fraction()).unwrap_or_default();
            let _ = writeln!(lines, "{number},{},{},{:.17}", stage.name, line.name, share.to_f64());
        }
    }
    fs::write(folder.join("lines.csv"), lines)
}
