//! A pre-ferment that is raised by a culture.

use levamen_balance::Row;
use levamen_ferment::{Leaven, RipeningReference, Seed};
use levamen_language::Problem;
use levamen_quantity::{Exact, Share};

use super::{Build, Plan, percent};
use crate::declared::is_rye;
use crate::fault;
use crate::flours::Flour;
use crate::limit::Need;
use crate::seed::{self, Choice, Culture, Wanting};
use crate::target::Target;
use crate::yeast::refused;

impl Plan<'_> {
    /// A pre-ferment that is raised by a culture.
    pub(super) fn seeded(&self) -> Result<Build, Vec<Problem>> {
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
        Ok(Build { facts, needs, dose: None, culture, water, remarks, usual })
    }

    /// Refuses a seed, a time or a temperature of which the models of ripening know nothing.
    fn check_ripening(&self, seed: &Exact, hydration: &Exact) -> Result<(), Problem> {
        let (time, warmth) = self.ripening();
        let seed = Seed {
            of_flour: Share::from_fraction(seed.clone()),
            beside: Share::from_fraction(&Exact::ONE + hydration),
            sour: self.request.target == Target::RyeSour,
        };
        let known = RipeningReference::new(Leaven::Seed(seed), &time.duration(), None, &warmth.temperature());
        known.map(|_| ()).map_err(refused)
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
    ) -> Result<Culture, Vec<Problem>> {
        let rye: Exact =
            flours.iter().filter(|flour| is_rye(self.pantry(), flour.id)).map(|flour| &flour.share).sum();
        let wanting = Wanting { target: self.request.target, is_of_rye: &rye + &rye > Exact::ONE, hydration };
        let (culture, choice) =
            seed::choose(self.trial, self.without, wanting, self.request.culture.as_deref())?;
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
fn own<'f>(flours: &'f [Flour], water: &'f Row, fresh_water: &Exact) -> impl Iterator<Item = Need> + use<'f> {
    let water = Need { id: water.ingredient, name: water.name.clone(), grams: fresh_water.clone() };
    flours.iter().cloned().map(Flour::need).chain([water])
}

/// What a pre-ferment whose seed stays takes for each gram of its flour, that of the seed included.
///
/// # Errors
/// Where the seed alone is wetter than the whole should be.
fn needs(
    flours: &[Flour],
    water: &Row,
    culture: &Culture,
    seed: &Exact,
    hydration: &Exact,
) -> Result<Vec<Need>, Problem> {
    // For one of flour weighed as such.
    let whole = &Exact::ONE + &(seed * &culture.flour);
    let brought = seed * &culture.water;
    let fresh_water = &(hydration * &whole) - &brought;
    if fresh_water.is_negative() {
        let least = brought.checked_div(&whole).unwrap_or_default();
        return Err(fault::wet_seed(&culture.name, hydration, &least));
    }
    let of_culture = culture.parts.iter().map(|(id, name, grams)| Need {
        id: *id,
        name: name.clone(),
        grams: grams * seed,
    });
    let mut needs: Vec<Need> = Vec::new();
    for part in own(flours, water, &fresh_water).chain(of_culture) {
        let grams = part.grams.checked_div(&whole).unwrap_or_default();
        match needs.iter_mut().find(|need| need.id == part.id) {
            Some(need) => need.grams = &need.grams + &grams,
            None => needs.push(Need { grams, ..part }),
        }
    }
    Ok(needs)
}
