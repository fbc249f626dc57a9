//! Commercial yeast, counted again.
//!
//! It is the one ingredient of the whole that a conversion changes. How much a pre-ferment holds follows from its
//! hours and its temperature; how much the final dough is given follows from the flour that comes to it fresh. What the
//! rules rest on is in `docs/convert.md`.

use levamen_balance::{Balance, BalancedItem, BalancedStage};
use levamen_ferment::{Answer, FermentError, Spread, Strength, yeast_amount};
use levamen_formula::{IngredientId, Pantry, key};
use levamen_language::{AskedField, Hint, Problem, YeastKind};
use levamen_quantity::{Duration, Exact, Share, Temperature};

use crate::figures::{finite, quotient, two_digits};
use crate::ingredients::strength;
use crate::present::PresentPreFerment;
use crate::problems;
use crate::request::ConversionRequest;
use crate::target::{ConversionTarget, RaisedBy};

/// Fresh yeast of a straight dough whose own yeast is no guide, in percent of the flour: M. Avery on yeast in straight
/// doughs, bread forum thefreshloaf.com, page 7341.
const STRAIGHT_PERCENT: u32 = 2;

/// The yeast of a dough before and after.
#[derive(Debug, Clone, PartialEq)]
pub struct YeastCount {
    /// Which yeast.
    pub name: String,
    /// In the whole dough as it was, any other yeast counted as so much of this.
    pub before: Share,
    /// In the whole dough as it is now.
    pub whole: Share,
    /// In the final dough as it is now.
    pub final_dough: Share,
    /// In the pre-ferment, where it is raised by yeast.
    pub dose: Option<Dose>,
    /// How the final dough's yeast was come to.
    pub rule: String,
}

/// Yeast of a pre-ferment on its own flour.
#[derive(Debug, Clone, PartialEq)]
pub struct Dose {
    /// What is written.
    pub share: Share,
    /// Between what printed pre-ferments have for these hours and this temperature; `None` where the baker said it.
    pub printed: Option<(Share, Share)>,
    /// What deserves another look.
    pub remarks: Vec<String>,
}

impl YeastCount {
    /// Whether the dough had no yeast and has none.
    pub(crate) fn is_nothing(&self) -> bool {
        self.before.fraction().is_zero() && self.whole.fraction().is_zero()
    }

    /// The count with what the final dough has in the balance.
    pub(crate) fn settled(self, after: &Balance) -> Self {
        let lines = after.stages.last().map_or(&[][..], |last| &last.lines);
        let own = lines.iter().find(|line| key(&line.name) == key(&self.name));
        Self { final_dough: own.map(|line| line.share.clone()).unwrap_or_default(), ..self }
    }
}

/// The yeast that a dough is counted in.
#[derive(Debug, Clone)]
pub(crate) struct YeastChoice<'p> {
    pub name: String,
    pub strength: Strength,
    pantry: &'p Pantry,
}

impl<'p> YeastChoice<'p> {
    /// The yeast that is wished for; else the one that the dough has most of; else instant yeast, or another dry one
    /// where the book's own instant yeast does not say that it is any.
    ///
    /// # Errors
    /// What is wished for is no yeast.
    pub fn choose(request: &ConversionRequest, dough: &Balance, pantry: &'p Pantry) -> Result<Self, Problem> {
        let named = |name: &str| {
            let id = pantry.find(name)?;
            let name = pantry.get(id)?.name.clone();
            Some(Self { name, strength: strength(pantry, id)?, pantry })
        };
        if let Some(wanted) = &request.yeast {
            return named(wanted).ok_or_else(|| problems::not_yeast(wanted, pantry.find(wanted).is_some()));
        }
        let fresh = Strength::usual(YeastKind::Fresh);
        let rows = dough.overall.iter().filter(|row| row.share.fraction().is_positive());
        let yeasts = rows.filter_map(|row| {
            let strength = strength(pantry, row.ingredient)?;
            let as_fresh = fresh.for_share(&row.share, &strength);
            Some((as_fresh, Self { name: row.name.clone(), strength, pantry }))
        });
        let most = yeasts.max_by(|(one, _), (other, _)| one.cmp(other)).map(|(_, yeast)| yeast);
        let kinds = [YeastKind::Instant, YeastKind::ActiveDry, YeastKind::Fresh];
        most.or_else(|| kinds.into_iter().find_map(|kind| named(kind.name())))
            .ok_or_else(|| problems::not_yeast(YeastKind::Instant.name(), true))
    }

    /// Yeasts of several kinds as so much of this one.
    fn sum<'n>(&self, parts: impl Iterator<Item = (IngredientId, &'n Share)>) -> Exact {
        let as_this = parts.filter_map(|(id, share)| {
            Some(self.strength.for_share(share, &strength(self.pantry, id)?).fraction().clone())
        });
        as_this.sum()
    }

    /// What a pre-ferment holds for a time and a temperature.
    ///
    /// # Errors
    /// Where the rule does not reach.
    pub fn dose(
        &self,
        request: &ConversionRequest,
        time: &Duration,
        at: &Temperature,
    ) -> Result<Dose, Problem> {
        if let Some(share) = &request.dose {
            return Ok(Dose { share: share.clone(), printed: None, remarks: Vec::new() });
        }
        let Answer { found, remarks } = yeast_amount(&self.strength, time, at).map_err(|error| {
            ferment_problem(error).help(Hint::of_field(
                "or say the yeast yourself, such as ",
                AskedField::Yeast,
                " 0.2%",
            ))
        })?;
        let Spread { least, likely, most } = found;
        let remarks = remarks.into_iter().map(|remark| remark.message).collect();
        Ok(Dose { share: likely, printed: Some((least, most)), remarks })
    }

    /// The yeast in what is weighed into the final dough.
    fn in_final_dough(&self, dough: &Balance) -> Exact {
        let lines = dough.stages.last().map_or(&[][..], |last| &last.lines);
        self.sum(lines.iter().filter_map(|line| match line.item {
            BalancedItem::Ingredient { id, .. } => Some((id, &line.share)),
            BalancedItem::Stage(_) | BalancedItem::Seed(_) | BalancedItem::Piece => None,
        }))
    }

    fn in_all(&self, dough: &Balance) -> Exact {
        self.sum(dough.overall.iter().map(|row| (row.ingredient, &row.share)))
    }

    /// What stages that stay hold of this very yeast.
    pub fn elsewhere(name: &str, without: &Balance) -> Exact {
        let same = |other: &str| key(other) == key(name);
        let row: Exact =
            without.overall.iter().filter(|row| same(&row.name)).map(|row| row.share.fraction()).sum();
        let lines = without.stages.last().map_or(&[][..], |last| &last.lines);
        let cells = lines
            .iter()
            .filter(|line| matches!(line.item, BalancedItem::Ingredient { .. }) && same(&line.name));
        let cell: Exact = cells.map(|line| line.share.fraction()).sum();
        &row - &cell
    }
}

/// What a model refuses, as a problem.
pub(crate) fn ferment_problem(error: FermentError) -> Problem {
    let problem = Problem::error(error.code, error.message);
    let problem = error.notes.into_iter().fold(problem, Problem::note);
    error.help.into_iter().fold(problem, Problem::help)
}

/// What a dough's yeast is counted from.
pub(crate) struct Recount<'r> {
    pub yeast: &'r YeastChoice<'r>,
    pub target: ConversionTarget,
    /// The flour in the new pre-ferment, of all flour.
    pub share: &'r Exact,
    pub dose: Option<Dose>,
    pub present: Option<&'r PresentPreFerment>,
    pub before: &'r Balance,
    /// The dough without its pre-ferment.
    pub without: &'r Balance,
}

impl Recount<'_> {
    /// The yeast of the whole dough.
    pub fn count(self) -> YeastCount {
        let row = self.without.overall.iter().find(|row| key(&row.name) == key(&self.yeast.name));
        let row = row.map(|row| row.share.fraction().clone()).unwrap_or_default();
        // Pieces of the dough itself hold their part of whatever yeast the whole has; the rest is counted for them too.
        let pieces = own_pieces(self.without);
        let beside = |amount: &Exact| quotient(amount, &(&Exact::ONE - &pieces));
        let elsewhere = &YeastChoice::elsewhere(&self.yeast.name, self.without) - &(&pieces * &row);
        let inside = self.dose.as_ref().map_or(Exact::ZERO, |dose| self.share * dose.share.fraction());
        let (fresh, mut rule) = self.in_final_dough();
        let held = &elsewhere + &inside;
        let before = self.yeast.in_all(self.before);
        // What stays as it is written is not rounded; else the final dough's is, and the whole is what follows.
        let rounded = two_digits(&fresh);
        let is_kept = fresh == rounded || row == beside(&(&held + &fresh));
        if !is_kept {
            rule += ", rounded to two digits";
        }
        let whole = written(&beside(&(&held + if is_kept { &fresh } else { &rounded })));
        let held = beside(&held);
        YeastCount {
            name: self.yeast.name.clone(),
            before: Share::from_fraction(before),
            final_dough: Share::from_fraction(&whole - &held),
            whole: Share::from_fraction(whole),
            dose: self.dose,
            rule,
        }
    }

    /// What the final dough is given, before it is rounded, and why.
    fn in_final_dough(&self) -> (Exact, String) {
        let own = self.yeast.in_final_dough(self.before);
        match self.target.leaven() {
            Some(RaisedBy::Culture) if self.present.is_some_and(PresentPreFerment::is_soured) => {
                (own, "as much as before: a culture raised it before, and does now".to_owned())
            }
            Some(RaisedBy::Culture) => {
                (Exact::ZERO, "none, the culture raises the dough (common practice)".to_owned())
            }
            Some(RaisedBy::OwnDough) => {
                let (straight, from) = self.straight();
                (straight, format!("{from}; old dough is a piece of the same dough, its yeast included"))
            }
            Some(RaisedBy::Yeast) => {
                let (straight, from) = self.straight();
                let fresh = &Exact::ONE - self.share;
                (&straight * &fresh, format!("{from}, for the flour that comes fresh to the final dough"))
            }
            None => self.straight(),
        }
    }

    /// The yeast of the dough if it were straight, and what that is taken from.
    fn straight(&self) -> (Exact, String) {
        let own = self.yeast.in_final_dough(self.before);
        let kept = &self.yeast.in_all(self.without) - &self.yeast.in_final_dough(self.without);
        let all = &self.yeast.in_all(self.before) - &kept;
        let (share, from) = match self.present {
            _ if !all.is_positive() => {
                let usual = Share::from_percent(Exact::from(STRAIGHT_PERCENT));
                let usual = self.yeast.strength.for_share(&usual, &Strength::usual(YeastKind::Fresh));
                (
                    usual.fraction().clone(),
                    "the usual 2 % of fresh yeast in a straight dough, since it had none",
                )
            }
            Some(present) if own.is_positive() && present.kind.is_some() && !present.is_old_dough() => {
                let fresh = &Exact::ONE - &present.flour;
                (own.checked_div(&fresh).unwrap_or(all), "as much as the final dough had for its fresh flour")
            }
            _ => (all, "as much as the dough had"),
        };
        let rounded = two_digits(&share);
        let about = if rounded == share { "" } else { "about " };
        (share, format!("{about}{} of the flour, {from}", problems::percent(&rounded)))
    }
}

/// The flour in pieces of a dough's own last batch: the part of its yeast that they hold.
fn own_pieces(dough: &Balance) -> Exact {
    let in_stage = |stage: &BalancedStage| {
        let pieces =
            stage.lines.iter().filter(|line| line.item == BalancedItem::Piece && line.name == "this dough");
        let weight: Exact = pieces.map(|line| line.share.fraction()).sum();
        // What is left over of the stage does not come into the dough.
        // Of a stage of nothing, nothing is taken.
        let taken = stage.taken.fraction().checked_div(stage.made.fraction()).unwrap_or_default();
        &weight * &taken
    };
    let weight: Exact = dough.stages.iter().map(in_stage).sum();
    quotient(&weight, dough.weight.fraction())
}

/// A share of the whole as a text can have it: exact where it ends, and else no less by a millionth of a percent at most.
fn written(share: &Exact) -> Exact {
    if finite(share).is_some() {
        return share.clone();
    }
    let parts = Exact::from(100_000_000);
    let down = &(share * &parts).floor() / &parts;
    &down + &(&Exact::ONE / &parts)
}
