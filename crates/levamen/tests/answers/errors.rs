//! Each error of a question: what is missing in it, or asked for and cannot be.

use jiff::civil::date;
use levamen::{Error, Field, QuestionError as E};

use crate::asked::{Asked, book, demo, harbour};
use crate::question::{Question, Request};
use crate::questions::{Ripening, day, feed, formula, new_culture, ripen, scaled, tubs, water, why};

/// What is wrong with a question.
fn wrong<R: Request>(asked: &Asked, question: &Question<R>) -> E {
    match asked.refused(question) {
        Error::Question(error) => error,
        Error::Problems { problems, .. } => panic!("{}: {problems:?}", question.words),
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
    assert_eq!(
        wrong(&harbour(), &formula("Harbor loaf")),
        unknown("Harbor loaf", Some("Harbour loaf"), false)
    );
    assert_eq!(wrong(&harbour(), &formula("harbour")), unknown("harbour", Some("Harbour loaf"), false));
    assert_eq!(wrong(&harbour(), &formula("brioche")), unknown("brioche", None, false));
    assert_eq!(wrong(&Asked::default(), &formula("A")), unknown("A", None, true));
    let stage = E::UnknownStage {
        dough: own("Harbour loaf"),
        name: own("polish"),
        near: Some(own("poolish")),
        stages: names(&["poolish"]),
    };
    assert_eq!(wrong(&harbour(), &scaled("Harbour loaf").have("polish", "4 kg")), stage);
    let ripening = E::UnknownRipening {
        dough: own("Fogbank rye"),
        name: own("half sour"),
        stages: names(&["basic sour", "full sour"]),
    };
    assert_eq!(wrong(&demo(), &ripen("Fogbank rye").stage("half sour")), ripening);
    let E::UnknownCulture { name, .. } = wrong(&demo(), &new_culture("liquid cultur")) else {
        panic!("another error")
    };
    assert_eq!(name, "liquid cultur");
}

#[test]
fn figures_that_are_none() {
    let loaf = || formula("Harbour loaf");
    for (error, expected) in [
        (wrong(&harbour(), &why("Harbour loaf", "hidration")), Field::Figure),
        (wrong(&harbour(), &loaf().free("flour of polish")), Field::Free),
        (wrong(&harbour(), &loaf().most("hidration")), Field::Most),
        (wrong(&harbour(), &loaf().least("hidration")), Field::Least),
    ] {
        let E::Figure { field, .. } = error else { panic!("{expected:?}: another error") };
        assert_eq!(field, expected);
    }
    let (dough, words) = (own("Harbour loaf"), own("water in final dough"));
    assert_eq!(
        wrong(&harbour(), &formula("Harbour loaf").free("water in final dough")),
        E::NothingToRelease { dough, words }
    );
    let dough = own("Quay levain");
    assert_eq!(wrong(&harbour(), &formula("Quay levain").most("pieces")), E::NoPieceToAimAt { dough });
}

const PLAIN: &str = "dough Plain\n\noverall\n  white flour  100 %\n  water  65 %\n\nculture mild\n  white flour  100 %\n  \
                     water  100 %\n  ripens  8 h\n";

fn plain() -> Asked {
    book(&[("plain.dough", PLAIN), ("need.csv", "date,culture,grams\n2026-12-02,mild,300\n")])
}

#[test]
fn sizes() {
    let dough = || own("Plain");
    assert_eq!(wrong(&plain(), &scaled("Plain")), E::NoSize { dough: dough() });
    assert_eq!(wrong(&plain(), &scaled("Plain").losing("2 %")), E::LossWithoutSize);
    assert_eq!(wrong(&plain(), &scaled("Plain").usual_pieces(36)), E::NoPieceWeight { dough: dough() });
    let many = 9_999_999_999_999_999_999;
    let count = many.to_string();
    assert_eq!(wrong(&plain(), &scaled("Plain").pieces(many, "1 kg")), E::TooManyPieces { count });
    assert_eq!(
        wrong(&plain(), &scaled("Plain").with_old_dough().pieces(3, "1 kg")),
        E::NoOldDough { dough: dough() }
    );
}

#[test]
fn ripenings() {
    let question = |asked: Question<Ripening>| wrong(&demo(), &asked);
    let dough = own("liquid culture");
    assert_eq!(question(ripen("liquid culture")), E::NothingRipens { dough });
    let (dough, stages) = (own("Fogbank rye"), names(&["basic sour", "full sour"]));
    assert_eq!(question(ripen("Fogbank rye")), E::WhichStage { dough, stages });
    assert_eq!(question(ripen("Market day bread")), E::NoLeaven { stage: own("old dough") });
    assert_eq!(question(ripen("Harbour baguette").seed("10 %")), E::StartedWithYeast);
    assert_eq!(question(ripen("Quayside loaf").yeast("0.1 %")), E::StartedWithSeed);
    assert_eq!(question(ripen("Quayside loaf").at("20 °C").within("9 h").seed("20 %")), E::NothingToFind);
}

#[test]
fn temperatures_and_tubs() {
    assert_eq!(wrong(&plain(), &water("Plain")), E::NoDoughTemperature);
    let warm = || water("Plain").dough_at("24 °C");
    assert_eq!(wrong(&plain(), &warm()), E::NoFlourTemperature);
    assert_eq!(wrong(&plain(), &warm().flour("20 °C")), E::NoRoomTemperature);
    let all = || warm().flour("20 °C").room("21 °C");
    assert_eq!(wrong(&plain(), &all()), E::NoFriction);
    let dough = own("Plain");
    assert_eq!(wrong(&plain(), &all().pre_ferment("20 °C")), E::NoPreFerment { dough });
    assert_eq!(wrong(&plain(), &tubs("Plain")), E::NoTubs);
    let dough = own("Ballast tin");
    assert_eq!(wrong(&demo(), &tubs("Ballast tin").of("5l")), E::NothingForTubs { dough });
    let stage = own("levain");
    assert_eq!(wrong(&demo(), &tubs("Quayside loaf").of("0.0000001ml")), E::TubsTooSmall { stage });
}

#[test]
fn batches_that_are_not_like_it() {
    let batches = "mixer,dough,measured,flour,room,water\nfork,40 kg,24 °C,21 °C,22 °C,25 °C\n";
    let plain = book(&[("plain.dough", PLAIN), ("batches.csv", batches)]);
    let all = water("Plain").dough_at("24 °C").flour("20 °C").room("21 °C");
    let asked = all.noted("batches.csv", "spiral").mixed("40 kg");
    let error = E::NoLikeBatch { mixer: own("spiral"), kilograms: own("40.0"), with_pre_ferment: false };
    assert_eq!(wrong(&plain, &asked), error);
}

#[test]
fn feedings_and_days() {
    let needed = || feed().need("need.csv");
    let (first, last) = (date(2026, 11, 1), date(2026, 11, 7));
    let week = needed().from(first);
    assert_eq!(wrong(&plain(), &week), E::NothingNeeded { first, last });
    let warmer = needed().from(date(2026, 12, 1)).kept_at("20 °C");
    assert_eq!(wrong(&plain(), &warmer), E::NoCultureTemperature { culture: own("mild") });
    let two = "date,culture,grams\n2026-12-02,mild,300\n2026-12-02,other,300\n";
    let text = format!("{PLAIN}\nculture other\n  white flour  100 %\n  water  100 %\n  ripens  8 h\n");
    let several = book(&[("plain.dough", &text), ("need.csv", two)]);
    assert_eq!(wrong(&several, &needed().from(date(2026, 12, 1)).on_hand("400g")), E::WhichCulture);
    let last = date(9999, 12, 31);
    assert_eq!(wrong(&plain(), &day(last)), E::PastTheCalendar { date: last });
}

/// What the book or a better name can mend is advised whoever asks; which of its fields to fill, each edge says.
#[test]
fn advice_is_given_where_the_book_can_mend_it() {
    let advice = |error: E| error.advice().iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(advice(E::NoTubs), names(&[]));
    assert_eq!(advice(E::NothingToFind), ["leave out the one that shall be found"]);
    let ripens = "how long it takes you, such as `ripens 12 h at 21 °C`";
    let dough = own("Loaf");
    assert_eq!(advice(E::NothingRipens { dough }), [format!("write into its stage {ripens}")]);
    assert_eq!(advice(E::NoRipening { stage: own("sponge") }), [format!("write into it {ripens}")]);
    let stages = names(&["basic sour", "full sour"]);
    assert_eq!(
        advice(E::WhichStage { dough: own("Rye"), stages }),
        ["name one of them: basic sour, full sour"]
    );
    assert_eq!(advice(E::NoLeaven { stage: own("sponge") }).len(), 2, "of seed and of yeast");
}
