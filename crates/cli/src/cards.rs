//! What the bakery's cards say, where an option is not given.

use levamen_bakery::{Bakery, Mixer, Room};
use levamen_formula::FormulaId;
use levamen_quantity::{ClockTime, Temperature, TemperatureDifference, Volume};

use crate::failure::Failure;
use crate::measure;
use crate::shelf::Shelf;

/// The cards of a book, and what was taken from them.
pub struct Cards {
    bakery: Bakery,
    /// What was taken, as it is told.
    pub taken: Vec<String>,
}

impl Cards {
    /// Reads the cards.
    ///
    /// # Errors
    /// They have problems.
    pub fn read(shelf: &Shelf) -> Result<Self, Failure> {
        let (bakery, problems) = shelf.bakery();
        if problems.is_empty() { Ok(Self { bakery, taken: Vec::new() }) } else { Err(shelf.fail(problems)) }
    }

    /// How warm a dough is wanted.
    ///
    /// # Errors
    /// Neither the option nor the dough's method says it.
    pub fn dough_at(&mut self, given: Option<Temperature>, dough: FormulaId) -> Result<Temperature, Failure> {
        let card = self.bakery.method(dough).and_then(|method| method.dough_at.clone());
        self.said(given, card, "the dough as warm as its method says").ok_or_else(|| {
            Failure::usage("nothing says how warm the dough shall be")
                .help("write --dough-at 24°C, or a card `method` of the dough with `dough at 24 °C`")
        })
    }

    /// How warm the flour is.
    ///
    /// # Errors
    /// Neither the option nor the bakery's card says it.
    pub fn flour(&mut self, given: Option<Temperature>) -> Result<Temperature, Failure> {
        let card = self.bakery.settings.flour_store.clone();
        self.said(given, card, "the flour as warm as the flour store").ok_or_else(|| {
            Failure::usage("nothing says how warm the flour is")
                .help("write --flour 20°C, or `flour store 20 °C` on the bakery's card")
        })
    }

    /// How warm the tap's water is, where anything says it.
    pub fn tap(&mut self, given: Option<Temperature>) -> Option<Temperature> {
        let card = self.bakery.settings.tap.clone();
        self.said(given, card, "the tap as cold as the bakery's card says")
    }

    /// How warm the room is: as it was typed, or as a card says, at a time of day where it changes.
    ///
    /// # Errors
    /// Nothing says it, or the time is missing.
    pub fn room(&mut self, typed: Option<&str>, time: Option<ClockTime>) -> Result<Temperature, Failure> {
        let named = typed.and_then(|words| self.bakery.room(words));
        let room = match (typed, named) {
            (Some(words), None) => return measure::temperature("--room", words),
            (_, Some(room)) => Some(room),
            (None, None) => self.bakery.rooms.first(),
        };
        let Some(room) = room else {
            return Err(Failure::usage("nothing says how warm the room is")
                .help("write --room 22°C, or a card `room` with `stands at 22 °C`"));
        };
        let (at, words) = warmth(room, time)?;
        self.taken.push(words);
        Ok(at)
    }

    /// The friction of the dough's mixer, where its card says one.
    pub fn friction(&mut self, dough: FormulaId) -> Option<TemperatureDifference> {
        let mixer = self.bakery.method(dough)?.mixer.and_then(|mixer| self.bakery.mixers.get(mixer))?;
        let Mixer { name, warms, .. } = mixer;
        let warms = warms.clone()?;
        self.taken.push(format!("the friction that the card of {name} says"));
        Some(warms)
    }

    /// What the bakery's tubs hold.
    #[must_use]
    pub fn tubs(&self) -> Vec<Volume> {
        self.bakery.tubs.iter().map(|tub| tub.volume.clone()).collect()
    }

    /// The temperatures of a room by its name.
    #[must_use]
    pub fn curve(&self, name: &str) -> Option<&[(ClockTime, Temperature)]> {
        self.bakery.room(name).map(|room| room.curve.as_slice())
    }

    fn said<T>(&mut self, given: Option<T>, card: Option<T>, words: &str) -> Option<T> {
        if given.is_none() && card.is_some() {
            self.taken.push(words.to_owned());
        }
        given.or(card)
    }
}

/// How warm a room is, and that in words.
fn warmth(room: &Room, time: Option<ClockTime>) -> Result<(Temperature, String), Failure> {
    match (room.curve.as_slice(), time) {
        ([(_, always)], _) => Ok((always.clone(), format!("the room as warm as {}", room.name))),
        (_, Some(time)) => Ok((room.at(time), format!("the room as warm as {} at {time}", room.name))),
        (_, None) => Err(Failure::usage(format!("how warm `{}` is depends on the hour", room.name))
            .help("say when it is mixed, such as --time 02:00, or how warm it is, such as --room 22°C")),
    }
}
