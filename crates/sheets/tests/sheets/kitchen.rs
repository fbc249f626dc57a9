//! Balances built by hand from weights, so that the sheets are tested apart from the solver.

use std::collections::BTreeMap;

use levamen_balance::{
    Balance, BalancedItem, BalancedLine, BalancedRow, BalancedStage, Ripening, StatedSize,
};
use levamen_formula::{IngredientId, StageKind};
use levamen_language::{Kind, SeedFate};
use levamen_quantity::{Duration, Exact, Mass, Share, Temperature, TemperatureUnit, TimeUnit};

/// A dough in the making: stages of weights in grams.
pub struct Kitchen {
    name: String,
    stages: Vec<Tub>,
    pieces: Option<(u64, Exact, Exact)>,
    notes: Vec<String>,
}

/// A stage in the making.
pub struct Tub {
    name: String,
    kind: StageKind,
    lines: Vec<(String, BalancedItem, Exact)>,
    steam: Exact,
    kept: Option<Exact>,
    ripens: Option<Ripening>,
    notes: Vec<String>,
}

/// What is in a tub, in grams by ingredient, and the share of it that ferments.
type Content = BTreeMap<String, Exact>;

pub fn grams(text: &str) -> Exact {
    Exact::from_literal(text).unwrap()
}

pub fn kitchen(name: &str) -> Kitchen {
    Kitchen { name: name.to_owned(), stages: Vec::new(), pieces: None, notes: Vec::new() }
}

impl Kitchen {
    pub fn ahead(self, name: &str, kind: Kind, fill: impl FnOnce(Tub) -> Tub) -> Self {
        self.stage(name, StageKind::Ahead(kind), fill)
    }

    pub fn last(self, fill: impl FnOnce(Tub) -> Tub) -> Balance {
        self.stage("final dough", StageKind::FinalDough, fill).balance()
    }

    pub fn pieces(mut self, count: u64, piece: &str, loss_percent: &str) -> Self {
        self.pieces = Some((count, grams(piece), grams(loss_percent)));
        self
    }

    pub fn note(mut self, words: &str) -> Self {
        self.notes.push(words.to_owned());
        self
    }

    fn stage(mut self, name: &str, kind: StageKind, fill: impl FnOnce(Tub) -> Tub) -> Self {
        let name = name.to_owned();
        let empty =
            Tub { name, kind, lines: vec![], steam: Exact::ZERO, kept: None, ripens: None, notes: vec![] };
        self.stages.push(fill(empty));
        self
    }

    fn balance(self) -> Balance {
        let contents = contents(&self.stages);
        let whole = contents.last().unwrap().clone();
        let flour: Exact = whole.iter().filter(|(name, _)| is_flour(name)).map(|(_, grams)| grams).sum();
        let share = |weight: &Exact| Share::from_fraction(weight / &flour);
        let dough: Exact = whole.values().sum();
        let stages: Vec<BalancedStage> =
            (0..self.stages.len()).map(|at| stage(&self.stages, &contents, at, &flour)).collect();
        let water = whole.get("water").cloned().unwrap_or_default();
        let milk = whole.get("milk").cloned().unwrap_or_default();
        let size = match self.pieces {
            Some((count, piece, loss)) => StatedSize::Make {
                flour: Mass::from_grams(flour.clone()),
                pieces: Some((count, Mass::from_grams(piece))),
                loss: Share::from_percent(loss),
            },
            None => StatedSize::Weights { flour: Mass::from_grams(flour.clone()) },
        };
        Balance {
            standing_time: None,
            dough: self.name,
            role: levamen_formula::Role::Dough,
            overall: whole.iter().map(|(name, weight)| row(name, share(weight))).collect(),
            weight: share(&dough),
            hydration: share(&water),
            effective_hydration: share(&(&water + &(&milk * &grams("0.88")))),
            salt: share(&whole.get("salt").cloned().unwrap_or_default()),
            prefermented_flour: fermented(&stages),
            stages,
            size,
            notes: self.notes,
        }
    }
}

impl Tub {
    pub fn add(mut self, name: &str, weight: &str) -> Self {
        let item =
            BalancedItem::Ingredient { id: id(name), is_flour: is_flour(name), is_water: name == "water" };
        self.lines.push((name.to_owned(), item, grams(weight)));
        self
    }

    pub fn seed(mut self, name: &str, weight: &str, fate: SeedFate) -> Self {
        self.lines.push((name.to_owned(), BalancedItem::Seed(fate), grams(weight)));
        self
    }

    pub fn piece(mut self, name: &str, weight: &str) -> Self {
        self.lines.push((name.to_owned(), BalancedItem::Piece, grams(weight)));
        self
    }

    pub fn take(self, stage: usize, name: &str, weight: &str) -> Self {
        self.take_exact(stage, name, grams(weight))
    }

    pub fn take_exact(mut self, stage: usize, name: &str, weight: Exact) -> Self {
        self.lines.push((name.to_owned(), BalancedItem::Stage(stage), weight));
        self
    }

    /// What is kept for the next seed, where the seed did not go into this tub itself.
    pub fn keeps(mut self, weight: &str) -> Self {
        self.kept = Some(grams(weight));
        self
    }

    pub fn steam(self, weight: &str) -> Self {
        self.steam_exact(grams(weight))
    }

    pub fn steam_exact(mut self, weight: Exact) -> Self {
        self.steam = weight;
        self
    }

    pub fn ripens(mut self, least: i64, most: Option<i64>, celsius: i64) -> Self {
        let hours = |figure: i64| Duration::from_unit(&Exact::from(figure), TimeUnit::Hour);
        let temperature = Temperature::from_unit(&Exact::from(celsius), TemperatureUnit::Celsius);
        let most = most.map(hours);
        self.ripens = Some(Ripening { least: hours(least), most, temperature: Some(temperature) });
        self
    }

    pub fn note(mut self, words: &str) -> Self {
        self.notes.push(words.to_owned());
        self
    }

    pub fn made(&self) -> Exact {
        self.lines.iter().map(|(.., weight)| weight).sum::<Exact>() - &self.steam
    }

    fn sum(&self, wanted: impl Fn(&str, BalancedItem) -> bool) -> Exact {
        self.lines.iter().filter(|(name, item, _)| wanted(name, *item)).map(|(.., weight)| weight).sum()
    }
}

fn is_flour(name: &str) -> bool {
    name.ends_with("flour")
}

/// An id that depends on the name alone.
fn id(name: &str) -> IngredientId {
    IngredientId(name.bytes().fold(7, |hash: u32, byte| hash.wrapping_mul(31).wrapping_add(byte.into())))
}

fn row(name: &str, share: Share) -> BalancedRow {
    BalancedRow { ingredient: id(name), name: name.to_owned(), is_flour: is_flour(name), share }
}

/// What stands in each tub: seeds and pieces are half flour and half water, the simplest culture there is.
fn contents(stages: &[Tub]) -> Vec<Content> {
    let mut contents: Vec<Content> = Vec::new();
    for tub in stages {
        let mut content = Content::new();
        let mut add = |name: &str, weight: Exact| *content.entry(name.to_owned()).or_default() += &weight;
        for (name, item, weight) in &tub.lines {
            match item {
                BalancedItem::Ingredient { .. } => add(name, weight.clone()),
                BalancedItem::Seed(_) | BalancedItem::Piece => {
                    add("culture flour", weight * &grams("0.5"));
                    add("water", weight * &grams("0.5"));
                }
                BalancedItem::Stage(from) => {
                    let share = weight / &stages[*from].made();
                    contents[*from].iter().for_each(|(name, part)| add(name, part * &share));
                }
            }
        }
        add("water", -&tub.steam);
        content.retain(|_, weight| !weight.is_zero());
        contents.push(content);
    }
    contents
}

fn stage(stages: &[Tub], contents: &[Content], at: usize, flour: &Exact) -> BalancedStage {
    let (tub, content) = (&stages[at], &contents[at]);
    let share = |weight: &Exact| Share::from_fraction(weight / flour);
    let is_last = at + 1 == stages.len();
    let made = tub.made();
    let taken = if is_last { made.clone() } else { taken_from(stages, at) };
    let given_back = given_back(stages, at);
    let half_seed = tub
        .sum(|_, item| matches!(item, BalancedItem::Piece | BalancedItem::Seed(SeedFate::Stays)))
        * grams("0.5");
    let own_flour = tub.sum(|name, item| is_flour(name) && matches!(item, BalancedItem::Ingredient { .. }));
    let all_flour: Exact = content.iter().filter(|(name, _)| is_flour(name)).map(|(_, weight)| weight).sum();
    let hydration = content.get("water").and_then(|water| water.checked_div(&all_flour));
    let into_dough = &all_flour * &(&taken / &made);
    let lines = tub.lines.iter().map(|(name, item, weight)| BalancedLine {
        spoiling: Vec::new(),
        when: None,
        name: name.clone(),
        item: *item,
        from: None,
        share: share(weight),
    });
    BalancedStage {
        name: tub.name.clone(),
        kind: tub.kind,
        lines: lines.collect(),
        own_flour: share(&own_flour),
        flour: share(&(&own_flour + &half_seed)),
        water: share(&(&(&tub.sum(|name, _| name == "water") + &half_seed) - &tub.steam)),
        hydration: hydration.map(Share::from_fraction),
        prefermented_flour: if tub.kind.ferments() { share(&into_dough) } else { Share::default() },
        steam: share(&tub.steam),
        left_over: share(&(&(&made - &taken) - &given_back)),
        given_back: share(&given_back),
        taken: share(&taken),
        made: share(&made),
        ripens: tub.ripens.clone(),
        notes: tub.notes.clone(),
    }
}

/// A seed is given back where it went in, unless a later stage keeps it.
fn given_back(stages: &[Tub], at: usize) -> Exact {
    let kept_later = stages.iter().skip(at + 1).any(|tub| tub.kept.is_some());
    let seed = || stages[at].sum(|_, item| item == BalancedItem::Seed(SeedFate::GivenBack));
    stages[at].kept.clone().unwrap_or_else(|| if kept_later { Exact::ZERO } else { seed() })
}

fn taken_from(stages: &[Tub], at: usize) -> Exact {
    stages.iter().map(|tub| tub.sum(|_, item| item == BalancedItem::Stage(at))).sum()
}

/// Flour that ferments in a stage which the final dough takes itself; deeper ones are in there already.
fn fermented(stages: &[BalancedStage]) -> Share {
    let taken = stages.last().unwrap().lines.iter().filter_map(|line| match line.item {
        BalancedItem::Stage(at) => Some(&stages[at]),
        _ => None,
    });
    Share::from_fraction(taken.map(|stage| stage.prefermented_flour.fraction().clone()).sum::<Exact>())
}
