//! A pre-ferment that is raised by a culture, and the culture that it is seeded from.

use levamen_balance::{Balance, BalancedRow};
use levamen_ferment::{Leaven, RipeningReference, Seed};
use levamen_formula::{IngredientId, Pantry, Role, key};
use levamen_language::Problem;
use levamen_quantity::{Exact, Share};

use crate::build::{NewPreFerment, PreFermentPlan};
use crate::figures::{percent, quotient};
use crate::ingredients::{Flour, IngredientNeed, is_rye};
use crate::problems;
use crate::target::ConversionTarget;
use crate::trial::Trial;
use crate::yeast::ferment_problem;

impl PreFermentPlan<'_> {
    /// A pre-ferment that is raised by a culture.
    pub(super) fn seeded(&self) -> Result<NewPreFerment, Vec<Problem>> {
        let (mut remarks, mut usual) = (Vec::new(), Vec::new());
        let flours = self.flours(&mut remarks)?;
        let water = self.water()?;
        let hydration = self.hydration(&mut usual);
        let seed = self.seed(&mut usual);
        let culture = self.culture(&flours, &hydration, &mut remarks)?;
        self.check_ripening(&seed, &hydration).map_err(|problem| vec![problem])?;
        let mut facts: Vec<String> = flours.iter().map(Flour::line).collect();
        let from = format!("from {} {}", culture.name, percent(&seed));
        let needs = if self.request.given_back {
            facts.push(format!("{} {}", water.name, percent(&hydration)));
            facts.push(format!("{from}, given back"));
            own(&flours, water, &hydration).collect()
        } else {
            facts.push(format!("hydration {}", percent(&hydration)));
            facts.push(format!("{} rest", water.name));
            facts.push(format!("{from}, stays"));
            needs(&flours, water, &culture, &seed, &hydration).map_err(|problem| vec![problem])?
        };
        let (culture, water) = (Some(culture.name), Some(water.ingredient));
        Ok(NewPreFerment { facts, needs, dose: None, culture, water, remarks, usual })
    }

    /// Refuses a seed, a time or a temperature of which the models of ripening know nothing.
    fn check_ripening(&self, seed: &Exact, hydration: &Exact) -> Result<(), Problem> {
        let (time, warmth) = self.ripening();
        let seed = Seed {
            of_flour: Share::from_fraction(seed.clone()),
            beside: Share::from_fraction(&Exact::ONE + hydration),
            sour: self.request.target == ConversionTarget::RyeSour,
        };
        let known = RipeningReference::new(Leaven::Seed(seed), &time.duration(), None, &warmth.temperature());
        known.map(|_| ()).map_err(ferment_problem)
    }

    fn seed(&self, usual: &mut Vec<String>) -> Exact {
        if let Some(share) = &self.request.seed {
            return share.fraction().clone();
        }
        usual.push(format!("{} % seed", self.usual.seed));
        Share::from_percent(self.usual.seed.into()).fraction().clone()
    }

    /// The culture, with a word on how it was come to.
    fn culture(
        &self,
        flours: &[Flour],
        hydration: &Exact,
        remarks: &mut Vec<String>,
    ) -> Result<ChosenCulture, Vec<Problem>> {
        let rye: Exact =
            flours.iter().filter(|flour| is_rye(self.pantry(), flour.id)).map(|flour| &flour.share).sum();
        let wanting =
            SeedRequest { target: self.request.target, is_of_rye: &rye + &rye > Exact::ONE, hydration };
        let (culture, choice) =
            choose_culture(self.trial, self.without, wanting, self.request.culture.as_deref())?;
        let name = &culture.name;
        match choice {
            Choice::Named => {}
            Choice::Only => remarks.push(format!("seeded from `{name}`, the only culture of the book")),
            Choice::BestFitting(reasons) => {
                remarks.push(format!(
                    "seeded from `{name}`, the best fitting culture of the book: {}",
                    reasons.join("; ")
                ));
            }
        }
        Ok(culture)
    }
}

/// What is weighed as such, for each gram of flour weighed so.
fn own<'f>(
    flours: &'f [Flour],
    water: &'f BalancedRow,
    fresh_water: &Exact,
) -> impl Iterator<Item = IngredientNeed> + use<'f> {
    let water = IngredientNeed { id: water.ingredient, name: water.name.clone(), grams: fresh_water.clone() };
    flours.iter().cloned().map(Flour::need).chain([water])
}

/// What a pre-ferment whose seed stays takes for each gram of its flour, that of the seed included.
///
/// # Errors
/// Where the seed alone is wetter than the whole should be.
fn needs(
    flours: &[Flour],
    water: &BalancedRow,
    culture: &ChosenCulture,
    seed: &Exact,
    hydration: &Exact,
) -> Result<Vec<IngredientNeed>, Problem> {
    // For one of flour weighed as such.
    let whole = &Exact::ONE + &(seed * &culture.flour);
    let brought = seed * &culture.water;
    let fresh_water = &(hydration * &whole) - &brought;
    if fresh_water.is_negative() {
        let least = quotient(&brought, &whole);
        return Err(problems::wet_seed(&culture.name, hydration, &least));
    }
    let of_culture = culture.parts.iter().map(|(id, name, grams)| IngredientNeed {
        id: *id,
        name: name.clone(),
        grams: grams * seed,
    });
    let mut needs: Vec<IngredientNeed> = Vec::new();
    for part in own(flours, water, &fresh_water).chain(of_culture) {
        let grams = quotient(&part.grams, &whole);
        match needs.iter_mut().find(|need| need.id == part.id) {
            Some(need) => need.grams = &need.grams + &grams,
            None => needs.push(IngredientNeed { grams, ..part }),
        }
    }
    Ok(needs)
}

/// A culture, and what a gram of it is made of.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct ChosenCulture {
    pub name: String,
    /// Each ingredient, with its name and its grams.
    pub parts: Vec<(IngredientId, String, Exact)>,
    /// Grams of flour in a gram.
    pub flour: Exact,
    /// Grams of added water in a gram.
    pub water: Exact,
}

/// How a culture was come to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Choice {
    Named,
    Only,
    /// With the reasons, the first that decides first.
    BestFitting(Vec<String>),
}

/// A pre-ferment that wants a seed.
#[derive(Debug, Clone, Copy)]
pub(crate) struct SeedRequest<'w> {
    pub target: ConversionTarget,
    /// Whether most of the flour that is weighed into it is of rye.
    pub is_of_rye: bool,
    /// Water on flour.
    pub hydration: &'w Exact,
}

/// The culture of a name; without one the only culture of the book, or the one that fits best. First, it brings nothing
/// that the dough has not; then it is of rye where the pre-ferment is, and not where that is not, since what lives in it
/// is used to that flour (common practice, no source); then it is nearest in hydration, which a build makes up for.
///
/// # Errors
/// The book has no such culture, or none at all.
pub(crate) fn choose_culture(
    trial: &Trial,
    dough: &Balance,
    wanting: SeedRequest<'_>,
    wanted: Option<&str>,
) -> Result<(ChosenCulture, Choice), Vec<Problem>> {
    let entries: Vec<_> =
        trial.open().book().entries().filter(|(_, entry)| entry.role == Role::Culture).collect();
    let names: Vec<&str> = entries.iter().map(|(_, entry)| entry.name.as_str()).collect();
    if let Some(wanted) = wanted {
        let Some((id, entry)) = entries.iter().find(|(_, entry)| key(&entry.name) == key(wanted)) else {
            let is_dough = trial.open().book().find(wanted).is_some();
            return Err(vec![problems::unknown_culture(wanted, is_dough, &names)]);
        };
        return Ok((ChosenCulture::read(&entry.name, &trial.balance(*id)?), Choice::Named));
    }
    let sound = entries
        .iter()
        .filter_map(|(id, entry)| Some(ChosenCulture::read(&entry.name, &trial.balance(*id).ok()?)));
    let best = sound.min_by_key(|culture| {
        let away = culture.hydration().map(|own| (&own - wanting.hydration).abs());
        let is_of_rye = culture.is_of_rye(trial.pantry());
        (!culture.missing(dough).is_empty(), is_of_rye != wanting.is_of_rye, away)
    });
    let culture = best.ok_or_else(|| vec![problems::no_culture(wanting.target.name(), names.len())])?;
    let choice = if entries.len() == 1 {
        Choice::Only
    } else {
        Choice::BestFitting(reasons(&culture, trial.pantry(), dough, wanting))
    };
    Ok((culture, choice))
}

/// Why a culture fits better than others.
fn reasons(
    culture: &ChosenCulture,
    pantry: &Pantry,
    dough: &Balance,
    wanting: SeedRequest<'_>,
) -> Vec<String> {
    let mut reasons = Vec::new();
    if culture.missing(dough).is_empty() {
        reasons.push("it brings nothing that the dough has not".to_owned());
    }
    if culture.is_of_rye(pantry) == wanting.is_of_rye {
        let grain = if wanting.is_of_rye { "of rye" } else { "not of rye" };
        reasons.push(format!("like the {} it is {grain}", wanting.target.name()));
    }
    if let Some(own) = culture.hydration() {
        reasons.push(format!("its hydration, {}, is the nearest of such", problems::percent(&own)));
    }
    reasons
}

impl ChosenCulture {
    fn read(name: &str, balance: &Balance) -> Self {
        let in_a_gram = |share: &Exact| quotient(share, balance.weight.fraction()).reduced();
        let rows = balance.overall.iter().filter(|row| !row.share.fraction().is_zero());
        let parts = rows.map(|row| (row.ingredient, row.name.clone(), in_a_gram(row.share.fraction())));
        let flour: Exact =
            balance.overall.iter().filter(|row| row.is_flour).map(|row| row.share.fraction()).sum();
        Self {
            name: name.to_owned(),
            parts: parts.collect(),
            flour: in_a_gram(&flour),
            water: in_a_gram(balance.hydration.fraction()),
        }
    }

    /// Added water on flour; `None` without flour.
    fn hydration(&self) -> Option<Exact> {
        self.water.checked_div(&self.flour)
    }

    /// Whether most of its flour is of rye.
    fn is_of_rye(&self, pantry: &Pantry) -> bool {
        let rye: Exact =
            self.parts.iter().filter(|(id, ..)| is_rye(pantry, *id)).map(|(.., grams)| grams).sum();
        &rye + &rye > self.flour
    }

    /// What it holds and a dough has not: each with its name and its grams in a gram.
    pub fn missing(&self, dough: &Balance) -> Vec<(String, Exact)> {
        let has = |id: IngredientId| {
            dough.overall.iter().any(|row| row.ingredient == id && row.share.fraction().is_positive())
        };
        let missing = self.parts.iter().filter(|(id, ..)| !has(*id));
        missing.map(|(_, name, grams)| (name.clone(), grams.clone())).collect()
    }
}
