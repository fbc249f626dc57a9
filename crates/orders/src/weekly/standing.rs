//! Orders that stand on a day of every week.

use jiff::civil::{Date, Weekday};
use rustc_hash::FxHashMap;

use crate::ProductId;
use crate::block::{BLOCK, Blocks};
use crate::columns::{Columns, Field, STANDING};
use crate::field::{date_or_none, pieces, product, seen_name, text};
use crate::lines;
use crate::mistake::excerpt;
use crate::record::Records;
use crate::request::Request;
use crate::source::Source;
use crate::tally::Tally;
use crate::wrong::{Line, What, Wrong};

/// A standing order. The customer is a number of the register.
#[derive(Debug, Clone)]
pub(super) struct Standing {
    weekday: Weekday,
    pub(super) customer: u32,
    pub(super) product: ProductId,
    pub(super) pieces: u32,
    from: Option<Date>,
    until: Option<Date>,
    line: Line,
}

impl Standing {
    fn stands_on(&self, day: Date) -> bool {
        let has_begun = self.from.is_none_or(|from| from <= day);
        self.weekday == day.weekday() && has_begun && self.until.is_none_or(|until| day <= until)
    }

    /// Whether the spans of both have a day in common.
    fn meets(&self, other: &Self) -> bool {
        let ends_before = |until: Option<Date>, from: Option<Date>| {
            until.zip(from).is_some_and(|(until, from)| until < from)
        };
        !ends_before(self.until, other.from) && !ends_before(other.until, self.from)
    }
}

/// All standing orders, in the order of their lines.
#[derive(Debug, Clone, Default)]
pub(super) struct Week {
    orders: Vec<Standing>,
    /// The orders of a day of the week, customer and product: more than one where their spans follow each other.
    found: FxHashMap<(i8, u32, ProductId), Vec<usize>>,
}

impl Week {
    /// What stands on a day.
    pub(super) fn on(&self, day: Date) -> impl Iterator<Item = &Standing> {
        self.orders.iter().filter(move |order| order.stands_on(day))
    }

    /// Whether a product stands for a customer on a day.
    pub(super) fn has(&self, day: Date, customer: u32, product: ProductId) -> bool {
        self.alike(day.weekday(), customer, product).any(|order| order.stands_on(day))
    }

    fn alike(&self, weekday: Weekday, customer: u32, product: ProductId) -> impl Iterator<Item = &Standing> {
        let key = (weekday.to_monday_zero_offset(), customer, product);
        self.found.get(&key).into_iter().flatten().filter_map(|index| self.orders.get(*index))
    }

    /// Adds an order, unless another stands on one of its days: then its line.
    fn add(&mut self, order: Standing) -> Option<Line> {
        let mut alike = self.alike(order.weekday, order.customer, order.product);
        if let Some(other) = alike.find(|other| other.meets(&order)) {
            return Some(other.line.clone());
        }
        drop(alike);
        let key = (order.weekday.to_monday_zero_offset(), order.customer, order.product);
        self.found.entry(key).or_default().push(self.orders.len());
        self.orders.push(order);
        None
    }
}

/// Reads the files of standing orders, which are numbered from `first` on.
pub(super) fn read(sources: &[&dyn Source], request: &Request, first: u32, tally: &mut Tally) -> Week {
    let mut week = Week::default();
    let blocks = Blocks::new(sources, request.columns, STANDING, BLOCK, first);
    let (register, mistakes) = (&mut tally.register, &mut tally.mistakes);
    lines::each(blocks, mistakes, |cells, line| {
        let (customer, mut order) = match order(cells, line, request) {
            Ok(read) => read,
            Err(wrong) => return wrong,
        };
        order.customer = register.customer(&customer);
        let what = What {
            day: name(order.weekday).to_owned(),
            customer: excerpt(customer.as_bytes()),
            product: request.products.name(order.product).to_owned(),
        };
        week.add(order).map(|first| Wrong::StandsTwice { what, first }).into_iter().collect()
    });
    week
}

/// The order of one line with the name of its customer, who has no number yet.
fn order(cells: &Records, line: Line, request: &Request) -> Result<(String, Standing), Vec<Wrong>> {
    let columns = request.columns;
    let weekday = weekday(cells.cell(0), columns);
    let customer = seen_name(cells.cell(1), Field::Customer, columns);
    let product = product(cells.cell(2), request);
    let pieces = pieces(cells.cell(3), columns);
    let (from, until) = (date_or_none(cells.cell(4)), date_or_none(cells.cell(5)));
    match (weekday, customer, product, pieces, from, until) {
        (Ok(weekday), Ok(customer), Ok(product), Ok(pieces), Ok(from), Ok(until)) => {
            if let Some((from, until)) = from.zip(until).filter(|(from, until)| until < from) {
                return Err(vec![Wrong::Backwards { from, until }]);
            }
            Ok((customer, Standing { weekday, customer: 0, product, pieces, from, until, line }))
        }
        (weekday, customer, product, pieces, from, until) => {
            let first = [weekday.err(), customer.err(), product.err()];
            let wrong = first.into_iter().chain([pieces.err(), from.err(), until.err()]);
            Err(wrong.flatten().collect())
        }
    }
}

const WEEKDAYS: [(Weekday, &str); 7] = [
    (Weekday::Monday, "Monday"),
    (Weekday::Tuesday, "Tuesday"),
    (Weekday::Wednesday, "Wednesday"),
    (Weekday::Thursday, "Thursday"),
    (Weekday::Friday, "Friday"),
    (Weekday::Saturday, "Saturday"),
    (Weekday::Sunday, "Sunday"),
];

fn name(weekday: Weekday) -> &'static str {
    WEEKDAYS.iter().find(|(own, _)| *own == weekday).map_or("", |(_, name)| name)
}

/// A day of the week by its name or the first three letters of it.
fn weekday(cell: &[u8], columns: &Columns) -> Result<Weekday, Wrong> {
    let written = text(cell, Field::Weekday, columns)?;
    let is_it = |name: &str| {
        name.eq_ignore_ascii_case(&written)
            || name.get(..3).is_some_and(|short| short.eq_ignore_ascii_case(&written))
    };
    let found = WEEKDAYS.iter().find(|(_, name)| is_it(name)).map(|(weekday, _)| *weekday);
    found.ok_or_else(|| Wrong::Weekday(excerpt(written.as_bytes())))
}
