//! Growth rates as a source prints them, and what lies between two of them.
//!
//! Between two printed temperatures the time to double changes by the same factor with each degree. So the line goes
//! through every printed figure, and a ratio of times between two of them is the source's own. Outside the printed
//! temperatures the rate falls evenly to nothing at the end that the source names: a guess, used only for the cold or warm
//! hours of a room that changes, and said there.

/// The rate at a temperature in degrees Celsius, as a part of the fastest.
///
/// `points` are temperatures with their rates, coldest first; at `least` and `most` the rate is nothing.
pub(crate) fn rate(points: &[(f64, f64)], least: f64, most: f64, celsius: f64) -> f64 {
    let after = points.partition_point(|(at, _)| *at <= celsius);
    let before = after.checked_sub(1).and_then(|index| points.get(index));
    match (before, points.get(after)) {
        (Some((cold, slow)), Some((warm, quick))) => {
            slow * (quick / slow).powf((celsius - cold) / (warm - cold))
        }
        (None, Some((first, slow))) => slow * ((celsius - least) / (first - least)).max(0.0),
        (Some((last, slow)), None) => slow * ((most - celsius) / (most - last)).clamp(0.0, 1.0),
        (None, None) => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const POINTS: [(f64, f64); 3] = [(14.0, 0.25), (20.0, 0.5), (28.0, 1.0)];

    #[test]
    fn every_printed_rate_is_met_and_times_change_by_a_factor_between() {
        for (celsius, printed) in POINTS {
            assert!((rate(&POINTS, 8.0, 35.0, celsius) - printed).abs() < 1e-12);
        }
        let middle = rate(&POINTS, 8.0, 35.0, 17.0);
        assert!((middle * middle - 0.25 * 0.5).abs() < 1e-12, "{middle}");
    }

    #[test]
    fn outside_it_falls_to_nothing() {
        for still in [-300.0, 8.0, 35.0, 1e9, f64::NAN] {
            assert!(rate(&POINTS, 8.0, 35.0, still).abs() < 1e-12, "{still}");
        }
        assert!((rate(&POINTS, 8.0, 35.0, 11.0) - 0.125).abs() < 1e-12);
        assert!(rate(&[], 8.0, 35.0, 20.0).abs() < 1e-12);
    }
}
