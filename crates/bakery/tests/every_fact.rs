//! Every fact of every card, read into its field. Expected figures are converted by hand: 1 lb is 453.59237 g, 1 l is
//! 1000 ml, a difference of 9 °F is one of 5 °C.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_bakery::{Bakery, Batching, MixerId, OrderColumn, Piece, Spare};
use levamen_formula::Book;
use levamen_language::{CARDS, Card, TextId};
use levamen_quantity::{
    ClockTime, Duration, Exact, Mass, Share, Temperature, TemperatureDifference, TemperatureUnit, TimeUnit,
};

const DOUGHS: &str = "
dough Country loaf

overall
  strong white flour  100 %
  water                70 %
  salt                  2 %

dough Bun

overall
  strong white flour  100 %
  water                60 %

culture rye culture
  medium rye flour  100 %
  water             100 %
  ripens             15 h at 25 °C
";

/// The bakery of some cards, which have nothing wrong with them.
fn read(cards: &str) -> (Book, Bakery) {
    let text = format!("{DOUGHS}\n{cards}");
    let texts = [(TextId(0), text.as_str())];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, [], "{cards}");
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, [], "{cards}");
    (book, bakery)
}

fn grams(figure: &str) -> Mass {
    Mass::from_grams(Exact::from_literal(figure).unwrap())
}

fn percent(figure: i64) -> Share {
    Share::from_percent(Exact::from(figure))
}

fn minutes(figure: i64) -> Duration {
    Duration::from_unit(&Exact::from(figure), TimeUnit::Minute)
}

fn celsius(figure: i64) -> Temperature {
    Temperature::from_unit(&Exact::from(figure), TemperatureUnit::Celsius)
}

fn clock(text: &str) -> ClockTime {
    ClockTime::read(text).unwrap()
}

#[test]
fn what_the_bakery_keeps_to() {
    let (_, bakery) = read(
        "bakery Harbour  bakehouse\n  time zone Europe/Lisbon\n  currency EUR\n  out by 06:30\n  batches full\n  \
         tap water 50 °F\n  flour store 19 °C\n  column date is Delivery day\n  column quantity is Pieces\n",
    );
    let settings = &bakery.settings;
    assert_eq!(settings.name.as_deref(), Some("Harbour bakehouse"));
    assert_eq!(settings.time_zone.as_deref(), Some("Europe/Lisbon"));
    assert_eq!(settings.currency.as_deref(), Some("EUR"));
    assert_eq!(settings.out_by, Some(clock("06:30")));
    assert_eq!(settings.batching, Batching::Full);
    // (50 - 32) × 5/9
    assert_eq!(settings.tap, Some(celsius(10)));
    assert_eq!(settings.flour_store, Some(celsius(19)));
    let names = OrderColumn::ALL.map(|column| settings.column(column));
    assert_eq!(names, ["Delivery day", "customer", "product", "Pieces", "weekday", "from", "until"]);
}

#[test]
fn a_bakery_that_says_nothing_has_equal_batches_and_the_usual_columns() {
    for cards in ["", "bakery Quiet\n  note by the sea\n", "bakery Quiet\n  batches equal\n"] {
        let (_, bakery) = read(cards);
        assert_eq!(bakery.settings.batching, Batching::Equal);
        assert_eq!(bakery.settings.currency, None);
        assert_eq!(bakery.settings.column(OrderColumn::Customer), "customer");
        assert_eq!((bakery.mixers.len(), bakery.products.len(), bakery.supplies.len()), (0, 0, 0));
    }
}

#[test]
fn a_mixer_with_all_its_facts_and_one_with_none() {
    let (_, bakery) = read(
        "mixer spiral\n  there are 2\n  least 8 kg of dough\n  most 60 kg of dough\n  least 5 kg of flour\n  \
         most 100 lb of flour\n  warms 9 °F\n  cleaning 5 min\n\nmixer planetary\n  note old\n",
    );
    let [spiral, planetary] = bakery.mixers.as_slice() else { panic!("{:?}", bakery.mixers) };
    assert_eq!((spiral.name.as_str(), spiral.count), ("spiral", 2));
    assert_eq!(spiral.least_dough, Some(grams("8000")));
    assert_eq!(spiral.most_dough, Some(grams("60000")));
    assert_eq!(spiral.least_flour, Some(grams("5000")));
    assert_eq!(spiral.most_flour, Some(grams("45359.237")));
    let five = TemperatureDifference::from_unit(&Exact::from(5), TemperatureUnit::Celsius);
    assert_eq!(spiral.warms, Some(five));
    assert_eq!(spiral.cleaning, Some(minutes(5)));
    assert_eq!((planetary.name.as_str(), planetary.count), ("planetary", 1));
    assert_eq!((&planetary.least_dough, &planetary.most_flour), (&None, &None));
    assert_eq!((&planetary.warms, &planetary.cleaning), (&None, &None));
}

#[test]
fn bounds_of_a_mixer_that_are_equal_are_no_mistake() {
    let (_, bakery) =
        read("mixer spiral\n  least 8 kg of dough\n  most 8 kg of dough\n  most 3 kg of flour\n");
    let spiral = &bakery.mixers[0];
    assert_eq!((&spiral.least_dough, &spiral.most_dough), (&Some(grams("8000")), &Some(grams("8000"))));
    // Flour is not held against dough.
    assert_eq!((&spiral.least_flour, &spiral.most_flour), (&None, &Some(grams("3000"))));
}

#[test]
fn an_oven_tubs_a_room_and_a_shift() {
    let (_, bakery) = read(
        "oven deck oven\n  decks 6\n\ntub large\n  there are 4\n  volume 20 l\n\ntub small\n  volume 500 ml\n\n\
         room hall\n  at 22:00 20 °C\n  at 04:00 17 °C\n\nroom cellar\n  stands at 12 °C\n\n\
         shift night\n  from 22:00 to 06:00\n  bakers 3\n",
    );
    assert_eq!((bakery.ovens[0].name.as_str(), bakery.ovens[0].decks), ("deck oven", 6));
    let tubs = bakery.tubs.iter().map(|tub| (tub.count, tub.volume.millilitres().clone()));
    assert_eq!(tubs.collect::<Vec<_>>(), [(4, Exact::from(20_000)), (1, Exact::from(500))]);
    // In the order of the day, however they were written.
    let hall = bakery.room(" Hall").unwrap();
    assert_eq!(hall.curve, [(clock("04:00"), celsius(17)), (clock("22:00"), celsius(20))]);
    // Half-way over the six hours past midnight: (20 + 17) / 2.
    assert_eq!(
        hall.at(clock("01:00")).unwrap().in_unit(TemperatureUnit::Celsius),
        Exact::ratio(37, 2).unwrap()
    );
    assert_eq!(bakery.room("cellar").unwrap().at(clock("15:00")), Some(celsius(12)));
    assert_eq!(bakery.room("attic"), None);
    let night = &bakery.shifts[0];
    assert_eq!((night.from, night.to, night.bakers), (clock("22:00"), clock("06:00"), 3));
}

#[test]
fn a_method_names_its_mixer_wherever_that_stands() {
    let (book, bakery) = read(
        "method country  loaf\n  in Spiral\n  mixes 12 min\n  dough at 25 °C\n  bulk 2 to 3 h\n\n\
         mixer planetary\n  note old\n\nmixer spiral\n  note new\n\nmethod Bun\n  note by hand\n",
    );
    let method = bakery.method(book.find("Country loaf").unwrap()).unwrap();
    assert_eq!(method.mixer, Some(MixerId::new(1)));
    assert_eq!((&method.mixes, &method.dough_at), (&Some(minutes(12)), &Some(celsius(25))));
    assert_eq!(method.bulk, Some((minutes(120), minutes(180))));
    let bun = bakery.method(book.find("bun").unwrap()).unwrap();
    assert_eq!((bun.mixer, &bun.mixes, &bun.bulk), (None, &None, &None));
    assert_eq!(bakery.method(book.find("rye culture").unwrap()), None);
}

#[test]
fn a_product_with_all_its_facts() {
    let (book, bakery) = read(
        "product Large loaf\n  made of country loaf\n  baked 800 g\n  bake loss 12 %\n  losing 2 %\n  spare 5 %\n  \
         head 30 pieces\n  each with sesame seeds 12 g\n  each with salt 1 g\n  deck 24 pieces\n  shaping 20 min\n  \
         proof 45 to 75 min\n  bakes 40 min\n  cools 1 h\n  out by 06:00\n",
    );
    let loaf = bakery.find_product("LARGE loaf").unwrap();
    assert_eq!(loaf.dough, book.find("Country loaf").unwrap());
    // 800 g are 88 % of 10000 / 11 g.
    let dough = Mass::from_grams(Exact::ratio(10_000, 11).unwrap());
    assert_eq!(loaf.piece, Piece::Baked { mass: grams("800"), loss: percent(12), dough });
    assert_eq!(Piece::baked(grams("800"), percent(100)), None);
    // 800 / 0.88 = 10 000 / 11
    assert_eq!(loaf.piece.dough().grams(), &Exact::ratio(10_000, 11).unwrap());
    assert_eq!((&loaf.losing, &loaf.spare), (&percent(2), &Spare::Share(percent(5))));
    assert_eq!((loaf.head, loaf.deck), (Some(30), Some(24)));
    let toppings = loaf.toppings.iter().map(|topping| (topping.name.as_str(), topping.mass.clone()));
    assert_eq!(toppings.collect::<Vec<_>>(), [("sesame seeds", grams("12")), ("salt", grams("1"))]);
    assert_eq!(loaf.toppings[1].ingredient, book.pantry().find("salt").unwrap());
    assert_eq!((&loaf.shaping, &loaf.bakes), (&Some(minutes(20)), &Some(minutes(40))));
    assert_eq!((&loaf.proof, &loaf.cools), (&Some((minutes(45), minutes(75))), &Some(minutes(60))));
    assert_eq!(loaf.out_by, Some(clock("06:00")));
    assert_eq!(bakery.find_product("Small loaf"), None);
}

#[test]
fn a_product_that_says_no_more_than_it_must() {
    let (_, bakery) = read(
        "product Bun\n  made of Bun\n  piece 60 g\n\nproduct Roll\n  made of Bun\n  piece 90 g\n  spare 3 pieces\n",
    );
    let bun = bakery.find_product("Bun").unwrap();
    assert_eq!((&bun.piece, &bun.losing, &bun.spare), (&Piece::Raw(grams("60")), &percent(0), &Spare::None));
    assert_eq!((bun.head, bun.deck, bun.toppings.len(), bun.out_by), (None, None, 0, None));
    assert_eq!((&bun.shaping, &bun.proof, &bun.bakes, &bun.cools), (&None, &None, &None, &None));
    assert_eq!(bakery.find_product("Roll").unwrap().spare, Spare::Pieces(3));
}

#[test]
fn a_supply_and_what_a_gram_of_it_costs() {
    let (book, bakery) = read(
        "supply strong white flour\n  pack 25 kg\n  price 18.40 for 25 kg\n  waste 8 %\n  delivered in 2 days\n\n\
         supply water\n  price 2 for 1000 kg\n\nsupply salt\n  pack 10 kg\n",
    );
    let of = |name: &str| bakery.supply(book.pantry().find(name).unwrap());
    let flour = of("strong white flour").unwrap();
    assert_eq!((&flour.pack, &flour.waste), (&Some(grams("25000")), &percent(8)));
    assert_eq!(flour.delivery, Some(minutes(2 * 24 * 60)));
    // 18.40 / (25 000 × 0.92) = 0.0008
    assert_eq!(flour.price_of_a_gram(), Exact::ratio(8, 10_000));
    assert!(!flour.is_drawn());
    let water = of("water").unwrap();
    assert_eq!((water.price_of_a_gram(), &water.waste), (Exact::ratio(2, 1_000_000), &percent(0)));
    assert!(water.is_drawn());
    let salt = of("salt").unwrap();
    assert_eq!(salt.price_of_a_gram(), None);
    assert!(!salt.is_drawn());
    assert_eq!(of("medium rye flour"), None);
}

#[test]
fn how_a_culture_is_kept() {
    let kept = DOUGHS.replace(
        "  ripens             15 h at 25 °C\n",
        "  ripens             15 h at 25 °C\n  keeps 20 to 50 % old\n  usually 20 % old\n  fed every 12 to 24 h\n  \
         stored up to 3 days at 5 °C\n  hold at least 200 g\n  hold at most 200 g\n",
    );
    let texts = [(TextId(0), kept.as_str())];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, [], "what is usual may be an end of what is allowed");
    let keeping = bakery.keeping(book.find("Rye culture").unwrap()).unwrap();
    assert_eq!((&keeping.keeps, &keeping.usually), (&Some((percent(20), percent(50))), &Some(percent(20))));
    assert_eq!(keeping.fed_every, Some((minutes(720), minutes(1440))));
    assert_eq!(keeping.stored, Some((minutes(3 * 1440), celsius(5))));
    assert_eq!((&keeping.least, &keeping.most), (&Some(grams("200")), &Some(grams("200"))));
    assert_eq!(keeping.ripens.as_ref().map(|ripens| &ripens.least), Some(&minutes(900)));
    assert_eq!(bakery.keeping(book.find("Bun").unwrap()), None);
    // A culture that is only fed is not one that says how it is kept.
    assert_eq!(read("").1.keepings, []);
}

/// 3 h of bulk at most; the roll's 20 min of shaping and 75 min of proof are more than the bun's 90 min of proof alone.
#[test]
fn from_mixing_to_the_oven_at_most() {
    let cards = "method Bun\n  bulk 2 to 3 h\n\nproduct Roll\n  made of Bun\n  piece 90 g\n  shaping 20 min\n  \
                 proof 45 to 75 min\n\nproduct Bun\n  made of Bun\n  piece 60 g\n  proof 1 h to 90 min\n";
    let cards = cards.replace("1 h to 90 min", "60 to 90 min");
    let (book, bakery) = read(&cards);
    let [bun, loaf] = ["Bun", "Country loaf"].map(|name| book.find(name).unwrap());
    assert_eq!(bakery.mix_to_oven(bun), Some(minutes(180 + 95)));
    assert_eq!(bakery.mix_to_oven(loaf), None, "no method");
    let (_, bakery) = read(&cards.replace("  proof 60 to 90 min\n", ""));
    assert_eq!(bakery.mix_to_oven(bun), None, "a product that does not say it");
    let (_, bakery) = read("method Bun\n  bulk 2 to 3 h\n");
    assert_eq!(bakery.mix_to_oven(bun), None, "no product");
}

#[test]
fn what_stands_under_another_heading_is_no_fact_of_the_card_before() {
    let (_, bakery) = read(
        "tub large\n  volume 20 l\n\nscale bench\n  division 1 g\n  capacity 5 kg\n\ntub small\n  volume 5 l\n",
    );
    let volumes: Vec<Exact> = bakery.tubs.iter().map(|tub| tub.volume.millilitres().clone()).collect();
    assert_eq!(volumes, [Exact::from(20_000), Exact::from(5000)]);
}

/// Facts that a card cannot do without or that stand in each other's place, and `folder`, which is read before there is a
/// book: each of them has a test above or beside the code.
const TESTED_APART: [&str; 10] =
    ["made of", "piece", "baked", "bake loss", "decks", "stands at", "at", "from", "bakers", "volume"];

/// The table of the language, fact by fact: each changes what is read, so none is passed over.
#[test]
fn no_fact_of_the_language_is_passed_over() {
    // A card that is read with nothing else in it.
    let least = |card: &Card| match card.keyword {
        "product" => "product Large loaf\n  made of Bun\n  piece 1 g\n".to_owned(),
        "oven" | "room" | "shift" => String::new(),
        "tub" => "tub large\n  volume 1 l\n".to_owned(),
        _ => format!("{}\n", card_heading(card)),
    };
    let mut count = 0;
    for card in &CARDS {
        for form in card.forms {
            // Equal batches are what a bakery has that says nothing.
            let is_usual = form.example == "batches equal";
            if TESTED_APART.contains(&form.keyword()) || form.keyword() == "folder" || is_usual {
                continue;
            }
            let card = format!("mixer spiral mixer\n  note new\n\n{}", least(card));
            let (_, with) = read(&format!("{card}  {}\n", form.example));
            let (_, without) = read(&format!("{card}  note nothing else\n"));
            assert_ne!(with, without, "{card}{}", form.example);
            count += 1;
        }
    }
    assert!(count > 25, "{count} facts");
}

fn card_heading(card: &Card) -> &'static str {
    match card.keyword {
        "bakery" => "bakery Harbour",
        "mixer" => "mixer planetary",
        "method" => "method Country loaf",
        "supply" => "supply strong white flour",
        _ => "",
    }
}
