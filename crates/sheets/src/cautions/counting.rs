//! For how long food that spoils stands neither cold nor hot.

use levamen_balance::{Balance, BalancedItem, BalancedStage};
use levamen_ferment::{is_held, longest_unheld};
use levamen_formula::StageKind;
use levamen_language::Kind;
use levamen_quantity::{Duration, Exact, TimeUnit};

/// A food on its way to the oven.
#[derive(Clone)]
pub(super) struct Food {
    pub name: String,
    /// How long it has stood neither cold nor hot.
    pub stood: Duration,
    /// Whether it has stood for a time that nothing says.
    pub is_unsaid: bool,
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
pub(super) fn count(balance: &Balance) -> Vec<Vec<Food>> {
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
