//! A balance added up again, from its own lines and nothing else of the tool's.
//!
//! Every ingredient is followed from the tub that it is weighed into to the dough: what goes off as steam, stays in a
//! tub or is given back leaves the way, and what arrives must be the row of the whole dough.

mod flow;
mod stated;
mod verified;

use levamen_balance::{Balance, BalancedStage, Balancer};
use levamen_formula::{Book, FormulaId, Pantry};
use levamen_quantity::Exact;

pub use stated::unfulfilled;
pub use verified::verified;

use flow::Flow;

/// What does not add up: a line for each sum.
pub type Faults = Vec<String>;

/// Adds up what is said to be the balance of a dough or culture of a book; `balancer` is asked for those that it takes
/// from.
///
/// # Errors
/// Where something that the dough takes from has no balance.
pub fn faults(
    book: &Book,
    balancer: &mut Balancer<'_>,
    id: FormulaId,
    balance: &Balance,
) -> Result<Faults, String> {
    let flow = flow::follow(book, balancer, id, balance)?;
    let mut faults = Faults::new();
    for stage in &balance.stages {
        of_stage(stage, balance, &mut faults);
    }
    of_whole(balance, &flow, book.pantry(), &mut faults);
    Ok(faults)
}

fn equal(faults: &mut Faults, what: &str, one: &Exact, other: &Exact) {
    if one != other {
        faults.push(format!("{what}: {one:?}, but {other:?}"));
    }
}

/// What is weighed is made or goes off; what is made is taken, left over or given back; nothing is negative.
fn of_stage(stage: &BalancedStage, balance: &Balance, faults: &mut Faults) {
    let name = &stage.name;
    let lines: Exact = stage.lines.iter().map(|line| line.share.fraction()).sum();
    equal(faults, &format!("{name}, lines"), &lines, &(stage.made.fraction() + stage.steam.fraction()));
    let fates = [&stage.taken, &stage.left_over, &stage.given_back];
    let gone: Exact = fates.iter().map(|share| share.fraction()).sum();
    equal(faults, &format!("{name}, what becomes of it"), &gone, stage.made.fraction());
    let own = [&stage.own_flour, &stage.flour, &stage.water, &stage.made, &stage.steam];
    let shares = fates.into_iter().chain(own).chain(stage.lines.iter().map(|line| &line.share));
    if shares.into_iter().any(|share| share.fraction().is_negative()) {
        faults.push(format!("{name}: less than nothing of something"));
    }
    let flours = stage.lines.iter().filter(|line| is_flour(line));
    let own_flour: Exact = flours.map(|line| line.share.fraction()).sum();
    equal(faults, &format!("{name}, own flour"), stage.own_flour.fraction(), &own_flour);
    let index = balance.stages.iter().position(|other| std::ptr::eq(other, stage));
    let takers = balance.stages.iter().flat_map(|stage| &stage.lines);
    let takers = takers
        .filter(|line| matches!(line.item, levamen_balance::BalancedItem::Stage(at) if Some(at) == index));
    let taken: Exact = takers.map(|line| line.share.fraction()).sum();
    if index.is_some_and(|index| index + 1 < balance.stages.len()) {
        equal(faults, &format!("{name}, taken"), stage.taken.fraction(), &taken);
    }
}

fn is_flour(line: &levamen_balance::BalancedLine) -> bool {
    matches!(line.item, levamen_balance::BalancedItem::Ingredient { is_flour: true, .. })
}

/// What arrives in the dough is the whole, in every ingredient and in every figure that follows from them.
fn of_whole(balance: &Balance, flow: &Flow, pantry: &Pantry, faults: &mut Faults) {
    let rows = balance.overall.iter().map(|row| (row.ingredient, row.share.fraction().clone()));
    let rows: flow::Content = rows.collect();
    for (id, arrived) in &flow.arrived {
        let name = pantry.get(*id).map_or("?", |known| known.name.as_str());
        equal(faults, &format!("{name} in the whole"), rows.get(id).unwrap_or(&Exact::ZERO), arrived);
    }
    for id in rows.keys().filter(|id| !flow.arrived.contains_key(id)) {
        faults.push(format!("{id:?} is in the whole and comes from nowhere"));
    }
    let total: Exact = rows.values().sum();
    equal(faults, "the weight of the dough", balance.weight.fraction(), &total);
    equal(faults, "the pre-fermented flour", balance.prefermented_flour.fraction(), &flow.fermented);
    let part = |held: &dyn Fn(&levamen_formula::Ingredient) -> Exact| -> Exact {
        rows.iter().filter_map(|(id, share)| Some(share * &held(pantry.get(*id)?))).sum()
    };
    let whole = |yes: bool| if yes { Exact::ONE } else { Exact::ZERO };
    let flour = part(&|known| whole(known.is_flour));
    if !flour.is_zero() {
        equal(faults, "the flour of the dough", &flour, &Exact::ONE);
    }
    equal(faults, "hydration", balance.hydration.fraction(), &part(&|known| whole(known.is_water())));
    let inner = part(&|known| if known.is_flour { Exact::ZERO } else { known.water.fraction().clone() });
    equal(faults, "effective hydration", balance.effective_hydration.fraction(), &inner);
    equal(faults, "salt", balance.salt.fraction(), &part(&|known| known.salt.fraction().clone()));
    if balance.stages.iter().all(|stage| stage.left_over.fraction().is_zero()) {
        let of_stages: Exact = balance.stages.iter().map(|stage| stage.flour.fraction()).sum();
        equal(faults, "the flour of all stages", &of_stages, &flour);
    }
}
