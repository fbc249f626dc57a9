//! Every dough of the demo book into every kind: each works, or says why and what the largest share is.

#![expect(clippy::expect_used, reason = "a test says where it fails")]

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use insta::assert_snapshot;
use levamen_balance::Balance;
use levamen_convert::{Conversion, ConversionRequest, ConversionTarget, convert};
use levamen_formula::Book;
use levamen_language::{TextId, tidy};

/// The texts of the demo book.
fn texts() -> Vec<String> {
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../formulas"));
    let mut files: Vec<_> =
        fs::read_dir(folder).expect("the demo book").map(|file| file.expect("a file").path()).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "dough"));
    files.sort();
    files.iter().map(|file| fs::read_to_string(file).expect("a text")).collect()
}

/// The names of its doughs, each with the pre-ferment that is replaced where there are two.
fn doughs(texts: &[String]) -> impl Iterator<Item = (&str, Option<&str>)> {
    let names = texts.iter().flat_map(|text| text.lines()).filter_map(|line| line.strip_prefix("dough "));
    names.map(|name| (name, matches!(name, "Two tides" | "Slipway focaccia").then_some(()))).map(
        |(name, is_double)| {
            (name, is_double.map(|()| if name == "Two tides" { "poolish" } else { "levain" }))
        },
    )
}

fn layer(texts: &[String]) -> Vec<(TextId, &str)> {
    (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect()
}

fn request(target: ConversionTarget, stage: Option<&str>) -> ConversionRequest {
    ConversionRequest { stage: stage.map(str::to_owned), ..ConversionRequest::new(target) }
}

/// The rows of the whole but yeast, in the order of their names.
fn rows(balance: &Balance) -> Vec<(String, String)> {
    let rows = balance.overall.iter().filter(|row| !row.share.fraction().is_zero());
    let (built_in, _) = Book::read::<&str>(&[]);
    let is_yeast = |name: &str| {
        let known = built_in.pantry().find(name).and_then(|id| built_in.pantry().get(id));
        known.is_some_and(|known| known.yeast.is_some())
    };
    let mut rows: Vec<_> = rows
        .filter(|row| !is_yeast(&row.name))
        .map(|row| (row.name.clone(), format!("{:?}", row.share.fraction())))
        .collect();
    rows.sort();
    rows
}

/// What must hold of every conversion.
fn assert_sound(done: &Conversion) {
    assert_eq!(rows(&done.before), rows(&done.after), "{}", done.text);
    assert_eq!(tidy(TextId(0), &done.text).as_deref(), Ok(done.text.as_str()));
    assert_eq!(done.before.hydration, done.after.hydration);
}

#[test]
fn every_dough_into_every_kind() {
    let texts = texts();
    let mut account = String::new();
    for (name, stage) in doughs(&texts) {
        let _ = writeln!(account, "{name}");
        for target in ConversionTarget::ALL {
            let words = match convert(&[&layer(&texts)], name, &request(target, stage)) {
                Ok(done) => {
                    assert_sound(&done);
                    let yeast = done.yeast.map_or("no yeast".to_owned(), |count| {
                        format!("{} % {}", count.whole.percent().to_decimal_string(), count.name)
                    });
                    format!("{} % of the flour, {yeast}", done.share.percent().to_decimal_string())
                }
                Err(problems) => {
                    let told = problems.iter().map(|problem| {
                        let largest =
                            problem.help.iter().find(|help| help.to_string().contains("largest share"));
                        let largest = largest.map(|largest| format!("; {largest}")).unwrap_or_default();
                        format!("{}: {}{largest}", problem.code, problem.message)
                    });
                    told.collect::<Vec<_>>().join("; ")
                }
            };
            let _ = writeln!(account, "  {}: {words}", target.name());
        }
    }
    assert_snapshot!(account);
}

/// From each kind on to a straight dough, and to the first kind again.
#[test]
fn on_from_what_was_converted() {
    let texts = texts();
    let mut count = 0;
    for (name, stage) in doughs(&texts) {
        for target in ConversionTarget::ALL {
            let Ok(there) = convert(&[&layer(&texts)], name, &request(target, stage)) else { continue };
            let own = [(TextId(1000), there.text.as_str())];
            for back in [ConversionTarget::Straight, ConversionTarget::Biga, ConversionTarget::OldDough] {
                let stage = stage.filter(|_| target != ConversionTarget::Straight).map(|_| target.name());
                let Ok(back) = convert(&[&layer(&texts), &own], &there.after.dough, &request(back, stage))
                else {
                    continue;
                };
                assert_sound(&back);
                assert_eq!(rows(&there.before), rows(&back.after));
                count += 1;
            }
        }
    }
    assert!(count > 200, "{count} conversions");
}

/// The largest share that is told fits, and a little more does not.
#[test]
fn the_largest_share_is_the_largest() {
    let texts = texts();
    let mut count = 0;
    for (name, stage) in doughs(&texts) {
        for target in [
            ConversionTarget::Poolish,
            ConversionTarget::LiquidLevain,
            ConversionTarget::OldDough,
            ConversionTarget::RyeSour,
        ] {
            let asked = |percent: &str| {
                let amount = levamen_quantity::Exact::from_literal(percent).expect("a figure");
                let share = Some(levamen_quantity::Share::from_percent(amount));
                convert(&[&layer(&texts)], name, &ConversionRequest { share, ..request(target, stage) })
            };
            let Err(problems) = asked("100") else { continue };
            let largest = problems
                .iter()
                .flat_map(|problem| &problem.help)
                .find_map(|help| Some(help.to_string().split_once(": share ")?.1.to_owned()));
            let Some(largest) = largest else { continue };
            let largest = largest.trim_end_matches('%');
            assert_eq!(asked(largest).map(|_| ()), Ok(()), "{name} to {}: {largest} %", target.name());
            let figure = levamen_quantity::Exact::from_literal(largest).expect("a figure");
            let step = levamen_quantity::Exact::from_literal("0.001").expect("a figure");
            assert!(asked(&(&figure + &step).to_decimal_string()).is_err(), "{name} to {}", target.name());
            count += 1;
        }
    }
    assert!(count > 20, "{count} limits");
}
