//! The way from files to totals.

use std::collections::BTreeMap;

use jiff::civil::Date;
use levamen_language::{Problem, nearest};

use crate::block::{BLOCK, Blocks};
use crate::columns::DATED;
use crate::demand::Demand;
use crate::firsts::Firsts;
use crate::in_order;
use crate::mistake::Mistakes;
use crate::request::{Files, Request};
use crate::seen::{MAX_BYTES, Part};
use crate::tally::Tally;
use crate::totals::Key;
use crate::wrong::Wrong;
use crate::{Pieces, ProductId, weekly};

/// What was ordered.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Orders {
    /// The totals: pieces of each product and day.
    pub demand: Demand,
    /// Each customer's part of the totals by day, customer and product; empty where it was not asked for.
    pub by_customer: BTreeMap<(Date, String, ProductId), Pieces>,
    /// The lines that are wrong, and therefore not in the totals.
    pub mistakes: Mistakes,
}

impl Orders {
    /// Whether every line is in the totals.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.mistakes.count() == 0
    }

    /// What is wrong, in the order of files and lines; where not all is told, how many more there are; and that the
    /// totals are incomplete.
    #[must_use]
    pub fn problems(&self) -> Vec<Problem> {
        let mut problems: Vec<Problem> = self.mistakes.told().iter().map(crate::Mistake::problem).collect();
        let count = self.mistakes.count();
        if count == 0 {
            return problems;
        }
        let more = count - problems.len() as u64;
        let (mistakes, are) = if count == 1 { ("1 mistake", "is") } else { ("{} mistakes", "are") };
        let mistakes = mistakes.replace("{}", &count.to_string());
        let last = Problem::error(
            "orders-incomplete",
            format!("the orders are incomplete: {mistakes} {are} in them"),
        )
        .note("a line with a mistake is not counted, so too little would be baked");
        let last = if more > 0 { last.note(format!("{more} of them are not told")) } else { last };
        problems.push(last.help("mend the lines, or go on without them: --skip-wrong"));
        problems
    }
}

/// How files are read; it changes nothing about what is found.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Way {
    /// Bytes of a block.
    pub(crate) block: usize,
    pub(crate) workers: usize,
    /// Bytes for what was seen.
    pub(crate) room: usize,
}

/// Reads the orders of some files.
///
/// Nothing stops it: a file or a line that cannot be read is a mistake, and the rest is counted.
#[must_use]
pub fn read(files: &Files, request: &Request) -> Orders {
    read_by(files, request, Way { block: BLOCK, workers: in_order::workers(), room: MAX_BYTES })
}

pub(crate) fn read_by(files: &Files, request: &Request, way: Way) -> Orders {
    let blocks = || Blocks::new(files.orders, request.columns, DATED, way.block, 0);
    let mut part = Part::default();
    let mut tally = loop {
        let mut tally = Tally::new(request, part, way.room);
        in_order::read(blocks(), request, way.workers, &mut tally);
        if !tally.is_full {
            break tally;
        }
        part = part.halved();
    };
    for number in 1..part.count() {
        tally.watch(Part { number, ..part });
        in_order::read(blocks(), request, way.workers, &mut tally);
    }
    if !tally.repeated.is_empty() {
        let keys = std::mem::take(&mut tally.repeated);
        let mut firsts = Firsts::new(&mut tally.register, &keys);
        in_order::read(blocks(), request, way.workers, &mut firsts);
        let mut keys = keys.into_iter();
        for mistake in &mut tally.mistakes.told {
            if let Wrong::Again { first, .. } = &mut mistake.wrong {
                *first = keys.next().and_then(|key| firsts.of(key));
            }
        }
    }
    weekly::add(files, request, &mut tally);
    tally.finish()
}

impl Tally<'_> {
    /// The totals by date.
    fn finish(mut self) -> Orders {
        let dates = self.register.dates();
        let mut orders = Orders::default();
        for (date, totals) in dates.iter().zip(self.totals.by_date()) {
            for (product, pieces) in ProductId::all().zip(totals) {
                orders.demand.add(*date, product, *pieces);
            }
        }
        let name = |((date, customer, product), pieces): (Key, Pieces)| {
            let day = *dates.get(date as usize)?;
            Some((
                (day, self.register.customer_name(customer).to_owned(), ProductId::of_number(product)),
                pieces,
            ))
        };
        orders.by_customer.extend(self.totals.by_customer().filter_map(name));
        self.mistakes.sort();
        for mistake in &mut self.mistakes.told {
            if let Wrong::Product { written, nearest: near } = &mut mistake.wrong {
                let names = self.request.products.iter().map(|(_, name)| name);
                *near = nearest(written, names).into_iter().map(str::to_owned).collect();
            }
        }
        orders.mistakes = self.mistakes;
        orders
    }
}

#[cfg(test)]
mod tests;
