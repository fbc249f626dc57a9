//! The final dough's yeast is what its rule says, and the whole is what follows; the seed that is chosen.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use levamen_convert::{ConversionRequest, ConversionTarget, convert};
use levamen_language::TextId;
use levamen_quantity::{Exact, Share};
use proptest::prelude::*;

fn percent(figure: &str) -> Share {
    Share::from_percent(Exact::from_literal(figure).expect("a figure"))
}

/// The yeast of the final dough and of the whole, in percent of all flour, as they are written out.
fn counted(yeast: &str, share: &str, dose: &str) -> (String, String) {
    let loaf = format!("dough Loaf\n\noverall\n  flour  100 %\n  water  65 %\n  fresh yeast  {yeast} %\n");
    let request = ConversionRequest {
        share: Some(percent(share)),
        dose: Some(percent(dose)),
        ..ConversionRequest::new(ConversionTarget::Poolish)
    };
    let done = convert(&[&[(TextId(0), &loaf)]], "Loaf", &request).expect("a poolish");
    let count = done.yeast.expect("yeast");
    let words = |share: &Share| share.percent().to_decimal_string();
    (words(&count.final_dough), words(&count.whole))
}

#[test]
fn what_the_rule_gives_is_what_the_final_dough_gets() {
    // 70 % of 0.8 % is 0.56 %; 30 % of the flour with 0.26 % is 0.078 % of all flour.
    assert_eq!(counted("0.8", "30", "0.26"), ("0.56".to_owned(), "0.638".to_owned()));
    assert_eq!(counted("0.75", "20", "0.175"), ("0.6".to_owned(), "0.635".to_owned()));
    // 67 % of 1.1 % is 0.737 %: rounded once, to two digits.
    assert_eq!(counted("1.1", "33", "0.2"), ("0.74".to_owned(), "0.806".to_owned()));
}

proptest! {
    #[test]
    fn the_whole_is_the_sum_of_its_parts(yeast in 30..300_i64, share in 5..60_i64, dose in 3..90_i64) {
        let hundredths = |figure: i64| Exact::ratio(figure, 100).expect("a figure");
        let [yeast, dose] = [yeast, dose].map(hundredths);
        let (last, whole) =
            counted(&yeast.to_decimal_string(), &share.to_string(), &dose.to_decimal_string());
        let [last, whole] = [last, whole].map(|words| Exact::from_literal(&words).expect("a figure"));
        let part = hundredths(share);
        prop_assert_eq!(&whole - &last, &part * &dose);
        // Half a unit of the second digit.
        let rule = &yeast * &(&Exact::ONE - &part);
        let off = (&last - &rule).abs();
        let unit = if rule < Exact::from(1) { hundredths(1) } else { &hundredths(1) * &Exact::from(10) };
        prop_assert!(&off + &off <= unit, "{last:?} for {rule:?}");
    }
}

const MOTHERS: &str = "
culture stiff wheat
  flour  100 %
  water  60 %

culture slack wheat
  flour  100 %
  water  125 %

culture rye
  rye flour  100 %
  water  100 %

culture spelt
  spelt flour  100 %
  water  100 %
";

/// Which culture is taken by a dough of some flours.
fn seeded(flours: &str, target: ConversionTarget, flour: &[&str], hydration: Option<&str>) -> String {
    let text = format!("dough Loaf\n\noverall\n{flours}  water  70 %\n{MOTHERS}");
    let request = ConversionRequest {
        flours: flour.iter().map(|name| (*name).to_owned()).collect(),
        share: Some(percent("8")),
        hydration: hydration.map(percent),
        ..ConversionRequest::new(target)
    };
    let done = convert(&[&[(TextId(0), &text)]], "Loaf", &request).expect("a levain");
    let from = done.text.lines().find_map(|line| line.trim().strip_prefix("from "));
    from.expect("a seed").split("  ").next().unwrap_or_default().to_owned()
}

#[test]
fn a_seed_is_chosen_by_its_flour_and_then_by_its_hydration() {
    let wheat = "  flour  90 %\n  rye flour  10 %\n";
    // No wheat mother is at 100 %: 125 % is nearer than 60 %, and the rye mother at 100 % is of another grain.
    assert_eq!(seeded(wheat, ConversionTarget::LiquidLevain, &[], None), "slack wheat");
    assert_eq!(seeded(wheat, ConversionTarget::LiquidLevain, &[], Some("70")), "stiff wheat");
    assert_eq!(seeded(wheat, ConversionTarget::StiffLevain, &[], None), "stiff wheat");
    assert_eq!(seeded(wheat, ConversionTarget::RyeSour, &[], None), "rye");
    assert_eq!(seeded(wheat, ConversionTarget::LiquidLevain, &["rye flour"], None), "rye");
    // It brings nothing that the dough has not: that goes before the hydration, and before the grain.
    assert_eq!(seeded("  rye flour  100 %\n", ConversionTarget::LiquidLevain, &[], None), "rye");
    assert_eq!(
        seeded("  rye flour  30 %\n  spelt flour  70 %\n", ConversionTarget::LiquidLevain, &[], None),
        "spelt"
    );
}
