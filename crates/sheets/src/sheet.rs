//! The bench sheet: every weight of a batch as its scale can show it.
//!
//! This is the one place where figures are rounded, and they are rounded once. What is weighed goes through
//! controlled rounding; what is not weighed follows from it by adding up. `docs/rounding.md` says what holds.

mod cells;
mod dilution;
mod enough;
mod precision;
pub(crate) mod scales;
mod stages;
mod totals;

use levamen_balance::{BalancedItem, Batch, Ripening};
use levamen_formula::{FormulaId, Scale, StageKind};
use levamen_language::Hint;
use levamen_quantity::{Mass, Share};

use crate::cautions::{DoughCaution, cautions};
use crate::pieces::{BatchPieces, loss};
use crate::rounding_error::RoundingError;
use crate::weight::Weight;

pub use dilution::{Dilution, SmallWeightRemedy};
pub use scales::OnScale;
pub(crate) use scales::that_weigh;

/// What to weigh for a batch. A [`Weight`] is a whole number of some scale's divisions, or a sum of such; a [`Mass`] is
/// exact.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The dough's name.
    pub dough: String,
    /// The whole flour, unrounded: what percentages are percentages of.
    pub flour: Mass,
    /// The weight of the dough.
    pub batch: Weight,
    /// The finest division that anything in it was weighed with; `None` where nothing was.
    pub division: Option<Mass>,
    /// The stages in the order in which they are made; the final dough is the last.
    pub stages: Vec<StageSheet>,
    /// What is weighed in all stages together, ingredient by ingredient; seeds and pieces of dough as such.
    pub overall: Vec<SheetRow>,
    /// The pieces that the dough is divided into, where the dough says what a piece weighs.
    pub pieces: Option<BatchPieces>,
    /// The share of the dough lost in mixing and dividing.
    pub loss: Share,
    /// What of the dough is kept for its own next batch before it is divided: as much as it took of its last; nothing
    /// where it took none.
    pub kept_back: Weight,
    /// What is left to divide, once that is kept and the loss is gone: a share of a weight, which nobody weighs, and so
    /// exact. `None` on a day's sheet, where each product has a loss of its own.
    pub to_divide: Option<Mass>,
    /// How much of that the pieces lack; nothing where they come out.
    pub short: Mass,
    /// How to have both the pieces and what is kept, where they lack what is kept.
    pub enough_for_both: Option<Hint>,
    /// The largest change that rounding made to what is weighed; `None` where it changed nothing.
    pub largest_change: Option<RoundingChange>,
    /// What the baker noted for the whole dough.
    pub notes: Vec<String>,
    /// What can hurt or make ill, by stage.
    pub cautions: Vec<DoughCaution>,
}

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

impl Sheet {
    /// Rounds a batch to a bakery's scales; with none that can weigh, to [`Scale::usual`].
    ///
    /// # Errors
    /// [`RoundingError::TooManyDigits`], where a weight has more digits than a scale can show.
    pub fn new(batch: &Batch<'_>, scales: &[Scale]) -> Result<Self, RoundingError> {
        let balance = batch.balance();
        let scales = that_weigh(scales);
        let weighed = cells::weigh(batch, &scales)?;
        let mut stages = enough::fill(batch, weighed, &scales)?;
        precision::mark(&mut stages);
        for stage in &mut stages {
            dilution::offer(stage, &scales)?;
        }
        let (mixed, kept_back) = (enough::mixed_weight(&stages)?, enough::kept_back(&stages)?);
        let (pieces, loss) = (BatchPieces::of(batch)?, loss(batch));
        let to_divide = loss.rest().of(&mixed.try_sub(kept_back)?.as_exact());
        let short = pieces.as_ref().map_or(Mass::ZERO, |pieces| pieces.short(&to_divide));
        Ok(Self {
            dough: balance.dough.clone(),
            flour: batch.flour().clone(),
            batch: mixed,
            division: self::mixed(&stages).filter_map(|stage| stage.division.clone()).min(),
            overall: totals::fetch(&stages)?,
            enough_for_both: BatchPieces::enough_for_both(&short, &kept_back.as_exact()),
            short,
            pieces,
            loss,
            kept_back,
            to_divide: Some(to_divide),
            largest_change: totals::largest_change(&stages, batch.flour()),
            notes: balance.notes.clone(),
            cautions: cautions(balance),
            stages,
        })
    }

    /// The sheet of a dough of which so much is kept for the next day, whatever it takes itself. How many pieces that
    /// leaves is the day's to say.
    #[must_use]
    pub(crate) fn keeping(self, kept_back: Weight) -> Self {
        Self { kept_back, to_divide: None, ..self }
    }
}

impl LineSheet {
    /// Whether it is a piece of the dough's own last batch.
    #[must_use]
    pub fn is_of_last_batch(&self) -> bool {
        self.item == BalancedItem::Piece && self.from.is_none()
    }
}
