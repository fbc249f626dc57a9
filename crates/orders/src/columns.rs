//! What the columns of order files are called, and where they stand in one file.

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
    /// In the order in which [`crate::record::CsvRecords::cell`] has them.
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

    /// That of a file of so many columns, of which none is read.
    pub(crate) fn of_width(width: usize) -> Self {
        Self { slots: vec![Self::PASSED_OVER; width], last: 0 }
    }

    /// Says which field a column is, and whether it must be there.
    pub(crate) fn put(&mut self, column: usize, slot: u8, is_needed: bool) {
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
