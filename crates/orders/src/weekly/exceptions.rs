//! What takes the place of a standing order on one day.

use std::collections::hash_map::Entry;

use jiff::civil::Date;
use rustc_hash::FxHashMap;

use super::standing::Week;
use crate::ProductId;
use crate::block::{BLOCK, Blocks};
use crate::columns::{DATED, Field};
use crate::field::{date, pieces_or_none, product, seen_name};
use crate::lines;
use crate::mistake::excerpt;
use crate::record::Records;
use crate::request::Request;
use crate::source::Source;
use crate::tally::Tally;
use crate::wrong::{Line, What, Wrong};

/// All exceptions: how many pieces instead. Customers are numbers of the register.
#[derive(Debug, Clone, Default)]
pub(super) struct Exceptions(FxHashMap<(Date, u32, ProductId), (u32, Line)>);

impl Exceptions {
    /// How many pieces are wanted instead of those that stand.
    pub(super) fn of(&self, day: Date, customer: u32, product: ProductId) -> Option<u32> {
        self.0.get(&(day, customer, product)).map(|(pieces, _)| *pieces)
    }
}

/// Reads the files of exceptions, which are numbered from `first` on.
///
/// An exception to nothing is a mistake on the days that are asked for; on other days the standing orders may have been
/// others.
pub(super) fn read(
    sources: &[&dyn Source],
    request: &Request,
    first: u32,
    week: &Week,
    tally: &mut Tally,
) -> Exceptions {
    let mut exceptions = Exceptions::default();
    let blocks = Blocks::new(sources, request.columns, DATED, BLOCK, first);
    let (register, mistakes) = (&mut tally.register, &mut tally.mistakes);
    lines::each(blocks, mistakes, |cells, line| {
        let (day, name, product, pieces) = match exception(cells, request) {
            Ok(read) => read,
            Err(wrong) => return wrong,
        };
        let customer = register.customer(&name);
        let what = What {
            day: day.to_string(),
            customer: excerpt(name.as_bytes()),
            product: request.products.name(product).to_owned(),
        };
        if request.days.has(day) && !week.has(day, customer, product) {
            return vec![Wrong::NothingStands(what)];
        }
        match exceptions.0.entry((day, customer, product)) {
            Entry::Occupied(first) => vec![Wrong::ExceptedTwice { what, first: first.get().1.clone() }],
            Entry::Vacant(place) => {
                place.insert((pieces, line));
                Vec::new()
            }
        }
    });
    exceptions
}

fn exception(cells: &Records, request: &Request) -> Result<(Date, String, ProductId, u32), Vec<Wrong>> {
    let day = date(cells.cell(0), Field::Date, request.columns);
    let customer = seen_name(cells.cell(1), Field::Customer, request.columns);
    let product = product(cells.cell(2), request);
    let pieces = pieces_or_none(cells.cell(3), request.columns);
    match (day, customer, product, pieces) {
        (Ok(day), Ok(customer), Ok(product), Ok(pieces)) => Ok((day, customer, product, pieces)),
        (day, customer, product, pieces) => {
            let wrong = [day.err(), customer.err(), product.err(), pieces.err()];
            Err(wrong.into_iter().flatten().collect())
        }
    }
}
