//! Solving 10,000 doughs exactly, beside formulas worked out by hand and a general float solver, on the same doughs.
//!
//! What each is given: the exact solver gets equations, which are lists of terms, and finds every figure of a dough,
//! about 33 of them with the sums that explain it; the closed form gets the numbers of the dough, and the dense solver
//! a matrix ready made, both for the 5 to 25 weights alone.
//!
//! `cargo bench -p levamen-balance --bench solve`; with `LEVAMEN_SYSTEMS=FILE` it also writes the dense systems for
//! `benches/peers.py`, which measures numerical libraries on them.

mod workload;

use std::hint::black_box;
use std::io::Write as _;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use levamen_balance::Solver;
use levamen_formula::{Book, Composition, Equations, Formula, Pantry, Variable, build_equations};
use levamen_language::TextId;
use levamen_quantity::Exact;
use nalgebra::{DMatrix, DVector};
use rust_decimal::Decimal;
use workload::{Dough, closed, dense};

const DOUGHS: usize = 10_000;

fn read(texts: &[String]) -> Book {
    let layer: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let (book, problems) = Book::read(&[&layer]);
    assert!(problems.is_empty(), "{:?}", problems.first());
    book
}

fn culture(pantry: &Pantry) -> Option<Composition> {
    let half = |name| pantry.find(name).map(|id| (id, Exact::ONE));
    Composition::from_weights([half("strong white flour")?, half("water")?], pantry)
}

/// The equations of every dough.
fn equations(formulas: &[&Formula], pantry: &Pantry) -> Vec<Equations> {
    let Some(culture) = culture(pantry) else { return Vec::new() };
    formulas
        .iter()
        .filter_map(|formula| build_equations(formula, pantry, |_| Some(&culture), &[]).ok())
        .collect()
}

fn solve_all(solver: &mut Solver, equations: &[Equations]) -> usize {
    let solved = equations.iter().filter(|equations| {
        let unit = equations.id(Variable::Flour);
        unit.is_some_and(|unit| solver.solve(equations, unit).is_ok())
    });
    solved.count()
}

fn closed_form<N: closed::Number>(doughs: &[Dough], out: &mut Vec<N>) -> usize {
    doughs
        .iter()
        .map(|dough| {
            out.clear();
            closed::weights(black_box(dough), out);
            out.len()
        })
        .sum()
}

/// The same weights by the exact solver, the closed form and the dense solver; so that all measure the same work.
fn assert_agreement(doughs: &[Dough]) {
    for dough in doughs.iter().take(500) {
        let mut by_hand: Vec<f64> = Vec::new();
        closed::weights(dough, &mut by_hand);
        let system = dense::system(dough);
        let matrix = DMatrix::from_row_slice(system.size, system.size, &system.matrix);
        let solved = matrix.lu().solve(&DVector::from_vec(system.right)).unwrap_or_default();
        assert!(by_hand.iter().zip(solved.iter()).all(|(a, b)| (a - b).abs() < 1e-6), "{dough:?}");
    }
}

fn benches(criterion: &mut Criterion) {
    let doughs = workload::doughs(DOUGHS);
    assert_agreement(&doughs);
    let book = read(&workload::texts(DOUGHS));
    let formulas: Vec<&Formula> =
        book.entries().skip(1).filter_map(|(_, entry)| entry.formula.as_ref()).collect();
    let stated = equations(&formulas, book.pantry());
    assert_eq!(stated.len(), DOUGHS);
    let systems: Vec<dense::System> = doughs.iter().map(dense::system).collect();
    write_systems(&systems);

    let mut group = criterion.benchmark_group("weights of 10,000 doughs");
    group.sample_size(20).throughput(Throughput::Elements(DOUGHS as u64));
    let mut floats = Vec::new();
    group.bench_function("closed form, f64", |bencher| {
        bencher.iter(|| closed_form::<f64>(&doughs, &mut floats));
    });
    let mut decimals = Vec::new();
    group.bench_function("closed form, rust_decimal", |bencher| {
        bencher.iter(|| closed_form::<Decimal>(&doughs, &mut decimals));
    });
    let mut solver = Solver::default();
    group.bench_function("exact, equations at hand", |bencher| {
        bencher.iter(|| solve_all(&mut solver, black_box(&stated)));
    });
    group.bench_function("state the equations", |bencher| {
        bencher.iter(|| equations(black_box(&formulas), book.pantry()).len());
    });
    group.bench_function("dense LU in f64, matrices at hand", |bencher| {
        bencher.iter(|| {
            let solved = systems.iter().filter_map(|system| {
                let matrix = DMatrix::from_row_slice(system.size, system.size, &system.matrix);
                matrix.lu().solve(&DVector::from_column_slice(&system.right))
            });
            solved.count()
        });
    });
    group.finish();
}

/// Writes the systems for other programs: for each its size, matrix and right side, as little-endian doubles.
fn write_systems(systems: &[dense::System]) {
    let Some(path) = std::env::var_os("LEVAMEN_SYSTEMS") else { return };
    let Ok(file) = std::fs::File::create(path) else { return };
    let mut out = std::io::BufWriter::new(file);
    for system in systems {
        let size = u32::try_from(system.size).map_or(0.0, f64::from);
        for number in std::iter::once(&size).chain(&system.matrix).chain(&system.right) {
            let _ = out.write_all(&number.to_le_bytes());
        }
    }
}

criterion_group!(solve, benches);
criterion_main!(solve);
