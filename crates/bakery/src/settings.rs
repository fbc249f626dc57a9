//! What the whole bakery keeps to.

use levamen_language::{Problem, SlotValue};
use levamen_quantity::{ClockTime, Temperature};

use crate::facts::CardFacts;

/// What the whole bakery keeps to.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Settings {
    /// What the bakery is called.
    pub name: Option<String>,
    /// The name of its time zone in the IANA database.
    pub time_zone: Option<String>,
    /// The letters of its currency (ISO 4217).
    pub currency: Option<String>,
    /// When bread has to be out.
    pub out_by: Option<ClockTime>,
    /// How a day's dough is shared out over batches.
    pub batching: Batching,
    /// How warm water comes from the tap.
    pub tap: Option<Temperature>,
    /// How warm it is where flour is kept.
    pub flour_store: Option<Temperature>,
    /// What columns of the order files are called, where it is not the usual name.
    pub columns: Vec<(OrderColumn, String)>,
}

/// How a day's dough is shared out over batches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Batching {
    /// Batches of one size.
    #[default]
    Equal,
    /// As many full batches as there are, and one with what remains.
    Full,
}

/// A column of the order files.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OrderColumn {
    /// The day on which it is baked.
    Date,
    /// Who ordered.
    Customer,
    /// What is ordered.
    Product,
    /// How many.
    Quantity,
    /// The day of the week of a standing order.
    Weekday,
    /// The first day of a standing order.
    From,
    /// The last day of a standing order.
    Until,
}

impl OrderColumn {
    /// Every column, in the order in which they are written.
    pub const ALL: [Self; 7] =
        [Self::Date, Self::Customer, Self::Product, Self::Quantity, Self::Weekday, Self::From, Self::Until];

    /// What the column is called where nothing else is said.
    #[must_use]
    pub const fn usual(self) -> &'static str {
        match self {
            Self::Date => "date",
            Self::Customer => "customer",
            Self::Product => "product",
            Self::Quantity => "quantity",
            Self::Weekday => "weekday",
            Self::From => "from",
            Self::Until => "until",
        }
    }
}

impl Settings {
    pub(crate) fn read(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Self {
        let columns = facts.all("column").filter_map(|(values, _)| match values {
            [SlotValue::Chosen(column), SlotValue::Words(words)] => {
                let column = OrderColumn::ALL.into_iter().find(|known| known.usual() == *column)?;
                Some((column, words.text.to_owned()))
            }
            _ => None,
        });
        Self {
            name: Some(facts.name.spaced().into_owned()),
            time_zone: facts.words("time zone").map(|(words, _)| words.to_owned()),
            currency: currency(facts, problems),
            out_by: facts.clock("out by"),
            batching: match facts.find("batches") {
                Some(([SlotValue::Chosen("full")], _)) => Batching::Full,
                _ => Batching::Equal,
            },
            tap: facts.temperature("tap water"),
            flour_store: facts.temperature("flour store"),
            columns: columns.collect(),
        }
    }

    /// What a column of the order files is called.
    #[must_use]
    pub fn column(&self, column: OrderColumn) -> &str {
        let own = self.columns.iter().find(|(known, _)| *known == column);
        own.map_or(column.usual(), |(_, name)| name)
    }
}

/// Three capital letters, as ISO 4217 writes a currency.
fn currency(facts: &CardFacts<'_>, problems: &mut Vec<Problem>) -> Option<String> {
    let (words, at) = facts.words("currency")?;
    if words.len() == 3 && words.bytes().all(|byte| byte.is_ascii_uppercase()) {
        return Some(words.to_owned());
    }
    problems.push(
        Problem::error("currency-form", format!("`{words}` is no currency"))
            .at(at, "three capital letters are wanted")
            .help("write the letters of ISO 4217, such as EUR, GBP or USD"),
    );
    None
}
