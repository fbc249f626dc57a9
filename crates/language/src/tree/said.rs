//! Facts of cards: what stands in the slots of their forms.

use levamen_quantity::{ClockTime, Duration, Exact, Temperature, TemperatureDifference, Volume};

use crate::{Card, Form, Name, Quantity, Span, YeastKind};

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
    /// What stands in the form's slots and which of its words are chosen, in their order.
    pub values: Vec<Value<'t>>,
    /// Where the words after the keyword stand.
    pub span: Span,
}

/// What stands in a slot.
#[derive(Debug, Clone, PartialEq)]
pub enum Value<'t> {
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
                Value::Chosen(word) => Some(*word),
                _ => None,
            })
        };
        std::ptr::eq(self.form, other.form) && !self.form.repeats && chosen(self) == chosen(other)
    }
}
