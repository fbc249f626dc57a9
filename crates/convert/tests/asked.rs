//! What can be asked for, what is refused, and what of the baker's own lines stays.

use levamen_convert::{
    Conversion, ConversionRequest, ConversionTarget, RipeningTemperature, RipeningTime, convert,
};
use levamen_language::{Problem, TextId};
use levamen_quantity::{Exact, Share, TemperatureUnit, TimeUnit};

const BOOK: &str = "
culture rye mother
  rye flour  100 %
  water      100 %

culture chef
  flour  100 %
  water   60 %

dough Loaf

overall
  flour        90 %
  rye flour    10 %
  water        70 %
  salt          2 %
  fresh yeast   1 %
";

/// A dough with a poolish, a soaker of which some is left over, and figures that it must have.
const TWO: &str = "
dough Loaf with poolish

overall
  flour        100 %
  water         70 %
  salt           2 %
  fresh yeast  0.6 %

stage soaker, a soaker
  flour      100 g
  water      200 g
  left over   30 g

stage poolish
  takes        30 % of the flour
  flour       100 %
  water       100 %
  fresh yeast 0.2 %

want
  hydration               70 %
  water of poolish at most  5 kg
  fresh yeast at most       1 %

make 10 kg of flour
";

fn percent(figure: i64) -> Share {
    Share::from_percent(Exact::from(figure))
}

fn ask(book: &str, name: &str, request: &ConversionRequest) -> Result<Conversion, Vec<Problem>> {
    convert(&[&[(TextId(0), book)]], name, request)
}

/// The codes of what is refused; nothing where nothing is.
fn refused(request: &ConversionRequest) -> Vec<&'static str> {
    ask(BOOK, "loaf", request)
        .map_or_else(|problems| problems.iter().map(|problem| problem.code).collect(), |_| Vec::new())
}

/// What an option is called, how it is asked for, and the kinds that take it.
type AskedOption =
    (&'static str, fn(&mut ConversionRequest, &RipeningTime, &RipeningTemperature), Vec<ConversionTarget>);

/// By the table of `docs/convert.md`: a straight dough has no share, hours or warmth; seed, culture and giving back are of
/// levains and sours; hydration and flours of what is mixed, and not of old dough; yeast is measured into yeasted kinds.
#[test]
fn an_option_without_meaning_for_the_kind_is_refused() {
    use ConversionTarget as Kind;
    let all = Kind::ALL;
    let but = |out: &[Kind]| all.into_iter().filter(|kind| !out.contains(kind)).collect::<Vec<_>>();
    let seeded = vec![Kind::LiquidLevain, Kind::StiffLevain, Kind::RyeSour];
    let time = RipeningTime { figure: Exact::from(12), unit: TimeUnit::Hour };
    let warmth = RipeningTemperature { figure: Exact::from(22), unit: TemperatureUnit::Celsius };
    let options: Vec<AskedOption> = vec![
        ("share", |ask, _, _| ask.share = Some(percent(5)), but(&[Kind::Straight])),
        ("seed", |ask, _, _| ask.seed = Some(percent(25)), seeded.clone()),
        ("given back", |ask, _, _| ask.given_back = true, seeded.clone()),
        ("culture", |ask, _, _| ask.culture = Some("Rye  Mother".to_owned()), seeded),
        ("hydration", |ask, _, _| ask.hydration = Some(percent(90)), but(&[Kind::Straight, Kind::OldDough])),
        (
            "flour",
            |ask, _, _| ask.flours = vec!["rye flour".to_owned()],
            but(&[Kind::Straight, Kind::OldDough]),
        ),
        ("dose", |ask, _, _| ask.dose = Some(percent(1)), vec![Kind::Poolish, Kind::Biga, Kind::Sponge]),
        ("hours", |ask, time, _| ask.time = Some(time.clone()), but(&[Kind::Straight])),
        ("at", |ask, _, warmth| ask.warmth = Some(warmth.clone()), but(&[Kind::Straight])),
    ];
    // A straight dough is no way from a straight one, so the option is asked of one with a poolish.
    let poolish = ask(
        BOOK,
        "Loaf",
        &ConversionRequest { share: Some(percent(5)), ..ConversionRequest::new(Kind::Poolish) },
    );
    let book = format!("{BOOK}\n{}", poolish.expect("a poolish").text);
    for (name, set, takes) in &options {
        for kind in all {
            let mut request = ConversionRequest { share: Some(percent(5)), ..ConversionRequest::new(kind) };
            if kind == Kind::Straight {
                request.share = None;
            }
            set(&mut request, &time, &warmth);
            let codes: Vec<&str> = match ask(&book, "Loaf with poolish", &request) {
                Ok(_) => Vec::new(),
                Err(problems) => problems.iter().map(|problem| problem.code).collect(),
            };
            let is_refused = codes == ["not-for-this"];
            assert_eq!(is_refused, !takes.contains(&kind), "{name} of a {}: {codes:?}", kind.name());
        }
    }
}

#[test]
fn what_the_book_has_not_is_refused() {
    let poolish = || ConversionRequest {
        share: Some(percent(30)),
        ..ConversionRequest::new(ConversionTarget::Poolish)
    };
    let levain = || ConversionRequest {
        share: Some(percent(10)),
        ..ConversionRequest::new(ConversionTarget::LiquidLevain)
    };
    let word = |word: &str| Some(word.to_owned());
    for (request, code) in [
        (ConversionRequest::new(ConversionTarget::Straight), "straight-already"),
        (ConversionRequest { share: Some(percent(0)), ..poolish() }, "share-range"),
        (ConversionRequest { share: Some(percent(101)), ..poolish() }, "share-range"),
        (ConversionRequest { share: Some(percent(71)), ..poolish() }, "more-than-there-is"),
        (ConversionRequest { flours: vec!["spelt".to_owned()], ..poolish() }, "unknown-flour"),
        (ConversionRequest { yeast: word("salt"), ..poolish() }, "not-a-yeast"),
        (ConversionRequest { yeast: word("nothing"), ..poolish() }, "not-a-yeast"),
        (ConversionRequest { stage: word("biga"), ..poolish() }, "no-such-stage"),
        (ConversionRequest { name: word("Chef"), ..poolish() }, "name-taken"),
        (ConversionRequest { culture: word("cheff"), ..levain() }, "unknown-culture"),
        (ConversionRequest { culture: word("Loaf"), ..levain() }, "unknown-culture"),
        (
            ConversionRequest { hydration: Some(percent(5)), culture: word("rye mother"), ..levain() },
            "wet-seed",
        ),
    ] {
        assert_eq!(refused(&request), [code], "{request:?}");
    }
    assert_eq!(refused(&ConversionRequest { share: Some(percent(70)), ..poolish() }), [""; 0]);
    let codes = |name| ask(BOOK, name, &poolish()).map_err(|problems| problems[0].code).err();
    assert_eq!([codes("Bun"), codes("chef")], [Some("no-such-dough"), Some("not-a-dough")]);
}

/// Of 70 % of water at 100 % of its flour, 70 % of the flour is the most; 80 % could take 70 of water, 87.5 %.
#[test]
fn the_largest_share_is_said() {
    let asked =
        ConversionRequest { share: Some(percent(80)), ..ConversionRequest::new(ConversionTarget::Poolish) };
    let problems = ask(BOOK, "Loaf", &asked).expect_err("too much");
    assert!(problems[0].help.iter().any(|help| help.to_string().ends_with(": share 70%")), "{problems:?}");
    assert!(
        problems[0].help.iter().any(|help| help.to_string().contains("a hydration of 87.5 % at most")),
        "70 of 80: {problems:?}"
    );
}

#[test]
fn the_name_says_what_is_new_and_what_is_gone() {
    let to = |target, name: &str, asked: Option<&str>| {
        let request = ConversionRequest { name: asked.map(str::to_owned), ..ConversionRequest::new(target) };
        ask(TWO, name, &request).expect("a conversion").after.dough
    };
    assert_eq!(to(ConversionTarget::Biga, "loaf with poolish", None), "Loaf with biga");
    assert_eq!(to(ConversionTarget::Straight, "loaf with poolish", None), "Loaf without poolish");
    assert_eq!(to(ConversionTarget::Straight, "loaf with poolish", Some("Plain  loaf")), "Plain loaf");
}

/// What is wanted of the poolish and of the yeast goes with them; what is wanted of the whole stays.
#[test]
fn wants_of_what_is_gone_are_gone_and_others_stay() {
    let done = ask(TWO, "Loaf with poolish", &ConversionRequest::new(ConversionTarget::Straight))
        .expect("a straight dough");
    let text = done.text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("want hydration 70 % make"), "{}", done.text);
    assert_eq!(done.after.hydration, percent(70));
}

/// The soaker stays as it is, and the 30 g that are left over of it.
#[test]
fn a_stage_that_stays_keeps_what_is_left_over_of_it() {
    for target in [ConversionTarget::Straight, ConversionTarget::Biga] {
        let done = ask(TWO, "Loaf with poolish", &ConversionRequest::new(target)).expect("a conversion");
        let stage = |balance: &levamen_balance::Balance| {
            let stage =
                balance.stages.iter().find(|stage| stage.name == "soaker").cloned().expect("the soaker");
            (stage.made, stage.left_over, stage.taken)
        };
        assert_eq!(stage(&done.after), stage(&done.before));
        assert_eq!(
            stage(&done.before).1.fraction(),
            &Exact::ratio(3, 1000).expect("a figure"),
            "30 g of 10 kg"
        );
    }
}

/// Weights of 1 kg of flour and a batch of 3 kg: all is written three times as large, and so is what is left over.
#[test]
fn what_is_left_over_grows_with_the_weights_beside_it() {
    let book = "dough Loaf\n\nstage soaker, a soaker\n  oat flakes  50 g\n  water  100 g\n  left over  10 g\n\n\
                stage poolish\n  flour  300 g\n  water  300 g\n  fresh yeast  1 g\n\n\
                final dough\n  flour  700 g\n  water  350 g\n  fresh yeast  7 g\n  poolish  rest\n  soaker  rest\n\n\
                make 3 kg of flour\n";
    let done =
        ask(book, "Loaf", &ConversionRequest::new(ConversionTarget::Straight)).expect("a straight dough");
    let left = |balance: &levamen_balance::Balance| balance.stages[0].left_over.fraction().clone();
    assert_eq!(left(&done.before), Exact::ratio(1, 100).expect("a figure"));
    assert_eq!(left(&done.after), left(&done.before), "{}", done.text);
}

/// 300 and 700 g of flour, 300 and 350 of water: the whole is written as percentages of 1000 g, or in grams beside a stage that
/// stays, between the dough's name and what stood next, with the comment above that.
#[test]
fn a_dough_that_was_written_from_its_stages_gets_an_overall_formula() {
    let poolish = "stage poolish\n  flour  300 g\n  water  300 g\n  fresh yeast  1 g\n\n";
    let soaker = "# Soak it over night.\nstage soaker, a soaker\n  oat flakes  50 g\n  water  100 g\n\n";
    let last =
        "final dough\n  flour  700 g\n  water  350 g\n  salt  20 g\n  fresh yeast  7 g\n  poolish  rest\n";
    let straight = ConversionRequest::new(ConversionTarget::Straight);
    let whole = ask(&format!("# Our daily one.\ndough Loaf\n\n{poolish}{last}"), "Loaf", &straight)
        .expect("a straight dough");
    // Each word stands behind the one before it.
    let order = |text: &str, words: &[&str]| {
        let rest = words.iter().try_fold(text, |rest, word| rest.split_once(word).map(|(_, after)| after));
        assert!(rest.is_some(), "{text}");
    };
    order(
        &whole.text,
        &[
            "# Our daily one.",
            "dough Loaf without poolish",
            "overall",
            "flour",
            "100 %",
            "water",
            "65 %",
            "salt",
            "2 %",
        ],
    );
    let both = ask(
        &format!("# Our daily one.\ndough Loaf\n\n{soaker}{poolish}{last}  soaker  rest\n"),
        "Loaf",
        &straight,
    );
    let both = both.expect("a straight dough");
    let words = [
        "# Our daily one.",
        "dough Loaf without poolish",
        "overall",
        "flour",
        "1000 g",
        "# Soak it",
        "stage soaker",
        "50 g",
        "final dough",
    ];
    order(&both.text, &words);
    assert_eq!(both.after.hydration, percent(75));
}

/// As written by hand: 30 % of the flour at 12 h and 20 °C, all of it asked for, so nothing is as is usual.
#[test]
fn where_all_is_asked_for_nothing_is_said_to_be_usual() {
    let request = ConversionRequest {
        share: Some(percent(30)),
        hydration: Some(percent(100)),
        time: Some(RipeningTime { figure: Exact::from(12), unit: TimeUnit::Hour }),
        warmth: Some(RipeningTemperature { figure: Exact::from(20), unit: TemperatureUnit::Celsius }),
        ..ConversionRequest::new(ConversionTarget::Poolish)
    };
    let usual = |request: &ConversionRequest| {
        let done = ask(BOOK, "Loaf", request).expect("a poolish");
        assert!(done.remarks.iter().any(|remark| remark.contains("the first batch is a trial")));
        let mut usual = done.remarks.into_iter().filter(|remark| remark.starts_with("as is usual"));
        usual.next().unwrap_or_default()
    };
    assert_eq!(usual(&request), "");
    let said = usual(&ConversionRequest { time: None, ..request.clone() });
    assert!(said.starts_with("as is usual for a poolish: ripens 12 h at 20 °C"), "{said}");
    let said = usual(&ConversionRequest { share: None, ..request });
    assert!(said.starts_with("as is usual for a poolish: 30 % of the flour;"), "{said}");
}
