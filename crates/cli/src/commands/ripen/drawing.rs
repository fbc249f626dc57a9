//! What grows in the pre-ferment that was asked about: the answer as a plot.

use levamen_ferment::{FermentError, Leaven, RipeningReference, TemperatureCourse};
use levamen_quantity::{ClockTime, Duration, Exact, TimeUnit};
use levamen_sheets::plot::Plot;
use levamen_sheets::{Ripe, RipeAnswer};

/// What a plot is drawn from.
struct Drawn {
    leaven: Leaven,
    course: TemperatureCourse,
    set: Option<ClockTime>,
    ripe_after: Duration,
}

/// The plot of an answer: from the start to a quarter past ripe.
///
/// # Errors
/// What the model refuses.
pub fn plot(reference: &RipeningReference, ripe: &Ripe) -> Result<Plot, FermentError> {
    let Drawn { leaven, course, set, ripe_after } = drawn(reference, ripe)?;
    let hours = ripe_after.in_unit(TimeUnit::Hour);
    let quarter_past = &hours * &Exact::ratio(5, 4).unwrap_or(Exact::ONE);
    let over = Duration::from_unit(&quarter_past.min(Exact::from(72)), TimeUnit::Hour);
    let curve = reference.curve(&leaven, &course, set, &over)?;
    Ok(Plot { title: format!("{} of {}", ripe.stage, ripe.dough), curve, ripe_after, set })
}

fn drawn(reference: &RipeningReference, ripe: &Ripe) -> Result<Drawn, FermentError> {
    let own = reference.leaven();
    let given = &ripe.given;
    let leaven = given.leaven.as_ref().map_or_else(|| own.clone(), |share| own.with(share.clone()));
    let course = match (&given.at, &ripe.reference.temperature) {
        (Some(at), _) => TemperatureCourse::constant(at),
        (None, Some(at)) if given.room.is_empty() => TemperatureCourse::constant(at),
        _ => TemperatureCourse::by_clock(&given.room)?,
    };
    let start = given.set.or_else(|| given.room.first().map(|(clock, _)| *clock));
    Ok(match &ripe.answer {
        RipeAnswer::Time(found, _) => Drawn { leaven, course, set: None, ripe_after: found.value.clone() },
        RipeAnswer::Temperature(found) => {
            let course = TemperatureCourse::constant(&found.value);
            let ripe_after = given.time.clone().unwrap_or_else(|| ripe.reference.least.clone());
            Drawn { leaven, course, set: None, ripe_after }
        }
        RipeAnswer::Amount(found) => {
            let leaven = found.value.clone();
            let ripe_after = reference.ready(&leaven, &course, given.set)?.value.ripens;
            Drawn { leaven, course, set: given.set, ripe_after }
        }
        RipeAnswer::Ready(found) => {
            Drawn { leaven, course, set: start, ripe_after: found.value.ripens.clone() }
        }
        RipeAnswer::Set(found) => {
            Drawn { leaven, course, set: Some(found.value.clock), ripe_after: found.value.ripens.clone() }
        }
        RipeAnswer::Table(_) => {
            let at = ripe.reference.temperature.as_ref();
            let time = at.map(|at| reference.time(&leaven, at)).transpose()?;
            let ripe_after = time.map_or_else(|| ripe.reference.least.clone(), |found| found.value);
            Drawn { leaven, course, set: None, ripe_after }
        }
    })
}
