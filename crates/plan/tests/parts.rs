//! A dough in parts, each figure worked out on paper: what a batch is, which pieces come out of it, what it costs, and how
//! warm a bowl is.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_bakery::{Bakery, ProductId};
use levamen_balance::{Balance, Balancer, BookBalances};
use levamen_formula::{Book, IngredientId};
use levamen_language::TextId;
use levamen_plan::{Bowl, Cost, Day, DayOrders, Unpriced, Warmth, allot, split};
use levamen_quantity::{Exact, Mass, Share, Temperature, TemperatureDifference, TemperatureUnit};

const BOOK: &str = "\
dough Loaf

overall
  strong white flour  100 %
  water                70 %
  salt                  2 %
  fresh yeast           1 %

stage sponge
  takes               30 % of the flour
  strong white flour 100 %
  water               60 %
  fresh yeast        0.5 %

method Loaf
  in spiral

mixer spiral
  most 100 kg of dough

product Large
  made of Loaf
  piece 1 kg

product Small
  made of Loaf
  piece 300 g
";

fn read(text: &str) -> (Book, Bakery) {
    let texts = [(TextId(0), text)];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    (book, bakery)
}

fn balance(book: &Book) -> Balance {
    Balancer::new(book).balance(book.find("Loaf").unwrap()).unwrap().clone()
}

fn grams(figure: i64) -> Mass {
    Mass::from_grams(Exact::from(figure))
}

fn ratio(numer: i64, denom: i64) -> Exact {
    Exact::ratio(numer, denom).unwrap()
}

/// Parts of 3 and 1 are three quarters and a quarter of every figure of the final dough: 70 of flour and 52 of water weighed in
/// (70 less the sponge's 18), 173 made and taken.
#[test]
fn each_batch_has_its_part_of_every_figure() {
    let (book, _) = read(BOOK);
    let whole = balance(&book);
    let split = split(&whole, &[grams(300), grams(100)]);
    let names: Vec<&str> = split.stages.iter().map(|stage| stage.name.as_str()).collect();
    assert_eq!(names, ["sponge", "final dough, batch 1", "final dough, batch 2"]);
    assert_eq!(
        (&split.stages[0], &split.overall, &split.weight),
        (&whole.stages[0], &whole.overall, &whole.weight)
    );
    for (stage, (numer, denom)) in split.stages[1..].iter().zip([(3, 4), (1, 4)]) {
        let of = |hundredths: i64| Share::from_fraction(ratio(hundredths * numer, 100 * denom));
        assert_eq!((&stage.own_flour, &stage.flour, &stage.water), (&of(70), &of(70), &of(52)));
        assert_eq!((&stage.made, &stage.taken), (&of(173), &of(173)));
        assert_eq!((&stage.steam, &stage.given_back, &stage.left_over), (&of(0), &of(0), &of(0)));
        let line = |name: &str| stage.lines.iter().find(|line| line.name == name).unwrap().share.clone();
        assert_eq!([line("strong white flour"), line("water"), line("salt")], [of(70), of(52), of(2)]);
        // 30 of flour, 18 of water and 0.15 of yeast.
        assert_eq!(line("sponge"), Share::from_fraction(ratio(4815 * numer, 10_000 * denom)));
        assert_eq!(stage.hydration, whole.stages[1].hydration);
    }
    let part: Exact = split.stages[1..].iter().map(|stage| stage.prefermented_flour.fraction()).sum();
    assert_eq!(&part, whole.stages[1].prefermented_flour.fraction());
}

/// What no final dough of this bakery has is divided all the same: steam, seed that is given back, what is left over.
#[test]
fn each_batch_has_its_part_of_what_goes_off_and_what_is_kept() {
    let mut whole = balance(&read(BOOK).0);
    let percent = |figure: i64| Share::from_percent(Exact::from(figure));
    let last = whole.stages.last_mut().unwrap();
    (last.steam, last.given_back) = (percent(4), percent(8));
    (last.left_over, last.prefermented_flour) = (percent(12), percent(20));
    let split = split(&whole, &[grams(300), grams(100)]);
    let figures = |stage: usize| {
        let stage = &split.stages[stage];
        [&stage.steam, &stage.given_back, &stage.left_over, &stage.prefermented_flour].map(Clone::clone)
    };
    assert_eq!(figures(1), [3, 6, 9, 15].map(percent));
    assert_eq!(figures(2), [1, 2, 3, 5].map(percent));
}

#[test]
fn a_dough_in_less_than_two_parts_or_in_parts_of_nothing_stays_whole() {
    let whole = balance(&read(BOOK).0);
    for parts in [vec![], vec![grams(5)], vec![grams(0), grams(0)]] {
        assert_eq!(split(&whole, &parts), whole);
    }
}

/// Products and pieces of each batch, by the order of the products.
fn batches(most: &str, large: u64, small: u64) -> Vec<Vec<(usize, u64)>> {
    let (book, bakery) = read(&BOOK.replace("100 kg of dough", most));
    let day = Day::plan(
        &BookBalances::new(&book),
        &bakery,
        &DayOrders::from_pieces([(ProductId::new(0), large), (ProductId::new(1), small)]),
        None,
    )
    .unwrap();
    let portions = allot(&day.doughs[0]);
    portions
        .iter()
        .map(|batch| batch.iter().map(|portion| (portion.product.index(), portion.pieces)).collect())
        .collect()
}

/// 10 large and 10 small are 13 kg. In two batches of 6.5 kg: the first has 6.5 large, of which the half counts as one, and the
/// second what is left. In three of 4333 g: 4 large; 4 of the next; then 2 and all the small.
#[test]
fn pieces_fill_one_batch_after_the_other() {
    assert_eq!(batches("100 kg of dough", 10, 10), [vec![(0, 10), (1, 10)]]);
    assert_eq!(batches("6.6 kg of dough", 10, 10), [vec![(0, 7)], vec![(0, 3), (1, 10)]]);
    assert_eq!(batches("4.5 kg of dough", 10, 10), [vec![(0, 4)], vec![(0, 4)], vec![(0, 2), (1, 10)]]);
    // 3 large and 20 small are 9 kg, 4.5 kg a batch: 3 large leave 1.5 kg, which are 5 small ones.
    assert_eq!(batches("4.6 kg of dough", 3, 20), [vec![(0, 3), (1, 5)], vec![(1, 15)]]);
}

/// Salt has no price: 20 g of it in a dough of 1 kg of flour, three times that in three, and a quarter of it in a quarter.
#[test]
fn what_has_no_price_is_counted_with_its_weight() {
    let text = format!(
        "{BOOK}\nsupply strong white flour\n  price 20 for 25 kg\n\nsupply fresh yeast\n  price 4 for 1 kg\n\nsupply water\n  price 2 for 1000 kg\n"
    );
    let (book, bakery) = read(&text);
    let cost = Cost::of_dough(&bakery, &balance(&book), &grams(1000));
    // 0.80 of flour, 0.04 of yeast, 0.0014 of water.
    assert_eq!(cost.priced, ratio(8414, 10_000));
    let salt = |mass: i64| {
        let ingredient: IngredientId = book.pantry().find("salt").unwrap();
        vec![Unpriced { ingredient, name: "salt".to_owned(), mass: grams(mass) }]
    };
    assert_eq!(cost.unpriced, salt(20));
    let three = cost.times(3);
    assert_eq!((&three.priced, &three.unpriced), (&ratio(25_242, 10_000), &salt(60)));
    let quarter = cost.share(&Share::from_percent(Exact::from(25)));
    assert_eq!((&quarter.priced, &quarter.unpriced), (&ratio(8414, 40_000), &salt(5)));
    let both = three.and(&quarter);
    assert_eq!(
        (&both.priced, &both.unpriced, both.is_whole()),
        (&(&ratio(25_242, 10_000) + &ratio(8414, 40_000)), &salt(65), false)
    );
    assert_eq!(cost.times(0).priced, Exact::ZERO);
}

fn celsius(figure: i64) -> Temperature {
    Temperature::from_unit(&Exact::from(figure), TemperatureUnit::Celsius)
}

fn degrees(figure: i64) -> TemperatureDifference {
    TemperatureDifference::from_unit(&Exact::from(figure), TemperatureUnit::Celsius)
}

/// 1 kg of flour: 520 g of water; beside flour and water 20 g of salt, 8.5 g of yeast and 481.5 g of sponge, 510 of 1730.
#[test]
fn what_is_in_the_bowl() {
    let (book, _) = read(BOOK);
    let (flour, room, sponge) = (celsius(20), celsius(22), celsius(24));
    let warmth = Warmth { flour: &flour, room: &room, pre_ferment: Some(&sponge) };
    let whole = balance(&book);
    let bowl = Bowl::of(&whole, &whole.stages[1], &grams(1000), book.pantry(), warmth).unwrap();
    assert_eq!(bowl.water, grams(520));
    assert_eq!(bowl.beside, Share::from_fraction(ratio(510, 1730)));
    assert_eq!(bowl.fermented, [("sponge".to_owned(), celsius(24))]);
    let others: Exact = bowl.others.iter().map(|part| part.mass.grams()).sum();
    assert_eq!(others, Exact::from(1210));
    assert!(bowl.heats_lead());
}

/// A kilogram of flour at 20 °C and 500 g of water at 10 °C: (1.84 × 20 + 0.5 × 4.18 × 10) / (1.84 + 2.09), some 14.7 °C. Three
/// degrees of rise are added, and found again in what is measured.
#[test]
fn water_dough_and_rise_are_one_balance() {
    let (book, _) = read("dough Loaf\n\nfinal dough\n  strong white flour  100 %\n  water  50 %\n");
    let (flour, room) = (celsius(20), celsius(22));
    let warmth = Warmth { flour: &flour, room: &room, pre_ferment: None };
    let whole = balance(&book);
    let bowl = Bowl::of(&whole, &whole.stages[0], &grams(1000), book.pantry(), warmth).unwrap();
    assert_eq!(bowl.beside, Share::from_percent(Exact::ZERO));
    assert!(!bowl.heats_lead());
    let still = bowl.dough(celsius(10), &degrees(0)).unwrap();
    assert_eq!(still.in_unit(TemperatureUnit::Celsius), ratio(5770, 393));
    let mixed = bowl.dough(celsius(10), &degrees(3)).unwrap();
    assert_eq!(mixed.in_unit(TemperatureUnit::Celsius), ratio(5770 + 3 * 393, 393));
    assert_eq!(bowl.rise(&mixed, celsius(10)), Some(degrees(3)));
    assert_eq!(bowl.water(&mixed, &degrees(3)).unwrap(), celsius(10));
}
