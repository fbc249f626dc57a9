//! The third layer: which line is under which, and what belongs together.
//!
//! The open blocks are a stack, so a text of any depth takes one pass and no recursion.

mod block;
mod place;

use block::{Block, Dough, WeighedNames};
use place::Opening;

use crate::lines::RawLine;
use crate::name::LineText;
use crate::problems::ProblemList;
use crate::problems::{block as block_problems, heading as heading_problems};
use crate::section::Section;
use crate::space::{first_word, trim};
use crate::statement::{self, FACTS, HEADINGS, keyword_in_capitals};
use crate::syntax_error::SyntaxError;
use crate::{Line, Span, Statement, card, characters, measure, nearest};

/// How deep stages may be nested. A build from a build from a build is deep; no bench goes deeper than this.
pub(crate) const MAX_NESTED: usize = 32;

/// What is at the left margin last.
#[derive(Debug)]
enum OpenItem {
    /// Nothing, or a heading that is no dough.
    Other,
    /// A dough.
    Dough(Box<Dough>),
    /// A heading that could not be read.
    Unknown,
}

/// The tree as far as it is read.
#[derive(Debug)]
pub(crate) struct Outline<'t> {
    source: LineText<'t>,
    lines: Vec<Line<'t>>,
    problems: ProblemList<'t>,
    item: OpenItem,
    blocks: Vec<Block<'t>>,
    rows: WeighedNames<'t>,
    /// Comments whose depth the next line decides: their lines and columns.
    waiting: Vec<(usize, u32)>,
    /// The depth of the last line that is no comment.
    last_depth: u16,
    /// The column of the stage that is nested too deep; what is deeper is not read.
    unread_below: Option<u32>,
}

impl<'t> Outline<'t> {
    /// An empty tree of a text with about this many lines.
    pub(crate) fn new(source: LineText<'t>, lines: usize) -> Self {
        Self {
            source,
            lines: Vec::with_capacity(lines),
            problems: ProblemList::new(source),
            item: OpenItem::Other,
            blocks: Vec::new(),
            rows: WeighedNames::default(),
            waiting: Vec::new(),
            last_depth: 0,
            unread_below: None,
        }
    }

    /// Adds the next line of the text.
    pub(crate) fn add(&mut self, raw: &RawLine<'t>) {
        if raw.body.is_empty() {
            self.add_quiet(raw);
            return;
        }
        let skipped = self.unread_below.is_some_and(|column| raw.columns > column);
        if skipped {
            self.push(raw, self.last_depth, Statement::Unread);
            return;
        }
        self.unread_below = None;
        self.close_down_to(raw.columns);
        let statement = match self.read(raw) {
            Ok(statement) => statement,
            Err(error) => {
                if !self.is_fact_of_a_misspelt_card(raw) {
                    self.problems.push(error);
                }
                Statement::Unread
            }
        };
        let depth = match Opening::of(&statement, raw) {
            Some(Opening::Item(section)) => self.open_item(raw, section, &statement),
            Some(Opening::Section(opens)) => self.open_section(raw, opens, &statement),
            None => self.add_fact(raw, &statement),
        };
        self.push(raw, depth, statement);
    }

    /// Ends the text.
    pub(crate) fn finish(mut self) -> (Vec<Line<'t>>, ProblemList<'t>) {
        self.close_item();
        self.place_comments(0, 0);
        (self.lines, self.problems)
    }

    /// What a line says.
    fn read(&self, raw: &RawLine<'t>) -> Result<Statement<'t>, SyntaxError<'t>> {
        characters::check(raw)?;
        let indented = raw.columns > 0;
        let within = indented.then(|| self.blocks.last().map_or(Section::Unknown, |block| block.section));
        statement::read(self.source, raw.body, within).map_err(|error| {
            // At the margin are headings, so a line there that weighs nothing is a misspelt one.
            if indented { error } else { misspelt_heading(raw.body).unwrap_or(error) }
        })
    }

    /// Whether a line is under a heading that could not be read, and would be right under that of a card.
    fn is_fact_of_a_misspelt_card(&self, raw: &RawLine<'t>) -> bool {
        let is_unknown = self.blocks.last().is_some_and(|block| block.section == Section::Unknown);
        raw.columns > 0 && is_unknown && card::begins_fact(first_word(raw.body).0)
    }

    /// Adds an empty line or a comment.
    fn add_quiet(&mut self, raw: &RawLine<'t>) {
        let statement = if raw.comment.is_some() {
            if let Err(error) = characters::check(raw) {
                self.problems.push(error);
            }
            self.waiting.push((self.lines.len(), raw.columns));
            Statement::Comment
        } else {
            Statement::Empty
        };
        self.lines.push(self.line(raw, 0, statement));
    }

    /// Adds a line that says something.
    fn push(&mut self, raw: &RawLine<'t>, depth: u16, statement: Statement<'t>) {
        self.place_comments(depth, raw.columns);
        self.last_depth = depth;
        self.lines.push(self.line(raw, depth, statement));
    }

    fn line(&self, raw: &RawLine<'t>, depth: u16, statement: Statement<'t>) -> Line<'t> {
        let comment = raw.comment.map(|comment| self.source.span(comment));
        Line { span: self.source.span(raw.whole), depth, statement, comment }
    }

    /// Gives the comments before a line its depth: a comment belongs to what follows it. One that is deeper
    /// than that belongs to the block before.
    fn place_comments(&mut self, depth: u16, column: u32) {
        for (index, comment_column) in self.waiting.drain(..) {
            if let Some(line) = self.lines.get_mut(index) {
                line.depth = if comment_column > column { self.last_depth.max(depth) } else { depth };
            }
        }
    }

    /// Ends the blocks whose headings are in this column or to the right of it.
    fn close_down_to(&mut self, column: u32) {
        while let Some(block) = self.blocks.pop_if(|block| block.column >= column) {
            if block.lacks_lines() {
                let heading = self.words_of(block.heading);
                self.problems.push(block_problems::empty_section(heading));
            }
            self.rows.close(&block.rows);
        }
    }

    /// Ends the dough or other item.
    fn close_item(&mut self) {
        self.close_down_to(0);
        if let OpenItem::Dough(dough) = std::mem::replace(&mut self.item, OpenItem::Other)
            && dough.sections_column.is_none()
        {
            let heading = self.words_of(dough.heading);
            self.problems.push(block_problems::empty_dough(heading));
        }
    }

    /// The words of an earlier line, without its comment.
    fn words_of(&self, index: usize) -> &'t str {
        let Some(line) = self.lines.get(index) else { return "" };
        let end = line.comment.map_or(line.span.end, |comment| comment.start);
        trim(Span::new(line.span.start, end).of(self.source.text))
    }
}

/// The error of a line at the margin that begins with no word of the language and weighs nothing.
fn misspelt_heading(body: &str) -> Option<SyntaxError<'_>> {
    let (first, _) = first_word(body);
    let known = HEADINGS.into_iter().chain(FACTS).any(|keyword| keyword == first || keyword == body);
    let weighs_nothing = matches!(measure::split(body), Ok(None));
    (!known && weighs_nothing && keyword_in_capitals(body).is_none()).then(|| {
        let at = if nearest(body, ["final dough"]).is_empty() { first } else { body };
        heading_problems::unknown(at, HEADINGS)
    })
}
