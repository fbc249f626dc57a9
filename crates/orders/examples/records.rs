//! Reads the records of a CSV file with the csv crate and drops them: `records orders.csv`.

#![allow(clippy::print_stdout, reason = "it is a command")]

use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let path = std::env::args().nth(1).unwrap_or_default();
    let mut reader = csv::Reader::from_path(path)?;
    let (mut record, mut count) = (csv::ByteRecord::new(), 0_u64);
    while reader.read_byte_record(&mut record)? {
        count += 1;
    }
    println!("{count} records");
    Ok(())
}
