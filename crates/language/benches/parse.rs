//! How fast a book is read, beside what cannot be done faster and what is done everywhere: copying its bytes,
//! finding its lines, and reading the same facts as JSON.
//!
//! Run with `cargo bench -p levamen-language`.

#[path = "../tests/common/book.rs"]
mod book;

use std::hint::black_box;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use levamen_language::{TextId, format, parse};

fn reading(criterion: &mut Criterion) {
    let text = book::text(10 << 20);
    let mut group = criterion.benchmark_group("book of 10 MB");
    group.throughput(Throughput::Bytes(text.len() as u64)).sample_size(20);
    group.bench_function("copy its bytes", |bencher| bencher.iter(|| black_box(text.as_str()).to_owned()));
    group.bench_function("find its lines", |bencher| {
        bencher
            .iter(|| memchr::memchr_iter(b'\n', black_box(&text).as_bytes()).fold(0, |sum, end| sum ^ end));
    });
    group.bench_function("parse it, places kept", |bencher| {
        bencher.iter_with_large_drop(|| parse(TextId(0), black_box(&text)));
    });
    let tree = parse(TextId(0), &text).tree;
    group.bench_function("lay it out", |bencher| bencher.iter(|| format(black_box(&tree), &text)));

    // Throughput of JSON is given in bytes of the book too, so that the two times compare.
    let json = book::as_json(&text);
    group.bench_function("read the same facts as JSON", |bencher| {
        bencher.iter(|| serde_json::from_str::<serde_json::Value>(black_box(&json)));
    });
    group.finish();
}

criterion_group!(benches, reading);
criterion_main!(benches);
