//! `levamen water`

use levamen_balance::Balance;
use levamen_ferment::{Answer, Factors, Hazard, Learned, Noted, Pour, Refusal, coldest_water, learned, pour};
use levamen_formula::{FormulaId, Pantry};
use levamen_plan::{Bowl, Warmth};
use levamen_quantity::{MassUnit, Temperature, TemperatureDifference, TemperatureUnit};
use levamen_sheets::{Poured, json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, BatchSize, WaterArguments};
use crate::cards::Cards;
use crate::failure::Failure;
use crate::leaven::failed;
use crate::{measure, noted, output};

/// What mixing does to the dough: to the trade's rule, and to its heat.
struct Warming {
    friction: TemperatureDifference,
    rise: TemperatureDifference,
    /// How both are known.
    how: Vec<String>,
}

pub fn run(arguments: &Arguments, water: &WaterArguments) -> Result<(), Failure> {
    let (shelf, id) = found(arguments, &water.name)?;
    let mut balance = shelf.balance(id)?;
    BatchSize { dough: water.dough.clone(), ..BatchSize::default() }.apply(&mut balance)?;
    let mut cards = Cards::read(&shelf)?;
    let factors = factors(water, &mut cards, id)?;
    let pantry = shelf.book.pantry();
    let bowl = bowl(&balance, pantry, &factors);
    if factors.pre_ferment.is_some() && bowl.fermented.is_empty() {
        return Err(Failure::usage(format!("nothing that fermented ahead goes into `{}`", balance.dough))
            .help("leave out --preferment"));
    }
    let warming = warming(water, &balance, pantry, &factors, &mut cards, id)?;
    let tap = water.tap.as_deref().map(|words| measure::temperature("--tap", words)).transpose()?;
    let tap = cards.tap(tap);
    let mut poured = poured(&balance, factors, &warming, tap, &bowl)?;
    poured.counted_with.extend(warming.how.into_iter().chain(cards.taken));
    remind_elsewhere(&shelf, &water.name);
    if arguments.json {
        print_json(&json::Poured::from(&poured))
    } else {
        output::result(text::poured(&poured).as_bytes())
    }
}

/// The bowl of the final dough, all in it as warm as the factors say.
fn bowl(balance: &Balance, pantry: &Pantry, factors: &Factors) -> Bowl {
    let warmth =
        Warmth { flour: &factors.flour, room: &factors.room, pre_ferment: factors.pre_ferment.as_ref() };
    let last = balance.stages.len().saturating_sub(1);
    let flour = balance.batch().flour().clone();
    // A dough that balances has a final dough.
    Bowl::of(balance, last, &flour, pantry, warmth).unwrap_or_default()
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

/// What mixing does, as it is given, learned from noted batches, or on the mixer's card.
fn warming(
    water: &WaterArguments,
    balance: &Balance,
    pantry: &Pantry,
    factors: &Factors,
    cards: &mut Cards,
    id: FormulaId,
) -> Result<Warming, Failure> {
    let noted = match (&water.noted, &water.mixer) {
        (Some(path), Some(mixer)) => Some(from_noted(&noted::read(path)?, mixer, balance, pantry, factors)?),
        _ => None,
    };
    let given =
        water.friction.as_deref().map(|words| measure::difference("--friction", words)).transpose()?;
    match (given, noted) {
        // The friction is the rule's; what was measured says what heats count with.
        (Some(friction), Some(noted)) => Ok(Warming { friction, ..noted }),
        (None, Some(noted)) => Ok(noted),
        (given, None) => {
            let friction = given.or_else(|| cards.friction(id)).ok_or_else(|| {
                Failure::usage("nothing says how much the mixer warms the dough")
                    .help("write --friction 8°C, name noted batches with --noted, or write `warms 8 °C` on the card of the mixer that the dough's method names")
            })?;
            let rise = factors.rise(&friction);
            let how = "a rise by mixing as the rule has it, that friction shared out among its factors; \
                       --noted learns the rise itself from what was measured";
            Ok(Warming { friction, rise, how: vec![how.to_owned()] })
        }
    }
}

/// What noted batches of so much dough in a mixer say: the rule's friction by the rule, the rise by heats.
fn from_noted(
    batches: &[Noted],
    mixer: &str,
    balance: &Balance,
    pantry: &Pantry,
    factors: &Factors,
) -> Result<Warming, Failure> {
    let dough = balance.batch().mass(&balance.weight);
    let key = levamen_formula::key(mixer);
    let four_factors = factors.pre_ferment.is_some();
    // Of a noted batch it is not known which dough it was: it is taken to have been this one.
    let rise_in =
        |batch: &Noted| bowl(balance, pantry, &batch.factors).rise(&batch.factors.dough, batch.water.clone());
    let friction = learned(batches, &key, &dough, four_factors, |batch| Some(batch.friction()));
    let rise = learned(batches, &key, &dough, four_factors, rise_in);
    let (Some(friction), Some(rise)) = (friction, rise) else {
        let with = if four_factors { "with" } else { "without" };
        let kilograms = dough.in_unit(MassUnit::Kilogram).to_fixed(1);
        return Err(Failure::usage(format!(
            "no batch in `{mixer}` with half to twice {kilograms} kg of dough is noted, {with} a pre-ferment"
        ))
        .help("give the friction itself, such as --friction 8°C, measure the dough, and note the batch"));
    };
    let how = vec![
        learned_words("a friction", &friction, mixer),
        format!("{}; the flour's wetting is a part of it", learned_words("a rise by mixing", &rise, mixer)),
    ];
    Ok(Warming { friction: friction.middle, rise: rise.middle, how })
}

fn learned_words(what: &str, Learned { middle, spread, count }: &Learned, mixer: &str) -> String {
    let kelvins =
        |difference: &TemperatureDifference| difference.in_unit(TemperatureUnit::Celsius).to_fixed(1);
    let batches = if *count == 1 {
        "one noted batch".to_owned()
    } else {
        format!("the middle of {count} noted batches")
    };
    format!(
        "{what} of {} °C, {batches} in `{mixer}`; they scatter by {} °C",
        kelvins(middle),
        kelvins(spread)
    )
}

/// What to pour, in both ways.
fn poured(
    balance: &Balance,
    factors: Factors,
    warming: &Warming,
    tap: Option<Temperature>,
    bowl: &Bowl,
) -> Result<Poured, Failure> {
    let by_heat = bowl.water(&factors.dough, &warming.rise).map_err(failed)?;
    let by_rule = pour(factors.water(&warming.friction), &bowl.water, tap.as_ref());
    let by_heats = pour(by_heat, &bowl.water, tap.as_ref())
        .map_err(|refusal| with_coldest(refusal, bowl, &warming.rise));
    let hot = |found: &Result<Answer<Pour>, Refusal>| {
        let is_hot = |code: &str| ["hot-water", "scalding-water"].contains(&code);
        found.as_ref().is_ok_and(|answer| answer.remarks.iter().any(|remark| is_hot(remark.code)))
    };
    let mut hazards = vec![Hazard::Mixer];
    hazards.extend((hot(&by_rule) || hot(&by_heats)).then_some(Hazard::HotWater));
    if let (Err(_), Err(refusal)) = (&by_rule, &by_heats) {
        return Err(failed(refusal.clone()));
    }
    Ok(Poured {
        dough: balance.dough.clone(),
        counted_with: counted_with(&factors, bowl),
        wanted: factors.dough,
        factors: if factors.pre_ferment.is_some() { 4 } else { 3 },
        water: bowl.water.clone(),
        tap,
        rise: warming.rise.clone(),
        heats_lead: bowl.heats_lead(),
        beside: bowl.beside.clone(),
        by_rule,
        by_heats,
        hazards,
    })
}

/// What nobody said and the balance of heats needs.
fn counted_with(factors: &Factors, bowl: &Bowl) -> Vec<String> {
    let mut counted_with = vec!["all but flour, water and pre-ferments as warm as the room".to_owned()];
    if factors.pre_ferment.is_none() {
        let degrees = |at: &Temperature| at.in_unit(TemperatureUnit::Celsius).to_fixed(0);
        counted_with.extend(bowl.fermented.iter().map(|(name, at)| {
            format!(
                "{name} at {} °C by heats, and not at all by the rule; --preferment says how warm it is",
                degrees(at)
            )
        }));
    }
    counted_with
}

/// Where not even ice is cold enough: the coldest dough that there can be.
fn with_coldest(mut refusal: Refusal, bowl: &Bowl, rise: &TemperatureDifference) -> Refusal {
    if refusal.code == "not-cold-enough"
        && let Some(coldest) = bowl.dough(coldest_water(), rise)
    {
        let figure = coldest.in_unit(TemperatureUnit::Celsius).to_fixed(1);
        refusal.notes.push(format!("with ice for all the water the dough comes to {figure} °C"));
    }
    refusal
}
