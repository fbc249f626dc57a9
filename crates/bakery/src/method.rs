//! How a dough is worked: the steps that all its products share.

use levamen_formula::{Book, FormulaId, nearest_names, suggest};
use levamen_language::Problem;
use levamen_quantity::{Duration, Temperature};

use crate::equipment::Mixer;
use crate::facts::CardFacts;
use crate::ids::MixerId;
use crate::names;

/// How a dough is worked.
#[derive(Debug, Clone, PartialEq)]
pub struct Method {
    /// Which dough.
    pub dough: FormulaId,
    /// The mixer that it is mixed in; `None` for any.
    pub mixer: Option<MixerId>,
    /// How long it is mixed.
    pub mixes: Option<Duration>,
    /// How warm it is wanted after mixing.
    pub dough_at: Option<Temperature>,
    /// How long it ferments in bulk: at least, and at most.
    pub bulk: Option<(Duration, Duration)>,
}

impl Method {
    /// Reads the card; its name is that of the dough.
    pub(crate) fn read(
        book: &Book,
        mixers: &[Mixer],
        facts: &CardFacts<'_>,
        problems: &mut Vec<Problem>,
    ) -> Option<Self> {
        let dough = names::dough(book, &facts.name, facts.place(), problems)?;
        let mixer = match facts.name("in") {
            None => None,
            Some((name, at)) => {
                let words = name.spaced();
                let is_it = |mixer: &Mixer| levamen_formula::key(&mixer.name) == levamen_formula::key(&words);
                let found = MixerId::all().zip(mixers).find(|(_, mixer)| is_it(mixer)).map(|(id, _)| id);
                if found.is_none() {
                    let problem =
                        Problem::error("unknown-mixer", format!("the bakery has no mixer called `{words}`"))
                            .at(at, "not in the book");
                    let near = nearest_names(&words, mixers.iter().map(|mixer| mixer.name.as_str()));
                    problems
                        .push(suggest(problem, &near).help(format!("a mixer has a card: `mixer {words}`")));
                    return None;
                }
                found
            }
        };
        Some(Self {
            dough,
            mixer,
            mixes: facts.time("mixes"),
            dough_at: facts.temperature("dough at"),
            bulk: facts.times("bulk"),
        })
    }
}
