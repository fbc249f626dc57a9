//! Which doughs a day needs, and how much of each.
//!
//! Doughs are worked out from those that take to those that are taken, so that each is known whole before what it
//! takes from others is.

use std::collections::BTreeMap;
use std::sync::Arc;

use levamen_bakery::Bakery;
use levamen_balance::{Balance, BalanceSource, BalancedItem, StatedSize};
use levamen_formula::{FormulaId, StageKind};
use levamen_language::Kind;
use levamen_quantity::{Exact, Mass, Share};

use crate::orders::DayOrders;
use crate::pieces::Pieces;
use crate::trouble::Trouble;

/// How much of one dough a day needs, and what for.
#[derive(Debug, Clone, PartialEq)]
pub struct Need {
    /// Which dough.
    pub dough: FormulaId,
    /// Its products, those without an order left out.
    pub pieces: Vec<Pieces>,
    /// What other doughs of the day take of it.
    pub taken: Vec<Taken>,
    /// What is kept of it as old dough, for itself and for others tomorrow.
    pub kept: Mass,
    /// What is lost of it where others take it: the loss of its own `make` line.
    pub lost: Mass,
}

/// What one dough takes of another.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    /// The dough that takes.
    pub by: FormulaId,
    /// The name of the stage that it goes into.
    pub stage: String,
    /// Whether it goes straight into the final dough: a base, mixed on the same day just before.
    pub is_base: bool,
    /// How much.
    pub mass: Mass,
}

impl Need {
    fn new(dough: FormulaId) -> Self {
        Self { dough, pieces: Vec::new(), taken: Vec::new(), kept: Mass::ZERO, lost: Mass::ZERO }
    }

    /// The dough to mix.
    #[must_use]
    pub fn mass(&self) -> Mass {
        let products = self.pieces.iter().map(|pieces| pieces.dough.grams());
        let taken = self.taken.iter().map(|taken| taken.mass.grams());
        let rest = [self.kept.grams(), self.lost.grams()];
        Mass::from_grams(products.chain(taken).chain(rest).sum::<Exact>())
    }
}

/// The doughs of a day with their balances, each after all that it takes from.
pub(crate) struct Needs {
    pub(crate) of: Vec<(Need, Arc<Balance>)>,
}

/// How much old dough of each dough a day keeps for the next.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Kept<'k> {
    /// So much, as the next day's doughs will take it.
    Known(&'k BTreeMap<FormulaId, Mass>),
    /// As much as the day's own doughs take: nobody knows the next day's orders.
    AsTaken,
}

/// Works out the doughs of a day.
pub(crate) fn needs(
    balances: &dyn BalanceSource,
    bakery: &Bakery,
    orders: &DayOrders,
    kept: Kept<'_>,
) -> Result<Needs, Trouble> {
    let empty = BTreeMap::new();
    match kept {
        Kept::Known(kept) => worked_out(balances, bakery, orders, kept, false),
        Kept::AsTaken => {
            let first = worked_out(balances, bakery, orders, &empty, true)?;
            let mut others = old_dough(&first.of, true);
            others.retain(|_, mass| *mass > Mass::ZERO);
            if others.is_empty() {
                return Ok(first);
            }
            worked_out(balances, bakery, orders, &others, true)
        }
    }
}

/// Works out the doughs of a day that keeps so much of each; and where `keeps_its_own`, of each dough for itself as
/// much as it takes.
fn worked_out(
    balances: &dyn BalanceSource,
    bakery: &Bakery,
    orders: &DayOrders,
    kept: &BTreeMap<FormulaId, Mass>,
    keeps_its_own: bool,
) -> Result<Needs, Trouble> {
    let mut work = NeedsBuilder { source: balances, needs: BTreeMap::new(), balances: BTreeMap::new() };
    for (id, ordered) in orders.iter() {
        if let Some(product) = bakery.product(id) {
            work.need(product.dough).pieces.push(Pieces::of(id, product, ordered));
        }
    }
    for (dough, mass) in kept {
        work.need(*dough).kept = mass.clone();
    }
    let roots: Vec<FormulaId> = work.needs.keys().copied().collect();
    let order = work.order(&roots)?;
    for dough in &order {
        work.pass_on(*dough, keeps_its_own);
    }
    let mut of: Vec<(Need, Arc<Balance>)> = Vec::new();
    for dough in order.iter().rev() {
        if let (Some(need), Some(balance)) = (work.needs.remove(dough), work.balances.remove(dough)) {
            of.push((need, balance));
        }
    }
    Ok(Needs { of })
}

struct NeedsBuilder<'b> {
    source: &'b dyn BalanceSource,
    needs: BTreeMap<FormulaId, Need>,
    balances: BTreeMap<FormulaId, Arc<Balance>>,
}

/// One line of a dough that takes from another.
struct Taking {
    source: Option<FormulaId>,
    stage: String,
    is_base: bool,
    is_old: bool,
    /// In grams for each gram of the taking dough's flour.
    share: Exact,
}

impl NeedsBuilder<'_> {
    fn need(&mut self, dough: FormulaId) -> &mut Need {
        self.needs.entry(dough).or_insert_with(|| Need::new(dough))
    }

    fn balance(&mut self, dough: FormulaId) -> Result<Arc<Balance>, Trouble> {
        let balance = self.source.balance(dough).map_err(|problems| Trouble::Unsound { dough, problems })?;
        self.balances.insert(dough, Arc::clone(&balance));
        Ok(balance)
    }

    /// The doughs that are needed, each after all that take from it on the same day: a depth-first walk, turned
    /// round.
    fn order(&mut self, roots: &[FormulaId]) -> Result<Vec<FormulaId>, Trouble> {
        let mut done: Vec<FormulaId> = Vec::new();
        for root in roots {
            // The doughs on the way down, each with what is still to be looked at below it.
            let mut path: Vec<(FormulaId, Vec<FormulaId>)> = Vec::new();
            let mut next = Some(*root);
            while let Some(dough) = next.take() {
                if let Some(start) = path.iter().position(|(on, _)| *on == dough) {
                    return Err(Trouble::Circle(path.iter().skip(start).map(|(on, _)| *on).collect()));
                }
                if !done.contains(&dough) {
                    let balance = self.balance(dough)?;
                    let below = takings(&balance).filter(|taking| !taking.is_old);
                    let below = below.filter_map(|taking| taking.source).collect();
                    path.push((dough, below));
                }
                while let Some((dough, below)) = path.last_mut() {
                    next = below.pop();
                    if next.is_some() {
                        break;
                    }
                    done.push(*dough);
                    path.pop();
                }
            }
        }
        done.reverse();
        Ok(done)
    }

    /// Adds what a dough takes to the needs of those that it takes from.
    fn pass_on(&mut self, dough: FormulaId, keeps_its_own: bool) {
        let Some(balance) = self.balances.get(&dough) else { return };
        let takings: Vec<Taking> = takings(balance).collect();
        let (weight, loss) = (balance.weight.fraction().clone(), loss(balance));
        let need = self.need(dough);
        let taken: Exact = need.taken.iter().map(|taken| taken.mass.grams()).sum();
        let with_loss = taken.checked_div(loss.rest().fraction()).unwrap_or_else(|| taken.clone());
        need.lost = Mass::from_grams(&with_loss - &taken);
        let own = takings.iter().filter(|taking| taking.source.is_none());
        let own = own.map(|taking| &taking.share).sum::<Exact>().checked_div(&weight).unwrap_or_default();
        if keeps_its_own && own.is_positive() {
            // What is kept is a part of what is made: made = sold + own × made.
            let sold = need.mass();
            let made =
                sold.grams().checked_div(&(&Exact::ONE - &own)).unwrap_or_else(|| sold.grams().clone());
            need.kept = Mass::from_grams(need.kept.grams() + &(&made - sold.grams()));
        }
        let flour = need.mass().grams().checked_div(&weight).unwrap_or_default();
        for taking in takings.into_iter().filter(|taking| !taking.is_old) {
            let Some(source) = taking.source else { continue };
            let mass = Mass::from_grams(&taking.share * &flour);
            let taken = Taken { by: dough, stage: taking.stage, is_base: taking.is_base, mass };
            self.need(source).taken.push(taken);
        }
    }
}

/// What a dough's `make` line says is lost of it.
fn loss(balance: &Balance) -> Share {
    match &balance.size {
        StatedSize::Make { loss, .. } => loss.clone(),
        StatedSize::Open | StatedSize::Weights { .. } => Share::default(),
    }
}

/// The lines of a dough that take a piece of a dough: old dough of yesterday, or a piece of what is made for the day.
fn takings(balance: &Balance) -> impl Iterator<Item = Taking> + '_ {
    balance.stages.iter().flat_map(|stage| {
        let pieces = stage.lines.iter().filter(|line| line.item == BalancedItem::Piece);
        pieces.map(move |line| Taking {
            source: line.from,
            stage: stage.name.clone(),
            is_base: stage.kind == StageKind::FinalDough,
            // A dough's own piece can only be of its last batch.
            is_old: line.from.is_none() || is_old_dough(stage.kind),
            share: line.share.fraction().clone(),
        })
    })
}

/// Whether what is taken into a stage of this kind is of yesterday's batch.
#[must_use]
pub fn is_old_dough(kind: StageKind) -> bool {
    kind == StageKind::Ahead(Kind::OldDough)
}

/// How much old dough the doughs of a day take of each dough: what the day before has to keep. `of_others` leaves out
/// what a dough takes of itself.
pub(crate) fn old_dough(needs: &[(Need, Arc<Balance>)], of_others: bool) -> BTreeMap<FormulaId, Mass> {
    let mut kept: BTreeMap<FormulaId, Mass> = BTreeMap::new();
    for (need, balance) in needs {
        let flour = need.mass().grams().checked_div(balance.weight.fraction()).unwrap_or_default();
        for taking in takings(balance).filter(|taking| taking.is_old) {
            let source = taking.source.unwrap_or(need.dough);
            if of_others && source == need.dough {
                continue;
            }
            let sum = kept.entry(source).or_default();
            *sum = Mass::from_grams(sum.grams() + &(&taking.share * &flour));
        }
    }
    kept
}
