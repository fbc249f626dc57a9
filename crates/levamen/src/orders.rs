//! Orders, read by what the bakery's cards call products and columns.

use jiff::civil::Date;
use levamen_bakery::{Bakery, Column, Settings};
use levamen_orders::{Columns, Days, Files, Orders, Products, Request, read};

/// Which orders are read.
#[derive(Clone, Copy)]
pub struct OrdersQuestion<'f> {
    /// The files that they come from.
    pub files: Files<'f>,
    /// Orders for a day before this one are mistakes.
    pub today: Option<Date>,
}

/// Reads the orders of some days; with `by_customer`, each customer's apart from the totals.
#[must_use]
pub fn read_orders(bakery: &Bakery, question: &OrdersQuestion<'_>, days: Days, by_customer: bool) -> Orders {
    let products = Products::new(bakery.products.iter().map(|product| product.name.as_str()));
    let columns = columns(&bakery.settings);
    let request =
        Request { days, today: question.today, products: &products, columns: &columns, by_customer };
    read(&question.files, &request)
}

fn columns(settings: &Settings) -> Columns {
    let name = |column| settings.column(column).to_owned();
    Columns {
        date: name(Column::Date),
        customer: name(Column::Customer),
        product: name(Column::Product),
        quantity: name(Column::Quantity),
        weekday: name(Column::Weekday),
        from: name(Column::From),
        until: name(Column::Until),
    }
}
