//! A picture of the day: lanes of mixers, decks, bakers and tubs under a line of hours, as SVG.
//!
//! The colour of a bar is its step, the number in it its job; both stand below with their names. Colours are those that
//! people with any kind of colour vision tell apart (M. Okabe, K. Ito, "Color universal design", 2002, from memory),
//! and a print in grey loses nothing that is not written too.

use levamen_sheets::TimetableSheet;
use levamen_timetable::{Bar, BarOf, ChartRow, ChartRowOf, Clock, Minutes, Moment, StepId, Timetable, Work};

use crate::drawing::Drawing;
use crate::text::{job_name, needs, quality, width};

/// Pixels of a minute.
const MINUTE: i64 = 2;
/// Where the hours begin, after the names of the lanes.
const LEFT: i64 = 150;
/// Where the lanes begin, under the title and the hours.
const TOP: i64 = 64;
/// The height of a lane with its margin.
const LANE: i64 = 22;
/// The height of a line of the legend.
const LINE: i64 = 18;
/// The width of a column of the legend.
const COLUMN: i64 = 260;

/// Fills, and whether what is written on them is white.
const COLOURS: [(&str, bool); 7] = [
    ("#56b4e9", false),
    ("#e69f00", false),
    ("#009e73", true),
    ("#f0e442", false),
    ("#0072b2", true),
    ("#cc79a7", false),
    ("#d55e00", true),
];

/// The picture, from the first step to the last.
#[must_use]
pub fn timetable(sheet: &TimetableSheet<'_>) -> String {
    let TimetableSheet { work, timetable, clock, rows, .. } = sheet;
    let starts = timetable.placements.iter().map(|entry| entry.start);
    let ends = timetable.placements.iter().map(|entry| entry.end);
    let from = starts.min().unwrap_or_default() - Minutes::new(15);
    let until = ends.max().unwrap_or_default() + Minutes::new(15);
    let picture = Picture { work, timetable, clock, steps: step_names(work), from, until };
    picture.draw(rows)
}

/// The names that steps have, in the order in which they first come.
fn step_names(work: &Work) -> Vec<&str> {
    let mut names: Vec<&str> = Vec::new();
    for step in work.steps() {
        if !names.contains(&step.name.as_str()) {
            names.push(&step.name);
        }
    }
    names
}

struct Picture<'a> {
    work: &'a Work,
    timetable: &'a Timetable,
    clock: &'a Clock,
    steps: Vec<&'a str>,
    from: Moment,
    until: Moment,
}

impl Picture<'_> {
    fn draw(&self, lanes: &[ChartRow]) -> String {
        let width = self.x(self.until) + 20;
        let bottom = TOP + LANE * count(lanes.len());
        let per_line = ((width - 20) / COLUMN).max(1);
        let jobs_top = bottom + 30 + LINE * lines_of(self.steps.len(), per_line) + 10;
        let foot = jobs_top + LINE * lines_of(self.work.jobs().len(), per_line) + 16;
        let mut drawing = Drawing::new(width, foot + 3 * LINE);
        let title = format!("Timetable for {}", self.clock.date().strftime("%A %-d %B %Y"));
        drawing.heading(10, 22, &title);
        self.hours(&mut drawing, bottom);
        for (index, lane) in lanes.iter().enumerate() {
            self.lane(&mut drawing, lane, index, lanes);
        }
        let spot = |index: usize, top: i64| {
            (10 + COLUMN * (count(index) % per_line), top + LINE * (count(index) / per_line))
        };
        for (index, name) in self.steps.iter().enumerate() {
            let (x, y) = spot(index, bottom + 30);
            drawing.rect([x, y - 11, 14, 14], colour(index).0, name);
            drawing.text(x + 20, y, name);
        }
        for (index, name) in self.work.jobs().iter().enumerate() {
            let (x, y) = spot(index, jobs_top);
            drawing.text(x, y, &format!("{} {name}", index + 1));
        }
        for (index, line) in quality(self.timetable).iter().enumerate() {
            drawing.text(10, foot + LINE * count(index), line);
        }
        drawing.finish()
    }

    /// Lines and names of the hours on the wall, and of the day where one begins.
    fn hours(&self, drawing: &mut Drawing, bottom: i64) {
        let first = self.clock.at(self.from);
        let past_hour = first.map_or(0, |at| u32::from(at.minute().unsigned_abs()));
        let mut moment = self.from + Minutes::new((60 - past_hour) % 60);
        let mut day = None;
        while moment <= self.until {
            let x = self.x(moment);
            drawing.line([x, TOP - 6, x, bottom]);
            let Some(at) = self.clock.at(moment) else { return };
            drawing.centred(x, TOP - 10, &at.strftime("%H:%M").to_string());
            if day != Some(at.date()) {
                drawing.centred(x, TOP - 24, &at.strftime("%a %-d %b").to_string());
                day = Some(at.date());
            }
            moment = moment + Minutes::hours(1);
        }
    }

    fn lane(&self, drawing: &mut Drawing, lane: &ChartRow, index: usize, lanes: &[ChartRow]) {
        let y = TOP + LANE * count(index);
        let is_first = lane.number == 1;
        if is_first {
            drawing.rule([10, y, self.x(self.until), y]);
        }
        let is_several = lanes.iter().filter(|other| other.of == lane.of).count() > 1;
        let number = if is_several { format!(" {}", lane.number) } else { String::new() };
        drawing.text(10, y + 15, &format!("{}{number}", self.lane_name(lane.of)));
        for bar in &lane.bars {
            self.bar(drawing, bar, y + 2);
        }
    }

    fn lane_name(&self, of: ChartRowOf) -> &str {
        match of {
            ChartRowOf::Machine(id) => self.work.get_machine(id).map_or("", |machine| &machine.name),
            ChartRowOf::Pool(id) => self.work.get_pool(id).map_or("", |pool| &pool.one),
            ChartRowOf::Waiting => "tub or rack",
        }
    }

    fn bar(&self, drawing: &mut Drawing, bar: &Bar, y: i64) {
        let (x, width) = (self.x(bar.from), self.x(bar.until) - self.x(bar.from));
        let times = format!("{} - {}", self.clock.words(bar.from), self.clock.words(bar.until));
        let place = [x, y, width, LANE - 4];
        match bar.of {
            BarOf::Step(id) => {
                let Some((step, entry)) = self.work.get(id).zip(self.timetable.placement(id)) else {
                    debug_assert!(false, "a bar of a step that has no place in the timetable");
                    return;
                };
                let kind = self.steps.iter().position(|name| *name == step.name).unwrap_or(0);
                let (fill, is_white) = colour(kind);
                let on = needs(self.work, step, entry);
                drawing.rect(place, fill, &format!("{}, {times}: {}", self.work.name(id), on.join(", ")));
                let label =
                    BarLabel::new(self.number(id), &step.name, job_name(self.work, step)).within(width);
                drawing.on_bar(x, y + 13, &label, is_white);
            }
            BarOf::TimeLag(id) => {
                let Some(wait) = self.work.get_time_lag(id) else {
                    debug_assert!(false, "a bar of a wait that the work has not");
                    return;
                };
                let job = self.work.get(wait.after).map_or("", |step| job_name(self.work, step));
                drawing.hatched(place, &format!("{} of {job}, {times}", wait.name));
                let label = BarLabel::new(self.number(wait.after), &wait.name, job).within(width);
                drawing.on_bar(x, y + 13, &label, false);
            }
        }
    }

    /// The number of a step's job, from 1 on.
    fn number(&self, step: StepId) -> usize {
        self.work.get(step).map_or(0, |step| step.job.place() + 1)
    }

    fn x(&self, moment: Moment) -> i64 {
        LEFT + MINUTE * (i64::from(moment.minutes()) - i64::from(self.from.minutes()))
    }
}

/// The fill of a step by its place among the names, and whether what is written on it is white.
fn colour(step: usize) -> (&'static str, bool) {
    COLOURS.get(step % COLOURS.len()).copied().unwrap_or(("#ffffff", false))
}

fn count(items: usize) -> i64 {
    i64::try_from(items).unwrap_or(i64::MAX)
}

/// How many lines so many items take.
fn lines_of(items: usize, per_line: i64) -> i64 {
    (count(items) + per_line - 1) / per_line
}

/// Pixels of a column of characters, taken wide, so that names stay in their bars.
const CHARACTER: usize = 7;

/// A number, what is done and for what.
#[derive(Debug)]
struct BarLabel<'a> {
    number: String,
    step: &'a str,
    job: &'a str,
}

impl<'a> BarLabel<'a> {
    fn new(number: usize, step: &'a str, job: &'a str) -> Self {
        Self { number: number.to_string(), step, job }
    }

    /// The most that fits into a width: number, step and job; number and step; the number; nothing.
    fn within(&self, pixels: i64) -> String {
        let room = usize::try_from(pixels - 4).unwrap_or(0) / CHARACTER;
        let Self { number, step, job } = self;
        let labels = [format!("{number} {step} {job}"), format!("{number} {step}"), number.clone()];
        labels.into_iter().find(|label| width(label) <= room).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_label_is_as_long_as_its_bar() {
        let label = BarLabel::new(7, "mix", "Quayside loaf");
        let within = [200, 60, 20, 6].map(|pixels| label.within(pixels));
        assert_eq!(within, ["7 mix Quayside loaf", "7 mix", "7", ""]);
    }
}
