//! What the bakery works with: mixers, ovens, tubs, rooms, and the people at the bench.

use levamen_language::{Problem, SlotValue};
use levamen_quantity::{
    ClockTime, Duration, Exact, Mass, Temperature, TemperatureDifference, TemperatureUnit, Volume,
};

use crate::facts::{CardFacts, mass_of};

/// One or several mixers of a make.
#[derive(Debug, Clone, PartialEq)]
pub struct Mixer {
    /// What the bakery calls it.
    pub name: String,
    /// How many there are.
    pub count: u32,
    /// The least dough that it still mixes.
    pub least_dough: Option<Mass>,
    /// The most dough that it can take.
    pub most_dough: Option<Mass>,
    /// The least flour.
    pub least_flour: Option<Mass>,
    /// The most flour.
    pub most_flour: Option<Mass>,
    /// By how much it warms a dough, by the baker's own measure: the friction factor.
    pub warms: Option<TemperatureDifference>,
    /// How long it is out of use between two doughs.
    pub cleaning: Option<Duration>,
}

/// An oven.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Oven {
    /// What the bakery calls it.
    pub name: String,
    /// How many decks it has; each bakes one load.
    pub decks: u32,
}

/// Tubs of a size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tub {
    /// What the bakery calls them.
    pub name: String,
    /// How many there are.
    pub count: u32,
    /// What one holds to the brim.
    pub volume: Volume,
}

/// How warm a room is over the day.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Room {
    /// What the bakery calls it.
    pub name: String,
    /// The temperature at times of the day, in their order and at least one; between them it goes in a straight line,
    /// past midnight too. A room with one is always so warm.
    pub curve: Vec<(ClockTime, Temperature)>,
}

/// When bakers are at work. A shift that ends before it begins goes past midnight.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shift {
    /// What the bakery calls it.
    pub name: String,
    /// When it begins.
    pub from: ClockTime,
    /// When it ends.
    pub to: ClockTime,
    /// How many bakers are at the bench.
    pub bakers: u32,
}

impl Room {
    /// How warm it is at a time of day: between two times of its curve in a straight line, past midnight too. `None` of a
    /// curve without a point, which no card has.
    #[must_use]
    pub fn at(&self, time: ClockTime) -> Option<Temperature> {
        let celsius = |temperature: &Temperature| temperature.in_unit(TemperatureUnit::Celsius);
        let (first, last) = (self.curve.first()?, self.curve.last()?);
        let before = self.curve.iter().rfind(|(clock, _)| *clock <= time).unwrap_or(last);
        let after = self.curve.iter().find(|(clock, _)| *clock > time).unwrap_or(first);
        let minutes = |from: ClockTime, to: ClockTime| {
            let span = (i64::from(to.minutes()) - i64::from(from.minutes())).rem_euclid(24 * 60);
            Exact::from(span)
        };
        let whole = minutes(before.0, after.0);
        // Where the curve has one point, it is that warm all day.
        let Some(gone) = minutes(before.0, time).checked_div(&whole) else { return Some(before.1.clone()) };
        let (from, to) = (celsius(&before.1), celsius(&after.1));
        Some(Temperature::from_unit(&(&from + &(&(&to - &from) * &gone)), TemperatureUnit::Celsius))
    }
}

impl Mixer {
    pub(crate) fn read(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let bound = |keyword, of| {
            let mut said = facts.all(keyword).filter_map(|(values, place)| Some((mass_of(values)?, place)));
            said.find(|((_, what), _)| *what == of).map(|((mass, _), place)| (mass.clone(), place))
        };
        let mut sound = true;
        for of in ["dough", "flour"] {
            if let (Some((least, _)), Some((most, at))) = (bound("least", of), bound("most", of))
                && most < least
            {
                let name = facts.name.spaced();
                let message = format!("`{name}` takes less {of} at most than at least");
                problems.push(facts.conflict(message, at, "exchange the two figures"));
                sound = false;
            }
        }
        let mass = |keyword, of| bound(keyword, of).map(|(mass, _)| mass);
        sound.then(|| Self {
            name: facts.name.spaced().into_owned(),
            count: facts.count("there are").unwrap_or(1),
            least_dough: mass("least", "dough"),
            most_dough: mass("most", "dough"),
            least_flour: mass("least", "flour"),
            most_flour: mass("most", "flour"),
            warms: facts.difference("warms"),
            cleaning: facts.time("cleaning"),
        })
    }
}

impl Oven {
    pub(crate) fn read(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let Some(decks) = facts.count("decks") else {
            problems.push(facts.missing("how many decks it has", "decks 6"));
            return None;
        };
        Some(Self { name: facts.name.spaced().into_owned(), decks })
    }
}

impl Tub {
    pub(crate) fn read(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let Some(volume) = facts.volume("volume") else {
            problems.push(facts.missing("how much it holds", "volume 20 l"));
            return None;
        };
        let count = facts.count("there are").unwrap_or(1);
        Some(Self { name: facts.name.spaced().into_owned(), count, volume })
    }
}

impl Room {
    pub(crate) fn read(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let name = facts.name.spaced();
        let mut curve: Vec<(ClockTime, Temperature)> = Vec::new();
        for (values, place) in facts.all("at") {
            let [SlotValue::Clock(clock), SlotValue::Temperature(temperature)] = values else { continue };
            if curve.iter().any(|(other, _)| other == clock) {
                let message = format!("`{name}` has two temperatures at {clock}");
                problems.push(facts.conflict(message, place, "keep one of the two lines"));
                return None;
            }
            curve.push((*clock, temperature.clone()));
        }
        match (facts.temperature("stands at"), facts.find("at")) {
            (Some(always), None) => curve.push((ClockTime::from_minutes(0), always)),
            (Some(_), Some((_, at))) => {
                let message = format!("`{name}` is always as warm, and warmer or colder by the hour");
                problems.push(facts.conflict(
                    message,
                    at,
                    "keep `stands at`, or the temperatures by the hour",
                ));
                return None;
            }
            (None, None) => {
                problems.push(facts.missing("how warm it is", "stands at 21 °C"));
                return None;
            }
            (None, Some(_)) => {}
        }
        curve.sort_by_key(|(clock, _)| *clock);
        Some(Self { name: name.into_owned(), curve })
    }
}

impl Shift {
    pub(crate) fn read(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<Self> {
        let (Some(bakers), Some((hours, at))) = (facts.count("bakers"), facts.find("from")) else {
            problems.push(facts.missing("who works when", "from 02:00 to 10:00` and `bakers 3"));
            return None;
        };
        let [SlotValue::Clock(from), SlotValue::Clock(to)] = hours else { return None };
        if from == to {
            let message = format!("`{}` ends when it begins", facts.name.spaced());
            problems.push(facts.conflict(message, at, "write when the last baker goes home"));
            return None;
        }
        Some(Self { name: facts.name.spaced().into_owned(), from: *from, to: *to, bakers })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_room_cools_in_a_straight_line_past_midnight() {
        let celsius = |degrees: i64| Temperature::from_unit(&Exact::from(degrees), TemperatureUnit::Celsius);
        let clock = |text| ClockTime::read(text).unwrap();
        let curve = vec![(clock("02:00"), celsius(16)), (clock("22:00"), celsius(24))];
        let room = Room { name: "hall".to_owned(), curve };
        for (time, warmth) in [("22:00", 24), ("23:00", 22), ("00:00", 20), ("02:00", 16), ("12:00", 20)] {
            assert_eq!(room.at(clock(time)), Some(celsius(warmth)), "{time}");
        }
        let steady = Room { name: "store".to_owned(), curve: vec![(clock("00:00"), celsius(5))] };
        assert_eq!(steady.at(clock("13:30")), Some(celsius(5)));
    }
}
