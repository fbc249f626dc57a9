//! The picture of a day shows all of it, and nothing twice.

use levamen_timetable::{BarOf, ChartRowOf, Effort, Minutes, chart_rows, plan};

use crate::bakery::Bakery;
use crate::kitchen::{Size, day};

#[test]
fn everything_is_in_a_lane_and_nothing_overlaps() {
    for doughs in [5, 20] {
        let work = day(Size::of(doughs));
        let timetable = plan(&work, Effort { rounds: 1, neighbourhoods: 400, prices: 0 }).unwrap();
        let chart_rows = chart_rows(&work, &timetable);
        for row in &chart_rows {
            assert!(row.bars.windows(2).all(|pair| pair[0].until <= pair[1].from), "{row:?}");
        }
        for (index, pool) in work.pools().iter().enumerate() {
            let of_pool: Vec<_> = chart_rows
                .iter()
                .filter(|row| matches!(row.of, ChartRowOf::Pool(id) if work.get_pool(id) == Some(pool)))
                .collect();
            // No more bakers in the picture than in the house.
            assert_eq!(of_pool.len(), usize::try_from(pool.most()).unwrap());
            let shown: u32 = of_pool
                .iter()
                .flat_map(|row| &row.bars)
                .filter_map(|bar| bar.until.since(bar.from))
                .map(Minutes::count)
                .sum();
            let needs = work.steps().iter().flat_map(|step| &step.needs);
            let needs = needs.filter(|need| work.get_pool(need.pool) == work.pools().get(index));
            assert_eq!(shown, needs.map(|need| need.places * need.length.count()).sum::<u32>());
        }
    }
}

#[test]
fn a_levain_for_several_doughs_waits_once() {
    let work = day(Size::of(5));
    let timetable = plan(&work, Effort { rounds: 1, neighbourhoods: 400, prices: 0 }).unwrap();
    let chart_rows = chart_rows(&work, &timetable);
    let bars = chart_rows.iter().filter(|row| row.of == ChartRowOf::Waiting).flat_map(|row| &row.bars);
    let ripening = bars.filter(|bar| {
        matches!(bar.of, BarOf::TimeLag(id) if work.get_time_lag(id).is_some_and(|time_lag| work.name(time_lag.after) == "build of levain 1"))
    });
    let ripening: Vec<_> = ripening.collect();
    assert_eq!(ripening.len(), 1);
    let last = work.step_ids().zip(work.steps()).filter(|(_, step)| step.name == "mix");
    let last = last.filter_map(|(id, _)| timetable.placement(id)).map(|placement| placement.start).max();
    assert_eq!(Some(ripening[0].until), last);
}

#[test]
fn two_decks_are_next_to_each_other() {
    let bakery = Bakery::new();
    let timetable = plan(&bakery.work, Effort::default()).unwrap();
    let chart_rows = chart_rows(&bakery.work, &timetable);
    let decks = chart_rows.iter().filter(|row| row.of == ChartRowOf::Pool(bakery.oven));
    assert_eq!(decks.map(|row| row.bars.len()).collect::<Vec<_>>(), [1, 1, 0]);
}
