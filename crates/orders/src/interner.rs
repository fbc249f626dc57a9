//! Numbers for dates and customers, the same in all blocks.

use std::hash::Hash;

use jiff::civil::Date;
use levamen_formula::key;
use rustc_hash::FxHashMap;

/// Numbers for dates and customers, in the order in which they were first met.
#[derive(Debug, Clone, Default)]
pub(crate) struct Interner {
    dates: Numbers<Date>,
    /// By their names without capitals and wide spaces.
    customers: Numbers<Box<str>>,
    /// As they were first written.
    names: Vec<Box<str>>,
}

#[derive(Debug, Clone)]
struct Numbers<T>(FxHashMap<T, u32>);

impl<T> Default for Numbers<T> {
    fn default() -> Self {
        Self(FxHashMap::default())
    }
}

impl<T: Hash + Eq> Numbers<T> {
    fn of(&mut self, value: T) -> u32 {
        // A number that is past a `u32` would take hundreds of gigabytes to reach.
        let next = u32::try_from(self.0.len()).unwrap_or(u32::MAX);
        *self.0.entry(value).or_insert(next)
    }
}

impl Interner {
    pub(crate) fn date(&mut self, date: Date) -> u32 {
        self.dates.of(date)
    }

    pub(crate) fn customer(&mut self, name: &str) -> u32 {
        let number = self.customers.of(key(name).into());
        if number as usize == self.names.len() {
            self.names.push(name.into());
        }
        number
    }

    /// The dates in the order of their numbers.
    pub(crate) fn dates(&self) -> Vec<Date> {
        let mut dates: Vec<(u32, Date)> =
            self.dates.0.iter().map(|(date, number)| (*number, *date)).collect();
        dates.sort_unstable();
        dates.into_iter().map(|(_, date)| date).collect()
    }

    /// The name of a customer, as it was first written.
    pub(crate) fn customer_name(&self, number: u32) -> &str {
        self.names.get(number as usize).map_or("", |name| name)
    }
}
