//! The way from a dough and a wish to the new dough.

use levamen_balance::Balance;
use levamen_ferment::{CAUTIONS, Hazard};
use levamen_formula::{NamedFigure, Pantry, Role};
use levamen_language::{Problem, TextId, with_article};
use levamen_quantity::{Exact, Share};

use crate::base::Base;
use crate::build::{NewPreFerment, PreFermentPlan, usual_share};
use crate::draft::{Draft, DraftLine, LineMeaning};
use crate::figures::percent;
use crate::ingredients::{is_yeast, share_limit};
use crate::present::{PresentPreFerment, all_present, choose_present};
use crate::request::ConversionRequest;
use crate::target::{ConversionTarget, RaisedBy, UsualFigures};
use crate::trial::{Trial, TrialDough};
use crate::write::{DoughWriter, FROM, new_name};
use crate::yeast::{Dose, Recount, YeastChoice, YeastCount};
use crate::{base, problems};

/// A dough with another pre-ferment.
#[derive(Debug, Clone, PartialEq)]
pub struct Conversion {
    /// What the pre-ferment became.
    pub target: ConversionTarget,
    /// What the dough called the pre-ferment that is gone; `None` where it had none.
    pub replaced: Option<String>,
    /// The flour that is pre-fermented in the new stage, of all flour; nothing in a straight dough.
    pub share: Share,
    /// The new dough, in canonical layout.
    pub text: String,
    /// The dough as it was.
    pub before: Balance,
    /// The new dough.
    pub after: Balance,
    /// The yeast of both; `None` where neither has any.
    pub yeast: Option<YeastCount>,
    /// What was chosen where nothing was asked for, and what deserves another look.
    pub remarks: Vec<String>,
}

/// What no rule knows: the flour, the culture and the room.
const TRIAL: &str = "the first batch is a trial: go by how the pre-ferment looks and smells, not by the clock (common practice)";

/// Converts a dough of a book, given as its layers of texts, by its name.
///
/// # Errors
/// What is wrong with the dough; what cannot be, with the largest share that can; what is asked for and the book has not.
pub fn convert(
    layers: &[&[(TextId, &str)]],
    dough: &str,
    request: &ConversionRequest,
) -> Result<Conversion, Vec<Problem>> {
    let mut trial = Trial::new(layers);
    let before = find(&trial, dough)?;
    let found = all_present(&before, &trial).map_err(one)?;
    let present = choose_present(&before, found, request.stage.as_deref()).map_err(one)?;
    if present.is_none() && request.target == ConversionTarget::Straight {
        return Err(one(problems::straight_already(&before.balance.dough)));
    }
    if let Some(option) = request.unneeded() {
        return Err(one(problems::unneeded(option, request.target)));
    }
    let name = new_name(&trial, &before.balance.dough, present.as_ref(), request).map_err(one)?;
    let draft = read(&trial, &before, &name).map_err(one)?;
    // What is a share of the dough moves with its yeast: then only weights hold it.
    for in_grams in [false, true] {
        let base = base::without(present.as_ref(), &before, draft.clone(), in_grams, &mut trial)?;
        let work = Converter { request, before: &before, base, present: present.as_ref() };
        if let Some(conversion) = work.finish(&mut trial)? {
            return Ok(conversion);
        }
    }
    Err(one(problems::not_converted(&before.balance.dough, &[])))
}

fn one(problem: Problem) -> Vec<Problem> {
    vec![problem]
}

/// The dough of a name.
fn find(trial: &Trial, name: &str) -> Result<TrialDough, Vec<Problem>> {
    let book = trial.open().book();
    let id = book.find(name).ok_or_else(|| one(problems::no_dough(name)))?;
    if let Some(entry) = book.entry(id).filter(|entry| entry.role == Role::Culture) {
        return Err(one(problems::a_culture(&entry.name)));
    }
    trial.known(id)
}

/// The lines of a dough under another name, without what an earlier conversion said of it.
fn read(trial: &Trial, dough: &TrialDough, name: &str) -> Result<Draft, Problem> {
    let place = dough.formula.place;
    let draft = trial.open().text(place.text).and_then(|text| Draft::read(text, place));
    let mut draft = draft.ok_or_else(|| problems::internal("a dough that its own text does not have"))?;
    draft.lines.retain(|line| !line.words.starts_with(FROM));
    if let Some(heading) = draft.lines.iter_mut().find(|line| line.says == LineMeaning::Dough) {
        heading.say(&format!("dough {name}"));
    }
    Ok(draft)
}

/// A conversion under way.
struct Converter<'w> {
    request: &'w ConversionRequest,
    before: &'w TrialDough,
    base: Base,
    present: Option<&'w PresentPreFerment>,
}

impl Converter<'_> {
    /// The conversion; `None` where the whole does not come out as it was.
    fn finish(self, trial: &mut Trial) -> Result<Option<Conversion>, Vec<Problem>> {
        let dough = &self.before.balance.dough;
        let yeast = YeastChoice::choose(self.request, &self.before.balance, trial.pantry()).map_err(one)?;
        let mut remarks = Vec::new();
        let (share, build) = self.build(trial, &yeast, &mut remarks)?;
        let dose = build.as_ref().and_then(|build| build.dose.clone());
        let count = self.recount(&yeast, &share, dose);
        remarks.extend(self.remarks_on_text(trial.pantry()));
        if build.is_some() {
            remarks.push(TRIAL.to_owned());
            remarks.extend(cautions(self.request.target));
        }
        let pantry = trial.pantry();
        let writer = DoughWriter { target: self.request.target, base: &self.base, pantry, before: dough };
        let text = writer.draft(build.as_ref(), &share, &count).text(trial.id());
        let refused = |why: Vec<Problem>| one(problems::not_converted(dough, &why));
        let text = text.map_err(refused)?;
        let after = match trial.read(&text) {
            Ok(tried) if base::is_same(&self.base.dough.balance, &tried.balance, trial.pantry()) => {
                tried.balance
            }
            Err(why) if self.base.by_weight => return Err(refused(why)),
            Ok(_) | Err(_) => return Ok(None),
        };
        let yeast = Some(count).filter(|count| !count.is_nothing()).map(|count| count.settled(&after));
        Ok(Some(Conversion {
            target: self.request.target,
            replaced: self.present.map(|present| present.name.clone()),
            share: Share::from_fraction(share),
            text,
            before: self.before.balance.clone(),
            after,
            yeast,
            remarks,
        }))
    }

    /// The new pre-ferment and its share of the flour, with a word on what was chosen; none of a straight dough.
    fn build(
        &self,
        trial: &Trial,
        yeast: &YeastChoice<'_>,
        remarks: &mut Vec<String>,
    ) -> Result<(Exact, Option<NewPreFerment>), Vec<Problem>> {
        let target = self.request.target;
        let Some(usual) = target.usual() else { return Ok((Exact::ZERO, None)) };
        let mut figures = Vec::new();
        let (share, whence) = self.share(usual, trial.pantry(), remarks, &mut figures)?;
        let without = &self.base.dough.balance;
        let plan = PreFermentPlan {
            request: self.request,
            usual,
            without,
            name: &self.before.balance.dough,
            yeast,
            trial,
        };
        let build = plan.build()?;
        if short(&share).is_zero() {
            return Err(one(problems::comes_to_nothing(target.name(), &share, &whence)));
        }
        self.check_limit(&build, &share)?;
        remarks.extend(build.remarks.iter().cloned());
        figures.extend(build.usual.iter().cloned());
        if !figures.is_empty() {
            let kind = with_article(target.name());
            remarks.push(format!("as is usual for {kind}: {}; {}", figures.join(", "), usual.source));
        }
        Ok((share, Some(build)))
    }

    /// The share of the flour, and where it is taken from: what is asked for, what it was, or what is usual.
    fn share(
        &self,
        usual: &UsualFigures,
        pantry: &Pantry,
        remarks: &mut Vec<String>,
        figures: &mut Vec<String>,
    ) -> Result<(Exact, String), Vec<Problem>> {
        if let Some(share) = &self.request.share {
            let share = share.fraction();
            let is_possible = share.is_positive() && *share <= Exact::ONE;
            return if is_possible {
                Ok((share.clone(), "as asked for".to_owned()))
            } else {
                Err(one(problems::share_range(share)))
            };
        }
        let Some(present) = self.present else {
            let target = self.request.target;
            let share = short(&usual_share(target, usual, &self.before.balance, pantry));
            figures.push(format!("{} of the flour", percent(&share)));
            return Ok((share, format!("as is usual for {}", with_article(target.name()))));
        };
        let share = short(&present.flour);
        let rounded = if share == present.flour { "" } else { ", rounded down" };
        let whence = format!("as in `{}`{rounded}", present.name);
        remarks.push(format!("{} of the flour is pre-fermented, {whence}", percent(&share)));
        Ok((share, whence))
    }

    /// Refuses more than the dough has.
    fn check_limit(&self, build: &NewPreFerment, share: &Exact) -> Result<(), Vec<Problem>> {
        let without = &self.base.dough.balance;
        let target = self.request.target.name();
        let has =
            |id| without.overall.iter().any(|row| row.ingredient == id && row.share.fraction().is_positive());
        let new = build.needs.iter().filter(|need| need.grams.is_positive() && !has(need.id));
        let new: Vec<(String, Exact)> = new.map(|need| (need.name.clone(), &need.grams * share)).collect();
        if !new.is_empty() {
            return Err(one(problems::new_ingredients(
                build.culture.as_deref().unwrap_or(target),
                &self.before.balance.dough,
                &new,
            )));
        }
        match share_limit(&build.needs, without, share, build.water) {
            Some(limit) if limit.share < *share => Err(one(problems::too_much(target, share, &limit))),
            _ => Ok(()),
        }
    }

    fn recount(&self, yeast: &YeastChoice<'_>, share: &Exact, dose: Option<Dose>) -> YeastCount {
        let recount = Recount {
            yeast,
            target: self.request.target,
            share,
            dose,
            present: self.present,
            before: &self.before.balance,
            without: &self.base.dough.balance,
        };
        recount.count()
    }

    /// Ingredients that are called like yeast, and of which nobody says that they are: the dough may have yeast already.
    fn remarks_on_names(&self, pantry: &Pantry) -> Vec<String> {
        let rows = self.before.balance.overall.iter().filter_map(|row| pantry.get(row.ingredient));
        let asked = rows.filter(|known| known.is_perhaps_yeast());
        let words = asked.map(|known| {
            format!(
                "`{}` is called like yeast and not counted as yeast: if it is, write its kind under its ingredient, such \
                 as `yeast fresh`, and convert again",
                known.name
            )
        });
        words.collect()
    }

    /// What the reader should look at in the text.
    fn remarks_on_text(&self, pantry: &Pantry) -> Vec<String> {
        let mut remarks = self.remarks_on_names(pantry);
        let overall =
            self.base.draft.find(&LineMeaning::Overall).and_then(|at| self.base.draft.lines.get(at + 1));
        if self.base.by_weight && overall.is_some_and(|line| line.words.ends_with(" g")) {
            remarks.push(
                "its lines are written by weight, since their percentages do not end or would move"
                    .to_owned(),
            );
        } else if self.base.by_weight {
            remarks
                .push("the overall formula is written out: the dough was written from its stages".to_owned());
        }
        let is_of_yeast = |asked: NamedFigure| {
            let rows = self.before.balance.overall.iter();
            rows.filter(|row| is_yeast(pantry, row.ingredient))
                .any(|row| asked == NamedFigure::Row(row.ingredient))
        };
        if self.before.formula.wants.iter().any(|want| is_of_yeast(want.figure)) {
            remarks.push("what was wanted of its yeast is left out: it is counted anew".to_owned());
        }
        let draft = &self.base.draft;
        let heading = draft.heading();
        let is_word = |(at, line): (usize, &DraftLine)| {
            line.says == LineMeaning::Note
                || at < heading && line.says == LineMeaning::Silent && !line.words.is_empty()
        };
        if draft.lines.iter().enumerate().any(is_word) {
            remarks.push("comments and notes are kept as they were: see whether they still hold".to_owned());
        }
        remarks
    }
}

/// A share as it is written: two decimals at most, rounded down.
fn short(share: &Exact) -> Exact {
    let parts = Exact::from(10_000);
    &(share * &parts).floor() / &parts
}

/// What can hurt somebody about a pre-ferment.
fn cautions(target: ConversionTarget) -> impl Iterator<Item = String> {
    let is_seeded = target.leaven() == Some(RaisedBy::Culture);
    let applies = move |hazard: Hazard| match hazard {
        Hazard::CarbonDioxide => true,
        Hazard::Culture => is_seeded,
        Hazard::HotWater | Hazard::Spoiling | Hazard::RawFlour | Hazard::FlourDust | Hazard::Mixer => false,
    };
    let own = CAUTIONS.iter().filter(move |caution| applies(caution.hazard));
    own.map(|caution| format!("caution: {}", caution.words))
}
