//! The facts of one card, found by their keywords.

use levamen_language::{Line, Name, Place, Problem, Quantity, Said, SlotValue, Span, Statement, TextId};
use levamen_quantity::{ClockTime, Duration, Exact, Mass, Share, Temperature, TemperatureDifference, Volume};

/// A card and its facts.
#[derive(Debug)]
pub(crate) struct CardFacts<'t> {
    pub(crate) text: TextId,
    pub(crate) name: Name<'t>,
    said: Vec<(&'t Said<'t>, Span)>,
}

impl<'t> CardFacts<'t> {
    pub(crate) const fn new(text: TextId, name: Name<'t>) -> Self {
        Self { text, name, said: Vec::new() }
    }

    /// Takes in a line, where it is a fact of a card.
    pub(crate) fn add(&mut self, line: &'t Line<'t>) {
        if let Statement::Said(said) = &line.statement {
            self.said.push((said, line.span));
        }
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.said.is_empty()
    }

    /// The place of the card's name.
    pub(crate) const fn place(&self) -> Place {
        Place { text: self.text, span: self.name.span }
    }

    /// The facts that begin with these words, each with its place.
    pub(crate) fn all(&self, keyword: &str) -> impl Iterator<Item = (&'t [SlotValue<'t>], Place)> {
        let with = self.said.iter().filter(move |(said, _)| said.form.keyword() == keyword);
        with.map(|(said, span)| (said.values.as_slice(), Place { text: self.text, span: *span }))
    }

    /// The fact that begins with these words.
    pub(crate) fn find(&self, keyword: &str) -> Option<(&'t [SlotValue<'t>], Place)> {
        self.all(keyword).next()
    }

    fn first(&self, keyword: &str) -> Option<&'t SlotValue<'t>> {
        self.find(keyword)?.0.first()
    }

    pub(crate) fn mass(&self, keyword: &str) -> Option<Mass> {
        let SlotValue::Mass(Quantity { mass, .. }) = self.first(keyword)? else { return None };
        Some(mass.clone())
    }

    pub(crate) fn share(&self, keyword: &str) -> Option<Share> {
        let SlotValue::Percent(percent) = self.first(keyword)? else { return None };
        Some(Share::from_percent(percent.clone()))
    }

    pub(crate) fn count(&self, keyword: &str) -> Option<u32> {
        let SlotValue::Count(count) = self.first(keyword)? else { return None };
        Some(*count)
    }

    pub(crate) fn time(&self, keyword: &str) -> Option<Duration> {
        let SlotValue::Time(time) = self.first(keyword)? else { return None };
        Some(time.clone())
    }

    pub(crate) fn times(&self, keyword: &str) -> Option<(Duration, Duration)> {
        let SlotValue::Times(least, most) = self.first(keyword)? else { return None };
        Some((least.clone(), most.clone()))
    }

    pub(crate) fn clock(&self, keyword: &str) -> Option<ClockTime> {
        let SlotValue::Clock(clock) = self.first(keyword)? else { return None };
        Some(*clock)
    }

    pub(crate) fn temperature(&self, keyword: &str) -> Option<Temperature> {
        let SlotValue::Temperature(temperature) = self.first(keyword)? else { return None };
        Some(temperature.clone())
    }

    pub(crate) fn difference(&self, keyword: &str) -> Option<TemperatureDifference> {
        let SlotValue::Difference(difference) = self.first(keyword)? else { return None };
        Some(difference.clone())
    }

    pub(crate) fn volume(&self, keyword: &str) -> Option<Volume> {
        let SlotValue::Volume(volume) = self.first(keyword)? else { return None };
        Some(volume.clone())
    }

    pub(crate) fn name(&self, keyword: &str) -> Option<(Name<'t>, Place)> {
        let (values, place) = self.find(keyword)?;
        let SlotValue::Name(name) = values.first()? else { return None };
        Some((*name, Place { text: place.text, span: name.span }))
    }

    pub(crate) fn words(&self, keyword: &str) -> Option<(&'t str, Place)> {
        let (values, place) = self.find(keyword)?;
        let SlotValue::Words(words) = values.first()? else { return None };
        Some((words.text, Place { text: place.text, span: words.span }))
    }

    /// A fact that the card cannot do without is missing.
    pub(crate) fn missing(&self, what: &str, example: &str) -> Problem {
        let name = self.name.spaced();
        Problem::error("half-a-card", format!("`{name}` does not say {what}"))
            .at(self.place(), "not whole")
            .help(format!("write `{example}` under it"))
    }

    /// Two facts of the card that cannot both be.
    pub(crate) fn conflict(&self, message: String, at: Place, help: &str) -> Problem {
        Problem::error("card-clash", message)
            .at(at, "cannot be")
            .and_at(self.place(), "of this card")
            .help(help)
    }
}

/// A mass and what it is a mass of, as `least 8 kg of dough` says it.
pub(crate) fn mass_of<'v>(values: &'v [SlotValue<'_>]) -> Option<(&'v Mass, &'static str)> {
    match values {
        [SlotValue::Mass(quantity), SlotValue::Chosen(of)] => Some((&quantity.mass, of)),
        _ => None,
    }
}

/// A share of so many percent.
pub(crate) fn share(percent: &Exact) -> Share {
    Share::from_percent(percent.clone())
}
