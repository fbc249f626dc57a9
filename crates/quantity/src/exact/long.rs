//! Exact numbers that do not fit in machine words.
//!
//! To bring a quotient to lowest terms takes far longer than any other step where its parts are long, so it is not done
//! at every step:
//!
//! - A step with a number of two words keeps lowest terms by divisors that fit in a word.
//! - A step with another long number looks for what is at hand: long parts whose ratio is a quotient of words
//!   ([`small_ratio`]). What is then left of common divisors stays, until the number is twice as long as it was in
//!   lowest terms.
//! - Two long numbers that have nothing at hand are brought to lowest terms.

use std::cmp::Ordering;
use std::num::NonZero;

use num_bigint::{BigInt, BigUint, Sign};
use num_integer::Integer;
use num_rational::BigRational;
use num_traits::{One, Signed, ToPrimitive, Zero};

use super::{Exact, Repr};

/// Up to this length in bits, both parts together, a number is always in lowest terms.
const SHORT: u64 = 512;

/// How many first binary digits of long numbers are compared.
const DIGITS: u64 = 126;

/// A quotient of big integers, not zero and not one.
#[derive(Clone)]
pub(super) struct Long {
    numer: BigInt,
    /// Above zero.
    denom: BigInt,
    /// The length in bits that it, or what it was made from, had in lowest terms.
    settled: u64,
}

/// A quotient of words: the denominator is above zero.
pub(super) type Words = (i64, NonZero<i64>);

impl Long {
    /// A number from its parts, of which the second is above zero; brought to lowest terms where it is short or has
    /// grown.
    pub fn pack(numer: BigInt, denom: BigInt, settled: u64) -> Exact {
        if numer.is_zero() {
            return Exact::ZERO;
        }
        if numer == denom {
            return Exact::ONE;
        }
        let bits = numer.bits() + denom.bits();
        if bits > SHORT && bits <= 2 * settled + SHORT {
            return Exact(Repr::Big(Box::new(Self { numer, denom, settled })));
        }
        let common = numer.gcd(&denom);
        let (numer, denom) = if common.is_one() { (numer, denom) } else { (numer / &common, denom / common) };
        match (i64::try_from(&numer), i64::try_from(&denom).ok().and_then(NonZero::new)) {
            (Ok(numer), Some(denom)) if numer != i64::MIN => Exact::from_words(numer, denom),
            _ => {
                let settled = numer.bits() + denom.bits();
                Exact(Repr::Big(Box::new(Self { numer, denom, settled })))
            }
        }
    }

    /// A number of words as one of big integers.
    pub fn from_words((numer, denom): Words) -> Self {
        Self { numer: numer.into(), denom: denom.get().into(), settled: 0 }
    }

    /// The number in lowest terms.
    pub fn to_big(&self) -> BigRational {
        if self.settled == self.numer.bits() + self.denom.bits() {
            return BigRational::new_raw(self.numer.clone(), self.denom.clone());
        }
        BigRational::new(self.numer.clone(), self.denom.clone())
    }

    pub fn is_negative(&self) -> bool {
        self.numer.is_negative()
    }

    pub fn to_f64(&self) -> f64 {
        BigRational::new_raw(self.numer.clone(), self.denom.clone()).to_f64().unwrap_or(f64::NAN)
    }

    pub fn floor(&self) -> Exact {
        Self::pack(self.numer.div_floor(&self.denom), BigInt::one(), self.settled)
    }

    pub fn negated(&self) -> Exact {
        Exact(Repr::Big(Box::new(Self {
            numer: -&self.numer,
            denom: self.denom.clone(),
            settled: self.settled,
        })))
    }

    /// One over the number.
    pub fn inverse(&self) -> Self {
        let (numer, denom) = match self.numer.sign() {
            Sign::Minus => (-&self.denom, -&self.numer),
            Sign::NoSign | Sign::Plus => (self.denom.clone(), self.numer.clone()),
        };
        Self { numer, denom, settled: self.settled }
    }

    pub fn compare(&self, other: &Self) -> Ordering {
        if self.denom == other.denom {
            return self.numer.cmp(&other.numer);
        }
        (&self.numer * &other.denom).cmp(&(&other.numer * &self.denom))
    }

    /// Adds a number of words. Whatever the sum has in common is in both denominators (D. E. Knuth, *The Art of Computer
    /// Programming* 2, section 4.5.1; from memory).
    pub fn add_words(&self, (numer, denom): Words) -> Exact {
        let denom = denom.get().unsigned_abs();
        let shared = rest(&self.denom, denom).gcd(&denom);
        let factor = denom / shared;
        let sum = &self.numer * factor + over(&self.denom, shared) * numer;
        let common = rest(&sum, shared).gcd(&shared);
        Self::pack(over(&sum, common), over(&self.denom, common) * factor, self.settled)
    }

    /// Multiplies with a number of words that is not zero.
    pub fn multiply_words(&self, (numer, denom): Words) -> Exact {
        let (size, below) = (numer.unsigned_abs(), denom.get().unsigned_abs());
        let (above, under) = (rest(&self.denom, size).gcd(&size), rest(&self.numer, below).gcd(&below));
        let product = over(&self.numer, under) * (size / above);
        let product = if numer < 0 { -product } else { product };
        Self::pack(product, over(&self.denom, above) * (below / under), self.settled)
    }

    pub fn add(&self, other: &Self) -> Exact {
        let settled = self.settled.max(other.settled);
        if self.denom == other.denom {
            return Self::pack(&self.numer + &other.numer, self.denom.clone(), settled);
        }
        if let Some((own, its)) = small_ratio(&self.denom, &other.denom) {
            return Self::pack(&self.numer * its + &other.numer * own, &self.denom * its, settled);
        }
        let sum = &self.numer * &other.denom + &other.numer * &self.denom;
        Self::pack(sum, &self.denom * &other.denom, 0)
    }

    pub fn multiply(&self, other: &Self) -> Exact {
        let settled = self.settled.max(other.settled);
        // own / its = numer / denom; the two long parts go out.
        if let Some((own, its)) = small_ratio(&self.numer, &other.denom) {
            return Self::pack(&other.numer * own, &self.denom * its, settled);
        }
        if let Some((its, own)) = small_ratio(&other.numer, &self.denom) {
            return Self::pack(&self.numer * its, &other.denom * own, settled);
        }
        Self::pack(&self.numer * &other.numer, &self.denom * &other.denom, 0)
    }

    pub fn divide(&self, other: &Self) -> Exact {
        let settled = self.settled.max(other.settled);
        let (numer, denom) = match small_ratio(&self.denom, &other.denom) {
            Some((own, its)) => (&self.numer * its, &other.numer * own),
            None => return self.multiply(&other.inverse()),
        };
        let signs = if denom.is_negative() { (-numer, -denom) } else { (numer, denom) };
        Self::pack(signs.0, signs.1, settled)
    }
}

/// The ratio of two long whole numbers, of which the second is above zero, where it is a quotient of words.
///
/// What one dough brings into another shares a long denominator, but for a small factor. It shows in the first digits:
/// Euclid's steps on those give the ratio, and a multiplication proves it. That is far shorter than Euclid on all
/// digits.
fn small_ratio(a: &BigInt, b: &BigInt) -> Option<(i64, i64)> {
    let bits = a.bits().max(b.bits());
    if a.bits().abs_diff(b.bits()) > 62 || bits < DIGITS {
        return None;
    }
    let first = |value: &BigInt| (value.magnitude() >> (bits - DIGITS)).to_u128();
    let (mut high, mut low) = (first(a)?, first(b)?);
    let ((mut p, mut before_p), (mut q, mut before_q)) = ((1_i64, 0_i64), (0_i64, 1_i64));
    loop {
        let quotient = i64::try_from(high / low).ok()?;
        (high, low) = (low, high % low);
        (p, before_p) = (quotient.checked_mul(p)?.checked_add(before_p)?, p);
        (q, before_q) = (quotient.checked_mul(q)?.checked_add(before_q)?, q);
        // What is left is no more than what the digits left out could make.
        if low <= u128::from(p.unsigned_abs()) + u128::from(q.unsigned_abs()) {
            let p = if a.is_negative() { -p } else { p };
            return (a * q == b * p).then_some((p, q));
        }
    }
}

/// What is left of a number's size divided by a word that is not zero.
fn rest(value: &BigInt, divisor: u64) -> u64 {
    if divisor == 1 { 0 } else { (value.magnitude() % divisor).to_u64().unwrap_or_default() }
}

/// A number over a word that divides it.
fn over(value: &BigInt, divisor: u64) -> BigInt {
    if divisor == 1 { value.clone() } else { value / BigInt::from(BigUint::from(divisor)) }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// A number of about a thousand digits, the same for the same seed.
    fn many_digits(seed: u64) -> BigInt {
        (0..50).fold(BigInt::from(seed | 1), |number, digit| number * (u64::MAX - seed % 1000) + digit)
    }

    /// Numbers that share a long denominator but for a small factor, as those of one dough do.
    fn relatives() -> impl Strategy<Value = (Exact, Exact)> {
        let one = (any::<i32>(), 1..5000_u32, any::<bool>(), any::<u64>());
        (any::<u64>(), one.clone(), one).prop_map(|(seed, a, b)| {
            let number = |(factor, divisor, is_inverse, own): (i32, u32, bool, u64)| {
                let (numer, denom) = (many_digits(own) * factor, many_digits(seed) * divisor);
                match (is_inverse, numer.sign()) {
                    (true, Sign::Plus) => Exact::from_parts(denom, numer),
                    _ => Exact::from_parts(numer, denom),
                }
            };
            (number(a), number(b))
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]

        #[test]
        fn relatives_agree_with_big_rationals((a, b) in relatives(), word in 1..100_i32) {
            let word = &Exact::from(word) / &Exact::from(7);
            for (a, b) in [(&a, &b), (&a, &word), (&word, &b), (&a, &a)] {
                prop_assert_eq!((a + b).to_big(), a.to_big() + b.to_big());
                prop_assert_eq!((a - b).to_big(), a.to_big() - b.to_big());
                prop_assert_eq!((a * b).to_big(), a.to_big() * b.to_big());
                prop_assert_eq!(a.cmp(b), a.to_big().cmp(&b.to_big()));
                if !b.is_zero() {
                    prop_assert_eq!((a / b).to_big(), a.to_big() / b.to_big());
                    prop_assert_eq!(&(a / b) * b, a.clone());
                }
            }
        }

        #[test]
        fn a_small_ratio_is_found_and_no_other(seed: u64, p in 1..1_000_000_i64, q in 1..1_000_000_i64) {
            let common = many_digits(seed);
            let (a, b) = (&common * p, &common * q);
            let divisor = p.gcd(&q);
            prop_assert_eq!(small_ratio(&a, &b), Some((p / divisor, q / divisor)));
            prop_assert_eq!(small_ratio(&-&a, &b), Some((-p / divisor, q / divisor)));
            prop_assert_eq!(small_ratio(&(a + 1), &b), None);
        }
    }
}
