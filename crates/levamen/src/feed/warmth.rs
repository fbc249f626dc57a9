//! How long a culture ripens where it is kept warmer or colder than the book says.

use levamen_balance::BalancedStage;
use levamen_culture::Interval;
use levamen_ferment::{Leaven, RipeningReference, Seed};
use levamen_formula::Ripening;
use levamen_quantity::{Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};

use crate::error::{Error, QuestionError};

/// The time to ripeness at a temperature, and what to say of it.
#[derive(Debug)]
pub struct Warmed {
    /// From the time after which it is ripe to that until which it stays so.
    pub ripens: Interval<Duration>,
    /// Where the time comes from, and what to look at again.
    pub notes: Vec<String>,
}

/// Finds the time by the bakery's own reference, which is for the usual share of old culture.
///
/// # Errors
/// The book does not say how warm its reference is, or the growth model tells nothing of one of the temperatures.
pub fn warmed(
    name: &str,
    fed: &BalancedStage,
    usually: &Share,
    ripens: &Ripening,
    at: &Temperature,
) -> Result<Warmed, Error> {
    let Some(known) = &ripens.temperature else {
        return Err(QuestionError::NoCultureTemperature { culture: name.to_owned() }.into());
    };
    let leaven = leaven(fed, usually);
    let reference = RipeningReference::new(leaven.clone(), &ripens.least, ripens.most.as_ref(), known)?;
    let found = reference.time(&leaven, at)?;
    let least = whole_minutes(&found.value);
    let most =
        reference.good_until(&found.value).map_or_else(|| least.clone(), |until| whole_minutes(&until));
    let hours = |time: &Duration| time.in_unit(TimeUnit::Hour).to_fixed(1);
    let range = if least == most { hours(&least) } else { format!("{} to {}", hours(&least), hours(&most)) };
    let degrees = |at: &Temperature| at.in_unit(TemperatureUnit::Celsius).to_fixed(1);
    let mut notes = vec![format!(
        "At {} °C it ripens {range} h, by the pace of its {} and from what the book says of {} °C.",
        degrees(at),
        found.by,
        degrees(known)
    )];
    notes.extend(found.remarks.iter().map(|remark| format!("Look again: {}.", remark.message)));
    Ok(Warmed { ripens: Interval::new(least, most), notes })
}

/// The old culture of a usual feeding, as seed beside its flour and water.
fn leaven(fed: &BalancedStage, usually: &Share) -> Leaven {
    let beside = fed.made.fraction().checked_div(fed.own_flour.fraction()).unwrap_or(Exact::ONE);
    let old = usually.fraction().checked_div(usually.rest().fraction()).unwrap_or_default();
    Leaven::Seed(Seed {
        of_flour: Share::from_fraction(&old * &beside),
        beside: Share::from_fraction(beside),
        sour: false,
    })
}

/// A plan goes by whole minutes.
fn whole_minutes(time: &Duration) -> Duration {
    Duration::from_unit(&time.in_unit(TimeUnit::Minute).round_to(&Exact::ONE), TimeUnit::Minute)
}
