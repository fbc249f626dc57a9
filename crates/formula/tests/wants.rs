//! Figures that a dough must have: how they are read, and what other lines say of the same figure makes way.

#![expect(clippy::unwrap_used, reason = "a test says where it fails")]

use levamen_formula::{Book, Formula, NamedFigure, Pantry, Relation, ResolvedBasis, Want, WantValue};
use levamen_language::{Problem, Span, TextId, read_fact};
use levamen_quantity::{Exact, Mass, Share};

const SOUR: &str = "
culture mother
  rye flour  100 %
  water      100 %

dough Sour

overall
  white flour   80 %
  rye flour     20 %
  water         70 %
  salt           2 %
  walnuts       10 %

stage levain, a levain
  takes            18 % of the flour
  rye flour       100 %
  water            90 %
  from mother      20 %
  left over         3 %

final dough
  water  600 g, first
  water  100 g, later

make 24 pieces of 920 g, losing 2 %
";

fn book(text: &str) -> Book {
    let (book, problems) = Book::read(&[&[(TextId(0), text)]]);
    assert_eq!(problems, []);
    book
}

fn sour(book: &Book) -> Formula {
    book.formula(book.find("sour").unwrap()).unwrap().clone()
}

/// What a line wants of the dough.
fn want(words: &str, formula: &Formula, pantry: &Pantry) -> Result<Want, Box<Problem>> {
    let fact = read_fact(TextId(1), words).unwrap();
    Ok(Want::read(&fact, TextId(1), Span::new(0, 1), formula, pantry)?.unwrap())
}

/// Everything that the dough says, each in words.
fn said(formula: &Formula) -> Vec<String> {
    let mut said = Vec::new();
    let overall = formula.overall.iter().flat_map(|overall| &overall.lines);
    said.extend(overall.filter(|line| line.amount.is_some()).map(|line| format!("{} of all", line.name)));
    for stage in &formula.stages {
        let lines = stage.lines.iter().filter(|line| line.amount.is_some());
        said.extend(lines.map(|line| format!("{} in {}", line.full_name(), stage.name)));
        said.extend(stage.takes.iter().map(|_| format!("takes {}", stage.name)));
        said.extend(stage.left_over.iter().map(|_| format!("left over {}", stage.name)));
    }
    said.extend(formula.make.iter().map(|_| "make".to_owned()));
    said
}

/// What the dough does not say any more where a figure is released; `None` where it said nothing of it.
fn released(figure: &str) -> Option<Vec<String>> {
    let book = book(SOUR);
    let mut formula = sour(&book);
    let before = said(&formula);
    let asked = NamedFigure::read(figure, &formula, book.pantry()).unwrap();
    let found = formula.release(asked, book.pantry());
    let after = said(&formula);
    assert!(after.iter().all(|words| before.contains(words)), "nothing is said that was not");
    found.then(|| before.into_iter().filter(|words| !after.contains(words)).collect())
}

#[test]
fn what_is_said_of_a_figure_makes_way_and_nothing_else_does() {
    let some = |words: &[&str]| Some(words.iter().map(|word| (*word).to_owned()).collect::<Vec<_>>());
    for (figure, gone) in [
        ("hydration", some(&["water of all"])),
        ("water", some(&["water of all"])),
        ("dough yield", some(&["water of all"])),
        ("effective hydration", some(&["water of all"])),
        ("salt", some(&["salt of all"])),
        ("walnuts", some(&["walnuts of all"])),
        ("dough", some(&["make"])),
        ("to divide", some(&["make"])),
        ("flour", some(&["make"])),
        ("levain", some(&["takes levain"])),
        ("made of levain", some(&["takes levain"])),
        ("flour of levain", some(&["takes levain"])),
        ("pre-fermented flour", some(&["takes levain"])),
        ("hydration of levain", some(&["water in levain"])),
        ("water of levain", some(&["water in levain"])),
        ("seed of levain", some(&["mother in levain"])),
        ("flour in levain", some(&["rye flour in levain"])),
        ("rye flour in levain", some(&["rye flour in levain"])),
        ("left over of levain", some(&["left over levain"])),
        // Of what goes in at two times the first makes way; a line of its own is that line.
        ("water in final dough", some(&["water, first in final dough"])),
        ("water, later in final dough", some(&["water, later in final dough"])),
        ("salt in final dough", None),
        ("levain in final dough", None),
    ] {
        assert_eq!(released(figure), gone, "{figure}");
    }
}

#[test]
fn of_a_dough_that_is_written_from_its_stages_the_final_dough_makes_way() {
    let text = "dough Sour\n\nfinal dough\n  white flour  1 kg\n  water  650 g\n  salt  20 g\n";
    let book = book(text);
    for (figure, line) in [("hydration", 1), ("salt", 2), ("white flour", 0)] {
        let mut formula = sour(&book);
        let asked = NamedFigure::read(figure, &formula, book.pantry()).unwrap();
        assert!(formula.release(asked, book.pantry()));
        let open: Vec<usize> = (0..3).filter(|at| formula.stages[0].lines[*at].amount.is_none()).collect();
        assert_eq!(open, [line], "{figure}");
        assert!(!formula.release(asked, book.pantry()), "it is said no more");
    }
}

#[test]
fn a_bound_leaves_what_is_said_and_an_exact_want_does_not() {
    let book = book(SOUR);
    let before = sour(&book);
    let mut formula = before.clone();
    formula.want(want("hydration at most 80 %", &formula, book.pantry()).unwrap(), book.pantry());
    assert_eq!((said(&formula), formula.wants.len()), (said(&before), 1));
    formula.want(want("water at least 10 kg", &formula, book.pantry()).unwrap(), book.pantry());
    assert_eq!(
        formula.wants.iter().map(|want| want.relation).collect::<Vec<_>>(),
        [Relation::AtMost, Relation::AtLeast]
    );
    // It takes the place of what was wanted of the same figure before, and of that alone.
    formula.want(want("hydration 75 %", &formula, book.pantry()).unwrap(), book.pantry());
    let words: Vec<&str> = formula.wants.iter().map(|want| want.words.as_ref()).collect();
    assert_eq!(words, ["water at least 10 kg", "hydration 75 %"]);
    assert!(!said(&formula).contains(&"water of all".to_owned()));
    assert!(!formula.is_resized);
    formula.want(want("dough 30 kg", &formula, book.pantry()).unwrap(), book.pantry());
    assert!(formula.is_resized && formula.make.is_none());
}

#[test]
fn a_want_is_a_weight_or_a_share_of_something() {
    let book = book(SOUR);
    let formula = sour(&book);
    let limit = |words: &str| want(words, &formula, book.pantry()).unwrap().limit;
    let grams = |figure: i64| WantValue::Mass(Mass::from_grams(Exact::from(figure)));
    let share = |figure: i64, basis| WantValue::Share(Share::from_percent(Exact::from(figure)), basis);
    let rye = book.pantry().find("rye flour").unwrap();
    assert_eq!(limit("hydration 75 %"), share(75, None));
    assert_eq!(limit("levain 8 kg"), grams(8000));
    assert_eq!(limit("levain 30 % of the flour"), share(30, Some(ResolvedBasis::Flour)));
    assert_eq!(limit("levain 30 % of the dough"), share(30, Some(ResolvedBasis::Dough)));
    assert_eq!(limit("seed of levain 20 % of its flour"), share(20, Some(ResolvedBasis::OwnFlour)));
    assert_eq!(limit("seed of levain 20 % of its rye flour"), share(20, Some(ResolvedBasis::OwnCell(rye))));
    assert_eq!(limit("walnuts 50 % of the rye flour"), share(50, Some(ResolvedBasis::Row(rye))));
    assert_eq!(limit("water in levain 900 g"), grams(900));
    let id = book.pantry().find("walnuts").unwrap();
    assert_eq!(want("walnuts at least 5 %", &formula, book.pantry()).unwrap().figure, NamedFigure::Row(id));
}

#[test]
fn what_cannot_be_wanted_is_refused_with_its_reason() {
    let book = book(SOUR);
    let formula = sour(&book);
    let refused: Vec<String> = [
        "dough yield 700 g",
        "levain 30 %",
        "levain in final dough 30 %",
        "walnuts rest",
        "walnuts 1 l",
        "levain 1 l",
        "salt 30 % of its flour",
        "walnuts 30 % of the walnutz",
        "walnutz 30 %",
        "steam of levain 1 kg",
    ]
    .iter()
    .map(|words| {
        let problem = want(words, &formula, book.pantry()).unwrap_err();
        let help = problem.help.iter().map(|help| format!("help: {help}"));
        let lines: Vec<String> = [(*words).to_owned(), format!("{}: {}", problem.code, problem.message)]
            .into_iter()
            .chain(help)
            .collect();
        lines.join("\n  ")
    })
    .collect();
    insta::assert_snapshot!(refused.join("\n"));
}

#[test]
fn a_want_in_the_text_is_a_want_of_the_formula() {
    let book = book(&SOUR.replace("\nmake", "\nwant\n  hydration  75 %\n  salt at most  2.5 %\n\nmake"));
    let formula = sour(&book);
    let wants: Vec<(NamedFigure, Relation)> =
        formula.wants.iter().map(|want| (want.figure, want.relation)).collect();
    assert_eq!(
        wants,
        [(NamedFigure::Hydration(None), Relation::Exactly), (NamedFigure::Salt, Relation::AtMost)]
    );
    let said = said(&formula);
    assert!(!said.contains(&"water of all".to_owned()) && said.contains(&"salt of all".to_owned()));
}
