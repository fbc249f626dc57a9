//! Edits of a live book of 10,000 doughs, one text each: from the edit to the figures that changed.
//!
//! `cargo bench -p levamen-balance --bench edit`

#![expect(clippy::print_stdout, reason = "a bench says what it measures")]

mod workload;

use std::hint::black_box;
use std::sync::Arc;

use criterion::{Criterion, criterion_group, criterion_main};
use levamen_balance::LiveBook;
use levamen_language::TextId;

const DOUGHS: usize = 10_000;

/// Pantry entries of the bakery's own, behind the doughs in the order of ids.
const PANTRY: TextId = TextId(20_000);
const YEAST: &str = "ingredient fresh yeast\n  holds 69 % water\n";

/// The texts of a book whose doughs take from one culture, but for those without a seed.
fn book() -> (LiveBook, Vec<String>) {
    let texts = workload::texts(DOUGHS);
    let mut layer: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    layer.push((PANTRY, YEAST));
    let live = LiveBook::read(&[&layer]);
    assert_eq!(live.open_book().problems().count(), 0);
    (live, texts)
}

/// Measures going back and forth between two texts.
fn measure(criterion: &mut Criterion, live: &mut LiveBook, name: &str, id: TextId, texts: [&str; 2]) {
    let texts = texts.map(Arc::<str>::from);
    let [first, second] = &texts;
    let _ = live.edit(id, Arc::clone(first));
    let Some(changes) = live.edit(id, Arc::clone(second)) else { return };
    let figures: usize = changes.doughs.iter().map(|dough| dough.figures.len()).sum();
    println!("{name}: {figures} figures of {} doughs", changes.doughs.len());
    let mut round = 0;
    criterion.bench_function(name, |bencher| {
        bencher.iter(|| {
            round += 1;
            live.edit(id, Arc::clone(black_box(&texts[round % 2])))
        });
    });
}

fn benches(criterion: &mut Criterion) {
    let (mut live, texts) = book();
    let salt = |text: &str| text.replacen("  salt  ", "  salt  1", 1);
    // A dough without pre-ferments, and one with all that there may be.
    let plain = texts.iter().skip(1).position(|text| !text.contains("stage")).unwrap_or(0) + 1;
    let rich = (1..=DOUGHS).max_by_key(|index| texts[*index].len()).unwrap_or(1);
    for (name, index) in [("salt of the plainest dough", plain), ("salt of the richest dough", rich)] {
        let id = TextId(u32::try_from(index).unwrap_or(0));
        measure(criterion, &mut live, name, id, [&texts[index], &salt(&texts[index])]);
    }
    let culture = workload::CULTURE;
    let comment = format!("# fed twice a day\n{culture}");
    measure(criterion, &mut live, "a comment at the culture", TextId(0), [culture, &comment]);
    let fed = culture.replace("water  100 %", "water  90 %");
    measure(criterion, &mut live, "the water of the culture", TextId(0), [culture, &fed]);
    let yeast = YEAST.replace("69 %", "70 %");
    measure(criterion, &mut live, "an ingredient that every dough lists", PANTRY, [YEAST, &yeast]);
}

criterion_group! {
    name = edit;
    config = Criterion::default().sample_size(20);
    targets = benches
}
criterion_main!(edit);
