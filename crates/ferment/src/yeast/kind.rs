//! Fresh, instant and active dry yeast for one another.

use levamen_quantity::{Exact, Share};

/// A kind of baker's yeast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum YeastKind {
    /// Fresh, pressed into blocks; also called compressed.
    Fresh,
    /// Dried, and mixed in as it is.
    Instant,
    /// Dried, and woken in water first.
    ActiveDry,
}

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
pub const KINDS: [KindRatio; 3] = [
    KindRatio {
        kind: YeastKind::Fresh,
        least: 100,
        usual: 100,
        most: 100,
        source: "what the others are counted by",
    },
    KindRatio {
        kind: YeastKind::Instant,
        least: 33,
        usual: 33,
        most: 40,
        source: "33: J. Hamelman, Bread (2004); 40: handbooks and makers, from memory",
    },
    KindRatio {
        kind: YeastKind::ActiveDry,
        least: 38,
        usual: 40,
        most: 50,
        source: "40: J. Hamelman, Bread (2004); 37.5: an old household table; 50: handbooks and makers, from memory",
    },
];

impl YeastKind {
    /// The kind's name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fresh => "fresh yeast",
            Self::Instant => "instant yeast",
            Self::ActiveDry => "active dry yeast",
        }
    }

    /// The kind that bakers mean by a name; `None` where it is no baker's yeast. Plain `yeast` is fresh (common
    /// practice).
    ///
    /// ```
    /// use levamen_ferment::YeastKind;
    ///
    /// assert_eq!(YeastKind::named("Instant  yeast"), Some(YeastKind::Instant));
    /// assert_eq!(YeastKind::named("yeast extract"), None);
    /// ```
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let words = name.to_lowercase();
        let words: Vec<&str> = words.split_whitespace().collect();
        match words.as_slice() {
            ["yeast" | "baker's" | "fresh" | "compressed", ..] if words.ends_with(&["yeast"]) => {
                Some(Self::Fresh)
            }
            ["instant", ..] if words.ends_with(&["yeast"]) => Some(Self::Instant),
            ["dry" | "dried" | "active", ..] if words.ends_with(&["yeast"]) => Some(Self::ActiveDry),
            _ => None,
        }
    }

    /// The kind's row of [`KINDS`].
    #[must_use]
    pub const fn ratio(self) -> &'static KindRatio {
        const TABLE: &[KindRatio; 3] = &KINDS;
        let [fresh, instant, active_dry] = TABLE;
        match self {
            Self::Fresh => fresh,
            Self::Instant => instant,
            Self::ActiveDry => active_dry,
        }
    }

    /// The share of this kind that does the work of a share of another kind, by the usual ratios.
    #[must_use]
    pub fn for_share(self, share: &Share, of: Self) -> Share {
        let ratio = &Exact::from(self.ratio().usual) / &Exact::from(of.ratio().usual);
        Share::from_fraction(share.fraction() * &ratio)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_says_the_kind() {
        for (name, kind) in [
            ("yeast", YeastKind::Fresh),
            ("fresh yeast", YeastKind::Fresh),
            ("compressed yeast", YeastKind::Fresh),
            ("instant yeast", YeastKind::Instant),
            ("active dry yeast", YeastKind::ActiveDry),
            ("dry yeast", YeastKind::ActiveDry),
        ] {
            assert_eq!(YeastKind::named(name), Some(kind), "{name}");
        }
        for name in ["", "nutritional yeast", "yeast extract", "dry milk", "fresh cream"] {
            assert_eq!(YeastKind::named(name), None, "{name}");
        }
    }

    #[test]
    fn kinds_there_and_back_are_exact() {
        let one = Share::from_percent(Exact::from_literal("1.2").unwrap());
        for row in &KINDS {
            assert_eq!(row.kind.ratio(), row);
            assert!(row.least <= row.usual && row.usual <= row.most);
            for other in &KINDS {
                assert_eq!(other.kind.for_share(&row.kind.for_share(&one, other.kind), row.kind), one);
            }
        }
        let dry = YeastKind::Instant.for_share(&one, YeastKind::Fresh);
        assert_eq!(dry.percent().to_decimal_string(), "0.396");
    }
}
