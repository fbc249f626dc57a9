//! How finely each weight of a sheet is known.

use levamen_balance::BalancedItem;
use levamen_quantity::Mass;

use super::{LineSheet, LineSource, StageSheet};

/// Marks each line and each tub with the finest division that it was weighed with: what stands in a tub is known as well
/// as the finest of what went into it, and so is what is taken of it.
pub fn mark(stages: &mut [StageSheet]) {
    let mut of_tubs: Vec<Mass> = Vec::new();
    for stage in stages {
        for line in &mut stage.lines {
            line.division = known_to(&of_tubs, line).cloned();
        }
        stage.division = stage.lines.iter().filter_map(|line| line.division.clone()).min();
        of_tubs.push(stage.division.clone().unwrap_or_default());
    }
}

fn known_to<'l>(of_tubs: &'l [Mass], line: &'l LineSheet) -> Option<&'l Mass> {
    match (&line.source, line.item) {
        (LineSource::Weighed(on), _) => Some(&on.scale.division),
        (_, BalancedItem::Stage(tub)) => of_tubs.get(tub),
        _ => None,
    }
}
