//! A timetable as a calendar file, which telephones and office calendars read (RFC 5545).
//!
//! Times are in UTC, as section 3.3.5 has it in its second form: every calendar shows them in the zone that it is in,
//! and no table of a zone's rules has to go with the file.

mod lines;

use jiff::Timestamp;
use levamen_timetable::{Clock, Moment, Placement, Step, Timetable, Work};

use crate::text::needs;
use lines::Lines;

/// What a calendar file says of itself.
#[derive(Debug, Clone, Copy)]
pub struct Calendar<'a> {
    /// When the file is made.
    pub made: Timestamp,
    /// A name of the bakery that no other has, such as its domain. With the day and the place of a step it makes the
    /// event's identity, so that a calendar takes a new file of the same day for a change and not for more events.
    pub bakery: &'a str,
}

/// One event for each step. A step beyond the calendar's years is left out.
#[must_use]
pub fn timetable(work: &Work, timetable: &Timetable, clock: &Clock, calendar: &Calendar) -> String {
    let mut lines = Lines::default();
    lines.plain("BEGIN", "VCALENDAR");
    lines.plain("VERSION", "2.0");
    lines.plain("PRODID", "-//Levamen//Timetable//EN");
    lines.plain("CALSCALE", "GREGORIAN");
    for (step, entry) in work.steps().iter().zip(&timetable.placements) {
        event(&mut lines, work, step, entry, clock, calendar);
    }
    lines.plain("END", "VCALENDAR");
    lines.finish()
}

fn event(lines: &mut Lines, work: &Work, step: &Step, entry: &Placement, clock: &Clock, calendar: &Calendar) {
    let (Some(start), Some(end)) = (utc(clock, entry.start), utc(clock, entry.end)) else { return };
    let date = clock.date().strftime("%Y%m%d");
    lines.plain("BEGIN", "VEVENT");
    lines.text("UID", &format!("{date}-{}@{}", entry.step.place() + 1, calendar.bakery));
    lines.plain("DTSTAMP", &calendar.made.strftime(UTC).to_string());
    lines.plain("DTSTART", &start);
    // An event without an end is over at once; one that ends when it starts is against the standard (3.6.1).
    if entry.start < entry.end {
        lines.plain("DTEND", &end);
    }
    let job = work.job_name(step.job).unwrap_or_default();
    lines.text("SUMMARY", &format!("{job}: {}", step.name));
    let on = needs(work, step, entry);
    if !on.is_empty() {
        lines.text("DESCRIPTION", &on.join("\n"));
    }
    if let Some(machine) = entry.machine.and_then(|id| work.get_machine(id)) {
        lines.text("LOCATION", &machine.name);
    }
    lines.plain("END", "VEVENT");
}

/// A time of RFC 5545, section 3.3.5, in UTC.
const UTC: &str = "%Y%m%dT%H%M%SZ";

fn utc(clock: &Clock, moment: Moment) -> Option<String> {
    clock.at(moment).map(|at| at.timestamp().strftime(UTC).to_string())
}
