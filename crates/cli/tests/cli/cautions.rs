//! Cautions where they belong.

use crate::run::{book, record};

/// The bench sheet of a dough whose oats soak in milk.
fn sheet(ripens: &str) -> String {
    let dough = format!(
        "dough Oat loaf\n\nstage soaker\n  rolled oats  100 g\n  whole milk  200 g\n{ripens}\nfinal dough\n  \
         strong white flour  500 g\n  water  200 g\n  salt  10 g\n  soaker  300 g\n"
    );
    record(&book(), &["sheet", "-"], &dough)
}

#[test]
fn oats_that_soak_in_milk_for_hours() {
    let caution = "5 °C or colder, 57 °C or hotter, or up to 4 h";
    let cases = [
        ("", true),
        ("  ripens 8 h at 20 °C\n", true),
        ("  ripens 3 h at 20 °C\n", false),
        ("  ripens 8 h at 4 °C\n", false),
    ];
    for (ripens, warned) in cases {
        let said = sheet(ripens);
        assert!(said.ends_with("--- exit 0\n"), "{said}");
        assert_eq!(said.contains(caution), warned, "{ripens} {said}");
    }
}
