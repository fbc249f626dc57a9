//! From a formula as it is written to a [`Formula`] as the book means it.
//!
//! 1. Name the stages (`stages`).
//! 2. Read every line: names to ids, percentages to shares of something (`lines`, `amounts`).
//! 3. Put the stages in the order in which they are made (`stages`).
//! 4. Look for what no balance could mend (`checks`).
//! 5. Read the figures that it must have (`wants`).

mod amounts;
mod checks;
mod lines;
mod stages;
mod wants;

use std::sync::Arc;

use levamen_language::{MakeSize as WrittenSize, Problem, Span};
use levamen_quantity::{Exact, Share};
use rustc_hash::FxHashMap;

use crate::collect::FormulaDraft;
use crate::formula::{Formula, Overall, ResolvedMake, ResolvedMakeSize, Role};
use crate::ingredient::key;
use crate::names::Directory;
use crate::stage::{Item, Stage, StageId, WeighedLine};

/// What is known while one formula is read.
pub(crate) struct Resolver<'d, 't> {
    directory: &'d Directory<'d>,
    draft: &'d FormulaDraft<'t>,
    /// The stages by name; their ids are those of the draft until they are put in order.
    stage_ids: FxHashMap<String, StageId>,
    problems: &'d mut Vec<Problem>,
}

/// Reads one formula; `None` where it has an error, which is then in `problems`. `was_read` says whether every
/// line of it could be read.
pub(crate) fn resolve(
    directory: &Directory<'_>,
    draft: &FormulaDraft<'_>,
    was_read: bool,
    problems: &mut Vec<Problem>,
) -> Option<Formula> {
    let before = problems.len();
    let mut resolver = Resolver { directory, draft, stage_ids: FxHashMap::default(), problems };
    resolver.name_stages();
    let overall = resolver.overall();
    let mut stages = resolver.stages();
    if was_read {
        resolver.check_final_dough(overall.as_ref());
    }
    fill_final_dough(overall.as_ref(), &mut stages);
    let order = resolver.link(&mut stages)?;
    let mut formula = Formula {
        name: draft.name.text.into(),
        place: draft.place(draft.name.span),
        role: if draft.is_culture { Role::Culture } else { Role::Dough },
        overall,
        stages: stages::rearrange(stages, &order),
        make: resolver.make(),
        loss: resolver.loss(),
        wants: Vec::new(),
        is_resized: false,
        notes: draft.notes.iter().map(|words| words.text.into()).collect(),
    };
    let is_whole = was_read && resolver.problems.len() == before;
    resolver.check(&formula, is_whole);
    resolver.wants(&mut formula);
    (problems.len() == before).then_some(formula)
}

impl Resolver<'_, '_> {
    fn place(&self, span: Span) -> levamen_language::Place {
        self.draft.place(span)
    }

    fn report(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// Gives every stage its id.
    fn name_stages(&mut self) {
        let mut seen: FxHashMap<String, Span> = FxHashMap::default();
        for (id, stage) in (0..).map(StageId).zip(&self.draft.stages) {
            let name = stage.heading.name;
            let name_key = key(name.text).into_owned();
            if let Some(first) = seen.insert(name_key.clone(), name.span) {
                let (first, second) = (self.place(first), self.place(name.span));
                self.report(crate::collect::used_twice("stages", name.text, first, second));
            }
            self.stage_ids.insert(name_key, id);
        }
    }

    /// The id that the final dough has until the stages are put in order.
    fn final_id(&self) -> StageId {
        StageId(u32::try_from(self.draft.stages.len()).unwrap_or(u32::MAX))
    }

    /// With neither `overall` nor `final dough` nothing says what the dough is.
    fn check_final_dough(&mut self, overall: Option<&Overall>) {
        if overall.is_none() && self.draft.final_dough.is_none() {
            let name = self.draft.name;
            self.report(
                Problem::error("no-final-dough", format!("nothing says what goes into `{}`", name.text))
                    .at(self.place(name.span), "has neither `overall` nor `final dough`")
                    .help("add a section `overall` with the percentages of the whole dough")
                    .help("or a section `final dough` with what is weighed last"),
            );
        }
    }

    /// The share of the dough that the `make` line says is lost.
    fn loss(&self) -> Share {
        let loss = self.draft.make.and_then(|(make, _)| make.loss.as_ref());
        loss.map(|(percent, _)| Share::from_percent(percent.clone())).unwrap_or_default()
    }

    fn make(&mut self) -> Option<ResolvedMake> {
        let (make, span) = self.draft.make?;
        let place = self.place(span);
        let size = match &make.size {
            WrittenSize::Pieces { count, span, piece } => {
                let Some(count) = count.to_i64().and_then(|count| u64::try_from(count).ok()) else {
                    let problem = Problem::error("piece-count", "pieces are counted in whole numbers")
                        .at(self.place(*span), "not a whole number of pieces");
                    self.report(problem);
                    return None;
                };
                ResolvedMakeSize::Pieces(count, piece.mass.clone())
            }
            WrittenSize::Dough(quantity) => ResolvedMakeSize::Dough(quantity.mass.clone()),
            WrittenSize::ToDivide(quantity) => ResolvedMakeSize::ToDivide(quantity.mass.clone()),
            WrittenSize::Flour(quantity) => ResolvedMakeSize::Flour(quantity.mass.clone()),
        };
        Some(ResolvedMake { size, place })
    }
}

/// Whatever of the overall formula the stages leave goes into the final dough.
fn fill_final_dough(overall: Option<&Overall>, stages: &mut [Stage]) {
    let (Some(overall), Some(last)) = (overall, stages.last_mut()) else { return };
    for line in &overall.lines {
        let listed = last.lines.iter().any(|own| own.item == line.item);
        if !listed && matches!(line.item, Item::Ingredient(_)) {
            last.lines.push(WeighedLine { amount: None, ..line.clone() });
        }
    }
}

/// The sum of shares, in percent, as a baker reads it.
fn percent_sum<'s>(shares: impl Iterator<Item = &'s Share>) -> Exact {
    shares.map(Share::percent).sum()
}

/// A name for a model value.
fn shared(words: &str) -> Arc<str> {
    words.into()
}
