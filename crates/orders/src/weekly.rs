//! Standing orders with their exceptions, day by day.

mod exceptions;
mod standing;

use crate::Pieces;
use crate::request::{Files, Request};
use crate::tally::Tally;

/// Adds what stands on the days that are asked for.
pub(crate) fn add(files: &Files, request: &Request, tally: &mut Tally) {
    let number = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let (first, second) = (files.orders.len(), files.orders.len() + files.standing.len());
    let standing = standing::read(files.standing, request, number(first), tally);
    let exceptions = exceptions::read(files.exceptions, request, number(second), &standing, tally);
    for day in request.days.iter() {
        for order in standing.on(day) {
            let pieces = exceptions.of(day, order.customer, order.product).unwrap_or(order.pieces);
            if pieces > 0 {
                let key = (tally.register.date(day), order.customer, order.product.number());
                tally.totals.add(key, Pieces::from(pieces));
            }
        }
    }
}
