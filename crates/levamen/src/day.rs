//! A day: from its orders to everything that is set, mixed, weighed and baked for it, and when.

mod cultures;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use levamen_bakery::Bakery;
use levamen_calendar::Days;
use levamen_formula::Book;
use levamen_language::Problem;
use levamen_orders::Orders;
use levamen_plan::{Day, Hours, in_mixing_order, settings};
use levamen_sheets::{BatchRemark, DaySeeds, DaySheets, FeedingSheet, SettingSheet, TimetableSheet};
use levamen_timetable::{Clock, Effort, NoMoment, Remedy, Timetable, TimetableError, plan, remedies};

use crate::error::{Error, QuestionError};
use crate::orders::{OrdersQuestion, read_orders};
use crate::workspace::Workspace;
use crate::{days, sound};

/// A planned day.
#[derive(Debug)]
pub struct DayReport<'w> {
    /// The doughs by name.
    pub book: &'w Book,
    /// Products, mixers and tubs by name.
    pub bakery: &'w Bakery,
    /// The orders that it is planned from, with what is wrong with them.
    pub orders: Orders,
    /// What is made, exact.
    pub day: Day,
    /// What is weighed.
    pub sheets: DaySheets,
    /// The work, and the clock on the wall; its date is that of the bread.
    pub hours: Hours,
    /// When what is done, with what is late or left out; or why nothing can be said of it.
    pub timetable: Result<Timetable, TimetableError>,
    /// What would make room for what is late or left out.
    pub remedies: Vec<Remedy>,
    /// What each culture gives.
    pub seeds: DaySeeds,
    /// What to know of the batches of its doughs.
    pub batch_remarks: Vec<BatchRemark>,
    /// What is set and mixed, in order.
    pub settings: Vec<SettingSheet>,
    /// What each culture is fed for it.
    pub feeds: Vec<FeedingSheet>,
    /// Why a culture has no plan of feedings.
    pub unfed: Vec<Error>,
}

impl DayReport<'_> {
    /// Whether everything has a time, and nothing is late.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.timetable.as_ref().is_ok_and(Timetable::is_complete)
    }

    /// The timetable by the clock on the wall, with all that a page or a picture of it shows.
    ///
    /// # Errors
    /// Why there is none.
    pub fn timetable_sheet(&self) -> Result<TimetableSheet<'_>, &TimetableError> {
        let timetable = self.timetable.as_ref()?;
        Ok(TimetableSheet::new(&self.hours.work, timetable, &self.hours.clock).with_remedies(&self.remedies))
    }
}

/// Reads the orders that a day is planned from: its own, and those of the next, for which old dough is kept.
///
/// # Errors
/// The cards of the bakery have problems; there is no next day.
pub fn day_orders(workspace: &Workspace, date: Date, question: &OrdersQuestion<'_>) -> Result<Orders, Error> {
    let two_days = Days::new(date, tomorrow(date)?).unwrap_or(Days::one(date));
    Ok(read_orders(sound::bakery(workspace)?, question, two_days, false))
}

fn tomorrow(date: Date) -> Result<Date, QuestionError> {
    date.tomorrow().map_err(|_| QuestionError::PastTheCalendar { date })
}

/// Plans the day whose bread is baked for a date, with as much effort for its timetable.
///
/// # Errors
/// The book has problems in what the day relies on; a dough cannot be planned; the bakery's time zone is none.
pub fn day(
    workspace: &Workspace,
    date: Date,
    orders: Orders,
    effort: Effort,
) -> Result<DayReport<'_>, Error> {
    let bakery = sound::bakery(workspace)?;
    let tomorrow = tomorrow(date)?;
    let (today, next) = (days::on(&orders, date), days::on(&orders, tomorrow));
    let next = (!next.is_empty()).then_some(&next);
    let day = days::day(workspace, bakery, &today, next)?;
    let hours = Hours::new(bakery, &day, clock(bakery, date)?).map_err(|error| no_moment(&error))?;
    let timetable = plan(&hours.work, effort);
    let (day, hours) = match &timetable {
        Ok(timetable) => in_mixing_order(day, hours, timetable),
        Err(_) => (day, hours),
    };
    let shortfall = timetable.as_ref().ok().and_then(|timetable| timetable.shortfall.as_ref());
    let remedies = shortfall.map(|error| remedies(&hours.work, error)).unwrap_or_default();
    let book = workspace.book();
    let sheets = DaySheets::new(&day, &book.scales())?;
    let settings = settings(bakery, book.pantry(), &day, &hours, timetable.as_ref().ok());
    let fed = cultures::fed(workspace, bakery, &hours, &sheets, &settings);
    let (feeds, unfed) = (fed.sheets, fed.unfed);
    Ok(DayReport {
        book,
        bakery,
        orders,
        seeds: sheets.seeds(&settings)?,
        batch_remarks: BatchRemark::of_day(workspace, bakery, &day, &sheets)?,
        day,
        sheets,
        hours,
        timetable,
        remedies,
        settings: SettingSheet::all(settings)?,
        feeds,
        unfed,
    })
}

/// The clock on the bakery's wall: that of its time zone, or of this machine.
pub(crate) fn clock(bakery: &Bakery, date: Date) -> Result<Clock, Error> {
    let zone = match &bakery.settings.time_zone {
        Some(name) => TimeZone::get(name).map_err(|_| QuestionError::NoTimeZone { name: name.clone() })?,
        None => TimeZone::system(),
    };
    Clock::new(date, zone).map_err(|error| no_moment(&error))
}

pub(crate) fn no_moment(error: &NoMoment) -> Error {
    let problem = Problem::error("no-such-time", error.to_string());
    Error::problem(problem.help("name a date of these centuries"))
}
