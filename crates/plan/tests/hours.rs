//! A day of the demo bakery as work for the timetable.

use std::fs;
use std::io;
use std::path::Path;

use jiff::civil::{Date, date};
use jiff::tz::TimeZone;
use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BookBalances;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{Day, DayOrders, DayStageId, Hours, allot};
use levamen_timetable::{Clock, Effort, LagFrom, Moment, plan, verify};

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
    planned_for(date(2026, 11, 27), pieces)
}

/// The same for bread of some day.
fn planned_for(bread: Date, pieces: u64) -> Option<(Bakery, Day, Hours)> {
    let texts = demo().ok()?;
    let texts: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let orders =
        DayOrders::from_pieces(ProductId::all().take(bakery.products.len()).map(|product| (product, pieces)));
    let day = Day::plan(&BookBalances::new(&book), &bakery, &orders, None).ok()?;
    let zone = TimeZone::get("Europe/Lisbon").ok()?;
    let clock = Clock::new(bread, zone).ok()?;
    let hours = Hours::new(&bakery, &day, clock).ok()?;
    Some((bakery, day, hours))
}

#[test]
fn a_day_of_every_product_has_a_timetable() {
    let (_, _, hours) = planned(24).unwrap();
    let timetable = plan(&hours.work, Effort { rounds: 1, neighbourhoods: 200, prices: 40 }).unwrap();
    assert_eq!(verify(&hours.work, &timetable), []);
    assert!(timetable.bound <= timetable.waiting.total());
}

/// 100 pieces on decks of 10 want ten decks, and the ovens have five and three: loads of five decks, which the small oven never
/// takes, and each in one oven.
#[test]
fn a_load_is_in_one_oven() {
    let texts = [(
        TextId(0),
        "dough Rye\noverall\n  rye flour 100 %\n  water 70 %\nmake 10 kg of dough\n\
         bakery House\n  out by 06:00\noven large oven\n  decks 5\noven small oven\n  decks 3\n\
         product Loaf\n  made of Rye\n  piece 500 g\n  deck 10 pieces\n  bakes 40 min\n",
    )];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let loads = |pieces| {
        let orders = DayOrders::from_pieces([(ProductId::new(0), pieces)]);
        let day = Day::plan(&BookBalances::new(&book), &bakery, &orders, None).unwrap();
        let clock = Clock::new(date(2026, 11, 27), TimeZone::UTC).unwrap();
        let hours = Hours::new(&bakery, &day, clock).unwrap();
        let timetable = plan(&hours.work, Effort { rounds: 1, neighbourhoods: 10, prices: 4 }).unwrap();
        assert_eq!(verify(&hours.work, &timetable), []);
        let bakes = timetable.placed(&hours.work).filter(|(step, _)| step.name == "bake");
        let ovens = bakes.map(|(step, placement)| {
            let decks = placement
                .needs(step)
                .find(|need| hours.work.get_pool(need.pool).unwrap().one == "deck")
                .unwrap();
            (hours.work.get_pool(decks.pool).unwrap().name.clone(), decks.places)
        });
        ovens.collect::<Vec<_>>()
    };
    let large = ("large oven".to_owned(), 5);
    assert_eq!(loads(100), [large.clone(), large.clone()]);
    // The rest of 70 pieces are two decks: both ovens take them, and the small one is free while the large one is full.
    assert_eq!(loads(70), [large, ("small oven".to_owned(), 2)]);
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
            let step = hours.step(DayStageId { dough: dough.need.dough, stage: index });
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
fn nothing_is_missing_in_the_demo_bakery() {
    let (_, _, hours) = planned(24).unwrap();
    assert_eq!(hours.gaps, []);
}

/// The minutes from the start of a wait to its end in real time, by instants and not by the wall.
fn real(clock: &Clock, from: Moment, to: Moment) -> Option<i64> {
    let seconds = clock.at(to)?.timestamp().as_second() - clock.at(from)?.timestamp().as_second();
    Some(seconds / 60)
}

#[test]
fn nights_of_23_and_25_hours_keep_real_minutes_and_the_time_on_the_wall() {
    // Of all nights of the year these two have clocks that change in Lisbon.
    for (bread, hours) in [(date(2026, 3, 28), 24), (date(2026, 3, 29), 23), (date(2026, 10, 25), 25)] {
        let (_, _, day) = planned_for(bread, 12).unwrap();
        let (work, clock) = (&day.work, &day.clock);
        let midnight = |date: Date| clock.moment(date.to_datetime(jiff::civil::Time::midnight())).unwrap();
        assert_eq!(real(clock, midnight(bread), midnight(bread.tomorrow().unwrap())), Some(hours * 60));
        let timetable = plan(work, Effort { rounds: 1, neighbourhoods: 40, prices: 4 }).unwrap();
        assert_eq!(verify(work, &timetable), [], "{bread}");
        let entry = |id| timetable.placements.iter().find(|entry| entry.step == id).unwrap();
        for wait in work.time_lags() {
            let after = entry(wait.after);
            let from = if wait.since == LagFrom::End { after.end } else { after.start };
            let minutes = real(clock, from, entry(wait.before).start).unwrap();
            assert!(minutes >= i64::from(wait.least.count()), "{bread}: {minutes} min of {wait:?}");
            assert!(wait.most.is_none_or(|most| minutes <= i64::from(most.count())), "{bread}: {wait:?}");
        }
        // Out by 06:30, and what cools quickest cools half an hour.
        let out_by = work.step_ids().filter_map(|id| work.get(id)?.deadline).max().unwrap();
        assert_eq!(clock.at(out_by).unwrap().datetime(), bread.at(6, 0, 0, 0));
    }
}

/// Ten thousand million hours are more than a million years.
#[test]
fn a_time_that_no_timetable_holds_is_not_no_time() {
    for fact in [
        "shaping 10000000000 h",
        "bakes 10000000000 h",
        "proof 10000000000 to 10000000001 h",
        "cools 10000000000 h",
    ] {
        let text = format!(
            "dough Loaf\n\noverall\n  strong white flour  100 %\n  water  60 %\n\nproduct Loaf\n  made of Loaf\n  piece 1 kg\n  {fact}\n"
        );
        let texts = [(TextId(0), text.as_str())];
        let (book, problems) = Book::read(&[&texts]);
        assert_eq!(problems, []);
        let (bakery, problems) = Bakery::read(&book, &texts);
        assert_eq!(problems, []);
        let orders = DayOrders::from_pieces([(ProductId::new(0), 10)]);
        let day = Day::plan(&BookBalances::new(&book), &bakery, &orders, None).unwrap();
        let clock = Clock::new(date(2026, 11, 27), TimeZone::UTC).unwrap();
        let hours = Hours::new(&bakery, &day, clock).unwrap();
        let timetable = plan(&hours.work, Effort::default()).unwrap();
        assert!(!timetable.is_complete(), "{fact}");
    }
}
