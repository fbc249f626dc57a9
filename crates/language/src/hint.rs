//! Advice that may name a field of the question. What a field is called differs from one edge to the next: a command has an
//! option for it, a page a box. So the core says which field it is, and every edge spells it.

use std::fmt::{self, Display, Formatter};

/// A sentence of advice.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hint {
    /// The words before the field, or all of them.
    before: String,
    /// The field, and the words after it.
    named: Option<(AskedField, String)>,
}

/// What a question can say, wherever advice asks for it to be said or left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AskedField {
    /// What a pre-ferment is turned into.
    Target,
    /// Which pre-ferment is turned into another.
    Stage,
    /// How much of the flour is pre-fermented.
    Share,
    /// Water on flour of a pre-ferment.
    Hydration,
    /// Seed on flour.
    Seed,
    /// Whether the seed is given back.
    GivenBack,
    /// A culture.
    Culture,
    /// A flour of a pre-ferment.
    Flour,
    /// Which yeast, and how much.
    Yeast,
    /// How long a pre-ferment ripens.
    Hours,
    /// How warm it ripens.
    RipensAt,
    /// A name for what is made.
    Name,
    /// The figure of which there shall be most.
    Most,
    /// How many pieces.
    Pieces,
    /// Whether a piece for the next batch is made too.
    WithOldDough,
    /// At which hours somebody can feed.
    FeedAt,
    /// The first day.
    From,
    /// What is there at the start.
    OnHand,
    /// How warm the tap's water is.
    Tap,
    /// How warm the pre-ferment is.
    PreFerment,
    /// Measured batches.
    Noted,
    /// The unit of a table of weights.
    Unit,
    /// Whether wrong lines are left out.
    SkipWrong,
}

impl AskedField {
    /// Its name where no edge has one of its own.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Target => "target",
            Self::Stage => "stage",
            Self::Share => "share",
            Self::Hydration => "hydration",
            Self::Seed => "seed",
            Self::GivenBack => "given back",
            Self::Culture => "culture",
            Self::Flour => "flour",
            Self::Yeast => "yeast",
            Self::Hours => "hours",
            Self::RipensAt => "ripens at",
            Self::Name => "name",
            Self::Most => "most",
            Self::Pieces => "pieces",
            Self::WithOldDough => "with old dough",
            Self::FeedAt => "feed at",
            Self::From => "from",
            Self::OnHand => "on hand",
            Self::Tap => "tap",
            Self::PreFerment => "pre-ferment",
            Self::Noted => "noted batches",
            Self::Unit => "unit",
            Self::SkipWrong => "skip wrong lines",
        }
    }
}

impl Hint {
    /// Advice around a field: what goes before its name, and after it.
    #[must_use]
    pub fn of_field(before: impl Into<String>, field: AskedField, after: impl Into<String>) -> Self {
        Self { before: before.into(), named: Some((field, after.into())) }
    }

    /// The field that it names.
    #[must_use]
    pub fn field(&self) -> Option<AskedField> {
        self.named.as_ref().map(|(field, _)| *field)
    }

    /// The sentence, its field called as an edge calls it.
    #[must_use]
    pub fn spelled(&self, name: impl Fn(AskedField) -> &'static str) -> String {
        match &self.named {
            Some((field, after)) => format!("{}{}{after}", self.before, name(*field)),
            None => self.before.clone(),
        }
    }
}

impl<S: Into<String>> From<S> for Hint {
    fn from(words: S) -> Self {
        Self { before: words.into(), named: None }
    }
}

impl Display for Hint {
    fn fmt(&self, formatter: &mut Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.spelled(AskedField::word))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_is_called_as_the_edge_calls_it() {
        let hint = Hint::of_field("leave out `", AskedField::OnHand, "`");
        assert_eq!(hint.to_string(), "leave out `on hand`");
        assert_eq!(hint.spelled(|_| "--box"), "leave out `--box`");
        assert_eq!(hint.field(), Some(AskedField::OnHand));
        assert_eq!(Hint::from("weigh it again").spelled(|_| "--box"), "weigh it again");
    }
}
