//! Sections: which facts are in them, and which only once.

use crate::card::{KEEPING, WORKING};
use crate::{Card, Form, IngredientPart, Kind, Statement};

/// What a block is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Section {
    Culture,
    Ingredient,
    Scale,
    Overall,
    Stage,
    FinalDough,
    Want,
    Card(&'static Card),
    /// The heading could not be read; anything may be here, so that one error is not reported many times.
    Unknown,
}

impl Section {
    /// How the section is named in a message.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::Culture => "a culture",
            Self::Ingredient => "an ingredient",
            Self::Scale => "a scale",
            Self::Overall => "`overall`",
            Self::Stage => "a stage",
            Self::FinalDough => "`final dough`",
            Self::Want => "`want`",
            Self::Card(card) => card.called,
            Self::Unknown => "this block",
        }
    }

    /// The forms of the facts that may be here.
    pub(crate) const fn facts(self) -> &'static str {
        match self {
            Self::Culture => {
                "NAME AMOUNT, `from`, `ripens`, `note`, and how it is kept: `keeps`, `usually`, `fed every`, `stored up to`, `hold`"
            }
            Self::Ingredient => {
                "`flour`, `rye flour`, `yeast`, `replaces`, `holds`, `density`, `spoils`, `keeps`, `source` and `note`"
            }
            Self::Card(_) => "its facts and `note`",
            Self::Scale => "`division`, `capacity` and `note`",
            Self::Overall => "NAME AMOUNT, `hydration` and `note`",
            Self::Stage | Self::Unknown => {
                "NAME AMOUNT, `from`, `takes`, `weighs`, `hydration`, `left over`, `loses`, `ripens`, `note` and a nested `stage`"
            }
            Self::FinalDough => "NAME AMOUNT, `from` and `note`",
            Self::Want => "FIGURE AMOUNT, also with `at most` or `at least`, and `note`",
        }
    }

    /// The forms of the facts that are read by their form alone.
    pub(crate) const fn forms(self) -> &'static [Form] {
        match self {
            Self::Card(card) => card.forms,
            Self::Culture => KEEPING,
            Self::Ingredient => WORKING,
            _ => &[],
        }
    }

    /// Whether a fact may be here.
    pub(crate) const fn holds(self, statement: &Statement<'_>) -> bool {
        use Statement as S;
        match self {
            Self::Culture => {
                matches!(statement, S::Weigh(_) | S::From(_) | S::Ripens(_) | S::Note(_) | S::Said(_))
            }
            Self::Ingredient => {
                matches!(
                    statement,
                    S::IsFlour
                        | S::Holds(_)
                        | S::Density(_)
                        | S::Spoils(_)
                        | S::Source(_)
                        | S::Note(_)
                        | S::Said(_)
                )
            }
            Self::Card(_) => matches!(statement, S::Said(_) | S::Note(_)),
            Self::Scale => matches!(statement, S::Division(_) | S::Capacity(_) | S::Note(_)),
            Self::Overall | Self::Want => matches!(statement, S::Weigh(_) | S::Hydration(_) | S::Note(_)),
            Self::FinalDough => matches!(statement, S::Weigh(_) | S::From(_) | S::Note(_)),
            Self::Stage => matches!(
                statement,
                S::Weigh(_)
                    | S::From(_)
                    | S::Takes(_)
                    | S::Weighs(_)
                    | S::Hydration(_)
                    | S::LeftOver(_)
                    | S::Loses(_)
                    | S::Ripens(_)
                    | S::Note(_)
            ),
            Self::Unknown => true,
        }
    }
}

/// How many kinds of facts may be in a block only once.
pub(crate) const ONCE: usize = 15;

/// The number of a fact that may be only once, below [`ONCE`].
pub(crate) const fn once(statement: &Statement<'_>) -> Option<usize> {
    Some(match statement {
        Statement::Takes(_) => 0,
        Statement::Weighs(_) => 1,
        Statement::Hydration(_) => 2,
        Statement::LeftOver(_) => 3,
        Statement::Loses(_) => 4,
        Statement::Ripens(_) => 5,
        Statement::IsFlour => 6,
        Statement::Density(_) => 7,
        Statement::Division(_) => 8,
        Statement::Capacity(_) => 9,
        Statement::Holds(holds) => match holds.part {
            IngredientPart::Water => 10,
            IngredientPart::Fat => 11,
            IngredientPart::Sugar => 12,
            IngredientPart::Salt => 13,
        },
        Statement::Spoils(_) => 14,
        _ => return None,
    })
}

/// Whether a stage of this kind can lose water as steam.
pub(crate) const fn steams(kind: Kind) -> bool {
    matches!(kind, Kind::Scald | Kind::Soaker)
}
