//! Lengths of time, in minutes.

use crate::Exact;

/// A length of time; exact, stored in minutes.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Duration(Exact);

/// A unit of time that a baker may write.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum TimeUnit {
    /// `h`
    Hour,
    /// `min`
    Minute,
}

impl TimeUnit {
    /// All units, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::Hour, Self::Minute];

    /// How the unit is written.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Hour => "h",
            Self::Minute => "min",
        }
    }
}

impl Duration {
    /// A length of time in the unit it was written in.
    #[must_use]
    pub fn from_unit(figure: &Exact, unit: TimeUnit) -> Self {
        match unit {
            TimeUnit::Hour => Self(figure * &Exact::from(60)),
            TimeUnit::Minute => Self(figure.clone()),
        }
    }

    /// The length in a unit.
    #[must_use]
    pub fn in_unit(&self, unit: TimeUnit) -> Exact {
        match unit {
            TimeUnit::Hour => &self.0 / &Exact::from(60),
            TimeUnit::Minute => self.0.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ninety_minutes_are_an_hour_and_a_half() {
        let long = Duration::from_unit(&Exact::from(90), TimeUnit::Minute);
        assert_eq!(long.in_unit(TimeUnit::Hour).to_decimal_string(), "1.5");
    }
}
