//! What is wrong with how a culture is declared to be kept.

use levamen_language::Problem;
use levamen_quantity::{Mass, Share};

use crate::keeping::Span;
use crate::words::{hours, percent, weight};

/// Why a culture cannot be kept as it is declared.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unkeepable {
    /// The share of old culture is nothing, or all.
    Keeps(Span<Share>),
    /// The least share of old culture is above the most.
    KeepsBackwards(Span<Share>),
    /// The usual share lies outside the allowed ones.
    Usually(Share, Span<Share>),
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
    HoldBackwards(Span<Mass>),
}

impl Unkeepable {
    /// The problem, told of the culture's name.
    #[must_use]
    pub fn problem(&self, culture: &str) -> Problem {
        let told = |code, message: &str| Problem::error(code, format!("`{culture}` {message}"));
        match self {
            Self::Keeps(keeps) => told(
                "keeps-share",
                &format!("cannot keep {} to {} old", percent(&keeps.least), percent(&keeps.most)),
            )
            .note("with nothing kept it is lost, and with all kept it is not fed")
            .help("write shares above 0 % and under 100 %, such as `keeps 20 to 50 % old`"),
            Self::KeepsBackwards(keeps) => told(
                "keeps-order",
                &format!(
                    "keeps least {} and most {} old: the least is above the most",
                    percent(&keeps.least),
                    percent(&keeps.most)
                ),
            )
            .help(format!("write `keeps {} to {} % old`", bare(&keeps.most), bare(&keeps.least))),
            Self::Usually(usual, keeps) => told(
                "usually-outside",
                &format!(
                    "is usually {} old, but keeps {} to {}",
                    percent(usual),
                    percent(&keeps.least),
                    percent(&keeps.most)
                ),
            )
            .help("change `usually`, or widen `keeps` until it holds the usual share"),
            Self::Ripens => told("ripens-time", "has no time from feeding to ripe that can be planned with")
                .help("write `ripens 8 to 10 h at 24 °C`: above zero, the least first, under a year"),
            Self::FedEvery => told("fed-time", "has no rhythm that can be kept")
                .help("write `fed every 12 to 24 h`: above zero, the least first, under a year"),
            Self::FedUnripe { every, ripe } => told(
                "fed-unripe",
                &format!("is fed at least every {}, but ripe only after {}", hours(*every), hours(*ripe)),
            )
            .note("culture that is thinned again before it is ripe grows weaker each time (common practice)")
            .help(format!("feed it less often (`fed every {} or more`), or keep it warmer", hours(*ripe))),
            Self::HoldsNothing => told("holds-nothing", "holds at least nothing")
                .help("write `hold at least 200 g`, or leave it out"),
            Self::HoldBackwards(hold) => told(
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
