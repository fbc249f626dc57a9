//! What makes a stage ripen: its seed or its yeast, out of its balance.

use levamen_balance::{Balance, Item, Line, Ripening, Stage};
use levamen_ferment::{FermentError, Leaven, Remark, RipeningReference, Seed, Strength, Yeast, salt_remark};
use levamen_formula::{IngredientId, Pantry, StageKind};
use levamen_language::Kind;
use levamen_quantity::{Exact, Share};

use crate::failure::Failure;
use crate::measure::refused;
use crate::shelf::Shelf;

/// The stage of a name, or the only one that ripens.
///
/// # Errors
/// There is none of that name, none at all, or several to choose from.
pub fn stage<'b>(balance: &'b Balance, name: Option<&str>) -> Result<&'b Stage, Failure> {
    let ferments = |stage: &&Stage| stage.kind.ferments() && stage.ripens.is_some();
    let known: Vec<&Stage> = balance.stages.iter().filter(ferments).collect();
    let names = known.iter().map(|stage| stage.name.as_str()).collect::<Vec<_>>().join(", ");
    let Some(name) = name else {
        return match known.as_slice() {
            [one] => Ok(one),
            [] => Err(Failure::usage(format!("`{}` has no pre-ferment with a `ripens` line", balance.dough))
                .help("write into its stage how long it takes you, such as `ripens 12 h at 21 °C`")),
            _ => Err(Failure::usage(format!("`{}` has several stages that ripen", balance.dough))
                .help(format!("name one of them: {names}"))),
        };
    };
    let wanted = levamen_formula::key(name);
    balance.stages.iter().find(|stage| levamen_formula::key(&stage.name) == wanted).ok_or_else(|| {
        let failure = Failure::usage(format!("`{}` has no stage called `{name}`", balance.dough));
        if names.is_empty() { failure } else { failure.help(format!("those that ripen are {names}")) }
    })
}

/// What the bakery knows of a stage, and the line of its file that says so.
///
/// # Errors
/// The stage says no time and temperature, or nothing in it ferments.
pub fn reference<'b>(
    shelf: &Shelf,
    balance: &Balance,
    stage: &'b Stage,
) -> Result<(RipeningReference, &'b Ripening), Failure> {
    let leaven = leaven(shelf, balance, stage)?;
    let ripens = stage.ripens.as_ref().and_then(|ripens| Some((ripens, ripens.temperature.as_ref()?)));
    let Some((ripens, at)) = ripens else {
        return Err(Failure::usage(format!(
            "`{}` does not say how long it ripens, and how warm",
            stage.name
        ))
        .help("write into it how long it takes you, such as `ripens 12 h at 21 °C`"));
    };
    let reference =
        RipeningReference::new(leaven, &ripens.least, ripens.most.as_ref(), at).map_err(failed)?;
    Ok((reference, ripens))
}

/// What to look at again in a stage into which salt is weighed: no model counts it.
pub fn salt(shelf: &Shelf, stage: &Stage) -> Option<Remark> {
    let of_line = |line: &Line| match line.item {
        Item::Ingredient { id, .. } => {
            let salt = shelf.book.pantry().get(id)?.salt.fraction();
            Some(line.share.fraction() * salt)
        }
        Item::Seed(_) | Item::Piece | Item::Stage(_) => None,
    };
    let salt: Exact = stage.lines.iter().filter_map(of_line).sum();
    salt_remark(&on(&stage.own_flour, &salt)?)
}

/// The yeast or the seed of a stage. With both, it is the yeast: it is quicker.
fn leaven(shelf: &Shelf, balance: &Balance, stage: &Stage) -> Result<Leaven, Failure> {
    let own = stage.lines.iter().filter_map(|line| match line.item {
        Item::Ingredient { id, .. } => Some((id, &line.share)),
        Item::Seed(_) | Item::Piece | Item::Stage(_) => None,
    });
    let of_own = yeast(shelf.book.pantry(), own, &stage.own_flour);
    let leaven = of_own.or_else(|| seed(balance, stage)).or_else(|| of_pieces(shelf, balance, stage));
    leaven.ok_or_else(|| {
        Failure::usage(format!(
            "nothing in `{}` tells how it ripens: no seed and no baker's yeast",
            stage.name
        ))
        .help("seed is a line such as `from mother culture 20 %` beside flour")
        .help("what is yeast says so in its ingredient: `yeast fresh`, `yeast instant` or how much fresh yeast it replaces")
    })
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
fn seed(balance: &Balance, stage: &Stage) -> Option<Leaven> {
    let is_ripe = |line: &&Line| match line.item {
        Item::Seed(_) => true,
        Item::Stage(index) => balance.stages.get(index).is_some_and(|child| child.kind.ferments()),
        Item::Ingredient { .. } | Item::Piece => false,
    };
    let (ripe, fresh): (Vec<&Line>, Vec<&Line>) = stage.lines.iter().partition(is_ripe);
    let sum = |lines: &[&Line]| lines.iter().map(|line| line.share.fraction()).sum::<Exact>();
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
fn of_pieces(shelf: &Shelf, balance: &Balance, stage: &Stage) -> Option<Leaven> {
    let id = shelf.book.find(&balance.dough)?;
    let formula = shelf.book.entry(id)?.formula.as_ref()?;
    let own = formula.stages.iter().find(|own| *own.name == *stage.name)?;
    let source = own.lines.iter().find_map(|line| match line.item {
        levamen_formula::Item::Piece(source) => Some(source),
        _ => None,
    })?;
    let source = shelf.balance(source).ok()?;
    let rows = source.overall.iter().map(|row| (row.ingredient, &row.share));
    yeast(shelf.book.pantry(), rows, &Share::WHOLE)
}

/// A weight as a share of flour; `None` without flour.
fn on(flour: &Share, weight: &Exact) -> Option<Share> {
    weight.checked_div(flour.fraction()).map(Share::from_fraction)
}

/// What a model refuses, as a failure.
pub fn failed(refusal: FermentError) -> Failure {
    Failure::problem(refused(refusal))
}
