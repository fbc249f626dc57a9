//! What is shown of an answer, and what is said beside it.

use levamen::{Error, Orders, Texts};
use levamen_views::text;

use crate::question::Shown;

/// What is shown of an answer.
#[derive(Default)]
pub struct Answer {
    /// The answer.
    pub shown: String,
    /// What is said beside it.
    pub beside: String,
    /// Whether something of it is missing.
    pub is_incomplete: bool,
}

impl Answer {
    /// A table as an answer.
    pub fn table(bytes: &[u8]) -> Self {
        Self { shown: String::from_utf8(bytes.to_vec()).unwrap(), ..Self::default() }
    }

    /// Says what is wrong with the orders, before all else.
    pub fn with_orders(mut self, orders: &Orders, shown: Shown) -> Self {
        self.beside = plain(&text::problems(&Texts::default(), &orders.problems())) + &self.beside;
        self.is_incomplete |= !orders.is_complete() && !shown.skips_wrong;
        self
    }

    /// Says why cultures have no plan.
    pub fn with_unfed(mut self, unfed: Vec<Error>) -> Self {
        for error in unfed {
            self.is_incomplete = true;
            let words = match error {
                Error::Problems { problems, texts } => plain(&text::problems(&texts, &problems)),
                Error::Question(error) => format!("error: {error}\n"),
            };
            self.beside += &words;
        }
        self
    }
}

/// What a terminal would colour, without its colours.
pub fn plain(styled: &str) -> String {
    anstream::adapter::strip_str(styled).to_string()
}
