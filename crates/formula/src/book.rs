//! The book: a bakery's doughs, cultures, pantry and scales.

use levamen_language::{Parsed, Place, Problem, Severity, Statement, TextId, parse};
use levamen_quantity::{Density, Mass, MassUnit, Share, Volume, VolumeUnit};
use rustc_hash::FxHashMap;

use crate::collect::{Block, FormulaDraft, Items, collect, used_twice};
use crate::formula::{Formula, FormulaId, Role};
use crate::pantry::{Ingredient, Pantry, key};
use crate::resolve::resolve;
use crate::scale::Scale;

/// The figures that every book starts from; each names its source.
const BUILT_IN: &str = include_str!("../data/pantry.dough");

/// A bakery's book: everything that its texts say, with every name resolved.
#[derive(Debug, Clone)]
pub struct Book {
    pantry: Pantry,
    scales: Vec<Scale>,
    entries: Vec<Entry>,
    by_name: FxHashMap<String, FormulaId>,
}

/// A dough or a culture of a book, also one that has errors.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Its name as it is written.
    pub name: String,
    /// Where its name stands.
    pub place: Place,
    /// What it is.
    pub role: Role,
    /// What it says; `None` where it has errors.
    pub formula: Option<Formula>,
    /// The errors that keep it from being made: indices into the problems of the book.
    pub problems: Vec<usize>,
}

/// What names mean while a formula is read.
pub(crate) struct Directory<'b> {
    pub(crate) pantry: &'b Pantry,
    by_name: &'b FxHashMap<String, FormulaId>,
    drafts: &'b [FormulaDraft<'b>],
}

impl<'b> Directory<'b> {
    /// The dough or culture of a name.
    pub(crate) fn find(&self, name: &str) -> Option<(FormulaId, Role)> {
        let id = *self.by_name.get(key(name).as_ref())?;
        self.drafts.get(id.0 as usize).map(|draft| (id, role(draft)))
    }

    /// The names of all doughs and cultures.
    pub(crate) fn formula_names(&self) -> impl Iterator<Item = &'b str> {
        self.drafts.iter().map(|draft| draft.name.text)
    }
}

fn role(draft: &FormulaDraft<'_>) -> Role {
    if draft.is_culture { Role::Culture } else { Role::Dough }
}

impl Book {
    /// Reads texts into a book, with every problem that they have. A name in a later layer takes the place of the
    /// same name in an earlier one; within a layer a name is used once.
    #[must_use]
    pub fn read(layers: &[&[(TextId, &str)]]) -> (Self, Vec<Problem>) {
        let parsed: Vec<Vec<(TextId, Parsed<'_>)>> = layers
            .iter()
            .map(|texts| texts.iter().map(|(id, text)| (*id, parse(*id, text))).collect())
            .collect();
        let mut problems = Vec::new();
        let mut gathered = Gathered::new();
        for layer in &parsed {
            for (id, text) in layer {
                problems.extend(text.problems.iter().cloned());
                gathered.layer(*id, collect(*id, &text.tree), &mut problems);
            }
            gathered.close_layer();
        }
        let book = gathered.resolve(&mut problems);
        (book, problems)
    }

    /// The ingredients that the book knows.
    #[must_use]
    pub const fn pantry(&self) -> &Pantry {
        &self.pantry
    }

    /// The bakery's scales; the usual ones where it names none.
    #[must_use]
    pub fn scales(&self) -> Vec<Scale> {
        if self.scales.is_empty() { Scale::usual() } else { self.scales.clone() }
    }

    /// Every dough and culture, in the order of the texts.
    pub fn entries(&self) -> impl Iterator<Item = (FormulaId, &Entry)> {
        (0..).map(FormulaId).zip(&self.entries)
    }

    /// A dough or culture of this book.
    #[must_use]
    pub fn entry(&self, id: FormulaId) -> Option<&Entry> {
        self.entries.get(id.0 as usize)
    }

    /// The dough or culture of a name; capitals and the width of spaces do not matter.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<FormulaId> {
        self.by_name.get(key(name).as_ref()).copied()
    }
}

/// The items of all texts, before any name inside them is looked up.
struct Gathered<'t> {
    pantry: Pantry,
    scales: Vec<Scale>,
    drafts: Vec<FormulaDraft<'t>>,
    by_name: FxHashMap<String, FormulaId>,
    /// The names that this layer has used, each with its place.
    used: FxHashMap<(&'static str, String), Place>,
}

impl<'t> Gathered<'t> {
    fn new() -> Self {
        let mut gathered = Self {
            pantry: Pantry::default(),
            scales: Vec::new(),
            drafts: Vec::new(),
            by_name: FxHashMap::default(),
            used: FxHashMap::default(),
        };
        let built_in = parse(TextId(u32::MAX), BUILT_IN);
        for block in collect(TextId(u32::MAX), &built_in.tree).ingredients {
            gathered.pantry.put(ingredient(&block));
        }
        gathered
    }

    /// Takes in the items of one text.
    fn layer(&mut self, text: TextId, items: Items<'t>, problems: &mut Vec<Problem>) {
        for block in &items.ingredients {
            if self.claim("ingredients", block.name.text, block.place(), problems) {
                self.pantry.put(ingredient(block));
            }
        }
        for block in &items.scales {
            if self.claim("scales", block.name.text, block.place(), problems) {
                self.scales.extend(Scale::read(block, problems));
            }
        }
        for draft in items.formulas {
            let place = Place { text, span: draft.name.span };
            if self.claim("doughs or cultures", draft.name.text, place, problems) {
                let id = FormulaId(u32::try_from(self.drafts.len()).unwrap_or(u32::MAX));
                self.by_name.insert(key(draft.name.text).into_owned(), id);
            }
            self.drafts.push(draft);
        }
    }

    /// Names of the next layer may take the place of those so far.
    fn close_layer(&mut self) {
        self.used.clear();
    }

    /// Claims a name in this layer; reports one that is taken.
    fn claim(&mut self, what: &'static str, name: &str, place: Place, problems: &mut Vec<Problem>) -> bool {
        let first = *self.used.entry((what, key(name).into_owned())).or_insert(place);
        if first != place {
            problems.push(used_twice(what, name, first, place));
        }
        first == place
    }

    /// Looks up every name and reads every line.
    fn resolve(self, problems: &mut Vec<Problem>) -> Book {
        let Self { pantry, scales, drafts, by_name, .. } = self;
        let directory = Directory { pantry: &pantry, by_name: &by_name, drafts: &drafts };
        let unread = errors_by_text(problems);
        let was_read = |draft: &FormulaDraft<'_>| {
            !unread.get(&draft.text).into_iter().flatten().any(|(place, _)| draft.holds(*place))
        };
        let formulas: Vec<Option<Formula>> =
            drafts.iter().map(|draft| resolve(&directory, draft, was_read(draft), problems)).collect();
        let errors = errors_by_text(problems);
        let entries = drafts.iter().zip(formulas).map(|(draft, formula)| {
            let own = errors.get(&draft.text).into_iter().flatten();
            let own: Vec<usize> =
                own.filter(|(place, _)| draft.holds(*place)).map(|(_, index)| *index).collect();
            Entry {
                name: draft.name.text.to_owned(),
                place: draft.place(draft.name.span),
                role: role(draft),
                formula: formula.filter(|_| own.is_empty()),
                problems: own,
            }
        });
        let entries = entries.collect();
        Book { pantry, scales, entries, by_name }
    }
}

/// The errors of each text with their places and their indices.
fn errors_by_text(problems: &[Problem]) -> FxHashMap<TextId, Vec<(Place, usize)>> {
    let mut errors: FxHashMap<TextId, Vec<(Place, usize)>> = FxHashMap::default();
    for (index, problem) in problems.iter().enumerate() {
        if let (Severity::Error, Some(label)) = (problem.severity, &problem.primary) {
            errors.entry(label.place.text).or_default().push((label.place, index));
        }
    }
    errors
}

/// Reads what an ingredient is made of.
fn ingredient(block: &Block<'_>) -> Ingredient {
    let mut read = Ingredient::plain(block.name.text);
    for line in &block.lines {
        match &line.statement {
            Statement::IsFlour => read.is_flour = true,
            Statement::Holds(holds) => {
                let share = Share::from_percent(holds.percent.clone());
                match holds.part {
                    levamen_language::Part::Water => read.water = share,
                    levamen_language::Part::Fat => read.fat = share,
                    levamen_language::Part::Sugar => read.sugar = share,
                    levamen_language::Part::Salt => read.salt = share,
                }
            }
            Statement::Density(density) => {
                let kilograms = Mass::from_unit(density.figure.clone(), MassUnit::Kilogram);
                let litre = Volume::from_unit(levamen_quantity::Exact::ONE, VolumeUnit::Litre);
                read.density = Density::from_mass_of(&kilograms, &litre);
            }
            Statement::Source(words) => read.source = Some(words.text.to_owned()),
            _ => {}
        }
    }
    read
}
