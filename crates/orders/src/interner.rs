//! Numbers for what orders name: products by the list of the bakery, dates and customers as they are met. All blocks use the same.

use std::hash::Hash;

use jiff::civil::Date;
use levamen_bakery::ProductId;
use levamen_formula::key;
use rustc_hash::FxHashMap;

/// Date, customer and product by number: what may be ordered once.
pub(crate) type OrderKey = (u32, u32, u32);

/// The products that orders may name.
#[derive(Debug, Clone, Default)]
pub struct Products {
    names: Vec<String>,
    ids: FxHashMap<String, ProductId>,
}

impl Products {
    /// The products of these names, in this order.
    ///
    /// Capitals and the width of spaces do not make two names different; of names that are alike by that, orders find the
    /// first.
    pub fn new<N: Into<String>>(names: impl IntoIterator<Item = N>) -> Self {
        let mut products = Self::default();
        for (id, name) in ProductId::all().zip(names) {
            let name = name.into();
            products.ids.entry(key(&name).into_owned()).or_insert(id);
            products.names.push(name);
        }
        products
    }

    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.names.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.names.is_empty()
    }

    /// The product of a name; capitals and the width of spaces do not matter.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<ProductId> {
        self.ids.get(key(name).as_ref()).copied()
    }

    /// The name of a product as the list has it; empty for a product of another list.
    #[must_use]
    pub fn name(&self, id: ProductId) -> &str {
        self.names.get(id.index()).map_or("", String::as_str)
    }

    /// The products in the order of the list.
    pub fn iter(&self) -> impl Iterator<Item = (ProductId, &str)> {
        ProductId::all().zip(self.names.iter().map(String::as_str))
    }
}

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
