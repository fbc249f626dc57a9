//! Which of a bakery's products, mixers or tubs.

/// A product: its place in [`Bakery::products`](crate::Bakery::products).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ProductId(u32);

/// A mixer: its place in [`Bakery::mixers`](crate::Bakery::mixers).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct MixerId(u32);

/// A tub: its place in [`Bakery::tubs`](crate::Bakery::tubs).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct TubId(u32);

/// An id is a place in a list of cards; the first is 0.
macro_rules! places {
    ($($id:ident),+) => {$(
        impl $id {
            /// The one at a place of its list.
            #[must_use]
            pub const fn new(number: u32) -> Self {
                Self(number)
            }

            /// Its place in the list, as a number.
            #[must_use]
            pub const fn number(self) -> u32 {
                self.0
            }

            /// Its place in the list, to look it up.
            #[must_use]
            pub const fn index(self) -> usize {
                self.0 as usize
            }

            /// The ids of a list, in its order.
            pub fn all() -> impl Iterator<Item = Self> {
                (0..).map(Self)
            }
        }
    )+};
}

places!(ProductId, MixerId, TubId);
