//! Lists that are read by an id of their own, and never past their end.
//!
//! The search reads a few lists millions of times, and each id comes from the list that it reads. Should one not, nothing
//! stops: the access is counted as a fault and reads a spare value, and the plan ends as an internal error
//! ([`TimetableError::Internal`](crate::TimetableError)) instead of showing what came of it.

use std::marker::PhantomData;
use std::ops::{Index, IndexMut};
use std::sync::atomic::{AtomicUsize, Ordering};

use crate::grid::Minute;
use crate::{ClassId, JobId, MachineId, PoolId, StepId, TimeLagId};

/// Accesses past the end of a list, by all plans together.
static FAULTS: AtomicUsize = AtomicUsize::new(0);

/// How many accesses past the end of a list there were.
pub fn faults() -> usize {
    FAULTS.load(Ordering::Relaxed)
}

#[cold]
fn count_fault(index: usize, length: usize) {
    debug_assert!(false, "{index} is past the end of a list of {length}");
    FAULTS.fetch_add(1, Ordering::Relaxed);
}

/// A place in a list of its own.
pub trait Id: Copy {
    /// Its place; the first is 0.
    fn place(self) -> usize;

    /// The id of a place.
    fn of_place(place: usize) -> Self;
}

macro_rules! ids {
    ($($id:ident),*) => {$(
        impl Id for $id {
            fn place(self) -> usize {
                self.0
            }

            fn of_place(place: usize) -> Self {
                Self(place)
            }
        }
    )*};
}

/// A set of machines that some step may use.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct FleetId(usize);

/// A group of steps that are placed together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct GroupId(usize);

/// A pool or a machine, as a row of minutes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct RowId(usize);

/// One of the ways in which a step can be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct WayId(usize);

/// A step in a forest of time lags.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct NodeId(usize);

/// Something that is limited and has a price.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ResourceId(usize);

ids!(
    ClassId, JobId, MachineId, PoolId, StepId, TimeLagId, FleetId, GroupId, NodeId, ResourceId, RowId, WayId
);

impl Id for Minute {
    /// Minutes before the span have no place.
    fn place(self) -> usize {
        usize::try_from(self).unwrap_or(usize::MAX)
    }

    fn of_place(place: usize) -> Self {
        Self::try_from(place).unwrap_or(Self::MAX)
    }
}

/// A list that is read by ids of one kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IdVec<I, T> {
    values: Vec<T>,
    /// What is read past the end.
    spare: T,
    ids: PhantomData<I>,
}

impl<I: Id, T: Default> IdVec<I, T> {
    /// The same value for so many ids.
    pub fn filled(value: T, length: usize) -> Self
    where
        T: Clone,
    {
        Self::from(vec![value; length])
    }

    /// Adds a value, and gives its id.
    pub fn push(&mut self, value: T) -> I {
        self.values.push(value);
        I::of_place(self.values.len() - 1)
    }

    pub fn len(&self) -> usize {
        self.values.len()
    }

    /// The value of an id, if there is one.
    pub fn get(&self, id: I) -> Option<&T> {
        self.values.get(id.place())
    }

    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.values.iter()
    }

    pub fn iter_mut(&mut self) -> std::slice::IterMut<'_, T> {
        self.values.iter_mut()
    }

    pub fn ids(&self) -> impl DoubleEndedIterator<Item = I> + use<I, T> {
        (0..self.values.len()).map(I::of_place)
    }

    /// The values with their ids.
    pub fn with_ids(&self) -> impl Iterator<Item = (I, &T)> {
        self.values.iter().enumerate().map(|(place, value)| (I::of_place(place), value))
    }

    /// The values from an id up to another, which is not among them.
    pub fn range_mut(&mut self, from: I, until: I) -> &mut [T] {
        let length = self.values.len();
        if until.place() > length || from.place() > until.place() {
            count_fault(until.place(), length);
        }
        self.values.get_mut(from.place()..until.place()).unwrap_or_default()
    }
}

impl<I, T: Default> Default for IdVec<I, T> {
    fn default() -> Self {
        Self::from(Vec::new())
    }
}

impl<I, T: Default> From<Vec<T>> for IdVec<I, T> {
    fn from(values: Vec<T>) -> Self {
        Self { values, spare: T::default(), ids: PhantomData }
    }
}

impl<I, T: Default> FromIterator<T> for IdVec<I, T> {
    fn from_iter<V: IntoIterator<Item = T>>(values: V) -> Self {
        Self::from(values.into_iter().collect::<Vec<T>>())
    }
}

impl<I: Id, T> Index<I> for IdVec<I, T> {
    type Output = T;

    #[inline]
    fn index(&self, id: I) -> &T {
        if let Some(value) = self.values.get(id.place()) {
            return value;
        }
        count_fault(id.place(), self.values.len());
        &self.spare
    }
}

impl<I: Id, T> IndexMut<I> for IdVec<I, T> {
    #[inline]
    fn index_mut(&mut self, id: I) -> &mut T {
        let length = self.values.len();
        if let Some(value) = self.values.get_mut(id.place()) {
            return value;
        }
        count_fault(id.place(), length);
        &mut self.spare
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_read_by_the_ids_that_it_gave() {
        let mut list: IdVec<StepId, i64> = IdVec::default();
        let (first, second) = (list.push(3), list.push(4));
        list[second] += 1;
        assert_eq!((list[first], list[second], list.len()), (3, 5, 2));
        assert_eq!(list.ids().collect::<Vec<_>>(), [first, second]);
        let mut minutes: IdVec<Minute, bool> = IdVec::filled(false, 4);
        minutes.range_mut(1, 3).fill(true);
        assert_eq!(minutes.iter().copied().collect::<Vec<_>>(), [false, true, true, false]);
        assert_eq!(minutes.get(-1), None);
    }
}
