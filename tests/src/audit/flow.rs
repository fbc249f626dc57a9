//! Every ingredient on its way from the tubs to the dough.

use std::collections::BTreeMap;

use levamen_balance::{Balance, BalancedItem, BalancedLine, BalancedStage, Balancer};
use levamen_formula::{Book, FormulaId, IngredientId, Pantry, key};
use levamen_language::SeedFate;
use levamen_quantity::Exact;

/// Ingredients with what there is of each.
pub(super) type Content = BTreeMap<IngredientId, Exact>;

/// What arrives in the dough.
pub(super) struct Flow {
    /// Of each ingredient.
    pub arrived: Content,
    /// Of flour that has fermented.
    pub fermented: Exact,
}

/// What goes on from a stage.
#[derive(Default)]
struct GoesOn {
    content: Content,
    fermented: Exact,
}

/// Follows every ingredient of a dough.
///
/// # Errors
/// Where something that the dough takes from has no balance.
pub(super) fn follow(
    book: &Book,
    balancer: &mut Balancer<'_>,
    id: FormulaId,
    balance: &Balance,
) -> Result<Flow, String> {
    let mut done: Vec<GoesOn> = Vec::new();
    for stage in &balance.stages {
        let mut inside = GoesOn::default();
        for line in &stage.lines {
            match line.item {
                BalancedItem::Ingredient { id, is_water, .. } => {
                    let steam = if is_water { steam_of(stage, line) } else { Exact::ZERO };
                    add(&mut inside.content, id, &(line.share.fraction() - &steam));
                }
                BalancedItem::Seed(SeedFate::GivenBack) => {}
                BalancedItem::Seed(SeedFate::Stays) | BalancedItem::Piece => {
                    let parts = composition(book, balancer, (id, balance), line)?;
                    for (part, share) in parts {
                        let weight = line.share.fraction() * &share;
                        inside.fermented += &flour(book.pantry(), part, &weight);
                        add(&mut inside.content, part, &weight);
                    }
                }
                BalancedItem::Stage(at) => take(&mut inside, &done, balance, at, line),
            }
        }
        if stage.kind.ferments() {
            let flours = inside.content.iter().map(|(id, weight)| flour(book.pantry(), *id, weight));
            inside.fermented = flours.sum();
        }
        done.push(without_left_over(stage, inside));
    }
    let last = done.pop().unwrap_or_default();
    Ok(Flow { arrived: last.content, fermented: last.fermented })
}

fn add(content: &mut Content, id: IngredientId, weight: &Exact) {
    *content.entry(id).or_default() += weight;
}

fn flour(pantry: &Pantry, id: IngredientId, weight: &Exact) -> Exact {
    if pantry.get(id).is_some_and(|known| known.is_flour) { weight.clone() } else { Exact::ZERO }
}

/// The steam out of one line of water; two kinds of water lose alike.
fn steam_of(stage: &BalancedStage, line: &BalancedLine) -> Exact {
    let waters = stage
        .lines
        .iter()
        .filter(|line| matches!(line.item, BalancedItem::Ingredient { is_water: true, .. }));
    let water: Exact = waters.map(|line| line.share.fraction()).sum();
    let share = line.share.fraction().checked_div(&water).unwrap_or_default();
    stage.steam.fraction() * &share
}

/// What a gram of a culture or a dough is made of.
fn composition(
    book: &Book,
    balancer: &mut Balancer<'_>,
    (own, balance): (FormulaId, &Balance),
    line: &BalancedLine,
) -> Result<Vec<(IngredientId, Exact)>, String> {
    let is_own = key(&line.name) == "this dough" || book.find(&line.name) == Some(own);
    let source = if is_own {
        balance.clone()
    } else {
        let id = book.find(&line.name).ok_or_else(|| format!("nothing is called {}", line.name))?;
        balancer.balance(id).cloned().map_err(crate::read::told)?
    };
    let whole: Exact = source.overall.iter().map(|row| row.share.fraction()).sum();
    let share = |weight: &Exact| weight.checked_div(&whole).ok_or("a source of nothing");
    source.overall.iter().map(|row| Ok((row.ingredient, share(row.share.fraction())?))).collect()
}

/// Takes a portion of an earlier stage.
fn take(inside: &mut GoesOn, done: &[GoesOn], balance: &Balance, at: usize, line: &BalancedLine) {
    let (Some(earlier), Some(stage)) = (done.get(at), balance.stages.get(at)) else { return };
    let portion = line.share.fraction().checked_div(stage.taken.fraction()).unwrap_or_default();
    for (id, weight) in &earlier.content {
        add(&mut inside.content, *id, &(weight * &portion));
    }
    inside.fermented += &(&earlier.fermented * &portion);
}

/// What stays in the tub has the composition of what is made.
fn without_left_over(stage: &BalancedStage, inside: GoesOn) -> GoesOn {
    let left_over = stage.left_over.fraction().checked_div(stage.made.fraction()).unwrap_or_default();
    let kept = &Exact::ONE - &left_over;
    let content = inside.content.into_iter().map(|(id, weight)| (id, &weight * &kept)).collect();
    GoesOn { content, fermented: &inside.fermented * &kept }
}
