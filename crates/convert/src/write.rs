//! The new dough: its name, and its text, which is the dough without its pre-ferment, the new stage in it, and the yeast of the
//! whole.

use levamen_formula::{Pantry, key};
use levamen_language::{Problem, Statement, parse};
use levamen_quantity::Exact;

use crate::base::{Base, line};
use crate::build::NewPreFerment;
use crate::draft::{Draft, DraftLine, LineMeaning};
use crate::figures::percent;
use crate::ingredients::is_yeast;
use crate::present::PresentPreFerment;
use crate::problems;
use crate::request::ConversionRequest;
use crate::target::ConversionTarget;
use crate::trial::Trial;
use crate::yeast::{YeastChoice, YeastCount};

/// The mark of the comment that says where a converted dough comes from.
pub(crate) const FROM: &str = "# Converted from ";

/// What a text is written from.
pub(crate) struct DoughWriter<'w> {
    pub target: ConversionTarget,
    pub base: &'w Base,
    pub pantry: &'w Pantry,
    /// The name of the dough as it was.
    pub before: &'w str,
}

impl DoughWriter<'_> {
    /// The new text: the yeast of the whole, and the stage.
    pub fn draft(&self, build: Option<&NewPreFerment>, share: &Exact, count: &YeastCount) -> Draft {
        let mut draft = self.base.draft.clone();
        let place = draft.place_for_stage();
        if let Some(build) = build {
            // The name ends with a word for its kind, so the heading says no more.
            let name = self.stage_name();
            let mut lines =
                vec![DraftLine::new(0, format!("stage {name}"), LineMeaning::Stage(name.clone()))];
            lines.push(line(1, format!("takes {} of the flour", percent(share))));
            lines.extend(build.facts.iter().map(|fact| line(1, fact.clone())));
            draft.insert(place, lines);
        }
        self.set_yeast(&mut draft, count);
        let words = match self.target {
            ConversionTarget::Straight => "without its pre-ferment".to_owned(),
            ConversionTarget::OldDough => format!("with {} of the flour in old dough", percent(share)),
            target => format!("with {} of the flour in a {}", percent(share), target.name()),
        };
        let heading = draft.heading();
        let from = format!("{FROM}`{}`, {words}.", self.before);
        draft.insert(heading, [DraftLine::new(0, from, LineMeaning::Silent)]);
        draft
    }

    /// What the new stage is called: the trade's word, unless another stage or an ingredient has it.
    fn stage_name(&self) -> String {
        let name = self.target.name();
        let lines = &self.base.draft.lines;
        let is_taken = |name: &str| {
            lines.iter().any(
                |line| matches!(&line.says, LineMeaning::Stage(own) | LineMeaning::Weigh(own) if own == name),
            )
        };
        let names = ["", "second ", "third ", "fourth "].map(|prefix| format!("{prefix}{name}"));
        names.into_iter().find(|name| !is_taken(name)).unwrap_or_else(|| format!("another {name}"))
    }

    /// Writes the yeast of the whole dough.
    fn set_yeast(&self, draft: &mut Draft, count: &YeastCount) {
        let Some(heading) = draft.find(&LineMeaning::Overall) else { return };
        let without = &self.base.dough.balance;
        let block = draft.block(heading);
        let is_chosen = |name: &str| name == key(&count.name);
        let was = without.overall.iter().find(|row| is_chosen(&key(&row.name))).map(|row| row.share.clone());
        let mut at = 0;
        draft.lines.retain_mut(|line| {
            at += 1;
            let LineMeaning::Weigh(name) = &line.says else { return true };
            let known = self.pantry.find(name);
            if !block.contains(&(at - 1)) || !known.is_some_and(|id| is_yeast(self.pantry, id)) {
                return true;
            }
            if is_chosen(name) {
                return !count.whole.fraction().is_zero();
            }
            // Another yeast stays as far as other stages hold it.
            let held = YeastChoice::elsewhere(name, without);
            let row = without.overall.iter().find(|row| key(&row.name) == *name);
            if let Some(row) = row.filter(|row| *row.share.fraction() != held && !held.is_zero()) {
                line.say(&format!("{} {}", row.name, percent(&held)));
            }
            !held.is_zero()
        });
        if count.whole.fraction().is_zero() || was.as_ref() == Some(&count.whole) {
            return;
        }
        let words = format!("{} {}", count.name, percent(count.whole.fraction()));
        let block = draft.block(heading);
        let own = LineMeaning::Weigh(key(&count.name).into_owned());
        match draft
            .lines
            .get_mut(block.clone())
            .and_then(|lines| lines.iter_mut().find(|line| line.says == own))
        {
            Some(line) => line.say(&words),
            None => draft.insert(block.end, [DraftLine::new(1, words, own)]),
        }
    }
}

/// The most characters of a name: the language's limit.
const LONGEST: usize = 80;

/// The new dough's name: what is asked for, or what says how it differs.
pub(crate) fn new_name(
    trial: &Trial,
    old: &str,
    present: Option<&PresentPreFerment>,
    request: &ConversionRequest,
) -> Result<String, Problem> {
    // A dough may take the place of the one that it was.
    let is_free = |name: &String| key(name) == key(old) || trial.open().book().find(name).is_none();
    if let Some(name) = &request.name {
        let name = single_spaced(name);
        check_name(trial, &name)?;
        return if is_free(&name) { Ok(name) } else { Err(problems::name_taken(&name)) };
    }
    let name = usual_name(old, present.map_or("", |present| present.name.as_str()), request.target);
    check_name(trial, &name)?;
    if is_free(&name) { Ok(name) } else { Err(problems::name_taken(&name)) }
}

/// The old name, without what says which pre-ferment is gone, and with what says how the new dough differs. A long one
/// makes room for that.
fn usual_name(old: &str, gone: &str, target: ConversionTarget) -> String {
    let [old, gone] = [old, gone].map(single_spaced);
    let stem = old.strip_suffix(gone.as_str()).and_then(|stem| stem.strip_suffix(" with ")).unwrap_or(&old);
    let suffix = match target {
        ConversionTarget::Straight if gone.is_empty() || gone.chars().count() > LONGEST / 2 => {
            "without its pre-ferment".to_owned()
        }
        ConversionTarget::Straight => format!("without {gone}"),
        target => format!("with {}", target.name()),
    };
    let room = LONGEST.saturating_sub(suffix.chars().count() + 1);
    let mut words: Vec<&str> = stem.split(' ').collect();
    while words.len() > 1 && words.join(" ").chars().count() > room {
        words.pop();
    }
    // What is left may be one word that is too long.
    let stem: String = words.join(" ").chars().take(room).collect();
    format!("{stem} {suffix}")
}

/// A name with one space between its words.
fn single_spaced(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Whether a dough can be called so: the language reads it, and as a whole.
fn check_name(trial: &Trial, name: &str) -> Result<(), Problem> {
    let text = format!("dough {name}\n\noverall\n  flour  100 %\n");
    let parsed = parse(trial.id(), &text);
    let is_read = parsed.tree.lines.first().is_some_and(
        |line| matches!(line.statement, Statement::Dough(own) if own.spaced() == name && line.comment.is_none()),
    );
    if is_read { Ok(()) } else { Err(problems::not_a_name(name, &parsed.problems)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_usual_name_is_one_that_the_language_reads() {
        let long = "x".repeat(80);
        let words = "the longest name of a loaf that anybody in the bakehouse has ever written on a card";
        for old in ["Rye   loaf", "Rye\u{a0}loaf", long.as_str(), words, "Loaf with   poolish"] {
            for gone in ["", "poolish", "night  poolish", long.as_str()] {
                for target in ConversionTarget::ALL {
                    let name = usual_name(old, gone, target);
                    assert!(name.chars().count() <= LONGEST, "{name}");
                    assert_eq!(name, single_spaced(&name));
                    let text = format!("dough {name}\n");
                    let parsed = parse(levamen_language::TextId(0), &text);
                    let Statement::Dough(read) = parsed.tree.lines[0].statement else { panic!("{name}") };
                    assert_eq!(read.text, name);
                }
            }
        }
        assert_eq!(usual_name("Loaf with  poolish", "poolish", ConversionTarget::Biga), "Loaf with biga");
        assert_eq!(usual_name("Rye   loaf", "", ConversionTarget::Poolish), "Rye loaf with poolish");
    }
}
