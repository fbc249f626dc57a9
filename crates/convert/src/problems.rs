//! What can be wrong with a conversion: one function for each problem, which holds its words.

use levamen_language::{AskedField, Hint, Problem, listed_quoted, nearest, with_article};
use levamen_quantity::{Exact, Share};

use crate::figures::{self, ShareLimit};
use crate::target::ConversionTarget;

/// Offers the nearest of some names, or all of them where none is near.
fn offer(problem: Problem, wanted: &str, names: &[&str], all: &str) -> Problem {
    match (nearest(wanted, names.iter().copied()).as_slice(), names) {
        (near @ [_, ..], _) => problem.help(format!("did you mean {}?", listed_quoted(near, "or"))),
        ([], []) => problem,
        ([], names) => problem.help(format!("{all} {}", listed_quoted(names, "and"))),
    }
}

/// A share as a baker reads it, never more than it is.
pub(crate) fn at_most(share: &Exact) -> String {
    Share::from_fraction(share.clone()).to_percent_at_most()
}

/// A share as a baker reads it, with three decimals where it does not end before.
pub(crate) fn percent(share: &Exact) -> String {
    Share::from_fraction(share.clone()).to_percent_within(7)
}

/// What cannot happen, and is a mistake of this program where it does.
pub(crate) fn internal(what: &str) -> Problem {
    debug_assert!(false, "{what}");
    Problem::internal(what)
}

pub(crate) fn no_dough(name: &str) -> Problem {
    Problem::error("no-such-dough", format!("the book has no dough called `{name}`"))
}

pub(crate) fn a_culture(name: &str) -> Problem {
    Problem::error("not-a-dough", format!("`{name}` is a culture, and doughs are converted")).help(
        Hint::of_field(
            format!("name a dough; `{name}` may be its seed: "),
            AskedField::Culture,
            format!(" \"{name}\""),
        ),
    )
}

pub(crate) fn straight_already(dough: &str) -> Problem {
    Problem::error("straight-already", format!("`{dough}` has no pre-ferment: it is a straight dough already"))
        .help(Hint::of_field(
            "",
            AskedField::Target,
            " poolish, biga, sponge, \"liquid levain\", \"stiff levain\", \"old dough\" or \"rye sour\" gives it one",
        ))
}

pub(crate) fn which(dough: &str, names: &[&str]) -> Problem {
    let problem = Problem::error(
        "which-stage",
        format!("`{dough}` has {} pre-ferments: {}", names.len(), listed_quoted(names, "and")),
    );
    names.iter().take(1).fold(problem, |problem, first| {
        problem.help(Hint::of_field(
            "say which is to be replaced: ",
            AskedField::Stage,
            format!(" \"{first}\""),
        ))
    })
}

pub(crate) fn no_such_stage(dough: &str, wanted: &str, names: &[&str]) -> Problem {
    let problem = Problem::error("no-such-stage", format!("`{dough}` has no stage called `{wanted}`"));
    if names.is_empty() {
        return problem.help(Hint::of_field("it has no pre-ferment: leave out ", AskedField::Stage, ""));
    }
    offer(problem, wanted, names, "its pre-ferments are")
}

pub(crate) fn not_fermenting(stage: &str, kind: &str, names: &[&str]) -> Problem {
    let article = if kind.starts_with(['a', 'o']) { "an" } else { "a" };
    let problem =
        Problem::error("no-pre-ferment", format!("`{stage}` is {article} {kind}: it does not ferment"))
            .note("a conversion replaces what ferments ahead; other stages stay as they are");
    offer(problem, "", names, "the dough's pre-ferments are")
}

pub(crate) fn part_of(stage: &str, whole: &str) -> Problem {
    Problem::error("part-of-a-stage", format!("`{stage}` goes into `{whole}`, and into nothing else"))
        .help(Hint::of_field("they are replaced together: ", AskedField::Stage, format!(" \"{whole}\"")))
}

pub(crate) fn share_range(share: &Exact) -> Problem {
    Problem::error("share-range", format!("{} of the flour cannot be pre-fermented", percent(share)))
        .help(Hint::of_field("write a share above 0 % and up to 100 %, such as ", AskedField::Share, " 30%"))
}

/// More of something than the dough has for the pre-ferment.
pub(crate) fn too_much(target: &str, asked: &Exact, limit: &ShareLimit) -> Problem {
    let needs = asked * &limit.needs;
    let mut problem = Problem::error(
        "more-than-there-is",
        format!(
            "{} with {} of the flour takes more {} than the dough has for it",
            with_article(target),
            percent(asked),
            limit.name
        ),
    )
    .note(format!(
        "it takes {} and there is {}: percentages are of the flour of the whole dough",
        percent(&needs),
        percent(&limit.has)
    ));
    problem = if limit.share.is_positive() {
        let largest = at_most(&limit.share);
        let written = format!(" {}", largest.replace(' ', ""));
        problem.help(Hint::of_field(format!("the largest share is {largest}: "), AskedField::Share, written))
    } else {
        problem.help("the largest share is 0 %")
    };
    match &limit.hydration {
        Some(hydration) if hydration.is_positive() => problem.help(format!(
            "or make it stiffer: with this share, a hydration of {} at most",
            at_most(hydration)
        )),
        _ => problem,
    }
}

pub(crate) fn new_ingredients(culture: &str, dough: &str, missing: &[(String, Exact)]) -> Problem {
    let names: Vec<&str> = missing.iter().map(|(name, _)| name.as_str()).collect();
    let mut problem = Problem::error(
        "new-in-the-dough",
        format!("`{culture}` would bring {} into `{dough}`, which has none", listed_quoted(&names, "and")),
    );
    for (name, share) in missing {
        problem = problem.note(format!("{name}: {} of all flour", percent(share)));
    }
    problem
        .help(Hint::of_field(
            "a conversion changes no ingredient of the whole but yeast: choose another culture with ",
            AskedField::Culture,
            "",
        ))
        .help(Hint::of_field(
            "or keep as much ripe levain for the next seed, so that the whole leaves it out: ",
            AskedField::GivenBack,
            "",
        ))
        .help(format!("or write {} into the overall formula first", listed_quoted(&names, "and")))
}

pub(crate) fn no_culture(target: &str, unsound: usize) -> Problem {
    if unsound > 0 {
        let message = format!("no culture of the book can seed {}: they have problems", with_article(target));
        return Problem::error("no-culture", message).help("`levamen check` shows what is wrong with them");
    }
    Problem::error(
        "no-culture",
        format!("{} is seeded from a culture, and the book has none", with_article(target)),
    )
    .help("declare one: `culture mother culture` and under it what it is fed with")
}

pub(crate) fn unknown_culture(wanted: &str, is_dough: bool, names: &[&str]) -> Problem {
    let problem = Problem::error("unknown-culture", format!("the book has no culture called `{wanted}`"));
    if is_dough {
        return problem.help(format!("`{wanted}` is a dough: a piece of it is `old dough`"));
    }
    offer(problem, wanted, names, "its cultures are")
}

pub(crate) fn unknown_flour(wanted: &str, dough: &str, names: &[&str]) -> Problem {
    let problem = Problem::error("unknown-flour", format!("`{wanted}` is no flour of `{dough}`"));
    offer(problem, wanted, names, "its flours are")
}

pub(crate) fn no_rye(dough: &str, names: &[&str]) -> Problem {
    Problem::error("no-rye", format!("`{dough}` has no rye flour for a rye sour: the largest share is 0 %"))
        .note(format!("its flours are {}", listed_quoted(names, "and")))
        .help("a flour is of rye where its ingredient says so: write `rye flour` under it")
        .help(Hint::of_field(
            "or name the flour of the sour yourself: ",
            AskedField::Flour,
            " \"dark flour\"",
        ))
}

pub(crate) fn no_water(dough: &str, target: &str, wet: &[&str]) -> Problem {
    let problem = Problem::error(
        "no-water",
        format!(
            "`{dough}` has no added water that {} could take: the largest share is 0 %",
            with_article(target)
        ),
    );
    if wet.is_empty() {
        return problem;
    }
    problem.note(format!("its water is in {}", listed_quoted(wet, "and"))).help(Hint::of_field(
        "old dough takes a piece of the dough as it is: ",
        AskedField::Target,
        " \"old dough\"",
    ))
}

pub(crate) fn wet_seed(culture: &str, hydration: &Exact, least: &Exact) -> Problem {
    Problem::error(
        "wet-seed",
        format!("the seed of `{culture}` alone is wetter than a levain at {}", percent(hydration)),
    )
    .help(format!("take less seed, or a hydration above {}", percent(least)))
}

pub(crate) fn name_taken(name: &str) -> Problem {
    Problem::error("name-taken", format!("the book has a dough or culture called `{name}` already"))
        .help(Hint::of_field("give the new dough another name: ", AskedField::Name, " \"...\""))
}

pub(crate) fn not_a_name(name: &str, why: &[Problem]) -> Problem {
    let problem = Problem::error("not-a-name", format!("a dough cannot be called `{name}`"));
    why.iter().fold(problem, |problem, why| problem.note(why.message.clone()))
}

pub(crate) fn not_yeast(name: &str, is_known: bool) -> Problem {
    let problem = if is_known {
        Problem::error("not-a-yeast", format!("`{name}` does not say that it is yeast"))
            .help("if it is, write its kind under its ingredient, such as `yeast fresh` or `yeast instant`")
    } else {
        Problem::error("not-a-yeast", format!("`{name}` is no yeast of the pantry"))
    };
    problem.help(Hint::of_field(
        "write ",
        AskedField::Yeast,
        " \"fresh yeast\", \"instant yeast\" or \"active dry yeast\"",
    ))
}

/// The code of the problem whose message begins with the name of a field in back quotes, for an edge to spell.
pub const FIELD_UNNEEDED: &str = "not-for-this";

/// A field that says nothing of the target.
pub(crate) fn unneeded(field: AskedField, target: ConversionTarget) -> Problem {
    let what = match target {
        ConversionTarget::Straight => "a straight dough".to_owned(),
        target => with_article(target.name()),
    };
    Problem::error(FIELD_UNNEEDED, format!("`{}` says nothing of {what}", field.word())).help(Hint::of_field(
        "leave out ",
        field,
        "",
    ))
}

/// A share of the flour of which nothing can be weighed; `whence` is where it was taken from.
pub(crate) fn comes_to_nothing(target: &str, share: &Exact, whence: &str) -> Problem {
    let words = if share.is_positive() { figures::percent(share) } else { "less than 0.01 %".to_owned() };
    Problem::error(
        "share-of-nothing",
        format!("{} with {words} of the flour comes to nothing", with_article(target)),
    )
    .note(format!("the share is taken {whence}"))
    .help(Hint::of_field(
        "say how much of the flour it takes, 0.01 % or more, such as ",
        AskedField::Share,
        " 20%",
    ))
}

pub(crate) fn long_figures(dough: &str) -> Problem {
    Problem::error("long-figures", format!("the figures of `{dough}` are too long to be written out"))
        .note("the exact weights have more than 28 digits")
        .help("write its overall formula in percentages first")
}

/// What stays does not balance, or not to the same dough.
pub(crate) fn not_without(dough: &str, why: &[Problem]) -> Problem {
    let problem =
        Problem::error("not-without", format!("`{dough}` leans on the pre-ferment that would be replaced"));
    with_reasons(problem, why, "without it").help(
        "write the dough's overall formula in percentages, and let each stage take a share of the flour",
    )
}

/// The new text does not balance, or not to the same dough.
pub(crate) fn not_converted(dough: &str, why: &[Problem]) -> Problem {
    let problem = Problem::error("not-converted", format!("`{dough}` cannot be converted so"));
    with_reasons(problem, why, "of the new dough")
        .help("take the line in question out, or ask for another share")
}

/// Says why, in the words of other problems.
fn with_reasons(problem: Problem, why: &[Problem], of: &str) -> Problem {
    let mut messages: Vec<&str> = why.iter().map(|why| why.message.as_str()).collect();
    messages.dedup();
    messages.iter().take(3).fold(problem, |problem, why| problem.note(format!("{of}: {why}")))
}
