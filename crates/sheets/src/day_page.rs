//! Everything that a day's pages are made from.

use levamen_bakery::Bakery;
use levamen_formula::Book;
use levamen_plan::{Day, Hours, Setting};
use levamen_timetable::{Timetable, TimetableError};

use crate::{DaySheets, FeedingSheet};

/// A planned day, as its pages need it.
#[derive(Debug, Clone, Copy)]
pub struct DayPage<'d> {
    /// The doughs by name.
    pub book: &'d Book,
    /// Products, mixers and tubs by name.
    pub bakery: &'d Bakery,
    /// What is made, exact.
    pub day: &'d Day,
    /// What is weighed.
    pub sheets: &'d DaySheets,
    /// The work, and the clock on the wall; its date is that of the bread.
    pub hours: &'d Hours,
    /// When what is done, or why nothing can be said of it.
    pub timetable: Result<&'d Timetable, &'d TimetableError>,
    /// What is set and mixed, in order.
    pub settings: &'d [Setting],
    /// What each culture is fed for it.
    pub feeds: &'d [FeedingSheet],
    /// How many lines of the orders are wrong and not in it.
    pub mistakes: u64,
}

/// A part of a day's pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DayPart {
    /// What is made, and what to know of it.
    Made,
    /// When what is done, or why nothing can be said of it.
    Times,
    /// What is set and mixed, with tubs and water.
    Set,
    /// What each culture gives.
    Cultures,
    /// What each scale weighs.
    Scales,
    /// What the store room issues.
    Store,
    /// A sheet for every dough.
    Sheets,
}

impl DayPart {
    /// Every part, in the order of the pages.
    pub const ALL: [Self; 7] =
        [Self::Made, Self::Times, Self::Set, Self::Cultures, Self::Scales, Self::Store, Self::Sheets];
}
