//! How strong a baker's yeast is beside fresh yeast, so that one stands for another.

use levamen_language::YeastKind;
use levamen_quantity::{Exact, Share};

/// How much of a kind does the work of fresh yeast.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KindRatio {
    /// The kind.
    pub kind: YeastKind,
    /// Parts for 100 parts of fresh, in the handbook that takes least.
    pub least: u32,
    /// Parts for 100 parts of fresh that are counted with.
    pub usual: u32,
    /// Parts for 100 parts of fresh, in the handbook that takes most.
    pub most: u32,
    /// Who says so.
    pub source: &'static str,
}

/// Parts of each kind for 100 parts of fresh yeast.
pub const KINDS: [KindRatio; 4] = [
    KindRatio {
        kind: YeastKind::Fresh,
        least: 100,
        usual: 100,
        most: 100,
        source: "what the others are counted by",
    },
    KindRatio {
        kind: YeastKind::ActiveDry,
        least: 38,
        usual: 40,
        most: 50,
        source: "40: J. Hamelman, Bread (2004); 37.5: an old household table; 50: handbooks and makers, from memory",
    },
    KindRatio {
        kind: YeastKind::Instant,
        least: 33,
        usual: 33,
        most: 40,
        source: "33: J. Hamelman, Bread (2004); 40: handbooks and makers, from memory",
    },
    KindRatio {
        kind: YeastKind::Osmotolerant,
        least: 33,
        usual: 33,
        most: 40,
        source: "counted as instant yeast, which it is, in a sweet dough: common practice, no source; in a lean dough it \
                 is slower",
    },
];

/// How strong a yeast is: the parts of fresh yeast that one part of it replaces; above zero.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Strength(Exact);

impl Strength {
    /// What is usual for a kind: see [`KINDS`].
    ///
    /// ```
    /// use levamen_ferment::{Strength, YeastKind};
    /// use levamen_quantity::{Exact, Share};
    ///
    /// let fresh = Share::from_percent(Exact::from(1));
    /// let instant = Strength::usual(YeastKind::Instant).for_share(&fresh, &Strength::usual(YeastKind::Fresh));
    /// assert_eq!(instant.percent().to_decimal_string(), "0.33");
    /// ```
    #[must_use]
    pub fn usual(kind: YeastKind) -> Self {
        let row = KINDS.iter().find(|row| row.kind == kind);
        let parts = Exact::from(row.map_or(100, |row| row.usual));
        Self(Exact::HUNDRED.checked_div(&parts).unwrap_or(Exact::ONE))
    }

    /// What a baker says of a yeast: its own strength goes before that of its kind. `None` where nothing is said, or
    /// a strength of nothing.
    #[must_use]
    pub fn said(kind: Option<YeastKind>, replaces: Option<&Exact>) -> Option<Self> {
        match replaces {
            Some(parts) => parts.is_positive().then(|| Self(parts.clone())),
            None => kind.map(Self::usual),
        }
    }

    /// The share of a yeast of this strength that does the work of a share of another.
    #[must_use]
    pub fn for_share(&self, share: &Share, of: &Self) -> Share {
        // Neither is zero.
        let ratio = of.0.checked_div(&self.0).unwrap_or(Exact::ONE);
        Share::from_fraction(share.fraction() * &ratio)
    }

    /// The parts of this yeast that do the work of one part of instant yeast, in which models count.
    pub(crate) fn for_instant(&self) -> f64 {
        Self::usual(YeastKind::Instant).0.to_f64() / self.0.to_f64()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_there_and_back_are_exact() {
        let one = Share::from_percent(Exact::from_literal("1.2").unwrap());
        for row in &KINDS {
            assert!(row.least <= row.usual && row.usual <= row.most);
            let own = Strength::usual(row.kind);
            for other in KINDS.iter().map(|row| Strength::usual(row.kind)) {
                assert_eq!(other.for_share(&own.for_share(&one, &other), &own), one);
            }
        }
        let [fresh, instant] = [YeastKind::Fresh, YeastKind::Instant].map(Strength::usual);
        assert_eq!(instant.for_share(&one, &fresh).percent().to_decimal_string(), "0.396");
    }

    #[test]
    fn every_kind_has_its_row() {
        assert_eq!(KINDS.map(|row| row.kind), YeastKind::ALL);
    }

    #[test]
    fn what_the_baker_says_goes_before_the_kind() {
        let three = Exact::from(3);
        assert_eq!(Strength::said(Some(YeastKind::Fresh), Some(&three)), Some(Strength(three.clone())));
        assert_eq!(Strength::said(None, Some(&three)), Some(Strength(three)));
        assert_eq!(Strength::said(Some(YeastKind::Instant), None), Some(Strength::usual(YeastKind::Instant)));
        assert_eq!(Strength::said(None, None), None);
        assert_eq!(Strength::said(Some(YeastKind::Fresh), Some(&Exact::ZERO)), None);
    }
}
