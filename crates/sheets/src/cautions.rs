//! The cautions of a dough, in the one place where they are found: views print them, and add nothing.
//!
//! Time counts from when a food that spoils goes into a tub to when the dough goes into the oven, over all stages
//! together, except where it is held cold or hot. Fermenting does not take off any of it. A temperature that nobody says
//! counts as warm; a time that nobody says is said to be missing, and is not taken as none.

mod counting;

use levamen_balance::Balance;
use levamen_ferment::Hazard;
use levamen_formula::StageKind;
use levamen_language::Kind;
use levamen_quantity::{Duration, TimeUnit};

use counting::{Food, count};

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
