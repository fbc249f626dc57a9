//! The workload: a million order lines and the doughs that they take, from fixed seeds.

#![allow(dead_code, reason = "each program uses a part of it")]

pub mod doughs;

use std::io::{self, Write};

/// What is sold.
pub const PRODUCTS: u64 = 200;
/// Who orders.
pub const CUSTOMERS: u64 = 2_000;
/// Days from the first one on.
pub const DATES: u64 = 30;

/// A product's name.
pub fn product(number: u64) -> String {
    const KINDS: [&str; 5] = ["Rye loaf", "Tin loaf", "Seeded roll", "Quay baguette", "Harbour bun"];
    let kind = KINDS.get(usize::try_from(number % 5).unwrap_or(0)).copied().unwrap_or_default();
    format!("{kind} {number}")
}

/// Writes `lines` lines of orders with their headings: no customer orders a product twice for a day.
///
/// They come in no order: each is a fixed stride away from the one before it among all combinations of date, customer
/// and product. Past the number of combinations, 12 million, months follow each other.
pub fn write(lines: u64, to: &mut impl Write) -> io::Result<()> {
    let all = PRODUCTS * CUSTOMERS * DATES;
    // About 0.618 of all combinations, so that neighbours are far apart; prime to it, so that each is met once.
    let stride = 7_416_407;
    writeln!(to, "date,customer,product,quantity")?;
    for line in 0..lines {
        let (month, at) = (line / all, (line % all) * stride % all);
        let (date, customer, product) = (at % DATES, at / DATES % CUSTOMERS, at / DATES / CUSTOMERS);
        let pieces = pieces(line);
        let (year, month) = (2026 + month / 12, 1 + month % 12);
        // February has fewer days; its last orders are taken for the 28th of another customer.
        let (day, shop) = if month == 2 && date >= 28 { (28, "Inn") } else { (date + 1, "Quay") };
        let name = self::product(product);
        writeln!(to, "{year}-{month:02}-{day:02},{shop} {customer:04} café,{name},{pieces}")?;
    }
    Ok(())
}

/// Writes `lines` lines of a year's orders, the 366 days from 2028-01-01 on: like [`write`], for a chain whose book
/// `examples/chain.rs` writes.
pub fn write_year(lines: u64, to: &mut impl Write) -> io::Result<()> {
    let first = jiff::civil::date(2028, 1, 1);
    let dates: Vec<_> = first.series(jiff::Span::new().days(1)).take(366).collect();
    let (days, all) = (dates.len() as u64, PRODUCTS * CUSTOMERS * dates.len() as u64);
    // A prime near 0.618 of all combinations.
    let stride = 90_475_213;
    writeln!(to, "date,customer,product,quantity")?;
    for line in 0..lines.min(all) {
        let at = line * stride % all;
        let (day, customer, product) = (at % days, at / days % CUSTOMERS, at / days / CUSTOMERS);
        let date = usize::try_from(day).ok().and_then(|day| dates.get(day)).copied().unwrap_or(first);
        let name = self::product(product);
        writeln!(to, "{date},Quay {customer:04} café,{name},{}", pieces(line))?;
    }
    Ok(())
}

/// The pieces of a line: 1 to 60, from a fixed seed.
fn pieces(line: u64) -> u64 {
    1 + (line.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 32) % 60
}

/// The lines in memory.
pub fn csv(lines: u64) -> Vec<u8> {
    let mut bytes = Vec::new();
    // A vector takes all that is written.
    let _ = write(lines, &mut bytes);
    bytes
}
