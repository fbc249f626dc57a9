//! Days planned from orders, one after the other.

use jiff::civil::Date;
use levamen_bakery::Bakery;
use levamen_calendar::Days;
use levamen_language::Problem;
use levamen_orders::Orders as AllOrders;
use levamen_plan::{Day, Orders, Trouble};

use crate::failure::Failure;
use crate::progress::{Progress, Unit};
use crate::relied;
use crate::shelf::Shelf;

/// Some days, planned one after the other as they are asked for, so that no more than one has to be kept. Of each the
/// next day's orders say how much old dough is kept; where there are none, as much is kept as the day takes.
pub fn days(
    shelf: &Shelf,
    bakery: &Bakery,
    orders: &AllOrders,
    days: Days,
) -> impl Iterator<Item = Result<(Date, Day), Failure>> {
    let progress = Progress::new("planning", days.iter().count() as u64, Unit::Of("days"));
    let ordered = days.iter().map(move |date| {
        progress.add(1);
        (date, on(orders, date))
    });
    ordered.filter(|(_, today)| !today.is_empty()).map(move |(date, today)| {
        let next = date.tomorrow().ok().map(|next| on(orders, next)).filter(|next| !next.is_empty());
        day(shelf, bakery, &today, next.as_ref()).map(|day| (date, day))
    })
}

/// One day, of which nothing that it uses has errors.
///
/// # Errors
/// Why it cannot be planned.
pub fn day(shelf: &Shelf, bakery: &Bakery, today: &Orders, next: Option<&Orders>) -> Result<Day, Failure> {
    let day = Day::plan(&shelf.book, bakery, today, next).map_err(|trouble| trouble_of(shelf, &trouble))?;
    relied::day(shelf, &day)?;
    Ok(day)
}

/// What is ordered for one day.
pub fn on(all: &AllOrders, date: Date) -> Orders {
    Orders::from_pieces(all.demand.on(date).map(|(product, pieces)| (product.index(), pieces.count())))
}

/// Why a day cannot be planned.
fn trouble_of(shelf: &Shelf, trouble: &Trouble) -> Failure {
    match trouble {
        // A dough that is not even a formula has its problems in the book, and so has what it takes from.
        Trouble::Unsound { dough, problems } => {
            shelf.balance(*dough).err().unwrap_or_else(|| shelf.fail(problems.clone()))
        }
        Trouble::Circle(doughs) => {
            let name = |id| shelf.book.entry(id).map_or("a dough", |entry| entry.name.as_str());
            let names: Vec<String> = doughs.iter().map(|id| format!("`{}`", name(*id))).collect();
            let problem = Problem::error(
                "needs-itself",
                format!("{} take from each other on one day", names.join(" and ")),
            )
            .note("each would have to be mixed before the other")
            .help("take it as old dough, of the day before: into a `stage … , an old dough`");
            shelf.fail(vec![problem])
        }
    }
}
