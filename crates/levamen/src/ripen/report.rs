//! What is asked about a ripening, what is found, and what grows behind it.

use levamen_balance::Ripening;
use levamen_ferment::{GrowthCurve, Leaven, Remark, RipeningEstimate, RipeningReference, TemperatureCourse};
use levamen_quantity::{ClockTime, Duration, Exact, Share, Temperature, TimeUnit};
use levamen_sheets::{ClockEstimate, DoughCaution, TimeEstimate};

use crate::error::{Error, QuestionError};

/// One stage, what was asked about its ripening, and what was found.
#[derive(Debug, Clone, PartialEq)]
pub struct RipenReport {
    /// The dough's name.
    pub dough: String,
    /// The stage's name.
    pub stage: String,
    /// What the stage is started with, in its file.
    pub leaven: Leaven,
    /// What the file says of its ripening.
    pub reference: Ripening,
    /// What was given.
    pub given: RipenQuestion,
    /// What was found.
    pub answer: RipenAnswer,
    /// What to look at again about the stage itself, whatever is asked.
    pub of_stage: Vec<Remark>,
    /// What can make ill: of the dough as its file says, or with the answer in the place of the file's time.
    pub cautions: Vec<DoughCaution>,
    /// What grows in the stage, where that was asked for.
    pub growth: Option<GrowthReport>,
}

/// What a question gives.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RipenQuestion {
    /// How warm, all the time.
    pub at: Option<Temperature>,
    /// How long.
    pub time: Option<Duration>,
    /// How much seed, on the stage's own flour.
    pub seed: Option<Share>,
    /// How much yeast, on the stage's own flour.
    pub yeast: Option<Share>,
    /// How warm by the clock.
    pub room: Vec<(ClockTime, Temperature)>,
    /// When it is set.
    pub set: Option<ClockTime>,
    /// When it shall be ripe.
    pub ready: Option<ClockTime>,
}

/// What was asked for.
#[derive(Debug, Clone, PartialEq)]
pub enum RipenAnswer {
    /// The time at one temperature, and until when it stays good.
    Time(RipeningEstimate<TimeEstimate>, Option<TimeEstimate>),
    /// The temperature.
    Temperature(RipeningEstimate<Temperature>),
    /// The amount of seed or yeast.
    Amount(RipeningEstimate<Leaven>),
    /// When it is ripe.
    Ready(RipeningEstimate<ClockEstimate>),
    /// When to set it.
    Set(RipeningEstimate<ClockEstimate>),
    /// The time at each of several temperatures.
    Table(Vec<(Temperature, RipeningEstimate<TimeEstimate>)>),
}

impl RipenQuestion {
    /// Whether it says how much seed or yeast.
    #[must_use]
    pub const fn has_amount(&self) -> bool {
        self.seed.is_some() || self.yeast.is_some()
    }

    /// How much seed or yeast, on the stage's own flour.
    #[must_use]
    pub fn amount(&self) -> Option<&Share> {
        self.seed.as_ref().or(self.yeast.as_ref())
    }
}

impl RipenReport {
    /// What to look at again: about the answer, then about the stage.
    pub fn remarks(&self) -> impl Iterator<Item = &Remark> {
        self.answer.remarks().iter().chain(&self.of_stage)
    }
}

impl RipenAnswer {
    /// What to look at again.
    #[must_use]
    pub fn remarks(&self) -> &[Remark] {
        match self {
            Self::Time(found, _) => &found.remarks,
            Self::Temperature(found) => &found.remarks,
            Self::Amount(found) => &found.remarks,
            Self::Ready(found) | Self::Set(found) => &found.remarks,
            Self::Table(_) => &[],
        }
    }
}

/// What the stage is started with: as much as the question says, and otherwise as its file says.
pub(crate) fn amount(own: &Leaven, given: &RipenQuestion) -> Result<Leaven, QuestionError> {
    match (own, &given.seed, &given.yeast) {
        (Leaven::Seed(_), _, Some(_)) => Err(QuestionError::StartedWithSeed),
        (Leaven::Yeast(_), Some(_), _) => Err(QuestionError::StartedWithYeast),
        (_, None, None) => Ok(own.clone()),
        (_, Some(share), _) | (_, None, Some(share)) => Ok(own.with(share.clone())),
    }
}

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
