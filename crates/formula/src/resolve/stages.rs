//! The sections of a formula: `overall`, the stages and the final dough.

use levamen_language::{AmountKind, Line as Written, Problem, Span, Statement};
use levamen_quantity::Share;
use rustc_hash::FxHashSet;

use super::amounts::Within;
use super::{Resolver, shared};
use crate::formula::Overall;
use crate::ingredient::IngredientId;
use crate::stage::{FormulaLine, LeftOver, Measure, ResolvedAmount, Ripening, Stage, StageKind};

impl<'t> Resolver<'_, 't> {
    /// The `overall` section.
    pub(super) fn overall(&mut self) -> Option<Overall> {
        let draft = self.draft;
        let section = draft.overall.as_ref()?;
        let mut overall = Overall { place: self.place(section.span), ..Overall::default() };
        for line in &section.lines {
            match &line.statement {
                Statement::Weigh(weigh) => {
                    overall.lines.extend(self.weigh(Within::Overall, weigh));
                }
                Statement::Hydration(amount) => overall.hydration = self.hydration(amount),
                _ => {}
            }
        }
        let water =
            overall.hydration.is_some().then(|| self.water_line(&overall.lines, section.span)).flatten();
        overall.lines.extend(water);
        Some(overall)
    }

    /// Every stage, the final dough last, as the text has them.
    pub(super) fn stages(&mut self) -> Vec<Stage> {
        let draft = self.draft;
        let mut stages = Vec::with_capacity(draft.stages.len() + 1);
        for stage in &draft.stages {
            let heading = stage.heading;
            let mut read = Stage::empty(
                shared(heading.name.text),
                self.place(heading.name.span),
                StageKind::Ahead(heading.kind),
            );
            self.fill_stage(&mut read, &stage.lines, heading.name.span);
            stages.push(read);
        }
        let (span, lines) = match &draft.final_dough {
            Some(section) => (section.span, section.lines.as_slice()),
            None => (draft.name.span, &[][..]),
        };
        let mut last = Stage::empty(shared("final dough"), self.place(span), StageKind::FinalDough);
        self.fill_stage(&mut last, lines, span);
        stages.push(last);
        stages
    }

    /// Reads the facts of one stage.
    fn fill_stage(&mut self, stage: &mut Stage, lines: &[&Written<'t>], heading: Span) {
        let within = Within::Stage(stage.kind);
        for line in lines {
            match &line.statement {
                Statement::Weigh(weigh) => stage.lines.extend(self.weigh(within, weigh)),
                Statement::From(from) => stage.lines.extend(self.from(within, from, line.span)),
                Statement::Takes(amount) => stage.takes = self.whole_dough_amount(amount),
                Statement::Weighs(amount) => stage.weighs = self.whole_dough_amount(amount),
                Statement::Hydration(amount) => stage.hydration = self.hydration(amount),
                Statement::LeftOver(amount) => stage.left_over = self.left_over(amount),
                Statement::Loses(amount) => {
                    stage.steam = percent(amount).map(|share| (share, self.place(amount.span)));
                }
                Statement::Ripens(ripens) => {
                    stage.ripens = Some(Ripening {
                        least: ripens.least.clone(),
                        most: ripens.most.as_ref().map(|(most, _)| most.clone()),
                        temperature: ripens.temperature.as_ref().map(|(degrees, ..)| degrees.clone()),
                    });
                }
                Statement::Note(words) => stage.notes.push(shared(words.text)),
                _ => {}
            }
        }
        let water = stage.hydration.is_some().then(|| self.water_line(&stage.lines, heading)).flatten();
        stage.lines.extend(water);
        stage.split_ingredients = split_ingredients(&stage.lines);
    }

    /// A hydration as a share of flour.
    fn hydration(&self, amount: &levamen_language::Amount<'t>) -> Option<ResolvedAmount> {
        let share = percent(amount)?;
        let measure = Measure::Share(share, crate::stage::ResolvedBasis::Flour);
        Some(ResolvedAmount { measure, place: self.place(amount.span) })
    }

    fn left_over(&mut self, amount: &levamen_language::Amount<'t>) -> Option<LeftOver> {
        let place = self.place(amount.span);
        match &amount.kind {
            AmountKind::Percent { percent, .. } => {
                Some(LeftOver::Share(Share::from_percent(percent.clone()), place))
            }
            AmountKind::Mass(quantity) => Some(LeftOver::Mass(quantity.mass.clone(), place)),
            AmountKind::Rest => Some(LeftOver::Rest(place)),
            AmountKind::Volume { .. } => {
                self.report(
                    Problem::error("volume-of-dough", "what is left over is weighed, not measured by volume")
                        .at(place, "a volume")
                        .help("write a mass or a percentage"),
                );
                None
            }
        }
    }
}

/// The share that a percentage states.
fn percent(amount: &levamen_language::Amount<'_>) -> Option<Share> {
    match &amount.kind {
        AmountKind::Percent { percent, .. } => Some(Share::from_percent(percent.clone())),
        _ => None,
    }
}

/// The ingredients with more than one line.
fn split_ingredients(lines: &[FormulaLine]) -> Vec<IngredientId> {
    let (mut seen, mut again) = (FxHashSet::default(), FxHashSet::default());
    let ingredients = lines.iter().filter_map(|line| line.item.ingredient());
    ingredients.filter(|id| !seen.insert(*id) && again.insert(*id)).collect()
}
