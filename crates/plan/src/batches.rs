//! A day's dough over the mixers' batches.

use levamen_bakery::{Batching, Mixer};
use levamen_quantity::{Mass, Share};

use crate::pieces::ceiling;

/// More batches than this of one dough on one day are an order that nobody meant.
const MOST_BATCHES: u64 = 10_000;

/// How a dough is mixed.
#[derive(Debug, Clone, PartialEq)]
pub struct Batches {
    /// The mixer: its index in [`Bakery::mixers`](levamen_bakery::Bakery::mixers); `None` where the bakery names none.
    pub mixer: Option<usize>,
    /// What each batch weighs, in order; at least one, and together the whole dough.
    pub parts: Vec<Mass>,
    /// What the baker should know of it.
    pub remarks: Vec<Remark>,
}

/// What the baker should know of a dough's batches.
#[derive(Debug, Clone, PartialEq)]
pub enum Remark {
    /// A batch is under the least that its mixer mixes.
    BelowLeast {
        /// The batch, or all of them where they are of one size.
        batch: Mass,
        /// The least.
        least: Mass,
        /// Mixers that take it, by their index.
        others: Vec<usize>,
    },
    /// No mixer takes less than its most, so the dough is mixed in so many batches that it can hardly be meant.
    TooMany {
        /// As many batches as it would be.
        batches: u64,
    },
}

/// What a mixer takes of one dough.
struct Bounds {
    least: Mass,
    /// `None` where nothing bounds it.
    most: Option<Mass>,
}

/// Shares a dough out over batches. `flour` is the flour in the dough, `mixer` the one that its method names.
pub(crate) fn batches(
    dough: &Mass,
    flour: &Share,
    mixers: &[Mixer],
    mixer: Option<usize>,
    batching: Batching,
) -> Batches {
    let mixer = mixer.or_else(|| fitting(dough, flour, mixers));
    let Some(bounds) = mixer.and_then(|index| mixers.get(index)).map(|mixer| bounds(mixer, flour)) else {
        return Batches { mixer: None, parts: vec![dough.clone()], remarks: Vec::new() };
    };
    let count = bounds.most.as_ref().map_or(1, |most| count(dough, most));
    if count > MOST_BATCHES {
        let remarks = vec![Remark::TooMany { batches: count }];
        return Batches { mixer, parts: vec![dough.clone()], remarks };
    }
    let parts = match (batching, &bounds.most) {
        (Batching::Full, Some(most)) => full(dough, most, &bounds.least, count),
        _ => equal(dough, count),
    };
    let small = parts.iter().min().filter(|part| **part < bounds.least).cloned();
    let remarks = small.map(|batch| Remark::BelowLeast {
        others: others(&batch, flour, mixers, mixer),
        batch,
        least: bounds.least.clone(),
    });
    Batches { mixer, parts, remarks: remarks.into_iter().collect() }
}

/// What a mixer takes of a dough with so much flour in it.
fn bounds(mixer: &Mixer, flour: &Share) -> Bounds {
    let as_dough = |mass: &Mass| mass.grams().checked_div(flour.fraction()).map(Mass::from_grams);
    let by_flour = |mass: &Option<Mass>| mass.as_ref().and_then(as_dough);
    let least = mixer.least_dough.clone().into_iter().chain(by_flour(&mixer.least_flour)).max();
    let most = mixer.most_dough.clone().into_iter().chain(by_flour(&mixer.most_flour)).min();
    Bounds { least: least.unwrap_or_default(), most: most.filter(|most| *most > Mass::ZERO) }
}

/// The smallest mixer that takes the dough at once; where none does, the largest.
fn fitting(dough: &Mass, flour: &Share, mixers: &[Mixer]) -> Option<usize> {
    let takes = |bounds: &Bounds| bounds.most.as_ref().is_none_or(|most| dough <= most);
    let mut by_size: Vec<(usize, Bounds)> =
        mixers.iter().map(|mixer| bounds(mixer, flour)).enumerate().collect();
    by_size.sort_by(|(_, a), (_, b)| match (&a.most, &b.most) {
        (Some(a), Some(b)) => a.cmp(b),
        (a, b) => b.is_some().cmp(&a.is_some()),
    });
    let fits = by_size.iter().find(|(_, bounds)| takes(bounds) && bounds.least <= *dough);
    fits.or_else(|| by_size.iter().find(|(_, bounds)| takes(bounds)))
        .or(by_size.last())
        .map(|(index, _)| *index)
}

/// Other mixers that take a batch.
fn others(batch: &Mass, flour: &Share, mixers: &[Mixer], but: Option<usize>) -> Vec<usize> {
    let takes = |mixer: &Mixer| {
        let bounds = bounds(mixer, flour);
        bounds.least <= *batch && bounds.most.is_none_or(|most| *batch <= most)
    };
    let fitting = mixers.iter().enumerate().filter(|(index, mixer)| Some(*index) != but && takes(mixer));
    fitting.map(|(index, _)| index).collect()
}

/// In how many batches of at most `most` a dough is mixed.
fn count(dough: &Mass, most: &Mass) -> u64 {
    dough.grams().checked_div(most.grams()).map_or(1, |batches| ceiling(&batches)).max(1)
}

fn equal(dough: &Mass, count: u64) -> Vec<Mass> {
    let share =
        dough.grams().checked_div(&crate::pieces::exact(count)).unwrap_or_else(|| dough.grams().clone());
    (0..count).map(|_| Mass::from_grams(share.clone())).collect()
}

/// Full batches and one with what remains; where that is under the least, the last ones share what they have: as few of
/// them as come to their least, or two where no number does.
fn full(dough: &Mass, most: &Mass, least: &Mass, count: u64) -> Vec<Mass> {
    let exact = crate::pieces::exact;
    let rest = |shared: u64| dough.grams() - &(most.grams() * &exact(count - shared));
    let is_enough = |shared: &u64| rest(*shared) >= least.grams() * &exact(*shared);
    let shared = (1..=count).find(is_enough).unwrap_or(count.min(2));
    let mut parts: Vec<Mass> = (shared..count).map(|_| most.clone()).collect();
    parts.extend(equal(&Mass::from_grams(rest(shared)), shared));
    parts
}

#[cfg(test)]
mod tests {
    use levamen_quantity::Exact;

    use super::*;

    fn kg(figure: i64) -> Mass {
        Mass::from_grams(Exact::from(figure * 1000))
    }

    fn mixer(least: i64, most: i64, most_flour: Option<i64>) -> Mixer {
        Mixer {
            name: format!("to {most} kg"),
            count: 1,
            least_dough: Some(kg(least)),
            most_dough: Some(kg(most)),
            least_flour: None,
            most_flour: most_flour.map(kg),
            warms: None,
            cleaning: None,
        }
    }

    fn shared(dough: i64, batching: Batching) -> Batches {
        // Flour is half of the dough, so 20 kg of flour are 40 kg of dough.
        let half = Share::from_percent(Exact::from(50));
        batches(&kg(dough), &half, &[mixer(8, 60, Some(20)), mixer(1, 10, None)], Some(0), batching)
    }

    #[test]
    fn equal_batches_are_as_few_as_the_mixer_takes() {
        assert_eq!(shared(40, Batching::Equal).parts, [kg(40)]);
        assert_eq!(shared(60, Batching::Equal).parts, [kg(30), kg(30)]);
        assert_eq!(shared(120, Batching::Equal).parts, [kg(40), kg(40), kg(40)]);
    }

    #[test]
    fn full_batches_leave_a_rest_that_the_mixer_can_mix() {
        assert_eq!(shared(100, Batching::Full).parts, [kg(40), kg(40), kg(20)]);
        assert_eq!(shared(84, Batching::Full).parts, [kg(40), kg(22), kg(22)]);
        assert_eq!(shared(80, Batching::Full).parts, [kg(40), kg(40)]);
        // 17 kg in two are under the least of 9 kg, 27 kg in three are not.
        let one = Share::from_percent(Exact::from(100));
        let narrow = batches(&kg(37), &one, &[mixer(9, 10, None)], Some(0), Batching::Full);
        assert_eq!(narrow.parts, [kg(10), kg(9), kg(9), kg(9)]);
    }

    #[test]
    fn a_dough_under_the_least_is_told_with_the_mixer_that_takes_it() {
        let small = shared(5, Batching::Equal);
        let told = Remark::BelowLeast { batch: kg(5), least: kg(8), others: vec![1] };
        assert_eq!(small.remarks, [told]);
    }

    #[test]
    fn a_dough_without_a_mixer_of_its_own_goes_into_the_smallest_that_takes_it() {
        let half = Share::from_percent(Exact::from(50));
        let mixers = [mixer(8, 60, None), mixer(1, 10, None)];
        let chosen = |dough| batches(&kg(dough), &half, &mixers, None, Batching::Equal).mixer;
        assert_eq!([chosen(9), chosen(11), chosen(200)], [Some(1), Some(0), Some(0)]);
        assert_eq!(batches(&kg(9), &half, &[], None, Batching::Equal).mixer, None);
    }

    #[test]
    fn an_order_that_nobody_meant_is_not_shared_out() {
        let all = shared(1_000_000_000, Batching::Equal);
        assert_eq!(all.parts.len(), 1);
        assert_eq!(all.remarks, [Remark::TooMany { batches: 25_000_000 }]);
    }
}
