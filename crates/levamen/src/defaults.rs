//! What the bakery's cards say, where a question does not.

use levamen_bakery::{Bakery, Mixer, Room};
use levamen_formula::FormulaId;
use levamen_language::Hint;
use levamen_quantity::{ClockTime, Temperature, TemperatureDifference};

use crate::error::QuestionError;

/// How warm a room is: as somebody measured it, or as the card of a room says.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RoomWarmth {
    /// So warm.
    At(Temperature),
    /// As warm as the room of this name.
    Named(String),
}

/// The figures of a bakery's cards, and which of them were used.
pub(crate) struct Defaults<'b> {
    bakery: &'b Bakery,
    /// What was used, as it is reported.
    pub used: Vec<Hint>,
}

impl<'b> Defaults<'b> {
    pub const fn new(bakery: &'b Bakery) -> Self {
        Self { bakery, used: Vec::new() }
    }

    /// How warm a dough is wanted.
    ///
    /// # Errors
    /// Neither the option nor the dough's method says it.
    pub fn dough_at(
        &mut self,
        given: Option<Temperature>,
        dough: FormulaId,
    ) -> Result<Temperature, QuestionError> {
        let card = self.bakery.method(dough).and_then(|method| method.dough_at.clone());
        self.or_card(given, card, "the dough as warm as its method says")
            .ok_or(QuestionError::NoDoughTemperature)
    }

    /// How warm the flour is.
    ///
    /// # Errors
    /// Neither the option nor the bakery's card says it.
    pub fn flour(&mut self, given: Option<Temperature>) -> Result<Temperature, QuestionError> {
        let card = self.bakery.settings.flour_store.clone();
        self.or_card(given, card, "the flour as warm as the flour store")
            .ok_or(QuestionError::NoFlourTemperature)
    }

    /// How warm the tap's water is, where anything says it.
    pub fn tap(&mut self, given: Option<Temperature>) -> Option<Temperature> {
        let card = self.bakery.settings.tap.clone();
        self.or_card(given, card, "the tap as cold as the bakery's card says")
    }

    /// How warm the room is: as the question says, or as a card says, at a time of day where it changes.
    ///
    /// # Errors
    /// Nothing says it, or the time is missing.
    pub fn room(
        &mut self,
        given: Option<&RoomWarmth>,
        time: Option<ClockTime>,
    ) -> Result<Temperature, QuestionError> {
        let room = match given {
            Some(RoomWarmth::At(at)) => return Ok(at.clone()),
            Some(RoomWarmth::Named(name)) => self.bakery.room(name),
            None => self.bakery.rooms.first(),
        };
        let (at, words) = warmth(room.ok_or(QuestionError::NoRoomTemperature)?, time)?;
        self.used.push(words.into());
        Ok(at)
    }

    /// The friction of the dough's mixer, where its card says one.
    pub fn friction(&mut self, dough: FormulaId) -> Option<TemperatureDifference> {
        let mixer = self.bakery.mixer(self.bakery.named_mixer(dough)?)?;
        let Mixer { name, warms, .. } = mixer;
        let warms = warms.clone()?;
        self.used.push(format!("the friction that the card of {name} says").into());
        Some(warms)
    }

    fn or_card<T>(&mut self, given: Option<T>, card: Option<T>, words: &str) -> Option<T> {
        if given.is_none() && card.is_some() {
            self.used.push(words.into());
        }
        given.or(card)
    }
}

/// How warm a room is, and that in words.
fn warmth(room: &Room, time: Option<ClockTime>) -> Result<(Temperature, String), QuestionError> {
    match (room.curve.as_slice(), time) {
        ([(_, always)], _) => Ok((always.clone(), format!("the room as warm as {}", room.name))),
        (_, Some(time)) => {
            let at = room.at(time).ok_or(QuestionError::NoRoomTemperature)?;
            Ok((at, format!("the room as warm as {} at {time}", room.name)))
        }
        (_, None) => Err(QuestionError::RoomByTheHour { room: room.name.clone() }),
    }
}
