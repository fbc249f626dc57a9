//! Writes the order lines of the workload to standard output: `generate 1000000 > orders.csv`.

#[path = "../benches/workload/mod.rs"]
mod workload;

use std::io::{self, BufWriter, Write};

fn main() -> io::Result<()> {
    let lines = std::env::args().nth(1).and_then(|words| words.parse().ok()).unwrap_or(1_000_000);
    let mut to = BufWriter::new(io::stdout().lock());
    workload::write(lines, &mut to)?;
    to.flush()
}
