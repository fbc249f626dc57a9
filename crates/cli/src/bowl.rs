//! What goes into the bowl of the final dough, as parts of a balance of heats.

use levamen_balance::{Balance, Batch, Item, Line};
use levamen_ferment::{Constituents, Part, SpecificHeat};
use levamen_formula::{Ingredient, IngredientId, Pantry};
use levamen_quantity::{Mass, Share, Temperature};

/// The bowl: the water, and what goes in beside it.
#[derive(Debug)]
pub struct Bowl {
    /// Water that is weighed as such.
    pub water: Mass,
    /// All else.
    pub others: Vec<Part>,
    /// Whether something that fermented ahead is among it.
    pub has_pre_ferment: bool,
}

/// How warm things are.
#[derive(Debug)]
pub struct Warmth<'t> {
    /// The flour.
    pub flour: &'t Temperature,
    /// The room, and with it salt, fat, eggs, soakers.
    pub room: &'t Temperature,
    /// What fermented ahead.
    pub pre_ferment: &'t Temperature,
}

impl Bowl {
    /// The bowl of the final dough of a batch.
    pub fn of(batch: &Batch<'_>, pantry: &Pantry, warmth: &Warmth<'_>) -> Self {
        let balance = batch.balance();
        let mut bowl = Self { water: Mass::ZERO, others: Vec::new(), has_pre_ferment: false };
        for line in balance.stages.last().map_or(&[][..], |stage| &stage.lines) {
            let mass = batch.mass(&line.share);
            if matches!(line.item, Item::Ingredient { is_water: true, .. }) {
                bowl.water = &bowl.water + &mass;
                continue;
            }
            bowl.has_pre_ferment |= is_fermented(balance, line);
            let (heat, at) = thermal(balance, line, pantry, warmth);
            bowl.others.push(Part { mass, heat, at: at.clone() });
        }
        bowl
    }
}

/// The specific heat of a line, and how warm it is.
fn thermal<'t>(
    balance: &Balance,
    line: &Line,
    pantry: &Pantry,
    warmth: &Warmth<'t>,
) -> (SpecificHeat, &'t Temperature) {
    let ahead = if is_fermented(balance, line) { warmth.pre_ferment } else { warmth.room };
    match line.item {
        Item::Ingredient { is_flour: true, .. } => (SpecificHeat::flour(), warmth.flour),
        Item::Ingredient { id, .. } => (of_ingredient(pantry, id, warmth.room), warmth.room),
        Item::Stage(index) => {
            let hydration = balance.stages.get(index).and_then(|stage| stage.hydration.as_ref());
            (hydration.map_or_else(SpecificHeat::water, SpecificHeat::of_hydration), ahead)
        }
        // What a seed or a piece is made of is not told here: near enough to the dough itself.
        Item::Seed(_) | Item::Piece => (SpecificHeat::of_hydration(&balance.hydration), ahead),
    }
}

fn of_ingredient(pantry: &Pantry, id: IngredientId, at: &Temperature) -> SpecificHeat {
    let made_of = |ingredient: &Ingredient| Constituents {
        water: ingredient.water.clone(),
        fat: ingredient.fat.clone(),
        ash: ingredient.salt.clone(),
        protein: Share::default(),
    };
    pantry.get(id).map(made_of).unwrap_or_default().specific_heat(at)
}

fn is_fermented(balance: &Balance, line: &Line) -> bool {
    match line.item {
        Item::Seed(_) | Item::Piece => true,
        Item::Stage(index) => balance.stages.get(index).is_some_and(|stage| stage.kind.ferments()),
        Item::Ingredient { .. } => false,
    }
}
