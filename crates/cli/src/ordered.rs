//! Orders for a command, and what is wrong with them.

use std::path::Path;

use levamen::{Error, Orders, OrdersQuestion, Texts};
use levamen_files::{OrderFileKind, OrderFiles};
use levamen_views::text;

use crate::args::OrderArguments;
use crate::failure::Failure;
use crate::progress::{CountUnit, ProgressLine};
use crate::{advice, dates, output};

impl OrderArguments {
    /// The files of orders that are named, or those of the book.
    ///
    /// # Errors
    /// One that is named is not there, or there are none.
    pub fn files(&self, book: &Path) -> Result<OrderFiles, Failure> {
        Ok(OrderFiles::find([&self.orders, &self.weekly, &self.exceptions], book)?)
    }

    /// Asks a question for which the orders are read.
    ///
    /// # Errors
    /// A date is none. What the question ends with.
    pub fn ask<T>(
        &self,
        files: &OrderFiles,
        ask: impl FnOnce(OrdersQuestion<'_>) -> Result<T, Error>,
    ) -> Result<T, Failure> {
        for (kind, usual) in files.left_out() {
            let (usual, option) = (usual.display(), option(*kind));
            output::notes(&[format!(
                "`{usual}` is not read, since `{option}` names other files in its place"
            )]);
        }
        let today = self.today.as_deref().map(|text| dates::date("--today", text)).transpose()?;
        let progress = ProgressLine::new("reading orders", CountUnit::Bytes);
        Ok(files.read(&progress, |files| ask(OrdersQuestion { files, today }))?)
    }

    /// How the command ends: lines that are wrong are a failure that was reported, unless they are to be skipped; and so is a
    /// culture that has no plan.
    ///
    /// # Errors
    /// The orders are incomplete, or a culture has no plan.
    pub fn settle(&self, orders: &Orders, unfed: Vec<Error>, as_json: bool) -> Result<(), Failure> {
        let is_fed = unfed.is_empty();
        for error in unfed {
            Failure::from(error).report(as_json);
        }
        if is_fed && (orders.is_complete() || self.skip_wrong) { Ok(()) } else { Err(Failure::Reported) }
    }
}

/// The option that names files of a kind.
const fn option(kind: OrderFileKind) -> &'static str {
    match kind {
        OrderFileKind::Orders => "--orders",
        OrderFileKind::Weekly => "--weekly",
        OrderFileKind::Exceptions => "--exceptions",
    }
}

/// Reports what is wrong with orders, on standard error. What was asked for is done with the other lines all the same.
pub fn report(orders: &Orders) {
    let mut problems = orders.problems();
    advice::spell_problems(&mut problems);
    if !problems.is_empty() {
        output::error(&text::problems(&Texts::default(), &problems));
    }
}
