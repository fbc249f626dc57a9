//! How a culture is kept.

use levamen_formula::{Book, FormulaId, Ripening};
use levamen_language::{Problem, SlotValue};
use levamen_quantity::{Duration, Exact, Mass, Share, Temperature};

use crate::facts::CardFacts;

/// How a culture is kept: what its feeding may be, and when.
#[derive(Debug, Clone, PartialEq)]
pub struct Keeping {
    /// Which culture.
    pub culture: FormulaId,
    /// The share of old culture in what is fed, at least and at most, by weight.
    pub keeps: Option<(Share, Share)>,
    /// The share that the bakery feeds with.
    pub usually: Option<Share>,
    /// The time from one feeding to the next, at least and at most.
    pub fed_every: Option<(Duration, Duration)>,
    /// How long it stays fit for use in the cold once ripe, and how cold.
    pub stored: Option<(Duration, Temperature)>,
    /// The least that is held of it.
    pub least: Option<Mass>,
    /// The most that is held of it.
    pub most: Option<Mass>,
    /// From feeding to ripe.
    pub ripens: Option<Ripening>,
}

impl Keeping {
    /// Reads the facts of a culture's block that say how it is kept. `None` where one of them cannot be.
    pub(crate) fn read(book: &Book, facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let name = facts.name.spaced();
        let culture = book.find(&name)?;
        let formula = book.entry(culture)?.formula.as_ref();
        let ripens = formula.and_then(|formula| formula.stages.last()?.ripens.clone());
        let keeps = match facts.find("keeps") {
            Some(([SlotValue::Percents(least, most)], at)) => {
                if most >= &Exact::HUNDRED {
                    let message = format!("`{name}` would be fed with nothing");
                    problems.push(facts.conflict(message, at, "write less than 100 % old"));
                    return None;
                }
                Some((crate::facts::share(least), crate::facts::share(most)))
            }
            _ => None,
        };
        let usually = facts.share("usually");
        if let (Some((least, most)), Some(usual), Some((_, at))) = (&keeps, &usually, facts.find("usually"))
            && (usual < least || usual > most)
        {
            let message = format!("`{name}` is usually fed as it may not be");
            problems.push(facts.conflict(message, at, "write a share within what `keeps` allows"));
            return None;
        }
        let (least, most) = (facts.mass("hold at least"), facts.mass("hold at most"));
        if let (Some(least), Some(most), Some((_, at))) = (&least, &most, facts.find("hold at most"))
            && most < least
        {
            let message = format!("there is less of `{name}` at most than at least");
            problems.push(facts.conflict(message, at, "exchange the two figures"));
            return None;
        }
        let stored = match facts.find("stored up to") {
            Some(([SlotValue::Time(time), SlotValue::Temperature(temperature)], _)) => {
                Some((time.clone(), temperature.clone()))
            }
            _ => None,
        };
        let fed_every = facts.times("fed every");
        Some(Self { culture, keeps, usually, fed_every, stored, least, most, ripens })
    }
}
