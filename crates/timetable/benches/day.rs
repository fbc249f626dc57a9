//! How long a day's timetable takes, and how that grows with the doughs.
//!
//! `first` is the first timetable, as placed; `full` is the default effort, bound and all. How far the waiting is from
//! its bound is printed beside, since speed alone says little.

#![expect(clippy::unwrap_used, reason = "a bench that cannot go on has failed")]
#![expect(clippy::print_stderr, reason = "the gap to the bound belongs beside the time")]

use std::hint::black_box;
use std::time::Duration;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use levamen_timetable::{Effort, Timetable, Work, plan};

mod kitchen;

use kitchen::{Size, day};

/// Enough for a timetable of every size here.
const FIRST: Effort = Effort { rounds: 1, neighbourhoods: 0, prices: 0 };

fn days(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("timetable");
    group.sample_size(10).measurement_time(Duration::from_secs(8));
    for doughs in [10, 20, 40, 80] {
        let work = day(Size::of(doughs));
        for (name, effort) in [("first", FIRST), ("full", Effort::default())] {
            tell(doughs, name, &work, &plan(&work, effort).unwrap());
            let id = BenchmarkId::new(name, doughs);
            group.bench_with_input(id, &work, |bencher, work| bencher.iter(|| plan(black_box(work), effort)));
        }
    }
    group.finish();
}

fn tell(doughs: u32, name: &str, work: &Work, timetable: &Timetable) {
    let (waiting, bound, gap) = (timetable.waiting.total(), timetable.bound, timetable.gap());
    let percent = f64::from(gap.count()) * 100.0 / f64::from(waiting.count().max(1));
    let steps = work.steps().len();
    eprintln!(
        "{doughs} doughs, {steps} steps, {name}: {waiting} waiting, at least {bound}, gap {percent:.1} %"
    );
}

criterion_group!(benches, days);
criterion_main!(benches);
