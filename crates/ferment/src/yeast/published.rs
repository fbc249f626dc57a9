//! Yeasted pre-ferments as they are printed: what the rule for the amount is drawn through, and what it is held against.

use levamen_language::YeastKind;

/// One printed pre-ferment: so much yeast, ripe after so long.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Published {
    /// Hours until it is ripe; of a span, the middle.
    pub hours: f64,
    /// Degrees Celsius; where the source says "room temperature", or nothing, 21.
    pub celsius: f64,
    /// Percent of the pre-ferment's own flour.
    pub percent: f64,
    /// Of which yeast.
    pub kind: YeastKind,
    /// Whether hours and yeast were read in the source. What is from memory carries no rule: it is only held against it.
    pub read: bool,
    /// Who says so, and how sure that is.
    pub source: &'static str,
}

const fn row(hours: f64, celsius: f64, percent: f64, kind: YeastKind, source: &'static str) -> Published {
    Published { hours, celsius, percent, kind, read: true, source }
}

const fn recalled(hours: f64, percent: f64, kind: YeastKind, source: &'static str) -> Published {
    Published { hours, celsius: 21.0, percent, kind, read: false, source }
}

/// `La Poolish`, mes-pains-maison.fr (2008): 20, 5 and 3 g of fresh yeast on a kilogram of flour; its 22 to 24 °C are those of
/// the long ones.
const FRENCH_PAGE: &str = "La Poolish, mes-pains-maison.fr (2008), at 22 to 24 °C";

/// The printed pre-ferments, longest first.
pub const PUBLISHED: [Published; 16] = [
    recalled(16.0, 0.175, YeastKind::Fresh, "J. Hamelman, Bread (2004), 0.1 to 0.25 %, from memory"),
    recalled(15.0, 0.03, YeastKind::Instant, "handbooks, from memory"),
    row(
        14.0,
        21.0,
        0.10,
        YeastKind::Instant,
        "M. Philip, Breaking Bread (2017), poolish baguette, 12 to 16 h",
    ),
    recalled(
        14.0,
        0.2,
        YeastKind::Fresh,
        "J. Hamelman, Bread (2004), stiff biga; its 12 to 16 h from memory",
    ),
    recalled(13.5, 0.1, YeastKind::Fresh, "D. Rosada on pre-ferments, 12 to 15 h, from memory"),
    recalled(12.0, 0.45, YeastKind::Fresh, "J. Hamelman, Bread (2004), 0.3 to 0.6 %, from memory"),
    row(
        12.0,
        21.0,
        0.2,
        YeastKind::Fresh,
        "M. Avery on a classic poolish, bread forum thefreshloaf.com, page 7341",
    ),
    row(12.0, 23.0, 0.3, YeastKind::Fresh, FRENCH_PAGE),
    row(10.0, 21.0, 0.5, YeastKind::Fresh, "a hobby baker's page (pilloud.ca), 5 g a litre of water"),
    recalled(8.0, 0.85, YeastKind::Fresh, "J. Hamelman, Bread (2004), 0.7 to 1 %, from memory"),
    row(8.0, 23.0, 0.5, YeastKind::Fresh, FRENCH_PAGE),
    recalled(7.5, 0.7, YeastKind::Fresh, "D. Rosada on pre-ferments, 7 to 8 h, from memory"),
    row(6.0, 21.0, 0.7, YeastKind::Fresh, "a hobby baker's page (pilloud.ca), 7 g a litre of water"),
    row(
        3.5,
        21.0,
        0.27,
        YeastKind::Instant,
        "P. Reinhart, The Bread Baker's Apprentice (2001), poolish, 3 to 4 h",
    ),
    recalled(3.0, 1.5, YeastKind::Fresh, "D. Rosada on pre-ferments, from memory"),
    row(2.0, 23.0, 2.0, YeastKind::Fresh, FRENCH_PAGE),
];
