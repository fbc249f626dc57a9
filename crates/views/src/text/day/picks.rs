//! A pick list for each scale: what is weighed on it over the day, thing by thing.

use crate::text::Page;
use crate::text::weights::in_columns;
use levamen_sheets::{Pick, ScalePicks};

/// Each scale with what is weighed on it, in how many weighings.
pub(super) fn picks(scales: &[ScalePicks]) -> String {
    let mut out = Page::<2>::new(0);
    for ScalePicks { scale, picks } in scales {
        out.text(format!("On the {scale}"));
        for Pick { name, weight, weighings } in picks {
            let often = if *weighings == 1 { String::new() } else { format!(", {weighings} weighings") };
            out.figures("  [ ]", in_columns(weight, &super::finest(*weight)), format!("{name}{often}"));
        }
    }
    out.render()
}
