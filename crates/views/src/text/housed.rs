//! The tubs for a dough's pre-ferments, as text.

use levamen_ferment::Hazard;
use levamen_quantity::{Exact, Mass, Volume};

use super::words::weight;
use levamen::{StageTubs, TubPlan};

/// The tubs for a dough's pre-ferments, a line each.
#[must_use]
pub fn housed(housed: &TubPlan) -> String {
    let mut lines = vec![format!("{}: tubs for what stands in them when it is ripe", housed.dough)];
    lines.extend(housed.stages.iter().map(line));
    lines.push(String::new());
    lines.extend(sources(housed));
    lines.push(format!("Caution: {}", Hazard::CarbonDioxide.caution().words));
    lines.join("\n") + "\n"
}

/// Who says how far each kind rises, once for each.
fn sources(housed: &TubPlan) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    for room in housed.stages.iter().map(|stage| stage.room) {
        let line = format!("How far a {} one rises: {}.", room.kind, room.source);
        if !said.contains(&line) {
            said.push(line);
        }
    }
    said
}

fn line(stage: &StageTubs) -> String {
    let tubs = &stage.tubs;
    let count = if tubs.count == 1 { "a tub of".to_owned() } else { format!("{} tubs of", tubs.count) };
    let words = format!(
        "  {}: {} is {} l fresh, {}, and rises to {} to {} times that: {count} {} l",
        stage.name,
        weight(&stage.made.round_to(&Mass::from_grams(Exact::ONE))),
        litres(&stage.volume),
        stage.room.kind,
        stage.room.least,
        stage.room.better,
        litres(&tubs.size)
    );
    if stage.is_snug() { words + ", rather snug: watch that it does not climb out" } else { words }
}

fn litres(volume: &Volume) -> String {
    (volume.millilitres() / &Exact::from(1000)).to_trimmed(2)
}
