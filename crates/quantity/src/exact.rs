//! The exact rational number behind every figure.
//!
//! Nearly all figures of a dough are short decimals and their quotients, so numerator and denominator are kept
//! in one machine word each and reduced only when they no longer fit; a figure that still does not fit moves to
//! big integers (`long`). Nothing overflows and nothing is rounded.

mod arithmetic;
mod long;

use std::borrow::Cow;
use std::cmp::Ordering;
use std::fmt;
use std::num::NonZero;

use num_bigint::BigInt;
use num_integer::Integer;
use num_rational::BigRational;
use num_traits::Zero;

/// An exact rational number of any size.
///
/// Division by zero is an error of the caller: use [`Exact::checked_div`] where a divisor may be zero.
#[derive(Clone)]
pub struct Exact(Repr);

/// The two ways a number is stored. The small one need not be in lowest terms: reducing after every step is what
/// makes exact arithmetic slow.
#[derive(Clone)]
enum Repr {
    /// `numer / denom`, `denom > 0`, neither of them `i64::MIN`. A denominator that is never zero leaves its zero
    /// to tell the two ways apart, so that a number takes two words.
    Small { numer: i64, denom: NonZero<i64> },
    /// A number whose reduced parts do not fit in a word.
    Big(Box<Long>),
}

use Repr::{Big, Small};
use long::Long;

/// The denominator of a whole number.
const ONE: NonZero<i64> = match NonZero::new(1) {
    Some(one) => one,
    None => NonZero::<i64>::MAX,
};

impl Exact {
    /// Nothing.
    pub const ZERO: Self = Self::whole(0);
    /// One.
    pub const ONE: Self = Self::whole(1);
    /// One hundred, the total flour of a baker's percentage.
    pub const HUNDRED: Self = Self::whole(100);

    /// A whole number that is not `i64::MIN`.
    const fn whole(numer: i64) -> Self {
        Self(Small { numer, denom: ONE })
    }

    /// The quotient of two words, as it is.
    #[must_use]
    #[inline]
    pub fn quotient(numer: i64, denom: NonZero<i64>) -> Self {
        if numer == i64::MIN || denom.is_negative() {
            return Self::from_wide(numer.into(), denom.get().into());
        }
        Self::from_words(numer, denom)
    }

    /// A quotient whose parts are known to fit: `numer` above `i64::MIN`, `denom` above zero.
    pub(crate) fn from_words(numer: i64, denom: NonZero<i64>) -> Self {
        Self(Small { numer, denom })
    }

    /// The quotient of two whole numbers; `None` where `denom` is zero.
    #[must_use]
    pub fn ratio(numer: i64, denom: i64) -> Option<Self> {
        (denom != 0).then(|| Self::from_wide(numer.into(), denom.into()))
    }

    /// Packs a quotient of wide whole numbers, reducing it only where it must be.
    #[cold]
    fn from_wide(numer: i128, denom: i128) -> Self {
        let (numer, denom) = if denom < 0 { (-numer, -denom) } else { (numer, denom) };
        if let Some(small) = pack(numer, denom) {
            return small;
        }
        let common = common_divisor(numer.unsigned_abs(), denom.unsigned_abs());
        let (numer, denom) = (numer / common, denom / common);
        pack(numer, denom).unwrap_or_else(|| Long::pack(numer.into(), denom.into(), 0))
    }

    /// The number as a quotient of big integers.
    fn to_long(&self) -> Cow<'_, Long> {
        match &self.0 {
            Small { numer, denom } => Cow::Owned(Long::from_words((*numer, *denom))),
            Big(value) => Cow::Borrowed(value),
        }
    }

    /// The number as a reduced quotient of big integers.
    pub(crate) fn to_big(&self) -> BigRational {
        match &self.0 {
            Small { numer, denom } => BigRational::new((*numer).into(), denom.get().into()),
            Big(value) => value.to_big(),
        }
    }

    /// A quotient of big integers; the denominator is above zero.
    pub(crate) fn from_parts(numer: BigInt, denom: BigInt) -> Self {
        Long::pack(numer, denom, 0)
    }

    /// The quotient that the number is stored as: numerator and denominator, the second above zero. It is not always in
    /// lowest terms. `None` where it is stored in longer parts.
    #[must_use]
    #[inline]
    pub const fn in_words(&self) -> Option<(i64, NonZero<i64>)> {
        match &self.0 {
            Small { numer, denom } => Some((*numer, *denom)),
            Big(_) => None,
        }
    }

    /// Whether the number is stored in machine words; others are of any length, and slower.
    #[must_use]
    pub const fn is_in_words(&self) -> bool {
        matches!(self.0, Small { .. })
    }

    /// Whether the number is zero.
    #[must_use]
    pub fn is_zero(&self) -> bool {
        matches!(self.0, Small { numer: 0, .. })
    }

    /// Whether the number is one.
    #[must_use]
    pub fn is_one(&self) -> bool {
        matches!(self.0, Small { numer, denom } if numer == denom.get())
    }

    /// Whether the number is below zero.
    #[must_use]
    pub fn is_negative(&self) -> bool {
        match &self.0 {
            Small { numer, .. } => *numer < 0,
            Big(value) => value.is_negative(),
        }
    }

    /// Whether the number is above zero.
    #[must_use]
    pub fn is_positive(&self) -> bool {
        !self.is_zero() && !self.is_negative()
    }

    /// The number without its sign.
    #[must_use]
    pub fn abs(&self) -> Self {
        if self.is_negative() { -self } else { self.clone() }
    }

    /// Adds a product to this number: the step of which every sum of shares is made.
    #[inline]
    pub fn add_product(&mut self, a: &Self, b: &Self) {
        match &b.0 {
            Small { numer: 1, denom: ONE } => *self += a,
            Small { numer: -1, denom: ONE } => *self -= a,
            _ => *self += &(a * b),
        }
    }

    /// The same number in lowest terms. What goes into many products should be: numbers then stay in a word.
    #[must_use]
    pub fn reduced(self) -> Self {
        match self.0 {
            Small { numer, denom } => {
                let common = numer.unsigned_abs().gcd(&denom.get().unsigned_abs());
                let common = i64::try_from(common).unwrap_or(1);
                NonZero::new(denom.get() / common)
                    .map_or(self, |denom| Self::from_words(numer / common, denom))
            }
            Big(_) => self,
        }
    }

    /// The quotient; `None` where the divisor is zero.
    #[must_use]
    pub fn checked_div(&self, divisor: &Self) -> Option<Self> {
        (!divisor.is_zero()).then(|| self / divisor)
    }

    /// The largest whole number not above this one, as an exact number.
    #[must_use]
    pub fn floor(&self) -> Self {
        match &self.0 {
            Small { numer, denom } => Self::whole(Integer::div_floor(numer, &denom.get())),
            Big(value) => value.floor(),
        }
    }

    /// The denominator in lowest terms: the least whole number that makes a whole number of this one.
    #[must_use]
    pub fn denominator(&self) -> Self {
        Self::from_parts(self.to_big().denom().clone(), BigInt::from(1))
    }

    /// The nearest whole multiple of `division` (above zero); half a division goes up.
    #[must_use]
    pub fn round_to(&self, division: &Self) -> Self {
        let half = &Self::ONE / &Self::whole(2);
        &(&(self / division) + &half).floor() * division
    }

    /// The number in floating point, for plots and models; never for a weight.
    #[must_use]
    pub fn to_f64(&self) -> f64 {
        match &self.0 {
            Small { numer, denom } => Long::from_words((*numer, *denom)).to_f64(),
            Big(value) => value.to_f64(),
        }
    }

    /// The number as a machine word, where it is whole and fits.
    #[must_use]
    pub fn to_i64(&self) -> Option<i64> {
        match &self.0 {
            Small { numer, denom } => (numer % denom.get() == 0).then(|| numer / denom.get()),
            // A long number need not be in lowest terms: it may be a whole one.
            Big(value) => match value.floor() {
                Self(Small { numer, denom: ONE }) if Self::whole(numer) == *self => Some(numer),
                _ => None,
            },
        }
    }
}

/// The greatest common divisor, of which the second is not zero. Euclid's steps until a word is enough.
fn common_divisor(mut a: u128, mut b: u128) -> i128 {
    while b != 0 {
        if let (Ok(a), Ok(b)) = (u64::try_from(a), u64::try_from(b)) {
            return a.gcd(&b).into();
        }
        (a, b) = (b, a % b);
    }
    i128::try_from(a).unwrap_or(1)
}

/// A quotient that fits in a word as it is.
fn pack(numer: i128, denom: i128) -> Option<Exact> {
    match (i64::try_from(numer), i64::try_from(denom).ok().and_then(NonZero::new)) {
        (Ok(numer), Some(denom)) if numer != i64::MIN => Some(Exact(Small { numer, denom })),
        _ => None,
    }
}

impl PartialEq for Exact {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Exact {}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Exact {
    fn cmp(&self, other: &Self) -> Ordering {
        match (&self.0, &other.0) {
            (Small { numer: a, denom: b }, Small { numer: c, denom: d }) => {
                let (b, d) = (b.get(), d.get());
                (i128::from(*a) * i128::from(d)).cmp(&(i128::from(*c) * i128::from(b)))
            }
            _ => self.to_long().compare(&other.to_long()),
        }
    }
}

/// Shows the number as a reduced fraction, the form that loses nothing.
impl fmt::Debug for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let value = self.to_big();
        if value.denom() == &BigInt::from(1) {
            write!(f, "{}", value.numer())
        } else {
            write!(f, "{}/{}", value.numer(), value.denom())
        }
    }
}

impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.to_decimal_string())
    }
}

impl Zero for Exact {
    fn zero() -> Self {
        Self::ZERO
    }

    fn is_zero(&self) -> bool {
        Exact::is_zero(self)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn ratio(numer: i64, denom: i64) -> Exact {
        Exact::ratio(numer, denom).unwrap()
    }

    #[test]
    fn a_count_beyond_a_word_with_a_sign_keeps_all_its_digits() {
        assert_eq!(Exact::from(u64::MAX).to_decimal_string(), "18446744073709551615");
        assert_eq!(Exact::from(7_u64), Exact::from(7));
    }

    #[test]
    fn a_number_takes_two_words() {
        assert_eq!(size_of::<Exact>(), 16);
    }

    #[test]
    fn a_third_three_times_is_one() {
        let third = ratio(1, 3);
        assert_eq!(&(&third + &third) + &third, Exact::ONE);
    }

    #[test]
    fn the_ends_of_the_word_do_not_overflow() {
        for edge in [i64::MIN, i64::MIN + 1, i64::MAX] {
            let value = Exact::from(edge);
            assert_eq!(-&-&value, value);
            assert_eq!(&(&value * &value) / &value, value);
            assert_eq!(&value - &value, Exact::ZERO);
        }
    }

    #[test]
    fn what_fits_in_a_word_is_told_from_what_does_not() {
        let large = &Exact::from(i64::MAX) * &Exact::from(i64::MAX);
        assert_eq!(large.to_i64(), None);
        assert_eq!((&large / &Exact::from(7)).to_i64(), None);
        assert_eq!((&large / &large).to_i64(), Some(1));
        let longest = (0..20).fold(large, |number, _| &number * &Exact::from(i64::MAX - 1));
        assert_eq!(longest.to_i64(), None);
        assert_eq!((&(&longest * &ratio(5, 7)) / &longest).to_i64(), None);
        assert_eq!((&(&longest * &ratio(5, 1)) / &longest).to_i64(), Some(5));
    }

    #[test]
    fn rounding_goes_to_the_nearest_multiple_and_up_from_half() {
        let five = Exact::from(5);
        assert_eq!(Exact::from(1232).round_to(&five), Exact::from(1230));
        assert_eq!(ratio(25, 2).round_to(&five), Exact::from(15));
        assert_eq!(ratio(-25, 2).round_to(&five), Exact::from(-10));
    }

    /// Numbers of every size: small ones, and ones that must move to big integers.
    fn any_exact() -> impl Strategy<Value = Exact> {
        (any::<i64>(), 1..=i64::MAX, 0u32..12).prop_map(|(numer, denom, power)| {
            let base = ratio(numer, denom);
            (0..power).fold(base.clone(), |value, _| &value * &base)
        })
    }

    proptest! {
        #[test]
        fn arithmetic_agrees_with_big_rationals(a in any_exact(), b in any_exact()) {
            prop_assert_eq!((&a + &b).to_big(), a.to_big() + b.to_big());
            prop_assert_eq!((&a - &b).to_big(), a.to_big() - b.to_big());
            prop_assert_eq!((&a * &b).to_big(), a.to_big() * b.to_big());
            if !b.is_zero() {
                prop_assert_eq!((&a / &b).to_big(), a.to_big() / b.to_big());
            }
            prop_assert_eq!(a.cmp(&b), a.to_big().cmp(&b.to_big()));
            prop_assert_eq!(a.floor().to_big(), a.to_big().floor());
        }
    }
}
