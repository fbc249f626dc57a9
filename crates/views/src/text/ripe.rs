//! When a pre-ferment is ripe, as text.

use levamen::{RipenAnswer, RipenQuestion, RipenReport};
use levamen_ferment::{Leaven, RipeningEstimate};
use levamen_quantity::Temperature;
use levamen_sheets::{ClockEstimate, TimeEstimate};

use super::figures::{both_degrees, degrees, hours_and_minutes, seed_percent};
use super::naming::ripens_exactly;
use super::page::{left, right, width};

/// The answer to a question about a ripening.
#[must_use]
pub fn ripe(ripe: &RipenReport) -> String {
    let mut lines = vec![
        format!("{} of {}", ripe.stage, ripe.dough),
        format!("  {}, {}: as its file says", started(&ripe.leaven), ripens_exactly(&ripe.reference)),
        String::new(),
    ];
    let given = given(&ripe.given, &ripe.leaven);
    if !given.is_empty() {
        lines.push(given.join(", "));
    }
    lines.extend(answer(&ripe.answer));
    if ripe.remarks().next().is_some() {
        lines.push(String::new());
    }
    lines.extend(ripe.remarks().map(|remark| format!("Look again: {}.", remark.message)));
    lines.extend(ripe.cautions.iter().map(|caution| format!("Caution: {}", caution.words())));
    lines.push(String::new());
    lines.push(
        "A model's ratio to your own time above: what you see, smell and measure goes first.".to_owned(),
    );
    lines.push(
        "Counted as if the tub were so warm all through from the start; a large one takes hours to follow its room."
            .to_owned(),
    );
    lines.join("\n") + "\n"
}

fn started(leaven: &Leaven) -> String {
    format!("{} on its flour", amount(leaven))
}

/// `seed 20 %`, `instant yeast 0.1 %`
fn amount(leaven: &Leaven) -> String {
    let share = leaven.of_flour();
    match leaven {
        Leaven::Seed(_) => format!("seed {}", seed_percent(share)),
        Leaven::Yeast(yeast) => format!("{} {}", yeast.name, share.to_percent(4)),
    }
}

/// What the question gives, in the order in which a baker would say it.
fn given(given: &RipenQuestion, leaven: &Leaven) -> Vec<String> {
    let mut words = Vec::new();
    words.extend(given.amount().map(|share| amount(&leaven.with(share.clone()))));
    words.extend(given.set.map(|clock| format!("set at {clock}")));
    words.extend(given.time.as_ref().map(|time| format!("ripe in {}", hours_and_minutes(time))));
    words.extend(given.ready.map(|clock| format!("ripe at {clock}")));
    words.extend(given.at.as_ref().map(|at| format!("at {}", degrees(at))));
    words.extend((!given.room.is_empty()).then(|| {
        let points: Vec<String> =
            given.room.iter().map(|(clock, at)| format!("{clock} {}", degrees(at))).collect();
        format!("in a room of {}", points.join(", "))
    }));
    words
}

fn answer(answer: &RipenAnswer) -> Vec<String> {
    match answer {
        RipenAnswer::Time(found, until) => {
            let until =
                until.as_ref().map(|until| format!(", good until {}", time(until))).unwrap_or_default();
            two(found, |ripe| format!("  ripe after {}", time(ripe)), &until)
        }
        RipenAnswer::Temperature(found) => two(found, |at| format!("  keep it at {}", both_degrees(at)), ""),
        RipenAnswer::Amount(found) => two(found, |leaven| format!("  {}", started(leaven)), ""),
        RipenAnswer::Ready(found) => two(found, |ready| clocked("ripe at", ready), ""),
        RipenAnswer::Set(found) => two(found, |set| clocked("set it at", set), ""),
        RipenAnswer::Table(rows) => table(rows),
    }
}

fn clocked(what: &str, found: &ClockEstimate) -> String {
    format!("  {what} {}, ripening {}", found.shown, time(&found.ripens))
}

/// The answer to go by, and the other where it differs.
fn two<T: PartialEq>(found: &RipeningEstimate<T>, words: impl Fn(&T) -> String, more: &str) -> Vec<String> {
    let first = words(&found.value) + more;
    let Some(other) = found.second() else { return vec![first] };
    let second = words(other);
    let room = width(&first).max(width(&second));
    vec![
        format!("{}   by {}", left(&first, room), found.by),
        format!("{}   by {}, for comparison", left(&second, room), found.other_by),
    ]
}

fn table(rows: &[(Temperature, RipeningEstimate<TimeEstimate>)]) -> Vec<String> {
    let Some((_, first)) = rows.first() else { return Vec::new() };
    let differ = rows.iter().any(|(_, found)| found.second().is_some());
    let other = if differ { format!(" ({})", first.other_by) } else { String::new() };
    let mut lines = vec![format!("  ripe after, by {}{other}", first.by)];
    for (at, found) in rows {
        let other = found.second().map(|other| format!("({})", time(other))).unwrap_or_default();
        let line = format!("  {}  {} {other}", right(&degrees(at), 6), left(&time(&found.value), 12));
        lines.push(line.trim_end().to_owned());
    }
    lines
}

fn time(time: &TimeEstimate) -> String {
    hours_and_minutes(&time.shown)
}
