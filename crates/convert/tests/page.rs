//! What `docs/convert.md` says of the kinds is what the tool goes by.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use levamen_convert::{ConversionTarget, RaisedBy};
use levamen_ferment::{Leaven as Started, RipeningReference, Seed};
use levamen_quantity::{Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};

/// The cells of a kind's row on the page.
fn cells(page: &str, target: ConversionTarget) -> Vec<&str> {
    let row = page.lines().find(|line| line.starts_with(&format!("| `{}` |", target.name())));
    row.expect("a row").trim_matches('|').split('|').map(str::trim).collect()
}

#[test]
fn the_usual_figures_are_on_the_page() {
    let page = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/convert.md"));
    let page = page.expect("the page");
    for target in ConversionTarget::ALL {
        let Some(usual) = target.usual() else { continue };
        let percent = |figure: u32| format!("{figure} %");
        let [least, most] = usual.share;
        let of = if target == ConversionTarget::RyeSour { " of the rye flour" } else { "" };
        let leaven = match target.leaven() {
            Some(RaisedBy::Yeast) => "yeast",
            Some(RaisedBy::Culture) => "a culture",
            Some(RaisedBy::OwnDough) | None => "the last batch of the same dough",
        };
        let hydration =
            if usual.hydration == 0 { "the dough's".to_owned() } else { percent(usual.hydration) };
        let seed = if usual.seed == 0 { String::new() } else { percent(usual.seed) };
        let share = format!("{least} to {most} %{of}");
        let ripens = format!("{} h at {} °C", usual.hours, usual.celsius);
        let name = format!("`{}`", target.name());
        let span = |[least, most]: [u32; 2]| {
            if least == most { least.to_string() } else { format!("{least} to {most}") }
        };
        let printed = format!("{} %, {} h", span(usual.printed_hydration), span(usual.printed_hours));
        let row = [name.as_str(), leaven, &hydration, &share, &seed, &ripens, &printed];
        assert_eq!(cells(&page, target), row);
    }
}

/// What is used where nothing is asked for is what the cited books have.
#[test]
fn the_usual_figures_are_within_those_in_print() {
    for usual in ConversionTarget::ALL.into_iter().filter_map(ConversionTarget::usual) {
        let within = |figure: u32, [least, most]: [u32; 2]| (least..=most).contains(&figure);
        assert!(within(usual.hours, usual.printed_hours), "{usual:?}");
        assert!(usual.hydration == 0 || within(usual.hydration, usual.printed_hydration), "{usual:?}");
    }
}

/// The stiff levain's seed is about what the model makes of 50 % in 8 h at 25 °C for its own hours and temperature.
#[test]
fn the_seed_of_a_stiff_levain_is_about_that_of_the_model() {
    let usual = ConversionTarget::StiffLevain.usual().expect("its figures");
    let percent = |figure: u32| Share::from_percent(Exact::from(figure));
    let hours = |figure: u32| Duration::from_unit(&Exact::from(figure), TimeUnit::Hour);
    let celsius = |figure: u32| Temperature::from_unit(&Exact::from(figure), TemperatureUnit::Celsius);
    let seed = Seed { of_flour: percent(50), beside: percent(100 + usual.hydration), sour: false };
    let known =
        RipeningReference::new(Started::Seed(seed), &hours(8), None, &celsius(25)).expect("a reference");
    let found = known.amount(&hours(usual.hours), &celsius(usual.celsius)).expect("an amount");
    let seed = found.value.of_flour().percent().to_f64();
    assert!((seed - f64::from(usual.seed)).abs() < 12.0, "{seed}");
}
