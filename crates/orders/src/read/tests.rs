//! The fast way held against a slow, plain one, over random files.

use std::collections::{BTreeMap, HashSet};

use jiff::civil::{Date, date};
use proptest::prelude::*;

use super::*;
use levamen_calendar::Days;

use crate::{OrderColumns, OrderSource, Products, SourceText};

const PRODUCTS: [&str; 3] = ["Rye loaf", "Tin loaf", "Bun, seeded"];

/// What both ways find: pieces by date and product, pieces by customer, and which lines are wrong.
#[derive(Debug, PartialEq, Eq)]
struct Found {
    totals: BTreeMap<(Date, String), u64>,
    by_customer: BTreeMap<(Date, String, String), u64>,
    kind: Vec<(String, u64, &'static str)>,
}

/// A line of a random file: its cells as they are written, with the end of the line.
type FileLine = (Vec<String>, &'static str);

fn cell() -> impl Strategy<Value = String> {
    prop::sample::select(vec![
        "2026-11-27",
        "2026-11-28",
        "\"2026-11-27\"",
        "2026-11-31",
        "27.11.2026",
        "2026-12-24",
        "",
        "Quay café",
        "quay  CAFÉ",
        "\"Inn, old\"",
        "\"The \"\"Inn\"\"\"",
        "\"Inn\nnext door\"",
        "Rye loaf",
        " rye loaf ",
        "TIN  LOAF",
        "\"Bun, seeded\"",
        "Rye laof",
        "1",
        "24",
        " 7 ",
        "\"12\"",
        "0",
        "007",
        "1000000",
        "1000001",
        "1000000000000",
        "-1",
        "1.5",
        "a",
        "12\" tin",
    ])
    .prop_map(str::to_owned)
}

fn sound() -> impl Strategy<Value = Vec<String>> {
    let date = prop::sample::select(vec!["2026-11-27", "2026-11-28", "\"2026-11-27\"", "2026-12-24"]);
    let customer =
        prop::sample::select(vec!["Quay café", "quay  CAFÉ", "\"Inn, old\"", "\"Inn\nnext door\"", "Pier"]);
    let product = prop::sample::select(vec!["Rye loaf", " rye loaf ", "TIN  LOAF", "\"Bun, seeded\""]);
    (date, customer, product, 1_u32..2000).prop_map(|(date, customer, product, pieces)| {
        vec![date.to_owned(), customer.to_owned(), "note".to_owned(), product.to_owned(), pieces.to_string()]
    })
}

fn line() -> impl Strategy<Value = FileLine> {
    let cells = prop_oneof![6 => sound(), 1 => prop::collection::vec(cell(), 0..7)];
    (cells, prop::sample::select(vec!["\n", "\r\n"]))
}

fn text(lines: &[FileLine]) -> String {
    let rows = lines.iter().map(|(cells, end)| cells.join(",") + end);
    "\u{feff}Date,customer,note,PRODUCT,quantity\n".to_owned() + &rows.collect::<String>()
}

/// Reads the files with the csv crate and tables of the standard library, a line at a time.
fn plainly(files: &[Vec<FileLine>], days: Days) -> Found {
    let (mut totals, mut by_customer, mut kind) = (BTreeMap::new(), BTreeMap::new(), Vec::new());
    let mut seen = HashSet::new();
    for (index, lines) in files.iter().enumerate() {
        let mut number = 2;
        for (cells, end) in lines {
            let row = cells.join(",");
            let here = number;
            number += 1 + row.matches('\n').count() as u64;
            let codes = match plain_line(&(row + end)) {
                Err(codes) => codes,
                Ok(None) => Vec::new(),
                Ok(Some((day, ..))) if !days.has(day) => Vec::new(),
                Ok(Some((day, customer, product, pieces))) => {
                    let customer = plain_key(&customer);
                    if seen.insert((day, customer.clone(), product.clone())) {
                        *totals.entry((day, product.clone())).or_insert(0) += pieces;
                        *by_customer.entry((day, customer, product)).or_insert(0) += pieces;
                        Vec::new()
                    } else {
                        vec!["orders-duplicate"]
                    }
                }
            };
            kind.extend(codes.into_iter().map(|code| (format!("file {index}"), here, code)));
        }
    }
    Found { totals, by_customer, kind }
}

type Ordered = Option<(Date, String, String, u64)>;

fn plain_key(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

fn plain_line(row: &str) -> Result<Ordered, Vec<&'static str>> {
    let mut builder = csv::ReaderBuilder::new();
    let mut reader = builder.has_headers(false).flexible(true).from_reader(row.as_bytes());
    let Some(record) = reader.records().next() else { return Ok(None) };
    let cells: Vec<String> = record.unwrap().iter().map(|cell| cell.trim().to_owned()).collect();
    if cells.iter().all(String::is_empty) {
        return Ok(None);
    }
    if cells.len() < 5 {
        return Err(vec!["orders-few-cells"]);
    }
    if cells.iter().skip(5).any(|cell| !cell.is_empty()) {
        return Err(vec!["orders-many-cells"]);
    }
    let mut codes = Vec::new();
    let empty = |cell: &String, code| if cell.is_empty() { "orders-empty-cell" } else { code };
    let is_iso = cells[0].len() == 10 && cells[0].as_bytes()[4] == b'-';
    let day = cells[0].parse::<Date>().ok().filter(|_| is_iso);
    codes.extend(day.is_none().then(|| empty(&cells[0], "orders-date")));
    codes.extend(cells[1].is_empty().then_some("orders-empty-cell"));
    let product = PRODUCTS.iter().find(|name| plain_key(name) == plain_key(&cells[3]));
    codes.extend(product.is_none().then(|| empty(&cells[3], "orders-unknown-product")));
    let is_number = !cells[4].is_empty() && cells[4].bytes().all(|byte| byte.is_ascii_digit());
    let pieces = cells[4].parse::<u64>().ok().filter(|_| is_number);
    codes.extend(match pieces {
        None => Some(empty(&cells[4], "orders-quantity")),
        Some(0) => Some("orders-nothing"),
        Some(pieces) if pieces > 1_000_000 => Some("orders-too-many"),
        Some(_) => None,
    });
    match (day, product, pieces) {
        (Some(day), Some(product), Some(pieces)) if codes.is_empty() => {
            Ok(Some((day, cells[1].clone(), (*product).to_owned(), pieces)))
        }
        _ => Err(codes),
    }
}

fn fast(texts: &[SourceText], days: Days, way: ReadSettings) -> (Found, Orders) {
    let products = Products::new(PRODUCTS);
    let columns = OrderColumns::default();
    let request =
        OrderRequest { days, today: None, products: &products, columns: &columns, by_customer: true };
    let sources: Vec<&dyn OrderSource> = texts.iter().map(|text| text as &dyn OrderSource).collect();
    let orders = read_by(&Files { orders: &sources, ..Files::default() }, &request, way);
    let name = |product| products.name(product).to_owned();
    let totals = orders.demand.iter().map(|(day, product, pieces)| ((day, name(product)), pieces.count()));
    let by_customer = orders.by_customer.iter();
    let by_customer = by_customer.map(|((day, customer, product), pieces)| {
        ((*day, plain_key(customer), name(*product)), pieces.count())
    });
    let kind = orders.errors.reported().iter();
    let kind = kind.map(|error| (error.file.to_string(), error.line, error.problem().code));
    (Found { totals: totals.collect(), by_customer: by_customer.collect(), kind: kind.collect() }, orders)
}

fn texts(files: &[Vec<FileLine>]) -> Vec<SourceText> {
    let texts = files.iter().enumerate();
    texts.map(|(index, lines)| SourceText::new(format!("file {index}"), text(lines).into_bytes())).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// Whatever the size of blocks, the number of workers and the memory: the same totals and the same errors.
    #[test]
    fn it_finds_what_a_plain_reader_finds(
        files in prop::collection::vec(prop::collection::vec(line(), 0..25), 1..4),
        block in 16_usize..400,
        workers in 1_usize..4,
        room in prop::sample::select(vec![30_usize, 60, 1 << 20]),
    ) {
        let days = Days::new(date(2026, 11, 1), date(2026, 11, 30)).unwrap();
        let (found, orders) = fast(&texts(&files), days, ReadSettings { block, workers, room });
        let plain = plainly(&files, days);
        prop_assert_eq!(orders.errors.count(), plain.kind.len() as u64);
        prop_assert_eq!(found, plain);
    }
}

proptest! {
    /// Of any bytes, the same is found wherever blocks end.
    #[test]
    fn any_bytes_are_read_alike_in_blocks_of_any_size(
        parts in prop::collection::vec(
            prop::sample::select(vec![
                "2026-11-27,Inn,Rye loaf,", "2026-11-28", "Tin loaf", ",", "\"", "\n", "\r\n", "\r", " ", "7", "é",
            ]),
            0..120,
        ),
        block in 16_usize..200,
        workers in 1_usize..4,
    ) {
        let text = SourceText::new("any.csv", ("date,customer,product,quantity\n".to_owned() + &parts.concat()).into_bytes());
        let (_, whole) = fast(std::slice::from_ref(&text), november(), ReadSettings { workers: 1, ..PLAIN });
        let (_, split) = fast(&[text], november(), ReadSettings { block, workers, ..PLAIN });
        prop_assert_eq!(whole, split);
    }
}

/// Orders of one customer and day after the other, each for all products.
fn many(lines: u32) -> String {
    let line = |number: u32| {
        let (customer, product) = (number / 3, PRODUCTS[number as usize % 3]);
        format!("2026-11-{:02},Inn {},\"{product}\",2\n", 1 + customer % 28, customer / 28)
    };
    "date,customer,product,quantity\n".to_owned() + &(0..lines).map(line).collect::<String>()
}

const PLAIN: ReadSettings = ReadSettings { block: 64 << 10, workers: 2, room: 1 << 20 };

fn november() -> Days {
    Days::new(date(2026, 11, 1), date(2026, 11, 30)).unwrap()
}

#[test]
fn one_broken_line_in_a_hundred_thousand_is_told_with_its_line() {
    let mut lines: Vec<String> = many(100_000).lines().map(str::to_owned).collect();
    lines[77_776] = "2026-11-31,Inn 4,Rye loaf,2".to_owned();
    let text = SourceText::new("november.csv", lines.join("\r\n").into_bytes());
    let (found, orders) = fast(&[text], november(), PLAIN);
    assert_eq!(found.kind, [("november.csv".to_owned(), 77_777, "orders-date")]);
    assert_eq!(orders.demand.iter().map(|(.., pieces)| pieces.count()).sum::<u64>(), 2 * 99_999);
}

#[test]
fn of_many_mistakes_the_first_are_told_and_all_are_counted() {
    let text = many(5000).replace(",2\n", ",two\n");
    let (found, orders) = fast(&[SourceText::new("november.csv", text.into_bytes())], november(), PLAIN);
    assert_eq!(found.kind.len(), crate::MAX_REPORTED);
    assert!((2..202).eq(found.kind.iter().map(|(_, line, _)| *line)));
    assert_eq!(orders.errors.count(), 5000);
    let last = orders.problems().pop().unwrap();
    assert_eq!(last.message, "the orders are incomplete: 5000 mistakes are in them");
    assert!(last.notes.contains(&"4800 of them are not told".to_owned()), "{last:?}");
}

#[test]
fn a_second_line_is_found_across_files_and_parts() {
    let (all, again) = (many(3000), many(10));
    let sources = [SourceText::new("a.csv", all.into_bytes()), SourceText::new("b.csv", again.into_bytes())];
    for room in [400, 3000, 1 << 20] {
        let (found, orders) = fast(&sources, november(), ReadSettings { room, ..PLAIN });
        assert!((2..12).eq(found.kind.iter().map(|(_, line, _)| *line)), "{:?}", found.kind);
        assert_eq!(orders.demand.iter().map(|(.., pieces)| pieces.count()).sum::<u64>(), 2 * 3000);
        let first = orders.problems().remove(0).message;
        assert!(first.ends_with("already, in line 2 of a.csv"), "{first}");
    }
}

#[test]
fn a_quote_that_is_never_closed_ends_its_file_and_no_other() {
    let plain: Vec<String> =
        many(60_000).lines().filter(|line| !line.contains("Bun")).map(|line| line.replace('"', "")).collect();
    let broken = plain.join("\n").replacen("\n2026-11-05,", "\n\"2026-11-05,", 1);
    let line = 1 + broken[..=broken.find("\n\"2026").unwrap()].matches('\n').count() as u64;
    let sources =
        [SourceText::new("a.csv", broken.into_bytes()), SourceText::new("b.csv", many(7).into_bytes())];
    let (found, _) = fast(&sources, november(), PLAIN);
    assert_eq!(found.kind[0], ("a.csv".to_owned(), line, "orders-open-quote"));
    assert!(found.kind[1..].iter().all(|(file, ..)| file == "b.csv"), "{:?}", found.kind);
}
