//! How warm the water has to be for a dough's temperature, and how much of it is ice.

use std::collections::BTreeMap;

use levamen_balance::Balance;
use levamen_ferment::{
    Answer, Factors, FermentError, Hazard, MixingWater, WarmingEstimate, coldest_water, estimate_warming,
    mixing_water,
};
use levamen_formula::{FormulaId, Pantry};
use levamen_language::{AskedField, Hint};
use levamen_plan::{Bowl, Warmth};
use levamen_quantity::{ClockTime, Mass, Share, Temperature, TemperatureDifference, TemperatureUnit};
use levamen_sheets::{PouredWater, Weight};

use crate::defaults::{Defaults, RoomWarmth};
use crate::error::{Error, QuestionError, kilograms};
use crate::measured_batches::MeasuredBatch;
use crate::size::BatchSize;
use crate::workspace::Workspace;

/// How warm the dough shall be, and how warm all else is. What is not given is as the bakery's cards say.
#[derive(Debug, Clone, Default)]
pub struct WaterQuestion {
    /// How warm the dough shall be.
    pub dough_at: Option<Temperature>,
    /// How warm the flour is.
    pub flour: Option<Temperature>,
    /// How warm the room is.
    pub room: Option<RoomWarmth>,
    /// When it is mixed, for a room that is warmer or colder by the hour.
    pub time: Option<ClockTime>,
    /// How warm the pre-ferment is.
    pub pre_ferment: Option<Temperature>,
    /// The friction by the trade's rule.
    pub friction: Option<TemperatureDifference>,
    /// Measured batches to learn the friction from, and the mixer whose batches count.
    pub measured: Option<(Vec<MeasuredBatch>, String)>,
    /// How warm the tap's water is.
    pub tap: Option<Temperature>,
    /// So much dough as it is mixed, where it is not what the file says.
    pub dough: Option<Mass>,
}

/// What to pour, found in two ways.
#[derive(Debug, Clone, PartialEq)]
pub struct WaterAnswer {
    /// The dough's name.
    pub dough: String,
    /// How warm the dough shall be.
    pub wanted: Temperature,
    /// The water that is weighed into the final dough.
    pub water: Mass,
    /// The same in whole grams.
    pub shown: Weight,
    /// The tap's temperature, where it is given.
    pub tap: Option<Temperature>,
    /// How many factors the trade's rule has here, three or four.
    pub factors: u8,
    /// How much mixing warms the whole dough.
    pub rise: TemperatureDifference,
    /// Whether the balance of heats is the better founded of the two: something in the dough is fermented, or is neither flour
    /// nor water and more than a little.
    pub heats_lead: bool,
    /// What is neither flour nor water, as a share of the dough.
    pub beside: Share,
    /// By the trade's rule.
    pub by_rule: Result<Answer<PouredWater>, FermentError>,
    /// By the balance of heats.
    pub by_heats: Result<Answer<PouredWater>, FermentError>,
    /// What was not said and is counted with, and how the friction is known.
    pub counted_with: Vec<Hint>,
    /// What can hurt.
    pub hazards: Vec<Hazard>,
}

/// What mixing does to the dough: to the trade's rule, and to its heat.
struct Warming {
    friction: TemperatureDifference,
    rise: TemperatureDifference,
    /// How both are known.
    how: Vec<Hint>,
}

/// How warm the water of a dough has to be.
///
/// # Errors
/// The dough does not balance; the question and the cards leave out a temperature; neither the rule nor the balance of heats has an
/// answer.
pub fn water(workspace: &Workspace, id: FormulaId, question: &WaterQuestion) -> Result<WaterAnswer, Error> {
    let balance = BatchSize::dough(question.dough.clone()).apply(workspace.balance(id)?.as_ref().clone())?;
    let mut defaults = Defaults::new(workspace.sound_bakery()?);
    let factors = Factors {
        dough: defaults.dough_at(question.dough_at.clone(), id)?,
        flour: defaults.flour(question.flour.clone())?,
        room: defaults.room(question.room.as_ref(), question.time)?,
        pre_ferment: question.pre_ferment.clone(),
    };
    let bowl = bowl(&balance, workspace.book().pantry(), &factors)?;
    if factors.pre_ferment.is_some() && bowl.fermented.is_empty() {
        return Err(QuestionError::NoPreFerment { dough: balance.dough }.into());
    }
    let warming = warming(workspace, id, question, &balance, &factors, &mut defaults)?;
    let tap = defaults.tap(question.tap.clone());
    let mut answer = answer(&balance, factors, &warming, tap, &bowl)?;
    answer.counted_with.extend(warming.how.into_iter().chain(defaults.used));
    Ok(answer)
}

/// The bowl of the final dough, all in it as warm as the factors say.
fn bowl(balance: &Balance, pantry: &Pantry, factors: &Factors) -> Result<Bowl, FermentError> {
    let warmth =
        Warmth { flour: &factors.flour, room: &factors.room, pre_ferment: factors.pre_ferment.as_ref() };
    let last =
        balance.stages.last().ok_or_else(|| FermentError::internal("a dough balances without a stage"))?;
    let flour = balance.batch().flour().clone();
    Bowl::of(balance, last, &flour, pantry, warmth)
}

/// What mixing does, as it is given, learned from measured batches, or on the mixer's card.
fn warming(
    workspace: &Workspace,
    id: FormulaId,
    question: &WaterQuestion,
    balance: &Balance,
    factors: &Factors,
    defaults: &mut Defaults<'_>,
) -> Result<Warming, Error> {
    let learned = question.measured.as_ref();
    let learned = learned.map(|(batches, mixer)| learn(batches, mixer, workspace, balance, factors));
    match (question.friction.clone(), learned.transpose()?) {
        // The friction is the rule's; what was measured says what heats count with.
        (Some(friction), Some(learned)) => Ok(Warming { friction, ..learned }),
        (None, Some(learned)) => Ok(learned),
        (given, None) => {
            let friction = given.or_else(|| defaults.friction(id)).ok_or(QuestionError::NoFriction)?;
            // A friction is that of three factors, whether or not it is said how warm the pre-ferment is.
            let rise = Factors { pre_ferment: None, ..factors.clone() }.rise(&friction);
            let how = Hint::of_field(
                "a rise by mixing as the rule has it, that friction shared out among three factors; ",
                AskedField::Noted,
                " learns the rise itself from what was measured",
            );
            Ok(Warming { friction, rise, how: vec![how] })
        }
    }
}

/// What noted batches of so much dough in a mixer say: the rule's friction by the rule, the rise by heats. Of a batch whose row
/// does not say which dough it was, it is taken to have been this one.
fn learn(
    batches: &[MeasuredBatch],
    mixer: &str,
    workspace: &Workspace,
    balance: &Balance,
    factors: &Factors,
) -> Result<Warming, Error> {
    let dough = balance.batch().mass(&balance.weight);
    let key = levamen_formula::key(mixer);
    let four_factors = factors.pre_ferment.is_some();
    let pantry = workspace.book().pantry();
    let mut named = BTreeMap::new();
    for name in batches.iter().filter_map(|batch| batch.of.as_deref()) {
        named.insert(name, workspace.balance(workspace.find(name)?)?);
    }
    let bowl_of = |batch: &MeasuredBatch| {
        let own = batch.of.as_deref().and_then(|name| named.get(name)).map_or(balance, |known| &**known);
        bowl(own, pantry, &batch.noted.factors)
    };
    for batch in batches {
        bowl_of(batch)?;
    }
    let rise_in = |batch: &MeasuredBatch| {
        let noted = &batch.noted;
        bowl_of(batch).ok()?.rise(&noted.factors.dough, noted.water.clone())
    };
    let friction =
        estimate_warming(batches, &key, &dough, four_factors, |batch| Some(batch.noted.friction()));
    let rise = estimate_warming(batches, &key, &dough, four_factors, rise_in);
    let (Some(friction), Some(rise)) = (friction, rise) else {
        let (mixer, kilograms) = (mixer.to_owned(), kilograms(&dough));
        return Err(QuestionError::NoLikeBatch { mixer, kilograms, with_pre_ferment: four_factors }.into());
    };
    let mut how = vec![
        learned_words("a friction", &friction, mixer).into(),
        format!("{}; the flour's wetting is a part of it", learned_words("a rise by mixing", &rise, mixer))
            .into(),
    ];
    if batches.iter().any(|batch| batch.of.is_none()) {
        let words = "noted batches that do not say which dough they were, taken to have been this one; a column `of` says it";
        how.push(words.into());
    }
    Ok(Warming { friction: friction.middle, rise: rise.middle, how })
}

fn learned_words(
    what: &str,
    WarmingEstimate { middle, spread, count }: &WarmingEstimate,
    mixer: &str,
) -> String {
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
fn answer(
    balance: &Balance,
    factors: Factors,
    warming: &Warming,
    tap: Option<Temperature>,
    bowl: &Bowl,
) -> Result<WaterAnswer, Error> {
    let by_heat = bowl.water(&factors.dough, &warming.rise)?;
    let by_rule = mixing_water(factors.water(&warming.friction), &bowl.water, tap.as_ref());
    let by_heats = mixing_water(by_heat, &bowl.water, tap.as_ref())
        .map_err(|refusal| with_coldest(refusal, bowl, &warming.rise));
    let hot = |found: &Result<Answer<MixingWater>, FermentError>| {
        let is_hot = |code: &str| ["hot-water", "scalding-water"].contains(&code);
        found.as_ref().is_ok_and(|answer| answer.remarks.iter().any(|remark| is_hot(remark.code)))
    };
    let mut hazards = vec![Hazard::Mixer];
    hazards.extend((hot(&by_rule) || hot(&by_heats)).then_some(Hazard::HotWater));
    if let (Err(_), Err(refusal)) = (&by_rule, &by_heats) {
        return Err(refusal.clone().into());
    }
    Ok(WaterAnswer {
        dough: balance.dough.clone(),
        counted_with: counted_with(&factors, bowl),
        wanted: factors.dough,
        factors: if factors.pre_ferment.is_some() { 4 } else { 3 },
        shown: Weight::in_grams(&bowl.water)?,
        water: bowl.water.clone(),
        tap,
        rise: warming.rise.clone(),
        heats_lead: bowl.heats_lead(),
        beside: bowl.beside.clone(),
        by_rule: PouredWater::of_answer(by_rule)?,
        by_heats: PouredWater::of_answer(by_heats)?,
        hazards,
    })
}

/// What nobody said and the balance of heats needs.
fn counted_with(factors: &Factors, bowl: &Bowl) -> Vec<Hint> {
    let mut counted_with = vec!["all but flour, water and pre-ferments as warm as the room".into()];
    if factors.pre_ferment.is_none() {
        let degrees = |at: &Temperature| at.in_unit(TemperatureUnit::Celsius).to_fixed(0);
        counted_with.extend(bowl.fermented.iter().map(|(name, at)| {
            Hint::of_field(
                format!("{name} at {} °C by heats, and not at all by the rule; ", degrees(at)),
                AskedField::PreFerment,
                " says how warm it is",
            )
        }));
    }
    counted_with
}

/// Where not even ice is cold enough: the coldest dough that there can be.
fn with_coldest(mut refusal: FermentError, bowl: &Bowl, rise: &TemperatureDifference) -> FermentError {
    if refusal.code == "not-cold-enough"
        && let Some(coldest) = bowl.dough(coldest_water(), rise)
    {
        let figure = coldest.in_unit(TemperatureUnit::Celsius).to_fixed(1);
        refusal.notes.push(format!("with ice for all the water the dough comes to {figure} °C"));
    }
    refusal
}
