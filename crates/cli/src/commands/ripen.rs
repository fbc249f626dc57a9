//! `levamen ripen`

mod drawing;

use std::path::Path;

use levamen_balance::{Balance, Ripening};
use levamen_ferment::{Course, Found, Hazard, Leaven, Reference, Refusal};
use levamen_quantity::{ClockTime, Duration, Exact, Share, Temperature, TemperatureUnit};
use levamen_sheets::{DoughCaution, Given, Ripe, RipeAnswer, cautions};
use levamen_views::{json, plot, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, RipenArguments};
use crate::cards::Cards;
use crate::failure::Failure;
use crate::leaven::{failed, reference, salt, stage};
use crate::shelf::Shelf;
use crate::target::Target;
use crate::{measure, output};

/// The temperatures of the table that is shown where nothing is asked, in degrees Celsius.
const TABLE: [i64; 7] = [16, 18, 20, 22, 24, 26, 28];

pub fn run(arguments: &Arguments, ripen: &RipenArguments) -> Result<(), Failure> {
    let (shelf, id) = found(arguments, &ripen.name)?;
    let in_terminal = ripen.plot.as_deref() == Some(Path::new("-"));
    if let Some(path) = ripen.plot.as_deref().filter(|_| !in_terminal) {
        Target::new(path, ripen.replace).check(&arguments.book, shelf.paths())?;
    }
    let balance = shelf.balance(id)?;
    let stage = stage(&balance, ripen.stage.as_deref())?;
    let (reference, ripens) = reference(&shelf, &balance, stage)?;
    let given = given(&shelf, ripen, &reference)?;
    let answer = answer(&reference, &given)?;
    let ripe = Ripe {
        of_stage: salt(&shelf, stage).into_iter().collect(),
        cautions: cautions_of(&balance, &stage.name, &given, &answer),
        dough: balance.dough.clone(),
        stage: stage.name.clone(),
        leaven: reference.leaven().clone(),
        reference: ripens.clone(),
        given,
        answer,
    };
    remind_elsewhere(&shelf, &ripen.name);
    if in_terminal && arguments.json {
        return Err(Failure::usage("`--json` and `--plot -` both go to the terminal")
            .help("name a file for the plot, such as --plot levain.svg"));
    }
    let mut drawn = String::new();
    if let Some(path) = &ripen.plot {
        let plot = drawing::plot(&reference, &ripe).map_err(failed)?;
        if in_terminal {
            drawn = format!("\n{}", plot::terminal(&plot));
        } else {
            Target::new(path, ripen.replace).write(plot::svg(&plot).as_bytes())?;
        }
    }
    if arguments.json {
        return print_json(&json::RipeJson::from(&ripe));
    }
    output::result((text::ripe(&ripe) + &drawn).as_bytes())
}

/// The cautions about the stage, and about what comes after it, ripening as the answer says where it says a time.
fn cautions_of(balance: &Balance, stage: &str, given: &Given, answer: &RipeAnswer) -> Vec<DoughCaution> {
    let mut balance = balance.clone();
    let time = match answer {
        RipeAnswer::Time(found, _) => Some(&found.value),
        RipeAnswer::Ready(found) | RipeAnswer::Set(found) => Some(&found.value.ripens),
        RipeAnswer::Temperature(_) | RipeAnswer::Amount(_) => given.time.as_ref(),
        RipeAnswer::Table(_) => None,
    };
    let at = match answer {
        RipeAnswer::Temperature(found) => Some(&found.value),
        _ => given.at.as_ref(),
    };
    let asked = balance.stages.iter_mut().find(|own| own.name == stage);
    if let (Some(time), Some(asked)) = (time, asked) {
        asked.ripens = Some(Ripening { least: time.clone(), most: None, temperature: at.cloned() });
    }
    cautions(&balance).into_iter().filter(|caution| caution.hazard == Hazard::Spoiling).collect()
}

fn given(shelf: &Shelf, ripen: &RipenArguments, reference: &Reference) -> Result<Given, Failure> {
    let clock = |option: &str, words: &Option<String>| {
        words.as_deref().map(|words| measure::clock(option, words)).transpose()
    };
    Ok(Given {
        at: ripen.at.as_deref().map(|words| measure::temperature("--at", words)).transpose()?,
        time: ripen.time.as_deref().map(|words| measure::time("--in", words)).transpose()?,
        leaven: leaven(ripen, reference.leaven())?,
        room: ripen.room.as_deref().map(|words| room(shelf, words)).transpose()?.unwrap_or_default(),
        set: clock("--set", &ripen.set)?,
        ready: clock("--ready", &ripen.ready)?,
    })
}

/// The temperatures of a room of the book, or those that were typed.
fn room(shelf: &Shelf, words: &str) -> Result<Vec<(ClockTime, Temperature)>, Failure> {
    let cards = Cards::read(shelf)?;
    cards.curve(words).map_or_else(|| measure::room(words), |curve| Ok(curve.to_vec()))
}

/// The amount of seed or of yeast, whichever the stage has.
fn leaven(ripen: &RipenArguments, leaven: &Leaven) -> Result<Option<Share>, Failure> {
    match (leaven, &ripen.seed, &ripen.yeast) {
        (Leaven::Seed(_), _, Some(words)) => {
            Err(Failure::usage(format!("`--yeast {words}`: the stage is started with seed"))
                .help("write --seed, such as --seed 10%"))
        }
        (Leaven::Yeast(_), Some(words), _) => {
            Err(Failure::usage(format!("`--seed {words}`: the stage is started with yeast"))
                .help("write --yeast, such as --yeast 0.1%"))
        }
        (Leaven::Seed(_), words, None) => {
            words.as_deref().map(|words| measure::share("--seed", words)).transpose()
        }
        (Leaven::Yeast(_), None, words) => {
            words.as_deref().map(|words| measure::share("--yeast", words)).transpose()
        }
    }
}

/// Finds what is not given.
fn answer(reference: &Reference, given: &Given) -> Result<RipeAnswer, Failure> {
    let by_the_clock = given.set.is_some() || given.ready.is_some() || !given.room.is_empty();
    let ends = if by_the_clock {
        given.set.and(given.ready).is_some()
    } else {
        given.at.is_some() && given.time.is_some()
    };
    if given.leaven.is_some() && ends {
        return Err(Failure::usage("the time, the warmth and the amount of seed or yeast are all given")
            .help("leave out the one that shall be found"));
    }
    let own = reference.leaven();
    let leaven = given.leaven.as_ref().map_or_else(|| own.clone(), |share| own.with(share.clone()));
    let answer =
        if by_the_clock { clocked(reference, given, &leaven) } else { timed(reference, given, &leaven) };
    answer.map_err(failed)
}

/// By times of day, in a room or at one temperature.
fn clocked(reference: &Reference, given: &Given, leaven: &Leaven) -> Result<RipeAnswer, Refusal> {
    let course = match &given.at {
        Some(at) => Course::constant(at),
        None => Course::by_clock(&given.room)?,
    };
    match (given.set, given.ready) {
        (Some(set), Some(ready)) => reference.amount_between(&course, set, ready).map(RipeAnswer::Amount),
        (None, Some(ready)) => reference.set(leaven, &course, ready).map(RipeAnswer::Set),
        (set, None) => reference.ready(leaven, &course, set).map(RipeAnswer::Ready),
    }
}

/// By lengths of time, at one temperature.
fn timed(reference: &Reference, given: &Given, leaven: &Leaven) -> Result<RipeAnswer, Refusal> {
    match (&given.at, &given.time) {
        (Some(at), Some(time)) => reference.amount(time, at).map(RipeAnswer::Amount),
        (Some(at), None) => {
            let found = reference.time(leaven, at)?;
            let until = reference.good_until(&found.value);
            Ok(RipeAnswer::Time(found, until))
        }
        (None, Some(time)) => reference.temperature(leaven, time).map(RipeAnswer::Temperature),
        (None, None) => table(reference, leaven).map(RipeAnswer::Table),
    }
}

/// The time at each temperature of the table at which there is one.
///
/// # Errors
/// There is none at any of them: why there is none at the last, which is the warmest.
fn table(reference: &Reference, leaven: &Leaven) -> Result<Vec<(Temperature, Found<Duration>)>, Refusal> {
    let mut rows = Vec::new();
    let mut refused = None;
    for degrees in TABLE {
        let at = Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius);
        match reference.time(leaven, &at) {
            Ok(found) => rows.push((at, found)),
            Err(refusal) => refused = Some(refusal),
        }
    }
    match refused {
        Some(refusal) if rows.is_empty() => Err(refusal),
        _ => Ok(rows),
    }
}
