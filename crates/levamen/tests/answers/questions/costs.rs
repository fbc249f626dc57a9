//! What doughs cost, and what the orders of a date do.

use jiff::civil::Date;
use levamen::{Error, Workspace};
use levamen_views::{json, text};

use crate::answer::Answer;
use crate::asked::Asked;
use crate::question::{Question, Request, Shown};

/// Some doughs; none are all of them.
pub struct DoughCosts {
    names: Vec<String>,
}

pub fn costs(doughs: &[&str]) -> Question<DoughCosts> {
    let words = [&["cost"], doughs].concat().join(" ");
    Question::new(&words, DoughCosts { names: doughs.iter().map(|name| (*name).to_owned()).collect() })
}

impl Request for DoughCosts {
    fn answer(&self, asked: &Asked, _: &str, shown: Shown) -> Result<Answer, Error> {
        let workspace = asked.workspace();
        let costs = levamen::dough_costs(&workspace, &self.names)?;
        let currency = costs.currency.as_deref();
        let as_json = || json::CostsJson {
            currency: costs.currency.clone(),
            doughs: costs.doughs.iter().map(json::DoughCostJson::from).collect(),
            orders: None,
        };
        let pages = || costs.doughs.iter().map(|dough| text::cost(dough, currency)).collect::<Vec<_>>();
        let words = || {
            if self.names.is_empty() { text::costs(&costs.by_name(), currency) } else { pages().join("\n") }
        };
        Ok(reminding(shown.answer(as_json, words), &workspace))
    }
}

/// The orders of a date.
pub struct CostsOfOrders {
    date: Date,
}

pub fn orders_costs(date: Date) -> Question<CostsOfOrders> {
    Question::new(&format!("cost --date {date}"), CostsOfOrders { date })
}

impl Request for CostsOfOrders {
    fn answer(&self, asked: &Asked, _: &str, shown: Shown) -> Result<Answer, Error> {
        let workspace = asked.workspace();
        let orders = asked.with_orders(|orders| levamen::cost_orders(&workspace, self.date, &orders))?;
        let costs = levamen::orders_costs(&workspace, self.date, orders)?;
        let as_json = || json::CostsJson {
            currency: costs.currency.clone(),
            doughs: Vec::new(),
            orders: Some(json::OrdersCostJson::from(&costs.cost)),
        };
        let words = || text::orders_cost(&costs.cost, costs.currency.as_deref());
        Ok(reminding(shown.answer(as_json, words), &workspace).with_orders(&costs.orders, shown))
    }
}

/// Says that the book has problems elsewhere.
fn reminding(mut answer: Answer, workspace: &Workspace) -> Answer {
    let words = match workspace.errors() {
        0 => return answer,
        1 => "1 problem".to_owned(),
        count => format!("{count} problems"),
    };
    answer.beside.extend(["the book has ", &words, " elsewhere: `levamen check` shows them\n"]);
    answer
}
