//! A book read from layers of texts: which name wins, how names are compared, what a percentage is a percentage of, and
//! what is said of a name that nobody knows.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_formula::{
    Book, Formula, Item, LeftOver, Measure, ResolvedBasis, ResolvedMakeSize, Role, StageKind,
};
use levamen_language::{Kind, Problem, TextId};
use levamen_quantity::{Exact, Mass, Share, TimeUnit};

/// A book of layers of one text each, with its problems.
fn layered(layers: &[&str]) -> (Book, Vec<Problem>) {
    let texts: Vec<[(TextId, &str); 1]> =
        (0..).map(TextId).zip(layers).map(|(id, text)| [(id, *text)]).collect();
    Book::read(&texts.iter().map(<[_; 1]>::as_slice).collect::<Vec<_>>())
}

fn sound(layers: &[&str]) -> Book {
    let (book, problems) = layered(layers);
    assert_eq!(problems, []);
    book
}

fn codes(problems: &[Problem]) -> Vec<&'static str> {
    problems.iter().map(|problem| problem.code).collect()
}

fn formula(book: &Book, name: &str) -> Formula {
    book.formula(book.find(name).unwrap()).unwrap().clone()
}

fn percent(figure: i64) -> Share {
    Share::from_percent(Exact::from(figure))
}

const LOAF: &str = "dough Loaf\n\nfinal dough\n  strong white flour  100 %\n  water  65 %\n";

#[test]
fn a_later_layer_takes_the_place_of_an_earlier_one_and_a_text_of_the_same_layer_does_not() {
    let wetter = LOAF.replace("65 %", "70 %");
    let water = |book: &Book| formula(book, "loaf").stages[0].lines[1].amount.clone().unwrap().measure;
    assert_eq!(water(&sound(&[LOAF])), Measure::Share(percent(65), ResolvedBasis::OwnFlour));
    assert_eq!(water(&sound(&[LOAF, &wetter])), Measure::Share(percent(70), ResolvedBasis::OwnFlour));
    assert_eq!(water(&sound(&[&wetter, LOAF])), Measure::Share(percent(65), ResolvedBasis::OwnFlour));

    let (book, problems) = Book::read(&[&[(TextId(0), LOAF), (TextId(1), &wetter)]]);
    assert_eq!(codes(&problems), ["used-twice"]);
    assert_eq!(problems[0].primary.as_ref().unwrap().place.text, TextId(1), "the second is the one too many");
    assert_eq!(water(&book), Measure::Share(percent(65), ResolvedBasis::OwnFlour));
}

#[test]
fn a_dough_takes_from_a_culture_of_any_layer() {
    let mother = "culture mother\n  strong white flour  100 %\n  water  100 %\n";
    let sour = "dough Sour\n\nstage levain, a levain\n  strong white flour  100 %\n  water  100 %\n  \
                from MOTHER  20 %\n  takes  20 % of the flour\n\nfinal dough\n  strong white flour  100 %\n  water  60 %\n";
    for layers in [[mother, sour], [sour, mother]] {
        let book = sound(&layers);
        let taken: Vec<_> = formula(&book, "Sour").sources().map(|(id, _)| id).collect();
        assert_eq!(taken, [book.find("mother").unwrap()]);
        assert_eq!(book.entry(taken[0]).unwrap().role, Role::Culture);
    }
}

#[test]
fn what_a_book_says_of_an_ingredient_goes_before_the_built_in_pantry() {
    let (plain, own) = (
        sound(&[LOAF]),
        sound(&["ingredient  Sea salt\n  holds 90 % salt\n\ningredient WATER\n  density 2 kg/l\n"]),
    );
    let known =
        |book: &Book, name: &str| book.pantry().get(book.pantry().find(name).unwrap()).unwrap().clone();
    assert!(known(&plain, "water").is_water());
    // Nothing is left of what the pantry said.
    let water = known(&own, "water");
    assert!(!water.is_water());
    assert_eq!(water.density.unwrap().grams_per_millilitre(), &Exact::from(2));
    assert_eq!(known(&own, "sea  SALT").salt, percent(90));
    assert_eq!(known(&own, "salt").salt, Share::WHOLE);
}

#[test]
fn an_ingredient_with_every_fact() {
    let book = sound(&[
        "ingredient odd flour\n  rye flour\n  holds 12 % water\n  holds 3 % fat\n  holds 4.5 % sugar\n  \
                        holds 1 % salt\n  density 0.5 kg/l\n  source the bag\n\n\
                        ingredient Hefe\n  yeast instant\n  replaces 2.5 times as much fresh yeast\n",
    ]);
    let known = |name: &str| book.pantry().get(book.pantry().find(name).unwrap()).unwrap();
    let odd = known("odd flour");
    assert!(odd.is_flour && odd.is_rye && odd.yeast.is_none());
    let half = Share::from_fraction(Exact::ratio(45, 1000).unwrap());
    assert_eq!(
        [&odd.water, &odd.fat, &odd.sugar, &odd.salt],
        [&percent(12), &percent(3), &half, &percent(1)]
    );
    assert_eq!(odd.density.as_ref().unwrap().grams_per_millilitre(), &Exact::ratio(1, 2).unwrap());
    assert_eq!(odd.source.as_deref(), Some("the bag"));
    let yeast = known("hefe").yeast.clone().unwrap();
    assert_eq!(
        (yeast.kind, yeast.replaces),
        (Some(levamen_language::YeastKind::Instant), Exact::ratio(5, 2))
    );
}

#[test]
fn scales_are_the_usual_three_until_the_bakery_names_its_own() {
    let grams = |tenths: i64| Mass::from_grams(Exact::ratio(tenths, 10).unwrap());
    let shown = |book: &Book| {
        book.scales()
            .into_iter()
            .map(|scale| (scale.name, scale.division, scale.capacity))
            .collect::<Vec<_>>()
    };
    // As the manual has them: 0.1 g to 500 g, 1 g to 5 kg, 10 g to 60 kg.
    let usual = [("fine scale", 1, 5_000), ("bench scale", 10, 50_000), ("floor scale", 100, 600_000)]
        .map(|(name, division, capacity)| (name.to_owned(), grams(division), grams(capacity)));
    assert_eq!(shown(&sound(&[LOAF])), usual);
    let own = sound(&["scale beam\n  division 5 g\n  capacity 10 kg\n"]);
    assert_eq!(shown(&own), [("beam".to_owned(), grams(50), grams(100_000))]);
    let (_, problems) = layered(&["scale beam\n  division 5 g\n  capacity 4.9 g\n"]);
    assert_eq!(codes(&problems), ["half-a-scale"]);
    assert_eq!(sound(&["scale beam\n  division 5 g\n  capacity 5 g\n"]).scales().len(), 1);
}

const RICH: &str = "
culture mother
  strong white flour  100 %
  water               100 %

dough Rich

final dough
  butter  8 % of the dough
  soaker  rest

stage soaker, a soaker
  water                200 % of its medium rye flour
  medium rye flour      20 % of the flour
  salt                  50 % of the salt
  left over              3 %

stage levain, a levain
  strong white flour  100 %
  water                50 g
  from mother          20 %, given back
  takes                18 % of the flour
  ripens               12 h at 25 °C

overall
  strong white flour   80 %
  medium rye flour     20 %
  water                70 %
  salt                  2 %
  butter              rest

make 24 pieces of 920 g, losing 2 %
";

#[test]
fn every_percentage_knows_what_it_is_a_percentage_of() {
    let book = sound(&[RICH]);
    let rich = formula(&book, "rich");
    let id = |name: &str| book.pantry().find(name).unwrap();
    let overall: Vec<Option<Measure>> = rich
        .overall
        .iter()
        .flat_map(|overall| &overall.lines)
        .map(|line| Some(line.amount.clone()?.measure))
        .collect();
    let of_flour = |figure| Some(Measure::Share(percent(figure), ResolvedBasis::Flour));
    assert_eq!(overall, [of_flour(80), of_flour(20), of_flour(70), of_flour(2), Some(Measure::Rest)]);

    let stage = |name: &str| rich.stages.iter().find(|stage| &*stage.name == name).unwrap();
    let amounts = |name: &str| -> Vec<Option<Measure>> {
        stage(name).lines.iter().map(|line| Some(line.amount.clone()?.measure)).collect()
    };
    let share = |figure, basis| Some(Measure::Share(percent(figure), basis));
    assert_eq!(
        amounts("soaker"),
        [
            share(200, ResolvedBasis::OwnCell(id("medium rye flour"))),
            share(20, ResolvedBasis::Flour),
            share(50, ResolvedBasis::Row(id("salt"))),
        ]
    );
    let grams = Some(Measure::Mass(Mass::from_grams(Exact::from(50))));
    assert_eq!(
        amounts("levain"),
        [share(100, ResolvedBasis::OwnFlour), grams, share(20, ResolvedBasis::OwnFlour)]
    );
    let levain = stage("levain");
    assert_eq!(levain.takes.as_ref().unwrap().measure, Measure::Share(percent(18), ResolvedBasis::Flour));
    assert!(matches!(&stage("soaker").left_over, Some(LeftOver::Share(share, _)) if *share == percent(3)));
    assert!(levain.lines[2].item.is_given_back() && !levain.lines[0].item.is_given_back());
    assert_eq!(rich.loss, percent(2));
    assert_eq!(rich.make.unwrap().size, ResolvedMakeSize::Pieces(24, Mass::from_grams(Exact::from(920))));
}

#[test]
fn stages_are_in_the_order_in_which_they_are_made_and_the_final_dough_gets_what_is_left() {
    let book = sound(&[RICH]);
    let rich = formula(&book, "rich");
    let names: Vec<&str> = rich.stages.iter().map(|stage| stage.name.as_ref()).collect();
    assert_eq!(names, ["soaker", "levain", "final dough"]);
    assert_eq!(
        rich.stages.iter().map(|stage| stage.kind).collect::<Vec<_>>(),
        [StageKind::Ahead(Kind::Soaker), StageKind::Ahead(Kind::Levain), StageKind::FinalDough]
    );
    assert_eq!(rich.ferments(), [false, true, false]);
    assert_eq!(rich.final_dough().index(), 2);
    // What is written of it first, then what `overall` has and it does not name, and the stages that go nowhere else.
    let last = rich.stages.last().unwrap();
    let lines: Vec<&str> = last.lines.iter().map(|line| line.name.as_ref()).collect();
    assert!(lines.starts_with(&["butter", "soaker"]), "{lines:?}");
    for name in ["strong white flour", "medium rye flour", "water", "salt", "levain"] {
        let line = last.lines.iter().find(|line| &*line.name == name);
        assert!(line.is_some_and(|line| line.amount.is_none()), "{name}: {lines:?}");
    }
    assert!(last.lines.iter().all(|line| !matches!(line.item, Item::Seed(..))));
}

/// A ripening that says one time is used for a quarter longer: 12 h and 3 h. 3 min have no quarter in whole minutes.
#[test]
fn until_when_a_ripe_stage_is_used() {
    let until = |words: &str| {
        let text =
            format!("culture mother\n  strong white flour  100 %\n  water  100 %\n  ripens  {words}\n");
        let ripens = formula(&sound(&[&text]), "mother").stages.last().unwrap().ripens.clone().unwrap();
        ripens.until().in_unit(TimeUnit::Minute)
    };
    assert_eq!(until("12 h at 25 °C"), Exact::from(15 * 60));
    assert_eq!(until("12 to 13 h"), Exact::from(13 * 60));
    assert_eq!(until("10 min"), Exact::from(12));
    assert_eq!(until("3 min"), Exact::from(3));
}

/// A problem as its reader meets it.
fn shown_problems(problems: &[Problem]) -> String {
    let lines = problems.iter().map(|problem| {
        let help = problem.help.iter().map(|help| format!("\n  help: {help}"));
        format!("{}: {}{}\n", problem.code, problem.message, help.collect::<String>())
    });
    lines.collect()
}

#[test]
fn a_name_that_nobody_knows_is_refused_with_the_nearest() {
    let text = RICH
        .replace("  butter  8 %", "  buttter  8 %")
        .replace("from mother", "from mothr")
        .replace("  soaker  rest", "  soakr  rest")
        .replace("of its medium rye flour", "of its mediun rye flour");
    let (book, problems) = layered(&[&text]);
    insta::assert_snapshot!(shown_problems(&problems));
    // The dough keeps its name, and has no formula; its own problems are with it.
    let entry = book.entry(book.find("rich").unwrap()).unwrap();
    assert_eq!(entry.formula, None);
    assert_eq!(entry.problems.len(), problems.len());
}

#[test]
fn a_dough_that_feeds_itself_or_is_made_of_nothing_is_refused() {
    let circle = "dough Ring\n\nstage one, a soaker\n  strong white flour  100 %\n  two  100 g\n\nstage two, a soaker\n  \
                  water  100 %\n  one  100 g\n\nfinal dough\n  strong white flour  100 %\n  one  100 g\n";
    let empty = "dough Nothing\n\nmake 24 pieces of 920 g\n";
    let (_, problems) = layered(&[circle, empty]);
    insta::assert_snapshot!(shown_problems(&problems));
}
