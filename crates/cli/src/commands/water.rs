//! `levamen water`

use levamen::{RoomWarmth, WaterQuestion, read_measured_batches, typed, water};
use levamen_files::text_beside;
use levamen_views::{json, text};

use super::print;
use crate::advice;
use crate::args::{Arguments, WaterArguments};
use crate::failure::Failure;
use crate::measure::{given, typed};
use crate::opened::Opened;

pub fn run(arguments: &Arguments, asked: &WaterArguments) -> Result<(), Failure> {
    let (book, id) = Opened::with_dough(&arguments.book, &asked.name)?;
    let question = question(asked, |name| book.bakery().0.room(name).is_some())?;
    let mut answer = water(&book, id, &question)?;
    advice::spell(&mut answer.counted_with);
    book.remind_beside(&asked.name);
    print(arguments, || json::WaterJson::from(&answer), || text::water(&answer))
}

fn question(asked: &WaterArguments, is_room: impl Fn(&str) -> bool) -> Result<WaterQuestion, Failure> {
    let at_work = |option: &str, words: &Option<String>| {
        words.as_deref().map(|words| typed(option, typed::working_temperature(words))).transpose()
    };
    let room = |words: &str| {
        if is_room(words) {
            return Ok(RoomWarmth::Named(words.to_owned()));
        }
        typed("--room", typed::temperature(words)).map(RoomWarmth::At)
    };
    let measured = match (&asked.noted, &asked.mixer) {
        (Some(path), Some(mixer)) => Some((read_measured_batches(&text_beside(path))?, mixer.clone())),
        _ => None,
    };
    Ok(WaterQuestion {
        dough_at: at_work("--dough-at", &asked.dough_at)?,
        flour: at_work("--flour", &asked.flour)?,
        room: asked.room.as_deref().map(room).transpose()?,
        time: given("--time", asked.time.as_ref(), typed::clock)?,
        pre_ferment: at_work("--preferment", &asked.preferment)?,
        friction: given("--friction", asked.friction.as_ref(), typed::difference)?,
        measured,
        tap: given("--tap", asked.tap.as_ref(), typed::temperature)?,
        dough: given("--dough", asked.dough.as_ref(), typed::mass)?,
    })
}
