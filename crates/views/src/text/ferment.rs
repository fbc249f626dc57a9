//! The water for a dough's temperature, and the tubs for its pre-ferments, as text.

use levamen::{StageTubs, TubPlan, WaterAnswer};
use levamen_ferment::{Answer, FermentError, Hazard};
use levamen_sheets::{IceAndTap, PouredWater};

use super::figures::{both_degrees, degrees, degrees_between, litres, percent, weight};

/// What to pour, by the trade's rule and by heats.
#[must_use]
pub fn water(answer: &WaterAnswer) -> String {
    let mut lines = vec![
        format!("{}, dough at {}", answer.dough, degrees(&answer.wanted)),
        format!("  {} of water into the final dough", weight(&answer.shown)),
        String::new(),
    ];
    let rise = degrees_between(&answer.rise);
    let heats = (format!("By heats, mixing warms it by {rise}"), &answer.by_heats);
    let rule = (format!("By the trade's rule, {} factors", factors(answer.factors)), &answer.by_rule);
    if answer.heats_lead {
        lines.extend(way(&heats.0, answer, heats.1));
        lines.extend(way(&format!("Beside it: {}", lower(&rule.0)), answer, rule.1));
        lines.push(format!(
            "  The rule counts whatever goes in as much as all the flour; {} of this dough is neither flour nor water, so heats are better founded.",
            percent(&answer.beside)
        ));
    } else {
        lines.extend(way(&rule.0, answer, rule.1));
        lines.extend(way(&heats.0, answer, heats.1));
    }
    if !answer.counted_with.is_empty() {
        lines.push(String::new());
        lines.extend(answer.counted_with.iter().map(|with| format!("Counted with: {with}.")));
    }
    lines.push(String::new());
    lines.extend(answer.hazards.iter().map(|hazard| format!("Caution: {}", hazard.caution().words)));
    lines.join("\n") + "\n"
}

fn lower(title: &str) -> String {
    title.replacen("By", "by", 1)
}

fn factors(count: u8) -> &'static str {
    if count == 4 { "four" } else { "three" }
}

fn way(title: &str, answer: &WaterAnswer, found: &Result<Answer<PouredWater>, FermentError>) -> Vec<String> {
    let mut lines = vec![title.to_owned()];
    match found {
        Ok(Answer { found: pour, remarks }) => {
            lines.push(format!("  water at {}", both_degrees(&pour.exact.at)));
            lines.extend(pour.iced.as_ref().map(|iced| split(answer, iced)));
            lines.extend(remarks.iter().map(|remark| format!("  look again: {}", remark.message)));
        }
        Err(refusal) => {
            lines.push(format!("  {}", refusal.message));
            lines.extend(refusal.notes.iter().map(|note| format!("  {note}")));
        }
    }
    lines
}

/// Ice to the gram, and the rest of the formula's water from the tap.
fn split(answer: &WaterAnswer, iced: &IceAndTap) -> String {
    let IceAndTap { ice, tap } = iced;
    let warmth = answer.tap.as_ref().map(|tap| format!(" at {}", degrees(tap))).unwrap_or_default();
    format!("  that is {} of ice and {} from the tap{warmth}", weight(ice), weight(tap))
}

/// The tubs for a dough's pre-ferments, a line each.
#[must_use]
pub fn tubs(plan: &TubPlan) -> String {
    let mut lines = vec![format!("{}: tubs for what stands in them when it is ripe", plan.dough)];
    lines.extend(plan.stages.iter().map(line));
    lines.push(String::new());
    lines.extend(sources(plan));
    lines.push(format!("Caution: {}", Hazard::CarbonDioxide.caution().words));
    lines.join("\n") + "\n"
}

/// Who says how far each kind rises, once for each.
fn sources(plan: &TubPlan) -> Vec<String> {
    let mut said: Vec<String> = Vec::new();
    for room in plan.stages.iter().map(|stage| stage.room) {
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
        weight(&stage.shown),
        litres(&stage.volume),
        stage.room.kind,
        stage.room.least,
        stage.room.better,
        litres(&tubs.size)
    );
    if stage.is_snug() { words + ", rather snug: watch that it does not climb out" } else { words }
}
