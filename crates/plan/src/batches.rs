//! A day's dough over the mixers' batches.

use levamen_bakery::{Batching, Mixer, MixerId};
use levamen_quantity::{Exact, Mass, Share};

use crate::pieces::{ceiling, exact};

/// Of one dough so many batches are listed at most, each with its line on the sheets; more are counted. 200 batches of
/// 60 kg are 12 t of one dough a day: our own choice.
pub(crate) const MOST_LISTED: u64 = 200;

/// Of all doughs of a day together so many batches are listed at most: a timetable holds no more steps.
pub(crate) const MOST_LISTED_A_DAY: u64 = levamen_timetable::MOST_STEPS as u64;

/// How a dough is mixed.
#[derive(Debug, Clone, PartialEq)]
pub struct Batches {
    /// The mixer; `None` where the bakery names none.
    pub mixer: Option<MixerId>,
    /// In how many batches.
    pub count: u64,
    /// What each batch weighs, in order, and together the whole dough; where they are counted and not listed, one part,
    /// which is the whole.
    pub parts: Vec<Mass>,
    /// What the baker should know of it.
    pub remarks: Vec<BatchWarning>,
}

impl Batches {
    /// Whether each batch is listed; otherwise they are too many and only counted.
    #[must_use]
    pub fn are_listed(&self) -> bool {
        u64::try_from(self.parts.len()).is_ok_and(|parts| parts == self.count)
    }
}

/// What the baker should know of a dough's batches.
#[derive(Debug, Clone, PartialEq)]
pub enum BatchWarning {
    /// A batch is under the least that its mixer mixes.
    BelowLeast {
        /// The batch, or all of them where they are of one size.
        batch: Mass,
        /// The least.
        least: Mass,
        /// Mixers that take it.
        others: Vec<MixerId>,
    },
    /// There are too many batches to list each.
    Counted {
        /// How many there are.
        batches: u64,
        /// What the largest of them weighs.
        largest: Mass,
    },
}

/// What a mixer takes of one dough.
struct Bounds {
    least: Mass,
    /// `None` where nothing bounds it.
    most: Option<Mass>,
}

/// Into which mixer a dough goes, and in how many batches.
pub(crate) struct Sharing {
    pub(crate) count: u64,
    mixer: Option<MixerId>,
    bounds: Option<Bounds>,
}

impl Sharing {
    /// The fewest batches that the mixer takes. `flour` is the flour in the dough, `mixer` the one that its method names.
    pub(crate) fn new(dough: &Mass, flour: &Share, mixers: &[Mixer], mixer: Option<MixerId>) -> Self {
        let mixer = mixer.or_else(|| fitting(dough, flour, mixers));
        let bounds = mixer.and_then(|id| mixers.get(id.index())).map(|mixer| bounds(mixer, flour));
        let most = bounds.as_ref().and_then(|bounds| bounds.most.as_ref());
        let count = most.map_or(1, |most| count(dough, most));
        Self { count, mixer: mixer.filter(|_| bounds.is_some()), bounds }
    }

    /// What the smallest batch weighs, where it is under the least of its mixer.
    pub(crate) fn below_least(&self, dough: &Mass, batching: Batching) -> Option<(Mass, &Mass)> {
        let bounds = self.bounds.as_ref()?;
        let smallest = match (batching, &bounds.most) {
            (Batching::Full, Some(most)) => {
                let shared = shared(dough, most, &bounds.least, self.count);
                part(&rest(dough, most, self.count - shared), shared)
            }
            _ => part(dough, self.count),
        };
        (smallest < bounds.least).then_some((smallest, &bounds.least))
    }

    /// The batches; more than `most_listed` are counted.
    pub(crate) fn batches(
        &self,
        dough: &Mass,
        flour: &Share,
        mixers: &[Mixer],
        batching: Batching,
        most_listed: u64,
    ) -> Batches {
        let most = self
            .bounds
            .as_ref()
            .and_then(|bounds| bounds.most.as_ref())
            .filter(|_| batching == Batching::Full);
        let mut remarks = Vec::new();
        let parts = if self.count > most_listed {
            let largest = most.cloned().unwrap_or_else(|| part(dough, self.count));
            remarks.push(BatchWarning::Counted { batches: self.count, largest });
            vec![dough.clone()]
        } else {
            match (most, &self.bounds) {
                (Some(most), Some(bounds)) => full(dough, most, &bounds.least, self.count),
                _ => equal(dough, self.count),
            }
        };
        let small = self.below_least(dough, batching);
        remarks.extend(small.map(|(batch, least)| BatchWarning::BelowLeast {
            others: others(&batch, flour, mixers, self.mixer),
            batch,
            least: least.clone(),
        }));
        Batches { mixer: self.mixer, count: self.count, parts, remarks }
    }
}

/// The weight from which on batches in the mixer that a dough may go into would come to its least, for each mixer in which
/// that is more than it weighs now.
pub(crate) fn least_weights(
    dough: &Mass,
    flour: &Share,
    mixers: &[Mixer],
    mixer: Option<MixerId>,
) -> Vec<Mass> {
    let may = MixerId::all().zip(mixers).filter(|(id, _)| mixer.is_none_or(|named| named == *id));
    let weight = may.map(|(_, mixer)| {
        let bounds = bounds(mixer, flour);
        let count = bounds.most.as_ref().map_or(1, |most| count(dough, most));
        Mass::from_grams(bounds.least.grams() * &exact(count))
    });
    weight.filter(|weight| weight > dough).collect()
}

/// Of so many doughs of a day, each mixed in so many batches, how many batches are listed of each at most.
pub(crate) fn most_listed(mut counts: Vec<u64>) -> u64 {
    counts.sort_unstable();
    let mut all = 0_u64;
    let mut most = 1;
    for count in counts.into_iter().take_while(|count| *count <= MOST_LISTED) {
        all = all.saturating_add(count);
        if all > MOST_LISTED_A_DAY {
            // Doughs of as many batches are all listed or all counted; of a single batch there is nothing to count.
            return most.min(count - 1).max(1);
        }
        most = count;
    }
    most
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
fn fitting(dough: &Mass, flour: &Share, mixers: &[Mixer]) -> Option<MixerId> {
    let takes = |bounds: &Bounds| bounds.most.as_ref().is_none_or(|most| dough <= most);
    let mut by_size: Vec<(MixerId, Bounds)> =
        MixerId::all().zip(mixers.iter().map(|mixer| bounds(mixer, flour))).collect();
    by_size.sort_by(|(_, a), (_, b)| match (&a.most, &b.most) {
        (Some(a), Some(b)) => a.cmp(b),
        (a, b) => b.is_some().cmp(&a.is_some()),
    });
    let fits = by_size.iter().find(|(_, bounds)| takes(bounds) && bounds.least <= *dough);
    fits.or_else(|| by_size.iter().find(|(_, bounds)| takes(bounds))).or(by_size.last()).map(|(id, _)| *id)
}

/// Other mixers that take a batch.
fn others(batch: &Mass, flour: &Share, mixers: &[Mixer], but: Option<MixerId>) -> Vec<MixerId> {
    let takes = |mixer: &Mixer| {
        let bounds = bounds(mixer, flour);
        bounds.least <= *batch && bounds.most.is_none_or(|most| *batch <= most)
    };
    let fitting = MixerId::all().zip(mixers).filter(|(id, mixer)| Some(*id) != but && takes(mixer));
    fitting.map(|(id, _)| id).collect()
}

/// In how many batches of at most `most` a dough is mixed.
fn count(dough: &Mass, most: &Mass) -> u64 {
    dough.grams().checked_div(most.grams()).map_or(1, |batches| ceiling(&batches)).max(1)
}

/// One of so many equal parts.
fn part(dough: &Mass, count: u64) -> Mass {
    dough.grams().checked_div(&exact(count)).map_or_else(|| dough.clone(), Mass::from_grams)
}

fn equal(dough: &Mass, count: u64) -> Vec<Mass> {
    let share = part(dough, count);
    (0..count).map(|_| share.clone()).collect()
}

/// What is left of a dough after so many full batches.
fn rest(dough: &Mass, most: &Mass, full: u64) -> Mass {
    Mass::from_grams(dough.grams() - &(most.grams() * &exact(full)))
}

/// How many of the last batches share what the full ones leave: as few as come to their least, or two where no number does.
///
/// `s` of them come to it if `dough − (count − s) × most ≥ s × least`, so if `s × (most − least) ≥ count × most − dough`.
fn shared(dough: &Mass, most: &Mass, least: &Mass, count: u64) -> u64 {
    let lacks = &(most.grams() * &exact(count)) - dough.grams();
    if !lacks.is_positive() {
        return 1;
    }
    let each = (most.grams() - least.grams()).max(Exact::ZERO);
    let enough = lacks.checked_div(&each).map(|shared| ceiling(&shared).max(1));
    enough.filter(|shared| *shared <= count).unwrap_or(count.min(2))
}

/// Full batches and one with what remains; where that is under the least, the last ones share what they have.
fn full(dough: &Mass, most: &Mass, least: &Mass, count: u64) -> Vec<Mass> {
    let shared = shared(dough, most, least, count);
    let mut parts: Vec<Mass> = (shared..count).map(|_| most.clone()).collect();
    parts.extend(equal(&rest(dough, most, count - shared), shared));
    parts
}

#[cfg(test)]
mod tests {
    use super::*;

    fn batches(
        dough: &Mass,
        flour: &Share,
        mixers: &[Mixer],
        mixer: Option<MixerId>,
        batching: Batching,
    ) -> Batches {
        Sharing::new(dough, flour, mixers, mixer).batches(dough, flour, mixers, batching, MOST_LISTED)
    }

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
        batches(
            &kg(dough),
            &half,
            &[mixer(8, 60, Some(20)), mixer(1, 10, None)],
            Some(MixerId::new(0)),
            batching,
        )
    }

    #[test]
    fn equal_batches_are_as_few_as_the_mixer_takes() {
        assert_eq!(shared(40, Batching::Equal).parts, [kg(40)]);
        assert_eq!(shared(60, Batching::Equal).parts, [kg(30), kg(30)]);
        assert_eq!(shared(120, Batching::Equal).parts, [kg(40), kg(40), kg(40)]);
    }

    /// Of a mixer for 8 kg to 40 kg at once; 8 kg and more need no other weight.
    #[test]
    fn a_least_that_is_reached_is_no_longer_a_weight_to_reach() {
        let half = Share::from_percent(Exact::from(50));
        let mixers = [mixer(8, 60, Some(20)), mixer(1, 10, None)];
        let weights = |dough: i64| least_weights(&kg(dough), &half, &mixers, Some(MixerId::new(0)));
        assert_eq!(weights(7), [kg(8)]);
        assert_eq!(weights(8), []);
        assert_eq!(weights(9), []);
    }

    #[test]
    fn a_most_of_nothing_is_none() {
        let half = Share::from_percent(Exact::from(50));
        assert_eq!(bounds(&mixer(0, 0, None), &half).most, None);
        assert_eq!(bounds(&mixer(0, 1, None), &half).most, Some(kg(1)));
    }

    #[test]
    fn full_batches_leave_a_rest_that_the_mixer_can_mix() {
        assert_eq!(shared(100, Batching::Full).parts, [kg(40), kg(40), kg(20)]);
        assert_eq!(shared(84, Batching::Full).parts, [kg(40), kg(22), kg(22)]);
        assert_eq!(shared(80, Batching::Full).parts, [kg(40), kg(40)]);
        // 17 kg in two are under the least of 9 kg, 27 kg in three are not.
        let one = Share::from_percent(Exact::from(100));
        let narrow = batches(&kg(37), &one, &[mixer(9, 10, None)], Some(MixerId::new(0)), Batching::Full);
        assert_eq!(narrow.parts, [kg(10), kg(9), kg(9), kg(9)]);
    }

    #[test]
    fn a_dough_under_the_least_is_told_with_the_mixer_that_takes_it() {
        let small = shared(5, Batching::Equal);
        let told = BatchWarning::BelowLeast { batch: kg(5), least: kg(8), others: vec![MixerId::new(1)] };
        assert_eq!(small.remarks, [told]);
    }

    #[test]
    fn a_dough_without_a_mixer_of_its_own_goes_into_the_smallest_that_takes_it() {
        let half = Share::from_percent(Exact::from(50));
        let mixers = [mixer(8, 60, None), mixer(1, 10, None)];
        let chosen = |dough| batches(&kg(dough), &half, &mixers, None, Batching::Equal).mixer;
        assert_eq!([chosen(9), chosen(11), chosen(200)], [1, 0, 0].map(|number| Some(MixerId::new(number))));
        assert_eq!(batches(&kg(9), &half, &[], None, Batching::Equal).mixer, None);
    }

    #[test]
    fn more_batches_than_are_listed_are_counted() {
        for batching in [Batching::Equal, Batching::Full] {
            let listed = shared(200 * 40, batching);
            assert_eq!((listed.count, listed.parts.len(), listed.are_listed()), (200, 200, true));
            let counted = shared(1_000_000_000, batching);
            assert_eq!((counted.count, counted.are_listed()), (25_000_000, false));
            assert_eq!(counted.parts, [kg(1_000_000_000)]);
            assert_eq!(counted.remarks, [BatchWarning::Counted { batches: 25_000_000, largest: kg(40) }]);
        }
    }

    #[test]
    fn a_day_lists_as_many_doughs_as_it_can_and_the_smallest_first() {
        assert_eq!(most_listed(vec![3, 200, 201]), 200);
        assert_eq!(most_listed(vec![1; 9000]), 1);
        // Ten of 150 batches are 1,500; twenty of 200 would be 4,000 more, and of those none is listed.
        let counts: Vec<u64> = [vec![150; 10], vec![200; 20]].concat();
        assert_eq!(most_listed(counts), 199);
        assert_eq!(most_listed(vec![200; 26]), 199);
        assert_eq!(most_listed(vec![u64::MAX; 3]), 1);
    }
}
