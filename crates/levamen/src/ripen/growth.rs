//! What grows in the pre-ferment that was asked about.

use levamen_ferment::{GrowthCurve, Leaven, RipeningReference, TemperatureCourse};
use levamen_quantity::{ClockTime, Duration, Exact, TimeUnit};

use super::amount;
use super::report::{RipenAnswer, RipenReport};
use crate::error::Error;

/// What grows in a pre-ferment.
#[derive(Debug, Clone, PartialEq)]
pub struct GrowthReport {
    /// Of what it is, such as `levain of Quayside loaf`.
    pub title: String,
    /// What grows.
    pub curve: GrowthCurve,
    /// After how long it is ripe.
    pub ripe_after: Duration,
    /// When it is set; without it, hours are counted from the start.
    pub set: Option<ClockTime>,
}

/// The ripening that is followed.
struct Followed {
    leaven: Leaven,
    course: TemperatureCourse,
    set: Option<ClockTime>,
    ripe_after: Duration,
}

/// The growth behind an answer: from the start to a quarter past ripe.
///
/// # Errors
/// What the model refuses.
pub fn growth(reference: &RipeningReference, report: &RipenReport) -> Result<GrowthReport, Error> {
    let Followed { leaven, course, set, ripe_after } = followed(reference, report)?;
    let hours = ripe_after.in_unit(TimeUnit::Hour);
    let quarter_past = &hours * &Exact::ratio(5, 4).unwrap_or(Exact::ONE);
    let over = Duration::from_unit(&quarter_past.min(Exact::from(72)), TimeUnit::Hour);
    let curve = reference.curve(&leaven, &course, set, &over)?;
    Ok(GrowthReport { title: format!("{} of {}", report.stage, report.dough), curve, ripe_after, set })
}

fn followed(reference: &RipeningReference, report: &RipenReport) -> Result<Followed, Error> {
    let given = &report.given;
    let leaven = amount(reference.leaven(), given)?;
    let course = match (&given.at, &report.reference.temperature) {
        (Some(at), _) => TemperatureCourse::constant(at),
        (None, Some(at)) if given.room.is_empty() => TemperatureCourse::constant(at),
        _ => TemperatureCourse::by_clock(&given.room)?,
    };
    let start = given.set.or_else(|| given.room.first().map(|(clock, _)| *clock));
    Ok(match &report.answer {
        RipenAnswer::Time(found, _) => {
            Followed { leaven, course, set: None, ripe_after: found.value.exact.clone() }
        }
        RipenAnswer::Temperature(found) => {
            let course = TemperatureCourse::constant(&found.value);
            let ripe_after = given.time.clone().unwrap_or_else(|| report.reference.least.clone());
            Followed { leaven, course, set: None, ripe_after }
        }
        RipenAnswer::Amount(found) => {
            let leaven = found.value.clone();
            let ripe_after = reference.ready(&leaven, &course, given.set)?.value.ripens;
            Followed { leaven, course, set: given.set, ripe_after }
        }
        RipenAnswer::Ready(found) => {
            Followed { leaven, course, set: start, ripe_after: found.value.ripens.exact.clone() }
        }
        RipenAnswer::Set(found) => Followed {
            leaven,
            course,
            set: Some(found.value.exact),
            ripe_after: found.value.ripens.exact.clone(),
        },
        RipenAnswer::Table(_) => {
            let at = report.reference.temperature.as_ref();
            let time = at.map(|at| reference.time(&leaven, at)).transpose()?;
            let ripe_after = time.map_or_else(|| report.reference.least.clone(), |found| found.value);
            Followed { leaven, course, set: None, ripe_after }
        }
    })
}
