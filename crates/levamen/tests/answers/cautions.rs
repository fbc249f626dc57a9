//! Cautions wherever a dough is shown.

use jiff::civil::date;

use crate::asked::{Asked, book, harbour};
use crate::question::Question;
use crate::questions::{Page, check, day, formula, ripen, sheet};

const LIMIT: &str = "5 °C (41 °F) or colder, 57 °C (135 °F) or hotter, or up to 4 h in all";

/// A dough with one stage ahead, its lines and how it ripens.
fn dough(stage: &str, lines: &str, ripens: &str) -> String {
    format!(
        "ingredient ricotta fresca\n  spoils\n\ningredient crème fraîche\n\ningredient garlic in oil\n\n\
         dough Trial loaf\n\nstage {stage}\n{lines}{ripens}\nfinal dough\n  \
         strong white flour  500 g\n  water  200 g\n  salt  10 g\n  {stage}  300 g\n"
    )
}

fn said(page: &Question<Page>, dough: &str) -> String {
    let said = harbour().ask_of(dough, page);
    assert!(said.ends_with("--- exit 0\n"), "{said}");
    said
}

#[test]
fn oats_that_soak_in_milk_for_hours() {
    let cases = [
        ("", true),
        ("  ripens 8 h at 20 °C\n", true),
        ("  ripens 8 h at 4 °C\n", false),
        ("  ripens 8 h at 60 °C\n", false),
    ];
    for (ripens, warned) in cases {
        let dough = dough("soaker", "  rolled oats  100 g\n  whole milk  200 g\n", ripens);
        for page in [formula("-"), sheet("-")] {
            assert_eq!(said(&page, &dough).contains(LIMIT), warned, "{} {ripens}", page.words);
        }
    }
}

#[test]
fn foods_that_stand_warm_are_told_with_their_hours() {
    let flour = "  strong white flour  100 g\n  fresh yeast  1 g\n";
    let cases = [
        (
            "sponge",
            "  whole milk  99 g\n  whole egg  100 g\n",
            "12 h at 24 °C",
            "whole milk, whole egg: 15 h",
        ),
        ("sponge", "  ricotta fresca  199 g\n", "6 h at 24 °C", "ricotta fresca: 7.5 h"),
        ("sponge", "  boiled potato  199 g\n", "4 to 5 h at 24 °C", "boiled potato: 5 h"),
        ("sponge", "  garlic in oil  20 g\n  water  179 g\n", "10 h at 22 °C", "garlic in oil: 12.5 h"),
        ("sponge", "  crème fraîche  199 g\n", "5 to 8 h at 24 °C", "crème fraîche: 8 h"),
    ];
    for (stage, lines, ripens, words) in cases {
        let dough = dough(stage, &format!("{flour}{lines}"), &format!("  ripens {ripens}\n"));
        for page in [formula("-"), sheet("-")] {
            let said = said(&page, &dough);
            assert!(said.contains(words) && said.contains("Fermenting does not excuse it"), "{said}");
            assert_eq!(said.matches(LIMIT).count(), 1, "{said}");
        }
    }
}

#[test]
fn a_scald_that_is_kept_lukewarm() {
    let scald = |ripens: &str| {
        dough("scald", "  medium rye flour  100 g\n  water  200 g\n", &format!("  ripens {ripens}\n"))
    };
    let scalded = said(&sheet("-"), &scald("16 h at 45 °C"));
    assert!(
        scalded.contains("scald: 20 h neither cold nor hot") && scalded.contains("Boiling water"),
        "{scalded}"
    );
    let hot = said(&sheet("-"), &scald("3 h at 63 °C"));
    assert!(!hot.contains(LIMIT) && hot.contains("Boiling water"), "{hot}");
}

#[test]
fn no_caution_where_there_is_no_reason() {
    let levain = dough(
        "poolish",
        "  strong white flour  150 g\n  water  149.9 g\n  fresh yeast  0.1 g\n",
        "  ripens 14 h at 20 °C\n",
    );
    assert!(!said(&formula("-"), &levain).contains("Caution"));
    let milk = "dough Milk loaf\n\nfinal dough\n  strong white flour  500 g\n  whole milk  300 g\n  salt  9 g\n  fresh yeast  10 g\n";
    for page in [formula("-"), sheet("-")] {
        assert!(!said(&page, milk).contains(LIMIT), "{}", page.words);
    }
}

#[test]
fn json_has_the_minutes_and_the_source() {
    let sponge = dough(
        "sponge",
        "  strong white flour  100 g\n  whole milk  199 g\n  fresh yeast  1 g\n",
        "  ripens 12 h at 24 °C\n",
    );
    for page in [formula("-"), sheet("-")] {
        let said = said(&page.json(), &sponge);
        for part in
            ["\"hazard\": \"spoiling\"", "\"stood_min\": \"900\"", "\"longest_min\": \"240\"", "3-501.19"]
        {
            assert!(said.contains(part), "{part} {said}");
        }
    }
}

#[test]
fn stages_add_up_and_an_unsaid_time_is_not_none() {
    let sponge = dough(
        "sponge",
        "  strong white flour  100 g\n  whole milk  199 g\n  fresh yeast  1 g\n",
        "  ripens 2 to 3 h at 24 °C\n",
    );
    let open = said(&formula("-"), &sponge);
    assert!(open.contains("whole milk: 3 h before final dough, and nothing says how much longer"), "{open}");
}

/// A book of its own, in which cards say how long the dough stands.
fn carded(proof: &str) -> Asked {
    let text = "dough Milk sponge loaf\n\nstage sponge\n  strong white flour  100 g\n  whole milk  150 g\n  \
        fresh yeast  1 g\n  ripens 1 to 2 h at 24 °C\n\nfinal dough\n  strong white flour  400 g\n  water  200 g\n  salt  10 g\n  \
        sponge  251 g\n\nmethod Milk sponge loaf\n  bulk 60 to 90 min\n\nproduct Milk loaf\n  made of Milk sponge loaf\n  \
        piece 400 g\n  proof ";
    book(&[("loaf.dough", &format!("{text}{proof}\n"))])
}

#[test]
fn bulk_and_proof_count() {
    let long = carded("60 to 90 min");
    let words = "whole milk: 5 h neither cold nor hot by the end of final dough";
    for said in [
        long.ask(&formula("Milk sponge loaf")),
        long.ask(&sheet("Milk sponge loaf")),
        long.ask(&check()),
        long.ask(&ripen("Milk sponge loaf")),
    ] {
        assert!(said.contains(words), "{said}");
    }
    let short = carded("20 to 30 min");
    let said = short.ask(&check());
    assert!(said.contains("no problem"), "{said}");
}

#[test]
fn a_day_shows_them_above_and_on_the_sheet() {
    let scald = "stage scald\n  medium rye flour  100 g\n  water  200 g\n  ripens 16 h at 45 °C\n\n";
    let dough = format!(
        "dough Scald loaf\n\n{scald}final dough\n  medium rye flour  400 g\n  water  200 g\n  salt  10 g\n  scald  300 g\n"
    );
    let cards = "product Scald loaf\n  made of Scald loaf\n  piece 500 g\n  out by 09:00\n\nmethod Scald loaf\n  mixes 8 min\n  bulk 30 to 40 min\n";
    let orders = "date,customer,product,quantity\n2026-11-27,Inn,Scald loaf,4\n";
    let book = book(&[("loaf.dough", &dough), ("cards.dough", cards), ("orders.csv", orders)]);
    let said = book.ask(&day(date(2026, 11, 27)));
    assert!(said.contains("Scald loaf, scald: Boiling water"), "{said}");
    assert!(said.contains("Scald loaf, scald: scald: 20 h neither cold nor hot"), "{said}");
    assert_eq!(said.matches("scalds and spits").count(), 2, "{said}");
    assert_eq!(said.matches("Flour dust causes asthma").count(), 1, "{said}");
}
