//! Dates and times of day as people write them.

use jiff::civil::{Date, Time};

/// Why words are no date or time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotADay {
    /// They have another form.
    Form,
    /// They have the form, but the calendar or the clock has no such day or time.
    None,
}

/// Reads a date as ISO 8601 writes it, such as `2026-12-01`.
///
/// # Errors
/// Another form, or a day that does not exist.
pub fn read_date(words: &str) -> Result<Date, NotADay> {
    if !has_form(words, "dddd-dd-dd") {
        return Err(NotADay::Form);
    }
    // The calendar of the library goes on before the year 1.
    words.parse().ok().filter(|date: &Date| date.year() > 0).ok_or(NotADay::None)
}

/// Reads a time of day from 00:00 to 23:59, such as `04:00` or `4:00`.
///
/// # Errors
/// Another form, or a time that does not exist.
pub fn read_time(words: &str) -> Result<Time, NotADay> {
    if !has_form(words, "dd:dd") && !has_form(words, "d:dd") {
        return Err(NotADay::Form);
    }
    let (hour, minute) = words.split_once(':').unwrap_or_default();
    let part = |digits: &str| digits.parse::<i8>().map_err(|_| NotADay::Form);
    Time::new(part(hour)?, part(minute)?, 0, 0).map_err(|_| NotADay::None)
}

/// Whether words are digits where the form has `d`, and elsewhere what the form has.
fn has_form(words: &str, form: &str) -> bool {
    let fits = |(own, wanted): (u8, u8)| if wanted == b'd' { own.is_ascii_digit() } else { own == wanted };
    words.len() == form.len() && words.bytes().zip(form.bytes()).all(fits)
}

#[cfg(test)]
mod tests {
    use jiff::civil::{date, time};

    use super::*;

    #[test]
    fn dates_and_times_are_read_or_told_apart() {
        assert_eq!(read_date("2026-12-01"), Ok(date(2026, 12, 1)));
        assert_eq!(read_date("2026-02-30"), Err(NotADay::None));
        assert_eq!(read_date("0000-12-01"), Err(NotADay::None));
        assert_eq!(read_date("1.12.2026"), Err(NotADay::Form));
        assert_eq!(read_date("2026-12-1"), Err(NotADay::Form));
        assert_eq!(read_time("4:00"), Ok(time(4, 0, 0, 0)));
        assert_eq!(read_time("04:30"), Ok(time(4, 30, 0, 0)));
        assert_eq!(read_time("24:00"), Err(NotADay::None));
        assert_eq!(read_time("4 am"), Err(NotADay::Form));
    }
}
