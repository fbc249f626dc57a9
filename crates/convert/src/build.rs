//! The new pre-ferment: its lines, and what it takes for each gram of its flour.

mod seeded;

use levamen_balance::{Balance, BalancedRow};
use levamen_formula::{Ingredient, IngredientId, Pantry};
use levamen_language::Problem;
use levamen_quantity::{Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};

use crate::figures::percent;
use crate::ingredients::{Flour, IngredientNeed, choose_flours, flour_rows, is_rye, is_yeast};
use crate::problems;
use crate::request::{ConversionRequest, RipeningTemperature, RipeningTime};
use crate::target::{ConversionTarget, RaisedBy, UsualFigures};
use crate::trial::Trial;
use crate::yeast::{Dose, YeastChoice};

/// A pre-ferment before anybody knows how much of it goes into a dough.
#[derive(Debug, Clone)]
pub(crate) struct NewPreFerment {
    /// The facts under its heading but `takes`.
    pub facts: Vec<String>,
    pub needs: Vec<IngredientNeed>,
    pub dose: Option<Dose>,
    /// The culture that it is seeded from.
    pub culture: Option<String>,
    /// The added water, where it takes any as such.
    pub water: Option<IngredientId>,
    pub remarks: Vec<String>,
    /// The figures that nobody asked for and that are as is usual.
    pub usual: Vec<String>,
}

/// What a pre-ferment is made for.
pub(crate) struct PreFermentPlan<'p> {
    pub request: &'p ConversionRequest,
    pub usual: &'p UsualFigures,
    /// The dough without its pre-ferment.
    pub without: &'p Balance,
    /// What the dough was called.
    pub name: &'p str,
    pub yeast: &'p YeastChoice<'p>,
    pub trial: &'p Trial,
}

impl PreFermentPlan<'_> {
    /// Makes the pre-ferment.
    ///
    /// # Errors
    /// What the dough or the book has not.
    pub fn build(&self) -> Result<NewPreFerment, Vec<Problem>> {
        let target = self.request.target;
        let mut build = match target.leaven() {
            Some(RaisedBy::OwnDough) => self.old_dough(),
            Some(RaisedBy::Culture) => self.seeded()?,
            Some(RaisedBy::Yeast) | None => self.yeasted()?,
        };
        let (time, warmth) = self.ripening();
        build.facts.push(ripens(&time, &warmth));
        if self.request.time.is_none() || self.request.warmth.is_none() {
            build.usual.push(ripens(&time, &warmth));
        }
        Ok(build)
    }

    fn ripening(&self) -> (RipeningTime, RipeningTemperature) {
        let time = self.request.time.clone();
        let warmth = self.request.warmth.clone();
        (
            time.unwrap_or_else(|| RipeningTime { figure: self.usual.hours.into(), unit: TimeUnit::Hour }),
            warmth.unwrap_or_else(|| RipeningTemperature {
                figure: self.usual.celsius.into(),
                unit: TemperatureUnit::Celsius,
            }),
        )
    }

    fn hydration(&self, usual: &mut Vec<String>) -> Exact {
        if let Some(share) = &self.request.hydration {
            return share.fraction().clone();
        }
        usual.push(format!("{} % hydration", self.usual.hydration));
        Share::from_percent(self.usual.hydration.into()).fraction().clone()
    }

    fn flours(&self, remarks: &mut Vec<String>) -> Result<Vec<Flour>, Vec<Problem>> {
        let (flours, is_rounded) = choose_flours(self.without, self.name, self.request, self.pantry())
            .map_err(|problem| vec![problem])?;
        if is_rounded {
            remarks.push("its flours are in the proportions of the dough, rounded to 0.1 %".to_owned());
        }
        Ok(flours)
    }

    /// The water that can be taken as such.
    fn water(&self) -> Result<&BalancedRow, Vec<Problem>> {
        let pantry = self.pantry();
        let rows = || self.without.overall.iter().filter(|row| row.share.fraction().is_positive());
        let known = |row: &BalancedRow| pantry.get(row.ingredient);
        let waters = rows().filter(|row| known(row).is_some_and(Ingredient::is_water));
        waters.max_by(|one, other| one.share.cmp(&other.share)).ok_or_else(|| {
            let half = Share::from_percent(Exact::from(50));
            let wet = rows().filter(|row| {
                known(row).is_some_and(|known| known.water > half) && !is_yeast(pantry, row.ingredient)
            });
            let wet: Vec<&str> = wet.map(|row| row.name.as_str()).collect();
            vec![problems::no_water(self.name, self.request.target.name(), &wet)]
        })
    }

    fn pantry(&self) -> &Pantry {
        self.trial.pantry()
    }

    /// A pre-ferment that is raised by yeast.
    fn yeasted(&self) -> Result<NewPreFerment, Vec<Problem>> {
        let (mut remarks, mut usual) = (Vec::new(), Vec::new());
        let flours = self.flours(&mut remarks)?;
        let water = self.water()?;
        let hydration = self.hydration(&mut usual);
        let (time, warmth) = self.ripening();
        let (time, warmth): (Duration, Temperature) = (time.duration(), warmth.temperature());
        let dose = self.yeast.dose(self.request, &time, &warmth).map_err(|problem| vec![problem])?;
        let mut facts: Vec<String> = flours.iter().map(Flour::line).collect();
        facts.push(format!("{} {}", water.name, percent(&hydration)));
        facts.push(format!("{} {}", self.yeast.name, percent(dose.share.fraction())));
        let mut needs: Vec<IngredientNeed> = flours.into_iter().map(Flour::need).collect();
        needs.push(IngredientNeed { id: water.ingredient, name: water.name.clone(), grams: hydration });
        Ok(NewPreFerment {
            facts,
            needs,
            dose: Some(dose),
            culture: None,
            water: Some(water.ingredient),
            remarks,
            usual,
        })
    }

    /// A piece of the dough's last batch.
    fn old_dough(&self) -> NewPreFerment {
        let rows = self.without.overall.iter().filter(|row| row.share.fraction().is_positive());
        let needs = rows.map(|row| IngredientNeed {
            id: row.ingredient,
            name: row.name.clone(),
            grams: row.share.fraction().clone(),
        });
        let facts = vec!["from this dough".to_owned()];
        NewPreFerment {
            facts,
            needs: needs.collect(),
            dose: None,
            culture: None,
            water: None,
            remarks: Vec::new(),
            usual: Vec::new(),
        }
    }
}

impl Flour {
    fn line(&self) -> String {
        format!("{} {}", self.name, percent(&self.share))
    }

    fn need(self) -> IngredientNeed {
        IngredientNeed { id: self.id, name: self.name, grams: self.share }
    }
}

/// `ripens 12 h at 21 °C`
fn ripens(time: &RipeningTime, warmth: &RipeningTemperature) -> String {
    let (figure, degrees) = (time.figure.to_decimal_string(), warmth.figure.to_decimal_string());
    format!("ripens {figure} {} at {degrees} {}", time.unit.symbol(), warmth.unit.symbol())
}

/// The usual share of the flour for a dough: of a rye sour, of its rye flour.
pub(crate) fn usual_share(
    target: ConversionTarget,
    usual: &UsualFigures,
    dough: &Balance,
    pantry: &Pantry,
) -> Exact {
    let middle = usual.middle();
    if target != ConversionTarget::RyeSour {
        return middle.fraction().clone();
    }
    let rye = flour_rows(dough).filter(|row| is_rye(pantry, row.ingredient));
    let rye: Exact = rye.map(|row| row.share.fraction()).sum();
    middle.fraction() * &rye
}
