//! Orders, read by what the bakery's cards call products and columns.

use jiff::civil::Date;
use levamen_bakery::{Bakery, OrderColumn, Settings};
use levamen_calendar::Days;
use levamen_orders::{Files, OrderColumns, OrderRequest, Orders, Products, read};

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
        OrderRequest { days, today: question.today, products: &products, columns: &columns, by_customer };
    read(&question.files, &request)
}

fn columns(settings: &Settings) -> OrderColumns {
    let name = |column| settings.column(column).to_owned();
    OrderColumns {
        date: name(OrderColumn::Date),
        customer: name(OrderColumn::Customer),
        product: name(OrderColumn::Product),
        quantity: name(OrderColumn::Quantity),
        weekday: name(OrderColumn::Weekday),
        from: name(OrderColumn::From),
        until: name(OrderColumn::Until),
    }
}
