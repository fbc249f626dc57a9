//! The table: its header and its rows.

use csv::{ReaderBuilder, StringRecord};
use levamen_language::{Place, Problem, TextId};

use crate::fault;
use crate::form::Form;
use crate::row::{Row, span};

/// A table of at least one row.
#[derive(Debug, Clone)]
pub struct Table<'t> {
    form: Form,
    header: Row<'t>,
    rows: Vec<Row<'t>>,
}

impl<'t> Table<'t> {
    /// Reads a table. A row of nothing is left out.
    ///
    /// # Errors
    /// It has no rows, or its cells are parted by another mark than a comma.
    pub fn read(id: TextId, text: &'t str, form: &Form) -> Result<Self, Box<Problem>> {
        let mut rows = rows(id, text, form.most_rows).into_iter();
        let header = rows.next().ok_or_else(|| Box::new(fault::no_rows(form, None)))?;
        if header.len() == 1
            && let Some(mark) = [';', '\t', '|'].into_iter().find(|mark| header.words(0).contains(*mark))
        {
            return Err(Box::new(fault::separator(header.place, mark)));
        }
        Ok(Self { form: *form, header, rows: rows.collect() })
    }

    /// The column of a name; capitals do not matter.
    ///
    /// # Errors
    /// There are two of the name.
    pub fn column_if_any(&self, name: &str) -> Result<Option<usize>, Box<Problem>> {
        let is_it = |column: &usize| self.header.words(*column).eq_ignore_ascii_case(name);
        let mut found = (0..self.header.len()).filter(is_it);
        let first = found.next();
        found
            .next()
            .map_or(Ok(first), |again| Err(Box::new(fault::column_twice(self.header.place_of(again), name))))
    }

    /// The column of a name that must be there.
    ///
    /// # Errors
    /// There is none of the name, or there are two.
    pub fn column(&self, name: &str) -> Result<usize, Box<Problem>> {
        let missing = || Box::new(fault::missing_column(&self.form, self.header.place, name));
        self.column_if_any(name)?.ok_or_else(missing)
    }

    /// The rows, at most as many as are read.
    #[must_use]
    pub fn rows(&self) -> &[Row<'t>] {
        self.rows.get(..self.form.most_rows).unwrap_or(&self.rows)
    }

    /// Reads each row, and tells everything that is wrong, in the order of the lines: with rows that `read` refuses,
    /// with rows of more cells than there are columns, and with a table of no rows or of too many.
    pub fn each<R>(
        &self,
        mut read: impl FnMut(&Row<'t>) -> Result<R, Box<Problem>>,
    ) -> (Vec<R>, Vec<Problem>) {
        let (mut found, mut problems) = (Vec::new(), Vec::new());
        for row in self.rows() {
            let read = if row.len() > self.header.len() {
                Err(Box::new(fault::extra_cell(row, self.header.len())))
            } else {
                read(row)
            };
            match read {
                Ok(value) => found.push(value),
                Err(wrong) => problems.push(*wrong),
            }
        }
        if self.rows.is_empty() {
            problems.push(fault::no_rows(&self.form, Some(self.header.place)));
        }
        if let Some(extra) = self.rows.get(self.form.most_rows) {
            problems.push(fault::too_many_rows(&self.form, extra.place));
        }
        (found, problems)
    }
}

/// Every row that is not empty, with its place; one more than are read, so that too many are noticed.
fn rows(id: TextId, text: &str, most: usize) -> Vec<Row<'_>> {
    let body = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mark = text.len() - body.len();
    let mut reader = ReaderBuilder::new().has_headers(false).flexible(true).from_reader(body.as_bytes());
    let mut cells = StringRecord::new();
    let mut found = Vec::new();
    // The text is UTF-8 and stands in memory, so reading it fails at its end alone.
    while found.len() <= most + 1 && reader.read_record(&mut cells).unwrap_or(false) {
        let end = usize::try_from(reader.position().byte()).unwrap_or(usize::MAX);
        let Some((start, line)) = cells.position().map(|at| (at.byte(), at.line())) else { continue };
        let start = usize::try_from(start).unwrap_or(usize::MAX);
        // What is between may begin with line ends left of the record before.
        let words = body.get(start..end.min(body.len())).unwrap_or_default();
        let from = mark + start + (words.len() - words.trim_start().len());
        let place = Place { text: id, span: span(from, from + words.trim().len()) };
        let row = Row { text, cells: cells.clone(), place, line };
        if !row.is_empty() {
            found.push(row);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const FORM: Form = Form { empty: "", columns: "", row: "", most_rows: 3, too_many: "" };

    proptest! {
        #[test]
        fn any_text_is_read_and_every_cell_stands_where_its_place_says(text in "[ab,\"\r\n ]{0,80}") {
            if let Ok(table) = Table::read(TextId(0), &text, &FORM) {
                for row in table.rows() {
                    for column in 0..=row.len() {
                        let stands = row.place_of(column).span.of(&text);
                        prop_assert!(stands == row.words(column) || row.place_of(column) == row.place());
                    }
                }
            }
        }
    }

    #[test]
    fn more_rows_than_are_read_are_told() {
        let table = Table::read(TextId(0), "a\n1\n2\n3\n4\n5\n", &FORM).unwrap();
        let (read, problems) = table.each(|row| Ok(row.words(0).to_owned()));
        assert_eq!(read, ["1", "2", "3"]);
        assert_eq!(problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["too-many-rows"]);
    }
}
