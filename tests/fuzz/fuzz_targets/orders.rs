//! Any bytes are a file of orders, of standing orders or of exceptions: each line is counted or reported, a file that is read twice
//! counts once, and each customer's part adds up to the whole. Nothing panics.

#![no_main]

use std::sync::LazyLock;

use jiff::civil::date;
use levamen_orders::{OrderColumns, Files, MAX_REPORTED, Orders, Products, OrderRequest, OrderSource, SourceText, read};
use levamen_calendar::{Days};
use libfuzzer_sys::fuzz_target;

static PRODUCTS: LazyLock<Products> =
    LazyLock::new(|| Products::new(["Rye loaf", "Tin loaf", "Bun, seeded"]));

fuzz_target!(|bytes: &[u8]| {
    let heading: &[u8] = match bytes.first() {
        Some(first) if first % 2 == 0 => b"date,customer,product,quantity\n",
        Some(_) => b"weekday,customer,product,quantity,from,until\n",
        None => b"",
    };
    let headed = [heading, bytes.get(1..).unwrap_or_default()].concat();
    let text = SourceText::new("orders.csv", headed.clone());
    let once = orders(&[&text], &[], &[]);
    sound(&once, &headed);
    let twice = orders(&[&text, &text], &[], &[]);
    assert_eq!(once.demand, twice.demand, "a file that is read twice counts once");
    sound(&orders(&[], &[&text], &[&text]), &headed);
    sound(&orders(&[&SourceText::new("orders.csv", bytes)], &[], &[]), bytes);
});

fn orders(orders: &[&dyn OrderSource], standing: &[&dyn OrderSource], exceptions: &[&dyn OrderSource]) -> Orders {
    let days = Days::new(date(2026, 11, 20), date(2026, 12, 31)).expect("in order");
    let columns = OrderColumns::default();
    let today = Some(date(2026, 11, 23));
    let request = OrderRequest { days, today, products: &PRODUCTS, columns: &columns, by_customer: true };
    read(&Files { orders, standing, exceptions }, &request)
}

fn sound(orders: &Orders, bytes: &[u8]) {
    let parts: u64 = orders.by_customer.values().map(|pieces| pieces.count()).sum();
    assert_eq!(parts, orders.demand.iter().map(|(.., pieces)| pieces.count()).sum::<u64>());
    let lines = bytes.iter().filter(|byte| **byte == b'\n').count() as u64 + 1;
    let reported = orders.errors.reported();
    assert_eq!(reported.len() as u64, orders.errors.count().min(MAX_REPORTED as u64));
    assert!(reported.iter().all(|error| (1..=lines).contains(&error.line)), "a line that is not there");
    assert_eq!(orders.problems().is_empty(), orders.is_complete());
}
