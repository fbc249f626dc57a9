//! A dough of the book: its formula, its bench sheet, why a figure is what it is, and beside another dough.

use std::sync::Arc;

use levamen_balance::{Balance, BalanceSource, Comparison, StatedSize, Why};
use levamen_formula::{FormulaId, Role};
use levamen_language::Texts;
use levamen_sheets::{FormulaSheet, Sheet};

use crate::error::{Error, Field, QuestionError};
use crate::size::BatchSize;
use crate::wishes::{Held, Wishes, ask};
use crate::workspace::Workspace;

/// One dough of a book and the file that it stands in.
#[derive(Debug, Clone)]
pub struct ListedDough {
    /// The dough's name.
    pub dough: String,
    /// The file, as the reader knows it.
    pub file: String,
    /// Its figures; `None` where the dough has problems.
    pub balance: Option<Arc<Balance>>,
}

/// A dough at a size.
#[derive(Debug)]
pub struct FormulaReport {
    /// Every figure of it.
    pub balance: Balance,
}

impl FormulaReport {
    /// The formula with all that follows from its size.
    ///
    /// # Errors
    /// Its pieces are more than can be counted.
    pub fn sheet(&self) -> Result<FormulaSheet<'_>, Error> {
        Ok(FormulaSheet::new(self.balance.batch())?)
    }
}

/// Why a figure is what it is.
#[derive(Debug)]
pub struct Explanation {
    /// The reasons.
    pub why: Why,
    /// The texts that the reasons are in.
    pub texts: Texts,
}

/// The doughs of the book, in its order.
#[must_use]
pub fn list(workspace: &Workspace) -> Vec<ListedDough> {
    let doughs = workspace.book().entries().filter(|(_, entry)| entry.role == Role::Dough);
    let listed = doughs.map(|(id, entry)| ListedDough {
        dough: entry.name.clone(),
        file: workspace.texts().name(entry.place.text).to_owned(),
        balance: BalanceSource::balance(workspace, id).ok(),
    });
    listed.collect()
}

/// A dough with what is wished for, at a size.
///
/// # Errors
/// It does not balance, cannot be as it is wished, or the size does not fit it.
pub fn formula(
    workspace: &Workspace,
    id: FormulaId,
    wishes: &Wishes,
    size: &BatchSize,
) -> Result<FormulaReport, Error> {
    let balance = if wishes.are_none() {
        Arc::unwrap_or_clone(workspace.balance(id)?)
    } else {
        Arc::unwrap_or_clone(workspace.with_cards(id, Arc::new(wishes.balance(workspace, id)?)))
    };
    Ok(FormulaReport { balance: size.apply(balance)? })
}

/// A dough at a size: as [`formula`], where something says how much is made.
///
/// # Errors
/// As [`formula`]; nothing says how much to make, in the question or in the file.
pub fn scaled(
    workspace: &Workspace,
    id: FormulaId,
    wishes: &Wishes,
    size: &BatchSize,
) -> Result<FormulaReport, Error> {
    let report = formula(workspace, id, wishes, size)?;
    match report.balance.size {
        StatedSize::Open => Err(QuestionError::NoSize { dough: report.balance.dough }.into()),
        _ => Ok(report),
    }
}

/// The bench sheet of a dough.
///
/// # Errors
/// As [`formula`].
pub fn sheet(
    workspace: &Workspace,
    id: FormulaId,
    wishes: &Wishes,
    size: &BatchSize,
) -> Result<Sheet, Error> {
    let FormulaReport { balance } = formula(workspace, id, wishes, size)?;
    Ok(Sheet::new(&balance.batch(), &workspace.book().scales())?)
}

/// Why a figure of a dough is what it is, down to the lines of its file.
///
/// # Errors
/// The dough does not balance, cannot be as it is wished, or has no such figure.
pub fn why(
    workspace: &Workspace,
    id: FormulaId,
    figure: &str,
    wishes: &Wishes,
) -> Result<Explanation, Error> {
    let held = if wishes.are_none() { None } else { Some(wishes.held(workspace, id)?) };
    if held.is_none() {
        workspace.balance(id)?;
    }
    let (why, texts) = if let Some(Held { formula, texts }) = held {
        let asked = ask(Field::Figure, figure, &formula, workspace)?;
        (workspace.with_balancer(|balancer| balancer.why_as(&formula, asked)), texts)
    } else {
        let formula = workspace.book().entry(id).and_then(|entry| entry.formula.as_ref());
        let formula = formula.ok_or_else(|| workspace.fail(Vec::new()))?;
        let asked = ask(Field::Figure, figure, formula, workspace)?;
        (workspace.with_balancer(|balancer| balancer.why(id, asked)), workspace.texts().clone())
    };
    match why {
        Ok(why) => Ok(Explanation { why, texts }),
        Err(problems) => Err(Error::Problems { problems, texts }),
    }
}

/// Two doughs side by side, from the same flour unless each is to be as its file says. The second may be of another workspace: a
/// text that takes precedence over the book is read for one of them.
///
/// # Errors
/// One of them does not balance, or cannot be as it is wished.
pub fn compare(
    first: (&Workspace, FormulaId),
    second: (&Workspace, FormulaId),
    wishes: &Wishes,
    as_written: bool,
) -> Result<Comparison, Error> {
    let one = first.0.balance(first.1)?;
    let other = if wishes.are_none() {
        Arc::unwrap_or_clone(second.0.balance(second.1)?)
    } else {
        wishes.balance(second.0, second.1)?
    };
    let one = one.batch();
    let other = if as_written { other.batch() } else { other.with_flour(one.flour().clone()) };
    Ok(Comparison::new([&one, &other]))
}
