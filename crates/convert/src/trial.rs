//! The book with one text more: a draft is read and balanced as it would be if it lay in the book.

use levamen_balance::{Balance, Balancer};
use levamen_formula::{Formula, FormulaId, OpenBook, Pantry};
use levamen_language::{Problem, TextId};

/// A book and the text that is tried in it.
#[derive(Debug)]
pub(crate) struct Trial {
    open: OpenBook,
    id: TextId,
    layer: usize,
}

/// A dough as it is read and balanced.
#[derive(Debug, Clone)]
pub(crate) struct TrialDough {
    pub formula: Formula,
    pub balance: Balance,
}

impl Trial {
    /// A book of layers of texts.
    pub fn new(layers: &[&[(TextId, &str)]]) -> Self {
        let highest = layers.iter().copied().flatten().map(|(id, _)| id.0).max();
        let mut open = OpenBook::read(layers);
        let (id, layer) = (TextId(highest.map_or(0, |id| id.saturating_add(1))), layers.len());
        open.insert(layer, 0, id, "");
        Self { open, id, layer }
    }

    /// The book.
    pub const fn open(&self) -> &OpenBook {
        &self.open
    }

    /// The ingredients of the book.
    pub fn pantry(&self) -> &Pantry {
        self.open.book().pantry()
    }

    /// The id of the text that is tried.
    pub const fn id(&self) -> TextId {
        self.id
    }

    /// A dough or culture of the book.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn balance(&self, id: FormulaId) -> Result<Balance, Vec<Problem>> {
        Balancer::new(self.open.book()).balance(id).cloned().map_err(<[Problem]>::to_vec)
    }

    /// A dough of the book with what it says.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn known(&self, id: FormulaId) -> Result<TrialDough, Vec<Problem>> {
        let entry = self.open.book().entry(id).ok_or_else(Vec::new)?;
        let formula = entry.formula.clone().ok_or_else(|| entry.problems.clone())?;
        Ok(TrialDough { formula, balance: self.balance(id)? })
    }

    /// The first dough of a text, as if it lay in the book.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read(&mut self, text: &str) -> Result<TrialDough, Vec<Problem>> {
        if self.open.edit(self.id, text).is_none() {
            self.open.insert(self.layer, 0, self.id, text);
        }
        let own =
            |problem: &&Problem| problem.primary.as_ref().is_some_and(|label| label.place.text == self.id);
        let first = self.open.book().entries().find(|(_, entry)| entry.place.text == self.id);
        let Some((id, _)) = first else { return Err(self.open.problems().filter(own).cloned().collect()) };
        self.known(id)
    }
}
