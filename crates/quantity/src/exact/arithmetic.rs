//! Adding, multiplying and dividing exact numbers: in machine words where that is at hand.

use std::iter::Sum;
use std::num::NonZero;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

use super::Repr::{Big, Small};
use super::{Exact, ONE};

/// The sum of two quotients where it is at hand: equal denominators, or one of them a whole number, and no overflow.
#[inline]
fn add_in_words((a, b): (i64, NonZero<i64>), (c, d): (i64, NonZero<i64>)) -> Option<Exact> {
    let (left, right, denom) = if b == d {
        (a, c, b)
    } else if a == 0 {
        (0, c, d)
    } else if c == 0 {
        (a, 0, b)
    } else if b == ONE {
        (a.checked_mul(d.get())?, c, d)
    } else if d == ONE {
        (a, c.checked_mul(b.get())?, b)
    } else {
        return None;
    };
    let numer = left.checked_add(right)?;
    (numer != i64::MIN).then_some(Exact::from_words(numer, denom))
}

/// The product of two quotients where both parts fit in a word.
#[inline]
fn multiply_in_words((a, b): (i64, NonZero<i64>), (c, d): (i64, NonZero<i64>)) -> Option<Exact> {
    let (numer, denom) = (a.checked_mul(c)?, b.checked_mul(d)?);
    (numer != i64::MIN).then_some(Exact::from_words(numer, denom))
}

impl Add for &Exact {
    type Output = Exact;

    fn add(self, other: &Exact) -> Exact {
        match (&self.0, &other.0) {
            (Small { numer: a, denom: b }, Small { numer: c, denom: d }) => {
                if let Some(sum) = add_in_words((*a, *b), (*c, *d)) {
                    return sum;
                }
                let (b, d) = (b.get(), d.get());
                // Equal and dividing denominators need no larger one.
                let (left, right, denom) = if b == d {
                    (1, 1, i128::from(b))
                } else if b < d && d % b == 0 {
                    (d / b, 1, i128::from(d))
                } else if d < b && b % d == 0 {
                    (1, b / d, i128::from(b))
                } else {
                    (d, b, i128::from(b) * i128::from(d))
                };
                let numer = i128::from(*a) * i128::from(left) + i128::from(*c) * i128::from(right);
                Exact::from_wide(numer, denom)
            }
            (Big(long), Big(other)) => long.add(other),
            (Big(long), Small { numer, denom }) | (Small { numer, denom }, Big(long)) => {
                long.add_words((*numer, *denom))
            }
        }
    }
}

impl Mul for &Exact {
    type Output = Exact;

    fn mul(self, other: &Exact) -> Exact {
        match (&self.0, &other.0) {
            (Small { numer: a, denom: b }, Small { numer: c, denom: d }) => {
                multiply_in_words((*a, *b), (*c, *d)).unwrap_or_else(|| {
                    let (b, d) = (b.get(), d.get());
                    Exact::from_wide(i128::from(*a) * i128::from(*c), i128::from(b) * i128::from(d))
                })
            }
            (Big(long), Big(other)) => long.multiply(other),
            (Big(_), Small { numer: 0, .. }) | (Small { numer: 0, .. }, Big(_)) => Exact::ZERO,
            (Big(long), Small { numer, denom }) | (Small { numer, denom }, Big(long)) => {
                long.multiply_words((*numer, *denom))
            }
        }
    }
}

impl Neg for &Exact {
    type Output = Exact;

    fn neg(self) -> Exact {
        match &self.0 {
            Small { numer, denom } => Exact(Small { numer: -numer, denom: *denom }),
            Big(value) => value.negated(),
        }
    }
}

impl Sub for &Exact {
    type Output = Exact;

    fn sub(self, other: &Exact) -> Exact {
        if let (Small { numer: a, denom: b }, Small { numer: c, denom: d }) = (&self.0, &other.0)
            && let Some(difference) = add_in_words((*a, *b), (-c, *d))
        {
            return difference;
        }
        self + &-other
    }
}

impl Div for &Exact {
    type Output = Exact;

    /// # Panics
    /// Where the divisor is zero, as whole numbers do.
    fn div(self, other: &Exact) -> Exact {
        match (&self.0, &other.0) {
            (Small { numer: a, denom: b }, Small { numer: c, denom: d }) if *c != 0 => {
                // Over equal denominators it is the quotient of the numerators.
                let (b, d) = if b == d { (ONE, ONE) } else { (*b, *d) };
                let inverse = NonZero::new(*c).filter(|c| c.is_positive()).map(|c| (d.get(), c));
                inverse.and_then(|inverse| multiply_in_words((*a, b), inverse)).unwrap_or_else(|| {
                    let (b, d) = (b.get(), d.get());
                    Exact::from_wide(i128::from(*a) * i128::from(d), i128::from(b) * i128::from(*c))
                })
            }
            (Big(long), Big(other)) => long.divide(other),
            (Small { numer: 0, .. }, Big(_)) => Exact::ZERO,
            (Small { numer, denom }, Big(long)) => long.inverse().multiply_words((*numer, *denom)),
            (_, Small { numer, denom }) => {
                let (above, below) = if *numer < 0 { (-denom.get(), -numer) } else { (denom.get(), *numer) };
                match (NonZero::new(below), &self.0) {
                    (Some(below), Big(long)) => long.multiply_words((above, below)),
                    // The divisor is zero.
                    _ => Exact::from_wide(i128::from(above) / i128::from(below), 1),
                }
            }
        }
    }
}

/// Forwards an operation on values to the one on references.
macro_rules! by_value {
    ($($operation:ident $method:ident),*) => {$(
        impl $operation for Exact {
            type Output = Exact;
            fn $method(self, other: Exact) -> Exact { $operation::$method(&self, &other) }
        }
        impl $operation<&Exact> for Exact {
            type Output = Exact;
            fn $method(self, other: &Exact) -> Exact { $operation::$method(&self, other) }
        }
    )*};
}

by_value!(Add add, Sub sub, Mul mul, Div div);

impl Neg for Exact {
    type Output = Exact;

    fn neg(self) -> Exact {
        -&self
    }
}

impl AddAssign<&Exact> for Exact {
    fn add_assign(&mut self, other: &Exact) {
        *self = &*self + other;
    }
}

impl SubAssign<&Exact> for Exact {
    fn sub_assign(&mut self, other: &Exact) {
        *self = &*self - other;
    }
}

impl Sum for Exact {
    fn sum<I: Iterator<Item = Exact>>(terms: I) -> Exact {
        terms.fold(Exact::ZERO, |total, term| &total + &term)
    }
}

impl<'a> Sum<&'a Exact> for Exact {
    fn sum<I: Iterator<Item = &'a Exact>>(terms: I) -> Exact {
        terms.fold(Exact::ZERO, |total, term| &total + term)
    }
}

impl From<i64> for Exact {
    fn from(value: i64) -> Self {
        Self::quotient(value, ONE)
    }
}

impl From<i32> for Exact {
    fn from(value: i32) -> Self {
        Self::whole(value.into())
    }
}

impl From<u32> for Exact {
    fn from(value: u32) -> Self {
        Self::whole(value.into())
    }
}

impl From<u64> for Exact {
    fn from(value: u64) -> Self {
        Self::from_wide(value.into(), 1)
    }
}

impl Default for Exact {
    fn default() -> Self {
        Self::ZERO
    }
}
