//! `levamen water`

use levamen_balance::Balance;
use levamen_ferment::{
    Answer, Factors, Friction, Hazard, Part, Pour, Refusal, SpecificHeat, coldest_water, learned, mixed,
    pour, water_by_heat,
};
use levamen_formula::FormulaId;
use levamen_quantity::{MassUnit, Temperature, TemperatureDifference, TemperatureUnit};
use levamen_sheets::{Poured, json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, BatchSize, WaterArguments};
use crate::bowl::{Bowl, Warmth};
use crate::cards::Cards;
use crate::failure::Failure;
use crate::leaven::failed;
use crate::{measure, noted, output};

pub fn run(arguments: &Arguments, water: &WaterArguments) -> Result<(), Failure> {
    let (shelf, id) = found(arguments, &water.name)?;
    let mut balance = shelf.balance(id)?;
    BatchSize { dough: water.dough.clone(), ..BatchSize::default() }.apply(&mut balance)?;
    let mut cards = Cards::read(&shelf)?;
    let factors = factors(water, &mut cards, id)?;
    let (friction, learned) = friction(water, &balance, &mut cards, id)?;
    let tap = water.tap.as_deref().map(|words| measure::temperature("--tap", words)).transpose()?;
    let tap = cards.tap(tap);
    let warmth = Warmth {
        flour: &factors.flour,
        room: &factors.room,
        pre_ferment: factors.pre_ferment.as_ref().unwrap_or(&factors.room),
    };
    let bowl = Bowl::of(&balance.batch(), shelf.book.pantry(), &warmth);
    let mut poured = poured(&balance, factors, &friction, tap, bowl)?;
    poured.counted_with.extend(learned.into_iter().chain(cards.taken));
    remind_elsewhere(&shelf, &water.name);
    if arguments.json {
        print_json(&json::Poured::from(&poured))
    } else {
        output::result(text::poured(&poured).as_bytes())
    }
}

fn factors(water: &WaterArguments, cards: &mut Cards, id: FormulaId) -> Result<Factors, Failure> {
    let plausible = |option: &str, words: &Option<String>| {
        words.as_deref().map(|words| plausible(option, words)).transpose()
    };
    let time = water.time.as_deref().map(|words| measure::clock("--time", words)).transpose()?;
    Ok(Factors {
        dough: cards.dough_at(plausible("--dough-at", &water.dough_at)?, id)?,
        flour: cards.flour(plausible("--flour", &water.flour)?)?,
        room: cards.room(water.room.as_deref(), time)?,
        pre_ferment: plausible("--preferment", &water.preferment)?,
    })
}

/// A temperature at which bakers work: past 50 °C it is one in degrees Fahrenheit, and the wrong unit.
fn plausible(option: &str, words: &str) -> Result<Temperature, Failure> {
    let warmth = measure::temperature(option, words)?;
    let figure = warmth.in_unit(TemperatureUnit::Celsius);
    if figure < levamen_quantity::Exact::from(50) {
        return Ok(warmth);
    }
    Err(Failure::usage(format!("`{option} {words}`: at {} °C yeast dies", figure.to_fixed(0)))
        .help(format!("if degrees Fahrenheit were meant, write {option} {}°F", figure.to_fixed(0))))
}

/// The friction as it is given, or as it is learned; and in the second case how.
fn friction(
    water: &WaterArguments,
    balance: &Balance,
    cards: &mut Cards,
    id: FormulaId,
) -> Result<(TemperatureDifference, Option<String>), Failure> {
    if let Some(words) = &water.friction {
        return Ok((measure::difference("--friction", words)?, None));
    }
    let (Some(noted), Some(mixer)) = (&water.noted, &water.mixer) else {
        return cards.friction(id).map(|friction| (friction, None)).ok_or_else(|| {
            Failure::usage("nothing says how much the mixer warms the dough")
                .help("write --friction 8°C, name noted batches with --noted, or write `warms 8 °C` on the card of the mixer that the dough's method names")
        });
    };
    let batches = noted::read(noted)?;
    let dough = balance.batch().mass(&balance.weight);
    let key = levamen_formula::key(mixer);
    let Friction { middle, spread, count } = learned(&batches, &key, &dough, water.preferment.is_some()).ok_or_else(|| {
        let with = if water.preferment.is_some() { "with" } else { "without" };
        let kilograms = dough.in_unit(MassUnit::Kilogram).to_fixed(1);
        Failure::usage(format!("no batch in `{mixer}` with half to twice {kilograms} kg of dough is noted, {with} a pre-ferment"))
            .help("give the friction itself, such as --friction 8°C, measure the dough, and note the batch")
    })?;
    let kelvins =
        |difference: &TemperatureDifference| difference.in_unit(TemperatureUnit::Celsius).to_fixed(1);
    let batches = if count == 1 {
        "one noted batch".to_owned()
    } else {
        format!("the middle of {count} noted batches")
    };
    let how = format!(
        "a friction of {} °C, {batches} in `{mixer}`; they scatter by {} °C",
        kelvins(&middle),
        kelvins(&spread)
    );
    Ok((middle, Some(how)))
}

/// What to pour, in both ways.
fn poured(
    balance: &Balance,
    factors: Factors,
    friction: &TemperatureDifference,
    tap: Option<Temperature>,
    bowl: Bowl,
) -> Result<Poured, Failure> {
    if factors.pre_ferment.is_some() && !bowl.has_pre_ferment {
        return Err(Failure::usage(format!("nothing that fermented ahead goes into `{}`", balance.dough))
            .help("leave out --preferment"));
    }
    let rise = factors.rise(friction);
    let by_heat = water_by_heat(&factors.dough, &bowl.water, &bowl.others, &rise).map_err(failed)?;
    let by_rule = pour(factors.water(friction), &bowl.water, tap.as_ref());
    let by_heats =
        pour(by_heat, &bowl.water, tap.as_ref()).map_err(|refusal| with_coldest(refusal, &bowl, &rise));
    let hot = |found: &Result<Answer<Pour>, Refusal>| {
        found.as_ref().is_ok_and(|answer| answer.remarks.iter().any(|remark| remark.code == "hot-water"))
    };
    let mut hazards = vec![Hazard::Mixer];
    hazards.extend((hot(&by_rule) || hot(&by_heats)).then_some(Hazard::HotWater));
    if let (Err(_), Err(refusal)) = (&by_rule, &by_heats) {
        return Err(failed(refusal.clone()));
    }
    Ok(Poured {
        dough: balance.dough.clone(),
        counted_with: counted_with(&factors, &bowl),
        wanted: factors.dough,
        factors: if factors.pre_ferment.is_some() { 4 } else { 3 },
        water: bowl.water,
        tap,
        rise,
        by_rule,
        by_heats,
        hazards,
    })
}

/// What nobody said and the balance of heats needs.
fn counted_with(factors: &Factors, bowl: &Bowl) -> Vec<String> {
    let mut counted_with = vec!["all but flour, water and pre-ferment as warm as the room".to_owned()];
    if factors.pre_ferment.is_none() && bowl.has_pre_ferment {
        counted_with
            .push("the pre-ferment is so too; say --preferment and the rule has four factors".to_owned());
    }
    counted_with
}

/// Where not even ice is cold enough: the coldest dough that there can be.
fn with_coldest(mut refusal: Refusal, bowl: &Bowl, rise: &TemperatureDifference) -> Refusal {
    if refusal.code == "not-cold-enough" {
        let ice = Part { mass: bowl.water.clone(), heat: SpecificHeat::water(), at: coldest_water() };
        let parts: Vec<Part> = bowl.others.iter().cloned().chain([ice]).collect();
        if let Some(coldest) = mixed(&parts, rise) {
            let figure = coldest.in_unit(TemperatureUnit::Celsius).to_fixed(1);
            refusal.notes.push(format!("with ice for all the water the dough comes to {figure} °C"));
        }
    }
    refusal
}
