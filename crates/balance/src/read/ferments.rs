//! Which stages ferment.

use levamen_formula::{Formula, Item, Stage, StageId};

/// By stage: whether flour in it ferments ahead of the final dough. The stage does, or one that it goes into.
pub(crate) fn ferments(formula: &Formula) -> Vec<bool> {
    let stages = &formula.stages;
    let mut ferments: Vec<bool> = stages.iter().map(|stage| stage.kind.ferments()).collect();
    for (index, stage) in stages.iter().enumerate().rev() {
        if ferments.get(index) == Some(&true) {
            for child in children(stage) {
                if let Some(slot) = ferments.get_mut(child.index()) {
                    *slot = true;
                }
            }
        }
    }
    ferments
}

/// The stages that a stage takes.
pub(crate) fn children(stage: &Stage) -> impl Iterator<Item = StageId> + '_ {
    stage.lines.iter().filter_map(|line| match line.item {
        Item::Stage(child) => Some(child),
        _ => None,
    })
}
