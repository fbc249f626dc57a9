//! `levamen water`

use std::collections::BTreeMap;

use levamen_balance::Balance;
use levamen_ferment::{Answer, Factors, Hazard, Learned, Pour, Refusal, coldest_water, learned, pour};
use levamen_formula::{FormulaId, Pantry};
use levamen_plan::{Bowl, Warmth};
use levamen_quantity::{MassUnit, Temperature, TemperatureDifference, TemperatureUnit};
use levamen_sheets::Poured;
use levamen_views::{json, text};

use super::{found, print_json, remind_elsewhere};
use crate::args::{Arguments, BatchSize, WaterArguments};
use crate::cards::Cards;
use crate::failure::Failure;
use crate::leaven::failed;
use crate::noted::NotedBatch;
use crate::shelf::Shelf;
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
    let warming = warming(water, &shelf, &balance, &factors, &mut cards, id)?;
    let tap = water.tap.as_deref().map(|words| measure::temperature("--tap", words)).transpose()?;
    let tap = cards.tap(tap);
    let mut poured = poured(&balance, factors, &warming, tap, &bowl)?;
    poured.counted_with.extend(warming.how.into_iter().chain(cards.taken));
    remind_elsewhere(&shelf, &water.name);
    if arguments.json {
        print_json(&json::WaterJson::from(&poured))
    } else {
        output::result(text::water(&poured).as_bytes())
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
    shelf: &Shelf,
    balance: &Balance,
    factors: &Factors,
    cards: &mut Cards,
    id: FormulaId,
) -> Result<Warming, Failure> {
    let noted = match (&water.noted, &water.mixer) {
        (Some(path), Some(mixer)) => Some(from_noted(&noted::read(path)?, mixer, shelf, balance, factors)?),
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
            // A friction is that of three factors, whether or not it is said how warm the pre-ferment is.
            let rise = Factors { pre_ferment: None, ..factors.clone() }.rise(&friction);
            let how = "a rise by mixing as the rule has it, that friction shared out among three factors; \
                       --noted learns the rise itself from what was measured";
            Ok(Warming { friction, rise, how: vec![how.to_owned()] })
        }
    }
}

/// What noted batches of so much dough in a mixer say: the rule's friction by the rule, the rise by heats. Of a batch whose row
/// does not say which dough it was, it is taken to have been this one.
fn from_noted(
    batches: &[NotedBatch],
    mixer: &str,
    shelf: &Shelf,
    balance: &Balance,
    factors: &Factors,
) -> Result<Warming, Failure> {
    let dough = balance.batch().mass(&balance.weight);
    let key = levamen_formula::key(mixer);
    let four_factors = factors.pre_ferment.is_some();
    let pantry = shelf.book.pantry();
    let mut named = BTreeMap::new();
    for name in batches.iter().filter_map(|batch| batch.of.as_deref()) {
        named.insert(name, shelf.balance(shelf.find(name)?)?);
    }
    let rise_in = |batch: &NotedBatch| {
        let own = batch.of.as_deref().and_then(|name| named.get(name)).unwrap_or(balance);
        let noted = &batch.noted;
        bowl(own, pantry, &noted.factors).rise(&noted.factors.dough, noted.water.clone())
    };
    let friction = learned(batches, &key, &dough, four_factors, |batch| Some(batch.noted.friction()));
    let rise = learned(batches, &key, &dough, four_factors, rise_in);
    let (Some(friction), Some(rise)) = (friction, rise) else {
        let with = if four_factors { "with" } else { "without" };
        let kilograms = dough.in_unit(MassUnit::Kilogram).to_fixed(1);
        return Err(Failure::usage(format!(
            "no batch in `{mixer}` with half to twice {kilograms} kg of dough is noted, {with} a pre-ferment"
        ))
        .help("give the friction itself, such as --friction 8°C, measure the dough, and note the batch"));
    };
    let mut how = vec![
        learned_words("a friction", &friction, mixer),
        format!("{}; the flour's wetting is a part of it", learned_words("a rise by mixing", &rise, mixer)),
    ];
    if batches.iter().any(|batch| batch.of.is_none()) {
        let words = "noted batches that do not say which dough they were, taken to have been this one; a column `of` says it";
        how.push(words.to_owned());
    }
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
