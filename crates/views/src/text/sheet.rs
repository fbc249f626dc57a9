//! The bench sheet as text: what is weighed at four in the morning, stage by stage, with a box to tick, and what to do
//! about a weight that is small for its scale.

use levamen_balance::BalancedItem;
use levamen_formula::StageKind;
use levamen_quantity::Mass;
use levamen_sheets::{
    Dilution, DoughCaution, LineSheet, LineSource, OnScale, RoundingChange, Sheet, SmallWeightRemedy,
    StageSheet, Weight,
};

use super::TextPage;
use super::figures::{gram, in_columns, percent, to_a_milligram, weight, with_unit};
use super::naming::{line_name, pieces_words, ripens, short_words, stage_name, timed};
use super::page::{left, underline, width};

const BOX: &str = "  [ ]";
/// Names share a column up to this width; a longer one pushes its scale to the right.
const LONGEST_NAME: usize = 40;

/// The bench sheet.
#[must_use]
pub fn sheet(sheet: &Sheet) -> String {
    let layout = SheetLayout::of(sheet);
    let mut page = TextPage::new(BOX.len());
    heading(&mut page, sheet);
    for (index, stage) in sheet.stages.iter().enumerate() {
        layout.stage(&mut page, index, stage);
    }
    overall(&mut page, sheet);
    page.text("");
    foot(&mut page, sheet);
    page.render()
}

fn heading(page: &mut TextPage<2>, sheet: &Sheet) {
    let title = format!("{}: bench sheet", sheet.dough);
    page.text(title.as_str());
    page.text(underline(&title));
    page.text(format!("{} of dough", with_unit(&sheet.batch, &shown_to(sheet.division.as_ref()))));
    if let Some(pieces) = &sheet.pieces {
        page.text(pieces_words(pieces, &sheet.loss));
    }
    if !sheet.kept_back.is_zero() {
        page.text(format!(
            "keep back {} of it for the next batch, before dividing",
            weight(&sheet.kept_back)
        ));
    }
    let is_lost = !sheet.loss.fraction().is_zero();
    if let Some(to_divide) = sheet.to_divide.as_ref().filter(|_| is_lost || !sheet.kept_back.is_zero()) {
        let after = if is_lost { format!(" after {} is lost", percent(&sheet.loss)) } else { String::new() };
        page.text(format!("{} to divide{after}", with_unit(to_divide, &gram())));
    }
    let short = sheet
        .pieces
        .as_ref()
        .and_then(|pieces| short_words(pieces, &sheet.short, sheet.enough_for_both.as_ref()));
    if let Some(words) = short {
        page.text(words);
    }
    for note in &sheet.notes {
        page.text(format!("note: {note}"));
    }
}

/// What all stages of a sheet have in common, so that columns stand under each other down the page.
struct SheetLayout<'s> {
    names: usize,
    /// By stage: whether some of it is kept back before it goes on.
    kept_back: Vec<bool>,
    cautions: &'s [DoughCaution],
}

impl<'s> SheetLayout<'s> {
    fn of(sheet: &'s Sheet) -> Self {
        let lines = || sheet.stages.iter().flat_map(|stage| &stage.lines);
        let names = lines().map(|line| width(&name(line))).filter(|&width| width <= LONGEST_NAME);
        let kept_back = sheet.stages.iter().map(|stage| !stage.given_back.is_zero()).collect();
        Self { names: names.max().unwrap_or(0), kept_back, cautions: &sheet.cautions }
    }

    /// Whether some of what a line takes was kept back.
    fn keeps_back(&self, line: &LineSheet) -> bool {
        matches!(line.item, BalancedItem::Stage(tub) if self.kept_back.get(tub) == Some(&true))
    }

    fn stage(&self, page: &mut TextPage<2>, index: usize, stage: &StageSheet) {
        page.text("");
        page.text(format!("{}. {}", index + 1, stage_name(&stage.name, stage.kind)));
        for caution in self.cautions.iter().filter(|caution| caution.stage == index) {
            page.text(format!("  {}", caution.words()));
        }
        for line in &stage.lines {
            self.line(page, line);
        }
        fate(page, stage);
        if let Some(ripening) = &stage.ripens {
            page.text(format!("  {}", ripens(ripening)));
        }
        for note in &stage.notes {
            page.text(format!("  note: {note}"));
        }
        for line in &stage.lines {
            if let (Some(remedy), Some(on)) = (&line.remedy, on_scale(line)) {
                for words in remedy_words(line, on, remedy) {
                    page.text(words);
                }
            }
        }
    }

    fn line(&self, page: &mut TextPage<2>, line: &LineSheet) {
        let how = match &line.source {
            LineSource::Weighed(on) => on_scale_words(on),
            LineSource::WholeTub if self.keeps_back(line) => "the rest of the tub".to_owned(),
            LineSource::WholeTub => "the whole tub".to_owned(),
            LineSource::RestOfTub => "the rest of the tub".to_owned(),
        };
        let division = shown_to(line.division.as_ref());
        let remark = format!("{}   {how}", left(&name(line), self.names));
        page.figures(BOX, in_columns(&line.weight, &division), remark);
    }
}

/// What stands in the tub, and what becomes of it.
fn fate(page: &mut TextPage<2>, stage: &StageSheet) {
    let division = shown_to(stage.division.as_ref());
    let mut row = |sign: &str, weight: Weight, words: &str| {
        if !weight.is_zero() {
            page.figures(format!("    {sign}"), in_columns(&weight, &division), words);
        }
    };
    row("-", stage.steam, "goes off as steam");
    row("=", stage.made, if stage.kind == StageKind::FinalDough { "dough" } else { "in the tub" });
    row("-", stage.given_back, "keep back for the next seed, before any goes on");
    row("-", stage.left_over, "is left over");
}

fn overall(page: &mut TextPage<2>, sheet: &Sheet) {
    page.text("");
    page.text("Weighed in all");
    for fetch in &sheet.overall {
        let cells = in_columns(&fetch.weight, &shown_to(fetch.division.as_ref()));
        page.figures("", cells, fetch_name(&fetch.name, fetch.item));
    }
}

/// The step to which a weight is shown; that of nothing shows whole units.
fn shown_to(division: Option<&Mass>) -> Mass {
    division.cloned().unwrap_or_default()
}

/// A name with a mark where the weight is small for its scale.
fn name(line: &LineSheet) -> String {
    let mark = if line.remedy.is_some() { " *" } else { "" };
    let name = match line.item {
        BalancedItem::Stage(_) => line.name.clone(),
        BalancedItem::Ingredient { .. } | BalancedItem::Seed(_) | BalancedItem::Piece => {
            line_name(&line.name, line.item)
        }
    };
    timed(name, line.when.as_deref()) + mark
}

fn fetch_name(name: &str, item: BalancedItem) -> String {
    match item {
        BalancedItem::Seed(_) => format!("{name}, seed"),
        BalancedItem::Ingredient { .. } | BalancedItem::Piece | BalancedItem::Stage(_) => {
            line_name(name, item)
        }
    }
}

fn on_scale(line: &LineSheet) -> Option<&OnScale> {
    match &line.source {
        LineSource::Weighed(on) => Some(on),
        LineSource::WholeTub | LineSource::RestOfTub => None,
    }
}

/// `floor scale: 2 x 60 kg + 12.5 kg`.
fn on_scale_words(on: &OnScale) -> String {
    let name = &on.scale.name;
    match on.loads {
        None => format!("{name}: more loads than can be counted"),
        Some(0 | 1) => name.clone(),
        Some(loads) => {
            format!("{name}: {} x {} + {}", loads - 1, weight(&on.full_load), weight(&on.last_load))
        }
    }
}

fn foot(page: &mut TextPage<2>, sheet: &Sheet) {
    match &sheet.largest_change {
        None => page.text("Rounding to the scales changed nothing: every weight is exact."),
        Some(RoundingChange { stage, line, by, of_all_flour }) => {
            let sign = if by.grams().is_negative() { "-" } else { "+" };
            let size = weight(&to_a_milligram(&Mass::from_grams(by.grams().abs())));
            let share = of_all_flour.to_percent(4);
            page.text(format!(
                "Largest change by rounding: {line} in {stage}, {sign}{size}, {share} of all flour."
            ));
        }
    }
    page.text("Lines add up to their stage and stages to the batch, to the last division.");
    if sheet.stages.iter().flat_map(|stage| &stage.lines).any(|line| line.remedy.is_some()) {
        page.text("Check weights are those without a dilution.");
    }
}

/// What to do about a small weight, line by line.
fn remedy_words(line: &LineSheet, on: &OnScale, remedy: &SmallWeightRemedy) -> Vec<String> {
    let exact = weight(&to_a_milligram(&line.exact));
    let small = format!("  * {}: {exact} is under twenty divisions of the {}", line.name, on.scale.name);
    match remedy {
        SmallWeightRemedy::Care | SmallWeightRemedy::TooLittleWater { .. } if line.weight.is_zero() => {
            let nothing = format!("  * {}: {exact} is less than the {} can show:", line.name, on.scale.name);
            vec![nothing, "    make more, or weigh it on a finer scale.".to_owned()]
        }
        SmallWeightRemedy::Care => vec![format!("{small}; weigh it with care.")],
        SmallWeightRemedy::Dilute(dilution) => {
            let mut words = vec![format!("{small}.")];
            words.extend(how_to_dilute(dilution, on));
            words
        }
        SmallWeightRemedy::TooLittleWater { wanted, there } => {
            let has = if there.is_zero() { "none".to_owned() } else { weight(there) };
            let brings = weight(&to_a_milligram(wanted));
            let why = format!(
                "    A dilution would bring {brings} of water and the stage has {has}: weigh it with care."
            );
            vec![format!("{small}."), why]
        }
    }
}

fn how_to_dilute(dilution: &Dilution, on: &OnScale) -> Vec<String> {
    let Dilution { one_part_in, make_up, make_up_water, weigh, water_less, still_small } = dilution;
    let shown = |shown: &Weight| with_unit(shown, &on.scale.division);
    let stir = format!(
        "    Or diluted, 1 part in {one_part_in}: stir {} into {} of water,",
        shown(make_up),
        weight(make_up_water)
    );
    let less = if water_less.is_zero() {
        "and as much water as before".to_owned()
    } else {
        format!("and {} less of the stage's water", weight(water_less))
    };
    let mut words = vec![stir, format!("    weigh {} of that {less}.", shown(weigh))];
    if *still_small {
        words.push("    Even so it is under twenty divisions.".to_owned());
    }
    words
}
