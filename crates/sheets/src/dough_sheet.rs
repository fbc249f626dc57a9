//! The sheet of one dough of a day, made large enough for what others take of it, and what it is weighed for.

use levamen_balance::BalancedItem;
use levamen_formula::{FormulaId, Scale};
use levamen_plan::{DayDough, Need, is_old_dough};
use levamen_quantity::{Exact, Mass};

use crate::rounding::{RoundingCell, controlled};
use crate::rounding_error::RoundingError;
use crate::scales::{self, that_weigh};
use crate::sheet::{Sheet, mixed};
use crate::weight::Weight;

/// How often a dough is made a little larger, where rounding left less of it than is taken.
const TRIES: usize = 16;

/// What is weighed for one dough of a day.
#[derive(Debug, Clone, PartialEq)]
pub struct DoughSheet {
    /// Which dough.
    pub dough: FormulaId,
    /// Its stages, and a final dough for each batch.
    pub sheet: Sheet,
    /// In how many batches it is mixed.
    pub batches: u64,
    /// What other doughs take of it, as they weigh it.
    pub taken: Weight,
    /// What is weighed of it, in whole grams.
    pub made: Weight,
    /// What it is weighed for.
    pub goes_into: GoesInto,
}

/// What the doughs so far take of a dough, as they weigh it, old dough of yesterday left out.
pub fn taken_of(doughs: &[DoughSheet], source: FormulaId) -> Result<Weight, RoundingError> {
    let stages = doughs.iter().flat_map(|dough| &dough.sheet.stages);
    let today = stages.filter(|stage| !is_old_dough(stage.kind));
    let lines = today
        .flat_map(|stage| &stage.lines)
        .filter(|line| line.item == BalancedItem::Piece && line.from == Some(source));
    Weight::try_sum(lines.map(|line| line.weight))
}

/// The sheet of a dough that gives at least what is taken of it.
pub fn dough_sheet(dough: &DayDough, taken: Weight, scales: &[Scale]) -> Result<DoughSheet, RoundingError> {
    let exact: Exact = dough.need.taken.iter().map(|taken| taken.mass.grams()).sum();
    let mut target = &(dough.mass().grams() - &exact) + taken.as_exact().grams();
    let sheet = |target: &Exact| {
        let flour = target.checked_div(dough.balance.weight.fraction());
        let flour = flour.ok_or_else(|| RoundingError::internal("a dough without a weight"))?;
        Sheet::new(&dough.balance.with_flour(Mass::from_grams(flour)), scales)
    };
    let mut made = sheet(&target)?;
    for _ in 0..TRIES {
        if made.batch >= taken {
            break;
        }
        target += &(taken.try_sub(made.batch)?.as_exact().grams() + &Exact::ONE);
        made = sheet(&target)?;
    }
    let own = dough.balance.of_last_batch().of(&made.flour);
    let kept = if dough.need.kept == own {
        made.kept_back
    } else {
        scales::not_under(&that_weigh(scales), &dough.need.kept)?
    };
    let sheet = made.keeping(kept);
    let listed = mixed(&sheet.stages).map(|_| 1).sum();
    let made = Weight::in_grams(&sheet.batch.as_exact())?;
    let goes_into = GoesInto::new(&dough.need, made, kept)?;
    let batches = if dough.batches.are_listed() { listed } else { dough.batches.count };
    Ok(DoughSheet { dough: dough.need.dough, sheet, batches, taken, made, goes_into })
}

/// The dough that goes into each product, then into each dough that takes of it, then what is kept: in whole grams that add
/// up, with what is lost, to what is weighed, so that one kilogram is the same wherever it is shown.
#[derive(Debug, Clone, PartialEq)]
pub struct GoesInto {
    /// For each of its products.
    pub pieces: Vec<Weight>,
    /// For each dough that takes of it.
    pub taken: Vec<Weight>,
    /// What is kept as old dough.
    pub kept: Weight,
}

impl GoesInto {
    /// Shares out what is made. What is kept back is weighed, as the sheet says; the others share what is left.
    fn new(need: &Need, made: Weight, kept_back: Weight) -> Result<Self, RoundingError> {
        let gram = Mass::from_grams(Exact::ONE);
        let kept =
            if need.kept == Mass::ZERO { Weight::ZERO } else { Weight::in_grams(&kept_back.as_exact())? };
        let pieces = need.pieces.iter().map(|pieces| pieces.dough.grams());
        let taken = need.taken.iter().map(|taken| taken.mass.grams());
        let all: Vec<&Exact> = pieces.chain(taken).chain([need.lost.grams()]).collect();
        let (left, asked) = (made.try_sub(kept)?.as_exact(), need.mass().grams() - need.kept.grams());
        let scaled = |exact: &&Exact| match (*exact * left.grams()).checked_div(&asked) {
            Some(value) => value,
            // Nothing is asked for, so each of them is nothing.
            None => Exact::ZERO,
        };
        let cells: Vec<RoundingCell> =
            all.iter().map(|exact| RoundingCell { row: 0, column: 0, value: scaled(exact) }).collect();
        let rounded = controlled(&cells)?
            .iter()
            .map(|grams| Weight::of_divisions(grams, &gram))
            .collect::<Result<Vec<_>, _>>()?;
        let mut rounded = rounded.into_iter();
        let pieces = rounded.by_ref().take(need.pieces.len()).collect();
        let taken = rounded.by_ref().take(need.taken.len()).collect();
        Ok(Self { pieces, taken, kept })
    }
}

#[cfg(test)]
mod tests {
    use levamen_bakery::ProductId;
    use levamen_plan::{Pieces, Taken};

    use super::*;

    fn grams(figure: i64) -> Mass {
        Mass::from_grams(Exact::from(figure))
    }

    fn shown(grams: i64) -> Weight {
        Weight::from_grams(grams.into())
    }

    /// A dough of which products and doughs take so much.
    fn need(pieces: &[i64], taken: &[i64], kept: i64, lost: i64) -> Need {
        let pieces = pieces.iter().map(|mass| Pieces {
            product: ProductId::new(0),
            ordered: 1,
            made: 1,
            dough: grams(*mass),
        });
        let taken = taken.iter().map(|mass| Taken {
            by: FormulaId(1),
            stage: "final dough".to_owned(),
            is_base: true,
            mass: grams(*mass),
        });
        Need {
            dough: FormulaId(0),
            pieces: pieces.collect(),
            taken: taken.collect(),
            kept: grams(kept),
            lost: grams(lost),
        }
    }

    /// 1003 g are made for three products of equal dough: 334 g, 334 g and 335 g in some order, and no gram is lost.
    #[test]
    fn what_is_made_is_shared_out_to_the_gram() {
        let goes = GoesInto::new(&need(&[100, 100, 100], &[], 0, 0), shown(1003), Weight::ZERO).unwrap();
        assert_eq!(Weight::try_sum(goes.pieces.iter().copied()).unwrap(), shown(1003));
        assert!(goes.pieces.iter().all(|mass| [shown(334), shown(335)].contains(mass)), "{goes:?}");
    }

    /// 1000 g less 100 g that are kept: of 900 g, 400 parts go into the product, 200 into the other dough, 300 are lost.
    #[test]
    fn what_is_kept_is_weighed_and_the_others_share_the_rest() {
        let goes = GoesInto::new(&need(&[400], &[200], 100, 300), shown(1000), shown(100)).unwrap();
        assert_eq!((goes.pieces, goes.taken, goes.kept), (vec![shown(400)], vec![shown(200)], shown(100)));
    }

    #[test]
    fn of_a_dough_that_nobody_asks_for_nothing_goes_anywhere() {
        let goes = GoesInto::new(&need(&[0], &[], 0, 0), shown(0), Weight::ZERO).unwrap();
        assert_eq!((goes.pieces, goes.kept), (vec![Weight::ZERO], Weight::ZERO));
    }
}
