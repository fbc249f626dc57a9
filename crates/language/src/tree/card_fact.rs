//! Facts of cards: what is in the slots of their forms, kinds of yeast among it.

use levamen_quantity::{ClockTime, Duration, Exact, Temperature, TemperatureDifference, Volume};

use crate::{Card, Form, Name, Quantity, Span};

/// `mixer NAME` and the like.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CardHeading<'t> {
    /// Which card it is.
    pub card: &'static Card,
    /// Whose.
    pub name: Name<'t>,
}

/// A fact of a card.
#[derive(Debug, Clone, PartialEq)]
pub struct Said<'t> {
    /// Its form.
    pub form: &'static Form,
    /// What is in the form's slots and which of its words are chosen, in their order.
    pub values: Vec<SlotValue<'t>>,
    /// Where the words after the keyword are.
    pub span: Span,
}

/// What is in a slot.
#[derive(Debug, Clone, PartialEq)]
pub enum SlotValue<'t> {
    /// `MASS`: above zero.
    Mass(Quantity),
    /// `PERCENT`: above zero and at most 100.
    Percent(Exact),
    /// `PERCENTS`: a least and a most, or one percentage that is both.
    Percents(Exact, Exact),
    /// `TIME`: above zero.
    Time(Duration),
    /// `TIMES`: a least and a most, or one time that is both.
    Times(Duration, Duration),
    /// `TEMPERATURE`
    Temperature(Temperature),
    /// `DIFFERENCE`: between two temperatures.
    Difference(TemperatureDifference),
    /// `VOLUME`
    Volume(Volume),
    /// `COUNT`: a whole number above zero.
    Count(u32),
    /// `NUMBER`: above zero, without a unit.
    Number(Exact),
    /// `CLOCK`
    Clock(ClockTime),
    /// `NAME`
    Name(Name<'t>),
    /// `WORDS`: anything up to the end of the line.
    Words(Name<'t>),
    /// `YEAST`: a kind of baker's yeast.
    Yeast(YeastKind),
    /// The word chosen of several.
    Chosen(&'static str),
}

impl Said<'_> {
    /// Whether another fact of the same block says the same thing again: it has the same form and the same choice.
    pub(crate) fn repeats(&self, other: &Self) -> bool {
        let chosen = |said: &Self| {
            said.values.iter().find_map(|value| match value {
                SlotValue::Chosen(word) => Some(*word),
                _ => None,
            })
        };
        std::ptr::eq(self.form, other.form) && !self.form.repeats && chosen(self) == chosen(other)
    }
}

/// A kind of baker's yeast. How strong each is beside fresh yeast is no matter of the language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum YeastKind {
    /// Pressed into blocks; also called compressed.
    Fresh,
    /// Dried, and woken in water first.
    ActiveDry,
    /// Dried, and mixed in as it is.
    Instant,
    /// Instant, of a strain that works in sweet doughs.
    Osmotolerant,
}

impl YeastKind {
    /// All kinds, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Fresh, Self::ActiveDry, Self::Instant, Self::Osmotolerant];

    /// How the kind is written after `yeast`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fresh => "fresh",
            Self::ActiveDry => "active dry",
            Self::Instant => "instant",
            Self::Osmotolerant => "osmotolerant",
        }
    }

    /// The kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fresh => "fresh yeast",
            Self::ActiveDry => "active dry yeast",
            Self::Instant => "instant yeast",
            Self::Osmotolerant => "osmotolerant yeast",
        }
    }
}
