//! How many more pieces would bring a dough to the least that a mixer mixes.

use levamen_bakery::{Bakery, ProductId};
use levamen_balance::BalanceSource;
use levamen_quantity::Mass;

use crate::batches::{Sharing, least_weights};
use crate::day::{Day, DayDough, flour_in_dough};
use crate::needs::{Kept, needs};
use crate::pieces::{DayOrders, Pieces};

/// No order is larger than this many pieces of a product for one customer, so no more are offered either.
const MOST_MORE: u64 = 1_000_000;

/// So many weights from which on a mixer would take the batches are tried. Each takes at least a piece more than the last, so
/// up to as many pieces are found always; that more are wanted is only so where a mixer takes hardly more than its least.
const TRIES: usize = 1000;

/// More pieces of a product.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct More {
    /// The product.
    pub product: ProductId,
    /// How many more would have to be ordered.
    pub pieces: u64,
}

impl Day {
    /// The fewest pieces of a dough's first product that would have to be ordered on top, so that none of its batches is
    /// under the least of its mixer; `None` where no number of pieces does it.
    ///
    /// Spares and whole heads are counted, and what is kept as old dough. Of all that, the dough's weight goes in a straight
    /// line with the pieces' dough, so two plans say how the weight of every other goes.
    #[must_use]
    pub fn more_pieces(
        &self,
        balances: &dyn BalanceSource,
        bakery: &Bakery,
        dough: &DayDough,
    ) -> Option<More> {
        let pieces = dough.need.pieces.first()?;
        let product = bakery.product(pieces.product)?;
        let of = |more: u64| Pieces::of(pieces.product, product, pieces.ordered.saturating_add(more));
        // With a whole head more there is more dough.
        let probe = u64::from(product.head.unwrap_or(1).max(1));
        let (now, then) = (dough.mass(), self.with_more(balances, bakery, dough, probe)?);
        let piece_dough = of(0)?.dough;
        let slope =
            (then.grams() - now.grams()).checked_div(&(of(probe)?.dough.grams() - piece_dough.grams()))?;
        let weight = |more: u64| {
            let added = of(more)?.dough.grams() - piece_dough.grams();
            Some(Mass::from_grams(now.grams() + &(&slope * &added)))
        };
        let pieces = fewest(&now, &weight, bakery, dough)?;
        Some(More { product: first_product(dough)?, pieces })
    }

    /// What a dough weighs on this day, with more pieces of its first product ordered.
    fn with_more(
        &self,
        balances: &dyn BalanceSource,
        bakery: &Bakery,
        dough: &DayDough,
        more: u64,
    ) -> Option<Mass> {
        let ordered = self.doughs.iter().flat_map(|dough| &dough.need.pieces);
        let ordered = ordered.map(|pieces| (pieces.product, pieces.ordered));
        let orders = DayOrders::from_pieces(ordered.chain([(first_product(dough)?, more)]));
        let kept = self.asked.as_ref().map_or(Kept::AsTaken, Kept::Known);
        let needs = needs(balances, bakery, &orders, kept).ok()?;
        needs.of.iter().find(|(need, _)| need.dough == dough.need.dough).map(|(need, _)| need.mass())
    }
}

fn first_product(dough: &DayDough) -> Option<ProductId> {
    dough.need.pieces.first().map(|pieces| pieces.product)
}

/// The fewest more pieces with which no batch is under the least. Weights at which that may come to hold are tried in their
/// order: between two of them nothing changes but that batches grow fuller.
fn fewest(
    now: &Mass,
    weight: &dyn Fn(u64) -> Option<Mass>,
    bakery: &Bakery,
    dough: &DayDough,
) -> Option<u64> {
    let flour = flour_in_dough(&dough.balance).ok()?;
    let mixer = bakery.named_mixer(dough.need.dough);
    let mut reached = now.clone();
    for _ in 0..TRIES {
        let next = least_weights(&reached, &flour, &bakery.mixers, mixer).into_iter().min()?;
        let more = first_at(&next, weight)?;
        reached = weight(more)?;
        let sharing = Sharing::new(&reached, &flour, &bakery.mixers, mixer);
        if sharing.below_least(&reached, bakery.settings.batching).is_none() {
            return Some(more);
        }
    }
    None
}

/// The fewest more pieces with which a dough weighs so much.
fn first_at(wanted: &Mass, weight: &dyn Fn(u64) -> Option<Mass>) -> Option<u64> {
    if weight(MOST_MORE)? < *wanted {
        return None;
    }
    let (mut under, mut enough) = (0, MOST_MORE);
    while enough - under > 1 {
        let middle = under + (enough - under) / 2;
        if weight(middle)? < *wanted {
            under = middle;
        } else {
            enough = middle;
        }
    }
    Some(enough)
}
