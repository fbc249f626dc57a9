//! The timetable in its four views.

use ical::IcalParser;
use ical::parser::ical::component::IcalEvent;
use insta::assert_snapshot;
use jiff::Timestamp;
use jiff::tz::TimeZone;
use levamen_sheets::TimetableSheet;
use levamen_timetable::{Clock, Effort, Minutes, Moment, Step, plan, remedies};
use levamen_views::{ics, json, svg, text};

use crate::night;

#[test]
fn as_text() {
    let work = night::work();
    assert_snapshot!(text::timetable(&TimetableSheet::new(&work, &night::timetable(&work), &night::clock())));
}

#[test]
fn a_change_of_clocks_is_told_above_the_times() {
    let work = night::work();
    let timetable = night::timetable(&work);
    let told = [(2026, 3, 29), (2026, 10, 25)].map(|(year, month, day)| {
        let zone = TimeZone::get("Europe/Lisbon").unwrap();
        let clock = Clock::new(jiff::civil::date(year, month, day), zone).unwrap();
        let page = text::timetable(&TimetableSheet::new(&work, &timetable, &clock));
        page.lines().filter(|line| line.starts_with("Clocks")).collect::<Vec<_>>().join("\n")
    });
    assert_snapshot!(told.join("\n"));
}

/// Bread that is due before anybody is there.
fn too_early() -> levamen_timetable::Work {
    let mut room = night::Room::new();
    let job = room.work.job("Fogbank rye");
    let bake = Step::new(job, "bake", Minutes::new(60)).with(room.oven, 1).with(room.bakers, 1);
    room.work.step(bake.release(Moment::minute(-30)).deadline(Moment::minute(45)));
    room.work
}

#[test]
fn what_does_not_fit_is_said_with_what_would_do() {
    let work = too_early();
    let timetable = plan(&work, Effort::default()).unwrap();
    let remedies = remedies(&work, timetable.shortfall.as_ref().unwrap());
    let clock = night::clock();
    assert_snapshot!(text::timetable(
        &TimetableSheet::new(&work, &timetable, &clock).with_remedies(&remedies)
    ));
    let json = json::TimetableJson::new(&work, &timetable, &remedies, &clock);
    assert_snapshot!(serde_json::to_string_pretty(&json).unwrap());
}

#[test]
fn work_that_contradicts_itself_has_no_timetable() {
    let work = levamen_timetable::Work::new(Moment::minute(60), Moment::minute(0));
    let error = plan(&work, Effort::default()).unwrap_err();
    assert_snapshot!(text::no_timetable(&work, &error, &night::clock()));
    let json = json::NoTimetableJson::new(&work, &error, &[], &night::clock());
    assert_snapshot!(serde_json::to_string_pretty(&json).unwrap());
}

/// Another scheduler reads the work from this.
#[test]
fn the_work_as_json() {
    assert_snapshot!(serde_json::to_string_pretty(&json::WorkJson::new(&too_early())).unwrap());
}

#[test]
fn as_json() {
    let work = night::work();
    let json = json::TimetableJson::new(&work, &night::timetable(&work), &[], &night::clock());
    assert_snapshot!(serde_json::to_string_pretty(&json).unwrap());
    let schemas = json::schemas();
    let schema = |name| schemas.iter().find(|(command, _)| *command == name).unwrap().1.clone().to_value();
    let value = serde_json::to_value(&json).unwrap();
    assert!(jsonschema::is_valid(&schema("timetable"), &value));
    assert!(!jsonschema::is_valid(&schema("no-timetable"), &value));
}

#[test]
fn as_svg() {
    let work = night::work();
    assert_snapshot!(svg::timetable(&TimetableSheet::new(&work, &night::timetable(&work), &night::clock())));
}

fn calendar() -> String {
    let work = night::work();
    let calendar =
        ics::Calendar { made: Timestamp::from_second(1_795_600_000).unwrap(), bakery: "quay.example" };
    ics::timetable(&work, &night::timetable(&work), &night::clock(), &calendar)
}

#[test]
fn as_calendar() {
    assert_snapshot!(calendar().replace("\r\n", "\n"));
}

/// A property of an event that a parser read.
fn property<'e>(event: &'e IcalEvent, name: &str) -> &'e str {
    let found = event.properties.iter().find(|property| property.name == name);
    found.and_then(|property| property.value.as_deref()).unwrap_or_default()
}

#[test]
fn another_parser_reads_the_same_events() {
    let written = calendar();
    assert!(written.lines().all(|line| line.len() <= 75));
    assert_eq!(written.matches('\n').count(), written.matches("\r\n").count());
    let calendars: Vec<_> = IcalParser::new(written.as_bytes()).collect::<Result<_, _>>().unwrap();
    let [calendar] = calendars.as_slice() else { panic!("{} calendars", calendars.len()) };
    let work = night::work();
    let timetable = night::timetable(&work);
    assert_eq!(calendar.events.len(), timetable.placements.len());
    let mut identities: Vec<&str> = calendar.events.iter().map(|event| property(event, "UID")).collect();
    for (event, entry) in calendar.events.iter().zip(&timetable.placements) {
        let utc = |moment| {
            let at = night::clock().at(moment).unwrap().timestamp();
            at.strftime("%Y%m%dT%H%M%SZ").to_string()
        };
        assert_eq!(property(event, "DTSTART"), utc(entry.start));
        assert_eq!(property(event, "DTEND"), utc(entry.end));
        assert!(!property(event, "DTSTAMP").is_empty());
        let step = work.get(entry.step).unwrap();
        assert!(property(event, "SUMMARY").ends_with(&step.name));
    }
    identities.sort_unstable();
    identities.dedup();
    assert_eq!(identities.len(), timetable.placements.len());
}

#[test]
fn names_cannot_break_out_of_a_picture() {
    let mut room = night::Room::new();
    let job = room.work.job("</text><script>&\u{1}");
    room.work.step(Step::new(job, "\"mix\"", Minutes::new(200)).with(room.bakers, 1));
    let picture =
        svg::timetable(&TimetableSheet::new(&room.work, &night::timetable(&room.work), &night::clock()));
    assert!(!picture.contains("<script") && !picture.contains('\u{1}'));
    assert!(picture.contains("&lt;script&gt;&amp; "));
}
