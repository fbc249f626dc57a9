//! The sections of a formula: `overall`, the stages and the final dough; which stage goes into which, and the order in
//! which they are made.

use levamen_language::{AmountKind, Line as Written, Place, Problem, Span, Statement};
use levamen_quantity::Share;
use rustc_hash::FxHashSet;

use super::amounts::Within;
use super::{Resolver, shared};
use crate::formula::Overall;
use crate::ingredient::IngredientId;
use crate::order::{Neighbour, strongly_connected};
use crate::stage::{
    Item, LeftOver, Measure, ResolvedAmount, Ripening, Stage, StageId, StageKind, WeighedLine,
};

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
fn split_ingredients(lines: &[WeighedLine]) -> Vec<IngredientId> {
    let (mut seen, mut again) = (FxHashSet::default(), FxHashSet::default());
    let ingredients = lines.iter().filter_map(|line| line.item.ingredient());
    ingredients.filter(|id| !seen.insert(*id) && again.insert(*id)).collect()
}

impl Resolver<'_, '_> {
    /// Links every stage to where it goes, marks those that are separate batches, and returns the order in which the
    /// stages are made. Reports a stage that feeds itself.
    pub(super) fn link(&mut self, stages: &mut [Stage]) -> Option<Vec<usize>> {
        let draft = self.draft;
        let last = self.final_id();
        let mut named = vec![0_usize; stages.len()];
        for line in stages.iter().flat_map(|stage| &stage.lines) {
            if let Item::Stage(id) = line.item
                && let Some(count) = named.get_mut(id.index())
            {
                *count += 1;
            }
        }
        for (id, written) in (0..).map(StageId).zip(&draft.stages) {
            let parent = written.inside.map_or(last.index(), |inside| inside);
            let listed =
                stages.get(parent).is_some_and(|stage| stage.lines.iter().any(|l| l.item == Item::Stage(id)));
            // A stage goes where it is named; one that is nowhere named goes whole into what it is in.
            let (Some(child), Some(count)) = (stages.get(id.index()), named.get_mut(id.index())) else {
                continue;
            };
            if !listed && (*count == 0 || written.inside.is_some()) {
                let line = WeighedLine {
                    name: child.name.clone(),
                    item: Item::Stage(id),
                    amount: None,
                    when: None,
                    place: child.place,
                };
                *count += 1;
                stages.get_mut(parent)?.lines.push(line);
            }
        }
        for (stage, count) in stages.iter_mut().zip(&named) {
            let beyond = matches!(stage.left_over, Some(LeftOver::Mass(..) | LeftOver::Rest(_)));
            stage.separate = beyond || *count > 1;
        }
        match making_order(stages) {
            Ok(order) => Some(order),
            Err(circle) => {
                self.report(feeds_itself(&circle));
                None
            }
        }
    }
}

/// The stages that one takes in.
fn taken_in(stage: &Stage) -> impl Iterator<Item = (usize, Place)> + '_ {
    stage.lines.iter().filter_map(|line| match line.item {
        Item::Stage(id) => Some((id.index(), line.place)),
        _ => None,
    })
}

/// The order in which the stages can be made, the text's own order where it can be kept; or a circle of stages
/// that feed each other, each with the line that closes it.
fn making_order(stages: &[Stage]) -> Result<Vec<usize>, Vec<(&Stage, Place)>> {
    let children: Vec<Vec<(usize, Place)>> = stages.iter().map(|stage| taken_in(stage).collect()).collect();
    let neighbour = |node: usize, nth: usize| {
        let child = children.get(node).and_then(|own| own.get(nth));
        child.map_or(Neighbour::End, |(child, _)| Neighbour::Node(*child))
    };
    let mut order = Vec::with_capacity(stages.len());
    for component in strongly_connected(stages.len(), 0..stages.len(), neighbour) {
        if let Some((circle, place)) = circle_in(&component, &children) {
            let circle = circle.into_iter().filter_map(|stage| stages.get(stage));
            return Err(circle.map(|stage| (stage, place)).collect());
        }
        order.extend(component);
    }
    // The final dough is made last, whatever the text's order.
    let last = stages.len().saturating_sub(1);
    order.retain(|stage| *stage != last);
    order.push(last);
    Ok(order)
}

/// A circle of stages in a component, and where the line is that closes it; `None` of a stage that does not take in
/// itself.
fn circle_in(component: &[usize], children: &[Vec<(usize, Place)>]) -> Option<(Vec<usize>, Place)> {
    let mut path: Vec<usize> = Vec::new();
    let mut current = *component.first()?;
    loop {
        path.push(current);
        // In a component of several stages each takes in one of the others, so that the walk meets itself.
        let own = children.get(current)?;
        let (child, place) = own.iter().find(|(child, _)| component.contains(child))?;
        if let Some(from) = path.iter().position(|stage| stage == child) {
            return Some((path.split_off(from), *place));
        }
        current = *child;
    }
}

fn feeds_itself(circle: &[(&Stage, Place)]) -> Problem {
    let names: Vec<String> = circle.iter().map(|(stage, _)| format!("`{}`", stage.name)).collect();
    let (first, place) = match circle {
        [(stage, place), ..] => (stage.name.as_ref(), *place),
        [] => ("stage", Place::default()),
    };
    let message = if names.len() == 1 {
        format!("the stage `{first}` takes in itself")
    } else {
        format!("the stages {} take in each other", names.join(", "))
    };
    let mut problem = Problem::error("feeds-itself", message)
        .at(place, "this closes the circle")
        .help("take out one of these lines")
        .help(format!(
            "seed of the last batch of `{first}` comes from a culture: write `from` and the culture's name"
        ));
    for (stage, _) in circle {
        problem = problem.and_at(stage.place, "one of the circle");
    }
    problem
}

/// Puts the stages in the order in which they are made, and gives them the ids of that order.
pub(super) fn rearrange(stages: Vec<Stage>, order: &[usize]) -> Vec<Stage> {
    let mut new_id = vec![StageId(0); stages.len()];
    for (id, old) in (0..).map(StageId).zip(order) {
        if let Some(slot) = new_id.get_mut(*old) {
            *slot = id;
        }
    }
    let mut stages: Vec<Option<Stage>> = stages.into_iter().map(Some).collect();
    let mut arranged = Vec::with_capacity(stages.len());
    for old in order {
        let Some(mut stage) = stages.get_mut(*old).and_then(Option::take) else { continue };
        for line in &mut stage.lines {
            if let Item::Stage(id) = &mut line.item {
                let new = new_id.get(id.index());
                debug_assert!(new.is_some(), "a line takes in a stage of its own formula");
                *id = new.copied().unwrap_or_default();
            }
        }
        arranged.push(stage);
    }
    arranged
}
