//! The new dough's text: the dough without its pre-ferment, the new stage in it, and the yeast of the whole.

use levamen_formula::{Pantry, key};
use levamen_quantity::Exact;

use crate::base::{Base, line};
use crate::build::{Build, percent};
use crate::declared::is_yeast;
use crate::draft::{Draft, DraftLine, Says};
use crate::target::Target;
use crate::yeast::{Yeast, YeastCount};

/// The mark of the comment that says where a converted dough comes from.
pub(crate) const FROM: &str = "# Converted from ";

/// What a text is written from.
pub(crate) struct Writer<'w> {
    pub target: Target,
    pub base: &'w Base,
    pub pantry: &'w Pantry,
    /// The name of the dough as it was.
    pub before: &'w str,
}

impl Writer<'_> {
    /// The new text: the yeast of the whole, and the stage.
    pub fn draft(&self, build: Option<&Build>, share: &Exact, count: &YeastCount) -> Draft {
        let mut draft = self.base.draft.clone();
        let place = draft.place_for_stage();
        if let Some(build) = build {
            // The name ends with a word for its kind, so the heading says no more.
            let name = self.stage_name();
            let mut lines = vec![DraftLine::new(0, format!("stage {name}"), Says::Stage(name.clone()))];
            lines.push(line(1, format!("takes {} of the flour", percent(share))));
            lines.extend(build.facts.iter().map(|fact| line(1, fact.clone())));
            draft.insert(place, lines);
        }
        self.set_yeast(&mut draft, count);
        let words = match self.target {
            Target::Straight => "without its pre-ferment".to_owned(),
            Target::OldDough => format!("with {} of the flour in old dough", percent(share)),
            target => format!("with {} of the flour in a {}", percent(share), target.name()),
        };
        let heading = draft.find(&Says::Dough).unwrap_or_default();
        let from = format!("{FROM}`{}`, {words}.", self.before);
        draft.insert(heading, [DraftLine::new(0, from, Says::Silent)]);
        draft
    }

    /// What the new stage is called: the trade's word, unless another stage or an ingredient has it.
    fn stage_name(&self) -> String {
        let name = self.target.name();
        let lines = &self.base.draft.lines;
        let is_taken = |name: &str| {
            lines.iter().any(|line| matches!(&line.says, Says::Stage(own) | Says::Weigh(own) if own == name))
        };
        let names = ["", "second ", "third ", "fourth "].map(|prefix| format!("{prefix}{name}"));
        names.into_iter().find(|name| !is_taken(name)).unwrap_or_else(|| format!("another {name}"))
    }

    /// Writes the yeast of the whole dough.
    fn set_yeast(&self, draft: &mut Draft, count: &YeastCount) {
        let Some(heading) = draft.find(&Says::Overall) else { return };
        let without = &self.base.dough.balance;
        let block = draft.block(heading);
        let is_chosen = |name: &str| name == key(&count.name);
        let was = without.overall.iter().find(|row| is_chosen(&key(&row.name))).map(|row| row.share.clone());
        let mut at = 0;
        draft.lines.retain_mut(|line| {
            at += 1;
            let Says::Weigh(name) = &line.says else { return true };
            let known = self.pantry.find(name);
            if !block.contains(&(at - 1)) || !known.is_some_and(|id| is_yeast(self.pantry, id)) {
                return true;
            }
            if is_chosen(name) {
                return !count.whole.fraction().is_zero();
            }
            // Another yeast stays as far as other stages hold it.
            let held = Yeast::elsewhere(name, without);
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
        let own = Says::Weigh(key(&count.name).into_owned());
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
