//! The table: its header and its rows.

use levamen_language::{Problem, TextId};

use crate::problems::{self, TableForm};
use crate::row::{TableRow, TableRows};

/// A table of at least one row.
#[derive(Debug, Clone)]
pub struct Table<'t> {
    form: TableForm,
    header: TableRow<'t>,
    rows: Vec<TableRow<'t>>,
}

impl<'t> Table<'t> {
    /// Reads a table. A row of nothing is left out.
    ///
    /// # Errors
    /// It has no rows, or its cells are separated by another mark than a comma.
    pub fn read(id: TextId, text: &'t str, form: &TableForm) -> Result<Self, Box<Problem>> {
        // One row more than are read, so that too many are noticed.
        let mut rows = TableRows::new(id, text).filter(|row| !row.is_empty()).take(form.most_rows + 2);
        let header = rows.next().ok_or_else(|| Box::new(problems::no_rows(form, None)))?;
        if header.len() == 1
            && let Some(mark) = [';', '\t', '|'].into_iter().find(|mark| header.words(0).contains(*mark))
        {
            return Err(Box::new(problems::separator(header.place(), mark)));
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
        found.next().map_or(Ok(first), |again| {
            Err(Box::new(problems::column_twice(self.header.place_of(again), name)))
        })
    }

    /// The column of a name that must be there.
    ///
    /// # Errors
    /// There is none of the name, or there are two.
    pub fn column(&self, name: &str) -> Result<usize, Box<Problem>> {
        let missing = || Box::new(problems::missing_column(&self.form, self.header.place(), name));
        self.column_if_any(name)?.ok_or_else(missing)
    }

    /// The rows, at most as many as are read.
    #[must_use]
    pub fn rows(&self) -> &[TableRow<'t>] {
        self.rows.get(..self.form.most_rows).unwrap_or(&self.rows)
    }

    /// Reads each row, and reports everything that is wrong, in the order of the lines: with rows that `read` refuses,
    /// with rows of more cells than there are columns, and with a table of no rows or of too many.
    pub fn each<R>(
        &self,
        mut read: impl FnMut(&TableRow<'t>) -> Result<R, Box<Problem>>,
    ) -> (Vec<R>, Vec<Problem>) {
        let (mut found, mut reported) = (Vec::new(), Vec::new());
        for row in self.rows() {
            let read = if row.len() > self.header.len() {
                Err(Box::new(problems::extra_cell(row, self.header.len())))
            } else {
                read(row)
            };
            match read {
                Ok(value) => found.push(value),
                Err(wrong) => reported.push(*wrong),
            }
        }
        if self.rows.is_empty() {
            reported.push(problems::no_rows(&self.form, Some(self.header.place())));
        }
        if let Some(extra) = self.rows.get(self.form.most_rows) {
            reported.push(problems::too_many_rows(&self.form, extra.place()));
        }
        (found, reported)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const FORM: TableForm = TableForm { empty: "", columns: "", row: "", most_rows: 3, too_many: "" };

    /// Where the words of each cell stand in each row that says something, found without the reader of CSV: in a text
    /// without quotes a row ends at a line end, and a cell at a comma.
    fn words_by_hand(text: &str) -> Vec<Vec<(usize, &str)>> {
        let (mut rows, mut at) = (Vec::new(), 0);
        for line in text.split_inclusive(['\r', '\n']) {
            let mut cells = Vec::new();
            let mut from = at;
            for cell in line.trim_end_matches(['\r', '\n']).split(',') {
                cells.push((from + cell.len() - cell.trim_start().len(), cell.trim()));
                from += cell.len() + 1;
            }
            at += line.len();
            if cells.iter().any(|(_, words)| !words.is_empty()) {
                rows.push(cells);
            }
        }
        rows
    }

    proptest! {
        #[test]
        fn any_text_is_read_and_no_place_is_outside_of_its_row(text in "[ab,\"\r\n ]{0,80}") {
            if let Ok(table) = Table::read(TextId(0), &text, &FORM) {
                for row in table.rows() {
                    for column in 0..=row.len() {
                        let (cell, whole) = (row.place_of(column).span, row.place().span);
                        prop_assert!(whole.start <= cell.start && cell.end <= whole.end);
                        prop_assert!(cell.start < cell.end);
                    }
                }
            }
        }

        #[test]
        fn every_cell_stands_where_its_place_says(text in "[ab, ]{1,6}(\r?\n[ab, ]{0,6}){1,4}") {
            let by_hand = words_by_hand(&text);
            if let Ok(table) = Table::read(TextId(0), &text, &FORM) {
                prop_assert_eq!(table.rows().len(), (by_hand.len() - 1).min(FORM.most_rows));
                for (row, cells) in table.rows().iter().zip(by_hand.iter().skip(1)) {
                    prop_assert_eq!(row.len(), cells.len());
                    for (column, (start, words)) in cells.iter().enumerate() {
                        prop_assert_eq!(row.words(column), *words);
                        let place = row.place_of(column);
                        if words.is_empty() {
                            prop_assert_eq!(place, row.place());
                        } else {
                            prop_assert_eq!(place.span.start as usize, *start);
                            prop_assert_eq!(place.span.of(&text), *words);
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn beside_a_cell_in_quotes_the_whole_row_is_shown() {
        let text = "a,b\n 1 ,\"two, or 2\" \n";
        let table = Table::read(TextId(0), text, &FORM).unwrap();
        let row = &table.rows()[0];
        assert_eq!([row.words(0), row.words(1)], ["1", "two, or 2"]);
        assert_eq!([0, 1, 2].map(|column| row.place_of(column).span.of(text)), ["1 ,\"two, or 2\""; 3]);
    }

    #[test]
    fn more_rows_than_are_read_are_reported() {
        let table = Table::read(TextId(0), "a\n1\n2\n3\n4\n5\n", &FORM).unwrap();
        let (read, problems) = table.each(|row| Ok(row.words(0).to_owned()));
        assert_eq!(read, ["1", "2", "3"]);
        assert_eq!(problems.iter().map(|problem| problem.code).collect::<Vec<_>>(), ["too-many-rows"]);
    }
}
