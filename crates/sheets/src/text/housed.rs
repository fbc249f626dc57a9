//! The tubs for a dough's pre-ferments, as text.

use levamen_ferment::{Hazard, ROOM};
use levamen_quantity::{Exact, Mass, Volume};

use super::words::{trimmed, weight};
use crate::housed::{Housed, HousedStage};

/// The tubs for a dough's pre-ferments, a line each.
#[must_use]
pub fn housed(housed: &Housed) -> String {
    let (least, better) = ROOM;
    let mut lines = vec![format!(
        "{}: tubs of {least} to {better} times the fresh volume (common practice)",
        housed.dough
    )];
    lines.extend(housed.stages.iter().map(line));
    lines.push(String::new());
    lines.push(format!("Caution: {}", Hazard::CarbonDioxide.caution().words));
    lines.join("\n") + "\n"
}

fn line(stage: &HousedStage) -> String {
    let tubs = &stage.tubs;
    let count = if tubs.count == 1 { "a tub of".to_owned() } else { format!("{} tubs of", tubs.count) };
    let words = format!(
        "  {}: {} is {} l fresh: {count} {} l",
        stage.name,
        weight(&stage.made.round_to(&Mass::from_grams(Exact::ONE))),
        litres(&stage.volume),
        litres(&tubs.size)
    );
    if stage.is_snug() { words + ", rather snug: watch that it does not climb out" } else { words }
}

fn litres(volume: &Volume) -> String {
    trimmed(&(volume.millilitres() / &Exact::from(1000)), 2)
}
