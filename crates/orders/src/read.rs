//! The way from files to totals.

use std::collections::BTreeMap;

use jiff::civil::Date;
use levamen_language::{AskedField, Hint, Problem, nearest};

use crate::block::{BLOCK, FileBlocks};
use crate::columns::DATED;
use crate::duplicates::{CustomerPart, FirstLines, MAX_BYTES};
use crate::error::{LineErrorKind, LineErrors};
use crate::interner::OrderKey;
use crate::reader::{read_blocks, worker_count};
use crate::request::{Files, OrderRequest};
use crate::tally::Tally;
use crate::totals::Demand;
use crate::{PieceSum, ProductId, weekly};

/// What was ordered.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Orders {
    /// The totals: pieces of each product and day.
    pub demand: Demand,
    /// Each customer's part of the totals by day, customer and product; empty where it was not asked for.
    pub by_customer: BTreeMap<(Date, String, ProductId), PieceSum>,
    /// The lines that are wrong, and therefore not in the totals.
    pub errors: LineErrors,
}

impl Orders {
    /// Whether every line is in the totals.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.errors.count() == 0
    }

    /// What is wrong, in the order of files and lines; where not all are reported, how many more there are; and that the
    /// totals are incomplete.
    #[must_use]
    pub fn problems(&self) -> Vec<Problem> {
        let told = self.errors.alike().into_iter().map(|(error, again)| match again {
            0 => error.problem(),
            1 => error.problem().note("another line of the file says the same"),
            more => error.problem().note(format!("{more} other lines of the file say the same")),
        });
        let mut problems: Vec<Problem> = told.collect();
        let count = self.errors.count();
        if count == 0 {
            return problems;
        }
        let more = count - self.errors.reported().len() as u64;
        let (mistakes, are) = if count == 1 { ("1 mistake", "is") } else { ("{} mistakes", "are") };
        let mistakes = mistakes.replace("{}", &count.to_string());
        let last = Problem::error(
            "orders-incomplete",
            format!("the orders are incomplete: {mistakes} {are} in them"),
        )
        .note("a line with a mistake is not counted, so too little would be baked");
        let last = if more > 0 { last.note(format!("{more} of them are not told")) } else { last };
        problems.push(last.help(Hint::of_field(
            "mend the lines, or go on without them: ",
            AskedField::SkipWrong,
            "",
        )));
        problems
    }
}

/// How files are read; it changes nothing about what is found.
#[derive(Debug, Clone, Copy)]
pub(crate) struct ReadSettings {
    /// Bytes of a block.
    pub(crate) block: usize,
    pub(crate) workers: usize,
    /// Bytes that the duplicate set may take.
    pub(crate) room: usize,
}

/// Reads the orders of some files.
///
/// Nothing stops it: a file or a line that cannot be read is an error, and the rest is counted.
#[must_use]
pub fn read(files: &Files, request: &OrderRequest) -> Orders {
    read_by(files, request, ReadSettings { block: BLOCK, workers: worker_count(), room: MAX_BYTES })
}

pub(crate) fn read_by(files: &Files, request: &OrderRequest, settings: ReadSettings) -> Orders {
    let blocks = || FileBlocks::new(files.orders, request.columns, DATED, settings.block, 0);
    // 1. Read all files with the duplicates of as many customers as fit into memory.
    let mut part = CustomerPart::default();
    let mut tally = loop {
        let mut tally = Tally::new(request, part, settings.room);
        read_blocks(blocks(), request, settings.workers, &mut tally);
        if !tally.is_full {
            break tally;
        }
        part = part.halved();
    };
    // 2. Read them again for the duplicates of the other customers.
    for number in 1..part.count() {
        tally.watch(CustomerPart { number, ..part });
        read_blocks(blocks(), request, settings.workers, &mut tally);
    }
    // 3. Read them again for the lines that duplicates repeat.
    if !tally.repeated.is_empty() {
        let keys = std::mem::take(&mut tally.repeated);
        let mut firsts = FirstLines::new(&mut tally.interner, &keys);
        read_blocks(blocks(), request, settings.workers, &mut firsts);
        let mut keys = keys.into_iter();
        for error in &mut tally.errors.reported {
            if let LineErrorKind::Duplicate { first, .. } = &mut error.kind {
                *first = keys.next().and_then(|key| firsts.of(key));
            }
        }
    }
    // 4. Add standing orders.
    weekly::add(files, request, &mut tally);
    tally.finish()
}

impl Tally<'_> {
    /// The totals by date.
    fn finish(mut self) -> Orders {
        let dates = self.interner.dates();
        let mut orders = Orders::default();
        for (date, totals) in dates.iter().zip(self.totals.by_date()) {
            for (product, pieces) in ProductId::all().zip(totals) {
                orders.demand.add(*date, product, *pieces);
            }
        }
        let name = |((date, customer, product), pieces): (OrderKey, PieceSum)| {
            let day = *dates.get(date as usize)?;
            Some(((day, self.interner.customer_name(customer).to_owned(), ProductId::new(product)), pieces))
        };
        orders.by_customer.extend(self.totals.by_customer().filter_map(name));
        self.errors.sort();
        for error in &mut self.errors.reported {
            if let LineErrorKind::Product { written, nearest: near } = &mut error.kind {
                let names = self.request.products.iter().map(|(_, name)| name);
                *near = nearest(written, names).into_iter().map(str::to_owned).collect();
            }
        }
        orders.errors = self.errors;
        orders
    }
}

#[cfg(test)]
mod tests;
