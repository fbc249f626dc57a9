//! The pre-ferments that a dough has, and which of them is replaced.

use levamen_balance::Balance;
use levamen_formula::{Formula, Item, StageId, StageKind, key};
use levamen_language::{Kind, Problem};
use levamen_quantity::Exact;

use crate::figures::quotient;
use crate::problems;
use crate::trial::{Trial, TrialDough};

/// A pre-ferment that goes straight into the final dough.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PresentPreFerment {
    /// What the dough calls it.
    pub name: String,
    /// Its kind; `None` of a piece or a seed that is not built in a stage.
    pub kind: Option<Kind>,
    /// The stages that are gone with it: itself, and what goes into nothing else.
    pub stages: Vec<StageId>,
    /// The flour that the dough gets through it, of all flour.
    pub flour: Exact,
}

impl PresentPreFerment {
    /// Whether a culture raises it.
    pub fn is_soured(&self) -> bool {
        matches!(self.kind, Some(Kind::Levain | Kind::RyeSour))
    }

    /// Whether it is a piece of finished dough.
    pub fn is_old_dough(&self) -> bool {
        self.kind == Some(Kind::OldDough)
    }
}

/// Every pre-ferment of a dough.
///
/// # Errors
/// An internal one: a line of the dough is not in its balance.
pub(crate) fn all_present(dough: &TrialDough, trial: &Trial) -> Result<Vec<PresentPreFerment>, Problem> {
    let formula = &dough.formula;
    let Some(last) = formula.stages.last() else { return Ok(Vec::new()) };
    let found = last.lines.iter().filter_map(|line| match line.item {
        Item::Stage(id) => {
            let stage = formula.stage(id).filter(|stage| stage.kind.ferments())?;
            let own = key(&stage.name);
            let made = dough.balance.stages.iter().find(|made| key(&made.name) == own)?;
            let StageKind::Ahead(kind) = stage.kind else { return None };
            Some(Ok(PresentPreFerment {
                name: stage.name.to_string(),
                kind: Some(kind),
                stages: with_what_goes_into(formula, id),
                flour: made.prefermented_flour.fraction().clone(),
            }))
        }
        Item::Seed(source, _) | Item::Piece(source) => {
            let source = trial.balance(source).ok()?;
            Some(from_line(dough, &line.name, &source))
        }
        Item::OwnPiece => Some(from_line(dough, &line.name, &dough.balance)),
        Item::Ingredient(_) => None,
    });
    found.collect()
}

/// A seed or a piece that goes straight into the final dough.
fn from_line(dough: &TrialDough, name: &str, source: &Balance) -> Result<PresentPreFerment, Problem> {
    let lines = dough.balance.stages.last().map_or(&[][..], |last| &last.lines);
    let weight = lines.iter().find(|line| line.name == name).map(|line| line.share.fraction());
    let weight = weight.ok_or_else(|| problems::internal("a line of the dough that its balance has not"))?;
    let flour: Exact = source.overall.iter().filter(|row| row.is_flour).map(|row| row.share.fraction()).sum();
    let in_a_gram = quotient(&flour, source.weight.fraction());
    Ok(PresentPreFerment {
        name: name.to_owned(),
        kind: None,
        stages: Vec::new(),
        flour: weight * &in_a_gram,
    })
}

/// A stage with all stages that then go nowhere.
fn with_what_goes_into(formula: &Formula, stage: StageId) -> Vec<StageId> {
    let mut gone = vec![stage];
    // A stage stands after all that it takes in: from the last to the first, each is met after its takers.
    for (id, _) in formula.stages().collect::<Vec<_>>().into_iter().rev() {
        let takers: Vec<StageId> = formula
            .stages()
            .filter(|(_, taker)| taker.children().any(|child| child == id))
            .map(|(id, _)| id)
            .collect();
        if !takers.is_empty() && !gone.contains(&id) && takers.iter().all(|taker| gone.contains(taker)) {
            gone.push(id);
        }
    }
    gone
}

/// The pre-ferment that a wish means: the one of that name, or the only one; `None` of a straight dough.
///
/// # Errors
/// Where the dough has several and none is named, or none of that name.
pub(crate) fn choose_present(
    dough: &TrialDough,
    present: Vec<PresentPreFerment>,
    wanted: Option<&str>,
) -> Result<Option<PresentPreFerment>, Problem> {
    let Some(wanted) = wanted else {
        return match present.as_slice() {
            [] | [_] => Ok(present.into_iter().next()),
            several => Err(problems::which(&dough.balance.dough, &names(several))),
        };
    };
    let same = |name: &str| key(name) == key(wanted);
    if let Some(found) = present.iter().find(|known| same(&known.name)) {
        return Ok(Some(found.clone()));
    }
    let Some((id, stage)) = dough.formula.stages().find(|(_, stage)| same(&stage.name)) else {
        return Err(problems::no_such_stage(&dough.balance.dough, wanted, &names(&present)));
    };
    match present.iter().find(|known| known.stages.contains(&id)) {
        Some(whole) => Err(problems::part_of(wanted, &whole.name)),
        None => Err(problems::not_fermenting(&stage.name, stage.kind.name(), &names(&present))),
    }
}

fn names(present: &[PresentPreFerment]) -> Vec<&str> {
    present.iter().map(|known| known.name.as_str()).collect()
}
