//! How warm the water of a day is poured and in which tubs its stages stand, by sums on paper.
//!
//! Of heats: a gram of flour takes 1.84 J for a degree, a gram of water 4.18 J. A friction by the rule is that of three
//! factors, so a third of it is what mixing warms a dough.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use jiff::civil::date;
use jiff::tz::TimeZone;
use levamen_bakery::{Bakery, ProductId, TubId};
use levamen_balance::BookBalances;
use levamen_ferment::MixingWater;
use levamen_formula::Book;
use levamen_language::TextId;
use levamen_plan::{Day, DayOrders, Hours, Setting, in_mixing_order, settings};
use levamen_quantity::{Exact, TemperatureUnit};
use levamen_timetable::{Clock, Effort, plan};

const BAKERY: &str = "\
bakery Quay
  out by 06:00
  flour store 18 °C
  tap water 16 °C

room bakehouse
  stands at 22 °C

mixer spiral
  warms 12 °C
  most 30 kg of dough

tub small
  volume 300 ml

tub middle
  volume 500 ml
";

const PLAIN: &str = "\
dough Loaf

final dough
  strong white flour  100 %
  water                50 %

product Loaf
  made of Loaf
  piece 1500 g

method Loaf
  in spiral
  mixes 10 min
  dough at 26 °C
";

const WITH_LEVAIN: &str = "\
culture liquid culture
  strong white flour  100 %
  water               100 %
  ripens                8 h

dough Loaf

overall
  strong white flour  100 %
  water                50 %

stage levain
  takes  20 % of the flour
  strong white flour     100 %
  water                  100 %
  from liquid culture     20 %
  ripens  10 h at 28 °C

product Loaf
  made of Loaf
  piece 1500 g

method Loaf
  in spiral
  mixes 10 min
  dough at 26 °C
";

fn ratio(numer: i64, denom: i64) -> Exact {
    Exact::ratio(numer, denom).unwrap()
}

/// What is set and mixed for so many loaves, with a timetable or without.
fn set_by(dough: &str, cards: &str, loaves: u64, has_timetable: bool) -> Vec<Setting> {
    let text = format!("{dough}\n{cards}");
    let texts = [(TextId(0), text.as_str())];
    let (book, problems) = Book::read(&[&texts]);
    assert_eq!(problems, []);
    let (bakery, problems) = Bakery::read(&book, &texts);
    assert_eq!(problems, []);
    let orders = DayOrders::from_pieces([(ProductId::new(0), loaves)]);
    let day = Day::plan(&BookBalances::new(&book), &bakery, &orders, None).unwrap();
    let clock = Clock::new(date(2026, 11, 27), TimeZone::UTC).unwrap();
    let hours = Hours::new(&bakery, &day, clock).unwrap();
    let timetable = plan(&hours.work, Effort::default()).unwrap();
    let (day, hours) = in_mixing_order(day, hours, &timetable);
    settings(&bakery, book.pantry(), &day, &hours, has_timetable.then_some(&timetable))
}

fn set(dough: &str, cards: &str, loaves: u64) -> Vec<Setting> {
    set_by(dough, cards, loaves, true)
}

/// How warm the water is poured, in degrees Celsius.
fn celsius(setting: &Setting) -> Exact {
    poured(setting).at.in_unit(TemperatureUnit::Celsius)
}

fn poured(setting: &Setting) -> &MixingWater {
    &setting.water.as_ref().unwrap().as_ref().unwrap().found
}

/// 1000 g of flour and 500 g of water take 1840 + 2090 = 3930 J for a degree. Mixing warms them by 12 / 3 = 4 °C, so before it
/// they are at 22 °C: 3930 × 22 = 86460 J over zero, of which the flour brings 1840 × 18 = 33120. The water brings the rest,
/// 53340 J in 2090 J for a degree.
#[test]
fn water_makes_up_what_cold_flour_lacks() {
    let settings = set(PLAIN, BAKERY, 1);
    assert_eq!(settings.len(), 1);
    assert_eq!(celsius(&settings[0]), ratio(53_340, 2090));
    assert_eq!(poured(&settings[0]).iced, None);
    // A dough that is wanted two degrees cooler takes 2 × 3930 J less of it.
    let cooler = set(&PLAIN.replace("26 °C", "24 °C"), BAKERY, 1);
    assert_eq!(celsius(&cooler[0]), ratio(53_340 - 2 * 3930, 2090));
    // A mixer that warms by 3 °C more by the rule warms by one: 3930 J.
    let warmer = set(PLAIN, &BAKERY.replace("warms 12 °C", "warms 15 °C"), 1);
    assert_eq!(celsius(&warmer[0]), ratio(53_340 - 3930, 2090));
}

/// At 20 °C, so at 16 °C before mixing, the water is wanted at w = (3930 × 16 − 33120) / 2090 = 29760 / 2090, some 14.2 °C. The
/// tap runs at 16 °C, which is 2090 × (16 − w) = 33440 − 29760 = 3680 J too warm; a gram of ice takes 333.6 J to melt and
/// stands for a gram of tap water of 4.18 × 16 = 66.88 J: 3680 / 400.48, some 9.2 g.
#[test]
fn ice_takes_what_the_tap_has_too_much() {
    let settings = set(&PLAIN.replace("26 °C", "20 °C"), BAKERY, 1);
    assert_eq!(celsius(&settings[0]), ratio(29_760, 2090));
    let iced = poured(&settings[0]).iced.as_ref().unwrap();
    let ice = ratio(368_000, 40_048);
    assert_eq!(*iced.ice.grams(), ice);
    assert_eq!(*iced.tap.grams(), &Exact::from(500) - &ice);
}

/// 60 kg are two batches of 30 kg. Each is 20 times a loaf, so its water is as warm as that of a loaf.
#[test]
fn each_batch_has_the_water_of_the_whole() {
    let settings = set(PLAIN, BAKERY, 40);
    let batches: Vec<Option<usize>> = settings.iter().map(|setting| setting.batch).collect();
    assert_eq!(batches, [Some(1), Some(2)]);
    for setting in &settings {
        assert_eq!(celsius(setting), ratio(53_340, 2090));
    }
    assert!(settings[0].at < settings[1].at);
}

/// 200 g of flour and 200 g of water soaked at 5 °C bring (368 + 836) × 5 = 6020 J, the 800 g of dry flour 1472 × 18 = 26496 J.
/// Of 86460 J the last 300 g of water, at 1254 J for a degree, bring 53944. The soaker itself takes what the tap gives.
#[test]
fn a_cold_soaker_wants_warmer_water() {
    let dough = WITH_LEVAIN
        .replace("  from liquid culture     20 %\n", "")
        .replace("stage levain", "stage soaker, a soaker")
        .replace("10 h at 28 °C", "10 h at 5 °C");
    let settings = set(&dough, BAKERY, 1);
    assert!(settings[0].water.is_none());
    assert_eq!(settings[0].tubs, None);
    assert_eq!(celsius(&settings[1]), ratio(53_944, 1254));
}

/// Of 400 g of levain with 100 : 100 : 20 parts, flour and water are 181.8 g each and seed 36.4 g, which counts by the gram as
/// the dough does: (1840 + 2090) / 1500 = 2.62 J. For a degree they take 334.5 + 760 + 95.3 = 1189.8 J.
///
/// - The levain is stirred at 28 °C, so 33315 J over zero; flour at 18 °C brings 6022 and seed at 22 °C 2096. The water has
///   25197 J to bring in 760: 33.15 °C.
/// - In the dough it brings its 33315 J, and 800 g of flour 26496. Dough at 22 °C has (1472 + 1254 + 1189.8) × 22 = 86148 J, so
///   the water has 26337 to bring in 1254: 21.00 °C.
#[test]
fn a_levain_is_stirred_and_goes_in_as_warm_as_it_ripened() {
    let settings = set(WITH_LEVAIN, BAKERY, 1);
    let poured: Vec<String> = settings.iter().map(|setting| celsius(setting).to_fixed(2)).collect();
    assert_eq!(poured, ["33.15", "21.00"]);
    // Bread is out by 06:00: mixed for ten minutes from 05:50, and the levain set ten hours before.
    let minutes: Vec<i64> = settings.iter().map(|setting| setting.at.unwrap().minutes().into()).collect();
    assert_eq!(minutes, [5 * 60 + 50 - 600, 5 * 60 + 50]);
}

/// The levain is set at 19:50, half-way from 16 °C at 16:50 to 28 °C at 22:50: at 22 °C, as in a room that stands at that.
#[test]
fn seed_is_as_warm_as_the_room_at_that_hour() {
    let by_hour = BAKERY.replace("  stands at 22 °C", "  at 16:50 16 °C\n  at 22:50 28 °C");
    assert_eq!(celsius(&set(WITH_LEVAIN, &by_hour, 1)[0]), celsius(&set(WITH_LEVAIN, BAKERY, 1)[0]));
    let warmer = BAKERY.replace("  stands at 22 °C", "  at 16:50 18 °C\n  at 22:50 30 °C");
    assert!(celsius(&set(WITH_LEVAIN, &warmer, 1)[0]) < celsius(&set(WITH_LEVAIN, BAKERY, 1)[0]));
}

/// 200 g of flour are 139.5 ml and 200 g of water 200.36 ml. A liquid levain doubles: 679.72 ml are two tubs of 500 ml, or
/// three of 300 ml; one of a litre holds them alone.
#[test]
fn a_levain_has_room_to_double() {
    assert_eq!(set(WITH_LEVAIN, BAKERY, 1)[0].tubs, Some((TubId::new(1), 2)));
    let with_litre = format!("{BAKERY}\ntub large\n  volume 1 l\n");
    assert_eq!(set(WITH_LEVAIN, &with_litre, 1)[0].tubs, Some((TubId::new(2), 1)));
    // Of five loaves there are 3398.6 ml: seven of 500 ml, and four of a litre.
    assert_eq!(set(WITH_LEVAIN, BAKERY, 5)[0].tubs, Some((TubId::new(1), 7)));
    assert_eq!(set(WITH_LEVAIN, &with_litre, 5)[0].tubs, Some((TubId::new(2), 4)));
    assert_eq!(set(WITH_LEVAIN, BAKERY, 1)[1].tubs, None);
}

#[test]
fn without_a_timetable_nothing_has_an_hour_or_a_water_and_doughs_keep_their_order() {
    let settings = set_by(WITH_LEVAIN, BAKERY, 1, false);
    let stages: Vec<usize> = settings.iter().map(|setting| setting.id.stage).collect();
    assert_eq!(stages, [0, 1]);
    assert!(settings.iter().all(|setting| setting.at.is_none() && setting.water.is_none()));
    assert_eq!(settings[0].tubs, Some((TubId::new(1), 2)));
}

#[test]
fn what_the_cards_do_not_say_is_not_made_up() {
    for (said, unsaid) in
        [("  flour store 18 °C\n", ""), ("  warms 12 °C\n", ""), ("room bakehouse\n  stands at 22 °C\n", "")]
    {
        let cards = BAKERY.replace(said, unsaid);
        assert_ne!(cards, BAKERY);
        assert!(set(PLAIN, &cards, 1)[0].water.is_none(), "{said}");
    }
    assert!(set(&PLAIN.replace("  dough at 26 °C\n", ""), BAKERY, 1)[0].water.is_none());
}
