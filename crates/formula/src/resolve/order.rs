//! Which stage goes into which, and the order in which they are made.

use levamen_language::{Place, Problem};

use super::Resolver;
use crate::order::{Neighbour, strongly_connected};
use crate::stage::{FormulaLine, Item, LeftOver, Stage, StageId};

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
                let line = FormulaLine {
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
