//! How far a figure may be off because the weights that it is worked out from are rounded.

use levamen_quantity::Exact;

use super::example::{Example, Row, exact, half_unit};
use super::figures::Figures;

/// A sum of rows: its value, and how far off their rounding may put it.
#[derive(Debug, Clone, Default)]
struct Rounded {
    value: Exact,
    off: Exact,
}

/// Whether a printed figure is one that the rows may come to before they are rounded.
///
/// A percentage is a quotient of two sums of rows; it is within rounding where the printed figure, as far as it
/// is rounded itself, meets the range from the least quotient to the greatest.
///
/// # Errors
/// Where a figure of the file is no number, or the path is not one of a figure that rows come to.
pub(super) fn is_within(
    example: &Example,
    figures: &Figures<'_>,
    path: &str,
    printed: &str,
) -> Result<bool, String> {
    let unknown = || format!("`{path}` is no figure that rows come to");
    let rows = Rows { example, figures };
    let keys: Vec<&str> = path.split('/').collect();
    let (part, of) = match keys.as_slice() {
        ["overall", name] => (rows.sum(|row| row.1 == *name)?, None),
        ["overall_pct", name] => (rows.sum(|row| row.1 == *name)?, Some(rows.flour()?)),
        ["total"] => (rows.sum(|row| !example.is_stage(&row.1))?, None),
        ["total_pct"] => (rows.sum(|row| !example.is_stage(&row.1))?, Some(rows.flour()?)),
        ["prefermented_flour_pct"] => {
            (rows.sum(|row| row.0 != "final dough" && rows.is_flour(row))?, Some(rows.flour()?))
        }
        ["stage_total", stage] => (rows.sum(|row| row.0 == *stage)?, None),
        ["stage_total_pct", stage] => (rows.sum(|row| row.0 == *stage)?, Some(rows.own_flour(stage)?)),
        ["stage_pct", stage, name] => {
            (rows.sum(|row| row.0 == *stage && row.1 == *name)?, Some(rows.own_flour(stage)?))
        }
        _ => return Err(unknown()),
    };
    let value = figures.get(path).ok_or_else(unknown)?;
    let off = match of {
        None => part.off,
        Some(of) => quotient_off(&part, &of).ok_or_else(unknown)?,
    };
    Ok((&value - &exact(printed)?).abs() <= &off + &half_unit(printed))
}

/// How far the rounding of two sums may put their quotient off, in percent.
fn quotient_off(part: &Rounded, of: &Rounded) -> Option<Exact> {
    let quotient = part.value.checked_div(&of.value)?;
    let greatest = (&part.value + &part.off).checked_div(&(&of.value - &of.off))?;
    let least = (&part.value - &part.off).checked_div(&(&of.value + &of.off))?;
    let off = (&greatest - &quotient).max(&quotient - &least);
    Some(&off * &Exact::HUNDRED)
}

/// The rows of an example, summed.
struct Rows<'e> {
    example: &'e Example,
    figures: &'e Figures<'e>,
}

impl Rows<'_> {
    /// The sum of the rows that are wanted.
    fn sum(&self, wanted: impl Fn(&Row) -> bool) -> Result<Rounded, String> {
        let mut sum = Rounded::default();
        for row in self.example.rows.iter().filter(|row| wanted(row)) {
            sum.value += &exact(&row.2)?;
            sum.off += &half_unit(&row.2);
        }
        Ok(sum)
    }

    fn flour(&self) -> Result<Rounded, String> {
        self.sum(|row| self.is_flour(row))
    }

    fn own_flour(&self, stage: &str) -> Result<Rounded, String> {
        self.sum(|row| row.0 == stage && self.is_flour(row))
    }

    fn is_flour(&self, row: &Row) -> bool {
        self.figures.balance.overall.iter().any(|known| known.name == row.1 && known.is_flour)
    }
}
