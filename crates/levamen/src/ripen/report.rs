//! What is asked about a ripening, and what is found.

use levamen_balance::Ripening;
use levamen_ferment::{Leaven, Remark, RipeningEstimate};
use levamen_quantity::{ClockTime, Duration, Share, Temperature};
use levamen_sheets::{ClockEstimate, DoughCaution, TimeEstimate};

use super::growth::GrowthReport;

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
