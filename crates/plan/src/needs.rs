//! Which doughs a day needs, and how much of each.
//!
//! Doughs are worked out from those that take to those that are taken, so that each is known whole before what it
//! takes from others is.

use std::collections::BTreeMap;
use std::sync::Arc;

use levamen_bakery::Bakery;
use levamen_balance::{Balance, BalanceSource, BalancedItem, StatedSize};
use levamen_formula::{FormulaId, Neighbour, StageKind, strongly_connected};
use levamen_language::{Kind, Problem};
use levamen_quantity::{Exact, Mass, Share};

use crate::pieces::{DayOrders, Pieces};

/// Why a day cannot be planned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DayError {
    /// A dough that is needed has problems of its own.
    Unsound {
        /// Which.
        dough: FormulaId,
        /// Its problems.
        problems: Vec<Problem>,
    },
    /// Doughs that need each other on one day, in the order in which each takes from the next; the last takes from
    /// the first.
    Circle(Vec<FormulaId>),
    /// What cannot happen: a fault of the program, and which.
    Internal(&'static str),
}

impl DayError {
    pub(crate) fn internal(what: &'static str) -> Self {
        debug_assert!(false, "{what}");
        Self::Internal(what)
    }
}

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
) -> Result<Needs, DayError> {
    let empty = BTreeMap::new();
    match kept {
        Kept::Known(kept) => worked_out(balances, bakery, orders, kept, false),
        Kept::AsTaken => {
            let first = worked_out(balances, bakery, orders, &empty, true)?;
            let mut others = old_dough(&first.of, true)?;
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
) -> Result<Needs, DayError> {
    let mut work = NeedsBuilder { source: balances, needs: BTreeMap::new(), balances: BTreeMap::new() };
    for (id, ordered) in orders.iter() {
        if let Some(product) = bakery.product(id) {
            let pieces = Pieces::of(id, product, ordered);
            let pieces = pieces.ok_or_else(|| DayError::internal("all dough of a product is lost"))?;
            work.need(product.dough).pieces.push(pieces);
        }
    }
    for (dough, mass) in kept {
        work.need(*dough).kept = mass.clone();
    }
    let roots: Vec<FormulaId> = work.needs.keys().copied().collect();
    let order = work.order(&roots)?;
    for dough in &order {
        work.pass_on(*dough, keeps_its_own)?;
    }
    let mut of: Vec<(Need, Arc<Balance>)> = Vec::new();
    for dough in order.iter().rev() {
        let found = work.needs.remove(dough).zip(work.balances.remove(dough));
        of.push(found.ok_or_else(|| DayError::internal("a dough of the day has no need or no balance"))?);
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

    /// The doughs that are needed, each after all that take from it on the same day.
    fn order(&mut self, roots: &[FormulaId]) -> Result<Vec<FormulaId>, DayError> {
        let graph = self.takings_of_day(roots)?;
        let number = |dough: &FormulaId| graph.iter().position(|(own, _)| own == dough);
        let sources: Vec<Vec<usize>> =
            graph.iter().map(|(_, below)| below.iter().filter_map(number).collect()).collect();
        let nth = |node: usize, nth: usize| sources.get(node).and_then(|own| own.get(nth)).copied();
        let starts = roots.iter().filter_map(number);
        let groups = strongly_connected(graph.len(), starts, |node, at| {
            nth(node, at).map_or(Neighbour::End, Neighbour::Node)
        });
        let named = |nodes: &[usize]| {
            nodes.iter().filter_map(|node| graph.get(*node)).map(|(dough, _)| *dough).collect::<Vec<_>>()
        };
        let circle = groups.iter().find_map(|group| circle_in(group, &sources));
        match circle {
            Some(circle) => Err(DayError::Circle(named(&circle))),
            None => Ok(named(&groups.concat()).into_iter().rev().collect()),
        }
    }

    /// The doughs that are needed, in the order in which they are come upon, each with those that it takes from on the same
    /// day, the last of its lines first. Their balances are kept.
    fn takings_of_day(&mut self, roots: &[FormulaId]) -> Result<Vec<(FormulaId, Vec<FormulaId>)>, DayError> {
        let mut found = Vec::new();
        let mut waiting: Vec<FormulaId> = roots.iter().rev().copied().collect();
        while let Some(dough) = waiting.pop() {
            if self.balances.contains_key(&dough) {
                continue;
            }
            let balance =
                self.source.balance(dough).map_err(|problems| DayError::Unsound { dough, problems })?;
            let below = takings(&balance).filter(|taking| !taking.is_old);
            let below: Vec<FormulaId> = below.filter_map(|taking| taking.source).collect();
            waiting.extend(&below);
            found.push((dough, below.into_iter().rev().collect()));
            self.balances.insert(dough, balance);
        }
        Ok(found)
    }

    /// Adds what a dough takes to the needs of those that it takes from.
    fn pass_on(&mut self, dough: FormulaId, keeps_its_own: bool) -> Result<(), DayError> {
        let balance = self.balances.get(&dough).cloned();
        let balance = balance.ok_or_else(|| DayError::internal("a dough of the day has no balance"))?;
        let takings: Vec<Taking> = takings(&balance).collect();
        let need = self.need(dough);
        let taken: Exact = need.taken.iter().map(|taken| taken.mass.grams()).sum();
        let with_loss = taken.checked_div(loss(&balance).rest().fraction());
        let with_loss = with_loss.ok_or_else(|| DayError::internal("all of a dough is lost"))?;
        need.lost = Mass::from_grams(&with_loss - &taken);
        let own = takings.iter().filter(|taking| taking.source.is_none());
        let own = own.map(|taking| &taking.share).sum::<Exact>();
        if keeps_its_own && own.is_positive() {
            // What is kept is a part of what is made, by weights of flour: made = sold + own / weight × made.
            let (sold, weight) = (need.mass(), balance.weight.fraction());
            let made = (sold.grams() * weight).checked_div(&(weight - &own));
            let made = made.ok_or_else(|| DayError::internal("a dough is nothing but its last batch"))?;
            need.kept = Mass::from_grams(need.kept.grams() + &(&made - sold.grams()));
        }
        let flour = flour_of(&balance, &need.mass())?;
        for taking in takings.into_iter().filter(|taking| !taking.is_old) {
            let Some(source) = taking.source else { continue };
            let mass = taking.share_of(&flour);
            let taken = Taken { by: dough, stage: taking.stage, is_base: taking.is_base, mass };
            self.need(source).taken.push(taken);
        }
        Ok(())
    }
}

impl Taking {
    /// What is taken for a dough from so much flour.
    fn share_of(&self, flour: &Mass) -> Mass {
        Mass::from_grams(&self.share * flour.grams())
    }
}

/// A circle in a group of nodes that all lead to each other, as the nodes that it goes through; `None` of a single node that
/// does not lead to itself.
fn circle_in(group: &[usize], sources: &[Vec<usize>]) -> Option<Vec<usize>> {
    let mut path = vec![*group.first()?];
    loop {
        let mut next = sources.get(*path.last()?)?.iter();
        let next = next.find(|next| group.contains(next))?;
        match path.iter().position(|node| node == next) {
            Some(start) => return Some(path.split_off(start)),
            None => path.push(*next),
        }
    }
}

/// The whole flour of so much dough.
pub(crate) fn flour_of(balance: &Balance, dough: &Mass) -> Result<Mass, DayError> {
    let flour = dough.grams().checked_div(balance.weight.fraction()).map(Mass::from_grams);
    flour.ok_or_else(|| DayError::internal("a dough that balances weighs nothing"))
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
pub(crate) fn old_dough(
    needs: &[(Need, Arc<Balance>)],
    of_others: bool,
) -> Result<BTreeMap<FormulaId, Mass>, DayError> {
    let mut kept: BTreeMap<FormulaId, Mass> = BTreeMap::new();
    for (need, balance) in needs {
        let flour = flour_of(balance, &need.mass())?;
        for taking in takings(balance).filter(|taking| taking.is_old) {
            let source = taking.source.unwrap_or(need.dough);
            if of_others && source == need.dough {
                continue;
            }
            let sum = kept.entry(source).or_default();
            *sum = &*sum + &taking.share_of(&flour);
        }
    }
    Ok(kept)
}
