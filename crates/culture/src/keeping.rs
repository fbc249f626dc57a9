//! How a culture is kept, as the baker declares it, and what can be wrong with that.

use std::cmp::Ordering;

use levamen_language::Problem;
use levamen_quantity::{Duration, Exact, Mass, Share, TimeUnit};

use crate::figure_text::{hours, percent, weight};

/// The most of anything that is planned: an hour count past a year is no rhythm.
const MOST_MINUTES: i64 = 366 * 24 * 60;

/// Two ends, of which the first is not above the second.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Interval<T> {
    /// The least.
    pub least: T,
    /// The most.
    pub most: T,
}

impl<T: Clone> Interval<T> {
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
    pub keeps: Interval<Share>,
    /// The usual share of old culture.
    pub usually: Share,
    /// How long after feeding it is ripe.
    pub ripens: Interval<Duration>,
    /// How long from one feeding to the next.
    pub fed_every: Interval<Duration>,
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
pub struct CultureKeeping {
    declared: Declared,
    /// In whole minutes, each inside what was declared.
    ripens: Interval<i64>,
    rhythm: Interval<i64>,
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
    pub fn usual(ripens: Interval<Duration>) -> Self {
        let percent = |figure: i32| Share::from_percent(Exact::from(figure));
        let hours = |figure: i32| Duration::from_unit(&Exact::from(figure), TimeUnit::Hour);
        let longest = hours(24).max(ripens.most.clone());
        Self {
            keeps: Interval::new(percent(20), percent(50)),
            usually: percent(USUAL_OLD_PARTS),
            fed_every: Interval::new(hours(12), longest),
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

impl CultureKeeping {
    /// Looks whether a culture can be kept as it is declared.
    ///
    /// # Errors
    /// What does not agree: shares outside 0 to 100 %, a least above its most, hours of zero, a culture that is to be fed
    /// again before it is ripe.
    pub fn new(declared: Declared) -> Result<Self, KeepingError> {
        let keeps = &declared.keeps;
        let is_part = |share: &Share| share.fraction().is_positive() && *share < Share::WHOLE;
        if !is_part(&keeps.least) || !is_part(&keeps.most) {
            return Err(KeepingError::Keeps(keeps.clone()));
        }
        if keeps.least > keeps.most {
            return Err(KeepingError::KeepsBackwards(keeps.clone()));
        }
        if declared.usually < keeps.least || declared.usually > keeps.most {
            return Err(KeepingError::Usually(declared.usually.clone(), keeps.clone()));
        }
        let ripens = minutes(&declared.ripens).ok_or(KeepingError::Ripens)?;
        let rhythm = minutes(&declared.fed_every).ok_or(KeepingError::FedEvery)?;
        if rhythm.most < ripens.least {
            return Err(KeepingError::FedUnripe { every: rhythm.most, ripe: ripens.least });
        }
        if !declared.hold_least.grams().is_positive() {
            return Err(KeepingError::HoldsNothing);
        }
        if let Some(most) = declared.hold_most.as_ref().filter(|most| **most < declared.hold_least) {
            return Err(KeepingError::HoldBackwards(Interval::new(
                declared.hold_least.clone(),
                most.clone(),
            )));
        }
        let cold = declared.stored.as_ref().map_or(0, |stored| whole_minutes(stored, false));
        let longest = rhythm.most.max(if cold > 0 { ripens.most + cold.min(MOST_MINUTES) } else { 0 });
        // Culture is fed when it is ripe and not before: unripe culture that is thinned again grows weaker each time
        // (common practice, no source).
        let rhythm = Interval::new(rhythm.least.max(ripens.least), rhythm.most);
        Ok(Self { declared, ripens, rhythm, longest })
    }

    /// What was declared.
    #[must_use]
    pub const fn declared(&self) -> &Declared {
        &self.declared
    }

    /// Minutes from a feeding to ripe culture.
    pub(crate) const fn ripens(&self) -> &Interval<i64> {
        &self.ripens
    }

    /// Minutes from a feeding to the next without the cold.
    pub(crate) const fn rhythm(&self) -> &Interval<i64> {
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
fn minutes(span: &Interval<Duration>) -> Option<Interval<i64>> {
    let (least, most) = (whole_minutes(&span.least, true), whole_minutes(&span.most, false));
    (least > 0 && least <= most && most <= MOST_MINUTES).then_some(Interval { least, most })
}

fn whole_minutes(time: &Duration, up: bool) -> i64 {
    let minutes = time.in_unit(TimeUnit::Minute);
    let whole = if up { -(-&minutes).floor() } else { minutes.floor() };
    whole.to_i64().unwrap_or(i64::MAX)
}

/// Why a culture cannot be kept as it is declared.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum KeepingError {
    /// The share of old culture is nothing, or all.
    Keeps(Interval<Share>),
    /// The least share of old culture is above the most.
    KeepsBackwards(Interval<Share>),
    /// The usual share lies outside the allowed ones.
    Usually(Share, Interval<Share>),
    /// The time to ripeness is zero, ends before it begins, or is past counting.
    Ripens,
    /// The rhythm is.
    FedEvery,
    /// It is to be fed again before it can be ripe; both in minutes.
    FedUnripe {
        /// The most between two feedings.
        every: i64,
        /// The least from feeding to ripe.
        ripe: i64,
    },
    /// The least to hold is nothing.
    HoldsNothing,
    /// The least to hold is above the most.
    HoldBackwards(Interval<Mass>),
}

impl KeepingError {
    /// The problem, with the culture's name.
    #[must_use]
    pub fn problem(&self, culture: &str) -> Problem {
        let error = |code, message: &str| Problem::error(code, format!("`{culture}` {message}"));
        match self {
            Self::Keeps(keeps) => error(
                "keeps-share",
                &format!("cannot keep {} to {} old", percent(&keeps.least), percent(&keeps.most)),
            )
            .note("with nothing kept it is lost, and with all kept it is not fed")
            .help("write shares above 0 % and under 100 %, such as `keeps 20 to 50 % old`"),
            Self::KeepsBackwards(keeps) => error(
                "keeps-order",
                &format!(
                    "keeps least {} and most {} old: the least is above the most",
                    percent(&keeps.least),
                    percent(&keeps.most)
                ),
            )
            .help(format!("write `keeps {} to {} % old`", bare(&keeps.most), bare(&keeps.least))),
            Self::Usually(usual, Interval { least, most }) => error(
                "usually-outside",
                &format!(
                    "is usually {} old, but keeps {} to {}",
                    percent(usual),
                    percent(least),
                    percent(most)
                ),
            )
            .help("change `usually`, or widen `keeps` until it holds the usual share"),
            Self::Ripens => error("ripens-time", "has no time from feeding to ripe that can be planned with")
                .help("write `ripens 8 to 10 h at 24 °C`: above zero, the least first, under a year"),
            Self::FedEvery => error("fed-time", "has no rhythm that can be kept")
                .help("write `fed every 12 to 24 h`: above zero, the least first, under a year"),
            Self::FedUnripe { every, ripe } => error(
                "fed-unripe",
                &format!("is fed at least every {}, but ripe only after {}", hours(*every), hours(*ripe)),
            )
            .note("culture that is thinned again before it is ripe grows weaker each time (common practice)")
            .help(format!("feed it less often (`fed every {} or more`), or keep it warmer", hours(*ripe))),
            Self::HoldsNothing => error("holds-nothing", "holds at least nothing")
                .help("write `hold at least 200 g`, or leave it out"),
            Self::HoldBackwards(hold) => error(
                "hold-order",
                &format!(
                    "holds at least {} and at most {}: the least is above the most",
                    weight(&hold.least),
                    weight(&hold.most)
                ),
            )
            .help("exchange the two figures"),
        }
    }
}

fn bare(share: &Share) -> String {
    percent(share).trim_end_matches(" %").to_owned()
}
