//! Every dough of the demo book to every target.

use levamen_convert::{Request, Target, convert};
use levamen_language::TextId;
#[test]
fn all() {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../formulas");
    let mut files: Vec<_> = std::fs::read_dir(root).unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    let texts: Vec<String> = files.iter().map(|f| std::fs::read_to_string(f).unwrap()).collect();
    let layer: Vec<(TextId, &str)> = (0..).map(TextId).zip(texts.iter().map(String::as_str)).collect();
    let only = std::env::var("ONLY").unwrap_or_default();
    let to = std::env::var("TO").unwrap_or_default();
    for text in &texts {
        for name in text.lines().filter_map(|line| line.strip_prefix("dough ")) {
            if !name.contains(&only) {
                continue;
            }
            for target in Target::ALL {
                if !target.name().contains(&to) {
                    continue;
                }
                let request = Request {
                    stage: (name == "Two tides").then(|| "poolish".into()),
                    ..Request::new(target)
                };
                match convert(&[&layer], name, &request) {
                    Ok(done) => {
                        println!("== {name} -> {}: ok", target.name());
                        if !only.is_empty() {
                            println!("{}{:#?}\n{:?}", done.text, done.remarks, done.yeast)
                        }
                    }
                    Err(problems) => {
                        for p in problems {
                            println!(
                                "== {name} -> {}: {} {}\n   {:?} {:?}",
                                target.name(),
                                p.code,
                                p.message,
                                p.notes,
                                p.help
                            )
                        }
                    }
                }
            }
        }
    }
}
