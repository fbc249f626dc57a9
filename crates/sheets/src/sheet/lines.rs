//! The lines and stages of a bench sheet: how finely each weight is known, what is weighed in all, and what rounding changed most.

use levamen_balance::{BalancedItem, Ripening};
use levamen_formula::{FormulaId, StageKind};
use levamen_quantity::{Mass, Share};

use crate::rounding_error::RoundingError;
use crate::scales::OnScale;
use crate::weight::Weight;

/// What to weigh into one stage, and what becomes of it.
///
/// `lines` add up to `made + steam`, and `made` is `taken + given_back + left_over`.
#[derive(Debug, Clone, PartialEq)]
pub struct StageSheet {
    /// What the dough calls it.
    pub name: String,
    /// What it is.
    pub kind: StageKind,
    /// What goes into the tub, in the order of the text.
    pub lines: Vec<LineSheet>,
    /// What goes off as steam.
    pub steam: Weight,
    /// What stands in the tub when it is made.
    pub made: Weight,
    /// What is kept for the next seed before mixing.
    pub given_back: Weight,
    /// What other stages take; of the final dough, all that is not kept.
    pub taken: Weight,
    /// What is made and not taken.
    pub left_over: Weight,
    /// The finest division that anything in its tub was weighed with; `None` where nothing was.
    pub division: Option<Mass>,
    /// How long it ripens.
    pub ripens: Option<Ripening>,
    /// What the baker noted.
    pub notes: Vec<String>,
}

/// One line of a stage.
#[derive(Debug, Clone, PartialEq)]
pub struct LineSheet {
    /// Its name as the dough writes it.
    pub name: String,
    /// What it is.
    pub item: BalancedItem,
    /// The culture or the other dough that it is of.
    pub from: Option<FormulaId>,
    /// When it goes in, in the baker's words; `None` where nothing says so.
    pub when: Option<String>,
    /// What to weigh.
    pub weight: Weight,
    /// The division that it was weighed with, or that what stands in the tub is known to; `None` where neither is.
    pub division: Option<Mass>,
    /// What it would be without rounding.
    pub exact: Mass,
    /// The exact weight on the stage's own flour; `None` without flour.
    pub of_own_flour: Option<Share>,
    /// The exact weight on the whole flour.
    pub of_all_flour: Share,
    /// How it comes into the tub.
    pub source: LineSource,
    /// What to do about a weight that is small for its scale; `None` where it is not.
    pub remedy: Option<SmallWeightRemedy>,
}

/// How a line comes into the tub.
#[derive(Debug, Clone, PartialEq)]
pub enum LineSource {
    /// It is weighed.
    Weighed(OnScale),
    /// Another stage's tub is emptied into this one, but for what is kept.
    WholeTub,
    /// What others have left of another stage's tub goes into this one.
    RestOfTub,
}

/// What is weighed of one thing in all stages together.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetRow {
    /// Its name.
    pub name: String,
    /// What it is.
    pub item: BalancedItem,
    /// The sum of what is weighed.
    pub weight: Weight,
    /// The finest division that any of it was weighed with; `None` where none was.
    pub division: Option<Mass>,
    /// The sum without rounding.
    pub exact: Mass,
}

/// What rounding did to one line.
#[derive(Debug, Clone, PartialEq)]
pub struct RoundingChange {
    /// The stage.
    pub stage: String,
    /// The line.
    pub line: String,
    /// What rounding added; below zero where it took away.
    pub by: Mass,
    /// The size of the change on the whole flour, never below zero.
    pub of_all_flour: Share,
}

/// What is mixed last: the final dough, or each of its batches.
pub fn mixed(stages: &[StageSheet]) -> impl Iterator<Item = &StageSheet> {
    stages.iter().filter(|stage| stage.kind == StageKind::FinalDough)
}

impl LineSheet {
    /// Whether it is a piece of the dough's own last batch.
    #[must_use]
    pub fn is_of_last_batch(&self) -> bool {
        self.item == BalancedItem::Piece && self.from.is_none()
    }
}

/// What to do about a weight under twenty divisions of its scale.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SmallWeightRemedy {
    /// Stir it into some of the stage's water.
    Dilute(Dilution),
    /// A dilution would bring more water than the stage still has.
    TooLittleWater {
        /// What it would bring, exact.
        wanted: Mass,
        /// What there is.
        there: Weight,
    },
    /// Weigh it with care: flour, water, a piece of dough or a part of a tub is not diluted, nor what even one part
    /// in a hundred would not show.
    Care,
}

/// One part of something stirred into water, to be weighed in its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dilution {
    /// One part in so many of the mixture, 10 or 100.
    pub one_part_in: u32,
    /// How much of it to weigh for making up the mixture.
    pub make_up: Weight,
    /// How much water to stir that into.
    pub make_up_water: Weight,
    /// How much of the mixture to weigh into the stage.
    pub weigh: Weight,
    /// How much less of the stage's water to weigh.
    pub water_less: Weight,
    /// Whether even so it is under twenty divisions.
    pub still_small: bool,
}

/// Marks each line and each tub with the finest division that it was weighed with: what stands in a tub is known as well
/// as the finest of what went into it, and so is what is taken of it.
pub(super) fn mark_divisions(stages: &mut [StageSheet]) {
    let mut of_tubs: Vec<Option<Mass>> = Vec::new();
    for stage in stages {
        for line in &mut stage.lines {
            line.division = known_to(&of_tubs, line).cloned();
        }
        stage.division = stage.lines.iter().filter_map(|line| line.division.clone()).min();
        of_tubs.push(stage.division.clone());
    }
}

fn known_to<'l>(of_tubs: &'l [Option<Mass>], line: &'l LineSheet) -> Option<&'l Mass> {
    match (&line.source, line.item) {
        (LineSource::Weighed(on), _) => Some(&on.scale.division),
        (_, BalancedItem::Stage(tub)) => of_tubs.get(tub)?.as_ref(),
        _ => None,
    }
}

/// What is weighed of each thing in all stages together, in the order in which it first comes up.
pub(super) fn in_all(stages: &[StageSheet]) -> Result<Vec<SheetRow>, RoundingError> {
    let mut all: Vec<SheetRow> = Vec::new();
    for line in stages.iter().flat_map(|stage| &stage.lines) {
        if matches!(line.item, BalancedItem::Stage(_)) {
            continue;
        }
        match all.iter_mut().find(|fetch| is_same(fetch, line)) {
            Some(fetch) => {
                fetch.weight = fetch.weight.try_add(line.weight)?;
                fetch.exact = &fetch.exact + &line.exact;
                fetch.division = fetch.division.iter().chain(&line.division).min().cloned();
            }
            None => all.push(SheetRow {
                name: line.name.clone(),
                item: line.item,
                weight: line.weight,
                division: line.division.clone(),
                exact: line.exact.clone(),
            }),
        }
    }
    Ok(all)
}

/// An ingredient is the same under any spelling; a seed or a piece of dough is what it is called.
fn is_same(fetch: &SheetRow, line: &LineSheet) -> bool {
    match (fetch.item, line.item) {
        (BalancedItem::Ingredient { id: known, .. }, BalancedItem::Ingredient { id, .. }) => known == id,
        (BalancedItem::Seed(_), BalancedItem::Seed(_)) | (BalancedItem::Piece, BalancedItem::Piece) => {
            fetch.name == line.name
        }
        _ => false,
    }
}

/// The weighed line that rounding changed most; the first of equals.
pub(super) fn largest_change(stages: &[StageSheet], flour: &Mass) -> Option<RoundingChange> {
    let mut largest: Option<RoundingChange> = None;
    for stage in stages {
        for line in stage.lines.iter().filter(|line| matches!(line.source, LineSource::Weighed(_))) {
            let by = &line.weight.as_exact() - &line.exact;
            // Of a batch without flour nothing is weighed, and nothing changes.
            let Some(of_all_flour) = Mass::from_grams(by.grams().abs()).share_of(flour) else { continue };
            let least = largest.as_ref().map(|change| change.of_all_flour.clone()).unwrap_or_default();
            if of_all_flour > least {
                largest = Some(RoundingChange {
                    stage: stage.name.clone(),
                    line: line.name.clone(),
                    by,
                    of_all_flour,
                });
            }
        }
    }
    largest
}
