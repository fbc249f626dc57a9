//! The cautions of a dough, in the one place where they are found: views print them, and add nothing.
//!
//! Time counts from when a food that spoils goes into a tub to when the dough goes into the oven, over all stages
//! together, except where it is held cold or hot. Fermenting does not take off any of it. A temperature that nobody says
//! counts as warm; a time that nobody says is said to be missing, and is not taken as none.

use levamen_balance::{Balance, BalancedItem, BalancedStage};
use levamen_ferment::{Hazard, is_held, longest_unheld};
use levamen_formula::StageKind;
use levamen_language::Kind;
use levamen_quantity::{Duration, Exact, TimeUnit};

/// A caution about one stage of a dough.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DoughCaution {
    /// The stage's index.
    pub stage: usize,
    /// The stage's name.
    pub name: String,
    /// What it is about.
    pub hazard: Hazard,
    /// The foods that spoil, each once; none where it is about something else.
    pub foods: Vec<String>,
    /// How long they have stood neither cold nor hot by the end of the stage, as far as anything says.
    pub stood: Option<Duration>,
    /// Whether some time that counts is said nowhere.
    pub is_unsaid: bool,
}

/// The cautions of a dough, in the order of its stages: one for each stage that is a scald, and one where food that
/// spoils first stands longer than it may.
#[must_use]
pub fn cautions(balance: &Balance) -> Vec<DoughCaution> {
    let counted = count(balance);
    let mut found = Vec::new();
    for (index, stage) in balance.stages.iter().enumerate() {
        if stage.kind == StageKind::Ahead(Kind::Scald) {
            found.push(DoughCaution {
                stage: index,
                name: stage.name.clone(),
                hazard: Hazard::HotWater,
                foods: Vec::new(),
                stood: None,
                is_unsaid: false,
            });
        }
        if let Some(foods) = counted.get(index).filter(|foods| !foods.is_empty()) {
            found.push(spoiling(index, &stage.name, foods));
        }
    }
    found
}

/// The caution for foods that stand too long, by the longest time of them.
fn spoiling(stage: usize, name: &str, foods: &[Food]) -> DoughCaution {
    let mut names: Vec<String> = Vec::new();
    for food in foods {
        if !names.contains(&food.name) {
            names.push(food.name.clone());
        }
    }
    DoughCaution {
        stage,
        name: name.to_owned(),
        hazard: Hazard::Spoiling,
        foods: names,
        stood: foods.iter().map(|food| food.stood.clone()).max(),
        is_unsaid: foods.iter().any(|food| food.is_unsaid),
    }
}

impl DoughCaution {
    /// What to do, and why, in words.
    #[must_use]
    pub fn words(&self) -> String {
        match &self.stood {
            Some(stood) => self.spoiling_words(stood),
            None => BOILING.to_owned(),
        }
    }

    /// Who says so.
    #[must_use]
    pub const fn source(&self) -> &'static str {
        self.hazard.caution().source
    }

    fn spoiling_words(&self, stood: &Duration) -> String {
        let foods = self.foods.join(", ");
        let hours = hours(stood);
        // What has stood too long is cautioned about at once, so a time that is said nowhere comes after a shorter one.
        let stands = match (self.is_unsaid, hours == "0") {
            (false, _) => format!("{hours} h neither cold nor hot by the end of {}", self.name),
            (true, true) => format!("in {}, and nothing says how long", self.name),
            (true, false) => format!("{hours} h before {}, and nothing says how much longer", self.name),
        };
        format!(
            "{foods}: {stands}. {} Fermenting does not excuse it: keep it cold, make it shorter, or add it to the final dough.",
            Hazard::Spoiling.caution().words
        )
    }
}

/// The words for boiling water.
const BOILING: &str = "Boiling water: it scalds and spits. Keep to the rules of your house and your country.";

fn hours(time: &Duration) -> String {
    time.in_unit(TimeUnit::Hour).to_trimmed(1)
}

/// A food on its way to the oven.
#[derive(Clone)]
struct Food {
    name: String,
    /// How long it has stood neither cold nor hot.
    stood: Duration,
    /// Whether it has stood for a time that nothing says.
    is_unsaid: bool,
    state: State,
    /// Whether there is a caution for it already.
    is_said: bool,
}

/// In what state a food goes in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    /// It spoils as it is.
    Moist,
    /// It is still dry, and does not spoil before it is wet.
    Dry,
    /// It was dry and is wet, or is a scald: by itself it is not counted in the final dough, where it is as the flour around
    /// it (common practice, no source).
    Wetted,
}

/// By stage: the foods that there is to caution about, each where it first stands too long.
fn count(balance: &Balance) -> Vec<Vec<Food>> {
    let mut at_end: Vec<Vec<Food>> = Vec::new();
    let mut found = Vec::new();
    let mut has_mixed = false;
    for stage in &balance.stages {
        let is_final = stage.kind == StageKind::FinalDough;
        let mut foods = entering(stage, &at_end);
        let time = if is_final { StandingTime::of_final(balance) } else { StandingTime::of_ahead(stage) };
        let mut here = Vec::new();
        for food in foods.iter_mut().filter(|food| food.state != State::Dry) {
            time.add_to(food, is_final);
            if !food.is_said && (food.is_unsaid || food.stood > longest_unheld()) {
                food.is_said = true;
                here.push(food.clone());
            }
        }
        // The batches of a final dough are one dough: what is said of the first is said of all.
        found.push(if is_final && has_mixed { Vec::new() } else { here });
        has_mixed |= is_final;
        at_end.push(foods);
    }
    found
}

/// What goes into a stage, with the time that it has stood before.
fn entering(stage: &BalancedStage, at_end: &[Vec<Food>]) -> Vec<Food> {
    let none = Duration::from_unit(&Exact::ZERO, TimeUnit::Hour);
    let food = |name: &str, state| Food {
        name: name.to_owned(),
        stood: none.clone(),
        is_unsaid: false,
        state,
        is_said: false,
    };
    let mut foods = Vec::new();
    for line in &stage.lines {
        foods.extend(
            line.spoiling
                .iter()
                .map(|own| food(&own.name, if own.when_wet { State::Dry } else { State::Moist })),
        );
        if let BalancedItem::Stage(index) = line.item {
            foods.extend(at_end.get(index).into_iter().flatten().cloned());
        }
    }
    let wet = |item| {
        matches!(
            item,
            BalancedItem::Ingredient { is_water: true, .. } | BalancedItem::Seed(_) | BalancedItem::Piece
        )
    };
    let is_wet =
        stage.lines.iter().any(|line| wet(line.item)) || foods.iter().any(|food| food.state != State::Dry);
    for food in foods.iter_mut().filter(|food| is_wet && food.state == State::Dry) {
        food.state = State::Wetted;
    }
    if stage.kind == StageKind::Ahead(Kind::Scald) {
        // Flour or grain that was heated with water spoils as cooked food does.
        foods.push(food(&stage.name, State::Wetted));
    }
    foods
}

/// The time that a stage adds.
enum StandingTime {
    /// It is cold or hot.
    Held,
    /// So long.
    Known(Duration),
    /// Nothing says how long.
    Unsaid,
}

impl StandingTime {
    /// A stage made ahead: as long as it may ripen.
    fn of_ahead(stage: &BalancedStage) -> Self {
        let Some(ripens) = &stage.ripens else { return Self::Unsaid };
        match &ripens.temperature {
            Some(at) if is_held(at) => Self::Held,
            _ => Self::Known(ripens.until()),
        }
    }

    /// From mixing to the oven.
    fn of_final(balance: &Balance) -> Self {
        balance.standing_time.clone().map_or(Self::Unsaid, Self::Known)
    }

    /// Adds it to what a food has stood. A straight dough of which no card says how long it stands is no reason for a
    /// caution; where some of the time is used up before, it is.
    fn add_to(&self, food: &mut Food, is_final: bool) {
        let is_fresh = food.stood.in_unit(TimeUnit::Minute).is_zero() && !food.is_unsaid;
        match self {
            _ if is_final && is_fresh && food.state == State::Wetted => {}
            Self::Held => {}
            Self::Known(time) => {
                let minutes = &food.stood.in_unit(TimeUnit::Minute) + &time.in_unit(TimeUnit::Minute);
                food.stood = Duration::from_unit(&minutes, TimeUnit::Minute);
            }
            Self::Unsaid => food.is_unsaid |= !(is_final && is_fresh),
        }
    }
}
