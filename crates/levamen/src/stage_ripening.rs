//! What makes a stage ripen: its seed or its yeast, out of its balance.

use levamen_balance::{Balance, BalancedItem, BalancedLine, BalancedStage, Ripening};
use levamen_ferment::{Leaven, Remark, RipeningReference, Seed, Strength, Yeast, salt_remark};
use levamen_formula::{IngredientId, Pantry, StageKind};
use levamen_language::Kind;
use levamen_quantity::{Exact, Share};

use crate::error::{Error, QuestionError};
use crate::workspace::Workspace;

/// The stage of a name, or the only one that ripens, with its place in the balance.
///
/// # Errors
/// There is none of that name, none at all, or several to choose from.
pub fn stage<'b>(
    balance: &'b Balance,
    name: Option<&str>,
) -> Result<(usize, &'b BalancedStage), QuestionError> {
    let ripens = |stage: &BalancedStage| stage.kind.ferments() && stage.ripens.is_some();
    let stages = || balance.stages.iter().enumerate();
    let known: Vec<(usize, &BalancedStage)> = stages().filter(|(_, stage)| ripens(stage)).collect();
    let dough = balance.dough.clone();
    let names = || known.iter().map(|(_, stage)| stage.name.clone()).collect();
    let Some(name) = name else {
        return match known.as_slice() {
            [one] => Ok(*one),
            [] => Err(QuestionError::NothingRipens { dough }),
            _ => Err(QuestionError::WhichStage { dough, stages: names() }),
        };
    };
    let wanted = levamen_formula::key(name);
    let found = stages().find(|(_, stage)| levamen_formula::key(&stage.name) == wanted);
    let unknown = || QuestionError::UnknownRipening { dough, name: name.to_owned(), stages: names() };
    found.ok_or_else(unknown)
}

/// What the bakery knows of a stage, and the line of its file that says so.
///
/// # Errors
/// The stage says no time and temperature, or nothing in it ferments.
pub fn reference<'b>(
    workspace: &Workspace,
    balance: &Balance,
    stage: &'b BalancedStage,
) -> Result<(RipeningReference, &'b Ripening), Error> {
    let leaven = leaven(workspace, balance, stage)?;
    let ripens = stage.ripens.as_ref().and_then(|ripens| Some((ripens, ripens.temperature.as_ref()?)));
    let (ripens, at) = ripens.ok_or_else(|| QuestionError::NoRipening { stage: stage.name.clone() })?;
    Ok((RipeningReference::new(leaven, &ripens.least, ripens.most.as_ref(), at)?, ripens))
}

/// What to look at again in a stage into which salt is weighed: no model counts it.
pub fn salt(workspace: &Workspace, stage: &BalancedStage) -> Option<Remark> {
    let of_line = |line: &BalancedLine| match line.item {
        BalancedItem::Ingredient { id, .. } => {
            let salt = workspace.book().pantry().get(id)?.salt.fraction();
            Some(line.share.fraction() * salt)
        }
        BalancedItem::Seed(_) | BalancedItem::Piece | BalancedItem::Stage(_) => None,
    };
    let salt: Exact = stage.lines.iter().filter_map(of_line).sum();
    salt_remark(&on(&stage.own_flour, &salt)?)
}

/// The yeast or the seed of a stage. With both, it is the yeast: it is quicker.
fn leaven(workspace: &Workspace, balance: &Balance, stage: &BalancedStage) -> Result<Leaven, QuestionError> {
    let own = stage.lines.iter().filter_map(|line| match line.item {
        BalancedItem::Ingredient { id, .. } => Some((id, &line.share)),
        BalancedItem::Seed(_) | BalancedItem::Piece | BalancedItem::Stage(_) => None,
    });
    let of_own = yeast(workspace.book().pantry(), own, &stage.own_flour);
    let leaven = of_own.or_else(|| seed(balance, stage)).or_else(|| of_pieces(workspace, balance, stage));
    leaven.ok_or_else(|| QuestionError::NoLeaven { stage: stage.name.clone() })
}

/// Baker's yeast among what is weighed beside some flour.
fn yeast<'w>(
    pantry: &Pantry,
    mut weighed: impl Iterator<Item = (IngredientId, &'w Share)>,
    flour: &Share,
) -> Option<Leaven> {
    weighed.find_map(|(id, share)| {
        let known = pantry.get(id)?;
        let said = known.yeast.as_ref()?;
        let strength = Strength::said(said.kind, said.replaces.as_ref())?;
        let of_flour = on(flour, share.fraction())?;
        Some(Leaven::Yeast(Yeast { name: known.name.clone(), strength, of_flour }))
    })
}

/// Seed, and other pre-ferments that go into it, beside fresh flour.
fn seed(balance: &Balance, stage: &BalancedStage) -> Option<Leaven> {
    let is_ripe = |line: &&BalancedLine| match line.item {
        BalancedItem::Seed(_) => true,
        BalancedItem::Stage(index) => balance.stages.get(index).is_some_and(|child| child.kind.ferments()),
        BalancedItem::Ingredient { .. } | BalancedItem::Piece => false,
    };
    let (ripe, fresh): (Vec<&BalancedLine>, Vec<&BalancedLine>) = stage.lines.iter().partition(is_ripe);
    let sum = |lines: &[&BalancedLine]| lines.iter().map(|line| line.share.fraction()).sum::<Exact>();
    if ripe.is_empty() {
        return None;
    }
    Some(Leaven::Seed(Seed {
        of_flour: on(&stage.own_flour, &sum(&ripe))?,
        beside: on(&stage.own_flour, &sum(&fresh))?,
        sour: stage.kind == StageKind::Ahead(Kind::RyeSour),
    }))
}

/// The yeast of the dough of which a stage is a piece: one tub that several doughs take from.
fn of_pieces(workspace: &Workspace, balance: &Balance, stage: &BalancedStage) -> Option<Leaven> {
    let id = workspace.book().find(&balance.dough)?;
    let formula = workspace.book().entry(id)?.formula.as_ref()?;
    let own = formula.stages.iter().find(|own| *own.name == *stage.name)?;
    let source = own.lines.iter().find_map(|line| match line.item {
        levamen_formula::Item::Piece(source) => Some(source),
        _ => None,
    })?;
    let source = workspace.balance(source).ok()?;
    let rows = source.overall.iter().map(|row| (row.ingredient, &row.share));
    yeast(workspace.book().pantry(), rows, &Share::WHOLE)
}

/// A weight as a share of flour; `None` without flour.
fn on(flour: &Share, weight: &Exact) -> Option<Share> {
    weight.checked_div(flour.fraction()).map(Share::from_fraction)
}
