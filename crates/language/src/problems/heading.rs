//! Problems of names and headings.

use crate::syntax_error::{SyntaxError, quoted};
use crate::words::listed_quoted;
use crate::{CARDS, Kind};

/// Most characters that a name may have: it must fit on a bench sheet.
pub(crate) const NAME_CHARACTERS: usize = 80;

pub(crate) fn no_name<'t>(keyword: &'t str, form: &str) -> SyntaxError<'t> {
    SyntaxError::new("missing-name", keyword, format!("`{}` needs a name", quoted(keyword)))
        .label("no name")
        .help(format!("write `{form}`"))
}

pub(crate) fn long_name(at: &str) -> SyntaxError<'_> {
    let length = at.chars().count();
    SyntaxError::new("long-name", at, format!("a name of {length} characters"))
        .label(format!("at most {NAME_CHARACTERS}"))
        .help("shorten it; what else there is to say goes in a note")
}

pub(crate) fn no_letter(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("name-without-letter", at, format!("`{}` is no name", quoted(at)))
        .label("a name has a letter")
        .help("name it in words, such as `type 550 flour`")
}

pub(crate) fn comma_in_name<'t>(comma: &'t str, name: &str) -> SyntaxError<'t> {
    SyntaxError::new("comma-in-name", comma, format!("a comma ends the name `{}`", quoted(name)))
        .label("the name ends here")
        .help("write the name without a comma")
}

pub(crate) fn missing_kind(name: &str) -> SyntaxError<'_> {
    let words = quoted(name);
    let last = name.split_whitespace().next_back().unwrap_or_default();
    let error =
        SyntaxError::new("missing-kind", name, format!("the stage `{words}` does not say what it is"))
            .label("what kind of stage?");
    if let Some((kind, share)) = kind_and_share(name) {
        return error.help(format!(
            "a heading has no amount: write `stage {kind}`, and under it `takes {share} % of the flour`"
        ));
    }
    let example = match likely(name) {
        Some(kind) => format!("such as `stage {words}, {kind}`"),
        None => format!(
            "such as `stage {words}, a pre-ferment` if it ferments, or `stage {words}, a soaker` if not"
        ),
    };
    error
        .nearest(last, Kind::ALL.map(Kind::name))
        .help(format!("write what it is after a comma, {example}"))
        .help(format!("the kinds are {}", listed_quoted(Kind::ALL.map(Kind::name), "and")))
}

/// `poolish 30 %`: a kind, and how much of the flour it shall take.
fn kind_and_share(name: &str) -> Option<(&str, &str)> {
    let (kind, share) = name.trim_end().strip_suffix('%')?.trim_end().rsplit_once(' ')?;
    let kind = kind.trim_end();
    let is_kind = Kind::ALL.into_iter().any(|known| known.name().eq_ignore_ascii_case(kind));
    let is_figure = share.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.');
    (is_kind && is_figure).then_some((kind, share))
}

/// Names by which bakers call stages, and what those are: common practice, no source.
const CALLED: [(&str, &str); 17] = [
    ("tangzhong", "a scald"),
    ("yudane", "a scald"),
    ("roux", "a scald"),
    ("mash", "a scald"),
    ("brühstück", "a scald"),
    ("kochstück", "a scald"),
    ("quellstück", "a soaker"),
    ("seeds", "a soaker"),
    ("grains", "a soaker"),
    ("porridge", "a soaker"),
    ("starter", "a levain"),
    ("build", "a levain"),
    ("sauerteig", "a rye sour"),
    ("vorteig", "a pre-ferment"),
    ("preferment", "a pre-ferment"),
    ("fermentée", "an old dough"),
    ("lievito", "a levain"),
];

fn likely(name: &str) -> Option<&'static str> {
    let words = name.to_lowercase();
    let is_said = |word: &str| words.split_whitespace().any(|own| own == word);
    CALLED.into_iter().find(|(word, _)| is_said(word)).map(|(_, kind)| kind)
}

pub(crate) fn unknown_kind(at: &str) -> SyntaxError<'_> {
    SyntaxError::new("unknown-kind", at, format!("`{}` is not a kind of stage", quoted(at)))
        .label("not a kind")
        .nearest(at, Kind::ALL.map(Kind::name))
        .help(format!("the kinds are {}", listed_quoted(Kind::ALL.map(Kind::name), "and")))
}

pub(crate) fn missing_article<'t>(at: &'t str, name: &str) -> SyntaxError<'t> {
    let words = quoted(at);
    let article = if words.starts_with("auto") { "an" } else { "a" };
    SyntaxError::new("missing-article", at, format!("`{words}` needs `{article}` before it"))
        .label(format!("write `{article} {words}`"))
        .help(format!("write `stage {}, {article} {words}`", quoted(name)))
}

pub(crate) fn capitals<'t>(at: &'t str, keyword: &str) -> SyntaxError<'t> {
    SyntaxError::new("capital-letters", at, format!("`{}` is written with capital letters", quoted(at)))
        .label("small letters are wanted")
        .help(format!("write `{keyword}`"))
}

pub(crate) fn misspelt<'t>(at: &'t str, keyword: &str) -> SyntaxError<'t> {
    SyntaxError::new("misspelt", at, format!("`{}` is no ingredient but `{keyword}` misspelt", quoted(at)))
        .label("misspelt")
        .help(format!("write `{keyword}`"))
        .note("an ingredient whose name is so near to a word of the language needs another word in its name")
}

pub(crate) fn unknown(at: &str, candidates: impl IntoIterator<Item = &'static str>) -> SyntaxError<'_> {
    SyntaxError::new("unknown-heading", at, format!("`{}` is no heading", quoted(at)))
        .label("not known here")
        .nearest(at, candidates)
        .help("at the left margin stand `dough`, `culture`, `ingredient` and `scale`, and a dough's sections: `overall`, `stage`, `final dough`, `want`, `make`")
        .help(format!("and what the bakery has and sells: {}", listed_quoted(CARDS.each_ref().map(|card| card.keyword), "and")))
}
