//! Edits of an open book: what each affects, and what it leaves alone.

use levamen_formula::{Effect, FormulaId, OpenBook};
use levamen_language::TextId;

const MOTHER: &str = "culture mother\n  rye flour  100 %\n  water  90 %\n";
const LOAF: &str = "dough Loaf\n\nfinal dough\n  wheat flour  100 %\n  water  65 %\n  salt  2 %\n";
const SOUR: &str = "
dough Sour loaf

stage sour, a levain
  rye flour    100 %
  water         80 %
  from mother   10 %
  takes         30 % of the flour

final dough
  wheat flour  100 %
  water         60 %
  oat syrup      3 %
";
const PANTRY: &str = "
ingredient wheat flour
  flour

ingredient oat syrup
  holds 25 % water
";

/// A pantry, a culture, a dough that takes from it, and one that does not.
fn bakery() -> OpenBook {
    let open =
        OpenBook::read(&[&[(TextId(0), PANTRY), (TextId(1), MOTHER), (TextId(2), SOUR), (TextId(3), LOAF)]]);
    assert_eq!(codes(&open), [""; 0]);
    open
}

fn codes(open: &OpenBook) -> Vec<&'static str> {
    open.problems().map(|problem| problem.code).collect()
}

fn names(open: &OpenBook, ids: &[FormulaId]) -> Vec<String> {
    ids.iter().filter_map(|id| open.book().entry(*id)).map(|entry| entry.name.clone()).collect()
}

/// The names of all doughs and cultures, in order.
fn listed(open: &OpenBook) -> Vec<String> {
    open.book().entries().map(|(_, entry)| entry.name.clone()).collect()
}

#[test]
fn a_percentage_affects_its_own_dough_alone() {
    let mut open = bakery();
    let effect = open.edit(TextId(2), SOUR.replace("30 %", "31 %")).unwrap();
    assert_eq!(names(&open, &effect.formulas), ["Sour loaf"]);
    assert_eq!(effect, Effect { formulas: effect.formulas.clone(), ..Effect::default() });
}

#[test]
fn what_a_flour_is_of_and_what_raises_a_dough_move_no_weight() {
    let mut open = bakery();
    let declared = PANTRY.replace("  flour", "  rye flour") + "  replaces 2 times as much fresh yeast\n";
    let effect = open.edit(TextId(0), declared).unwrap();
    assert!(effect.formulas.is_empty() && effect.reweighed.is_empty(), "{effect:?}");
    let pantry = open.book().pantry();
    let known = |name: &str| pantry.get(pantry.find(name).unwrap()).unwrap();
    assert!(known("wheat flour").is_rye && known("wheat flour").is_flour);
    assert!(known("oat syrup").yeast.is_some());
}

#[test]
fn the_same_words_affect_nothing() {
    assert_eq!(bakery().edit(TextId(2), SOUR), Some(Effect::default()));
}

#[test]
fn a_dough_that_is_renamed_keeps_its_id_and_those_that_take_from_it_miss_it() {
    let mut open = bakery();
    let mother = open.book().find("mother").unwrap();
    let effect = open.edit(TextId(1), MOTHER.replace("mother", "chef")).unwrap();
    assert_eq!(open.book().find("chef"), Some(mother));
    assert_eq!(open.book().find("mother"), None);
    assert_eq!(names(&open, &effect.formulas), ["chef", "Sour loaf"]);
    assert_eq!(codes(&open), ["unknown-source"]);
    assert!(effect.problems && effect.gone.is_empty());

    // A dough that looked for a name in vain finds it when it comes.
    let effect = open.edit(TextId(3), format!("{LOAF}\n{MOTHER}")).unwrap();
    assert_eq!(names(&open, &effect.formulas), ["Sour loaf", "mother"]);
    assert_eq!(codes(&open), [""; 0]);
}

#[test]
fn a_suggestion_follows_the_names_of_the_book() {
    let mut open = bakery();
    let misspelt = SOUR.replace("from mother", "from othermother");
    assert!(open.edit(TextId(2), misspelt).is_some());
    let help = |open: &OpenBook| {
        open.problems()
            .flat_map(|problem| problem.help.iter().map(ToString::to_string).collect::<Vec<_>>())
            .collect::<Vec<_>>()
    };
    assert!(!help(&open).iter().any(|words| words.contains("did you mean")));
    let effect = open.insert(0, 9, TextId(9), MOTHER.replace("mother", "other mother")).unwrap();
    assert!(help(&open).contains(&"did you mean `other mother`?".to_owned()));
    assert_eq!(names(&open, &effect.formulas), ["Sour loaf", "other mother"]);
}

#[test]
fn an_ingredient_affects_the_doughs_that_list_it() {
    let mut open = bakery();
    let syrup = open.book().pantry().find("oat syrup").unwrap();
    let effect = open.edit(TextId(0), PANTRY.replace("25 %", "26 %")).unwrap();
    assert_eq!(names(&open, &effect.reweighed), ["Sour loaf"]);
    assert_eq!((effect.formulas, effect.ingredients), (vec![], vec![syrup]));

    // Where its figures come from changes none of them.
    let effect =
        open.edit(TextId(0), format!("{}  source the bag\n", PANTRY.replace("25 %", "26 %"))).unwrap();
    assert_eq!((effect.formulas, effect.ingredients), (vec![], vec![syrup]));

    // A name keeps its id where it is written otherwise, and also where another takes its place.
    let effect = open.edit(TextId(0), PANTRY.replace("oat syrup", "quince treacle")).unwrap();
    assert_eq!(open.book().pantry().find("quince treacle"), Some(syrup));
    assert_eq!(effect.ingredients, [syrup]);
    assert_eq!(codes(&open), ["unknown-ingredient"]);
}

#[test]
fn a_name_that_is_free_again_goes_to_the_next_that_claims_it() {
    let mut open = bakery();
    let first = open.book().find("loaf").unwrap();
    let effect = open.insert(0, 9, TextId(9), LOAF.replace("65 %", "66 %")).unwrap();
    let [second] = effect.formulas[..] else { panic!("{effect:?}") };
    assert_eq!((codes(&open), open.book().find("loaf")), (vec!["used-twice"], Some(first)));
    assert!(open.book().entry(second).unwrap().formula.is_none());

    let effect = open.remove(TextId(3)).unwrap();
    assert_eq!((effect.formulas, effect.gone), (vec![second], vec![first]));
    assert_eq!((codes(&open), open.book().find("loaf")), (vec![], Some(second)));
    assert!(open.book().entry(second).unwrap().formula.is_some());
    assert_eq!(open.book().entry(first), None);
}

#[test]
fn a_later_layer_goes_before_an_earlier_one() {
    let mut open = bakery();
    let own = open.book().find("mother").unwrap();
    let effect = open.insert(1, 0, TextId(9), MOTHER.replace("90 %", "95 %")).unwrap();
    let over = open.book().find("mother").unwrap();
    assert_ne!(own, over);
    assert_eq!(
        (codes(&open), names(&open, &effect.formulas)),
        (vec![], vec!["Sour loaf".to_owned(), "mother".to_owned()])
    );
    assert_eq!(listed(&open), ["mother", "Sour loaf", "Loaf", "mother"]);
    assert!(open.remove(TextId(9)).is_some());
    assert_eq!(open.book().find("mother"), Some(own));
}

#[test]
fn a_text_stands_where_it_is_put() {
    let mut open = bakery();
    let bun = |name: &str| LOAF.replace("Loaf", name);
    assert!(open.insert(0, 2, TextId(9), bun("Bun")).is_some());
    assert!(open.insert(0, 0, TextId(10), bun("Roll")).is_some());
    assert!(open.insert(2, 7, TextId(11), bun("Pretzel")).is_some());
    assert!(open.insert(1, 0, TextId(12), bun("Stick")).is_some());
    assert_eq!(listed(&open), ["Roll", "mother", "Bun", "Sour loaf", "Loaf", "Stick", "Pretzel"]);
    assert_eq!(open.texts().collect::<Vec<_>>(), [10, 0, 1, 9, 2, 3, 12, 11].map(TextId));
}

#[test]
fn scales_follow_their_texts() {
    let mut open = bakery();
    let usual = open.book().scales();
    let scale = "scale old beam\n  division 5 g\n  capacity 10 kg\n";
    assert!(open.insert(0, 9, TextId(9), scale).unwrap().scales);
    assert_eq!(open.book().scales().len(), 1);
    let effect = open.edit(TextId(9), "scale old beam\n  division 5 g\n").unwrap();
    assert!(effect.scales && effect.problems);
    assert_eq!((codes(&open), open.book().scales()), (vec!["half-a-scale"], usual));
}

#[test]
fn what_is_not_there_is_left_alone() {
    let mut open = bakery();
    assert_eq!(open.edit(TextId(7), LOAF), None);
    assert_eq!(open.remove(TextId(7)), None);
    assert_eq!(open.insert(0, 0, TextId(3), LOAF), None);
    // The built-in pantry is no text of the bakery.
    assert_eq!(open.edit(TextId(u32::MAX), ""), None);
    assert_eq!(open.insert(0, 0, TextId(u32::MAX), ""), None);
    assert_eq!(listed(&open), ["mother", "Sour loaf", "Loaf"]);
    assert!(open.book().pantry().find("water").is_some());
}
