//! The hours at which somebody can feed.

use jiff::Span;
use jiff::civil::Time;

use crate::keeping::Keeping;
use crate::need::Need;

/// The minutes of a day.
const DAY: i64 = 24 * 60;
/// Feedings that nobody gave an hour for begin with a quarter of an hour.
const QUARTER: i64 = 15;
/// Needs within so many minutes are met by one feeding.
const TOGETHER: i64 = 4 * 60;

/// The times of day at which somebody can feed, the preferred ones first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Hours(Vec<Time>);

impl Hours {
    /// Times that the baker gave.
    #[must_use]
    pub fn given(times: Vec<Time>) -> Self {
        Self(times)
    }

    /// Times that suit the needs: for each time of day at which culture is needed, the quarter of an hour in which
    /// it must be fed to be ripe then; and from there on every shortest rhythm that fits before the next day.
    #[must_use]
    pub fn suiting(keeping: &Keeping, needs: &[Need], otherwise: Time) -> Self {
        let wanted = together(needs.iter().map(|need| need.at.time()).collect(), otherwise);
        let mut times = Vec::new();
        let step = keeping.rhythm().least;
        for rank in 0..=(DAY / step.max(60)) {
            for time in &wanted {
                let minute = i64::from(time.hour()) * 60 + i64::from(time.minute());
                let early = (minute - keeping.ripens().most).div_euclid(QUARTER) * QUARTER;
                let time =
                    Time::midnight().wrapping_add(Span::new().minutes((early + rank * step).rem_euclid(DAY)));
                if rank * step < DAY && !times.contains(&time) {
                    times.push(time);
                }
            }
        }
        Self(times)
    }

    /// The times.
    #[must_use]
    pub fn times(&self) -> &[Time] {
        &self.0
    }
}

/// The first of the times that lie close together, each: what is ripe at the first is ripe at the others.
fn together(mut times: Vec<Time>, otherwise: Time) -> Vec<Time> {
    times.sort();
    let mut firsts: Vec<Time> = Vec::new();
    for time in times {
        if firsts.last().is_none_or(|first| first.duration_until(time).as_mins() >= TOGETHER) {
            firsts.push(time);
        }
    }
    if firsts.is_empty() {
        firsts.push(otherwise);
    }
    firsts
}
