//! How the work grows with the dough: 1,000 ingredients in 200 stages, and ten times less.
//!
//! `cargo bench -p levamen-balance --bench growth`

use std::fmt::Write as _;
use std::hint::black_box;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use levamen_balance::Balancer;
use levamen_formula::Book;
use levamen_language::TextId;

/// A dough of `ingredients` in `stages`, each of which holds flour, water and every ingredient whose number leaves
/// the stage's own when divided by a tenth of them.
fn dough(ingredients: usize, stages: usize) -> String {
    let mut text = String::new();
    for number in 0..ingredients {
        let _ = writeln!(text, "ingredient spice number {number} x\n  holds  {} % water\n", number % 90);
    }
    let _ = writeln!(text, "dough Everything\n\noverall\n  flour  100 %\n  water  90 %");
    for number in 0..ingredients {
        let _ = writeln!(text, "  spice number {number} x  0.{} %", 1 + number % 9);
    }
    for stage in 0..stages {
        let _ = writeln!(text, "\nstage part {stage}, a sponge\n  takes  0.{} % of the flour", 1 + stage % 4);
        let _ = writeln!(text, "  flour  100 %\n  water  {} %", 60 + stage % 40);
        for number in (stage % 10..ingredients).step_by(10).take(20) {
            let _ = writeln!(text, "  spice number {number} x  0.01 %");
        }
    }
    text
}

fn read(text: &str) -> Book {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert!(problems.is_empty(), "{:?}", problems.first());
    book
}

fn benches(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("balance one dough");
    group.sample_size(20);
    for (ingredients, stages) in [(100, 20), (1000, 200)] {
        let book = read(&dough(ingredients, stages));
        let name = format!("{ingredients} ingredients, {stages} stages");
        group.bench_with_input(BenchmarkId::from_parameter(name), &book, |bencher, book| {
            bencher.iter(|| {
                let mut balancer = Balancer::new(black_box(book));
                book.entries().filter(|(id, _)| balancer.balance(*id).is_ok()).count()
            });
        });
    }
    group.finish();
}

criterion_group!(growth, benches);
criterion_main!(growth);
