//! When a pre-ferment is ripe, how warm to keep it, or how much seed or yeast it takes.

mod report;

use levamen_balance::{Balance, Ripening};
use levamen_ferment::{FermentError, Hazard, Leaven, RipeningEstimate, RipeningReference, TemperatureCourse};
use levamen_formula::FormulaId;
use levamen_quantity::{Exact, Temperature, TemperatureUnit};
use levamen_sheets::{ClockEstimate, DoughCaution, TimeEstimate, cautions};

pub use report::{GrowthReport, RipenAnswer, RipenQuestion, RipenReport};

use self::report::amount;
use crate::error::{Error, QuestionError};
use crate::stage_ripening::{reference, salt, stage};
use crate::workspace::Workspace;

/// The temperatures of the table that is shown where nothing is asked, in degrees Celsius.
const TABLE: [i64; 7] = [16, 18, 20, 22, 24, 26, 28];

/// When a stage is ripe, how warm to keep it, or how much seed or yeast it takes: what is not given is found. Without a name it is
/// the only stage that ripens. With `growth`, what grows in it is worked out too.
///
/// # Errors
/// The dough does not balance, has no such stage, or the stage does not say how long it takes; a growth model knows nothing of the
/// temperatures; all is given and nothing is left to find.
pub fn ripen(
    workspace: &Workspace,
    id: FormulaId,
    name: Option<&str>,
    question: RipenQuestion,
    growth: bool,
) -> Result<RipenReport, Error> {
    let balance = workspace.balance(id)?;
    let (place, stage) = stage(&balance, name)?;
    let (reference, ripens) = reference(workspace, &balance, stage)?;
    let answer = answer(&reference, &question)?;
    let mut report = RipenReport {
        of_stage: salt(workspace, stage).into_iter().collect(),
        cautions: cautions_of(&balance, place, &question, &answer),
        dough: balance.dough.clone(),
        stage: stage.name.clone(),
        leaven: reference.leaven().clone(),
        reference: ripens.clone(),
        given: question,
        answer,
        growth: None,
    };
    if growth {
        report.growth = Some(report::growth(&reference, &report)?);
    }
    Ok(report)
}

/// The cautions about the stage at a place of the balance, and about what comes after it, ripening as the answer says where it says a time.
fn cautions_of(
    balance: &Balance,
    stage: usize,
    given: &RipenQuestion,
    answer: &RipenAnswer,
) -> Vec<DoughCaution> {
    let mut balance = balance.clone();
    let time = match answer {
        RipenAnswer::Time(found, _) => Some(&found.value.exact),
        RipenAnswer::Ready(found) | RipenAnswer::Set(found) => Some(&found.value.ripens.exact),
        RipenAnswer::Temperature(_) | RipenAnswer::Amount(_) => given.time.as_ref(),
        RipenAnswer::Table(_) => None,
    };
    let at = match answer {
        RipenAnswer::Temperature(found) => Some(&found.value),
        _ => given.at.as_ref(),
    };
    let asked = balance.stages.get_mut(stage);
    if let (Some(time), Some(asked)) = (time, asked) {
        asked.ripens = Some(Ripening { least: time.clone(), most: None, temperature: at.cloned() });
    }
    cautions(&balance).into_iter().filter(|caution| caution.hazard == Hazard::Spoiling).collect()
}

/// Finds what is not given.
fn answer(reference: &RipeningReference, given: &RipenQuestion) -> Result<RipenAnswer, Error> {
    let leaven = amount(reference.leaven(), given)?;
    let by_the_clock = given.set.is_some() || given.ready.is_some() || !given.room.is_empty();
    let ends = if by_the_clock {
        given.set.and(given.ready).is_some()
    } else {
        given.at.is_some() && given.time.is_some()
    };
    if given.has_amount() && ends {
        return Err(QuestionError::NothingToFind.into());
    }
    let answer =
        if by_the_clock { clocked(reference, given, &leaven) } else { timed(reference, given, &leaven) };
    Ok(answer?)
}

/// By times of day, in a room or at one temperature.
fn clocked(
    reference: &RipeningReference,
    given: &RipenQuestion,
    leaven: &Leaven,
) -> Result<RipenAnswer, FermentError> {
    let course = match &given.at {
        Some(at) => TemperatureCourse::constant(at),
        None => TemperatureCourse::by_clock(&given.room)?,
    };
    match (given.set, given.ready) {
        (Some(set), Some(ready)) => reference.amount_between(&course, set, ready).map(RipenAnswer::Amount),
        (None, Some(ready)) => {
            let found = reference.set(leaven, &course, ready)?;
            Ok(RipenAnswer::Set(ClockEstimate::by_two_paces(found)))
        }
        (set, None) => {
            let found = reference.ready(leaven, &course, set)?;
            Ok(RipenAnswer::Ready(ClockEstimate::by_two_paces(found)))
        }
    }
}

/// By lengths of time, at one temperature.
fn timed(
    reference: &RipeningReference,
    given: &RipenQuestion,
    leaven: &Leaven,
) -> Result<RipenAnswer, FermentError> {
    match (&given.at, &given.time) {
        (Some(at), Some(time)) => reference.amount(time, at).map(RipenAnswer::Amount),
        (Some(at), None) => {
            let found = reference.time(leaven, at)?;
            let until = reference.good_until(&found.value).map(TimeEstimate::new);
            Ok(RipenAnswer::Time(TimeEstimate::by_two_paces(found), until))
        }
        (None, Some(time)) => reference.temperature(leaven, time).map(RipenAnswer::Temperature),
        (None, None) => table(reference, leaven).map(RipenAnswer::Table),
    }
}

/// The time at each temperature of the table at which there is one.
///
/// # Errors
/// There is none at any of them: why there is none at the last, which is the warmest.
fn table(
    reference: &RipeningReference,
    leaven: &Leaven,
) -> Result<Vec<(Temperature, RipeningEstimate<TimeEstimate>)>, FermentError> {
    let mut rows = Vec::new();
    let mut refused = None;
    for degrees in TABLE {
        let at = Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius);
        match reference.time(leaven, &at) {
            Ok(found) => rows.push((at, TimeEstimate::by_two_paces(found))),
            Err(refusal) => refused = Some(refusal),
        }
    }
    match refused {
        Some(refusal) if rows.is_empty() => Err(refusal),
        _ => Ok(rows),
    }
}
