//! How fast something grows at a temperature: the cardinal temperature model with inflection.
//!
//! L. Rosso, J. R. Lobry, J. P. Flandrois, "An unexpected correlation between cardinal temperatures of microbial
//! growth highlighted by a new model", Journal of Theoretical Biology 162 (1993) 447-463. Its three parameters are
//! temperatures that can be looked up in a table: where growth begins, where it is fastest, where it ends. The
//! formula was read in the documentation of the R package rTPC, `lrf_1991`.

/// The three temperatures of an organism, in degrees Celsius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cardinal {
    /// Under this nothing grows.
    pub least: f64,
    /// Here growth is fastest.
    pub best: f64,
    /// Over this nothing grows.
    pub most: f64,
}

impl Cardinal {
    /// The growth rate at a temperature in degrees Celsius, as a part of the fastest: 0 to 1.
    #[must_use]
    pub fn rate(&self, celsius: f64) -> f64 {
        let Self { least, best, most } = *self;
        // Also what is no number does not grow.
        if !(celsius > least && celsius < most) {
            return 0.0;
        }
        let rising = best - least;
        let bend = rising * (celsius - best) - (best - most) * (best + least - 2.0 * celsius);
        (celsius - most) * (celsius - least).powi(2) / (rising * bend)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const YEAST: Cardinal = Cardinal { least: 2.8, best: 32.3, most: 45.4 };

    #[test]
    fn full_speed_at_the_best_and_none_at_the_ends() {
        assert!((YEAST.rate(32.3) - 1.0).abs() < 1e-12);
        for still in [-10.0, 2.8, 45.4, 60.0, f64::NAN, f64::INFINITY] {
            assert!(YEAST.rate(still).abs() < 1e-12, "{still}");
        }
    }

    #[test]
    fn a_published_table_of_the_formula() {
        // The values that the documentation of the R package macrogrow prints for its `T_lim`, with 5, 20 and 30 °C.
        let seaweed = Cardinal { least: 5.0, best: 20.0, most: 30.0 };
        for (celsius, rate) in [(6.0, 0.02), (10.0, 0.333_333_33), (22.0, 0.963_333_3), (29.0, 0.196_923_08)]
        {
            assert!((seaweed.rate(celsius) - rate).abs() < 1e-6, "{celsius}");
        }
    }
}
