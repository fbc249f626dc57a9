//! `levamen feed`

use jiff::civil::Time;
use levamen::{FeedQuestion, feed, new_culture, typed};
use levamen_files::text_beside;
use levamen_views::{json, text};

use super::print;
use crate::args::{Arguments, FeedArguments};
use crate::failure::Failure;
use crate::measure::given;
use crate::opened::Opened;
use crate::{advice, dates};

/// The most hours of a day that are looked at.
const MOST_HOURS: usize = 24;

pub fn run(arguments: &Arguments, asked: &FeedArguments) -> Result<(), Failure> {
    let book = Opened::book(&arguments.book)?;
    if let Some(name) = &asked.new {
        let sheet = new_culture(&book, name)?;
        book.remind(" elsewhere");
        return print(arguments, || json::NewCultureJson::from(&sheet), || text::new_culture(&sheet));
    }
    let question = question(asked, book.bakery().0.settings.time_zone.as_deref())?;
    let needs = text_beside(asked.need.as_deref().unwrap_or("-".as_ref()));
    let mut sheets = feed(&book, &question, &needs)?;
    advice::spell(sheets.iter_mut().flat_map(|sheet| &mut sheet.notes));
    book.remind(" elsewhere");
    let pages = || sheets.iter().map(text::feed).collect::<Vec<_>>().join("\n");
    print(arguments, || sheets.iter().map(json::FeedJson::from).collect::<Vec<_>>(), pages)
}

/// Reads the arguments; `zone` is what the book says.
fn question(asked: &FeedArguments, zone: Option<&str>) -> Result<FeedQuestion, Failure> {
    let feed_at = asked.feed_at.iter().map(|words| dates::time("--feed-at", words));
    let feed_at = feed_at.collect::<Result<Vec<Time>, Failure>>()?;
    if feed_at.len() > MOST_HOURS {
        let count = feed_at.len();
        return Err(Failure::usage(format!("`--feed-at` has {count} hours; at most {MOST_HOURS}")));
    }
    let zone = dates::zone(asked.zone.as_deref(), zone)?;
    Ok(FeedQuestion {
        days: dates::days(asked.from.as_deref().unwrap_or_default(), &asked.days, zone)?,
        culture: asked.culture.clone(),
        at: dates::time("--at", &asked.at)?,
        feed_at: (!feed_at.is_empty()).then_some(feed_at),
        kept_at: given("--kept-at", asked.kept_at.as_ref(), typed::temperature)?,
        on_hand: given("--on-hand", asked.on_hand.as_ref(), typed::mass)?,
    })
}
