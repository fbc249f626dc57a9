//! What the store room needs.

use levamen::{Error, Silent, StoreQuestion};
use levamen_views::{csv, json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{Form, Question, Request, Shown};
use crate::questions::dates::{Dated, Dates};

/// Some days, with what the store room has.
#[derive(Default)]
pub struct StoreRoom {
    dates: Dates,
    stock: Option<String>,
}

pub fn store() -> Question<StoreRoom> {
    Question::new("store", StoreRoom::default())
}

impl Dated for StoreRoom {
    fn dates(&mut self) -> &mut Dates {
        &mut self.dates
    }
}

impl Question<StoreRoom> {
    /// What there is, as a table beside the book says.
    pub fn stock(self, table: &str) -> Self {
        self.with("stock", table, |asked| asked.stock = Some(table.to_owned()))
    }
}

impl Request for StoreRoom {
    fn answer(&self, asked: &Asked, _: &str, shown: Shown) -> Result<Answer, Error> {
        let workspace = asked.workspace();
        let days = self.dates.days();
        let stock = self.stock.as_ref().map(|name| asked.table(name));
        let orders = asked.with_orders(|orders| levamen::store_orders(&workspace, &days, &orders))?;
        let report = levamen::store(&workspace, StoreQuestion { days, orders, stock }, &Silent)?;
        let sheet = &report.sheet;
        let answer = if shown.form == Form::Csv {
            Answer::table(&csv::store(sheet).unwrap())
        } else {
            shown.answer(|| json::StoreJson::from(sheet), || text::store(sheet))
        };
        Ok(answer.with_orders(&report.orders, shown).with_unfed(report.unfed))
    }
}
