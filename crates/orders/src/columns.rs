//! What the columns of order files are called, where they stand in one file, and whether a record has their cells.

use std::borrow::Cow;

use levamen_formula::key;

use crate::cell::words;
use crate::error::LineErrorKind;
use crate::record::{CsvRecord, CsvRecords};

/// What a cell says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum OrderField {
    Date,
    Customer,
    Product,
    Quantity,
    Weekday,
    From,
    Until,
}

/// The headings of the columns, as the bakery's files have them. Capitals and the width of spaces do not matter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OrderColumns {
    /// The day that the order is for.
    pub date: String,
    /// Who ordered.
    pub customer: String,
    /// What is ordered.
    pub product: String,
    /// How many pieces.
    pub quantity: String,
    /// The day of the week of a standing order.
    pub weekday: String,
    /// The first day of a standing order; a file may do without.
    pub from: String,
    /// The last day of a standing order; a file may do without.
    pub until: String,
}

impl Default for OrderColumns {
    /// Each column by the name of its field: `date`, `customer`, `product`, `quantity`, `weekday`, `from`, `until`.
    fn default() -> Self {
        let name = str::to_owned;
        Self {
            date: name("date"),
            customer: name("customer"),
            product: name("product"),
            quantity: name("quantity"),
            weekday: name("weekday"),
            from: name("from"),
            until: name("until"),
        }
    }
}

impl OrderColumns {
    /// The heading of a field.
    pub(crate) fn heading(&self, field: OrderField) -> &str {
        match field {
            OrderField::Date => &self.date,
            OrderField::Customer => &self.customer,
            OrderField::Product => &self.product,
            OrderField::Quantity => &self.quantity,
            OrderField::Weekday => &self.weekday,
            OrderField::From => &self.from,
            OrderField::Until => &self.until,
        }
    }
}

/// Which fields a kind of file has, and which of them it may do without.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct FileForm {
    /// In the order in which [`CsvRecords::cell`] has them.
    pub(crate) fields: &'static [OrderField],
    /// How many of `fields`, from the first on, must be there.
    pub(crate) needed: usize,
}

/// Orders for a date, and exceptions.
pub(crate) const DATED: FileForm = FileForm {
    fields: &[OrderField::Date, OrderField::Customer, OrderField::Product, OrderField::Quantity],
    needed: 4,
};

/// Orders for a day of every week.
pub(crate) const STANDING: FileForm = FileForm {
    fields: &[
        OrderField::Weekday,
        OrderField::Customer,
        OrderField::Product,
        OrderField::Quantity,
        OrderField::From,
        OrderField::Until,
    ],
    needed: 4,
};

/// Most fields of any form.
pub(crate) const MAX_FIELDS: usize = 6;

/// Where the columns of one file stand.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct ColumnLayout {
    /// For each column, which field of the form it is; [`ColumnLayout::PASSED_OVER`] for all others.
    slots: Vec<u8>,
    /// The last column that must be there.
    last: usize,
}

impl ColumnLayout {
    /// A column that is not read.
    pub(crate) const PASSED_OVER: u8 = u8::MAX;

    /// Reads the headings of a file.
    ///
    /// # Errors
    /// A column that is not there or is there twice; another mark than a comma between the headings.
    pub(crate) fn read(bytes: &[u8], columns: &OrderColumns, form: FileForm) -> Result<Self, LineErrorKind> {
        let headings: Vec<String> = CsvRecords::new(bytes)
            .all_cells()
            .into_iter()
            .map(|cell| words(cell).map(Cow::into_owned))
            .collect::<Option<_>>()
            .ok_or(LineErrorKind::NotUtf8)?;
        if let [only] = headings.as_slice()
            && let Some(mark) = [';', '\t', '|'].into_iter().find(|mark| only.contains(*mark))
        {
            return Err(LineErrorKind::Separator(mark));
        }
        let mut layout = Self { slots: vec![Self::PASSED_OVER; headings.len()], last: 0 };
        for (slot, field) in (0..).zip(form.fields) {
            let is_needed = usize::from(slot) < form.needed;
            let wanted = columns.heading(*field);
            let is_it = |(_, heading): &(usize, &String)| key(heading) == key(wanted);
            let mut found = headings.iter().enumerate().filter(is_it).map(|(column, _)| column);
            match (found.next(), found.next()) {
                (Some(_), Some(_)) => return Err(LineErrorKind::ColumnTwice(wanted.to_owned())),
                (Some(column), None) => layout.put(column, slot, is_needed),
                (None, _) if is_needed => {
                    return Err(LineErrorKind::MissingColumn { wanted: wanted.to_owned(), headings });
                }
                (None, _) => {}
            }
        }
        Ok(layout)
    }

    fn put(&mut self, column: usize, slot: u8, is_needed: bool) {
        if let Some(own) = self.slots.get_mut(column) {
            *own = slot;
        }
        if is_needed {
            self.last = self.last.max(column);
        }
    }

    /// Which field a column is.
    #[inline]
    pub(crate) fn slot(&self, column: usize) -> u8 {
        self.slots.get(column).copied().unwrap_or(Self::PASSED_OVER)
    }

    /// How many columns the file has.
    pub(crate) fn width(&self) -> usize {
        self.slots.len()
    }

    /// How many cells a row must have at least.
    pub(crate) fn least(&self) -> usize {
        self.last + 1
    }
}

/// What a record is before its cells are read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum RecordShape {
    /// Its cells can be read.
    Sound,
    /// An empty line, or one of empty cells.
    Blank,
    /// Something is wrong with the whole of it.
    Invalid(LineErrorKind),
}

/// The shape of a record of `bytes`.
pub(crate) fn shape_of(bytes: &[u8], record: CsvRecord, layout: &ColumnLayout) -> RecordShape {
    let whole = bytes.get(record.start..record.end).unwrap_or_default();
    if is_blank(whole) && !record.is_open {
        return RecordShape::Blank;
    }
    let (cells, width) = (record.cells, layout.width());
    if record.is_open {
        return RecordShape::Invalid(LineErrorKind::OpenQuote);
    }
    if cells < layout.least() {
        return RecordShape::Invalid(LineErrorKind::FewCells { cells, width });
    }
    // Spreadsheets leave empty cells at the end of lines.
    let is_empty = |cell: &[u8]| cell.iter().all(|byte| *byte == b'"' || byte.is_ascii_whitespace());
    if cells > width && !CsvRecords::new(whole).all_cells().into_iter().skip(width).all(is_empty) {
        return RecordShape::Invalid(LineErrorKind::ManyCells { cells, width });
    }
    RecordShape::Sound
}

/// Whether a record is an empty line, or one of empty cells.
pub(crate) fn is_blank(whole: &[u8]) -> bool {
    whole.iter().all(|byte| matches!(byte, b',' | b'"') || byte.is_ascii_whitespace())
}
