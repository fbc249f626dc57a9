//! A day of the demo bakery as work for the timetable.

use std::fs;
use std::io;
use std::path::Path;

use jiff::civil::date;
use levamen_bakery::Bakery;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{Day, Gap, Hours, Orders, allot};
use levamen_timetable::{Clock, Effort, plan, verify};

/// The texts of the demo book.
fn demo() -> io::Result<Vec<String>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../formulas");
    let mut files: Vec<_> =
        fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<io::Result<_>>()?;
    files.retain(|path| path.extension().is_some_and(|extension| extension == "dough"));
    files.sort();
    files.iter().map(fs::read_to_string).collect()
}

/// The demo bakery, with so many pieces of every product ordered.
fn planned(pieces: u64) -> Option<(Bakery, Day, Hours)> {
    let texts = demo().ok()?;
    let texts: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let orders = Orders::from_pieces((0..bakery.products.len()).map(|product| (product, pieces)));
    let day = Day::plan(&book, &bakery, &orders, None).ok()?;
    let zone = jiff::tz::TimeZone::get("Europe/Lisbon").ok()?;
    let clock = Clock::new(date(2026, 11, 27), zone).ok()?;
    let hours = Hours::new(&bakery, &day, clock).ok()?;
    Some((bakery, day, hours))
}

#[test]
fn a_day_of_every_product_has_a_timetable() {
    let (_, _, hours) = planned(24).unwrap();
    let timetable = plan(&hours.work, Effort { rounds: 200, prices: 40 }).unwrap();
    assert_eq!(verify(&hours.work, &timetable), []);
    assert!(timetable.bound <= timetable.waiting.total());
}

#[test]
fn every_batch_and_every_stage_that_is_weighed_has_its_step() {
    let (_, day, hours) = planned(60).unwrap();
    for dough in &day.doughs {
        for (index, stage) in dough.balance.stages.iter().enumerate() {
            // A stage that is nothing but another dough of the day is that dough's batch.
            let is_dough = stage.lines.len() == 1
                && stage.lines.iter().any(|line| {
                    day.doughs.iter().any(|other| Some(other.need.dough) == line.from)
                        && !levamen_plan::is_old_dough(stage.kind)
                });
            let step = hours.step(dough.need.dough, index);
            assert_eq!(step.is_some(), !is_dough, "{} of {}", stage.name, dough.balance.dough);
        }
    }
}

#[test]
fn every_piece_comes_out_of_some_batch() {
    let (_, day, _) = planned(700).unwrap();
    for dough in &day.doughs {
        let portions: Vec<_> = allot(dough).into_iter().flatten().collect();
        for pieces in &dough.need.pieces {
            let own = portions.iter().filter(|portion| portion.product == pieces.product);
            assert_eq!(own.map(|portion| portion.pieces).sum::<u64>(), pieces.made);
        }
        assert_eq!(allot(dough).len(), dough.batches.parts.len());
    }
}

#[test]
fn nothing_is_missing_in_the_demo_bakery_but_how_its_shared_poolish_is_mixed() {
    let (_, _, hours) = planned(24).unwrap();
    let mixing: Vec<&Gap> = hours.gaps.iter().collect();
    assert!(matches!(mixing.as_slice(), [Gap::Mixing(dough, _)] if dough == "Night poolish"));
}
