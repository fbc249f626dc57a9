//! The weights of a dough of the workload by formulas worked out by hand: the floor that a solver is measured against.

use std::ops::{Add, Div, Mul, Sub};

use super::{Dough, RaisedBy, Stage};

/// A number that formulas can be worked out with.
pub trait Number:
    Copy + From<u16> + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self>
{
}

impl<T> Number for T where
    T: Copy + From<u16> + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self>
{
}

/// What all stages take of an ingredient.
struct Taken<N> {
    flour: N,
    water: N,
    yeast: N,
}

/// Appends the weight of every line of every stage, in grams.
pub fn weights<N: Number>(dough: &Dough, out: &mut Vec<N>) {
    let (hundred, thousand) = (N::from(100), N::from(1000));
    let share = |per_mille: u16| N::from(per_mille) / thousand;
    let total = N::from(1) + share(dough.water) + share(dough.salt) + share(dough.yeast);
    let flour = N::from(dough.make) * thousand / total;
    let strong = flour * N::from(dough.flours[0]) / hundred;
    let mut taken = Taken { flour: N::from(0), water: N::from(0), yeast: N::from(0) };
    for stage in &dough.stages {
        stage_weights(stage, strong, &mut taken, out);
    }
    out.push(strong - taken.flour);
    out.extend(dough.flours[1..].iter().map(|part| flour * N::from(*part) / hundred));
    out.push(flour * share(dough.water) - taken.water);
    out.push(flour * share(dough.salt));
    out.push(flour * share(dough.yeast) - taken.yeast);
}

/// The lines of a stage and of its build; returns the flour that it takes.
fn stage_weights<N: Number>(stage: &Stage, strong: N, taken: &mut Taken<N>, out: &mut Vec<N>) -> N {
    let (two, hundred, thousand) = (N::from(2), N::from(100), N::from(1000));
    let content = strong * N::from(stage.takes) / thousand;
    let inner = stage.build.as_ref().map_or(N::from(0), |build| stage_weights(build, strong, taken, out));
    let fresh = content - inner;
    let own = match stage.raised_by {
        RaisedBy::Yeast(_) => fresh,
        // Half of the seed is flour.
        RaisedBy::Seed(seed) => fresh * hundred / (hundred + N::from(seed) / two),
    };
    let water = own * N::from(stage.water) / hundred;
    let raised_by = match stage.raised_by {
        RaisedBy::Yeast(yeast) => {
            let yeast = own * N::from(yeast) / thousand;
            taken.yeast = taken.yeast + yeast;
            yeast
        }
        RaisedBy::Seed(seed) => {
            let seed = own * N::from(seed) / hundred;
            taken.water = taken.water + seed / two;
            seed
        }
    };
    taken.flour = taken.flour + fresh;
    taken.water = taken.water + water;
    out.extend([own, water, raised_by]);
    content
}
