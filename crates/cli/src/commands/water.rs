//! `levamen water`

use levamen_balance::Balance;
use levamen_ferment::{
    Answer, Factors, Hazard, Part, Pour, Refusal, SpecificHeat, coldest_water, mixed, pour, water_by_heat,
};
use levamen_quantity::{Temperature, TemperatureDifference, TemperatureUnit};
use levamen_sheets::{Poured, json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, BatchSize, WaterArguments};
use crate::bowl::{Bowl, Warmth};
use crate::failure::Failure;
use crate::leaven::failed;
use crate::{measure, output};

pub fn run(arguments: &Arguments, water: &WaterArguments) -> Result<(), Failure> {
    let (shelf, id) = found(arguments, &water.name)?;
    let mut balance = shelf.balance(id)?;
    BatchSize { dough: water.dough.clone(), ..BatchSize::default() }.apply(&mut balance)?;
    let factors = factors(water)?;
    let friction = measure::difference("--friction", &water.friction)?;
    let tap = water.tap.as_deref().map(|words| measure::temperature("--tap", words)).transpose()?;
    let warmth = Warmth {
        flour: &factors.flour,
        room: &factors.room,
        pre_ferment: factors.pre_ferment.as_ref().unwrap_or(&factors.room),
    };
    let bowl = Bowl::of(&balance.batch(), shelf.book.pantry(), &warmth);
    let poured = poured(&balance, factors, &friction, tap, bowl)?;
    remind_elsewhere(&shelf, &water.name);
    if arguments.json {
        print_json(&json::Poured::from(&poured))
    } else {
        output::result(text::poured(&poured).as_bytes())
    }
}

fn factors(water: &WaterArguments) -> Result<Factors, Failure> {
    let pre_ferment = water.preferment.as_deref();
    Ok(Factors {
        dough: plausible("--dough-at", &water.dough_at)?,
        flour: plausible("--flour", &water.flour)?,
        room: plausible("--room", &water.room)?,
        pre_ferment: pre_ferment.map(|words| plausible("--preferment", words)).transpose()?,
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
        taken: taken(&factors, &bowl),
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
fn taken(factors: &Factors, bowl: &Bowl) -> Vec<String> {
    let mut taken =
        vec!["all that is neither flour nor water nor pre-ferment is as warm as the room".to_owned()];
    if factors.pre_ferment.is_none() && bowl.has_pre_ferment {
        taken.push("so is the pre-ferment; say --preferment and the rule has four factors".to_owned());
    }
    taken
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
