//! Days planned from orders, one after the other.

use jiff::civil::Date;
use levamen_bakery::Bakery;
use levamen_calendar::Days;
use levamen_language::Problem;
use levamen_orders::Orders;
use levamen_plan::{Day, DayError, DayOrders};

use crate::error::Error;
use crate::progress::Progress;
use crate::sound;
use crate::workspace::Workspace;

/// Some days, planned one after the other as they are asked for, so that no more than one has to be kept. Of each the
/// next day's orders say how much old dough is kept; where there are none, as much is kept as the day takes.
pub fn days(
    workspace: &Workspace,
    bakery: &Bakery,
    orders: &Orders,
    days: Days,
    progress: &dyn Progress,
) -> impl Iterator<Item = Result<(Date, Day), Error>> {
    progress.expect(days.iter().count() as u64);
    let ordered = days.iter().map(move |date| {
        progress.advance(1);
        (date, on(orders, date))
    });
    ordered.filter(|(_, today)| !today.is_empty()).map(move |(date, today)| {
        let next = date.tomorrow().ok().map(|next| on(orders, next)).filter(|next| !next.is_empty());
        day(workspace, bakery, &today, next.as_ref()).map(|day| (date, day))
    })
}

/// One day, of which nothing that it uses has errors.
///
/// # Errors
/// Why it cannot be planned.
pub fn day(
    workspace: &Workspace,
    bakery: &Bakery,
    today: &DayOrders,
    next: Option<&DayOrders>,
) -> Result<Day, Error> {
    let day = Day::plan(workspace, bakery, today, next).map_err(|error| why_unplanned(workspace, &error))?;
    sound::day(workspace, &day)?;
    Ok(day)
}

/// What is ordered for one day.
pub fn on(all: &Orders, date: Date) -> DayOrders {
    DayOrders::from_pieces(all.demand.on(date).map(|(product, pieces)| (product, pieces.count())))
}

/// Why a day cannot be planned.
fn why_unplanned(workspace: &Workspace, error: &DayError) -> Error {
    match error {
        // A dough that is not even a formula has its problems in the book, and so has what it takes from.
        DayError::Unsound { dough, problems } => {
            workspace.balance(*dough).err().unwrap_or_else(|| workspace.fail(problems.clone()))
        }
        DayError::Internal(what) => workspace.fail(vec![Problem::internal(what)]),
        DayError::Circle(doughs) => {
            let name = |id| workspace.book().entry(id).map_or("a dough", |entry| entry.name.as_str());
            let names: Vec<String> = doughs.iter().map(|id| format!("`{}`", name(*id))).collect();
            let problem = Problem::error(
                "needs-itself",
                format!("{} take from each other on one day", names.join(" and ")),
            )
            .note("each would have to be mixed before the other")
            .help("take it as old dough, of the day before: into a `stage … , an old dough`");
            workspace.fail(vec![problem])
        }
    }
}
