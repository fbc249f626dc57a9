//! Which stage goes into which, and the order in which they are made.

use levamen_language::{Place, Problem};

use super::Resolver;
use crate::formula::{Item, LeftOver, Line, Stage, StageId};

impl Resolver<'_, '_> {
    /// Links every stage to where it goes, marks those that are built apart, and returns the order in which the
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
            // A stage goes where it is named; one that is nowhere named goes whole into what it stands in.
            let (Some(child), Some(count)) = (stages.get(id.index()), named.get_mut(id.index())) else {
                continue;
            };
            if !listed && (*count == 0 || written.inside.is_some()) {
                let line = Line {
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
            stage.apart = beyond || *count > 1;
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
/// that feed each other, each with the line that takes it in.
fn making_order(stages: &[Stage]) -> Result<Vec<usize>, Vec<(&Stage, Place)>> {
    #[derive(Clone, Copy, PartialEq)]
    enum Mark {
        New,
        Open,
        Done,
    }
    let mut marks = vec![Mark::New; stages.len()];
    let mut order = Vec::with_capacity(stages.len());
    for start in 0..stages.len() {
        // A walk in depth with its own stack: a long chain of stages must not use up the program's.
        let mut path: Vec<(usize, Vec<(usize, Place)>)> = Vec::new();
        let mut enter = Some(start);
        loop {
            if let Some(next) = enter.take()
                && let (Some(mark), Some(stage)) = (marks.get_mut(next), stages.get(next))
                && *mark == Mark::New
            {
                *mark = Mark::Open;
                let mut children: Vec<_> = taken_in(stage).collect();
                children.reverse();
                path.push((next, children));
            }
            let Some((current, children)) = path.last_mut() else { break };
            let Some((child, place)) = children.pop() else {
                if let Some(mark) = marks.get_mut(*current) {
                    *mark = Mark::Done;
                }
                order.push(*current);
                path.pop();
                continue;
            };
            if marks.get(child) == Some(&Mark::Open) {
                let from = path.iter().position(|(on_path, _)| *on_path == child).unwrap_or(0);
                let circle = path.iter().skip(from).filter_map(|(on_path, _)| stages.get(*on_path));
                return Err(circle.map(|stage| (stage, place)).collect());
            }
            enter = Some(child);
        }
    }
    // The final dough is made last, whatever the text's order.
    let last = stages.len().saturating_sub(1);
    order.retain(|stage| *stage != last);
    order.push(last);
    Ok(order)
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
                *id = new_id.get(id.index()).copied().unwrap_or_default();
            }
        }
        arranged.push(stage);
    }
    arranged
}
