//! What goes into a bowl, and how warm it is: the parts of a balance of heats.

use levamen_balance::{Balance, BalancedItem, BalancedLine, BalancedStage};
use levamen_ferment::{
    Constituents, FermentError, HeatPart, SpecificHeat, mixed_temperature, rise, water_by_heat,
};
use levamen_formula::{Ingredient, IngredientId, Pantry};
use levamen_quantity::{Exact, Mass, Share, Temperature, TemperatureDifference};

/// From so much of a dough on that is neither flour nor water, in percent, heats are the better founded way: the trade's rule
/// counts a spoon of cold old dough as much as all the flour. Our own choice; salt and yeast stay under it.
const HEATS_LEAD: i64 = 5;

/// How warm things are.
#[derive(Debug, Clone, Copy)]
pub struct Warmth<'t> {
    /// The flour.
    pub flour: &'t Temperature,
    /// The room, and with it salt, fat, eggs, seed, and stages that do not say how warm they stand.
    pub room: &'t Temperature,
    /// All that fermented ahead; `None` where each is as warm as it ripened.
    pub pre_ferment: Option<&'t Temperature>,
}

/// A bowl: the water, and what goes in beside it.
#[derive(Debug, Clone, Default)]
pub struct Bowl {
    /// Water that is weighed as such.
    pub water: Mass,
    /// All else.
    pub others: Vec<HeatPart>,
    /// What fermented ahead, each with how warm it is.
    pub fermented: Vec<(String, Temperature)>,
    /// What is neither flour nor water, as a share of all.
    pub beside: Share,
}

impl Bowl {
    /// The bowl of a stage of a balance, for so much flour of the whole dough.
    ///
    /// # Errors
    /// An internal one: an ingredient is not in the pantry.
    pub fn of(
        balance: &Balance,
        stage: &BalancedStage,
        flour: &Mass,
        pantry: &Pantry,
        warmth: Warmth<'_>,
    ) -> Result<Self, FermentError> {
        let mut bowl = Self::default();
        let (mut beside, mut all) = (Mass::ZERO, Mass::ZERO);
        for line in &stage.lines {
            let mass = line.share.of(flour);
            all = &all + &mass;
            if matches!(line.item, BalancedItem::Ingredient { is_water: true, .. }) {
                bowl.water = &bowl.water + &mass;
                continue;
            }
            if !matches!(line.item, BalancedItem::Ingredient { is_flour: true, .. }) {
                beside = &beside + &mass;
            }
            let (heat, at) = thermal(balance, line, pantry, warmth)?;
            if is_fermented(balance, line) {
                bowl.fermented.push((line.name.clone(), at.clone()));
            }
            bowl.others.push(HeatPart { mass, heat, at });
        }
        // There is nothing beside flour and water in a bowl of nothing.
        bowl.beside =
            beside.grams().checked_div(all.grams()).map_or_else(Share::default, Share::from_fraction);
        Ok(bowl)
    }

    /// Whether the balance of heats is better founded here than the trade's rule: something that the rule cannot weigh is a
    /// part that counts.
    #[must_use]
    pub fn heats_lead(&self) -> bool {
        !self.fermented.is_empty() || self.beside.percent() > Exact::from(HEATS_LEAD)
    }

    /// How warm the water has to be, by heats.
    ///
    /// # Errors
    /// There is no water.
    pub fn water(
        &self,
        wanted: &Temperature,
        rise: &TemperatureDifference,
    ) -> Result<Temperature, FermentError> {
        water_by_heat(wanted, &self.water, &self.others, rise)
    }

    /// How warm the dough gets with water of a temperature.
    #[must_use]
    pub fn dough(&self, water: Temperature, rise: &TemperatureDifference) -> Option<Temperature> {
        mixed_temperature(&self.with_water(water), rise)
    }

    /// How much mixing warmed a measured dough, its water being so warm.
    #[must_use]
    pub fn rise(&self, measured: &Temperature, water: Temperature) -> Option<TemperatureDifference> {
        rise(measured, &self.with_water(water))
    }

    fn with_water(&self, at: Temperature) -> Vec<HeatPart> {
        self.others.iter().cloned().chain([HeatPart::water(self.water.clone(), at)]).collect()
    }
}

/// The specific heat of a line, and how warm it is.
fn thermal(
    balance: &Balance,
    line: &BalancedLine,
    pantry: &Pantry,
    warmth: Warmth<'_>,
) -> Result<(SpecificHeat, Temperature), FermentError> {
    let heat = heat_of(balance, line, pantry, warmth.room)?;
    let room = warmth.room.clone();
    let at = match line.item {
        BalancedItem::Ingredient { is_flour: true, .. } => warmth.flour.clone(),
        BalancedItem::Ingredient { .. } => room,
        BalancedItem::Stage(index) => {
            let stage = balance.stages.get(index);
            let own = stage.and_then(|stage| stage.ripens.as_ref()?.temperature.clone());
            let at = if is_fermented(balance, line) {
                warmth.pre_ferment.cloned().or(own)
            } else {
                // A scald that was kept hot cools before it is mixed in; a soaker from the cold room comes in cold.
                own.filter(|own| *own < room)
            };
            at.unwrap_or(room)
        }
        BalancedItem::Seed(_) | BalancedItem::Piece => warmth.pre_ferment.cloned().unwrap_or(room),
    };
    Ok((heat, at))
}

/// The specific heat of a line: of a stage that of all that is weighed into it, salt, seeds and milk too.
fn heat_of(
    balance: &Balance,
    line: &BalancedLine,
    pantry: &Pantry,
    at: &Temperature,
) -> Result<SpecificHeat, FermentError> {
    match line.item {
        BalancedItem::Ingredient { is_flour: true, .. } => Ok(SpecificHeat::flour()),
        BalancedItem::Ingredient { is_water: true, .. } => Ok(SpecificHeat::water()),
        BalancedItem::Ingredient { id, .. } => of_ingredient(pantry, id, at),
        BalancedItem::Stage(index) => {
            // A stage takes stages that stand before it, so this ends.
            let lines = balance.stages.get(index).into_iter().flat_map(|stage| &stage.lines);
            of_parts(lines.map(|line| (&line.share, heat_of(balance, line, pantry, at))))
        }
        // A piece is of the dough itself, or of one like it. What a culture is made of is not told here: nearly flour and water.
        BalancedItem::Seed(_) | BalancedItem::Piece => of_parts(balance.overall.iter().map(|row| {
            let heat = if row.is_flour {
                Ok(SpecificHeat::flour())
            } else {
                of_ingredient(pantry, row.ingredient, at)
            };
            (&row.share, heat)
        })),
    }
}

fn of_parts<'s>(
    parts: impl Iterator<Item = (&'s Share, Result<SpecificHeat, FermentError>)>,
) -> Result<SpecificHeat, FermentError> {
    let parts = parts.map(|(share, heat)| Ok((share.clone(), heat?)));
    Ok(SpecificHeat::of_parts(parts.collect::<Result<Vec<_>, FermentError>>()?))
}

fn of_ingredient(pantry: &Pantry, id: IngredientId, at: &Temperature) -> Result<SpecificHeat, FermentError> {
    let made_of = |ingredient: &Ingredient| Constituents {
        water: ingredient.water.clone(),
        fat: ingredient.fat.clone(),
        ash: ingredient.salt.clone(),
        protein: Share::default(),
    };
    let made_of = pantry.get(id).map(made_of);
    Ok(made_of.ok_or_else(|| FermentError::internal("an ingredient is not in the pantry"))?.specific_heat(at))
}

fn is_fermented(balance: &Balance, line: &BalancedLine) -> bool {
    match line.item {
        BalancedItem::Seed(_) | BalancedItem::Piece => true,
        BalancedItem::Stage(index) => balance.stages.get(index).is_some_and(|stage| stage.kind.ferments()),
        BalancedItem::Ingredient { .. } => false,
    }
}
