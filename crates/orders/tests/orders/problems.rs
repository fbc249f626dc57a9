//! Every problem as it is told.

use std::io::{Error, Read, Result};

use levamen_calendar::Days;
use levamen_orders::{Files, OrderColumns, OrderRequest, OrderSource, Products, read};

use crate::{orders, reported};

/// What is told of a file of orders.
fn file(text: &str) -> String {
    let orders = orders(&[("november.csv", text)], &[], &[]);
    assert!(!orders.is_complete());
    reported(&orders.problems())
}

/// What is told of lines under sound headings.
fn lines(lines: &str) -> String {
    file(&format!("delivery day,customer,product,quantity\n{lines}"))
}

#[test]
fn files() {
    let kind = [
        "",
        "day,customer,product,quantity\n",
        "delivery day,customer,product,Product,quantity\n",
        "delivery day;customer;product;quantity\n",
        "\"delivery day,customer,product,quantity\n2026-11-27,Quay café,Rye loaf,4\n",
    ];
    insta::assert_snapshot!(kind.map(file).concat());
}

#[test]
fn rows() {
    insta::assert_snapshot!(lines(
        "2026-11-27,Quay café\n\
         2026-11-27,Quay café,Bun, seeded,4\n\
         2026-11-27,,Rye loaf,4\n\
         ,Quay café,,\n\
         ,,,\n\n\
         2026-11-27,Quay café,Rye laof,4\n\
         2026-11-27,Quay café,Moon cake,4\n\
         2026-11-27,Quay café,Seeded rol,4,,\n\
         2026-11-25,Quay café,Rye loaf,4\n\
         2026-11-27,\"Quay café,Rye loaf,4\n"
    ));
}

#[test]
fn rows_in_another_encoding() {
    let products = Products::new(["Rye loaf"]);
    let bytes = b"date,customer,product,quantity\n2026-11-27,Quay caf\xe9,Rye loaf,4\n";
    let text = levamen_orders::SourceText::new("november.csv", bytes.as_slice());
    let days = Days::one("2026-11-27".parse().unwrap());
    let columns = OrderColumns::default();
    let request =
        OrderRequest { days, today: None, products: &products, columns: &columns, by_customer: false };
    insta::assert_snapshot!(reported(
        &read(&Files { orders: &[&text], ..Files::default() }, &request).problems()
    ));
}

#[test]
fn dates() {
    insta::assert_snapshot!(lines(
        "2026-11-31,Quay café,Rye loaf,4\n\
         2027-02-29,Quay café,Rye loaf,4\n\
         2026-13-01,Quay café,Rye loaf,4\n\
         27.11.2026,Quay café,Rye loaf,4\n\
         3/12/2026,Quay café,Rye loaf,4\n\
         2026-11-27T06:00,Quay café,Rye loaf,4\n\
         tomorrow,Quay café,Rye loaf,4\n"
    ));
}

#[test]
fn quantities() {
    insta::assert_snapshot!(lines(
        "2026-11-27,Quay café,Rye loaf,1000000000000\n\
         2026-11-27,Quay café,Rye loaf,0\n\
         2026-11-27,Quay café,Rye loaf,-4\n\
         2026-11-27,Quay café,Rye loaf,4.5\n\
         2026-11-27,Quay café,Rye loaf,\"1,200\"\n\
         2026-11-27,Quay café,Rye loaf,24 pieces\n\
         2026-11-27,Quay café,Rye loaf,a dozen\n"
    ));
}

#[test]
fn duplicates() {
    let first = "delivery day,customer,product,quantity\n2026-11-27,Quay café,Rye loaf,4\n";
    let second = "quantity,product,customer,delivery day\n5,RYE  loaf,quay CAFÉ,2026-11-27\n";
    let orders = orders(&[("monday.csv", first), ("tuesday.csv", second)], &[], &[]);
    insta::assert_snapshot!(reported(&orders.problems()));
}

#[test]
fn standing_orders() {
    let standing = "weekday,customer,product,quantity,from,until\n\
                    Friday,Quay café,Rye loaf,20,,2026-11-30\n\
                    fri,quay café,rye loaf,30,2026-11-30,\n\
                    Fryday,Quay café,Tin loaf,20,,\n\
                    Saturday,Quay café,Tin loaf,20,2026-12-01,2026-11-01\n\
                    Sunday,Quay café,Tin loaf,0,1.12.2026,\n";
    let exceptions = "delivery day,customer,product,quantity\n\
                      2026-11-27,Quay café,Rye loaf,0\n\
                      2026-11-27,Quay café,Rye loaf,5\n\
                      2026-11-28,Quay café,Rye loaf,5\n\
                      2026-11-27,Quay café,Rye loaf,none\n";
    let orders = orders(&[], &[("standing.csv", standing)], &[("exceptions.csv", exceptions)]);
    insta::assert_snapshot!(reported(&orders.problems()));
}

#[test]
fn a_misspelt_day_of_the_week_is_told_once_a_file() {
    let lines = |day: &str, products: &[&str]| -> String {
        products.iter().map(|product| format!("{day},Quay café,{product},20\n")).collect::<Vec<_>>().concat()
    };
    let first = format!(
        "weekday,customer,product,quantity\n{}{}{}",
        lines("Fryday", &["Rye loaf", "Tin loaf", "Seeded roll"]),
        lines("Satday", &["Rye loaf", "Tin loaf"]),
        lines("Sonday", &["Rye loaf"]),
    );
    let second = format!("weekday,customer,product,quantity\n{}", lines("Fryday", &["Rye loaf"]));
    let problems = orders(&[], &[("one.csv", &first), ("two.csv", &second)], &[]).problems();
    let told: Vec<(&str, Option<&str>)> = problems
        .iter()
        .map(|problem| (problem.message.as_str(), problem.notes.iter().map(String::as_str).nth(1)))
        .collect();
    assert_eq!(
        told,
        [
            (
                "one.csv, line 2: `Fryday` is not a day of the week",
                Some("2 other lines of the file say the same")
            ),
            (
                "one.csv, line 5: `Satday` is not a day of the week",
                Some("another line of the file says the same")
            ),
            ("one.csv, line 7: `Sonday` is not a day of the week", None),
            ("two.csv, line 2: `Fryday` is not a day of the week", None),
            ("the orders are incomplete: 7 mistakes are in them", None),
        ]
    );
}

/// A file that cannot be opened, or stops in the middle of a line.
struct Broken {
    opens: bool,
}

impl OrderSource for Broken {
    fn name(&self) -> &str {
        if self.opens { "stops.csv" } else { "missing.csv" }
    }

    fn open(&self) -> Result<Box<dyn Read + Send + '_>> {
        if !self.opens {
            return Err(Error::other("no such file"));
        }
        let lines = b"date,customer,product,quantity\n2026-11-27,Quay cafe,Rye loaf,4\n2026-11-27,Quay";
        Ok(Box::new(lines.as_slice().chain(Stop)))
    }
}

struct Stop;

impl Read for Stop {
    fn read(&mut self, _: &mut [u8]) -> Result<usize> {
        Err(Error::other("the disk was taken out"))
    }
}

#[test]
fn unreadable_files() {
    let products = Products::new(["Rye loaf"]);
    let days = Days::one("2026-11-27".parse().unwrap());
    let columns = OrderColumns::default();
    let request =
        OrderRequest { days, today: None, products: &products, columns: &columns, by_customer: false };
    let sources: [&dyn OrderSource; 2] = [&Broken { opens: false }, &Broken { opens: true }];
    let orders = read(&Files { orders: &sources, ..Files::default() }, &request);
    assert_eq!(orders.demand.iter().count(), 1, "what came before the trouble is counted");
    insta::assert_snapshot!(reported(&orders.problems()));
}

#[test]
fn empty_lines_before_the_headings_do_not_matter() {
    let headings = "delivery day,customer,product,quantity\n";
    for before in ["\n", "\r\n\r\n", ",,,\n\n", "  \n\"\"\n", &"\n".repeat(300_000)] {
        let text = format!(
            "\u{feff}{before}{headings}2026-11-27,Quay café,Rye loaf,4\n2026-11-27,Quay café,Moon cake,4\n"
        );
        let orders = orders(&[("november.csv", &text)], &[], &[]);
        let pieces: u64 =
            orders.demand.on("2026-11-27".parse().unwrap()).map(|(_, pieces)| pieces.count()).sum();
        assert_eq!(pieces, 4);
        // The mistake is told at the line where it stands.
        let line = before.matches('\n').count() + 3;
        let reported = reported(&orders.problems());
        assert!(reported.contains(&format!("november.csv, line {line}: `Moon cake`")), "{reported}");
    }
    // Headings that are wrong are told at their own line, and nothing but empty lines is an empty file.
    insta::assert_snapshot!(["\n\nday,customer,product,quantity\n", "\n\n,,\n"].map(file).concat());
}

#[test]
fn there_is_no_year_0() {
    insta::assert_snapshot!(lines("0000-11-27,Quay café,Rye loaf,4\n20261127,Quay café,Rye loaf,4\n"));
}
