//! What grows, drawn.

use levamen::GrowthReport;
use levamen_ferment::{Leaven, RipeningReference, Seed, TemperatureCourse};
use levamen_quantity::{ClockTime, Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};
use levamen_views::plot::{svg, terminal};

fn hours(hours: i64) -> Duration {
    Duration::from_unit(&Exact::from(hours), TimeUnit::Hour)
}

fn celsius(degrees: i64) -> Temperature {
    Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius)
}

fn percent(percent: i64) -> Share {
    Share::from_percent(Exact::from(percent))
}

/// A levain with 20 % seed, ripe 12 h after it is set.
fn levain(title: &str, set: Option<ClockTime>) -> GrowthReport {
    let leaven = Leaven::Seed(Seed { of_flour: percent(20), beside: percent(200), sour: false });
    let reference = RipeningReference::new(leaven.clone(), &hours(12), None, &celsius(21)).unwrap();
    let curve =
        reference.curve(&leaven, &TemperatureCourse::constant(&celsius(21)), set, &hours(15)).unwrap();
    GrowthReport { title: title.to_owned(), curve, ripe_after: hours(12), set }
}

#[test]
fn in_plain_characters() {
    insta::assert_snapshot!(terminal(&levain("levain of Tin loaf", None)));
    insta::assert_snapshot!(terminal(&levain("levain of Tin loaf", ClockTime::new(15, 48))));
}

#[test]
fn as_svg_with_every_line_named_and_every_axis_labelled() {
    let drawn = svg(&levain("levain of Rye & <Salt>", ClockTime::new(18, 0)));
    assert!(drawn.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\"") && drawn.ends_with("</svg>\n"));
    for word in
        ["bacteria", "yeasts", "ripeness", "ripe", "time of day", "18:00", "06:00", "Rye &amp; &lt;Salt&gt;"]
    {
        assert!(drawn.contains(&format!(">{word}</")) || drawn.contains(word), "{word}");
    }
    assert_eq!(drawn.matches("<polyline").count(), 3);
    assert_eq!(drawn.matches('<').count(), drawn.matches('>').count());
    let points = drawn.split("points=\"").nth(3).and_then(|rest| rest.split('"').next()).unwrap();
    let points: Vec<(f64, f64)> = points
        .split(' ')
        .map(|point| point.split_once(',').map(|(x, y)| (x.parse().unwrap(), y.parse().unwrap())).unwrap())
        .collect();
    // Ripeness goes from the lower left corner of the frame up to its upper edge, evenly in an even room.
    assert_eq!((points[0], points.last().copied()), ((70.0, 372.0), Some((640.0, 56.0))));
    assert!((points[48].1 - (372.0 - 316.0 / 2.0)).abs() < 0.2, "{:?}", points[48]);
}
