//! How to mend a question, where that is the book's matter and the same for every edge.

use levamen_language::Hint;

use crate::error::QuestionError;

impl QuestionError {
    /// How to mend it by the book or by another name; empty where an edge has to say which of its fields to fill.
    #[must_use]
    pub fn advice(&self) -> Vec<Hint> {
        match self {
            Self::UnknownDough { near: Some(near), .. } | Self::UnknownStage { near: Some(near), .. } => {
                vec![format!("did you mean `{near}`?").into()]
            }
            Self::UnknownCulture { advice, .. } => vec![advice.as_str().into()],
            Self::UnknownStage { stages, .. } => listed("its stages are", stages),
            Self::UnknownRipening { stages, .. } => listed("those that ripen are", stages),
            Self::WhichStage { stages, .. } => listed("name one of them:", stages),
            Self::Figure { help, .. } => help.clone(),
            error => error.of_the_book().iter().map(|line| (*line).into()).collect(),
        }
    }

    fn of_the_book(&self) -> &'static [&'static str] {
        match self {
            Self::NothingToRelease { .. } => &["it follows from other lines; release one of those"],
            Self::NoPieceToAimAt { .. } => {
                &["write a line such as `make 24 pieces of 920 g`, or ask for `dough`"]
            }
            Self::NothingRipens { .. } => {
                &["write into its stage how long it takes you, such as `ripens 12 h at 21 °C`"]
            }
            Self::NoRipening { .. } => {
                &["write into it how long it takes you, such as `ripens 12 h at 21 °C`"]
            }
            Self::NoLeaven { .. } => &[
                "seed is a line such as `from mother culture 20 %` beside flour",
                "what is yeast says so in its ingredient: `yeast fresh`, `yeast instant` or how much fresh yeast it replaces",
            ],
            Self::NothingToFind => &["leave out the one that shall be found"],
            Self::NoTimeZone { .. } => {
                &["write its name in the IANA database, such as Europe/Lisbon, on the bakery's card"]
            }
            _ => &[],
        }
    }
}

fn listed(what: &str, names: &[String]) -> Vec<Hint> {
    if names.is_empty() { Vec::new() } else { vec![format!("{what} {}", names.join(", ")).into()] }
}
