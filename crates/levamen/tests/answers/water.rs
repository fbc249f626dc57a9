//! The dough's temperature: how warm the water has to be, by the rule and by heats.

use insta::assert_snapshot;

use crate::asked::{book, demo};
use crate::question::Question;
use crate::questions::{Watering, water};

/// What is said of the demo book.
fn said(question: &Question<Watering>) -> String {
    demo().ask(question)
}

#[test]
fn by_the_rule_and_by_heats() {
    let loaf = "Quayside loaf";
    let answers = [
        said(
            &water(loaf)
                .dough_at("24°C")
                .flour("21°C")
                .room("22°C")
                .pre_ferment("20°C")
                .friction("8°C")
                .tap("16°C"),
        ),
        said(&water(loaf).dough_at("75°F").flour("65°F").room("65°F").friction("8°F")),
        said(
            &water(loaf)
                .dough_at("24°C")
                .flour("27°C")
                .room("29°C")
                .pre_ferment("26°C")
                .friction("14°C")
                .tap("22°C"),
        ),
        said(
            &water(loaf)
                .dough_at("20°C")
                .flour("40°C")
                .room("45°C")
                .pre_ferment("40°C")
                .friction("60°C")
                .tap("22°C"),
        ),
        said(&water(loaf).dough_at("28°C").flour("5°C").room("12°C").friction("2°C").mixed("10kg")),
    ];
    assert_snapshot!(answers.join("\n"));
    assert_snapshot!(said(
        &water(loaf).dough_at("24°C").flour("27°C").room("29°C").friction("14°C").tap("22°C").json()
    ));
}

const PLAIN: &str =
    "dough Plain\n\noverall\n  white flour  100 %\n  water  65 %\n  salt  2 %\n\nmake 20 kg of dough\n";

/// A batch is noted and the same batch asked again: it gets its own water, by the rule and by heats.
#[test]
fn a_noted_batch_gets_its_own_water() {
    for [flour, room, poured, dough] in [
        ["20 °C", "22 °C", "12 °C", "23.23 °C"],
        ["68 °F", "71.6F", "53.6 F", "74 °F"],
        ["4 °C", "8 °C", "30C", "21 °C"],
    ] {
        let batches =
            format!("mixer,dough,measured,flour,room,water\nspiral,20 kg,{dough},{flour},{room},{poured}\n");
        let book = book(&[("a.dough", PLAIN), ("batches.csv", &batches)]);
        let asked = water("Plain").dough_at(dough).flour(flour).room(room).noted("batches.csv", "spiral");
        let json = book.json(asked);
        let figure = |way: &str| json[way]["water_c"].as_str().unwrap().parse::<f64>().unwrap();
        let degrees: f64 = poured.trim_end_matches(|last: char| !last.is_ascii_digit()).parse().unwrap();
        let celsius = if poured.ends_with('F') { (degrees - 32.0) / 1.8 } else { degrees };
        for way in ["by_rule", "by_heats"] {
            assert!((figure(way) - celsius).abs() < 1e-9, "{way}: {} for {poured}", figure(way));
        }
        assert_eq!(json["leads"], "by_rule", "a plain dough");
    }
}

/// A quarter of the flour's weight in old dough at 4 °C: by hand, 1000 g of flour at 20 °C, 650 g of water, 250 g of old dough of
/// 65 % (1.84 + 0.65 x 4.18) / 1.65 = 2.762 kJ/(kg K), 20 g of salt, and a rise of 12 / 3 = 4 °C; (25 - 4) x 5269.9 less 36800,
/// 2761.8 and 480.6 J is 70626 J, which 650 x 4.18 J/K of water bring at 25.99 °C.
#[test]
fn cold_old_dough_counts_by_what_it_weighs() {
    let text = "dough Plain\n\nfinal dough\n  white flour  1000 g\n  water  650 g\n  salt  20 g\n  old dough  250 g\n\n\
                stage old dough\n  from this dough\n  ripens  12 h at 4 °C\n";
    let book = book(&[("a.dough", text)]);
    let asked = water("Plain").dough_at("25 °C").flour("20 °C").room("22 °C").friction("12 °C");
    assert_snapshot!(book.ask(&asked));
}

/// What a stage holds counts, be it seeds, sugar or milk: by hand, 2 kg of linseed and 2 kg of water at 4 °C are no 4 kg of water.
#[test]
fn seeds_in_a_soaker_are_no_water() {
    let text = "ingredient seeds\n  source carbohydrate alone: 1.59 kJ/(kg K) at 22 °C\n\ndough Seeded\n\nfinal dough\n  white flour  10 kg\n  \
                water  5 kg\n  soaker  4 kg\n\nstage soaker\n  seeds  2 kg\n  water  2 kg\n  ripens  12 h at 4 °C\n";
    let book = book(&[("a.dough", text)]);
    let asked = water("Seeded").dough_at("22°C").flour("22°C").room("22°C").friction("0°C");
    let json = book.json(asked);
    let water: f64 = json["by_heats"]["water_c"].as_str().unwrap().parse().unwrap();
    // (2 x 4.18 + 2 x c) x 18 K is what 5 x 4.18 kJ/K of water bring; c of carbohydrate at 22 °C by Choi and Okos.
    let c = 1.5488 + 1.9625e-3 * 22.0 - 5.9399e-6 * 22.0 * 22.0;
    assert!((water - (22.0 + (2.0 * 4.18 + 2.0 * c) * 18.0 / (5.0 * 4.18))).abs() < 1e-6, "{water}");
}

/// A batch was of one dough, whatever dough is asked for: its rise is that dough's.
#[test]
fn a_noted_batch_names_its_dough() {
    let text = format!(
        "{PLAIN}\ndough Wet\n\noverall\n  white flour  100 %\n  water  90 %\n\nmake 20 kg of dough\n"
    );
    let batches = "mixer,of,dough,measured,flour,room,water\nspiral,plain,20 kg,26 °C,20 °C,22 °C,18 °C\n";
    let book = book(&[("a.dough", &text), ("batches.csv", batches)]);
    let rise = |dough: &str| {
        let asked = water(dough).dough_at("26°C").flour("20°C").room("22°C").noted("batches.csv", "spiral");
        book.json(asked)["rise_k"].clone()
    };
    assert_eq!(rise("Plain"), rise("Wet"));
}
