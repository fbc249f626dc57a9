//! `levamen feed`

pub(super) mod asked;
pub(super) mod kept;
mod needed;
mod warmed;

use levamen_bakery::Bakery;
use levamen_culture::{Hours, Task, new_culture, plan};
use levamen_sheets::{FeedingSheet, NewCultureSheet};
use levamen_views::{json, text};

use self::asked::Asked;
use self::needed::Wanted;
use super::{print_json, remind};
use crate::args::{Arguments, FeedArguments};
use crate::failure::Failure;
use crate::output;
use crate::shelf::Shelf;

pub fn run(arguments: &Arguments, feed: &FeedArguments) -> Result<(), Failure> {
    let mut shelf = Shelf::open(&arguments.book)?;
    let (bakery, _) = shelf.bakery();
    if let Some(name) = &feed.new {
        return begin(arguments, &shelf, &bakery, name);
    }
    let asked = Asked::read(feed, bakery.settings.time_zone.as_deref())?;
    let wanted = needed::read(feed, &asked, &mut shelf)?;
    if wanted.len() > 1 && asked.on_hand.is_some() {
        return Err(Failure::usage("`--on-hand` can be of one culture only, and several are needed")
            .help("name it: --culture \"liquid culture\""));
    }
    let sheets = wanted.iter().map(|wanted| sheet(&shelf, &bakery, &asked, wanted));
    let sheets = sheets.collect::<Result<Vec<FeedingSheet>, Failure>>()?;
    remind(&shelf, " elsewhere");
    if arguments.json {
        return print_json(&sheets.iter().map(json::FeedJson::from).collect::<Vec<_>>());
    }
    let pages: Vec<String> = sheets.iter().map(text::feed).collect();
    output::result(pages.join("\n").as_bytes())
}

/// The first days of a new culture.
fn begin(arguments: &Arguments, shelf: &Shelf, bakery: &Bakery, name: &str) -> Result<(), Failure> {
    let kept = kept::read(shelf, bakery, needed::named(shelf, name)?, None)?;
    let days = new_culture(&kept.keeping);
    let begun =
        NewCultureSheet::new(&kept.name, days, &kept.parts, &shelf.book.scales(), kept.warm, kept.notes)?;
    remind(shelf, " elsewhere");
    if arguments.json {
        return print_json(&json::NewCultureJson::from(&begun));
    }
    output::result(text::new_culture(&begun).as_bytes())
}

/// The plan of one culture, on the bakery's scales.
fn sheet(shelf: &Shelf, bakery: &Bakery, asked: &Asked, wanted: &Wanted) -> Result<FeedingSheet, Failure> {
    let kept = kept::read(shelf, bakery, wanted.culture, asked.kept_at.as_ref())?;
    let hours = asked
        .feed_at
        .clone()
        .map_or_else(|| Hours::suiting(&kept.keeping, &wanted.needs, asked.at), Hours::given);
    let task = Task {
        keeping: &kept.keeping,
        needs: &wanted.needs,
        days: &asked.days,
        hours: &hours,
        on_hand: asked.on_hand.clone(),
    };
    let plan = plan(&task).map_err(|refusal| shelf.fail(vec![refusal.problem(&kept.name, &kept.keeping)]))?;
    let mut notes = kept.notes;
    if asked.on_hand.is_none() {
        notes.push("It begins with as much as suits it: `--on-hand 400g` says what there is.".to_owned());
    }
    notes.extend(wanted.later_note(&asked.days));
    Ok(FeedingSheet::new(&kept.name, &plan, &kept.parts, &shelf.book.scales(), notes)?)
}
