//! The printed figures, looked up in a balance.

use levamen_balance::{Balance, BalancedStage};
use levamen_quantity::{Exact, MassUnit, Share};

/// A balance, asked for figures by their paths.
pub(super) struct Figures<'b> {
    pub balance: &'b Balance,
    pub unit: MassUnit,
}

impl Figures<'_> {
    /// The figure of a path, such as `overall/water` or `stage_pct/levain/water`: weights in the unit of the
    /// example, percentages as such. `None` where no figure has that path.
    pub fn get(&self, path: &str) -> Option<Exact> {
        let keys: Vec<&str> = path.split('/').collect();
        let balance = self.balance;
        match keys.as_slice() {
            ["overall", name] => Some(self.weight(&self.row(name)?)),
            ["overall_pct", name] => Some(self.row(name)?.percent()),
            ["total"] => Some(self.weight(&balance.weight)),
            ["total_pct"] => Some(balance.weight.percent()),
            ["prefermented_flour_pct"] => Some(balance.prefermented_flour.percent()),
            ["hydration_pct"] => Some(balance.hydration.percent()),
            ["stage_total", stage] => Some(self.weight(&self.stage(stage)?.made)),
            ["stage_pct", stage, name] => of_own_flour(self.stage(stage)?, &self.line(stage, name)?),
            ["stage_total_pct", stage] => of_own_flour(self.stage(stage)?, &whole(self.stage(stage)?)),
            ["taken", stage, name] => self.taken(stage, name),
            ["made"] => Some(self.weight(&balance.stages.first()?.made)),
            ["taken_weight"] => Some(self.weight(&balance.stages.first()?.taken)),
            ["kept"] => Some(self.weight(&balance.stages.first()?.given_back)),
            _ => None,
        }
    }

    /// What a line of a stage weighs, in the unit of the example; nothing where it has no such line.
    pub fn cell(&self, stage: &str, name: &str) -> Exact {
        self.line(stage, name).map(|share| self.weight(&share)).unwrap_or_default()
    }

    fn weight(&self, share: &Share) -> Exact {
        self.balance.batch().mass(share).in_unit(self.unit)
    }

    fn row(&self, name: &str) -> Option<Share> {
        self.balance.overall.iter().find(|row| row.name == name).map(|row| row.share.clone())
    }

    fn stage(&self, name: &str) -> Option<&BalancedStage> {
        self.balance.stages.iter().find(|stage| stage.name == name)
    }

    fn line(&self, stage: &str, name: &str) -> Option<Share> {
        let lines = self.stage(stage)?.lines.iter();
        lines.filter(|line| line.name == name).map(|line| line.share.clone()).next()
    }

    /// What the only stage ahead brings into the final dough of an ingredient: what is not weighed there.
    fn taken(&self, stage: &str, name: &str) -> Option<Exact> {
        let [ahead, last] = self.balance.stages.as_slice() else { return None };
        let weighed = self.line(&last.name, name).unwrap_or_default();
        let brought = self.row(name)?.fraction() - weighed.fraction();
        (ahead.name == stage).then(|| self.weight(&Share::from_fraction(brought)))
    }
}

/// All that is weighed into a stage.
fn whole(stage: &BalancedStage) -> Share {
    Share::from_fraction(stage.lines.iter().map(|line| line.share.fraction()).sum())
}

fn of_own_flour(stage: &BalancedStage, share: &Share) -> Option<Exact> {
    let share = share.fraction().checked_div(stage.own_flour.fraction())?;
    Some(&share * &Exact::HUNDRED)
}
