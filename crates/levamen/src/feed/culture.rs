//! How a culture of the book is kept, and what it is fed.

use levamen_bakery::{Bakery, Keeping as KeepingCard};
use levamen_culture::{CultureKeeping, Declared, Interval, USUAL_OLD_PARTS};
use levamen_formula::{FormulaId, Ripening};
use levamen_language::Problem;
use levamen_quantity::{Share, Temperature};
use levamen_sheets::FeedPart;

use super::warmth::warmed;
use crate::error::Error;
use crate::workspace::Workspace;

/// A culture, ready to be planned for.
pub struct FedCulture {
    /// Its name.
    pub name: String,
    /// How it is kept.
    pub keeping: CultureKeeping,
    /// What it is fed.
    pub parts: Vec<FeedPart>,
    /// How warm it ripens, where the book says it.
    pub warm: Option<Temperature>,
    /// Figures that the book does not say.
    pub notes: Vec<String>,
}

/// Reads a culture; `kept_at` is how warm it is kept, where that is not as the book says.
///
/// # Errors
/// It does not balance, does not say how long it ripens, or cannot be kept as it is declared.
pub fn read(
    workspace: &Workspace,
    bakery: &Bakery,
    culture: FormulaId,
    kept_at: Option<&Temperature>,
) -> Result<FedCulture, Error> {
    let balance = workspace.balance(culture)?;
    let name = balance.dough.clone();
    let place = workspace.book().entry(culture).map(|entry| entry.place).unwrap_or_default();
    let fed = balance.stages.last();
    let parts = fed.into_iter().flat_map(|stage| {
        let whole = stage.made.fraction() + stage.steam.fraction();
        stage.lines.iter().map(move |line| FeedPart {
            name: line.name.clone(),
            share: Share::from_fraction(line.share.fraction().checked_div(&whole).unwrap_or_default()),
        })
    });
    let formula = workspace.book().entry(culture).and_then(|entry| entry.formula.as_ref());
    let ripens = formula.and_then(|formula| formula.stages.last()?.ripens.as_ref()).ok_or_else(|| {
        workspace.fail(vec![
            Problem::error("never-ripe", format!("`{name}` does not say how long it ripens"))
                .at(place, "from feeding to ripe?")
                .help("write under it, as it is at your bakery: `ripens 8 to 10 h at 24 °C`"),
        ])
    })?;
    let (mut declared, mut notes) = declared(ripens, bakery.keeping(culture));
    if let (Some(at), Some(fed)) = (kept_at, balance.stages.last()) {
        let warmed = warmed(&name, fed, &declared.usually, ripens, at)?;
        declared.ripens = warmed.ripens;
        notes.extend(warmed.notes);
    }
    let keeping = CultureKeeping::new(declared)
        .map_err(|wrong| workspace.fail(vec![wrong.problem(&name).at(place, "is kept so")]))?;
    let parts = parts.collect();
    Ok(FedCulture { name, keeping, parts, warm: ripens.temperature.clone(), notes })
}

/// What the book says, and the usual figures for what it does not say, with a note of them.
fn declared(ripens: &Ripening, said: Option<&KeepingCard>) -> (Declared, Vec<String>) {
    let ripens = Interval::new(ripens.least.clone(), ripens.most.clone().unwrap_or(ripens.least.clone()));
    let mut declared = Declared::usual(ripens);
    let mut usual = Vec::new();
    match said.and_then(|said| said.keeps.clone()) {
        Some((least, most)) => {
            // Where the usual share is not said it is the nearest to 40 % that is allowed.
            declared.usually = declared.usually.max(least.clone()).min(most.clone());
            declared.keeps = Interval::new(least, most);
        }
        None => usual.push("keeps 20 to 50 % old"),
    }
    match said.and_then(|said| said.usually.clone()) {
        Some(share) => declared.usually = share,
        None => usual.push("usually 40 % old"),
    }
    match said.and_then(|said| said.fed_every.clone()) {
        Some((least, most)) => declared.fed_every = Interval::new(least, most),
        None => usual.push("fed every 12 to 24 h"),
    }
    match said.and_then(|said| said.least.clone()) {
        Some(least) => declared.hold_least = least,
        None => usual.push("hold at least 200 g"),
    }
    declared.hold_most = said.and_then(|said| said.most.clone());
    declared.stored = said.and_then(|said| said.stored.as_ref().map(|(time, _)| time.clone()));
    let mut notes = Vec::new();
    if !usual.is_empty() {
        notes.push(
            "The book does not say all of how it is kept. Taken as usual (common practice, no source):"
                .to_owned(),
        );
        notes.push(format!("  {}.", usual.join("; ")));
    }
    notes.extend(declared.beside_usual().map(|called| {
        format!(
            "Its usual share of old culture is {called}: {USUAL_OLD_PARTS} parts old to {} parts new is common (no source).",
            100 - USUAL_OLD_PARTS
        )
    }));
    (declared, notes)
}
