//! How warm it is hour by hour: one temperature, or a room that cools over the night.

use levamen_quantity::{ClockTime, Temperature};

use crate::answer::{FermentError, celsius};
use crate::organism::Organism;

/// The longest step over which a rate is summed, in hours: a tenth is finer than any thermometer in a bakery.
const STEP: f64 = 0.1;

/// A temperature over time: straight lines between points; before the first and after the last as at them.
///
/// Hours count from the midnight before the first point.
#[derive(Debug, Clone, PartialEq)]
pub struct TemperatureCourse {
    points: Vec<(f64, f64)>,
}

impl TemperatureCourse {
    /// One temperature all the time.
    #[must_use]
    pub fn constant(at: &Temperature) -> Self {
        Self { points: vec![(0.0, celsius(at))] }
    }

    /// A room by the clock: each point is the next time that the clock shows it.
    ///
    /// # Errors
    /// No point at all, or the same time twice in a row.
    pub fn by_clock(points: &[(ClockTime, Temperature)]) -> Result<Self, FermentError> {
        if points.is_empty() {
            return Err(FermentError::new("no-room", "nothing says how warm the room is")
                .help("write times and temperatures, such as `18:00 24 °C, 04:00 17 °C`"));
        }
        let mut placed: Vec<(f64, f64)> = Vec::with_capacity(points.len());
        for (clock, at) in points {
            let own = hour(*clock);
            let last = placed.last().map_or(own, |(last, _)| *last);
            let hour = next(own, last);
            if !placed.is_empty() && hour <= last {
                return Err(FermentError::new(
                    "same-time-twice",
                    format!("the room has two temperatures at {clock}"),
                )
                .help("keep one of them"));
            }
            placed.push((hour, celsius(at)));
        }
        Ok(Self { points: placed })
    }

    /// The first hour of the course, or after it, at which the clock shows a time.
    pub(crate) fn hour_from(&self, clock: ClockTime) -> f64 {
        next(hour(clock), self.ends().0)
    }

    /// The hour at which the clock shows a time: within the course, or else as near to it as can be, before or after.
    /// Without a time, the first point.
    pub(crate) fn hour_near(&self, clock: Option<ClockTime>) -> f64 {
        let (first, last) = self.ends();
        let Some(clock) = clock else { return first };
        let after = next(hour(clock), first);
        let before = after - 24.0;
        if after > last && after - last > first - before { before } else { after }
    }

    /// The hours of the first and the last point.
    fn ends(&self) -> (f64, f64) {
        let hour = |point: Option<&(f64, f64)>| point.map_or(0.0, |(hour, _)| *hour);
        (hour(self.points.first()), hour(self.points.last()))
    }

    /// The temperatures of the points, in degrees Celsius.
    pub(crate) fn temperatures(&self) -> impl Iterator<Item = f64> + '_ {
        self.points.iter().map(|(_, celsius)| *celsius)
    }

    /// How warm it is at an hour, in degrees Celsius.
    pub(crate) fn celsius(&self, hour: f64) -> f64 {
        let after = self.points.partition_point(|(point, _)| *point <= hour);
        let before = after.checked_sub(1).and_then(|index| self.points.get(index));
        match (before, self.points.get(after)) {
            (Some((from, cold)), Some((to, warm))) => cold + (warm - cold) * (hour - from) / (to - from),
            (Some((_, celsius)), None) | (None, Some((_, celsius))) => *celsius,
            (None, None) => f64::NAN,
        }
    }

    /// The hours at its best temperature in which an organism does what it does between two hours here.
    pub(crate) fn full_hours(&self, organism: Organism, from: f64, to: f64) -> f64 {
        let inner = self.points.iter().map(|(hour, _)| *hour).filter(|hour| from < *hour && *hour < to);
        let ends: Vec<f64> = std::iter::once(from).chain(inner).chain([to]).collect();
        ends.iter().zip(ends.iter().skip(1)).map(|(from, to)| self.piece(organism, *from, *to)).sum()
    }

    /// The sum over a piece without a bend, by Simpson's rule.
    fn piece(&self, organism: Organism, from: f64, to: f64) -> f64 {
        let rate = |hour: f64| organism.rate(self.celsius(hour));
        let mut sum = 0.0;
        let mut at = from;
        while at < to {
            let end = (at + STEP).min(to);
            sum += (rate(at) + 4.0 * rate(f64::midpoint(at, end)) + rate(end)) * (end - at) / 6.0;
            at = end;
        }
        sum
    }
}

/// Hours since midnight.
pub(crate) fn hour(clock: ClockTime) -> f64 {
    f64::from(clock.minutes()) / 60.0
}

/// The first hour at or after another at which the clock shows the same.
pub(crate) fn next(hour: f64, after: f64) -> f64 {
    hour + ((after - hour) / 24.0).ceil() * 24.0
}

#[cfg(test)]
mod tests {
    use levamen_quantity::{Exact, TemperatureUnit};

    use super::*;

    fn headroom(points: &[(u16, i64)]) -> TemperatureCourse {
        let points: Vec<_> = points
            .iter()
            .map(|(hour, degrees)| {
                let at = Temperature::from_unit(&Exact::from(*degrees), TemperatureUnit::Celsius);
                (ClockTime::new(*hour, 0).unwrap(), at)
            })
            .collect();
        TemperatureCourse::by_clock(&points).unwrap()
    }

    #[test]
    fn between_two_points_it_changes_evenly_and_over_midnight() {
        let night = headroom(&[(18, 24), (22, 20), (4, 17)]);
        for (hour, celsius) in
            [(10.0, 24.0), (18.0, 24.0), (20.0, 22.0), (25.0, 18.5), (28.0, 17.0), (40.0, 17.0)]
        {
            assert!((night.celsius(hour) - celsius).abs() < 1e-9, "{hour}");
        }
    }

    #[test]
    fn a_constant_course_is_its_rate_times_the_hours() {
        for organism in [Organism::Bacteria, Organism::Yeasts, Organism::BakersYeast] {
            let summed = headroom(&[(18, 22), (22, 22), (3, 22)]).full_hours(organism, 15.0, 37.5);
            assert!((summed - 22.5 * organism.rate(22.0)).abs() < 1e-9);
        }
    }

    #[test]
    fn sums_agree_with_a_hundred_times_finer_ones() {
        let night = headroom(&[(18, 26), (21, 6), (4, 31)]);
        let fine: f64 = (0_u32..140_000)
            .map(|step| Organism::Yeasts.rate(night.celsius(17.0 + (f64::from(step) + 0.5) / 1e4)) / 1e4)
            .sum();
        // The rate bends at its printed temperatures, within a step: seconds of hours.
        assert!((night.full_hours(Organism::Yeasts, 17.0, 31.0) - fine).abs() < 1e-3);
    }

    #[test]
    fn a_time_is_within_the_course_or_near_it() {
        let night = headroom(&[(18, 24), (22, 20), (4, 17)]);
        for (shown, found) in [((20, 0), 20.0), ((4, 0), 28.0), ((7, 0), 31.0), ((16, 30), 16.5)] {
            let clock = ClockTime::new(shown.0, shown.1);
            assert!((night.hour_near(clock) - found).abs() < 1e-9, "{shown:?}");
        }
        assert!((night.hour_from(ClockTime::new(16, 30).unwrap()) - 40.5).abs() < 1e-9);
    }

    #[test]
    fn the_clock_comes_round_to_an_hour() {
        for (hour, after, found) in [(4.5, 18.0, 28.5), (18.0, 18.0, 18.0), (3.0, 50.0, 51.0)] {
            assert!((next(hour, after) - found).abs() < 1e-9);
        }
    }
}
