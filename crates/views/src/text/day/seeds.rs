//! What each culture gives, and by when it has to be ripe.

use crate::text::Page;
use crate::text::weights::in_columns;
use levamen_sheets::{DayPage, DaySeeds};

/// For each culture its seeds in the order of the clock, as they are weighed, and their sum.
pub(super) fn seeds(page: &DayPage<'_>, seeds: &DaySeeds) -> String {
    let mut out = Page::<2>::new(0);
    for (culture, sum) in &seeds.sums {
        let name = page.book.entry(*culture).map_or("culture", |entry| entry.name.as_str());
        out.text(format!("Ripe {name}"));
        for seed in seeds.of(*culture) {
            let when = seed.at.map_or_else(|| "-".to_owned(), |at| page.hours.clock.words(at));
            let cells = in_columns(&seed.weight, &super::finest(seed.weight));
            out.figures(format!("  {when}"), cells, format!("{} of {}", seed.stage, seed.dough));
        }
        let cells = in_columns(sum, &super::finest(*sum));
        out.figures("  in all", cells, "beside what is kept for its next feeding");
    }
    out.render()
}
