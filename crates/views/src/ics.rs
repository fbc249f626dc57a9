//! A timetable as a calendar file, which telephones and office calendars read (RFC 5545).
//!
//! Times are in UTC, as section 3.3.5 has it in its second form: every calendar shows them in the zone that it is in,
//! and no table of a zone's rules has to go with the file. Lines are escaped (3.3.11), folded (3.1) and ended with CR and LF.

use jiff::Timestamp;
use levamen_timetable::{Clock, Moment, Placement, Step, Timetable, Work};

use crate::text::{job_name, needs};

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
    let mut lines = CalendarLines::default();
    lines.plain("BEGIN", "VCALENDAR");
    lines.plain("VERSION", "2.0");
    lines.plain("PRODID", "-//Levamen//Timetable//EN");
    lines.plain("CALSCALE", "GREGORIAN");
    for (step, entry) in timetable.placed(work) {
        event(&mut lines, work, step, entry, clock, calendar);
    }
    lines.plain("END", "VCALENDAR");
    lines.finish()
}

fn event(
    lines: &mut CalendarLines,
    work: &Work,
    step: &Step,
    entry: &Placement,
    clock: &Clock,
    calendar: &Calendar,
) {
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
    let job = job_name(work, step);
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

/// The most octets of a line without its end.
const LONGEST: usize = 75;

/// Lines that are written.
#[derive(Debug, Default)]
struct CalendarLines(String);

impl CalendarLines {
    /// A property whose value is not free text.
    fn plain(&mut self, name: &str, value: &str) {
        self.fold(&format!("{name}:{value}"));
    }

    /// A property of free text. Other control characters than a line's end, which no calendar may hold, become spaces.
    fn text(&mut self, name: &str, value: &str) {
        let mut escaped = String::with_capacity(value.len());
        for character in value.chars() {
            match character {
                '\\' | ';' | ',' => escaped.extend(['\\', character]),
                '\n' => escaped.push_str("\\n"),
                other => escaped.push(if other.is_control() { ' ' } else { other }),
            }
        }
        self.plain(name, &escaped);
    }

    /// Everything that was written.
    fn finish(self) -> String {
        self.0
    }

    /// A line in pieces of at most 75 octets, no character torn apart; each piece but the first begins with a space.
    fn fold(&mut self, line: &str) {
        let mut octets = 0;
        for character in line.chars() {
            if octets + character.len_utf8() > LONGEST {
                self.0.push_str("\r\n ");
                octets = 1;
            }
            self.0.push(character);
            octets += character.len_utf8();
        }
        self.0.push_str("\r\n");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_lines_are_folded_between_characters() {
        let mut lines = CalendarLines::default();
        lines.text("SUMMARY", &"ü".repeat(100));
        let written = lines.finish();
        assert!(written.split("\r\n").all(|line| line.len() <= LONGEST));
        assert_eq!(written.replace("\r\n ", ""), format!("SUMMARY:{}\r\n", "ü".repeat(100)));
        assert!(written.matches("\r\n ").count() == 2);
    }

    #[test]
    fn what_would_end_a_value_is_escaped() {
        let mut lines = CalendarLines::default();
        lines.text("SUMMARY", "rye; 2 decks, \\ and\nmore\r\tEND:VEVENT");
        assert_eq!(lines.finish(), "SUMMARY:rye\\; 2 decks\\, \\\\ and\\nmore  END:VEVENT\r\n");
    }
}
