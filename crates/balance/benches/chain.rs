//! How the work grows along doughs that take from each other: chains, in which each takes from the next, and circles, in
//! which the last takes from the first.
//!
//! `cargo bench -p levamen-balance --bench chain`
//!
//! Everything is in weights of its own, so nothing is the same in two doughs and every number is as long as the chain:
//! what the first of a thousand doughs is made of has a denominator of some ten thousand binary digits.

use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use levamen_balance::Balancer;
use levamen_formula::Book;
use levamen_language::TextId;

/// Doughs of which each takes a piece of the next; in a circle the last takes one of the first.
fn doughs(count: usize, is_circle: bool) -> String {
    let mut text = String::new();
    for number in 0..count {
        let (flour, water) = (1000 + 7 * (number % 13), 600 + 10 * (number % 11));
        let _ = writeln!(text, "dough Dough {number}-fold\n\nfinal dough");
        let _ = writeln!(text, "  strong white flour  {flour} g\n  water  {water} g\n  salt  20 g");
        if is_circle || number + 1 < count {
            let _ = writeln!(text, "  from Dough {}-fold  {} g\n", (number + 1) % count, 200 + number % 17);
        }
    }
    text
}

fn read(text: &str) -> Book {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert!(problems.is_empty(), "{:?}", problems.first());
    book
}

/// How many doughs have a balance.
fn balance_all(book: &Book) -> usize {
    let mut balancer = Balancer::new(book);
    book.entries().filter(|(id, _)| balancer.balance(*id).is_ok()).count()
}

fn benches(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("balance doughs that take from each other");
    group.sample_size(10);
    for (kind, is_circle) in [("chain", false), ("circle", true)] {
        for count in [10, 100, 1000] {
            let book = read(&doughs(count, is_circle));
            assert_eq!(balance_all(&book), count);
            group.bench_with_input(BenchmarkId::new(kind, count), &book, |bencher, book| {
                bencher.iter(|| balance_all(black_box(book)));
            });
        }
    }
    group.finish();
}

criterion_group!(chain, benches);
criterion_main!(chain);
