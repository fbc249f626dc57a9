//! The text of one dough as lines that can be taken out, changed and added.
//!
//! The language reads the lines and lays them out again; in between, a line is its depth and its words. So whatever
//! is not touched, comments and notes included, stays as the baker wrote it.

use levamen_formula::key;
use levamen_language::{Line, Place, Problem, SeedSource, Span, Statement, TextId, parse, tidy};

/// What a line of a draft says, as far as a conversion has to know.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum LineMeaning {
    Dough,
    Overall,
    /// A stage of this name, as names are compared.
    Stage(String),
    FinalDough,
    Want,
    Make,
    /// Something weighed, by its name as names are compared.
    Weigh(String),
    /// Seed or a piece, by the source's name as names are compared, with what stands after the amount.
    From(String, &'static str),
    /// A fact that settles how much of a stage there is, or how wet it is.
    Size,
    /// What is left over of a stage in grams, or as the rest.
    LeftOver,
    Note,
    /// Nothing: a stage stood here.
    Place,
    /// A comment or an empty line.
    Silent,
    Other,
}

/// One line.
#[derive(Debug, Clone)]
pub(crate) struct DraftLine {
    pub depth: usize,
    /// The words with the comment after them, without indentation.
    pub words: String,
    /// The comment after the words.
    pub comment: String,
    pub says: LineMeaning,
    /// When what it weighs goes in, where it says so.
    pub when: Option<String>,
    /// Where it stood.
    pub span: Span,
}

/// A dough's lines.
#[derive(Debug, Clone)]
pub(crate) struct Draft {
    pub lines: Vec<DraftLine>,
}

impl DraftLine {
    /// A line that was not in the text.
    pub fn new(depth: usize, words: impl Into<String>, says: LineMeaning) -> Self {
        Self { depth, words: words.into(), comment: String::new(), says, when: None, span: Span::default() }
    }

    fn read(line: &Line<'_>, text: &str) -> Self {
        let comment = line.comment.map(|span| span.of(text).to_owned()).unwrap_or_default();
        let words = line.span.of(text).to_owned();
        let when = match &line.statement {
            Statement::Weigh(weigh) => weigh.when.map(|when| when.spaced().into_owned()),
            _ => None,
        };
        Self { depth: line.depth.into(), words, comment, says: says(&line.statement), when, span: line.span }
    }

    /// The line with a comment after its words.
    pub fn with_comment(mut self, comment: &str) -> Self {
        let words = self.words.clone();
        comment.clone_into(&mut self.comment);
        self.say(&words);
        self
    }

    /// The same line with other words before its comment.
    pub fn say(&mut self, words: &str) {
        self.words =
            if self.comment.is_empty() { words.to_owned() } else { format!("{words}  {}", self.comment) };
    }
}

impl Draft {
    /// The lines of the dough whose name stands at a place, with the comments right above it; `None` where none stands
    /// there.
    pub fn read(text: &str, name: Place) -> Option<Self> {
        let parsed = parse(name.text, text);
        let lines = &parsed.tree.lines;
        let is_heading = |line: &Line<'_>| {
            matches!(
                line.statement,
                Statement::Dough(_)
                    | Statement::Culture(_)
                    | Statement::Ingredient(_)
                    | Statement::Scale(_)
                    | Statement::Card(_)
            )
        };
        let is_named =
            |line: &Line<'_>| matches!(line.statement, Statement::Dough(own) if own.span == name.span);
        let start = lines.iter().position(is_named)?;
        let after =
            lines.iter().skip(start + 1).position(is_heading).map_or(lines.len(), |at| start + 1 + at);
        let first = begin(lines, start);
        // What stands above the next heading belongs to that.
        let end = if after < lines.len() { begin(lines, after) } else { after };
        let own = lines.get(first..end).unwrap_or_default();
        Some(Self { lines: own.iter().map(|line| DraftLine::read(line, text)).collect() })
    }

    /// The first line that says so.
    pub fn find(&self, says: &LineMeaning) -> Option<usize> {
        self.lines.iter().position(|line| line.says == *says)
    }

    /// The lines of the block under a heading, the heading included; comments above the next block are not.
    pub fn block(&self, heading: usize) -> std::ops::Range<usize> {
        let Some(depth) = self.lines.get(heading).map(|line| line.depth) else { return heading..heading };
        let below = self.lines.iter().skip(heading + 1);
        let next = below.clone().position(|line| line.says != LineMeaning::Silent && line.depth <= depth);
        let mut end = next.map_or(self.lines.len(), |next| heading + 1 + next);
        while end > heading + 1
            && self
                .lines
                .get(end - 1)
                .is_some_and(|line| line.says == LineMeaning::Silent && line.depth <= depth)
        {
            end -= 1;
        }
        heading..end
    }

    /// Takes a block out, with the comments right above it; says where it stood.
    pub fn remove_block(&mut self, heading: usize) -> usize {
        let block = self.block(heading);
        let start = self.above(heading);
        self.lines.drain(start..block.end);
        start
    }

    /// The line that names the dough: a draft is of one, and keeps it.
    pub fn heading(&self) -> usize {
        let heading = self.find(&LineMeaning::Dough);
        debug_assert!(heading.is_some(), "a draft without its dough");
        // Where it were lost, the first line has the place of one; the text is read again, and balances or is refused.
        heading.unwrap_or(0)
    }

    /// The first of the comments right above a heading.
    pub fn above(&self, heading: usize) -> usize {
        let is_comment = |line: &&DraftLine| line.says == LineMeaning::Silent && !line.words.is_empty();
        let depth = self.lines.get(heading).map_or(0, |line| line.depth);
        let above = self.lines.get(..heading).unwrap_or_default().iter().rev();
        heading - above.take_while(|line| is_comment(line) && line.depth == depth).count()
    }

    /// Takes out the lines of a block that do not pass, and the heading with them where nothing passes.
    pub fn keep_in_block(&mut self, heading: usize, keep: impl Fn(&DraftLine) -> bool) {
        let block = self.block(heading);
        let passes = |at: usize, line: &DraftLine| at == heading || !block.contains(&at) || keep(line);
        let mut at = 0;
        self.lines.retain(|line| {
            at += 1;
            passes(at - 1, line)
        });
        let left = self.block(heading);
        let says_nothing = self
            .lines
            .get(heading + 1..left.end)
            .unwrap_or_default()
            .iter()
            .all(|line| line.says == LineMeaning::Silent);
        if says_nothing {
            self.remove_block(heading);
        }
    }

    /// Adds lines before the line of an index.
    pub fn insert(&mut self, at: usize, lines: impl IntoIterator<Item = DraftLine>) {
        let at = at.min(self.lines.len());
        self.lines.splice(at..at, lines);
    }

    /// Where a new stage goes: where one stood, else after the last stage, else after the overall formula, else at the end.
    pub fn place_for_stage(&self) -> usize {
        if let Some(place) = self.find(&LineMeaning::Place) {
            return place;
        }
        let is_above = |line: &DraftLine| {
            line.depth == 0 && matches!(line.says, LineMeaning::Stage(_) | LineMeaning::Overall)
        };
        let last = self.lines.iter().rposition(is_above);
        last.map_or(self.lines.len(), |heading| self.block(heading).end)
    }

    /// The text in canonical layout.
    ///
    /// # Errors
    /// What the language finds wrong with it; the places are in the text that was to be laid out.
    pub fn text(&self, id: TextId) -> Result<String, Vec<Problem>> {
        let mut text = String::new();
        for line in &self.lines {
            text.extend(std::iter::repeat_n("  ", line.depth));
            text += &line.words;
            text.push('\n');
        }
        tidy(id, &text)
    }
}

/// The first of the comments right above a heading.
fn begin(lines: &[Line<'_>], heading: usize) -> usize {
    let above = lines.get(..heading).unwrap_or_default().iter().rev();
    heading - above.take_while(|line| line.statement == Statement::Comment).count()
}

fn says(statement: &Statement<'_>) -> LineMeaning {
    match statement {
        Statement::Empty | Statement::Comment => LineMeaning::Silent,
        Statement::Dough(_) => LineMeaning::Dough,
        Statement::Overall => LineMeaning::Overall,
        Statement::Stage(heading) => LineMeaning::Stage(key(heading.name.text).into_owned()),
        Statement::FinalDough => LineMeaning::FinalDough,
        Statement::Want => LineMeaning::Want,
        Statement::Make(_) => LineMeaning::Make,
        Statement::Weigh(weigh) => LineMeaning::Weigh(key(weigh.name.text).into_owned()),
        Statement::From(from) => {
            let name = match from.source {
                SeedSource::Named(name) => key(name.text).into_owned(),
                SeedSource::ThisDough(_) => "this dough".to_owned(),
            };
            let is_given_back = matches!(from.seed, Some((levamen_language::SeedFate::GivenBack, _)));
            LineMeaning::From(name, if is_given_back { ", given back" } else { "" })
        }
        Statement::Takes(_) | Statement::Weighs(_) | Statement::Hydration(_) => LineMeaning::Size,
        Statement::LeftOver(amount)
            if !matches!(amount.kind, levamen_language::AmountKind::Percent { .. }) =>
        {
            LineMeaning::LeftOver
        }
        Statement::Note(_) => LineMeaning::Note,
        _ => LineMeaning::Other,
    }
}
