//! The canonical layout: the same facts and comments, each at its place.
//!
//! Two spaces for each depth, sections at the left margin with one empty line between them, the amounts of a
//! block in a column. Figures stay as they are written. Nothing but layout changes, and a text in canonical
//! layout does not change at all.

mod cells;

use cells::{Cells, cells};

use crate::{Line, Problem, Severity, Statement, TextId, Tree, parse};

/// Space for each depth.
const INDENT: usize = 2;

/// Least space between a name and its amount, and before a comment.
const GAP: &str = "  ";

/// The text of a tree in canonical layout. `text` is what the tree was read from.
///
/// Meant for a tree without problems; a line that could not be read is kept as it is.
///
/// ```
/// use levamen_language::{TextId, format, parse};
///
/// let text = "dough Tin loaf\noverall\n  flour 100%\n  water 62.5 %  # tap\n";
/// let tidy = format(&parse(TextId(0), text).tree, text);
/// assert_eq!(tidy, "dough Tin loaf\n\noverall\n  flour   100 %\n  water  62.5 %  # tap\n");
/// ```
#[must_use]
pub fn format(tree: &Tree<'_>, text: &str) -> String {
    let rows: Vec<Cells<'_>> = tree.lines.iter().map(|line| cells(line, text)).collect();
    let columns = columns(&tree.lines, &rows);
    let attached = attached(&tree.lines);
    let mut out = String::with_capacity(text.len() + text.len() / 4);
    let mut before: Option<&Line<'_>> = None;
    let mut empty = false;
    for (index, ((line, row), columns)) in tree.lines.iter().zip(&rows).zip(&columns).enumerate() {
        if line.statement == Statement::Empty {
            empty = true;
            continue;
        }
        let begins = attached.get(index).is_some_and(|attached| *attached);
        if let Some(before) = before
            && parted(before, line, begins, empty)
        {
            out.push('\n');
        }
        write_line(&mut out, line, row, *columns, text);
        (before, empty) = (Some(line), false);
    }
    out
}

/// A text in canonical layout.
///
/// # Errors
/// The text's problems, where it has any that is an error: what could not be read is not moved about.
pub fn tidy(id: TextId, text: &str) -> Result<String, Vec<Problem>> {
    let parsed = parse(id, text);
    if parsed.problems.iter().any(|problem| problem.severity == Severity::Error) {
        return Err(parsed.problems);
    }
    Ok(format(&parsed.tree, text))
}

/// Whether an empty line is between two lines.
fn parted(before: &Line<'_>, line: &Line<'_>, begins: bool, empty: bool) -> bool {
    let comment = before.statement == Statement::Comment;
    if begins {
        // A comment that is right above its section stays with it.
        return empty || !(comment && before.depth == line.depth);
    }
    empty && !opens_block(&before.statement)
}

/// Which lines begin a section or item: its heading, or the comments right above it.
fn attached(lines: &[Line<'_>]) -> Vec<bool> {
    let mut below = false;
    let mut attached: Vec<bool> = lines
        .iter()
        .rev()
        .map(|line| {
            below = line.depth == 0
                && match line.statement {
                    Statement::Comment => below,
                    Statement::Make(_) => true,
                    ref statement => opens_block(statement),
                };
            below
        })
        .collect();
    attached.reverse();
    attached
}

fn opens_block(statement: &Statement<'_>) -> bool {
    matches!(
        statement,
        Statement::Dough(_)
            | Statement::Culture(_)
            | Statement::Ingredient(_)
            | Statement::Scale(_)
            | Statement::Card(_)
            | Statement::Overall
            | Statement::Stage(_)
            | Statement::FinalDough
            | Statement::Want
    )
}

/// The widths of a block's columns, in characters.
#[derive(Debug, Clone, Copy, Default)]
struct ColumnWidths {
    name: usize,
    figure: usize,
}

/// The widths of the columns for each line: those of its block.
fn columns(lines: &[Line<'_>], rows: &[Cells<'_>]) -> Vec<ColumnWidths> {
    // The blocks that are open, by depth, and for each line which block it is in.
    let mut open: Vec<usize> = Vec::new();
    let mut widths: Vec<ColumnWidths> = Vec::new();
    let mut block_of = Vec::with_capacity(lines.len());
    for (line, row) in lines.iter().zip(rows) {
        let depth = usize::from(line.depth);
        if !matches!(line.statement, Statement::Comment | Statement::Empty) {
            open.truncate(depth + 1);
            while open.len() <= depth {
                open.push(widths.len());
                widths.push(ColumnWidths::default());
            }
        }
        let block = open.get(depth).copied();
        block_of.push(block);
        if let (Some(figure), Some(columns)) = (&row.figure, block.and_then(|block| widths.get_mut(block))) {
            columns.name = columns.name.max(row.name.chars().count());
            columns.figure = columns.figure.max(figure_width(figure));
        }
    }
    let of = |block: Option<usize>| block.and_then(|block| widths.get(block)).copied().unwrap_or_default();
    block_of.into_iter().map(of).collect()
}

/// How much of the figures' column a figure takes.
fn figure_width(figure: &str) -> usize {
    // `rest` is under a figure and its unit: ` 2 %`.
    let unit = if figure == "rest" { 2 } else { 0 };
    figure.chars().count() - unit
}

/// Writes one line.
fn write_line(out: &mut String, line: &Line<'_>, row: &Cells<'_>, columns: ColumnWidths, text: &str) {
    pad(out, usize::from(line.depth) * INDENT);
    out.push_str(&row.name);
    if let Some(figure) = row.figure {
        pad(out, columns.name.saturating_sub(row.name.chars().count()));
        out.push_str(GAP);
        pad(out, columns.figure.saturating_sub(figure_width(figure)));
        out.push_str(figure);
    }
    out.push_str(&row.rest);
    if let Some(comment) = line.comment {
        if line.statement != Statement::Comment {
            out.push_str(GAP);
        }
        out.push_str(comment.of(text));
    }
    out.push('\n');
}

fn pad(out: &mut String, spaces: usize) {
    out.extend(std::iter::repeat_n(' ', spaces));
}
