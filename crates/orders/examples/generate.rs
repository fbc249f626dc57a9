//! Writes the order lines of the workload to standard output: `generate 1000000 > orders.csv`, or those of a year:
//! `generate 10000000 year > orders.csv`.

#[path = "../benches/workload/mod.rs"]
mod workload;

use std::io::{self, BufWriter, Write};

fn main() -> io::Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let lines = arguments.first().and_then(|words| words.parse().ok()).unwrap_or(1_000_000);
    let mut to = BufWriter::new(io::stdout().lock());
    match arguments.get(1).map(String::as_str) {
        Some("year") => workload::write_year(lines, &mut to)?,
        _ => workload::write(lines, &mut to)?,
    }
    to.flush()
}
