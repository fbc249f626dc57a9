//! `levamen ripen`

use std::path::Path;

use levamen::{Error, QuestionError, RipenQuestion, ripen, typed};
use levamen_files::Target;
use levamen_views::{json, plot, text};

use crate::args::{Arguments, RipenArguments};
use crate::failure::Failure;
use crate::measure::{given, typed};
use crate::opened::Opened;
use crate::output;

pub fn run(arguments: &Arguments, asked: &RipenArguments) -> Result<(), Failure> {
    let (book, id) = Opened::with_dough(&arguments.book, &asked.name)?;
    let in_terminal = asked.plot.as_deref() == Some(Path::new("-"));
    let file = asked.plot.as_deref().filter(|_| !in_terminal).map(|path| Target::new(path, asked.replace));
    if let Some(target) = file {
        target.check(&arguments.book, book.files.paths())?;
    }
    let question = question(&book, asked)?;
    let report = ripen(&book, id, asked.stage.as_deref(), question, asked.plot.is_some())
        .map_err(|error| failure(error, asked))?;
    book.remind_beside(&asked.name);
    if in_terminal && arguments.json {
        return Err(Failure::usage("`--json` and `--plot -` both go to the terminal")
            .help("name a file for the plot, such as --plot levain.svg"));
    }
    if let (Some(target), Some(growth)) = (file, &report.growth) {
        output::notes(&target.write(plot::svg(growth).as_bytes())?);
    }
    if arguments.json {
        return output::result(json::written(&json::RipeJson::from(&report))?.as_bytes());
    }
    let drawn =
        report.growth.as_ref().filter(|_| in_terminal).map(|growth| format!("\n{}", plot::terminal(growth)));
    output::result((text::ripe(&report) + &drawn.unwrap_or_default()).as_bytes())
}

/// An amount of seed where there is yeast, or the other way round, is quoted as it was written.
fn failure(error: Error, asked: &RipenArguments) -> Failure {
    let written = match &error {
        Error::Question(QuestionError::StartedWithSeed) => {
            asked.yeast.as_ref().map(|words| ("--yeast", words))
        }
        Error::Question(QuestionError::StartedWithYeast) => {
            asked.seed.as_ref().map(|words| ("--seed", words))
        }
        _ => None,
    };
    let failure = Failure::from(error);
    match (failure, written) {
        (Failure::Usage { message, help }, Some((option, words))) => {
            Failure::Usage { message: format!("`{option} {words}`: {message}"), help }
        }
        (failure, _) => failure,
    }
}

fn question(book: &Opened, asked: &RipenArguments) -> Result<RipenQuestion, Failure> {
    let room = |words: &str| match book.sound_bakery()?.room(words) {
        Some(room) => Ok(room.curve.clone()),
        None => typed("--room", typed::room(words)),
    };
    Ok(RipenQuestion {
        at: given("--at", asked.at.as_ref(), typed::temperature)?,
        time: given("--in", asked.time.as_ref(), typed::time)?,
        seed: given("--seed", asked.seed.as_ref(), typed::share)?,
        yeast: given("--yeast", asked.yeast.as_ref(), typed::share)?,
        room: asked.room.as_deref().map(room).transpose()?.unwrap_or_default(),
        set: given("--set", asked.set.as_ref(), typed::clock)?,
        ready: given("--ready", asked.ready.as_ref(), typed::clock)?,
    })
}
