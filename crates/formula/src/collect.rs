//! From the lines of a text to its items: which doughs, cultures, ingredients and scales it has, and which lines
//! belong to each. No name is looked up here.

use levamen_language::{Line, Make, Name, Place, Problem, Span, StageHeading, Statement, TextId, Tree};

/// What a text defines.
#[derive(Debug, Default)]
pub(crate) struct Items<'t> {
    pub formulas: Vec<FormulaDraft<'t>>,
    pub ingredients: Vec<DraftBlock<'t>>,
    pub scales: Vec<DraftBlock<'t>>,
}

/// A heading and the lines under it.
#[derive(Debug)]
pub(crate) struct DraftBlock<'t> {
    pub text: TextId,
    pub name: Name<'t>,
    pub lines: Vec<&'t Line<'t>>,
}

/// A dough or a culture as it is written.
#[derive(Debug)]
pub(crate) struct FormulaDraft<'t> {
    pub text: TextId,
    pub name: Name<'t>,
    pub is_culture: bool,
    /// From the heading to the end of the last line.
    pub span: Span,
    pub overall: Option<DraftSection<'t>>,
    pub stages: Vec<StageDraft<'t>>,
    /// A dough's `final dough` section; the lines of a culture.
    pub final_dough: Option<DraftSection<'t>>,
    pub make: Option<(&'t Make, Span)>,
    pub wants: Vec<&'t Line<'t>>,
    pub notes: Vec<Name<'t>>,
}

/// A section without a name of its own.
#[derive(Debug)]
pub(crate) struct DraftSection<'t> {
    pub span: Span,
    pub lines: Vec<&'t Line<'t>>,
}

/// A stage as it is written.
#[derive(Debug)]
pub(crate) struct StageDraft<'t> {
    pub heading: &'t StageHeading<'t>,
    /// The stage that it is nested in.
    pub inside: Option<usize>,
    pub lines: Vec<&'t Line<'t>>,
}

impl DraftBlock<'_> {
    pub(crate) fn place(&self) -> Place {
        Place { text: self.text, span: self.name.span }
    }
}

impl<'t> FormulaDraft<'t> {
    fn new(text: TextId, name: Name<'t>, line: &Line<'t>, is_culture: bool) -> Self {
        let final_dough = is_culture.then(|| DraftSection { span: name.span, lines: Vec::new() });
        Self {
            text,
            name,
            is_culture,
            span: line.span,
            overall: None,
            stages: Vec::new(),
            final_dough,
            make: None,
            wants: Vec::new(),
            notes: Vec::new(),
        }
    }

    pub(crate) fn place(&self, span: Span) -> Place {
        Place { text: self.text, span }
    }

    /// Whether a place lies in this formula.
    pub(crate) fn holds(&self, place: Place) -> bool {
        place.text == self.text && self.span.start <= place.span.start && place.span.start <= self.span.end
    }
}

/// Where the next fact goes.
#[derive(Clone, Copy)]
enum LineTarget {
    Nothing,
    Heading,
    Overall,
    FinalDough,
    Stage,
    Want,
    Ingredient,
    Scale,
    /// A card of the bakery, which says nothing of doughs.
    Card,
}

/// Sorts the lines of a text to the items they belong to. A line that belongs to nothing was reported by the
/// parser already and is passed over.
pub(crate) fn collect<'t>(text: TextId, tree: &'t Tree<'t>) -> Items<'t> {
    let mut items = Items::default();
    let mut target = LineTarget::Nothing;
    // The stages that are open at this line, outermost first, with their depths.
    let mut open: Vec<(u16, usize)> = Vec::new();
    // The depth of a line that could not be read: it may have been meant as a heading, and what is deeper is its own.
    let mut unread: Option<u16> = None;
    for line in &tree.lines {
        if matches!(line.statement, Statement::Empty | Statement::Comment) {
            continue;
        }
        unread = unread.filter(|depth| line.depth > *depth);
        if line.statement == Statement::Unread || unread.is_some() {
            unread = unread.or(Some(line.depth));
            // It belongs to the dough that it is in: that dough is not whole.
            if !matches!(
                target,
                LineTarget::Nothing | LineTarget::Ingredient | LineTarget::Scale | LineTarget::Card
            ) && let Some(draft) = items.formulas.last_mut()
            {
                draft.span = draft.span.to(line.span);
            }
            continue;
        }
        match &line.statement {
            Statement::Dough(name) | Statement::Culture(name) => {
                let is_culture = matches!(line.statement, Statement::Culture(_));
                items.formulas.push(FormulaDraft::new(text, *name, line, is_culture));
                target = if is_culture { LineTarget::FinalDough } else { LineTarget::Heading };
            }
            Statement::Ingredient(name) => {
                items.ingredients.push(DraftBlock { text, name: *name, lines: Vec::new() });
                target = LineTarget::Ingredient;
            }
            Statement::Scale(name) => {
                items.scales.push(DraftBlock { text, name: *name, lines: Vec::new() });
                target = LineTarget::Scale;
            }
            Statement::Card(_) => target = LineTarget::Card,
            _ if matches!(target, LineTarget::Card) => continue,
            _ => target = place_line(&mut items, target, &mut open, line),
        }
        if !matches!(target, LineTarget::Stage) {
            open.clear();
        }
    }
    items
}

/// Puts a section or a fact where it belongs; returns where the next fact goes.
fn place_line<'t>(
    items: &mut Items<'t>,
    target: LineTarget,
    open: &mut Vec<(u16, usize)>,
    line: &'t Line<'t>,
) -> LineTarget {
    let block = match target {
        LineTarget::Ingredient => items.ingredients.last_mut(),
        LineTarget::Scale => items.scales.last_mut(),
        _ => None,
    };
    if let Some(block) = block {
        block.lines.push(line);
        return target;
    }
    let Some(draft) = items.formulas.last_mut() else { return target };
    draft.span = draft.span.to(line.span);
    let section = || DraftSection { span: line.span, lines: Vec::new() };
    match &line.statement {
        Statement::Overall => {
            draft.overall.get_or_insert_with(section);
            return LineTarget::Overall;
        }
        Statement::FinalDough => {
            draft.final_dough.get_or_insert_with(section);
            return LineTarget::FinalDough;
        }
        Statement::Want => return LineTarget::Want,
        Statement::Make(make) => {
            draft.make.get_or_insert((make, line.span));
            return LineTarget::Heading;
        }
        Statement::Stage(heading) => {
            open.retain(|(depth, _)| *depth < line.depth);
            let inside = open.last().map(|(_, stage)| *stage);
            open.push((line.depth, draft.stages.len()));
            draft.stages.push(StageDraft { heading, inside, lines: Vec::new() });
            return LineTarget::Stage;
        }
        Statement::Note(words) if matches!(target, LineTarget::Heading) => draft.notes.push(*words),
        _ => {}
    }
    push_fact(draft, target, open, line);
    target
}

/// Puts a fact into the section that is open.
fn push_fact<'t>(
    draft: &mut FormulaDraft<'t>,
    target: LineTarget,
    open: &mut Vec<(u16, usize)>,
    line: &'t Line<'t>,
) {
    match target {
        LineTarget::Overall => draft.overall.iter_mut().for_each(|section| section.lines.push(line)),
        LineTarget::FinalDough => draft.final_dough.iter_mut().for_each(|section| section.lines.push(line)),
        LineTarget::Stage => {
            open.retain(|(depth, _)| *depth < line.depth);
            if let Some(stage) = open.last().and_then(|(_, stage)| draft.stages.get_mut(*stage)) {
                stage.lines.push(line);
            }
        }
        LineTarget::Want => draft.wants.push(line),
        LineTarget::Heading
        | LineTarget::Nothing
        | LineTarget::Ingredient
        | LineTarget::Scale
        | LineTarget::Card => {}
    }
}

/// A problem with two places of the same name.
pub(crate) fn used_twice(what: &str, name: &str, first: Place, second: Place) -> Problem {
    Problem::error("used-twice", format!("there are two {what} called `{name}`"))
        .at(second, "this name is taken")
        .and_at(first, "first used here")
        .help("give one of them another name")
}
