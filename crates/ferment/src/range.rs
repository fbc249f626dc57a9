//! What the models are good for: the times and amounts outside which nothing is answered, and salt, which none of them counts.

mod warmth;

pub(crate) use warmth::{course, printed, reference, warmth, yeasted};

use levamen_quantity::{Duration, Exact, Share, Temperature};

use crate::answer::{FermentError, Remark, degrees, hours, percent, significant, time};

/// The yeast in percent of flour, as instant yeast, that the rule for amounts is used for.
const YEAST_PERCENT: (f64, f64) = (0.005, 2.0);

/// The parts of a tub that seed may be. Printed builds have 2 % to 50 %: common practice, no source.
const SEED_PART: (f64, f64) = (0.002, 0.6);

/// Judges an amount of yeast in percent of flour, as instant yeast.
pub(crate) fn yeast_percent(percent: f64) -> Result<(), FermentError> {
    let (least, most) = YEAST_PERCENT;
    if percent <= 0.0 {
        return Err(FermentError::new("no-yeast", "without yeast nothing ripens")
            .help("give a share, such as `0.1 %`"));
    }
    if (least..=most).contains(&percent) {
        return Ok(());
    }
    let message =
        format!("{} instant yeast is {} than the rule is good for", shown(percent), size(percent, least));
    Err(FermentError::new("yeast-out-of-range", message)
        .note("the rule is used from 0.005 % to 2 % of the flour; the pre-ferments it rests on have 0.066 % to 0.66 %")
        .help("change the amount, the time or the temperature"))
}

/// Judges the part of the tub that is seed.
pub(crate) fn seed_part(part: f64) -> Result<(), FermentError> {
    let (least, most) = SEED_PART;
    if (least..=most).contains(&part) {
        return Ok(());
    }
    let percent = part * 100.0;
    let message = format!(
        "seed that is {} of the tub is {} than the model is good for",
        shown(percent),
        size(part, least)
    );
    Err(FermentError::new("seed-out-of-range", message)
        .note("it is used from 0.2 % to 60 % of what stands in the tub")
        .help("change the amount, the time or the temperature, or build in two steps"))
}

fn size(amount: f64, least: f64) -> &'static str {
    if amount < least { "less" } else { "more" }
}

fn shown(percent: f64) -> String {
    format!("{} %", significant(percent, 2).to_decimal_string())
}

/// The usual hours of a yeasted pre-ferment: common practice, no source.
const YEASTED_HOURS: (f64, f64) = (2.0, 16.0);

/// The longest time that is answered: printed figures end long before.
pub(crate) const LONGEST_HOURS: f64 = 72.0;

/// Judges how long a yeasted pre-ferment ripens.
pub(crate) fn yeasted_time(long: &Duration) -> Result<Vec<Remark>, FermentError> {
    some_time(long)?;
    let (least, most) = YEASTED_HOURS;
    if (least..=most).contains(&hours(long)) {
        return Ok(Vec::new());
    }
    let message =
        format!("{} is outside the usual 2 to 16 h of a yeasted pre-ferment (common practice)", time(long));
    Ok(vec![Remark::new("unusual-time", message)])
}

/// Refuses no time, and times of which nobody has printed anything.
pub(crate) fn some_time(long: &Duration) -> Result<(), FermentError> {
    if hours(long) <= 0.0 {
        return Err(FermentError::new("no-time", "nothing ripens in 0 h")
            .help("give a time, such as `14 h` or `90 min`"));
    }
    if hours(long) > LONGEST_HOURS {
        return Err(too_long(&format!("{} is longer than any figure that the model rests on", time(long))));
    }
    Ok(())
}

/// Refuses a time that a model found and that is longer than any it rests on.
pub(crate) fn within(long: &Duration, at: &Temperature) -> Result<(), FermentError> {
    if hours(long) > LONGEST_HOURS {
        return Err(too_long(&format!("at {} it is not ripe within 72 h", degrees(at))));
    }
    some_time(long)
}

fn too_long(message: &str) -> FermentError {
    FermentError::new("too-long", message)
        .note("no answer is given past 72 h")
        .help("ripen it warmer, or with more seed or yeast")
}

/// From this on, in percent of flour, salt stops the acid bacteria of a culture, and not its yeasts: M. Brandt, W. Hammes, M.
/// Gänzle, European Food Research and Technology 218 (2004) 333-338, abstract.
const STOPS_BACTERIA: i64 = 4;

/// Under this, in tenths of a percent of flour, it is what yeast and milk bring along, and not worth a word: our own choice.
const TRACE: i64 = 1;

/// What to look at in a pre-ferment that has salt: no time, temperature or amount that is answered counts it.
///
/// The share is that of salt in the pre-ferment's own flour. `None` without salt, or with a trace of it.
#[must_use]
pub fn salt_remark(salt: &Share) -> Option<Remark> {
    if &salt.percent() * &Exact::from(10) < Exact::from(TRACE) {
        return None;
    }
    let effect = if salt.percent() >= Exact::from(STOPS_BACTERIA) {
        "from 4 % on it stops the acid bacteria, and not the yeasts (Brandt, Hammes, Gänzle, 2004)"
    } else {
        "it slows yeasts and bacteria (common practice), so a time noted without salt is too short"
    };
    let message =
        format!("{} of salt on its flour is not counted beyond your own time: {effect}", percent(salt));
    Some(Remark::new("salt-not-counted", message))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn salt_is_said_and_its_effect_by_its_share() {
        let said = |figure: &str| {
            let share = Share::from_percent(Exact::from_literal(figure).unwrap());
            salt_remark(&share).map(|remark| remark.message)
        };
        assert_eq!(said("0"), None);
        assert_eq!(said("0.004"), None, "what a little yeast brings");
        assert!(said("2").unwrap().starts_with("2 % of salt on its flour is not counted"));
        assert!(said("2").unwrap().contains("slows"));
        assert!(said("4").unwrap().contains("stops the acid bacteria"));
    }
}
