//! A million lines of orders, with duplicates looked for, beside reading the records with the csv crate and counting
//! line ends: `cargo bench -p levamen-orders`.

mod workload;

use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use jiff::civil::date;
use levamen_calendar::Days;
use levamen_orders::{Files, OrderColumns, OrderRequest, Orders, SourceText, read};
use workload::doughs::Bakery;

const LINES: u64 = 1_000_000;

fn orders(bakery: &Bakery, text: &SourceText) -> Orders {
    let columns = OrderColumns::default();
    let first = date(2026, 1, 1);
    let days = Days::new(first, date(2026, 1, 31)).unwrap_or(Days::one(first));
    let request =
        OrderRequest { days, today: None, products: &bakery.products, columns: &columns, by_customer: false };
    read(&Files { orders: &[text], ..Files::default() }, &request)
}

fn records(bytes: &[u8]) -> u64 {
    let mut reader = csv::Reader::from_reader(bytes);
    let (mut record, mut count) = (csv::ByteRecord::new(), 0);
    while reader.read_byte_record(&mut record).is_ok_and(|is_one| is_one) {
        count += 1;
    }
    count
}

fn benches(criterion: &mut Criterion) {
    let bakery = Bakery::new();
    let bytes = workload::csv(LINES);
    let text = SourceText::new("orders.csv", bytes.clone());
    let found = orders(&bakery, &text);
    assert!(found.is_complete(), "{:?}", found.problems());
    let mut group = criterion.benchmark_group("a million order lines");
    group.sample_size(20).throughput(Throughput::Elements(LINES));
    group.bench_function("to pieces", |bencher| bencher.iter(|| orders(&bakery, black_box(&text))));
    group.bench_function("csv records, dropped", |bencher| bencher.iter(|| records(black_box(&bytes))));
    group.bench_function("line ends counted", |bencher| {
        bencher.iter(|| memchr::memchr_iter(b'\n', black_box(&bytes)).count());
    });
    group.finish();
    criterion.bench_function("pieces to what is weighed", |bencher| {
        bencher.iter(|| bakery.weighed(black_box(&found.demand)));
    });
}

criterion_group!(read_orders, benches);
criterion_main!(read_orders);
