//! Any table at all: none is too odd to be read or refused, and what is imported balances to its own weights.

use levamen_language::Problem;
use levamen_quantity::{Exact, Mass, MassUnit};
use proptest::prelude::*;

use crate::{sound, table};

fn imported(rows: &str) -> Result<String, Vec<Problem>> {
    crate::imported(rows.as_bytes(), MassUnit::Gram, "Country loaf")
}

/// A stage of a recipe that can be made: what is weighed into it, and how much of the stage before goes in.
#[derive(Debug, Clone)]
struct Stage {
    grams: [u32; 4],
    seed: u32,
    /// How much of what was made before is taken, in parts of a hundred; the rest is left over.
    taken: u32,
}

fn stage() -> impl Strategy<Value = Stage> {
    let taken = prop_oneof![Just(100_u32), 1_u32..=100];
    (proptest::array::uniform4(1_u32..2000), prop_oneof![Just(0_u32), 1_u32..200], taken)
        .prop_map(|(grams, seed, taken)| Stage { grams, seed, taken })
}

/// Rows of stages that go into each other one by one, the last being the final dough. Where seeds are given back, as
/// much is left of each stage as seed went in.
fn rows(stages: &[Stage], gives_back: bool) -> Vec<(String, String, u32)> {
    let mut rows = Vec::new();
    let (mut made, mut seed, mut before) = (0, 0, String::new());
    for (index, stage) in stages.iter().enumerate() {
        let is_last = index + 1 == stages.len();
        let name = if is_last { "final dough" } else { ["build one", "build two", "build three"][index] };
        let taken = if gives_back { made - seed } else { (made * stage.taken).div_ceil(100) };
        let mut weighed: Vec<(&str, u32)> =
            ["strong white flour", "rye flour", "water", "salt"].into_iter().zip(stage.grams).collect();
        weighed.extend([("rye starter", stage.seed), (before.as_str(), taken)]);
        weighed.retain(|(_, grams)| *grams > 0);
        made = weighed.iter().map(|(_, grams)| grams).sum();
        rows.extend(weighed.into_iter().map(|(what, grams)| (name.to_owned(), what.to_owned(), grams)));
        (seed, before) = (stage.seed, name.to_owned());
    }
    rows
}

proptest! {
    #[test]
    fn what_is_imported_balances_to_its_own_weights(
        stages in proptest::collection::vec(stage(), 1..5),
        gives_back: bool,
    ) {
        let rows = rows(&stages, gives_back);
        let table = table(rows.iter().map(|(stage, what, grams)| format!("{stage},{what},{grams}")));
        let text = imported(&table);
        prop_assert!(text.is_ok(), "{table}\n{text:#?}");
        let found = sound::weights(&sound::balanced(&text.unwrap_or_default()));
        let weighed = |(stage, what, grams): (String, String, u32)| {
            (format!("{stage}/{what}"), Mass::from_grams(Exact::from(i64::from(grams))))
        };
        let mut wanted: Vec<_> = rows.into_iter().map(weighed).collect();
        wanted.sort();
        prop_assert_eq!(found, wanted);
    }

    /// Tables of words that mean something here, put together by chance: whatever is imported balances.
    #[test]
    fn tables_by_chance_are_imported_or_refused(
        rows in proptest::collection::vec(
            (
                prop_oneof!["poolish", "levain", "soaker", "final dough", ""],
                prop_oneof!["flour", "water", "salt", "poolish", "levain", "soaker", "rye culture", "old dough"],
                prop_oneof!["[1-9][0-9]{0,2}", "1[.][0-9]{1,3}", "200", "100"],
            ),
            1..14,
        ),
    ) {
        let table = table(rows.iter().map(|(stage, what, grams)| format!("{stage},{what},{grams}")));
        if let Ok(text) = imported(&table) {
            sound::balanced(&text);
        }
    }

    #[test]
    fn any_text_is_read_or_refused_with_places_in_it(text in "(stage,ingredient,grams\n)?[a-z0-9,;\"\r\n\t #%.é½\u{feff}-]{0,80}") {
        for problem in imported(&text).err().unwrap_or_default() {
            for label in problem.primary.iter().chain(&problem.secondary) {
                let span = label.place.span;
                prop_assert!(text.get(span.start as usize..span.end as usize).is_some(), "{span:?}");
            }
        }
    }
}
