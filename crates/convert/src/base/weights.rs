//! What stays of a dough, written by weight from its balance.

use levamen_balance::{Balance, BalancedItem, BalancedStage, StatedSize};
use levamen_formula::{StageKind, key};
use levamen_quantity::Exact;

use crate::base::line;
use crate::draft::{Draft, DraftLine, LineMeaning};
use crate::figures::{finite, lowest};

/// How a text names a piece of the same dough's last batch.
const THIS_DOUGH: &str = "this dough";

/// The draft with all that it weighs in grams, which fix the proportions; `None` where a figure is too long.
///
/// The weights are those of the batch where they end after a few decimals, and else those of the smallest batch
/// in which all of them end.
pub(super) fn by_weight(draft: &Draft, dough: &Balance) -> Option<Draft> {
    let mut draft = draft.clone();
    let scale = scale(dough);
    set_overall(&mut draft, dough, &scale)?;
    for stage in &dough.stages {
        if let Some(heading) = draft.find(&LineMeaning::Stage(key(&stage.name).into_owned())) {
            set_lines(&mut draft, heading, stage, &scale)?;
        }
    }
    if let Some(heading) = draft.find(&LineMeaning::FinalDough) {
        let pieces = dough.stages.iter().filter(|stage| is_own_piece(stage));
        let pieces: Vec<LineMeaning> =
            pieces.map(|stage| LineMeaning::Weigh(key(&stage.name).into_owned())).collect();
        draft.keep_in_block(heading, |line| !pieces.contains(&line.says));
    }
    if let (Some(heading), Some(last)) = (draft.find(&LineMeaning::FinalDough), dough.stages.last()) {
        let block = draft.block(heading);
        for line in draft.lines.get_mut(block)? {
            weigh(line, last, &scale)?;
        }
    }
    let is_in_grams = draft.lines.iter().any(|line| line.depth > 0 && line.words.ends_with(" g"));
    let is_sized = is_in_grams && *dough.size.flour().grams() == scale;
    Some(if is_sized { draft } else { sized(&draft, dough).unwrap_or(draft) })
}

/// The draft with the size that its weights had said; `None` where they did not, or a line says it.
pub(super) fn sized(draft: &Draft, dough: &Balance) -> Option<Draft> {
    let StatedSize::Weights { flour } = &dough.size else { return None };
    if draft.find(&LineMeaning::Make).is_some() {
        return None;
    }
    let thousand = Exact::from(1000);
    let (figure, unit) = if *flour.grams() < thousand {
        (flour.grams().clone(), "g")
    } else {
        (flour.grams() / &thousand, "kg")
    };
    let tenth = &Exact::ONE / &Exact::from(10_000);
    let words = finite(&figure).or_else(|| finite(&figure.round_to(&tenth)))?;
    let mut draft = draft.clone();
    draft.lines.push(DraftLine::new(0, format!("make {words} {unit} of flour"), LineMeaning::Make));
    Some(draft)
}

/// Grams of flour of the batch in which the weights are written.
fn scale(dough: &Balance) -> Exact {
    let shares = || {
        let rows = dough.overall.iter().map(|row| row.share.fraction());
        rows.chain(dough.stages.iter().flat_map(|stage| &stage.lines).map(|line| line.share.fraction()))
    };
    let flour = dough.size.flour();
    let is_short =
        |scale: &Exact| shares().all(|share| finite(&(share * scale)).is_some_and(|words| words.len() <= 10));
    if is_short(flour.grams()) { flour.grams().clone() } else { lowest(shares()) }
}

/// Writes the overall formula: in percentages where they end soon, else in grams.
fn set_overall(draft: &mut Draft, dough: &Balance, scale: &Exact) -> Option<()> {
    let rows: Vec<_> = dough.overall.iter().filter(|row| !row.share.fraction().is_zero()).collect();
    let percents: Option<Vec<String>> =
        rows.iter().map(|row| finite(&row.share.percent()).filter(|words| words.len() <= 7)).collect();
    // Whatever stays beside the overall formula is written by weight.
    let has_weights =
        draft.lines.iter().any(|line| matches!(line.says, LineMeaning::Stage(_) | LineMeaning::From(..)));
    let amounts: Vec<String> = match percents {
        Some(percents) if !has_weights => percents.iter().map(|words| format!("{words} %")).collect(),
        _ => {
            let grams = rows.iter().map(|row| finite(&(row.share.fraction() * scale)));
            grams.map(|words| words.map(|words| format!("{words} g"))).collect::<Option<_>>()?
        }
    };
    let lines: Vec<DraftLine> = rows
        .iter()
        .zip(amounts)
        .map(|(row, amount)| {
            DraftLine::new(
                1,
                format!("{} {amount}", row.name),
                LineMeaning::Weigh(key(&row.name).into_owned()),
            )
        })
        .collect();
    let comments: Vec<(LineMeaning, String)> = match draft.find(&LineMeaning::Overall) {
        Some(heading) => {
            let own = draft.lines.get(draft.block(heading))?.iter();
            own.map(|line| (line.says.clone(), line.comment.clone())).collect()
        }
        None => Vec::new(),
    };
    let lines = lines.into_iter().map(|line| match comments.iter().find(|(says, _)| *says == line.says) {
        Some((_, comment)) => line.with_comment(comment),
        None => line,
    });
    let at = empty_overall(draft)?;
    draft.insert(at, lines);
    Some(())
}

/// Takes the ingredients out of the overall formula, which is begun where there is none; says where they go.
fn empty_overall(draft: &mut Draft) -> Option<usize> {
    if let Some(heading) = draft.find(&LineMeaning::Overall) {
        let block = draft.block(heading);
        let mut index = 0;
        draft.lines.retain(|line| {
            index += 1;
            let is_inside = block.contains(&(index - 1)) && index - 1 != heading;
            !is_inside || matches!(line.says, LineMeaning::Note | LineMeaning::Silent)
        });
        return Some(heading + 1);
    }
    let heading = draft.find(&LineMeaning::Dough)?;
    let is_section = |line: &&DraftLine| {
        matches!(
            line.says,
            LineMeaning::Stage(_)
                | LineMeaning::FinalDough
                | LineMeaning::Want
                | LineMeaning::Make
                | LineMeaning::Place
        )
    };
    let at = draft.lines.iter().skip(heading).position(|line| is_section(&line));
    let at = at.map_or(draft.lines.len(), |at| draft.above(heading + at));
    draft.insert(at, [DraftLine::new(0, "overall", LineMeaning::Overall)]);
    Some(at + 1)
}

/// Writes the lines of a stage in grams.
fn set_lines(draft: &mut Draft, heading: usize, stage: &BalancedStage, scale: &Exact) -> Option<()> {
    let block = draft.block(heading);
    let depth = draft.lines.get(heading)?.depth + 1;
    let mut kept = Vec::new();
    if is_own_piece(stage) {
        let grams = finite(&(stage.prefermented_flour.fraction() * scale))?;
        kept.push(line(depth, format!("takes {grams} g of flour")));
    }
    let mut named: Vec<String> = Vec::new();
    for mut line in draft.lines.get(block.clone())?.iter().skip(1).cloned() {
        let is_own = line.depth == depth;
        if is_own && line.says == LineMeaning::Size {
            continue;
        }
        if is_own {
            match &line.says {
                LineMeaning::Weigh(name) | LineMeaning::From(name, _) => named.push(name.clone()),
                LineMeaning::LeftOver => {
                    let grams = finite(&(stage.left_over.fraction() * scale))?;
                    line.say(&format!("left over {grams} g"));
                }
                _ => {}
            }
            weigh(&mut line, stage, scale)?;
        }
        kept.push(line);
    }
    // The water that a hydration had brought in has no line of its own.
    let silent = stage.lines.iter().filter(|line| {
        matches!(line.item, BalancedItem::Ingredient { .. }) && !named.contains(&key(&line.name).into_owned())
    });
    let mut added = Vec::new();
    for silent in silent {
        let grams = finite(&(silent.share.fraction() * scale))?;
        added.push(line(depth, format!("{} {grams} g", silent.name)));
    }
    kept.splice(0..0, added);
    draft.lines.splice(heading + 1..block.end, kept);
    Some(())
}

/// Whether a stage is a piece of the dough itself and nothing else. What it weighs moves with the dough's yeast; its
/// flour does not.
fn is_own_piece(stage: &BalancedStage) -> bool {
    matches!(stage.lines.as_slice(), [line] if line.name == THIS_DOUGH && line.item == BalancedItem::Piece)
        && stage.prefermented_flour.fraction().is_positive()
}

/// Writes one line of a stage in grams; other lines stay as they are.
fn weigh(line: &mut DraftLine, stage: &BalancedStage, scale: &Exact) -> Option<()> {
    let (LineMeaning::Weigh(name) | LineMeaning::From(name, _)) = &line.says else { return Some(()) };
    if is_own_piece(stage) {
        line.say(&format!("from {THIS_DOUGH}"));
        return Some(());
    }
    // In the final dough what goes in at several times is the rest, and shares of it.
    if line.when.is_some() && stage.kind == StageKind::FinalDough {
        return Some(());
    }
    let known = stage.lines.iter().find(|known| key(&known.name) == *name && known.when == line.when)?;
    let grams = finite(&(known.share.fraction() * scale))?;
    let words = if let LineMeaning::From(_, fate) = &line.says {
        format!("from {} {grams} g{fate}", known.name)
    } else {
        let when = line.when.as_ref().map(|when| format!(", {when}")).unwrap_or_default();
        format!("{} {grams} g{when}", known.name)
    };
    line.say(&words);
    Some(())
}
