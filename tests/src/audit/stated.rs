//! What the text states, looked up in the balance.

use levamen_balance::{Balance, BalancedItem, BalancedStage};
use levamen_formula::{
    self as formula, Formula, IngredientId, LeftOver, Measure, ResolvedAmount, ResolvedBasis,
};
use levamen_quantity::Exact;

use super::{Faults, equal};

/// The equations of a formula that its balance does not fulfil.
#[must_use]
pub fn unfulfilled(formula: &Formula, balance: &Balance) -> Faults {
    let mut check = Check { balance, faults: Faults::new(), gram: None };
    if let Some(overall) = &formula.overall {
        for line in &overall.lines {
            if let (formula::Item::Ingredient(id), Some(amount)) = (line.item, &line.amount) {
                let row = check.row(id);
                check.amount(&line.name, &row, amount, None);
            }
        }
        check.hydration("the dough", Some(balance.hydration.fraction()), overall.hydration.as_ref());
    }
    for stage in &formula.stages {
        let mut found = balance.stages.iter().filter(|made| made.name == *stage.name);
        // A batch that is built for two others is listed with each.
        if let (Some(made), None) = (found.next(), found.next()) {
            check.stage(stage, made);
        }
    }
    check.faults
}

struct Check<'b> {
    balance: &'b Balance,
    faults: Faults,
    /// What a gram is in shares of the flour, as the first stated mass has it.
    gram: Option<Exact>,
}

impl Check<'_> {
    fn stage(&mut self, stage: &formula::Stage, made: &BalancedStage) {
        for (index, line) in stage.lines.iter().enumerate() {
            // A stage may take two portions of the same thing; they stand in the order of the text.
            let before = stage.lines.iter().take(index).filter(|other| other.name == line.name).count();
            let weighed = made.lines.iter().filter(|weighed| weighed.name == *line.name).nth(before);
            let weight = weighed.map(|line| line.share.fraction().clone()).unwrap_or_default();
            if let Some(amount) = &line.amount {
                self.amount(&format!("{}/{}", stage.name, line.name), &weight, amount, Some(made));
            }
        }
        if let (Some(takes), true, false) = (&stage.takes, stage.kind.ferments(), stage.separate) {
            let through = made.prefermented_flour.fraction().clone();
            self.amount(&format!("{}, takes", stage.name), &through, takes, None);
        }
        self.hydration(
            &stage.name,
            made.hydration.as_ref().map(levamen_quantity::Share::fraction),
            stage.hydration.as_ref(),
        );
        if let Some((share, _)) = &stage.steam {
            let waters = made.lines.iter().filter(|line| is_water(line.item));
            let water: Exact = waters.map(|line| line.share.fraction()).sum();
            let name = format!("{}, steam", stage.name);
            equal(&mut self.faults, &name, made.steam.fraction(), &(&water * share.fraction()));
        }
        if let Some(LeftOver::Share(share, _)) = &stage.left_over {
            let name = format!("{}, left over", stage.name);
            let part = made.made.fraction() * share.fraction();
            equal(&mut self.faults, &name, made.left_over.fraction(), &part);
        }
    }

    fn hydration(&mut self, name: &str, found: Option<&Exact>, stated: Option<&ResolvedAmount>) {
        if let (Some(found), Some(ResolvedAmount { measure: Measure::Share(share, _), .. })) = (found, stated)
        {
            equal(&mut self.faults, &format!("{name}, hydration"), found, share.fraction());
        }
    }

    /// A weight is the share that is stated, or weighs what is stated.
    fn amount(&mut self, name: &str, weight: &Exact, amount: &ResolvedAmount, stage: Option<&BalancedStage>) {
        match &amount.measure {
            Measure::Share(share, basis) => {
                let basis = self.basis(*basis, stage);
                equal(&mut self.faults, name, weight, &(share.fraction() * &basis));
            }
            Measure::Mass(mass) => {
                let Some(gram) = weight.checked_div(mass.grams()) else { return };
                let first = self.gram.get_or_insert_with(|| gram.clone()).clone();
                equal(&mut self.faults, &format!("{name}, by its weight"), &gram, &first);
            }
            Measure::Rest => {}
        }
    }

    fn basis(&self, basis: ResolvedBasis, stage: Option<&BalancedStage>) -> Exact {
        let cell = |id: IngredientId, stage: &BalancedStage| {
            let lines = stage.lines.iter();
            let own = lines
                .filter(|line| matches!(line.item, BalancedItem::Ingredient { id: own, .. } if own == id));
            own.map(|line| line.share.fraction()).sum::<Exact>()
        };
        match (basis, stage) {
            (ResolvedBasis::Dough, _) => self.balance.weight.fraction().clone(),
            (ResolvedBasis::Row(id), _) => self.row(id),
            (ResolvedBasis::OwnFlour, Some(stage)) => stage.own_flour.fraction().clone(),
            (ResolvedBasis::OwnCell(id), Some(stage)) => cell(id, stage),
            (ResolvedBasis::Flour | ResolvedBasis::OwnFlour | ResolvedBasis::OwnCell(_), _) => Exact::ONE,
        }
    }

    fn row(&self, id: IngredientId) -> Exact {
        let row = self.balance.overall.iter().find(|row| row.ingredient == id);
        row.map(|row| row.share.fraction().clone()).unwrap_or_default()
    }
}

fn is_water(item: BalancedItem) -> bool {
    matches!(item, BalancedItem::Ingredient { is_water: true, .. })
}
