//! The crate from outside: what is told of every mistake, and standing orders day by day.

mod problems;
mod weekly;

use std::fmt::Write as _;

use jiff::civil::date;
use levamen_calendar::Days;
use levamen_language::Problem;
use levamen_orders::{Files, OrderColumns, OrderRequest, OrderSource, Orders, Products, SourceText, read};

/// Orders of a bakery that sells four things, read on 2026-11-26 for that day and the four after it.
fn orders(ordinary: &[(&str, &str)], standing: &[(&str, &str)], exceptions: &[(&str, &str)]) -> Orders {
    let products = Products::new(["Rye loaf", "Tin loaf", "Seeded roll", "Bun, seeded"]);
    let texts = |files: &[(&str, &str)]| -> Vec<SourceText> {
        files.iter().map(|(name, text)| SourceText::new(*name, text.as_bytes())).collect()
    };
    let (ordinary, standing, exceptions) = (texts(ordinary), texts(standing), texts(exceptions));
    let today = date(2026, 11, 26);
    let days = Days::new(today, date(2026, 11, 30)).unwrap_or(Days::one(today));
    let columns = OrderColumns { date: "Delivery day".to_owned(), ..OrderColumns::default() };
    let request =
        OrderRequest { days, today: Some(today), products: &products, columns: &columns, by_customer: true };
    let (ordinary, standing, exceptions) = (sources(&ordinary), sources(&standing), sources(&exceptions));
    read(&Files { orders: &ordinary, standing: &standing, exceptions: &exceptions }, &request)
}

fn sources(texts: &[SourceText]) -> Vec<&dyn OrderSource> {
    texts.iter().map(|text| text as &dyn OrderSource).collect()
}

/// Problems as plain text.
fn reported(problems: &[Problem]) -> String {
    let mut text = String::new();
    for problem in problems {
        let _ = writeln!(text, "{}: {}", problem.code, problem.message);
        let notes = problem.notes.iter().map(|note| format!("  note: {note}\n"));
        text.extend(notes.chain(problem.help.iter().map(|help| format!("  help: {help}\n"))));
        text.push('\n');
    }
    text
}
