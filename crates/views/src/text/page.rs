//! Rows of figures under each other, decimal point under decimal point, and words filled up to the width of a column.
//!
//! A character of Chinese, Japanese or Korean takes two columns of a terminal, an accent of its own none (Unicode Annex 11).
//! Filling up with `format!` counts characters, and would put what follows such a name in another column.

use std::borrow::Cow;

use levamen_language::visible;
use unicode_width::UnicodeWidthStr;

/// A name longer than this stands on a line of its own, so that the figures stay within a narrow page.
const LONGEST_LABEL: usize = 40;

/// What stands between the margins of a page, from top to bottom.
#[derive(Debug)]
enum PageEntry<const N: usize> {
    Text(String),
    Titles { label: String, titles: [&'static str; N], remark: &'static str },
    Figures { label: String, cells: [String; N], remark: String },
}

/// A page of text and figures; all its figures share `N` columns.
#[derive(Debug)]
pub struct TextPage<const N: usize> {
    entries: Vec<PageEntry<N>>,
    least_label: usize,
}

impl<const N: usize> TextPage<N> {
    /// An empty page whose names have at least so much room, so that short tables look like long ones.
    pub fn new(least_label: usize) -> Self {
        Self { entries: Vec::new(), least_label }
    }

    /// A line of plain text; none is an empty line.
    pub fn text(&mut self, line: impl Into<String>) {
        self.entries.push(PageEntry::Text(one_line(line)));
    }

    /// A heading with the titles of the columns and of the remarks after them.
    pub fn titles(&mut self, label: impl Into<String>, titles: [&'static str; N], remark: &'static str) {
        self.entries.push(PageEntry::Titles { label: one_line(label), titles, remark });
    }

    /// A name, its figures and a remark; an empty figure leaves its column empty.
    pub fn figures(&mut self, label: impl Into<String>, cells: [String; N], remark: impl Into<String>) {
        self.entries.push(PageEntry::Figures { label: one_line(label), cells, remark: one_line(remark) });
    }

    /// The page, line by line, without a space at a line's end.
    pub fn render(&self) -> String {
        let label_width = self.label_width();
        let columns: [PageColumn; N] = std::array::from_fn(|index| self.column(index));
        let mut page = String::new();
        for entry in &self.entries {
            let line = match entry {
                PageEntry::Text(line) => line.clone(),
                PageEntry::Titles { label, titles, remark } => {
                    let cells: String =
                        columns.iter().zip(titles).map(|(column, cell)| column.title(cell)).collect();
                    labelled(label, label_width, &format!("{cells}   {remark}"))
                }
                PageEntry::Figures { label, cells, remark } => {
                    let cells: String =
                        columns.iter().zip(cells).map(|(column, cell)| column.figure(cell)).collect();
                    labelled(label, label_width, &format!("{cells}   {remark}"))
                }
            };
            page.push_str(line.trim_end());
            page.push('\n');
        }
        page
    }

    fn label_width(&self) -> usize {
        let widths = self.entries.iter().map(|entry| match entry {
            PageEntry::Text(_) => 0,
            PageEntry::Titles { label, .. } | PageEntry::Figures { label, .. } => width(label),
        });
        widths.filter(|&width| width <= LONGEST_LABEL).max().unwrap_or(0).max(self.least_label)
    }

    fn column(&self, index: usize) -> PageColumn {
        let mut column = PageColumn::default();
        for entry in &self.entries {
            match entry {
                PageEntry::Text(_) => {}
                PageEntry::Titles { titles, .. } => {
                    column.title = column.title.max(titles.get(index).map_or(0, |title| width(title)));
                }
                PageEntry::Figures { cells, .. } => {
                    let (whole, rest) = cells.get(index).map_or(("", ""), |cell| split(cell));
                    column.whole = column.whole.max(width(whole));
                    column.rest = column.rest.max(width(rest));
                }
            }
        }
        column
    }
}

/// The room that a column needs on both sides of the decimal point.
#[derive(Debug, Default)]
struct PageColumn {
    title: usize,
    whole: usize,
    rest: usize,
}

impl PageColumn {
    fn width(&self) -> usize {
        self.title.max(self.whole + self.rest)
    }

    fn title(&self, title: &str) -> String {
        format!("   {}", right(title, self.width()))
    }

    fn figure(&self, cell: &str) -> String {
        let (whole, rest) = split(cell);
        format!("   {}{}", right(whole, self.width() - self.rest), left(rest, self.rest))
    }
}

/// Words in one line: a name with a line end of its own would forge a row.
fn one_line(words: impl Into<String>) -> String {
    let words = words.into();
    match visible(&words) {
        Cow::Borrowed(_) => words,
        Cow::Owned(shown) => shown,
    }
}

/// A figure before and from its decimal point.
fn split(cell: &str) -> (&str, &str) {
    cell.find('.').and_then(|point| cell.split_at_checked(point)).unwrap_or((cell, ""))
}

fn labelled(label: &str, room: usize, cells: &str) -> String {
    if width(label) > room && !cells.trim().is_empty() {
        return format!("{label}\n{:room$}{cells}", "");
    }
    left(label, room) + cells
}

/// The columns that words take.
pub fn width(words: &str) -> usize {
    words.width()
}

/// Words that begin a column, with spaces after them up to its width.
pub fn left(words: &str, width: usize) -> String {
    format!("{words}{}", spaces(words, width))
}

/// Words that end a column, with spaces before them.
pub fn right(words: &str, width: usize) -> String {
    format!("{}{words}", spaces(words, width))
}

/// A line as wide as a title, to stand under it.
pub fn underline(title: &str) -> String {
    "=".repeat(width(title))
}

/// What words lack of a width.
fn spaces(words: &str, room: usize) -> String {
    " ".repeat(room.saturating_sub(width(words)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_stand_under_points() {
        let mut page = TextPage::<1>::new(24);
        page.titles("overall", ["grams"], "");
        page.figures("  crème", ["1250.0".into()], "");
        page.figures("  salt", ["7.125".into()], "");
        page.figures("  seed", ["8".into()], "");
        let lines: Vec<String> = page.render().lines().map(str::to_owned).collect();
        assert_eq!(
            lines,
            [
                "overall                       grams",
                "  crème                    1250.0",
                "  salt                        7.125",
                "  seed                        8",
            ]
        );
    }

    #[test]
    fn figures_after_wide_characters_stand_under_the_others() {
        let mut page = TextPage::<1>::new(0);
        page.figures("\u{98df}\u{30d1}\u{30f3}", ["12.5".into()], "loaf");
        page.figures("cre\u{300}me bun", ["7.25".into()], "");
        assert_eq!(page.render(), "\u{98df}\u{30d1}\u{30f3}      12.5    loaf\ncre\u{300}me bun    7.25\n");
    }

    #[test]
    fn a_long_name_has_a_line_of_its_own() {
        let mut page = TextPage::<1>::new(24);
        page.figures("  a ".to_owned() + &"very ".repeat(12) + "long name", ["5.0".into()], "");
        assert_eq!(page.render().lines().count(), 2);
    }

    #[test]
    fn wide_characters_take_two_columns_and_accents_none() {
        assert_eq!(width("\u{98df}\u{30d1}\u{30f3}"), 6);
        assert_eq!(width("cre\u{300}me"), 5);
        assert_eq!(underline("\u{30d1}\u{30f3}"), "====");
    }

    #[test]
    fn words_are_filled_up_to_a_width_and_never_cut() {
        assert_eq!(left("\u{30d1}\u{30f3}", 6), "\u{30d1}\u{30f3}  ");
        assert_eq!(right("8 g", 6), "   8 g");
        assert_eq!(left("levain", 2), "levain");
    }
}
