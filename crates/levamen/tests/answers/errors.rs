//! Each error of a question: what is missing in it, or asked for and cannot be.

use levamen::{Error, Field, QuestionError as E};

use crate::asked::{Asked, book, demo, harbour};

/// What is wrong with a question that is written as it is typed, its words apart by `|`.
fn wrong(asked: &Asked, question: &str) -> E {
    let words: Vec<&str> = question.split('|').collect();
    match asked.refused(&words) {
        Error::Question(error) => error,
        Error::Problems { problems, .. } => panic!("{question}: {problems:?}"),
    }
}

fn own(words: &str) -> String {
    words.to_owned()
}

fn names(words: &[&str]) -> Vec<String> {
    words.iter().map(|word| own(word)).collect()
}

#[test]
fn names_that_the_book_has_not() {
    let unknown = |name, near: Option<&str>, is_empty| E::UnknownDough {
        name: own(name),
        near: near.map(own),
        is_empty,
    };
    assert_eq!(wrong(&harbour(), "formula|Harbor loaf"), unknown("Harbor loaf", Some("Harbour loaf"), false));
    assert_eq!(wrong(&harbour(), "formula|harbour"), unknown("harbour", Some("Harbour loaf"), false));
    assert_eq!(wrong(&harbour(), "formula|brioche"), unknown("brioche", None, false));
    assert_eq!(wrong(&Asked::default(), "formula|A"), unknown("A", None, true));
    let stage = E::UnknownStage {
        dough: own("Harbour loaf"),
        name: own("polish"),
        near: Some(own("poolish")),
        stages: names(&["poolish"]),
    };
    assert_eq!(wrong(&harbour(), "scale|Harbour loaf|--have|polish=4 kg"), stage);
    let ripening = E::UnknownRipening {
        dough: own("Fogbank rye"),
        name: own("half sour"),
        stages: names(&["basic sour", "full sour"]),
    };
    assert_eq!(wrong(&demo(), "ripen|Fogbank rye|half sour"), ripening);
    let E::UnknownCulture { name, .. } = wrong(&demo(), "feed|--new|liquid cultur") else {
        panic!("another error")
    };
    assert_eq!(name, "liquid cultur");
}

#[test]
fn figures_that_are_none() {
    for (words, expected) in [
        ("why|Harbour loaf|hidration", Field::Figure),
        ("formula|Harbour loaf|--free|flour of polish", Field::Free),
        ("formula|Harbour loaf|--most|hidration", Field::Most),
        ("formula|Harbour loaf|--least|hidration", Field::Least),
    ] {
        let E::Figure { field, .. } = wrong(&harbour(), words) else { panic!("{words}: another error") };
        assert_eq!(field, expected, "{words}");
    }
    let (dough, words) = (own("Harbour loaf"), own("water in final dough"));
    assert_eq!(
        wrong(&harbour(), "formula|Harbour loaf|--free|water in final dough"),
        E::NothingToRelease { dough, words }
    );
    let dough = own("Quay levain");
    assert_eq!(wrong(&harbour(), "formula|Quay levain|--most|pieces"), E::NoPieceToAimAt { dough });
}

const PLAIN: &str = "dough Plain\n\noverall\n  white flour  100 %\n  water  65 %\n\nculture mild\n  white flour  100 %\n  \
                     water  100 %\n  ripens  8 h\n";

fn plain() -> Asked {
    book(&[("plain.dough", PLAIN), ("need.csv", "date,culture,grams\n2026-12-02,mild,300\n")])
}

#[test]
fn sizes() {
    let dough = || own("Plain");
    assert_eq!(wrong(&plain(), "scale|Plain"), E::NoSize { dough: dough() });
    assert_eq!(wrong(&plain(), "scale|Plain|--losing|2 %"), E::LossWithoutSize);
    assert_eq!(wrong(&plain(), "scale|Plain|--pieces|36"), E::NoPieceWeight { dough: dough() });
    let many = "9999999999999999999";
    let count = own(many);
    assert_eq!(
        wrong(&plain(), &format!("scale|Plain|--pieces|{many}|--piece|1 kg")),
        E::TooManyPieces { count }
    );
    assert_eq!(
        wrong(&plain(), "scale|Plain|--with-old-dough|--pieces|3|--piece|1 kg"),
        E::NoOldDough { dough: dough() }
    );
}

#[test]
fn ripenings() {
    let question = |words: &str| wrong(&demo(), &format!("ripen|{words}"));
    let dough = own("liquid culture");
    assert_eq!(question("liquid culture"), E::NothingRipens { dough });
    let (dough, stages) = (own("Fogbank rye"), names(&["basic sour", "full sour"]));
    assert_eq!(question("Fogbank rye"), E::WhichStage { dough, stages });
    assert_eq!(question("Market day bread"), E::NoLeaven { stage: own("old dough") });
    assert_eq!(question("Harbour baguette|--seed|10 %"), E::StartedWithYeast);
    assert_eq!(question("Quayside loaf|--yeast|0.1 %"), E::StartedWithSeed);
    assert_eq!(question("Quayside loaf|--at|20 °C|--in|9 h|--seed|20 %"), E::NothingToFind);
}

#[test]
fn temperatures_and_tubs() {
    let question = |words: &str| wrong(&plain(), &format!("water|Plain{words}"));
    assert_eq!(question(""), E::NoDoughTemperature);
    assert_eq!(question("|--dough-at|24 °C"), E::NoFlourTemperature);
    assert_eq!(question("|--dough-at|24 °C|--flour|20 °C"), E::NoRoomTemperature);
    let all = "|--dough-at|24 °C|--flour|20 °C|--room|21 °C";
    assert_eq!(question(all), E::NoFriction);
    let dough = own("Plain");
    assert_eq!(question(&format!("{all}|--preferment|20 °C")), E::NoPreFerment { dough });
    assert_eq!(wrong(&plain(), "tub|Plain"), E::NoTubs);
    let dough = own("Ballast tin");
    assert_eq!(wrong(&demo(), "tub|Ballast tin|--tubs|5l"), E::NothingForTubs { dough });
    let stage = own("levain");
    assert_eq!(wrong(&demo(), "tub|Quayside loaf|--tubs|0.0000001ml"), E::TubsTooSmall { stage });
}

#[test]
fn batches_that_are_not_like_it() {
    let batches = "mixer,dough,measured,flour,room,water\nfork,40 kg,24 °C,21 °C,22 °C,25 °C\n";
    let plain = book(&[("plain.dough", PLAIN), ("batches.csv", batches)]);
    let asked = "water|Plain|--dough-at|24 °C|--flour|20 °C|--room|21 °C|--noted|batches.csv|--mixer|spiral|--dough|40 kg";
    let error = E::NoLikeBatch { mixer: own("spiral"), kilograms: own("40.0"), with_pre_ferment: false };
    assert_eq!(wrong(&plain, asked), error);
}

#[test]
fn feedings_and_days() {
    let week = "feed|--need|need.csv|--from|2026-11-01";
    let (first, last) = ("2026-11-01".parse().unwrap(), "2026-11-07".parse().unwrap());
    assert_eq!(wrong(&plain(), week), E::NothingNeeded { first, last });
    let warmer = "feed|--need|need.csv|--from|2026-12-01|--kept-at|20 °C";
    assert_eq!(wrong(&plain(), warmer), E::NoCultureTemperature { culture: own("mild") });
    let two = "date,culture,grams\n2026-12-02,mild,300\n2026-12-02,other,300\n";
    let text = format!("{PLAIN}\nculture other\n  white flour  100 %\n  water  100 %\n  ripens  8 h\n");
    let several = book(&[("plain.dough", &text), ("need.csv", two)]);
    assert_eq!(wrong(&several, "feed|--need|need.csv|--from|2026-12-01|--on-hand|400g"), E::WhichCulture);
    assert_eq!(wrong(&plain(), "day|9999-12-31"), E::PastTheCalendar { date: "9999-12-31".parse().unwrap() });
}
