//! A workspace that is edited answers as one that is read again.

use levamen::{BatchSize, InputText, Silent, TextId, Wishes, Workspace, check, formula};
use levamen_views::text;

const MOTHER: &str = "culture mother\n  rye flour  100 %\n  water  100 %\n  ripens 8 to 10 h at 24 °C\n";
const LOAF: &str = "dough Rye loaf\n\nmake 10 pieces of 1000 g\n\nfinal dough\n  rye flour    100 %\n  water         70 %\n  from mother   20 % of its flour\n";

fn read(mother: &str, loaf: &str) -> Workspace {
    let text = |name: &str, words: &str| InputText { name: name.to_owned(), text: Ok(words.to_owned()) };
    Workspace::read(vec![text("mother.dough", mother), text("loaf.dough", loaf)], None)
}

/// All that a workspace says of the loaf and of its book.
fn said(workspace: &Workspace) -> String {
    let problems = text::problems(workspace.texts(), &check(workspace, &Silent));
    let loaf = workspace.find("rye loaf").unwrap();
    let report = formula(workspace, loaf, &Wishes::default(), &BatchSize::default());
    let shown =
        report.map_or_else(|error| format!("{error:?}"), |report| text::formula(&report.sheet().unwrap()));
    format!("{problems}\n{shown}\n{:?}", workspace.bakery().1)
}

#[test]
fn an_edited_workspace_answers_as_one_that_is_read_again() {
    let mut workspace = read(MOTHER, LOAF);
    assert_eq!(said(&workspace), said(&read(MOTHER, LOAF)));
    let mut texts = [MOTHER.to_owned(), LOAF.to_owned()];
    for (id, old, new) in [
        (0, "water  100 %", "water  80 %"),
        (1, "water         70 %", "water         75 %"),
        (0, "culture mother", "culture old mother"),
        (0, "culture old mother", "culture mother"),
        (1, "make 10 pieces of 1000 g", "make 12 pieces of 900 g"),
    ] {
        let edited = texts[id].replace(old, new);
        assert_ne!(edited, texts[id], "{old}");
        let changes = workspace.edit(TextId(u32::try_from(id).unwrap()), &edited).unwrap();
        assert!(!changes.doughs.is_empty() || changes.problems, "{new}");
        texts[id] = edited;
        assert_eq!(said(&workspace), said(&read(&texts[0], &texts[1])), "{new}");
    }
    assert!(workspace.edit(TextId(9), LOAF).is_none(), "there is no such text");
}
