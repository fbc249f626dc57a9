//! Standing orders with their exceptions, day by day.

use std::collections::hash_map::Entry;

use jiff::civil::{Date, Weekday};
use rustc_hash::FxHashMap;

use crate::block::{BLOCK, FileBlocks, each_line};
use crate::cell::{date, date_or_none, pieces, pieces_or_none, product, seen_name, text};
use crate::columns::{DATED, OrderColumns, OrderField, STANDING};
use crate::error::{FileLine, LineErrorKind, OrderName, excerpt};
use crate::record::CsvRecords;
use crate::request::{Files, OrderRequest, OrderSource};
use crate::tally::Tally;
use crate::{PieceSum, ProductId};

/// Adds what stands on the days that are asked for.
pub(crate) fn add(files: &Files, request: &OrderRequest, tally: &mut Tally) {
    let number = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let (first, second) = (files.orders.len(), files.orders.len() + files.standing.len());
    let standing = read_standing(files.standing, request, number(first), tally);
    let exceptions = read_exceptions(files.exceptions, request, number(second), &standing, tally);
    for day in request.days.iter() {
        for order in standing.on(day) {
            let pieces = exceptions.of(day, order.customer, order.product).unwrap_or(order.pieces);
            if pieces > 0 {
                let key = (tally.interner.date(day), order.customer, order.product.number());
                tally.totals.add(key, PieceSum::from(pieces));
            }
        }
    }
}

/// A standing order. The customer is a number of the register.
#[derive(Debug, Clone)]
struct StandingOrder {
    weekday: Weekday,
    customer: u32,
    product: ProductId,
    pieces: u32,
    from: Option<Date>,
    until: Option<Date>,
    line: FileLine,
}

impl StandingOrder {
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
struct StandingOrders {
    orders: Vec<StandingOrder>,
    /// The orders of a day of the week, customer and product: more than one where their spans follow each other.
    found: FxHashMap<(i8, u32, ProductId), Vec<usize>>,
}

impl StandingOrders {
    /// What stands on a day.
    fn on(&self, day: Date) -> impl Iterator<Item = &StandingOrder> {
        self.orders.iter().filter(move |order| order.stands_on(day))
    }

    /// Whether a product stands for a customer on a day.
    fn has(&self, day: Date, customer: u32, product: ProductId) -> bool {
        self.alike(day.weekday(), customer, product).any(|order| order.stands_on(day))
    }

    fn alike(
        &self,
        weekday: Weekday,
        customer: u32,
        product: ProductId,
    ) -> impl Iterator<Item = &StandingOrder> {
        let key = (weekday.to_monday_zero_offset(), customer, product);
        self.found.get(&key).into_iter().flatten().filter_map(|index| self.orders.get(*index))
    }

    /// Adds an order, unless another stands on one of its days: then its line.
    fn add(&mut self, order: StandingOrder) -> Option<FileLine> {
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
fn read_standing(
    sources: &[&dyn OrderSource],
    request: &OrderRequest,
    first: u32,
    tally: &mut Tally,
) -> StandingOrders {
    let mut week = StandingOrders::default();
    let blocks = FileBlocks::new(sources, request.columns, STANDING, BLOCK, first);
    let (interner, errors) = (&mut tally.interner, &mut tally.errors);
    each_line(blocks, errors, |cells, line| {
        let (customer, mut order) = match standing_order(cells, line, request) {
            Ok(read) => read,
            Err(kind) => return kind,
        };
        order.customer = interner.customer(&customer);
        let what = OrderName {
            day: weekday_name(order.weekday).to_owned(),
            customer: excerpt(customer.as_bytes()),
            product: request.products.name(order.product).to_owned(),
        };
        week.add(order).map(|first| LineErrorKind::StandingTwice { what, first }).into_iter().collect()
    });
    week
}

/// The order of one line with the name of its customer, who has no number yet.
fn standing_order(
    cells: &CsvRecords,
    line: FileLine,
    request: &OrderRequest,
) -> Result<(String, StandingOrder), Vec<LineErrorKind>> {
    let columns = request.columns;
    let weekday = weekday(cells.cell(0), columns);
    let customer = seen_name(cells.cell(1), OrderField::Customer, columns);
    let product = product(cells.cell(2), request);
    let pieces = pieces(cells.cell(3), columns);
    let (from, until) = (date_or_none(cells.cell(4)), date_or_none(cells.cell(5)));
    match (weekday, customer, product, pieces, from, until) {
        (Ok(weekday), Ok(customer), Ok(product), Ok(pieces), Ok(from), Ok(until)) => {
            if let Some((from, until)) = from.zip(until).filter(|(from, until)| until < from) {
                return Err(vec![LineErrorKind::Backwards { from, until }]);
            }
            Ok((customer, StandingOrder { weekday, customer: 0, product, pieces, from, until, line }))
        }
        (weekday, customer, product, pieces, from, until) => {
            let first = [weekday.err(), customer.err(), product.err()];
            let kind = first.into_iter().chain([pieces.err(), from.err(), until.err()]);
            Err(kind.flatten().collect())
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

fn weekday_name(weekday: Weekday) -> &'static str {
    WEEKDAYS.iter().find(|(own, _)| *own == weekday).map_or("", |(_, name)| name)
}

/// A day of the week by its name or the first three letters of it.
fn weekday(cell: &[u8], columns: &OrderColumns) -> Result<Weekday, LineErrorKind> {
    let written = text(cell, OrderField::Weekday, columns)?;
    let is_it = |name: &str| {
        name.eq_ignore_ascii_case(&written)
            || name.get(..3).is_some_and(|short| short.eq_ignore_ascii_case(&written))
    };
    let found = WEEKDAYS.iter().find(|(_, name)| is_it(name)).map(|(weekday, _)| *weekday);
    found.ok_or_else(|| LineErrorKind::Weekday(excerpt(written.as_bytes())))
}

/// All exceptions: how many pieces instead. Customers are numbers of the register.
#[derive(Debug, Clone, Default)]
struct Exceptions(FxHashMap<(Date, u32, ProductId), (u32, FileLine)>);

impl Exceptions {
    /// How many pieces are wanted instead of those that stand.
    fn of(&self, day: Date, customer: u32, product: ProductId) -> Option<u32> {
        self.0.get(&(day, customer, product)).map(|(pieces, _)| *pieces)
    }
}

/// Reads the files of exceptions, which are numbered from `first` on.
///
/// An exception to nothing is an error on the days that are asked for; on other days the standing orders may have been
/// others.
fn read_exceptions(
    sources: &[&dyn OrderSource],
    request: &OrderRequest,
    first: u32,
    week: &StandingOrders,
    tally: &mut Tally,
) -> Exceptions {
    let mut exceptions = Exceptions::default();
    let blocks = FileBlocks::new(sources, request.columns, DATED, BLOCK, first);
    let (interner, errors) = (&mut tally.interner, &mut tally.errors);
    each_line(blocks, errors, |cells, line| {
        let (day, name, product, pieces) = match exception(cells, request) {
            Ok(read) => read,
            Err(kind) => return kind,
        };
        let customer = interner.customer(&name);
        let what = OrderName {
            day: day.to_string(),
            customer: excerpt(name.as_bytes()),
            product: request.products.name(product).to_owned(),
        };
        if request.days.has(day) && !week.has(day, customer, product) {
            return vec![LineErrorKind::NoStandingOrder(what)];
        }
        match exceptions.0.entry((day, customer, product)) {
            Entry::Occupied(first) => {
                vec![LineErrorKind::ExceptionTwice { what, first: first.get().1.clone() }]
            }
            Entry::Vacant(place) => {
                place.insert((pieces, line));
                Vec::new()
            }
        }
    });
    exceptions
}

fn exception(
    cells: &CsvRecords,
    request: &OrderRequest,
) -> Result<(Date, String, ProductId, u32), Vec<LineErrorKind>> {
    let day = date(cells.cell(0), OrderField::Date, request.columns);
    let customer = seen_name(cells.cell(1), OrderField::Customer, request.columns);
    let product = product(cells.cell(2), request);
    let pieces = pieces_or_none(cells.cell(3), request.columns);
    match (day, customer, product, pieces) {
        (Ok(day), Ok(customer), Ok(product), Ok(pieces)) => Ok((day, customer, product, pieces)),
        (day, customer, product, pieces) => {
            let kind = [day.err(), customer.err(), product.err(), pieces.err()];
            Err(kind.into_iter().flatten().collect())
        }
    }
}
