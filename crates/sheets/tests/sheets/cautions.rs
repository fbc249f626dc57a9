//! Food that stands too warm, by hours counted on paper, and water that scalds.

use levamen_balance::{Balance, Spoiling};
use levamen_ferment::Hazard;
use levamen_language::Kind;
use levamen_quantity::{Duration, Exact, TimeUnit};
use levamen_sheets::{DoughCaution, cautions};

use crate::kitchen::{Tub, kitchen};

fn hours(figure: i64) -> Duration {
    Duration::from_unit(&Exact::from(figure), TimeUnit::Hour)
}

/// Flour and milk stand in a soaker for as long as `ripens` says, and go into a dough that stands so long before the oven.
fn soaked(ripens: impl FnOnce(Tub) -> Tub, standing: Option<Duration>) -> Balance {
    let fill = |tub: Tub| ripens(tub.add("white flour", "100").add("milk", "100"));
    let mut balance = kitchen("Milk loaf")
        .ahead("soaker", Kind::Soaker, fill)
        .last(|tub| tub.take(0, "soaker", "200").add("white flour", "400").add("water", "200"));
    balance.stages[0].lines[1].spoiling.push(Spoiling { name: "milk".to_owned(), when_wet: false });
    balance.standing_time = standing;
    balance
}

/// The stages that there is a caution about, and how long something has stood by their end.
fn stood(found: &[DoughCaution]) -> Vec<(&str, Option<Duration>)> {
    found.iter().map(|caution| (caution.name.as_str(), caution.stood.clone())).collect()
}

/// 3 h in the soaker and 2 h in the dough are 5 h, an hour more than the 4 h that food may stand; the caution is where they pass it.
#[test]
fn hours_are_counted_over_the_stages() {
    let found = cautions(&soaked(|tub| tub.ripens(2, Some(3), 21), Some(hours(2))));
    assert_eq!(stood(&found), [("final dough", Some(hours(5)))]);
    assert_eq!((found[0].hazard, found[0].stage), (Hazard::Spoiling, 1));
    assert_eq!(found[0].foods, ["milk"]);
    assert!(found[0].words().starts_with("milk: 5 h neither cold nor hot by the end of final dough. "));
}

#[test]
fn four_hours_in_all_are_not_too_long() {
    assert_eq!(cautions(&soaked(|tub| tub.ripens(2, Some(3), 21), Some(hours(1)))), []);
}

/// Where one time is said, it is used up to a quarter longer: 4 h are counted as 5 h.
#[test]
fn a_stage_counts_as_long_as_it_may_stand() {
    let found = cautions(&soaked(|tub| tub.ripens(4, None, 21), Some(hours(1))));
    assert_eq!(stood(&found), [("soaker", Some(hours(5)))], "once, where it is first too long");
}

#[test]
fn what_is_held_cold_or_hot_does_not_count() {
    for celsius in [4, 60] {
        assert_eq!(cautions(&soaked(|tub| tub.ripens(12, Some(12), celsius), Some(hours(4)))), []);
    }
    let warm = cautions(&soaked(|tub| tub.ripens(12, Some(12), 20), Some(hours(4))));
    assert_eq!(stood(&warm), [("soaker", Some(hours(12)))]);
}

/// Nothing says how long the soaker stands: that is said, and it is not taken as none.
#[test]
fn a_time_that_nothing_says_is_said_to_be_missing() {
    let found = cautions(&soaked(|tub| tub, Some(hours(1))));
    assert_eq!(stood(&found), [("soaker", Some(hours(0)))]);
    assert!(found[0].is_unsaid);
    assert!(found[0].words().starts_with("milk: in soaker, and nothing says how long. "));
    // 3 h are used up in the soaker, and how long the dough stands nobody says.
    let later = cautions(&soaked(|tub| tub.ripens(3, Some(3), 21), None));
    assert_eq!((stood(&later), later[0].is_unsaid), (vec![("final dough", Some(hours(3)))], true));
}

/// Fresh milk in a straight dough of which no card says how long it stands is no reason for a caution; 5 h that are said are one.
#[test]
fn a_straight_dough_is_cautioned_about_where_its_time_is_said() {
    let mut balance = kitchen("Milk loaf").last(|tub| tub.add("white flour", "400").add("milk", "250"));
    balance.stages[0].lines[1].spoiling.push(Spoiling { name: "milk".to_owned(), when_wet: false });
    assert_eq!(cautions(&balance), []);
    balance.standing_time = Some(hours(5));
    assert_eq!(stood(&cautions(&balance)), [("final dough", Some(hours(5)))]);
}

/// The batches of a final dough are one dough: what is said of the first is not said again of the second.
#[test]
fn batches_are_cautioned_about_once() {
    let mut balance = kitchen("Milk loaf").last(|tub| tub.add("white flour", "400").add("milk", "250"));
    balance.stages[0].lines[1].spoiling.push(Spoiling { name: "milk".to_owned(), when_wet: false });
    balance.standing_time = Some(hours(5));
    balance.stages.push(balance.stages[0].clone());
    let found = cautions(&balance);
    assert_eq!((stood(&found), found[0].stage), (vec![("final dough", Some(hours(5)))], 0));
}

/// Milk powder does not spoil while it is dry: its time begins when water comes to it.
#[test]
fn what_is_dry_counts_from_when_it_is_wet() {
    let dry = |water: &str| {
        let fill = |tub: Tub| {
            let tub = tub.add("white flour", "100").add("milk powder", "10").ripens(12, Some(12), 20);
            if water == "0" { tub } else { tub.add("water", water) }
        };
        let whole = if water == "0" { "110" } else { "210" };
        let mut balance = kitchen("Milk loaf")
            .ahead("mix", Kind::Soaker, fill)
            .last(|tub| tub.take(0, "mix", whole).add("white flour", "400").add("water", "200"));
        balance.stages[0].lines[1].spoiling.push(Spoiling { name: "milk powder".to_owned(), when_wet: true });
        balance.standing_time = Some(hours(3));
        cautions(&balance)
    };
    assert_eq!(dry("0"), []);
    assert_eq!(stood(&dry("100")), [("mix", Some(hours(12)))]);
}

/// A scald is poured with boiling water, and is cooked food afterwards.
#[test]
fn a_scald_is_hot_and_then_spoils() {
    let fill = |tub: Tub| tub.add("rye flour", "100").add("water", "200").ripens(6, Some(6), 25);
    let balance = kitchen("Rye")
        .ahead("scald", Kind::Scald, fill)
        .last(|tub| tub.take(0, "scald", "300").add("rye flour", "400").add("water", "200"));
    let found = cautions(&balance);
    assert_eq!(
        found.iter().map(|caution| caution.hazard).collect::<Vec<_>>(),
        [Hazard::HotWater, Hazard::Spoiling]
    );
    assert_eq!(stood(&found), [("scald", None), ("scald", Some(hours(6)))]);
    assert_eq!(found[1].foods, ["scald"]);
}
