//! How a culture of the book is kept, and what it is fed.

use levamen_bakery::{Bakery, Keeping as KeepingCard};
use levamen_balance::{BalancedLine, BalancedStage};
use levamen_culture::{CultureKeeping, Declared, Interval, USUAL_OLD_PARTS};
use levamen_ferment::{Leaven, RipeningReference, Seed};
use levamen_formula::{FormulaId, Ripening};
use levamen_language::Problem;
use levamen_quantity::{Duration, Exact, Share, Temperature, TemperatureUnit, TimeUnit};
use levamen_sheets::FeedPart;

use crate::error::{Error, QuestionError};
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
    let (Some(entry), Some(fed)) = (workspace.book().entry(culture), balance.stages.last()) else {
        return Err(Error::internal("a culture that balances, and is not in the book or has no stage"));
    };
    let place = entry.place;
    let parts = parts(fed)?;
    let ripens =
        entry.formula.as_ref().and_then(|formula| formula.stages.last()?.ripens.as_ref()).ok_or_else(
            || {
                workspace.fail(vec![
                    Problem::error("never-ripe", format!("`{name}` does not say how long it ripens"))
                        .at(place, "from feeding to ripe?")
                        .help("write under it, as it is at your bakery: `ripens 8 to 10 h at 24 °C`"),
                ])
            },
        )?;
    let (mut declared, mut notes) = declared(ripens, bakery.keeping(culture));
    if let Some(at) = kept_at {
        let warmed = warmed(&name, fed, &declared.usually, ripens, at)?;
        declared.ripens = warmed.ripens;
        notes.extend(warmed.notes);
    }
    let keeping = CultureKeeping::new(declared)
        .map_err(|wrong| workspace.fail(vec![wrong.problem(&name).at(place, "is kept so")]))?;
    Ok(FedCulture { name, keeping, parts, warm: ripens.temperature.clone(), notes })
}

/// What a culture is fed, each as its share of all that is weighed together.
fn parts(fed: &BalancedStage) -> Result<Vec<FeedPart>, Error> {
    let whole = fed.made.fraction() + fed.steam.fraction();
    let part = |line: &BalancedLine| {
        let share = line.share.fraction().checked_div(&whole);
        let share = share.ok_or_else(|| Error::internal("a culture that weighs nothing"))?;
        Ok(FeedPart { name: line.name.clone(), share: Share::from_fraction(share) })
    };
    fed.lines.iter().map(part).collect()
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

/// The time to ripeness at a temperature, and what to say of it.
#[derive(Debug)]
struct Warmed {
    /// From the time after which it is ripe to that until which it stays so.
    pub ripens: Interval<Duration>,
    /// Where the time comes from, and what to look at again.
    pub notes: Vec<String>,
}

/// Finds the time by the bakery's own reference, which is for the usual share of old culture.
///
/// # Errors
/// The book does not say how warm its reference is, or the growth model tells nothing of one of the temperatures.
fn warmed(
    name: &str,
    fed: &BalancedStage,
    usually: &Share,
    ripens: &Ripening,
    at: &Temperature,
) -> Result<Warmed, Error> {
    let Some(known) = &ripens.temperature else {
        return Err(QuestionError::NoCultureTemperature { culture: name.to_owned() }.into());
    };
    let leaven = leaven(fed, usually);
    let reference = RipeningReference::new(leaven.clone(), &ripens.least, ripens.most.as_ref(), known)?;
    let found = reference.time(&leaven, at)?;
    let least = whole_minutes(&found.value);
    let most =
        reference.good_until(&found.value).map_or_else(|| least.clone(), |until| whole_minutes(&until));
    let hours = |time: &Duration| time.in_unit(TimeUnit::Hour).to_fixed(1);
    let range = if least == most { hours(&least) } else { format!("{} to {}", hours(&least), hours(&most)) };
    let degrees = |at: &Temperature| at.in_unit(TemperatureUnit::Celsius).to_fixed(1);
    let mut notes = vec![format!(
        "At {} °C it ripens {range} h, by the pace of its {} and from what the book says of {} °C.",
        degrees(at),
        found.by,
        degrees(known)
    )];
    notes.extend(found.remarks.iter().map(|remark| format!("Look again: {}.", remark.message)));
    Ok(Warmed { ripens: Interval::new(least, most), notes })
}

/// The old culture of a usual feeding, as seed beside its flour and water.
fn leaven(fed: &BalancedStage, usually: &Share) -> Leaven {
    let beside = fed.made.fraction().checked_div(fed.own_flour.fraction()).unwrap_or(Exact::ONE);
    let old = usually.fraction().checked_div(usually.rest().fraction()).unwrap_or_default();
    Leaven::Seed(Seed {
        of_flour: Share::from_fraction(&old * &beside),
        beside: Share::from_fraction(beside),
        sour: false,
    })
}

/// A plan goes by whole minutes.
fn whole_minutes(time: &Duration) -> Duration {
    Duration::from_unit(&time.in_unit(TimeUnit::Minute).round_to(&Exact::ONE), TimeUnit::Minute)
}
