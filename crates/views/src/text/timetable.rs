//! The day's timetable as text: what begins when, on what, and what waits after it.

use super::naming::job_name;
use super::page::{left, width};
use levamen_sheets::TimetableSheet;
use levamen_timetable::{
    Clock, LagFrom, Minutes, Moment, Placement, Remedy, Step, TimeLagId, Timetable, TimetableError, Work,
};

/// When what is done, in the order of time, with how much waits and how good that is.
#[must_use]
pub fn timetable(sheet: &TimetableSheet<'_>) -> String {
    let TimetableSheet { work, timetable, clock, by_time, .. } = sheet;
    let zone = clock.zone().map(|zone| format!(", {zone}")).unwrap_or_default();
    let mut lines = vec![format!("Timetable for {}{zone}", clock.date().strftime("%A %-d %B %Y"))];
    lines.extend(changes(sheet));
    let widest = |text: fn(&Work, &Step) -> usize| {
        by_time.iter().map(|(step, _)| text(work, step)).max().unwrap_or_default()
    };
    let name = widest(|_, step| width(&step.name));
    let job = widest(|work, step| width(job_name(work, step)));
    let mut day = None;
    for (step, entry) in by_time {
        let date = clock.at(entry.start).map(|at| at.date());
        // A moment past the calendar has no date; its time is written as the clock words it.
        if let Some(date) = date.filter(|_| day != date) {
            lines.extend([String::new(), date.strftime("%A %-d %B").to_string()]);
        }
        day = date;
        let (step_name, job_name) = (&step.name, job_name(work, step));
        let times = format!("{} - {}", time(clock, entry.start), time(clock, entry.end));
        let on = needs(work, step, entry).join(", ");
        lines.push(
            format!("  {times}  {}  {}  {on}", left(step_name, name), left(job_name, job))
                .trim_end()
                .to_owned(),
        );
        lines.extend(
            waits(work, timetable, step, entry).into_iter().map(|wait| format!("                 {wait}")),
        );
    }
    lines.push(String::new());
    lines.extend(shortfall(sheet));
    lines.extend(quality(timetable));
    lines.join("\n") + "\n"
}

/// That clocks change between the first step and the last: times on the wall then tell no lengths.
fn changes(sheet: &TimetableSheet<'_>) -> Vec<String> {
    let words = sheet.clock_changes.iter().map(|(before, after)| {
        let times = format!(
            "from {} to {} on {}",
            before.strftime("%H:%M"),
            after.strftime("%H:%M"),
            after.strftime("%A %-d %B")
        );
        if before < after {
            format!("Clocks go forward {times}: what lies across it takes less than it seems.")
        } else {
            format!("Clocks go back {times}: that hour comes twice, and lines stand in their order.")
        }
    });
    words.collect()
}

/// Why there is no timetable.
#[must_use]
pub fn no_timetable(work: &Work, error: &TimetableError, clock: &Clock) -> String {
    let title = format!("No timetable for {}", clock.date());
    why(&title, work, error, &[], clock).join("\n") + "\n"
}

/// What is late and what is left out, why, and what would do; nothing where everything has its place.
fn shortfall(sheet: &TimetableSheet<'_>) -> Vec<String> {
    let TimetableSheet { work, timetable, clock, remedies, .. } = sheet;
    let Some(error) = &timetable.shortfall else { return Vec::new() };
    let mut lines = Vec::new();
    let late = timetable.late(work).map(|(step, late)| format!("  LATE by {late}: {}", work.name(step)));
    lines.extend(late);
    lines.extend(timetable.left_out.iter().map(|step| format!("  LEFT OUT: {}", work.name(*step))));
    lines.extend(why("Not all of it fits", work, error, remedies, clock));
    lines.push(String::new());
    lines
}

/// What is at fault, and what would do.
fn why(title: &str, work: &Work, error: &TimetableError, remedies: &[Remedy], clock: &Clock) -> Vec<String> {
    let problem = error.text(work, clock);
    let mut lines = vec![format!("{title}: {}", problem.what)];
    lines.extend(problem.why.iter().map(|line| format!("  {line}")));
    let remedies = remedies.iter().map(|remedy| remedy.text(work, clock));
    lines.extend(problem.help.into_iter().chain(remedies).map(|line| format!("help: {line}")));
    lines
}

/// What the wall shows, without the day.
fn time(clock: &Clock, moment: Moment) -> String {
    clock.at(moment).map_or_else(|| clock.words(moment), |at| at.strftime("%H:%M").to_string())
}

/// `spiral`, `2 decks`, `1 baker for 8 min`, `1 baker for 5 min after 43 min`
pub(crate) fn needs(work: &Work, step: &Step, entry: &Placement) -> Vec<String> {
    let machine = entry.machine.and_then(|id| work.get_machine(id)).map(|machine| machine.name.clone());
    let pools = entry.needs(step).filter_map(|need| {
        let pool = work.get_pool(need.pool)?;
        // Of several ovens the line says which.
        let of = if entry.pool == Some(need.pool) { format!(" of {}", pool.name) } else { String::new() };
        let places = pool.counted(need.places) + &of;
        let long = if need.length == step.length { String::new() } else { format!(" for {}", need.length) };
        let after =
            if need.after == Minutes::ZERO { String::new() } else { format!(" after {}", need.after) };
        Some(format!("{places}{long}{after}"))
    });
    machine.into_iter().chain(pools).collect()
}

/// `then bulk 2 h 31 min (2 h 30 min to 3 h 30 min), to divide and shape`, once for each later step. Where the time counts
/// from the start of a machine's work, that is said: a reader would take it for bulk alone.
fn waits(work: &Work, timetable: &Timetable, step: &Step, entry: &Placement) -> Vec<String> {
    let words = |(id, wait): (TimeLagId, &levamen_timetable::TimeLag)| {
        let long = timetable.time_lag(work, id)?;
        let later = work.get(wait.before)?;
        let window = match wait.most {
            Some(most) => format!("{} to {most}", wait.least),
            None => format!("{} or more", wait.least),
        };
        // A wait within the job goes to a step that stands in its own lines.
        let to = if later.job == step.job { later.name.clone() } else { work.name(wait.before) };
        let since = match (wait.since, &step.machine) {
            (LagFrom::Start, Some(_)) => format!(" from the start of {}", step.name),
            _ => String::new(),
        };
        Some(format!("then {} {long} ({window}){since}, to {to}", wait.name))
    };
    work.time_lags_after(entry.step).filter_map(words).collect()
}

/// How much waits, and how much of it could be less.
pub(crate) fn quality(timetable: &Timetable) -> Vec<String> {
    let waiting = timetable.waiting;
    let good = if timetable.is_best() {
        "No timetable has less: this is as good as any.".to_owned()
    } else if !timetable.is_complete() {
        format!(
            "What is late is {} late in all, and {} steps are left out.",
            waiting.late,
            timetable.left_out.len()
        )
    } else {
        let bound = timetable.bound;
        format!("No timetable has less than {bound}; at most {} could still be won.", timetable.gap())
    };
    vec![
        format!(
            "Bread lies {} before it is due, and doughs wait {} longer than they must: {} in all.",
            waiting.early,
            waiting.between,
            waiting.total()
        ),
        good,
        "Breaks, rest between shifts and night work follow the rules of your country and house.".to_owned(),
    ]
}
