//! What is called how on a page: doughs and jobs, parts of a dough and its pieces, and how long something ripens.

use levamen_balance::{BalancedItem, Ripening};
use levamen_formula::{Book, FormulaId, StageKind};
use levamen_language::{Hint, SeedFate, with_article};
use levamen_quantity::{Duration, Exact, Mass, Share, TimeUnit};
use levamen_sheets::BatchPieces;
use levamen_timetable::{Step, Work};

use super::figures::{degrees, hours_and_minutes, percent, short, weight};

/// How long a stage ripens, and until when it is used where one time is said: `ripens 12 to 16 h at 21 °C`,
/// `ripens 12 h (used up to 15 h) at 21 °C`.
pub fn ripens(ripening: &Ripening) -> String {
    let words = ripens_exactly(ripening);
    if ripening.most.is_some() {
        return words;
    }
    let until = format!("(used up to {})", hours_and_minutes(&ripening.until()));
    match words.split_once(" at ") {
        Some((time, warmth)) => format!("{time} {until} at {warmth}"),
        None => format!("{words} {until}"),
    }
}

/// How long a stage ripens, as its text says: `ripens 12 h at 21 °C`.
pub fn ripens_exactly(ripening: &Ripening) -> String {
    let unit = unit_for(&ripening.least);
    let figure = |time: &Duration| short(&time.in_unit(unit));
    let mut words = format!("ripens {}", figure(&ripening.least));
    if let Some(most) = &ripening.most {
        words = format!("{words} to {}", figure(most));
    }
    words = format!("{words} {}", unit.symbol());
    match &ripening.temperature {
        Some(warmth) => format!("{words} at {}", degrees(warmth)),
        None => words,
    }
}

/// Hours for whole and half hours, minutes for the rest.
fn unit_for(time: &Duration) -> TimeUnit {
    let minutes = time.in_unit(TimeUnit::Minute);
    let half_hours = &minutes / &Exact::from(30);
    if minutes >= Exact::from(60) && half_hours.floor() == half_hours {
        TimeUnit::Hour
    } else {
        TimeUnit::Minute
    }
}

/// `24 pieces of 920 g, losing 2 %`.
pub fn pieces_words(pieces: &BatchPieces, loss: &Share) -> String {
    let noun = if pieces.count == 1 { "piece" } else { "pieces" };
    let words = format!("{} {noun} of {}", pieces.count, weight(&pieces.piece));
    if loss.fraction().is_zero() { words } else { format!("{words}, losing {}", percent(loss)) }
}

/// What the pieces lack, and how to have both them and what is kept for the next batch; nothing where they come out.
pub fn short_words(pieces: &BatchPieces, short: &Mass, both: Option<&Hint>) -> Option<String> {
    if *short == Mass::ZERO {
        return None;
    }
    let noun = if pieces.count == 1 { "piece lacks" } else { "pieces lack" };
    let words = format!("the {} {noun} {}", pieces.count, weight(short));
    Some(both.map_or_else(|| words.clone(), |both| format!("{words}; {both}")))
}

/// `night levain, a levain`; a stage called what it is needs no second word, and no batch of the final dough does.
pub fn stage_name(name: &str, kind: StageKind) -> String {
    let is_final = kind == StageKind::FinalDough;
    let kind = kind.name();
    if name == kind || is_final { name.to_owned() } else { format!("{name}, {}", with_article(kind)) }
}

/// A line's name, and what it is where the name does not say so.
pub fn line_name(name: &str, item: BalancedItem) -> String {
    match item {
        BalancedItem::Ingredient { .. } => name.to_owned(),
        BalancedItem::Seed(SeedFate::Stays) => format!("{name}, seed that stays"),
        BalancedItem::Seed(SeedFate::GivenBack) => format!("{name}, seed given back"),
        BalancedItem::Piece => format!("{name}, a piece"),
        BalancedItem::Stage(_) => format!("{name}, from above"),
    }
}

/// A name, and when it goes in where that is said: `water, after the autolyse`.
pub fn timed(name: String, when: Option<&str>) -> String {
    match when {
        Some(when) => format!("{name}, {when}"),
        None => name,
    }
}

/// What stands for a name that a report should have. A report holds what it refers to, so that each has one; were one missing, a
/// test stops there and a reader sees that something is missing, not an empty place.
const MISSING: &str = "(no name)";

/// The name of a dough or a culture.
pub fn entry_name(book: &Book, id: FormulaId) -> &str {
    let entry = book.entry(id);
    debug_assert!(entry.is_some(), "a dough that the book has not");
    entry.map_or(MISSING, |entry| &entry.name)
}

/// The job of a step.
pub fn job_name<'w>(work: &'w Work, step: &Step) -> &'w str {
    let name = work.job_name(step.job);
    debug_assert!(name.is_some(), "a step of a job that the work has not");
    name.unwrap_or(MISSING)
}

#[cfg(test)]
mod tests {
    use levamen_quantity::{Temperature, TemperatureUnit};

    use super::*;

    #[test]
    fn times_are_hours_where_they_are_half_hours() {
        let time = |minutes| Duration::from_unit(&Exact::from(minutes), TimeUnit::Minute);
        let ripening = |least, most: Option<i64>| Ripening {
            least: time(least),
            most: most.map(time),
            temperature: Some(Temperature::from_unit(&Exact::from(70), TemperatureUnit::Fahrenheit)),
        };
        assert_eq!(ripens(&ripening(720, Some(960))), "ripens 12 to 16 h at 21.1 °C");
        assert_eq!(ripens(&ripening(720, None)), "ripens 12 h (used up to 15 h) at 21.1 °C");
        assert_eq!(ripens(&ripening(90, None)), "ripens 1.5 h (used up to 1 h 52 min) at 21.1 °C");
        assert_eq!(ripens(&ripening(45, None)), "ripens 45 min (used up to 56 min) at 21.1 °C");
        assert_eq!(ripens_exactly(&ripening(90, None)), "ripens 1.5 h at 21.1 °C");
    }

    fn pieces(count: u64) -> BatchPieces {
        BatchPieces { count, piece: Mass::from_grams(Exact::from(920)), as_asked: true }
    }

    #[test]
    fn pieces_are_counted_with_their_loss() {
        let loss = Share::from_percent(Exact::from(2));
        assert_eq!(pieces_words(&pieces(24), &loss), "24 pieces of 920 g, losing 2 %");
        assert_eq!(pieces_words(&pieces(1), &Share::default()), "1 piece of 920 g");
    }

    #[test]
    fn what_pieces_lack_is_said_only_where_they_lack_it() {
        let short = Mass::from_grams(Exact::from(20));
        assert_eq!(short_words(&pieces(24), &Mass::ZERO, None), None);
        assert_eq!(short_words(&pieces(1), &short, None).unwrap(), "the 1 piece lacks 20 g");
        let both = short_words(&pieces(24), &short, Some(&"the other size is enough".into())).unwrap();
        assert_eq!(both, "the 24 pieces lack 20 g; the other size is enough");
    }

    #[test]
    fn a_stage_that_is_called_what_it_is_needs_no_second_word() {
        let levain = StageKind::Ahead(levamen_language::Kind::Levain);
        assert_eq!(stage_name("night levain", levain), "night levain, a levain");
        assert_eq!(stage_name("levain", levain), "levain");
        assert_eq!(stage_name("batch 2", StageKind::FinalDough), "batch 2");
        assert_eq!(timed("water".to_owned(), Some("after the autolyse")), "water, after the autolyse");
    }

    #[test]
    fn a_line_says_what_its_name_does_not() {
        let names = [BalancedItem::Seed(SeedFate::Stays), BalancedItem::Piece, BalancedItem::Stage(0)];
        let names = names.map(|item| line_name("rye", item));
        assert_eq!(names, ["rye, seed that stays", "rye, a piece", "rye, from above"]);
    }
}
