//! How a culture is kept, as the baker declares it.

use std::cmp::Ordering;

use levamen_quantity::{Duration, Exact, Mass, Share, TimeUnit};

use crate::unkeepable::Unkeepable;

/// The most of anything that is planned: an hour count past a year is no rhythm.
const MOST_MINUTES: i64 = 366 * 24 * 60;

/// Two ends, of which the first is not above the second.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Span<T> {
    /// The least.
    pub least: T,
    /// The most.
    pub most: T,
}

impl<T: Clone> Span<T> {
    /// A span from the least to the most.
    #[must_use]
    pub const fn new(least: T, most: T) -> Self {
        Self { least, most }
    }

    /// A span of one value.
    #[must_use]
    pub fn only(value: T) -> Self {
        Self { least: value.clone(), most: value }
    }
}

/// What a baker declares of a culture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Declared {
    /// The share of old culture in the fed culture, by weight.
    pub keeps: Span<Share>,
    /// The usual share of old culture.
    pub usually: Share,
    /// How long after feeding it is ripe.
    pub ripens: Span<Duration>,
    /// How long from one feeding to the next.
    pub fed_every: Span<Duration>,
    /// How long ripe culture stays usable in the cold, where it is ever put there.
    pub stored: Option<Duration>,
    /// The least that stands in the tub after a feeding.
    pub hold_least: Mass,
    /// The most that stands in the tub after a feeding; `None` without a limit.
    pub hold_most: Option<Mass>,
}

/// A culture that can be kept: what was declared, found to agree with itself.
///
/// Masses are what stands in the tub. What goes off as gas is not counted: it is a percent or two of the flour
/// (common practice, no source), less than what sticks to the tub.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Keeping {
    declared: Declared,
    /// In whole minutes, each inside what was declared.
    ripens: Span<i64>,
    rhythm: Span<i64>,
    longest: i64,
}

/// Of 100 parts refreshed culture, the parts that are old: 40 to 60 new hold its weight with 60 % thrown away. A share of
/// old culture is called low or high beside this; common practice, no source.
pub const USUAL_OLD_PARTS: i32 = 40;

impl Declared {
    /// The usual figures of a culture of which nothing more is said than how long it ripens: 20 to 50 % old and usually
    /// 40 %, fed every 12 to 24 h, at least 200 g (common practice, no source; 40 parts old to 60 parts new is the
    /// common ratio of back-slopping). A culture that ripens longer is fed when it is ripe.
    #[must_use]
    pub fn usual(ripens: Span<Duration>) -> Self {
        let percent = |figure: i32| Share::from_percent(Exact::from(figure));
        let hours = |figure: i32| Duration::from_unit(&Exact::from(figure), TimeUnit::Hour);
        let longest = hours(24).max(ripens.most.clone());
        Self {
            keeps: Span::new(percent(20), percent(50)),
            usually: percent(USUAL_OLD_PARTS),
            fed_every: Span::new(hours(12), longest),
            ripens,
            stored: None,
            hold_least: Mass::from_grams(Exact::from(200)),
            hold_most: None,
        }
    }

    /// `low` or `high`, where the share of old culture is under or over [`USUAL_OLD_PARTS`]; `None` where it is that.
    #[must_use]
    pub fn beside_usual(&self) -> Option<&'static str> {
        match self.usually.percent().cmp(&Exact::from(USUAL_OLD_PARTS)) {
            Ordering::Less => Some("low"),
            Ordering::Equal => None,
            Ordering::Greater => Some("high"),
        }
    }
}

impl Keeping {
    /// Looks whether a culture can be kept as it is declared.
    ///
    /// # Errors
    /// What does not agree: shares outside 0 to 100 %, a least above its most, hours of zero, a culture that is to be fed
    /// again before it is ripe.
    pub fn new(declared: Declared) -> Result<Self, Unkeepable> {
        let keeps = &declared.keeps;
        let is_part = |share: &Share| share.fraction().is_positive() && *share < Share::WHOLE;
        if !is_part(&keeps.least) || !is_part(&keeps.most) {
            return Err(Unkeepable::Keeps(keeps.clone()));
        }
        if keeps.least > keeps.most {
            return Err(Unkeepable::KeepsBackwards(keeps.clone()));
        }
        if declared.usually < keeps.least || declared.usually > keeps.most {
            return Err(Unkeepable::Usually(declared.usually.clone(), keeps.clone()));
        }
        let ripens = minutes(&declared.ripens).ok_or(Unkeepable::Ripens)?;
        let rhythm = minutes(&declared.fed_every).ok_or(Unkeepable::FedEvery)?;
        if rhythm.most < ripens.least {
            return Err(Unkeepable::FedUnripe { every: rhythm.most, ripe: ripens.least });
        }
        if !declared.hold_least.grams().is_positive() {
            return Err(Unkeepable::HoldsNothing);
        }
        if let Some(most) = declared.hold_most.as_ref().filter(|most| **most < declared.hold_least) {
            return Err(Unkeepable::HoldBackwards(Span::new(declared.hold_least.clone(), most.clone())));
        }
        let cold = declared.stored.as_ref().map_or(0, |stored| whole_minutes(stored, false));
        let longest = rhythm.most.max(if cold > 0 { ripens.most + cold.min(MOST_MINUTES) } else { 0 });
        // Culture is fed when it is ripe and not before: unripe culture that is thinned again grows weaker each time
        // (common practice, no source).
        let rhythm = Span::new(rhythm.least.max(ripens.least), rhythm.most);
        Ok(Self { declared, ripens, rhythm, longest })
    }

    /// What was declared.
    #[must_use]
    pub const fn declared(&self) -> &Declared {
        &self.declared
    }

    /// Minutes from a feeding to ripe culture.
    pub(crate) const fn ripens(&self) -> &Span<i64> {
        &self.ripens
    }

    /// Minutes from a feeding to the next without the cold.
    pub(crate) const fn rhythm(&self) -> &Span<i64> {
        &self.rhythm
    }

    /// The most minutes from a feeding to the next, the cold included.
    pub(crate) const fn longest(&self) -> i64 {
        self.longest
    }

    /// The least share of old culture, as a fraction.
    pub(crate) const fn low(&self) -> &Exact {
        self.declared.keeps.least.fraction()
    }

    /// The most.
    pub(crate) const fn high(&self) -> &Exact {
        self.declared.keeps.most.fraction()
    }
}

/// A span in whole minutes inside the declared one; `None` where it is empty, backwards, zero or past counting.
fn minutes(span: &Span<Duration>) -> Option<Span<i64>> {
    let (least, most) = (whole_minutes(&span.least, true), whole_minutes(&span.most, false));
    (least > 0 && least <= most && most <= MOST_MINUTES).then_some(Span { least, most })
}

fn whole_minutes(time: &Duration, up: bool) -> i64 {
    let minutes = time.in_unit(TimeUnit::Minute);
    let whole = if up { -(-&minutes).floor() } else { minutes.floor() };
    whole.to_i64().unwrap_or(i64::MAX)
}
