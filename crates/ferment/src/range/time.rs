//! How long.

use levamen_quantity::{Duration, Temperature};

use crate::figure::hours;
use crate::leaven::Leaven;
use crate::refusal::{Refusal, Remark};
use crate::words::{degrees, time};

/// The usual hours of a yeasted pre-ferment: common practice, no source.
const YEASTED_HOURS: (f64, f64) = (2.0, 16.0);

/// The longest time that is answered: printed figures end long before.
pub(crate) const LONGEST_HOURS: f64 = 72.0;

/// Judges how long a leaven ripens.
pub(crate) fn usual_time(leaven: &Leaven, long: &Duration) -> Result<Vec<Remark>, Refusal> {
    match leaven {
        Leaven::Yeast(_) => yeasted_time(long),
        Leaven::Seed(_) => some_time(long).map(|()| Vec::new()),
    }
}

/// Judges how long a yeasted pre-ferment ripens.
pub(crate) fn yeasted_time(long: &Duration) -> Result<Vec<Remark>, Refusal> {
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
pub(crate) fn some_time(long: &Duration) -> Result<(), Refusal> {
    if hours(long) <= 0.0 {
        return Err(
            Refusal::new("no-time", "nothing ripens in 0 h").help("give a time, such as `14 h` or `90 min`")
        );
    }
    if hours(long) > LONGEST_HOURS {
        return Err(too_long(&format!("{} is longer than any figure that the model rests on", time(long))));
    }
    Ok(())
}

/// Refuses a time that a model found and that is longer than any it rests on.
pub(crate) fn within(long: &Duration, at: &Temperature) -> Result<(), Refusal> {
    if hours(long) > LONGEST_HOURS {
        return Err(too_long(&format!("at {} it is not ripe within 72 h", degrees(at))));
    }
    some_time(long)
}

fn too_long(message: &str) -> Refusal {
    Refusal::new("too-long", message)
        .note("no answer is given past 72 h")
        .help("ripen it warmer, or with more seed or yeast")
}
