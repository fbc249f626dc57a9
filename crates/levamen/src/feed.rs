//! The feedings of a culture, so that enough is ripe each day, and the first days of a new one.

pub(crate) mod culture;
mod needs;
pub(crate) mod seeds;

use levamen_culture::{FeedingHours, FeedingTask, new_culture as first_days, plan};
use levamen_language::{AskedField, Hint, Texts};
use levamen_sheets::{FeedingSheet, NewCultureSheet};

pub use self::needs::FeedQuestion;
use self::needs::{NeedTable, Wanted};
use crate::error::{Error, QuestionError};
use crate::workspace::{InputText, Workspace};

/// Plans the feedings of the cultures of which a table says when how much is needed: `date,culture,grams`, and `time` if you like.
///
/// # Errors
/// What is wrong with the table; a culture that is not in the book, or cannot be planned for.
pub fn feed(
    workspace: &Workspace,
    question: &FeedQuestion,
    needs: &InputText,
) -> Result<Vec<FeedingSheet>, Error> {
    let NeedTable { wanted, texts } = needs::read(workspace, question, needs)?;
    if wanted.len() > 1 && question.on_hand.is_some() {
        return Err(QuestionError::WhichCulture.into());
    }
    wanted.iter().map(|wanted| sheet(workspace, question, wanted, &texts)).collect()
}

/// The first days of a new culture.
///
/// # Errors
/// The book has no such culture, or does not say how it is fed.
pub fn new_culture(workspace: &Workspace, name: &str) -> Result<NewCultureSheet, Error> {
    let (bakery, _) = workspace.bakery();
    let new = culture::read(workspace, bakery, needs::named(workspace, name)?, None)?;
    let days = first_days(&new.keeping);
    Ok(NewCultureSheet::new(&new.name, days, &new.parts, &workspace.book().scales(), new.warm, new.notes)?)
}

/// The plan of one culture, on the bakery's scales.
fn sheet(
    workspace: &Workspace,
    question: &FeedQuestion,
    wanted: &Wanted,
    texts: &Texts,
) -> Result<FeedingSheet, Error> {
    let (bakery, _) = workspace.bakery();
    let fed = culture::read(workspace, bakery, wanted.culture, question.kept_at.as_ref())?;
    let given = question.feed_at.clone().map(FeedingHours::given);
    let hours = given.unwrap_or_else(|| FeedingHours::suiting(&fed.keeping, &wanted.needs, question.at));
    let task = FeedingTask {
        keeping: &fed.keeping,
        needs: &wanted.needs,
        days: &question.days,
        hours: &hours,
        on_hand: question.on_hand.clone(),
    };
    let plan = plan(&task).map_err(|refusal| Error::Problems {
        problems: vec![refusal.problem(&fed.name, &fed.keeping)],
        texts: texts.clone(),
    })?;
    let mut notes: Vec<Hint> = fed.notes.into_iter().map(Hint::from).collect();
    if question.on_hand.is_none() {
        notes.push(Hint::of_field(
            "It begins with as much as suits it: `",
            AskedField::OnHand,
            " 400g` says what there is.",
        ));
    }
    notes.extend(wanted.later_note(&question.days).map(Hint::from));
    Ok(FeedingSheet::new(&fed.name, &plan, &fed.parts, &workspace.book().scales(), notes)?)
}
