//! What is reported of an edit.

use levamen_balance::{Balancer, Changes, FigureKind, LiveBook};
use levamen_formula::NamedFigure;
use levamen_language::TextId;

const MOTHER: &str = "culture mother\n  rye flour  100 %\n  water  100 %\n";
const SOUR: &str = "
dough Sour loaf

overall
  rye flour           20 %
  strong white flour  80 %
  water               72 %
  salt                 2 %

stage sour, a rye sour
  takes       15 % of the flour
  rye flour  100 %
  water       80 %
  from mother 20 %
";
const OLD: &str = "
dough Old loaf

final dough
  strong white flour  100 %
  water                65 %
  salt                  2 %
  from Sour loaf       10 % of its flour

make 10 pieces of 900 g
";

const EVERYTHING: &str = "
dough Seven seas

overall
  strong white flour  80 %
  rye flour           20 %
  water               75 %
  salt                 2 %
  oat bran             5 %

stage night, a levain
  takes       18 % of the flour
  rye flour  100 %
  water       90 %
  from mother 20 %, given back

stage sea, a scald
  takes       2 % of the flour
  strong white flour  100 %
  oat bran    250 %
  water       300 %
  loses       8 % of its water

stage tub, a poolish
  takes       20 % of the flour
  strong white flour  100 %
  water       100 %
  left over   5 %
";

fn bakery() -> LiveBook {
    let live = LiveBook::read(&[&[(TextId(0), MOTHER), (TextId(1), SOUR), (TextId(2), OLD)]]);
    assert_eq!(live.problems().len(), 0, "{:?}", live.problems().first());
    live
}

/// What changed of a dough, a line each.
fn told(live: &LiveBook, changes: &Changes) -> Vec<String> {
    let percent = |share: &Option<levamen_quantity::Share>| {
        share.as_ref().map_or("none".to_owned(), |share| share.percent().to_fixed(2))
    };
    let mut told = Vec::new();
    for dough in &changes.doughs {
        let name = &live.book().entry(dough.id).unwrap().name;
        let figures = dough.figures.iter();
        told.extend(figures.map(|changed| {
            format!("{name}: {} {} -> {}", changed.figure, percent(&changed.before), percent(&changed.after))
        }));
        let marks = [("size", dough.size), ("words", dough.words), ("problems", dough.problems)];
        told.extend(marks.iter().filter(|(_, is)| *is).map(|(mark, _)| format!("{name}: {mark}")));
    }
    told
}

fn edit(live: &mut LiveBook, text: u32, words: &str, other: &str) -> Vec<String> {
    let old = live.open_book().text(TextId(text)).unwrap().clone();
    assert!(old.contains(words), "{words}");
    let changes = live.edit(TextId(text), old.replacen(words, other, 1)).unwrap();
    told(live, &changes)
}

/// Those of the lines that are about one dough.
fn about<'l>(told: &'l [String], dough: &str) -> Vec<&'l str> {
    told.iter().filter_map(|line| line.strip_prefix(dough)?.strip_prefix(": ")).collect()
}

#[test]
fn a_share_of_salt_changes_the_dough_and_the_one_that_takes_from_it() {
    let mut live = bakery();
    let told = edit(&mut live, 1, "salt                 2 %", "salt 3 %");
    assert_eq!(
        about(&told, "Sour loaf"),
        [
            "dough 174.00 -> 175.00",
            // All salt, and salt as an ingredient.
            "salt 2.00 -> 3.00",
            "salt 2.00 -> 3.00",
            "salt in final dough 2.00 -> 3.00",
            "made of final dough 174.00 -> 175.00",
            "weight of final dough 174.00 -> 175.00",
        ]
    );
    // 10 g of a piece for 100 g of flour hold 3 / 175 of salt and 100 / 175 of flour:
    // 100 (2 + 30 / 175) / (100 + 1000 / 175) = 2.0541.
    let old = about(&told, "Old loaf");
    assert!(old.contains(&"salt 2.00 -> 2.05") && old.contains(&"size"), "{old:?}");
    assert_eq!(about(&told, "mother"), [""; 0]);
}

#[test]
fn a_source_that_comes_to_the_same_leaves_its_takers_alone() {
    let mut live = bakery();
    // The same feeding in other words.
    let told = edit(&mut live, 0, "rye flour  100 %\n  water  100 %", "rye flour  500 g\n  water  500 g");
    assert_eq!(told, ["mother: size"]);
    assert_eq!(edit(&mut live, 0, "culture", "# fed at noon\nculture"), [""; 0]);
}

#[test]
fn a_size_changes_no_share() {
    assert_eq!(edit(&mut bakery(), 2, "10 pieces", "12 pieces"), ["Old loaf: size"]);
}

#[test]
fn a_line_that_comes_has_no_figure_before() {
    let told = edit(&mut bakery(), 2, "  salt", "  oat bran  5 %\n  salt");
    let told = about(&told, "Old loaf");
    assert!(told.contains(&"oat bran none -> 4.73") && told.contains(&"words"), "{told:?}");
    assert!(told.contains(&"oat bran in final dough none -> 4.73"), "{told:?}");
    assert!(!told.iter().any(|line| line.starts_with("salt in")), "{told:?}");
}

#[test]
fn a_dough_in_trouble_loses_its_figures_and_those_that_wait_for_it_too() {
    let mut live = bakery();
    // More water in the sour than in the dough.
    let told = edit(&mut live, 1, "water       80 %", "water  800 %");
    for dough in ["Sour loaf", "Old loaf"] {
        let told = about(&told, dough);
        assert!(told.contains(&"problems"), "{told:?}");
        assert!(
            told.iter().any(|line| line.starts_with("hydration") && line.ends_with("-> none")),
            "{told:?}"
        );
    }
    let codes: Vec<&str> = live.problems().iter().map(|problem| problem.code).collect();
    assert_eq!(codes, ["more-than-there-is", "source-in-trouble"]);
    // Another word for the same problem is no news for a dough that waits.
    assert_eq!(edit(&mut live, 1, "800 %", "900 %"), ["Sour loaf: problems"]);

    let told = edit(&mut live, 1, "900 %", "80 %");
    assert!(about(&told, "Old loaf").contains(&"hydration none -> 65.38"), "{told:?}");
    assert_eq!(live.problems().len(), 0);
}

#[test]
fn what_an_ingredient_holds_reaches_doughs_that_get_it_with_a_seed() {
    let mut live = bakery();
    let malt = "ingredient barley malt\n  holds 5 % water\n";
    assert!(live.insert(0, 0, TextId(7), malt).unwrap().doughs.is_empty());
    let fed = edit(&mut live, 0, "water  100 %", "water  100 %\n  barley malt  10 %");
    assert!(about(&fed, "Old loaf").iter().any(|line| line.starts_with("barley malt none")), "{fed:?}");
    // The culture is made of the same as before, but there is more water in it.
    let told = edit(&mut live, 7, "5 %", "50 %");
    for dough in ["mother", "Sour loaf", "Old loaf"] {
        let [line] = about(&told, dough)[..] else { panic!("{told:?}") };
        assert!(line.starts_with("effective hydration"), "{line}");
    }
}

#[test]
fn every_figure_can_be_asked_for_by_the_name_that_is_told() {
    let mut live = bakery();
    let changes = live.insert(0, 9, TextId(9), EVERYTHING).unwrap();
    let [dough] = &changes.doughs[..] else { panic!("{changes:?}") };
    let formula = live.book().entry(dough.id).unwrap().formula.as_ref().unwrap();
    let mut balancer = Balancer::new(live.book());
    let mut asked = 0;
    for change in &dough.figures {
        let name = change.figure.to_string();
        let share = change.after.as_ref().unwrap();
        // All salt goes before salt as an ingredient; where there is none of something, it has no name.
        let is_askable = match change.figure.what {
            FigureKind::Flour | FigureKind::Water => false,
            FigureKind::Weighed => name != "salt",
            _ => !share.fraction().is_zero(),
        };
        if !is_askable {
            continue;
        }
        let figure = NamedFigure::read(&name, formula, live.book().pantry()).unwrap();
        let why = balancer.why(dough.id, figure).unwrap();
        assert_eq!(why.root.value.figure(), share.fraction(), "{name}");
        asked += 1;
    }
    assert!(asked > 40, "{asked}");
}

/// What goes in at two times is edited as all else is: the balance is that of the book read again, words included.
#[test]
fn water_in_two_goes_takes_edits() {
    let text = |share: &str, when: &str| {
        format!(
            "dough Wet\n\noverall\n  white flour  100 %\n  water  80 %\n  salt  2 %\n\nfinal dough\n  water  rest, at first\n  \
             water  {share} % of the flour, {when}\n"
        )
    };
    let mut live = LiveBook::read(&[&[(TextId(0), text("10", "last").as_str())]]);
    for (share, when) in [("10", "after the autolyse"), ("15", "after the autolyse"), ("15", "last")] {
        let edited = text(share, when);
        live.edit(TextId(0), edited.clone()).unwrap();
        let id = live.book().find("wet").unwrap();
        let (anew, _) = levamen_formula::Book::read(&[&[(TextId(0), edited.as_str())]]);
        let again = Balancer::new(&anew).balance(anew.find("wet").unwrap()).cloned().unwrap();
        assert_eq!(*live.balance(id).unwrap(), again, "{share} {when}");
        let last = again.stages.last().unwrap().lines.iter().rfind(|line| line.when.is_some()).unwrap();
        assert_eq!((last.share.percent().to_fixed(0).as_str(), last.when.as_deref()), (share, Some(when)));
    }
}
