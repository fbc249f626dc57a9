//! Where a line may be.

use levamen_quantity::Exact;

use super::block::{Alignment, Block, Dough};
use super::{MAX_NESTED, OpenItem, Outline};
use crate::card::{CARDS, card};
use crate::lines::RawLine;
use crate::problems::{amount as amount_problems, block as block_problems};
use crate::section::{Section, once, steams};
use crate::space::first_word;
use crate::{Said, Statement};

/// What a line opens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Opening {
    /// A dough (`None`), or another heading at the left margin, which is a block itself.
    Item(Option<Section>),
    /// A section of a dough.
    Section(DoughSection),
}

/// A section of a dough.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum DoughSection {
    Overall,
    FinalDough,
    Want,
    Make,
    Stage,
}

impl Opening {
    /// What a line opens; a line that could not be read opens what its first word says, so that the lines
    /// under it find their block.
    pub(super) fn of(statement: &Statement<'_>, raw: &RawLine<'_>) -> Option<Self> {
        Some(match statement {
            Statement::Dough(_) => Self::Item(None),
            Statement::Culture(_) => Self::Item(Some(Section::Culture)),
            Statement::Ingredient(_) => Self::Item(Some(Section::Ingredient)),
            Statement::Scale(_) => Self::Item(Some(Section::Scale)),
            Statement::Card(heading) => Self::Item(Some(Section::Card(heading.card))),
            Statement::Overall => Self::Section(DoughSection::Overall),
            Statement::Stage(_) => Self::Section(DoughSection::Stage),
            Statement::FinalDough => Self::Section(DoughSection::FinalDough),
            Statement::Want => Self::Section(DoughSection::Want),
            Statement::Make(_) => Self::Section(DoughSection::Make),
            Statement::Unread => return Self::meant(raw),
            _ => return None,
        })
    }

    fn meant(raw: &RawLine<'_>) -> Option<Self> {
        let first = first_word(raw.body).0.to_ascii_lowercase();
        // Whoever writes a colon after a heading means the heading.
        Some(match first.trim_end_matches(':') {
            "overall" => Self::Section(DoughSection::Overall),
            "stage" => Self::Section(DoughSection::Stage),
            "final" => Self::Section(DoughSection::FinalDough),
            "want" => Self::Section(DoughSection::Want),
            "make" => Self::Section(DoughSection::Make),
            _ if raw.columns > 0 => return None,
            "dough" => Self::Item(None),
            "culture" => Self::Item(Some(Section::Culture)),
            "ingredient" => Self::Item(Some(Section::Ingredient)),
            "scale" => Self::Item(Some(Section::Scale)),
            keyword => Self::Item(Some(Section::Card(card(keyword)?))),
        })
    }
}

impl<'t> Outline<'t> {
    /// Begins a dough, culture, ingredient or scale.
    pub(super) fn open_item(
        &mut self,
        raw: &RawLine<'t>,
        section: Option<Section>,
        statement: &Statement<'t>,
    ) -> u16 {
        if raw.columns > 0 && *statement != Statement::Unread {
            self.problems.push(block_problems::margin(first_word(raw.body).0));
        }
        self.close_item();
        let heading = self.lines.len();
        match section {
            Some(section) => self.open(Block::new(section, heading, raw.columns, 0, self.rows.open())),
            None => self.item = OpenItem::Dough(Box::new(Dough { heading, ..Dough::default() })),
        }
        0
    }

    /// Begins a section of a dough, or a stage within a stage.
    pub(super) fn open_section(
        &mut self,
        raw: &RawLine<'t>,
        opens: DoughSection,
        statement: &Statement<'t>,
    ) -> u16 {
        let depth = self.section_depth(raw, opens, statement);
        let section = match opens {
            DoughSection::Overall => Section::Overall,
            DoughSection::Stage => Section::Stage,
            DoughSection::FinalDough => Section::FinalDough,
            DoughSection::Want => Section::Want,
            DoughSection::Make => return depth,
        };
        if self.blocks.len() >= MAX_NESTED {
            self.problems.push(block_problems::too_nested(raw.body, MAX_NESTED));
            self.unread_below = Some(raw.columns);
            return depth;
        }
        let mut block = Block::new(section, self.lines.len(), raw.columns, depth, self.rows.open());
        if let Statement::Stage(heading) = statement {
            block.steams = steams(heading.kind);
        }
        self.open(block);
        depth
    }

    /// How deep a section is: at the margin in its dough, or in the stage around it.
    fn section_depth(&mut self, raw: &RawLine<'t>, opens: DoughSection, statement: &Statement<'t>) -> u16 {
        let Some((section, depth)) = self.blocks.last().map(|parent| (parent.section, parent.depth)) else {
            self.add_to_dough(raw, opens, statement);
            return 0;
        };
        let even = self.align(raw, statement);
        let nests = opens == DoughSection::Stage && section == Section::Stage;
        if even && !nests && section != Section::Unknown {
            let first = if opens == DoughSection::FinalDough { raw.body } else { first_word(raw.body).0 };
            self.problems.push(block_problems::wrong_place(raw.body, first, section));
        }
        depth + 1
    }

    fn open(&mut self, block: Block<'t>) {
        self.blocks.push(block);
    }

    /// Adds a section to the open dough.
    fn add_to_dough(&mut self, raw: &RawLine<'t>, opens: DoughSection, statement: &Statement<'t>) {
        let index = u32::try_from(self.lines.len()).unwrap_or(u32::MAX);
        let dough = match &mut self.item {
            OpenItem::Dough(dough) => dough,
            OpenItem::Unknown => return,
            OpenItem::Other => {
                self.problems.push(block_problems::no_dough(raw.body));
                self.item = OpenItem::Unknown;
                return;
            }
        };
        let column = *dough.sections_column.get_or_insert(raw.columns);
        let slot = match opens {
            DoughSection::Overall => Some(0),
            DoughSection::FinalDough => Some(1),
            DoughSection::Make => Some(2),
            DoughSection::Want => Some(3),
            DoughSection::Stage => None,
        };
        let earlier = slot.and_then(|slot| dough.said.get_mut(slot)).and_then(|said| said.replace(index));
        if column != raw.columns && *statement != Statement::Unread {
            self.problems.push(block_problems::uneven_section(raw.body));
        }
        if let Some(earlier) = earlier {
            let what = if opens == DoughSection::FinalDough { "final dough" } else { first_word(raw.body).0 };
            self.problems.push(block_problems::again(
                raw.body,
                self.words_of(earlier as usize),
                &format!("`{what}`"),
                "the dough",
            ));
        }
    }

    /// Adds a fact to the innermost block.
    pub(super) fn add_fact(&mut self, raw: &RawLine<'t>, statement: &Statement<'t>) -> u16 {
        let Some(depth) = self.blocks.last().map(|parent| parent.depth + 1) else {
            return self.add_outside(raw, statement);
        };
        self.align(raw, statement);
        match statement {
            Statement::Unread => self.open_unknown(raw, depth),
            _ => self.check_fact(raw, statement),
        }
        depth
    }

    /// Lets anything be under a line that could not be read: it may have been meant as a heading.
    fn open_unknown(&mut self, raw: &RawLine<'t>, depth: u16) {
        if self.blocks.len() < MAX_NESTED {
            let block = Block::new(Section::Unknown, self.lines.len(), raw.columns, depth, self.rows.open());
            self.open(block);
        }
    }

    /// Adds a line that is in no block.
    fn add_outside(&mut self, raw: &RawLine<'t>, statement: &Statement<'t>) -> u16 {
        match (&self.item, statement) {
            (_, Statement::Unread) => {
                let (first, _) = first_word(raw.body);
                let items = ["dough", "culture", "ingredient", "scale"];
                let cards = CARDS.iter().map(|card| card.keyword);
                if !crate::nearest(first, items.into_iter().chain(cards)).is_empty() {
                    self.close_item();
                    self.item = OpenItem::Unknown;
                }
                self.open_unknown(raw, 0);
            }
            (OpenItem::Dough(_), Statement::Note(_)) | (OpenItem::Unknown, _) => {}
            (item, _) => {
                let in_dough = matches!(item, OpenItem::Dough(_));
                self.problems.push(block_problems::outside(raw.body, in_dough));
            }
        }
        0
    }

    /// Checks in which column a line of a block is; gives back whether it is the column of its block.
    fn align(&mut self, raw: &RawLine<'t>, statement: &Statement<'t>) -> bool {
        let Some(block) = self.blocks.last_mut() else { return true };
        let alignment = block.align(raw.columns);
        if *statement == Statement::Unread || block.section == Section::Unknown {
            return true;
        }
        match alignment {
            Alignment::Even => {}
            Alignment::Deeper => self.problems.push(block_problems::deeper(raw.body)),
            Alignment::Shallower => self.problems.push(block_problems::shallower(raw.body)),
        }
        alignment == Alignment::Even
    }

    /// Checks whether a fact may be in the innermost block, and whether it is new.
    fn check_fact(&mut self, raw: &RawLine<'t>, statement: &Statement<'t>) {
        let Some(block) = self.blocks.last_mut() else { return };
        let section = block.section;
        if !section.holds(statement) {
            self.problems.push(match statement {
                Statement::IsFlour => amount_problems::missing(raw.body, []),
                _ => block_problems::wrong_place(raw.body, keyword(raw.body), section),
            });
            return;
        }
        if matches!(statement, Statement::Loses(_)) && !block.steams {
            self.problems.push(block_problems::wrong_place(raw.body, "loses", section));
        }
        if let Statement::Weigh(weigh) = statement {
            let earlier = self.rows.add(&mut block.rows, weigh.name.text);
            let stands_beside =
                weigh.when.is_some_and(|when| block.rows.add_time(weigh.name.text, when.text));
            let in_stage = matches!(section, Section::Stage | Section::FinalDough);
            match (weigh.when, earlier) {
                (Some(when), _) if !in_stage => {
                    self.problems.push(block_problems::no_time(when.text, section));
                }
                (_, Some(earlier)) if !stands_beside => {
                    self.problems.push(block_problems::twice(weigh.name.text, earlier, in_stage));
                }
                _ => {}
            }
        }
        if let Statement::Holds(holds) = statement {
            let before = block.holds.clone();
            block.holds = &before + &holds.percent;
            if before <= Exact::HUNDRED && block.holds > Exact::HUNDRED {
                let total = block.holds.to_decimal_string();
                self.problems.push(block_problems::holds_too_much(raw.body, &total));
            }
        }
        match statement {
            Statement::Said(said) => self.check_said(raw, said),
            _ => self.check_once(raw, statement),
        }
    }

    /// Refuses a fact of a card that is said already.
    fn check_said(&mut self, raw: &RawLine<'t>, said: &Said<'t>) {
        let index = self.lines.len();
        let Some(block) = self.blocks.last_mut() else { return };
        let section = block.section;
        let earlier = block.facts.iter().copied().find(|earlier| {
            let line = self.lines.get(*earlier).map(|line| &line.statement);
            matches!(line, Some(Statement::Said(earlier)) if said.repeats(earlier))
        });
        match earlier {
            Some(earlier) => {
                let (what, whole) = (format!("`{}`", said.form.keyword()), section.name());
                self.problems.push(block_problems::again(raw.body, self.words_of(earlier), &what, whole));
            }
            None if !said.form.repeats => block.facts.push(index),
            None => {}
        }
    }

    /// Refuses a fact that is said already.
    fn check_once(&mut self, raw: &RawLine<'t>, statement: &Statement<'t>) {
        let index = u32::try_from(self.lines.len()).unwrap_or(u32::MAX);
        let Some(block) = self.blocks.last_mut() else { return };
        let said = once(statement).and_then(|slot| block.said.get_mut(slot));
        let section = block.section;
        if let Some(earlier) = said.and_then(|said| said.replace(index)) {
            let what = match statement {
                Statement::Holds(holds) => format!("how much {} it holds", holds.part.name()),
                _ => format!("`{}`", keyword(raw.body)),
            };
            self.problems.push(block_problems::again(
                raw.body,
                self.words_of(earlier as usize),
                &what,
                section.name(),
            ));
        }
    }
}

/// The word or words that say what a fact is.
fn keyword(body: &str) -> &str {
    let (first, _) = first_word(body);
    if first == "left" { "left over" } else { first }
}
