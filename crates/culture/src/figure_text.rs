//! Figures and moments in words, for problems.

use jiff::Zoned;
use levamen_quantity::{Exact, Mass, Share};

/// `40 %`
pub fn percent(share: &Share) -> String {
    share.to_percent(2)
}

/// `640 g`, `4.2 kg`
pub fn weight(mass: &Mass) -> String {
    if *mass.grams() >= Exact::from(1000) {
        format!("{} kg", (mass.grams() / &Exact::from(1000)).to_trimmed(3))
    } else {
        format!("{} g", mass.grams().to_trimmed(1))
    }
}

/// A weight that something falls short of, rounded so that it does not promise too much.
pub fn at_most(mass: &Mass) -> String {
    weight(&Mass::from_grams(mass.grams().floor()))
}

/// A weight that is needed, rounded so that it is enough.
pub fn at_least(mass: &Mass) -> String {
    weight(&Mass::from_grams(-(-mass.grams()).floor()))
}

/// `8 h`, `90 min`
pub fn hours(minutes: i64) -> String {
    if minutes >= 60 && minutes % 30 == 0 {
        format!("{} h", (&Exact::from(minutes) / &Exact::from(60)).to_trimmed(1))
    } else {
        format!("{minutes} min")
    }
}

/// `8 to 10 h`, `8 h`, `90 min to 2 h`
pub fn span(least: i64, most: i64) -> String {
    let (first, last) = (hours(least), hours(most));
    match (first.strip_suffix(" h"), last.strip_suffix(" h")) {
        _ if least == most => first,
        (Some(first), Some(last)) => format!("{first} to {last} h"),
        _ => format!("{first} to {last}"),
    }
}

/// `2026-12-01 04:00`
pub fn moment(at: &Zoned) -> String {
    at.strftime("%Y-%m-%d %H:%M").to_string()
}
