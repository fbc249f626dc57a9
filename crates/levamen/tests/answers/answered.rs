//! Each question put to the library, and its report shown.

use levamen::{
    Error, FormulaReport, GrowthReport, Orders, Severity, Silent, StoreQuestion, Texts, Workspace, check,
    compare, convert, cost_orders, day, day_orders, dough_costs, feed, formula, new_culture, orders_costs,
    ripen, scaled, sheet, store, store_orders, tubs, water, why,
};
use levamen_views::{csv, json, plot, text};
use serde::Serialize;

use crate::asked::{Answer, Asked, plain};
use crate::options::Options;

type Answered = Result<Answer, Error>;

impl Asked {
    pub fn formula(&self, over: &str, options: &Options<'_>, is_scaled: bool) -> Answered {
        let (workspace, id) = self.dough(over, options.name())?;
        let ask = if is_scaled { scaled } else { formula };
        let report: FormulaReport = ask(&workspace, id, &options.wishes(), &options.size())?;
        let sheet = report.sheet()?;
        Ok(options.show(|| json::FormulaJson::from(&sheet), || text::formula(&sheet)))
    }

    pub fn sheet(&self, over: &str, options: &Options<'_>) -> Answered {
        let (workspace, id) = self.dough(over, options.name())?;
        let sheet = sheet(&workspace, id, &options.wishes(), &options.size())?;
        if options.get("as") == Some("csv") {
            return Ok(table(&csv::sheet(&sheet).unwrap()));
        }
        Ok(options.show(|| json::SheetJson::from(&sheet), || text::sheet(&sheet)))
    }

    pub fn why(&self, over: &str, options: &Options<'_>) -> Answered {
        let (workspace, id) = self.dough(over, options.name())?;
        let figure = options.names[1..].join(" ");
        let found = why(&workspace, id, &figure, &options.wishes())?;
        Ok(options
            .show(|| json::WhyJson::new(&found.why, &found.texts), || text::why(&found.why, &found.texts)))
    }

    pub fn compare(&self, over: &str, options: &Options<'_>) -> Answered {
        let (first, id) = self.dough(over, options.name())?;
        let other = options.names.get(1).map(|name| self.dough(over, name)).transpose()?;
        let second = other.as_ref().map_or((&first, id), |(book, id)| (book, *id));
        let found = compare((&first, id), second, &options.wishes(), options.has("as-written"))?;
        Ok(options.show(|| json::ComparisonJson::from(&found), || text::compare(&found)))
    }

    pub fn convert(&self, over: &str, options: &Options<'_>) -> Answered {
        let (workspace, id) = self.dough(over, options.name())?;
        let found = convert(&workspace, id, &options.conversion(), |_| false)?;
        if options.has("json") {
            return Ok(options.show(|| json::ConversionJson::from(&found), String::new));
        }
        let beside = format!("\n{}", text::conversion(&found));
        Ok(Answer { shown: found.done.text, beside, is_incomplete: false })
    }

    pub fn ripen(&self, over: &str, options: &Options<'_>) -> Answered {
        let (workspace, id) = self.dough(over, options.name())?;
        let is_drawn = options.has("plot");
        let stage = options.names.get(1).copied();
        let report = ripen(&workspace, id, stage, options.ripen(), is_drawn)?;
        let drawn = report.growth.as_ref().map(|growth| format!("\n{}", plot::terminal(growth)));
        let words = || text::ripe(&report) + &drawn.unwrap_or_default();
        Ok(options.show(|| json::RipeJson::from(&report), words))
    }

    pub fn water(&self, over: &str, options: &Options<'_>) -> Answered {
        let (workspace, id) = self.dough(over, options.name())?;
        let noted = options.get("noted").map(|name| self.table(name));
        let answer = water(&workspace, id, &options.water(noted)?)?;
        Ok(options.show(|| json::WaterJson::from(&answer), || text::water(&answer)))
    }

    pub fn tubs(&self, over: &str, options: &Options<'_>) -> Answered {
        let (workspace, id) = self.dough(over, options.name())?;
        let plan = tubs(&workspace, id, options.volumes("tubs"), options.mass("dough"))?;
        Ok(options.show(|| json::TubPlanJson::from(&plan), || text::tubs(&plan)))
    }

    pub fn feed(&self, options: &Options<'_>) -> Answered {
        let workspace = self.workspace();
        if let Some(name) = options.get("new") {
            let sheet = new_culture(&workspace, name)?;
            return Ok(options.show(|| json::NewCultureJson::from(&sheet), || text::new_culture(&sheet)));
        }
        let sheets = feed(&workspace, &options.feed(), &self.table(options.get("need").unwrap()))?;
        let pages = || sheets.iter().map(text::feed).collect::<Vec<_>>().join("\n");
        Ok(options.show(|| sheets.iter().map(json::FeedJson::from).collect::<Vec<_>>(), pages))
    }

    pub fn cost(&self, options: &Options<'_>) -> Answered {
        let workspace = self.workspace();
        if let Some(date) = options.get("date") {
            let date = date.parse().unwrap();
            let orders = self.with_orders(|orders| cost_orders(&workspace, date, &orders))?;
            let costs = orders_costs(&workspace, date, orders)?;
            let as_json = || json::CostsJson {
                currency: costs.currency.clone(),
                doughs: Vec::new(),
                orders: Some(json::OrdersCostJson::from(&costs.cost)),
            };
            let words = || text::orders_cost(&costs.cost, costs.currency.as_deref());
            return Ok(options
                .show(as_json, words)
                .reminding(&workspace)
                .with_orders(&costs.orders, options));
        }
        let names: Vec<String> = options.names.iter().map(|name| (*name).to_owned()).collect();
        let costs = dough_costs(&workspace, &names)?;
        let currency = costs.currency.as_deref();
        let as_json = || json::CostsJson {
            currency: costs.currency.clone(),
            doughs: costs.doughs.iter().map(json::DoughCostJson::from).collect(),
            orders: None,
        };
        let pages = || costs.doughs.iter().map(|dough| text::cost(dough, currency)).collect::<Vec<_>>();
        let words =
            || if names.is_empty() { text::costs(&costs.by_name(), currency) } else { pages().join("\n") };
        Ok(options.show(as_json, words).reminding(&workspace))
    }

    pub fn store(&self, options: &Options<'_>) -> Answered {
        let workspace = self.workspace();
        let days = options.days();
        let stock = options.get("stock").map(|name| self.table(name));
        let report = self
            .with_orders(|orders| store_orders(&workspace, &days, &orders))
            .and_then(|orders| store(&workspace, StoreQuestion { days, orders, stock }, &Silent))?;
        let sheet = &report.sheet;
        let answer = if options.get("as") == Some("csv") {
            table(&csv::store(sheet).unwrap())
        } else {
            options.show(|| json::StoreJson::from(sheet), || text::store(sheet))
        };
        Ok(answer.with_orders(&report.orders, options).with_unfed(report.unfed))
    }

    pub fn day(&self, options: &Options<'_>) -> Answered {
        let workspace = self.workspace();
        let date = options.name().parse().unwrap();
        let orders = self.with_orders(|orders| day_orders(&workspace, date, &orders))?;
        let report = day(&workspace, date, orders)?;
        let answer = options.show(|| json::DayJson::new(&report), || text::day(&report, &options.parts()));
        Ok(answer.with_orders(&report.orders, options).with_unfed(report.unfed))
    }

    /// What grows in the stage of a question.
    pub fn growth(&self, names_and_options: &[&str]) -> GrowthReport {
        let options = Options::read(names_and_options);
        let (workspace, id) = self.dough("", options.name()).unwrap();
        ripen(&workspace, id, None, options.ripen(), true).unwrap().growth.unwrap()
    }

    /// Every problem of the book, and how many there are of which sort.
    pub fn check(&self) -> Answer {
        let workspace = self.workspace();
        let problems = check(&workspace, &Silent);
        let of = |severity| problems.iter().filter(|problem| problem.severity == severity).count();
        let counted =
            |count, one: &str, several: &str| format!("{count} {}", if count == 1 { one } else { several });
        let entries = counted(workspace.book().entries().count(), "dough or culture", "doughs and cultures");
        let errors = counted(of(Severity::Error), "error", "errors");
        let warnings = counted(of(Severity::Warning), "warning", "warnings");
        let summary = if problems.is_empty() {
            format!("{entries}: no problem\n")
        } else {
            format!("{entries}: {errors}, {warnings}\n")
        };
        let drawn = plain(&text::problems(workspace.texts(), &problems));
        if of(Severity::Error) > 0 {
            return Answer { shown: String::new(), beside: drawn + &summary, is_incomplete: true };
        }
        Answer { shown: summary, beside: drawn, is_incomplete: false }
    }
}

impl Answer {
    /// Says that the book has problems elsewhere.
    fn reminding(mut self, workspace: &Workspace) -> Self {
        let words = match workspace.errors() {
            0 => return self,
            1 => "1 problem".to_owned(),
            count => format!("{count} problems"),
        };
        self.beside.extend(["the book has ", &words, " elsewhere: `levamen check` shows them\n"]);
        self
    }

    /// Says what is wrong with the orders, before all else.
    fn with_orders(mut self, orders: &Orders, options: &Options<'_>) -> Self {
        self.beside = plain(&text::problems(&Texts::default(), &orders.problems())) + &self.beside;
        self.is_incomplete |= !orders.is_complete() && !options.has("skip-wrong");
        self
    }

    /// Says why cultures have no plan.
    fn with_unfed(mut self, unfed: Vec<Error>) -> Self {
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

impl Options<'_> {
    /// An answer as JSON where that is asked for, and otherwise as text.
    fn show<V: Serialize>(&self, json: impl FnOnce() -> V, text: impl FnOnce() -> String) -> Answer {
        let is_json = self.has("json") || self.get("as") == Some("json");
        let shown = if is_json { serde_json::to_string_pretty(&json()).unwrap() + "\n" } else { text() };
        Answer { shown, ..Answer::default() }
    }
}

/// A table as an answer.
fn table(bytes: &[u8]) -> Answer {
    Answer { shown: String::from_utf8(bytes.to_vec()).unwrap(), ..Answer::default() }
}
