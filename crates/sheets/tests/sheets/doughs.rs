//! The doughs that the views are tested on: each has something that another has not.

use levamen_balance::Balance;
use levamen_language::{Kind, SeedFate};

use crate::kitchen::kitchen;

/// A poolish bread from 10 kg of flour; the figures are those of "French bread with poolish", bake magazine,
/// article 10807.
pub fn poolish_bread() -> Balance {
    kitchen("Harbour white")
        .ahead("poolish", Kind::Poolish, |tub| {
            tub.add("white flour", "3300").add("water", "3300").add("fresh yeast", "7").ripens(
                12,
                Some(16),
                21,
            )
        })
        .last(|tub| {
            tub.add("white flour", "6700")
                .add("water", "3400")
                .add("salt", "200")
                .add("fresh yeast", "103")
                .take(0, "poolish", "6607")
        })
}

/// A levain whose seed is given back, in pieces.
pub fn seed_given_back() -> Balance {
    kitchen("Quayside loaf")
        .pieces(18, "900", "2")
        .note("Shape loosely.")
        .ahead("night levain", Kind::Levain, |tub| {
            tub.add("wholemeal flour", "1347.3")
                .add("water", "1212.57")
                .seed("mother culture", "269.46", SeedFate::GivenBack)
                .ripens(10, None, 24)
        })
        .last(|tub| {
            tub.add("strong white flour", "8004.7")
                .add("water", "5791.83")
                .add("salt", "187.04")
                .take(0, "night levain", "2559.87")
                .note("Hold back a litre of the water.")
        })
}

/// A levain of which some is left over, its seed stays.
pub fn left_over() -> Balance {
    kitchen("Mill lane country")
        .ahead("levain", Kind::Levain, |tub| {
            tub.add("white flour", "400").add("wholemeal flour", "100").add("water", "400").seed(
                "mother culture",
                "100",
                SeedFate::Stays,
            )
        })
        .last(|tub| {
            tub.add("white flour", "740")
                .add("wholemeal flour", "60")
                .add("water", "620")
                .add("salt", "21")
                .add("instant yeast", "2")
                .take(0, "levain", "360")
        })
}

/// A sour built twice, and a scald that steams.
pub fn nested_and_steam() -> Balance {
    kitchen("Dark rye of the north mill")
        .ahead("first build", Kind::RyeSour, |tub| {
            tub.add("rye flour", "120.35")
                .add("water", "180.525")
                .seed("rye mother", "12.035", SeedFate::Stays)
                .ripens(5, None, 26)
        })
        .ahead("rye sour", Kind::RyeSour, |tub| {
            tub.take(0, "first build", "312.91").add("rye flour", "1684.9").add("water", "1347.92").ripens(
                14,
                Some(18),
                24,
            )
        })
        .ahead("malt scald", Kind::Scald, |tub| {
            tub.add("rye flour", "601.75")
                .add("malt", "30.0875")
                .add("water", "1504.375")
                .steam("75.21875")
                .ripens(3, None, 62)
        })
        .last(|tub| {
            tub.take(1, "rye sour", "3345.73")
                .take(2, "malt scald", "2060.99375")
                .add("rye flour", "2400.98")
                .add("wheat flour", "1203.5")
                .add("water", "1841.355")
                .add("salt", "108.315")
                .add("caraway, ground", "4.2")
        })
}

/// Two builds; the seed of the first is given back from the second.
pub fn seed_given_back_later() -> Balance {
    kitchen("Ferry levain")
        .ahead("first build", Kind::Levain, |tub| {
            tub.add("white flour", "40.04").add("water", "40.04").seed(
                "mother culture",
                "20.04",
                SeedFate::GivenBack,
            )
        })
        .ahead("second build", Kind::Levain, |tub| {
            tub.take(0, "first build", "100.12")
                .add("white flour", "200.04")
                .add("water", "200.04")
                .keeps("20.04")
        })
        .last(|tub| {
            tub.take(1, "second build", "480.16")
                .add("white flour", "1000.04")
                .add("water", "650.35")
                .add("salt", "24.8")
        })
}

/// Everything in one tub, with milk for water.
pub fn straight_with_milk() -> Balance {
    kitchen("Sunday milk buns").pieces(30, "60", "0").last(|tub| {
        tub.add("white flour", "1000")
            .add("milk", "600")
            .add("butter", "120")
            .add("sugar", "60")
            .add("salt", "18")
            .add("instant yeast", "2")
    })
}

/// One levain that two stages take, and a piece of yesterday's dough.
pub fn shared_levain() -> Balance {
    kitchen("Two ways home")
        .ahead("levain", Kind::Levain, |tub| {
            tub.add("white flour", "333.3").add("water", "333.3").seed(
                "mother culture",
                "66.7",
                SeedFate::Stays,
            )
        })
        .ahead("sponge", Kind::Sponge, |tub| {
            tub.take(0, "levain", "200.15").add("white flour", "1000").add("water", "500")
        })
        .last(|tub| {
            tub.take(0, "levain", "533.15")
                .take(1, "sponge", "1700.15")
                .piece("Harbour white", "450.4")
                .add("white flour", "2666.7")
                .add("water", "1800.55")
                .add("salt", "82.1")
        })
}

/// All of them.
pub fn all() -> [Balance; 7] {
    [
        poolish_bread(),
        seed_given_back(),
        seed_given_back_later(),
        left_over(),
        nested_and_steam(),
        straight_with_milk(),
        shared_levain(),
    ]
}
