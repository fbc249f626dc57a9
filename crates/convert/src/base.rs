//! The dough without the pre-ferment that is replaced: all of it in the final dough.
//!
//! The text of the dough is kept wherever it says enough without that stage. Where it does not, because the dough is
//! written from its stages or its size hangs on one, every line that stays is written by weight, exactly, from the
//! balance. Either way the result is balanced and held against the dough as it was.
//!
//! What goes into the final dough at several times still does after a conversion, however much of it that then is.

use levamen_balance::{Balance, BalancedItem, BalancedLine, BalancedRow, BalancedStage, StatedSize};
use levamen_formula::{IngredientId, NamedFigure, Pantry, StageId, key};
use levamen_language::Problem;
use levamen_quantity::{Exact, Share};

use crate::draft::{Draft, DraftLine, LineMeaning};
use crate::figures::finite;
use crate::ingredients::is_yeast;
use crate::present::PresentPreFerment;
use crate::problems;
use crate::trial::{Trial, TrialDough};

mod weights;

/// A dough without one of its pre-ferments.
#[derive(Debug)]
pub(crate) struct Base {
    pub draft: Draft,
    pub dough: TrialDough,
    /// Whether the lines had to be written by weight.
    pub by_weight: bool,
}

/// Takes a pre-ferment out of a dough, all of whose ingredients then go into the final dough; with `in_grams` all that
/// stays is written by weight, whatever the text says.
///
/// # Errors
/// Where what stays cannot be written without it.
pub(crate) fn without(
    present: Option<&PresentPreFerment>,
    dough: &TrialDough,
    draft: Draft,
    in_grams: bool,
    trial: &mut Trial,
) -> Result<Base, Vec<Problem>> {
    let draft = taken_out(draft, present, dough, trial.pantry());
    let weighed = weights::by_weight(&draft, &dough.balance);
    let is_too_long = weighed.is_none();
    let sized = weights::sized(&draft, &dough.balance);
    let kept = [Some(draft), sized].into_iter().flatten().filter(|_| !in_grams).map(|draft| (draft, false));
    let tries: Vec<(Draft, bool)> = kept.chain(weighed.map(|draft| (draft, true))).collect();
    let mut why = Vec::new();
    for (draft, by_weight) in tries {
        match draft.text(trial.id()).and_then(|text| trial.read(&text)) {
            Ok(tried)
                if is_same(&tried.balance, &dough.balance, trial.pantry())
                    && (by_weight || is_as_large(dough, &tried)) =>
            {
                return Ok(Base { draft, dough: tried, by_weight });
            }
            Err(problems) if why.is_empty() => why = problems,
            Ok(_) | Err(_) => {}
        }
    }
    let name = &dough.balance.dough;
    Err(vec![if is_too_long { problems::long_figures(name) } else { problems::not_without(name, &why) }])
}

/// Whether a dough whose weights say how much is made still makes as much.
fn is_as_large(before: &TrialDough, after: &TrialDough) -> bool {
    let is_weighed = matches!(before.balance.size, StatedSize::Weights { .. });
    !is_weighed || before.balance.size.flour() == after.balance.size.flour()
}

/// The draft without a pre-ferment; where its block stood, there is a place for another.
fn taken_out(
    mut draft: Draft,
    present: Option<&PresentPreFerment>,
    dough: &TrialDough,
    pantry: &Pantry,
) -> Draft {
    let formula = &dough.formula;
    let ids = present.map_or(&[][..], |present| &present.stages);
    let gone: Vec<String> =
        ids.iter().filter_map(|id| formula.stage(*id)).map(|stage| key(&stage.name).into_owned()).collect();
    drop_wants(&mut draft, ids, dough, pantry);
    for name in &gone {
        if let Some(heading) = draft.find(&LineMeaning::Stage(name.clone())) {
            let at = draft.remove_block(heading);
            if draft.find(&LineMeaning::Place).is_none() {
                draft.insert(at, [DraftLine::new(0, "", LineMeaning::Place)]);
            }
        }
    }
    let piece =
        present.filter(|present| present.kind.is_none()).map(|present| key(&present.name).into_owned());
    let stages: Vec<String> = formula.stages.iter().map(|stage| key(&stage.name).into_owned()).collect();
    if let Some(heading) = draft.find(&LineMeaning::FinalDough) {
        as_shares(&mut draft, heading, &dough.balance);
        draft.keep_in_block(heading, |line| match &line.says {
            LineMeaning::Weigh(_) if line.when.is_some() => true,
            LineMeaning::Weigh(name) => stages.contains(name) && !gone.contains(name),
            LineMeaning::From(name, _) => piece.as_ref() != Some(name),
            _ => true,
        });
    }
    draft
}

/// What is wanted of a stage that is gone is gone with it, and what is wanted of yeast, since that is counted again.
fn drop_wants(draft: &mut Draft, gone: &[StageId], dough: &TrialDough, pantry: &Pantry) {
    let yeast = |asked: NamedFigure| {
        let is_asked = |row: &&BalancedRow| {
            asked == NamedFigure::Row(row.ingredient) && is_yeast(pantry, row.ingredient)
        };
        dough.balance.overall.iter().find(is_asked)
    };
    for want in &dough.formula.wants {
        let row = yeast(want.figure);
        if row.is_none() && !want.figure.stage().is_some_and(|id| gone.contains(&id)) {
            continue;
        }
        let start = want.place.span.start;
        draft.lines.retain(|line| line.span.end == 0 || !(line.span.start..line.span.end).contains(&start));
        // The overall formula may have left this figure to the want.
        let figure = row.and_then(|row| Some((row, finite(&row.share.percent())?)));
        if let (Some((row, figure)), Some(heading)) = (figure, draft.find(&LineMeaning::Overall)) {
            let (block, own) = (draft.block(heading), LineMeaning::Weigh(key(&row.name).into_owned()));
            let lines = draft.lines.get_mut(block).unwrap_or_default();
            if let Some(line) = lines.iter_mut().find(|line| line.says == own) {
                line.say(&format!("{} {figure} %", row.name));
            }
        }
    }
    if let Some(heading) = draft.find(&LineMeaning::Want) {
        draft.keep_in_block(heading, |_| true);
    }
}

/// Whether two doughs have the same whole but for yeast, and the second every stage that the first builds ahead.
pub(crate) fn is_same(fewer: &Balance, more: &Balance, pantry: &Pantry) -> bool {
    let ahead = fewer.stages.split_last().map_or(&[][..], |(_, ahead)| ahead);
    let is_kept = |stage: &BalancedStage| {
        let same = more.stages.iter().find(|other| other.name == stage.name && other.kind == stage.kind);
        same.is_some_and(|other| (&other.flour, &other.water) == (&stage.flour, &stage.water))
    };
    ahead.iter().all(is_kept) && pieces_stay(fewer, more) && rows(fewer, pantry) == rows(more, pantry)
}

/// Whether the second dough has every seed and piece that goes straight into the first.
fn pieces_stay(fewer: &Balance, more: &Balance) -> bool {
    let pieces = |balance: &Balance| -> Vec<(String, Exact)> {
        let lines = balance.stages.last().map_or(&[][..], |last| &last.lines);
        let pieces =
            lines.iter().filter(|line| matches!(line.item, BalancedItem::Seed(_) | BalancedItem::Piece));
        pieces.map(|line| (line.name.clone(), line.share.fraction().clone())).collect()
    };
    let kept = pieces(more);
    pieces(fewer).iter().all(|piece| kept.contains(piece))
}

/// The rows that a conversion must not change, in the order of their ids.
fn rows(balance: &Balance, pantry: &Pantry) -> Vec<(IngredientId, Exact)> {
    let counts = |row: &&BalancedRow| !is_yeast(pantry, row.ingredient) && !row.share.fraction().is_zero();
    let mut rows: Vec<_> = balance
        .overall
        .iter()
        .filter(counts)
        .map(|row| (row.ingredient, row.share.fraction().clone()))
        .collect();
    rows.sort_by_key(|(id, _)| *id);
    rows
}

/// A line under a heading.
pub(crate) fn line(depth: usize, words: impl Into<String>) -> DraftLine {
    DraftLine::new(depth, words, LineMeaning::Other)
}

/// Writes the lines of the final dough that say when they go in as shares of what goes in of it in all: the first as the
/// rest, so that the whole stays exact, and each other one to a hundredth of a percent.
fn as_shares(draft: &mut Draft, heading: usize, dough: &Balance) {
    let block = draft.block(heading);
    let lines = dough.stages.last().map_or(&[][..], |last| &last.lines);
    let mut seen: Vec<String> = Vec::new();
    for line in draft.lines.get_mut(block).unwrap_or_default() {
        let (LineMeaning::Weigh(name), Some(when)) = (&line.says, &line.when) else { continue };
        let of_it = |known: &&BalancedLine| key(&known.name) == *name;
        let own = lines.iter().filter(of_it).find(|known| known.when.as_ref() == Some(when));
        let Some(own) = own else { continue };
        let whole: Exact = lines.iter().filter(of_it).map(|known| known.share.fraction()).sum();
        let words = match own.share.fraction().checked_div(&whole).filter(|_| seen.contains(name)) {
            Some(share) => {
                let percent = Share::from_fraction(share).to_percent(2);
                format!("{0} {percent} of its {0}, {when}", own.name)
            }
            None => format!("{} rest, {when}", own.name),
        };
        seen.push(name.clone());
        line.say(&words);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use levamen_language::TextId;

    const BOOK: &str = "
culture mother
  flour  100 %
  water  100 %

dough Loaf

overall
  flour        100 %
  water         70 %
  salt           2 %
  fresh yeast  0.5 %

stage soaker, a soaker
  flour   10 % of the flour
  water   20 % of the flour

final dough
  from mother  8 % of the flour
";

    /// Whether a changed dough is the same as the one that it was.
    fn is_kept(from: &str, to: &str) -> bool {
        let trial = |text: &str| Trial::new(&[&[(TextId(0), text)]]);
        let balance = |trial: &Trial| {
            let book = trial.open().book();
            trial.balance(book.find("loaf").unwrap()).unwrap()
        };
        let (before, after) = (trial(BOOK), trial(&BOOK.replace(from, to)));
        is_same(&balance(&before), &balance(&after), before.pantry())
    }

    #[test]
    fn yeast_and_a_new_stage_may_differ() {
        assert!(is_kept("", ""));
        assert!(is_kept("0.5 %", "0.9 %"));
        assert!(is_kept("  fresh yeast  0.5 %\n", ""));
        let poolish =
            "\nstage poolish\n  takes  20 % of the flour\n  flour  100 %\n  water  100 %\n\nfinal dough";
        assert!(is_kept("\nfinal dough", poolish));
    }

    #[test]
    fn another_whole_another_stage_and_another_seed_are_seen() {
        assert!(!is_kept("  2 %", "  2.1 %"), "salt");
        assert!(!is_kept("  salt           2 %\n", ""), "no salt");
        assert!(!is_kept("  salt ", "  sugar  1 %\n  salt "), "sugar");
        assert!(!is_kept("water   20 %", "water   21 %"), "the water of a stage");
        assert!(!is_kept("flour   10 %", "flour   11 %"), "the flour of a stage");
        assert!(!is_kept("soaker, a soaker", "soak, a soaker"), "the name of a stage");
        assert!(!is_kept("soaker, a soaker", "soaker, a scald"), "the kind of a stage");
        assert!(!is_kept("  8 %", "  9 %"), "the seed");
        assert!(!is_kept("\nfinal dough\n  from mother  8 % of the flour\n", ""), "no seed");
    }
}
