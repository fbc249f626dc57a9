//! `levamen day`

mod cultures;

use std::path::PathBuf;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use levamen_bakery::Bakery;
use levamen_language::Problem;
use levamen_orders::Days;
use levamen_plan::{Hours, in_order, settings};
use levamen_sheets::{BatchRemark, DayFound, DayPage, DayPart, DaySheets, TimetableSheet};
use levamen_timetable::{Clock, Effort, NoMoment, Remedy, plan, remedies};
use levamen_views::ics::Calendar;
use levamen_views::{ics, json, svg, text};

use super::remind;
use crate::args::{self, Arguments, DayArguments, DayForm};
use crate::failure::Failure;
use crate::shelf::Shelf;
use crate::target::deliver;
use crate::{ordered, output, planned, relied};

pub fn run(arguments: &Arguments, asked: &DayArguments) -> Result<(), Failure> {
    let date = ordered::date("the day", &asked.date)?;
    let shelf = Shelf::open(&arguments.book)?;
    let bakery = relied::bakery(&shelf)?;
    if let Some(target) = asked.output.target() {
        let orders = ordered::read_from(&asked.files, &arguments.book);
        target.check(&arguments.book, shelf.paths().chain(orders.iter().map(PathBuf::as_path)))?;
    }
    let tomorrow = date.tomorrow().map_err(|_| Failure::usage(format!("{date} is past the calendar")))?;
    let days = Days::new(date, tomorrow).unwrap_or(Days::one(date));
    let all = ordered::orders(&asked.files, &arguments.book, &bakery, days, false)?;
    ordered::tell(&all);
    let (today, next) = (planned::on(&all, date), planned::on(&all, tomorrow));
    let next = (!next.is_empty()).then_some(&next);
    let mut day = planned::day(&shelf, &bakery, &today, next)?;
    let clock = clock(&bakery, date)?;
    let mut hours = Hours::new(&bakery, &day, clock).map_err(|error| no_moment(&error))?;
    let timetable = plan(&hours.work, Effort::default());
    if let Ok(timetable) = &timetable {
        in_order(&mut day, &mut hours, timetable);
    }
    let sheets = DaySheets::new(&day, &shelf.book.scales())?;
    let settings = settings(&bakery, shelf.book.pantry(), &day, &hours, timetable.as_ref().ok());
    let fed = cultures::fed(&shelf, &bakery, &hours, &sheets, &settings);
    let page = DayPage {
        book: &shelf.book,
        bakery: &bakery,
        day: &day,
        sheets: &sheets,
        hours: &hours,
        timetable: timetable.as_ref(),
        settings: &settings,
        feeds: &fed.sheets,
        mistakes: all.mistakes.count(),
    };
    let found = found(arguments, asked, &page)?;
    let bytes = written(arguments, asked, &page, &found)?;
    deliver(asked.output.target(), &bytes)?;
    remind(&shelf, " elsewhere");
    for failure in &fed.failures {
        failure.report(arguments.json);
    }
    if fed.failures.is_empty() { ordered::settle(&all, &asked.files) } else { Err(Failure::Reported) }
}

/// What the form that is asked for shows beside the sheets; nothing is searched for that it does not show.
fn found<'d>(
    arguments: &Arguments,
    asked: &DayArguments,
    page: &DayPage<'d>,
) -> Result<DayFound<'d>, Failure> {
    let is_text = matches!(asked.form, None | Some(DayForm::Text)) && !arguments.json;
    let shows = |part: DayPart| is_text && parts(asked).contains(&part);
    let trouble = page.timetable.err().filter(|_| !is_text || shows(DayPart::Times));
    let (work, clock) = (&page.hours.work, &page.hours.clock);
    Ok(DayFound {
        timetable: page.timetable.ok().map(|timetable| TimetableSheet::new(work, timetable, clock)),
        seeds: page.sheets.seeds(page.settings)?,
        batch_remarks: if shows(DayPart::Made) {
            BatchRemark::of_day(page.book, page.bakery, page.day, page.sheets)?
        } else {
            Vec::new()
        },
        remedies: trouble.map(|trouble| remedies(work, trouble)).unwrap_or_default(),
    })
}

/// The day in the form that is asked for.
fn written(
    arguments: &Arguments,
    asked: &DayArguments,
    page: &DayPage<'_>,
    found: &DayFound<'_>,
) -> Result<Vec<u8>, Failure> {
    match (asked.form, arguments.json) {
        (None | Some(DayForm::Json), true) | (Some(DayForm::Json), false) => {
            Ok(output::json(&json::DayJson::new(page, found))?.into_bytes())
        }
        (None | Some(DayForm::Text), false) => Ok(text::day(page, found, &parts(asked)).into_bytes()),
        (Some(form @ (DayForm::Ics | DayForm::Svg)), false) => timetable(form, page, &found.remedies),
        (Some(_), true) => Err(Failure::usage("`--json` and `--as` ask for two forms")),
    }
}

/// The timetable alone, for a calendar or as a picture.
fn timetable(form: DayForm, page: &DayPage<'_>, remedies: &[Remedy]) -> Result<Vec<u8>, Failure> {
    let (work, clock) = (&page.hours.work, &page.hours.clock);
    let timetable = match page.timetable {
        Ok(timetable) => timetable,
        Err(trouble) => {
            output::error(&text::no_timetable(work, trouble, remedies, clock));
            return Err(Failure::Reported);
        }
    };
    let bakery = page.bakery.settings.name.as_deref().unwrap_or("bakery");
    let calendar = Calendar { made: Timestamp::now(), bakery };
    let text = match form {
        DayForm::Ics => ics::timetable(work, timetable, clock, &calendar),
        _ => svg::timetable(&TimetableSheet::new(work, timetable, clock)),
    };
    Ok(text.into_bytes())
}

/// The parts of the text that are asked for; without any, all of them.
fn parts(asked: &DayArguments) -> Vec<DayPart> {
    if asked.only.is_empty() {
        return DayPart::ALL.to_vec();
    }
    let part = |part: &args::DayPart| match part {
        args::DayPart::Made => DayPart::Made,
        args::DayPart::Times => DayPart::Times,
        args::DayPart::Set => DayPart::Set,
        args::DayPart::Cultures => DayPart::Cultures,
        args::DayPart::Scales => DayPart::Scales,
        args::DayPart::Store => DayPart::Store,
        args::DayPart::Sheets => DayPart::Sheets,
    };
    asked.only.iter().map(part).collect()
}

/// The clock on the bakery's wall: that of its time zone, or of this machine.
pub fn clock(bakery: &Bakery, date: Date) -> Result<Clock, Failure> {
    let zone = match &bakery.settings.time_zone {
        Some(name) => TimeZone::get(name).map_err(|_| {
            Failure::usage(format!("`{name}` is no time zone"))
                .help("write its name in the IANA database, such as Europe/Lisbon, on the bakery's card")
        })?,
        None => TimeZone::system(),
    };
    Clock::new(date, zone).map_err(|error| no_moment(&error))
}

pub fn no_moment(error: &NoMoment) -> Failure {
    Failure::problem(Problem::error("no-such-time", error.to_string()).help("name a date of these centuries"))
}
