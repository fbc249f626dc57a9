//! `levamen day`

use jiff::Timestamp;
use levamen::{DayReport, Effort, day, day_orders};
use levamen_views::ics::Calendar;
use levamen_views::text::DayPart;
use levamen_views::{ics, json, svg, text};

use super::deliver;
use crate::args::{Arguments, DayArguments, DayForm, DayPartOption};
use crate::failure::Failure;
use crate::opened::Opened;
use crate::ordered;
use crate::{dates, output};

pub fn run(arguments: &Arguments, asked: &DayArguments) -> Result<(), Failure> {
    let date = dates::date("the day", &asked.date)?;
    let book = Opened::book(&arguments.book)?;
    book.plan_bakery()?;
    let orders = asked.files.files(&arguments.book)?;
    if let Some(target) = asked.output.target() {
        target.check(&arguments.book, book.files.paths().chain(orders.paths()))?;
    }
    let orders = asked.files.ask(&orders, |orders| day_orders(&book, date, &orders))?;
    // What is wrong with them is reported also where the day cannot be planned.
    ordered::report(&orders);
    let effort = if asked.longer { Effort::LONGER } else { Effort::default() };
    let report = day(&book, date, orders, effort)?;
    let bytes = written(arguments, asked, &report)?;
    deliver(asked.output.target(), &bytes)?;
    book.remind(" elsewhere");
    let is_complete = report.is_complete() || report.day.doughs.is_empty();
    asked.files.settle(&report.orders, report.unfed, arguments.json)?;
    // What has no time, or a late one, stands in the timetable; a script learns of it by how the command ends.
    let has_times = asked.only.is_empty() || asked.only.contains(&DayPartOption::Times);
    if is_complete || !has_times { Ok(()) } else { Err(Failure::Reported) }
}

/// The day in the form that is asked for.
fn written(arguments: &Arguments, asked: &DayArguments, report: &DayReport<'_>) -> Result<Vec<u8>, Failure> {
    match (asked.form, arguments.json) {
        (None | Some(DayForm::Json), true) | (Some(DayForm::Json), false) => {
            Ok(json::written(&json::DayJson::new(report))?.into_bytes())
        }
        (None | Some(DayForm::Text), false) => Ok(text::day(report, &parts(asked)).into_bytes()),
        (Some(DayForm::Work), false) => {
            Ok(json::written(&json::WorkJson::new(&report.hours.work))?.into_bytes())
        }
        (Some(form @ (DayForm::Ics | DayForm::Svg)), false) => timetable(form, report),
        (Some(_), true) => Err(Failure::usage("`--json` and `--as` ask for two forms")),
    }
}

/// The timetable alone, for a calendar or as a picture.
fn timetable(form: DayForm, report: &DayReport<'_>) -> Result<Vec<u8>, Failure> {
    let (work, clock) = (&report.hours.work, &report.hours.clock);
    let sheet = report.timetable_sheet().map_err(|error| {
        output::error(&text::no_timetable(work, error, clock));
        Failure::Reported
    })?;
    let bakery = report.bakery.settings.name.as_deref().unwrap_or("bakery");
    let calendar = Calendar { made: Timestamp::now(), bakery };
    let text = match form {
        DayForm::Ics => ics::timetable(work, sheet.timetable, clock, &calendar),
        _ => svg::timetable(&sheet),
    };
    Ok(text.into_bytes())
}

/// The parts of the text that are asked for; without any, all of them.
fn parts(asked: &DayArguments) -> Vec<DayPart> {
    let part = |part: &DayPartOption| match part {
        DayPartOption::Made => DayPart::Made,
        DayPartOption::Times => DayPart::Times,
        DayPartOption::Set => DayPart::Set,
        DayPartOption::Cultures => DayPart::Cultures,
        DayPartOption::Scales => DayPart::Scales,
        DayPartOption::Store => DayPart::Store,
        DayPartOption::Sheets => DayPart::Sheets,
    };
    if asked.only.is_empty() { DayPart::ALL.to_vec() } else { asked.only.iter().map(part).collect() }
}
