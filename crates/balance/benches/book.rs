//! A book of 10,000 doughs: reading and balancing it, and scaling a balanced dough.
//!
//! `cargo bench -p levamen-balance --bench book`

mod workload;

use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use levamen_balance::Balancer;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_quantity::{Exact, Mass};

const DOUGHS: usize = 10_000;

fn read(texts: &[String]) -> Book {
    let layer: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let (book, problems) = Book::read(&[&layer]);
    assert!(problems.is_empty(), "{:?}", problems.first());
    book
}

/// How many doughs have a balance; the generator asks some stages for more water than there is.
fn balance_all(book: &Book) -> usize {
    let mut balancer = Balancer::new(book);
    book.entries().filter(|(id, _)| balancer.balance(*id).is_ok()).count()
}

fn benches(criterion: &mut Criterion) {
    let texts = workload::texts(DOUGHS);
    let book = read(&texts);
    let balanced = balance_all(&book);
    assert!(balanced > DOUGHS * 95 / 100, "{balanced}");
    let mut group = criterion.benchmark_group("book of 10,000 doughs");
    group.sample_size(10).throughput(Throughput::Elements(DOUGHS as u64));
    group.bench_function("read", |bencher| bencher.iter(|| read(black_box(&texts))));
    group.bench_function("balance", |bencher| bencher.iter(|| balance_all(black_box(&book))));
    group.finish();

    let mut solver = Balancer::new(&book);
    let doughs = book.entries().filter_map(|(id, _)| solver.balance(id).ok().cloned());
    let Some(largest) = doughs.max_by_key(|balance| balance.batch().weights().count()) else { return };
    let cells = largest.batch().weights().count();
    criterion.bench_function(&format!("scale a dough of {cells} cells"), |bencher| {
        let flour = Mass::from_grams(Exact::from(12_345));
        let mut weights = Vec::with_capacity(cells);
        bencher.iter(|| {
            weights.clear();
            weights.extend(largest.with_flour(black_box(flour.clone())).weights());
            weights.last().cloned()
        });
    });
}

criterion_group!(book, benches);
criterion_main!(book);
