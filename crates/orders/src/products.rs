//! What is sold, by the names that orders use.

use levamen_bakery::ProductId;
use levamen_formula::key;
use rustc_hash::FxHashMap;

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
