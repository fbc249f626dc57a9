//! How much may stand in the tub after each feeding so that no more is thrown away than must be.
//!
//! For feedings at given moments, let `f(m)` be the least that is thrown away from a feeding on, when it makes `m`. Claim:
//! `f` is a constant `c` on a band from `A` to `B`, and beyond `B` it rises by one gram a gram; below `A` there is no way
//! to meet the needs. After the last feeding the culture goes on at the least that is held, so there `A = B = least` and
//! `c = 0` (while it is being built up, `A` is what it has come to). Suppose it holds for the next feeding, with `A'`, `B'`, `c'`, and that `u` is taken between the two. Of what
//! is left, `r = m - u`, some is kept and the rest thrown away; what is kept may be fed to between `kept / high` and
//! `kept / low`.
//!
//! - The next feeding makes at least `A'`, so `r` is at least `low · A'`: `A = max(least, u + low · A')`.
//! - While `low · A' ≤ r ≤ high · B'`, all is kept, fed to something inside the band, and nothing more than `c'` is lost.
//! - A gram beyond `high · B'` is either thrown away at once, or kept, where it makes the next feeding larger by
//!   `1 / high` grams beyond its band, each of which is lost later. `high` is below one, so it is thrown away at once.
//!
//! So `B = u + high · B'`, not above the most that is held, and `f` rises by one beyond it. Where that `B` lies below `A`,
//! the difference is lost whatever one does, `c = c' + A - B`, and the band is `A` alone. This is the recursion below;
//! it is exact, takes a step for each feeding, and shows the least there can be without a search.

use levamen_quantity::Exact;

use crate::keeping::Keeping;

/// What may stand in the tub after a feeding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Band {
    /// The least with which every later need can be met.
    pub(crate) least: Exact,
    /// The most with which no more is thrown away than must be.
    pub(crate) most: Exact,
    /// What must be thrown away from here on.
    pub(crate) lost: Exact,
}

impl Band {
    /// After the last day the culture goes on at the least that is held, or below it at `floor` while it is built up.
    pub(crate) fn of_the_end(keeping: &Keeping, floor: Exact) -> Self {
        let hold = keeping.declared().hold_least.grams().clone();
        Self { least: floor.min(hold.clone()), most: hold, lost: Exact::ZERO }
    }

    /// The band of the feeding before this one, when `taken` is taken between them and it must make at least `floor` and at
    /// most `cap`; `None` where it would have to make more.
    pub(crate) fn before(
        &self,
        keeping: &Keeping,
        taken: &Exact,
        floor: &Exact,
        cap: &Exact,
    ) -> Option<Self> {
        let least = (taken + &(keeping.low() * &self.least)).reduced().max(floor.clone());
        if least > *cap {
            return None;
        }
        let kept = (taken + &(keeping.high() * &self.most)).reduced().min(cap.clone());
        let lost = if kept < least { &self.lost + &(&least - &kept) } else { self.lost.clone() };
        Some(Self { most: kept.max(least.clone()), least, lost })
    }

    /// What is thrown away from a feeding on that makes `mass`; `None` where it is too little.
    pub(crate) fn lost_from(&self, mass: &Exact) -> Option<Exact> {
        (*mass >= self.least).then(|| &self.lost + &(mass - &self.most).max(Exact::ZERO))
    }

    /// A band in whole thousandths of a gram that promises no more than this one.
    pub(crate) fn shorter(&self) -> Self {
        let thousand = Exact::from(1000);
        let up = |value: &Exact| &-(-&(value * &thousand)).floor() / &thousand;
        let least = up(&self.least);
        let most = (&(&self.most * &thousand).floor() / &thousand).max(least.clone());
        Self { lost: up(&(&self.lost + &(&most - &self.most).max(Exact::ZERO))), least, most }
    }

    /// Whether another band is no better in anything.
    pub(crate) fn covers(&self, other: &Self) -> bool {
        self.least <= other.least
            && self.lost <= other.lost
            && &self.lost - &self.most <= &other.lost - &other.most
    }
}
