//! From the lines of a text to its items: which doughs, cultures, ingredients and scales it has, and which lines
//! belong to each. No name is looked up here.

use levamen_language::{Line, Make, Name, Place, Problem, Span, StageHeading, Statement, TextId, Tree};

/// What a text defines.
#[derive(Debug, Default)]
pub(crate) struct Items<'t> {
    pub formulas: Vec<FormulaDraft<'t>>,
    pub ingredients: Vec<Block<'t>>,
    pub scales: Vec<Block<'t>>,
}

/// A heading and the lines under it.
#[derive(Debug)]
pub(crate) struct Block<'t> {
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
    pub overall: Option<Section<'t>>,
    pub stages: Vec<StageDraft<'t>>,
    /// A dough's `final dough` section; the lines of a culture.
    pub final_dough: Option<Section<'t>>,
    pub make: Option<(&'t Make, Span)>,
    pub wants: Vec<&'t Line<'t>>,
    pub notes: Vec<Name<'t>>,
}

/// A section without a name of its own.
#[derive(Debug)]
pub(crate) struct Section<'t> {
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

impl Block<'_> {
    pub(crate) fn place(&self) -> Place {
        Place { text: self.text, span: self.name.span }
    }
}

impl<'t> FormulaDraft<'t> {
    fn new(text: TextId, name: Name<'t>, line: &Line<'t>, is_culture: bool) -> Self {
        let final_dough = is_culture.then(|| Section { span: name.span, lines: Vec::new() });
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
enum Target {
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
    let mut target = Target::Nothing;
    // The stages that are open at this line, outermost first, with their depths.
    let mut open: Vec<(u16, usize)> = Vec::new();
    // The depth of a line that could not be read: it may have been meant as a heading, and what stands deeper is its own.
    let mut unread: Option<u16> = None;
    for line in &tree.lines {
        if matches!(line.statement, Statement::Empty | Statement::Comment) {
            continue;
        }
        unread = unread.filter(|depth| line.depth > *depth);
        if line.statement == Statement::Unread || unread.is_some() {
            unread = unread.or(Some(line.depth));
            // It belongs to the dough that it stands in: that dough is not whole.
            if !matches!(target, Target::Nothing | Target::Ingredient | Target::Scale | Target::Card)
                && let Some(draft) = items.formulas.last_mut()
            {
                draft.span = draft.span.to(line.span);
            }
            continue;
        }
        match &line.statement {
            Statement::Dough(name) | Statement::Culture(name) => {
                let is_culture = matches!(line.statement, Statement::Culture(_));
                items.formulas.push(FormulaDraft::new(text, *name, line, is_culture));
                target = if is_culture { Target::FinalDough } else { Target::Heading };
            }
            Statement::Ingredient(name) => {
                items.ingredients.push(Block { text, name: *name, lines: Vec::new() });
                target = Target::Ingredient;
            }
            Statement::Scale(name) => {
                items.scales.push(Block { text, name: *name, lines: Vec::new() });
                target = Target::Scale;
            }
            Statement::Card(_) => target = Target::Card,
            _ if matches!(target, Target::Card) => continue,
            _ => target = place_line(&mut items, target, &mut open, line),
        }
        if !matches!(target, Target::Stage) {
            open.clear();
        }
    }
    items
}

/// Puts a section or a fact where it belongs; returns where the next fact goes.
fn place_line<'t>(
    items: &mut Items<'t>,
    target: Target,
    open: &mut Vec<(u16, usize)>,
    line: &'t Line<'t>,
) -> Target {
    let block = match target {
        Target::Ingredient => items.ingredients.last_mut(),
        Target::Scale => items.scales.last_mut(),
        _ => None,
    };
    if let Some(block) = block {
        block.lines.push(line);
        return target;
    }
    let Some(draft) = items.formulas.last_mut() else { return target };
    draft.span = draft.span.to(line.span);
    let section = || Section { span: line.span, lines: Vec::new() };
    match &line.statement {
        Statement::Overall => {
            draft.overall.get_or_insert_with(section);
            return Target::Overall;
        }
        Statement::FinalDough => {
            draft.final_dough.get_or_insert_with(section);
            return Target::FinalDough;
        }
        Statement::Want => return Target::Want,
        Statement::Make(make) => {
            draft.make.get_or_insert((make, line.span));
            return Target::Heading;
        }
        Statement::Stage(heading) => {
            open.retain(|(depth, _)| *depth < line.depth);
            let inside = open.last().map(|(_, stage)| *stage);
            open.push((line.depth, draft.stages.len()));
            draft.stages.push(StageDraft { heading, inside, lines: Vec::new() });
            return Target::Stage;
        }
        Statement::Note(words) if matches!(target, Target::Heading) => draft.notes.push(*words),
        _ => {}
    }
    match target {
        Target::Overall => draft.overall.iter_mut().for_each(|section| section.lines.push(line)),
        Target::FinalDough => draft.final_dough.iter_mut().for_each(|section| section.lines.push(line)),
        Target::Stage => {
            open.retain(|(depth, _)| *depth < line.depth);
            if let Some(stage) = open.last().and_then(|(_, stage)| draft.stages.get_mut(*stage)) {
                stage.lines.push(line);
            }
        }
        Target::Want => draft.wants.push(line),
        Target::Heading | Target::Nothing | Target::Ingredient | Target::Scale | Target::Card => {}
    }
    target
}

/// A problem with two places of the same name.
pub(crate) fn used_twice(what: &str, name: &str, first: Place, second: Place) -> Problem {
    Problem::error("used-twice", format!("there are two {what} called `{name}`"))
        .at(second, "this name is taken")
        .and_at(first, "first used here")
        .help("give one of them another name")
}
